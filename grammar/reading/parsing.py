"""One statement's text -> lark's tree, or the place where it stopped making sense."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from copy import copy
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Final

from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedCharacters, UnexpectedInput, UnexpectedToken
from lark.lexer import PatternRE, TerminalDef
from lark.parsers.lalr_interactive_parser import InteractiveParser

SOFT_WORDS: Final = frozenset(
    (
        "a",
        "one",
        "date",
        "area",
        "applicable",
        "steps",
        "length",
        "take",
        "down",
        "fuel",
        "burn",
        "airframe",
        "order",
        "permit",
        "supplement",
        "configuration",
        "amend",
        "loosen",
        "withdraw",
        "after",
        "issued",
        "add",
        "adds",
        "each",
        "apart",
        "use",
        "the",
        "next",
        "higher",
        "lower",
    )
)
"""Words of the language that may also be names, because nothing can be mistaken for anything where they stand."""


_END_OF_WORD: Final = r"(?![A-Za-z0-9_]|[./][A-Za-z%])"
"""What shows that a word is whole: `in/lb` is one unit and does not begin with the word `in`."""

_LITERAL: Final = re.compile(r'"([a-z_]+)"')


@dataclass(frozen=True, slots=True)
class Halt:
    """Where reading a statement had to stop.

    ``read`` are the words before, ``at`` the offset in the statement, ``found`` the word there (none at a
    sign that the language does not have), ``wanted`` the names of all terminals that could have stood there.
    """

    read: tuple[Token, ...]
    at: int
    found: Token | None
    wanted: frozenset[str]


@cache
def grammar() -> Lark:
    """The grammar, made ready once for the whole process when it is first asked for."""
    text = _grammar_text()
    return Lark(
        text,
        parser="lalr",
        lexer="contextual",
        start="statement",
        propagate_positions=True,
        maybe_placeholders=False,
        edit_terminals=_whole_words(words()),
    )


@cache
def words() -> frozenset[str]:
    """The words of the language, from the grammar."""
    return frozenset(_LITERAL.findall(_grammar_text()))


@cache
def reserved_words() -> frozenset[str]:
    """The words of the language that cannot be names."""
    return words() - SOFT_WORDS


def _grammar_text() -> str:
    return resources.files("grammar").joinpath("sheet.lark").read_text(encoding="utf-8")


def _whole_words(language: frozenset[str]) -> Callable[[TerminalDef], None]:
    """What makes the language's words stand as whole words, and keeps names and units from being such words."""
    no_name = rf"(?!(?:{'|'.join(sorted(language - SOFT_WORDS))})(?![a-z0-9_]))"
    no_unit = rf"(?!(?:{'|'.join(sorted(language))}){_END_OF_WORD})"

    def edit(terminal: TerminalDef) -> None:
        pattern = terminal.pattern
        if pattern.value in language:
            terminal.pattern = PatternRE(pattern.value + _END_OF_WORD)
            terminal.priority = 1
        elif terminal.name in {"NAME", "UNIT"}:
            terminal.pattern = PatternRE((no_name if terminal.name == "NAME" else no_unit) + pattern.value)

    return edit


def parse(text: str) -> Tree[Token] | Halt:
    """The tree of one statement, or where it stopped making sense."""
    try:
        return grammar().parse(text)
    except UnexpectedInput as stopped:
        return _halt(text, stopped)


def wanted_after(read: Sequence[Token]) -> frozenset[str]:
    """The names of all terminals that can stand behind these words of a statement."""
    reader = _reader("")
    for token in read:
        reader.feed_token(token)
    return frozenset(reader.accepts())  # type: ignore[no-untyped-call]  # lark leaves it without types


def _reader(text: str) -> InteractiveParser:
    """A reading of ``text`` word by word, which builds no tree: only what can stand next is asked of it."""
    reader = grammar().parse_interactive(text)
    quick = copy(reader.parser_state.parse_conf)
    quick.callbacks = {}
    reader.parser_state.parse_conf = quick
    return reader


def _halt(text: str, stopped: UnexpectedInput) -> Halt:
    """Read up to the stop once more, to know everything that could have stood there.

    The state in which lark stops may already have closed what stands before; the state ahead of it has not.
    """
    at = _place(stopped, text)
    reader = _reader(text)
    read: list[Token] = []
    try:
        for token in reader.lexer_thread.lex(reader.parser_state):  # type: ignore[no-untyped-call]
            if token.start_pos >= at:
                break
            reader.feed_token(token)
            read.append(token)
    except UnexpectedInput:
        pass
    found = stopped.token if isinstance(stopped, UnexpectedToken) and stopped.token.type != "$END" else None
    return Halt(tuple(read), at, found, frozenset(reader.accepts()))  # type: ignore[no-untyped-call]


def _place(stopped: UnexpectedInput, text: str) -> int:
    """The offset of the stop in the statement; the end of the text where the statement breaks off."""
    if isinstance(stopped, UnexpectedToken) and stopped.token.type == "$END":
        return len(text)
    if isinstance(stopped, UnexpectedToken | UnexpectedCharacters) and stopped.pos_in_stream is not None:
        return stopped.pos_in_stream
    return len(text)
