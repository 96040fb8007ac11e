"""Where the statements of a file begin and end, and where its comments stand."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

_SCRAP: Final = re.compile(r'"[^"\n]*"?|“[^”"\n]*[”"]?|„[^“”"\n]*[“”"]?|--[^\n]*')
_FIRST_WORD: Final = re.compile(r"[^\W\d]\w*|.", re.DOTALL)
_FOREIGN_COMMENT: Final = ("--", "––", "#", "//", "/*", "—")
BYTE_ORDER_MARK: Final = "\ufeff"

CLAUSE_WORDS: Final = frozenset(
    {
        "effective", "until", "replaces", "from", "to", "arm", "lateral", "density", "in",
        "floor", "assumed", "source", "note", "at", "throughout", "when", "expect", "and",
        "or", "otherwise", "between", "inside", "is", "with", "then", "gives", "against",
        "of", "applies", "after", "issued", "airframe", "use", "add",
    }
)  # fmt: skip
"""Words that begin a further line of a statement and never a statement."""


@dataclass(frozen=True, slots=True)
class Passage:
    """The stretch of a file that one statement takes, from its keyword to its last word.

    ``strays`` are the offsets of further lines that were not indented.
    """

    start: int
    end: int
    keyword: str
    strays: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """One written line, without the blanks around it and the comment behind it."""

    start: int
    end: int
    at_margin: bool
    word: str


@dataclass(frozen=True, slots=True)
class Layout:
    """How a file is laid out: its statements, its comments, and what was indented before the first of them."""

    passages: tuple[Passage, ...]
    comments: tuple[tuple[int, int], ...]
    before: tuple[Line, ...]


def lay_out(text: str) -> Layout:
    """The statements and comments of ``text``, found by the left margin alone."""
    comments = tuple(_comments(text))
    passages: list[Passage] = []
    before: list[Line] = []
    for line in _written_lines(text, comments):
        if line.at_margin and not (passages and _is_stray(line.word)):
            passages.append(Passage(line.start, line.end, line.word, ()))
        elif passages:
            passages[-1] = _longer(passages[-1], line)
        else:
            before.append(line)
    return Layout(tuple(passages), comments, tuple(before))


def _longer(passage: Passage, line: Line) -> Passage:
    """The passage with one more line."""
    strays = (*passage.strays, line.start) if line.at_margin else passage.strays
    return Passage(passage.start, line.end, passage.keyword, strays)


def _is_stray(word: str) -> bool:
    """Whether a line at the margin surely belongs to the statement above it."""
    return word in CLAUSE_WORDS or not word[0].isalpha()


def _comments(text: str) -> Iterator[tuple[int, int]]:
    """The comments: from two hyphens outside a label to the end of the line."""
    for scrap in _SCRAP.finditer(text):
        if scrap[0].startswith("--"):
            yield scrap.start(), scrap.start() + len(scrap[0].rstrip())


def _written_lines(text: str, comments: tuple[tuple[int, int], ...]) -> Iterator[Line]:
    """The lines that hold more than blanks and a comment, without either."""
    comment_starts = dict.fromkeys(start for start, _ in comments)
    starts = iter(comment_starts)
    next_comment = next(starts, len(text))
    at = 1 if text.startswith(BYTE_ORDER_MARK) else 0
    while at < len(text):
        stop = text.find("\n", at)
        stop = len(text) if stop < 0 else stop
        written = text[at : min(stop, next_comment)]
        if next_comment <= stop:
            next_comment = next(starts, len(text))
        inner = written.strip()
        if inner and not inner.startswith(_FOREIGN_COMMENT):
            start = at + len(written) - len(written.lstrip())
            yield Line(start, start + len(inner), start == at, _first_word(inner))
        at = stop + 1


def _first_word(line: str) -> str:
    """The word, or the sign, that a line begins with."""
    found = _FIRST_WORD.match(line)
    return found[0] if found else line[0]
