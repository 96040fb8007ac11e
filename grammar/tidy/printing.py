"""Lines of words made into text: spaces, breaks where a line is too long, comments in their places."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from grammar.diagnostics.lettering import columns
from grammar.tidy.anatomy import Anatomy, Break
from grammar.tidy.tokens import Token

WIDTH: Final = 100
"""The most columns of a line, save where a word by itself is longer; a comment behind it does not count."""

STEP: Final = 2
"""How far a further line is indented."""


DEEPEST: Final = 40
"""A line indented further than this is left as long as it is."""


def spaced(words: Sequence[Token], found: Anatomy) -> str:
    """The words in one line with the spaces that belong between them."""
    if not words:
        return ""
    text = [words[0].text]
    for before, word in pairwise(words):
        text.append(_space(before, word, found))
        text.append(word.text)
    return "".join(text)


def _space(before: Token, word: Token, found: Anatomy) -> str:
    if before.start in found.signs:
        return " " if word.text == "-" else ""
    is_tight = before.text == "(" or word.text in {")", ","} or (word.text == "(" and before.start in found.calls)
    return "" if is_tight else " "


def printed(words: Sequence[Token], indent: int, found: Anatomy) -> list[str]:
    """The lines that the words take: a comment breaks a line, and so does its end being too far out."""
    made: list[str] = []
    for number, chunk in enumerate(_between_comments(words)):
        margin = indent if number == 0 else indent + STEP
        made.extend(" " * margin + comment for comment in chunk[0].before)
        made.extend(wrapped(chunk, margin, found))
        if chunk[-1].after is not None:
            made[-1] += "  " + chunk[-1].after
    return made


def _between_comments(words: Sequence[Token]) -> Iterator[tuple[Token, ...]]:
    chunk: list[Token] = []
    for word in words:
        if chunk and (word.before or chunk[-1].after is not None):
            yield tuple(chunk)
            chunk = []
        chunk.append(word)
    if chunk:
        yield tuple(chunk)


def wrapped(words: Sequence[Token], indent: int, found: Anatomy) -> list[str]:
    """The words on one line, or on several where one is too long, broken at the outermost places there are."""
    text = " " * indent + spaced(words, found)
    breaks = _breaks(words, found)
    if columns(text) <= WIDTH or not breaks or indent > DEEPEST:
        return [text]
    outermost = min(each.depth for each in breaks.values())
    chosen = {at: each for at, each in breaks.items() if each.depth == outermost}
    pieces = _pieces(words, chosen)
    if not any(each.is_each for each in chosen.values()):
        pieces = _joined_while_they_fit(pieces, indent, found)
    made = wrapped(pieces[0], indent, found)
    for piece in pieces[1:]:
        made.extend(wrapped(piece, indent + STEP, found))
    return made


def _breaks(words: Sequence[Token], found: Anatomy) -> dict[int, Break]:
    """The places in the row of words, counted from its first, where it may be broken."""
    breaks: dict[int, Break] = {}
    for number, word in enumerate(words):
        kind = found.breaks.get(word.start)
        if kind is not None:
            at = number - 1 if kind.is_word_before else number
            if at > 0:
                breaks[at] = kind
    return breaks


def _pieces(words: Sequence[Token], at: dict[int, Break]) -> list[Sequence[Token]]:
    edges = [0, *sorted(at), len(words)]
    return [words[start:end] for start, end in pairwise(edges)]


def _joined_while_they_fit(pieces: list[Sequence[Token]], indent: int, found: Anatomy) -> list[Sequence[Token]]:
    made = [pieces[0]]
    for piece in pieces[1:]:
        together = [*made[-1], *piece]
        margin = indent if len(made) == 1 else indent + STEP
        if margin + columns(spaced(together, found)) <= WIDTH:
            made[-1] = together
        else:
            made.append(piece)
    return made
