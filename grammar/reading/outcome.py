"""What becomes of one statement: its node of the tree, or the problems that keep it from being read."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from grammar.diagnostics.problem import Problem
from grammar.diagnostics.suggestions import nearest
from grammar.reading import sizes
from grammar.reading.afterthoughts import misread
from grammar.reading.building import build
from grammar.reading.drafts import Draft
from grammar.reading.mistakes import mistake
from grammar.reading.parsing import Halt, parse
from grammar.reading.statements import Passage
from grammar.reading.stop import CHANGES, STATEMENT_WORDS
from grammar.text import SourceText
from grammar.tree import Amend, Loosen, Statement, Unread

_NAME: Final = re.compile(r"[^\W\d]+[ \t]+([A-Za-z][\w-]*)")
_NAME_CHANGED: Final = re.compile(rf"[^\W\d]+[ \t]+(?:(?:{'|'.join(STATEMENT_WORDS)})[ \t]+)?([A-Za-z][\w-]*)")
_INNER: Final = re.compile(rf"(?<=[ \t])(?:{'|'.join(STATEMENT_WORDS)})[ \t]+[a-z]")
_SWALLOWING: Final = frozenset({"217", "222", "232"})
"""The codes of problems in which one statement has swallowed another."""

_INDENTED: Final = "222"
_SHORT: Final = 5_000
"""How long a statement may be for more than its first mistake to be looked for."""

_ROUNDS: Final = 20
"""How many mistakes of one statement are looked for, each behind a certain correction of the one before."""


@dataclass(frozen=True)
class Outcome:
    """What became of one statement."""

    statement: Statement | None
    unread: tuple[Unread, ...]
    problems: tuple[Problem, ...]
    is_skipped: bool = False


def outcome(passage: Passage, slips: tuple[Problem, ...], source: SourceText, *, diagnose: bool) -> Outcome:
    """One statement read, or the problems that keep it from being read, besides its ``slips``.

    Without ``diagnose`` it is left unread: enough has been said of the file.
    """
    if not diagnose:
        return Outcome(None, (_stub(source, passage.start, passage.end),), (), is_skipped=True)
    too_large = sizes.statement_too_long(passage, source) or sizes.too_many_cells(passage, source)
    if too_large is not None:
        return _unread(passage, source, (too_large,))
    tree = None if slips else parse(source.text[passage.start : passage.end])
    if tree is None or isinstance(tree, Halt):
        return _unread(passage, source, tuple(_mistakes(passage, slips, source, tree)))
    too_deep = sizes.too_deep(tree, passage, source)
    if too_deep is not None:
        return _unread(passage, source, (too_deep,))
    statement = build(tree, source, passage.start)
    stated = statement.statement if isinstance(statement, Amend | Loosen) else statement
    problems = tuple(misread(stated, source))
    return _unread(passage, source, problems) if problems else Outcome(statement, (), ())


def _mistakes(
    passage: Passage, slips: tuple[Problem, ...], source: SourceText, halt: Halt | None
) -> Iterator[Problem]:
    """The mistakes of a statement, as far as everything before each can be corrected for certain.

    ``halt`` is where reading it stopped as it stands, when that is known.
    """
    mends = [slip.mend for slip in slips if slip.mend is not None]
    if len(mends) < len(slips):
        return
    draft = Draft(source, passage.start, passage.end)
    draft.correct(mends)
    for _ in range(_ROUNDS):
        before = draft.text
        stopped = halt or parse(before)
        halt = None
        if not isinstance(stopped, Halt):
            return
        problem = mistake(stopped, Passage(0, len(before), _keyword(before), ()), SourceText("", before))
        yield draft.placed(problem)
        if problem.mend is None or problem.code == _INDENTED or len(before) > _SHORT:
            return
        draft.correct_here(problem.mend)
        if draft.text == before:
            return


def _unread(passage: Passage, source: SourceText, problems: tuple[Problem, ...]) -> Outcome:
    """A statement that could not be read, and any that it has swallowed."""
    nodes = [_stub(source, passage.start, passage.end)]
    if any(problem.code in _SWALLOWING for problem in problems):
        inner = _INNER.finditer(source.text, passage.start + 1, passage.end)
        nodes += [_stub(source, found.start(), passage.end) for found in inner]
    return Outcome(None, tuple(nodes), problems)


def _stub(source: SourceText, start: int, end: int) -> Unread:
    """What is known of a statement that could not be read: its keyword and its name as they were meant."""
    typed = _keyword(source.text[start : start + 60])
    keyword = typed if typed in STATEMENT_WORDS else nearest(typed, STATEMENT_WORDS) or typed
    found = (_NAME_CHANGED if keyword in CHANGES else _NAME).match(source.text, start, end)
    has_name = found is not None and keyword not in {"datum", "chord", "burn"}
    name = found[1].lower().replace("-", "_") if found and has_name else None
    return Unread(keyword, name, source.span(start, end))


def _keyword(text: str) -> str:
    """The first word of a statement, in small letters."""
    found = re.match(r"\w+", text)
    return found[0].lower() if found else text[:1]
