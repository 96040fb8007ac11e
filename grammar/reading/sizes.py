"""How large a file and its parts may be. Whatever is larger is refused at once and not read at length."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice
from typing import Final

from lark import Token, Tree

from grammar.diagnostics.problem import Problem
from grammar.reading.statements import Passage
from grammar.text import SourceText, Span

LETTERS: Final = 1_000_000
WORDS: Final = 100_000
LINE: Final = 4_000
STATEMENTS: Final = 20_000
STATEMENT: Final = 600_000
DEPTH: Final = 500
CELLS: Final = 50_000
PROBLEMS: Final = 1_000
DEAR: Final = 50
"""For each so many letters a mistaken statement counts as one problem more: it is dear to look into."""

_SHORTEST_DEEP: Final = DEPTH
_LONG_LINE: Final = re.compile(rf"[^\n]{{{LINE + 1}}}")
_WORD: Final = re.compile(r'"[^"\n]*"|--[^\n]*|\|[ \t]*-?\d+(?:\.\d+)?|\d+(?:\.\d+)?|\w+|[^\w\s]')
"""A word, a sign, a figure; a label, a comment and a cell of a row count as one."""

_BARS_OF_ROWS: Final = re.compile(r"^[ \t]*\|", re.MULTILINE)


def file_too_large(source: SourceText) -> Problem | None:
    """A file, or a line of it, so long that it is not read at all."""
    if len(source.text) > LETTERS:
        facts = {"size": str(len(source.text)), "most": str(LETTERS)}
        return Problem("901", source.span(0, 0), facts)
    long_line = _LONG_LINE.search(source.text)
    if long_line is not None:
        return Problem("903", source.span(long_line.start(), long_line.start() + 40), {"most": str(LINE)})
    first_too_many = next(islice(_WORD.finditer(source.text), WORDS, None), None)
    if first_too_many is None:
        return None
    return Problem("920", source.span(*first_too_many.span()), {"most": str(WORDS)})


def too_many_statements(passages: tuple[Passage, ...], source: SourceText) -> Iterator[Problem]:
    """More statements than a file may have."""
    if len(passages) > STATEMENTS:
        first = passages[STATEMENTS]
        span = source.span(first.start, first.start + len(first.keyword))
        yield Problem("902", span, {"most": str(STATEMENTS), "count": str(len(passages))})


def statement_too_long(passage: Passage, source: SourceText) -> Problem | None:
    """One statement longer than any table that was ever printed."""
    if passage.end - passage.start <= STATEMENT:
        return None
    return Problem("904", _head(passage, source), {"most": str(STATEMENT), "statement": passage.keyword})


def too_deep(tree: Tree[Token], passage: Passage, source: SourceText) -> Problem | None:
    """Brackets within brackets, or a chain of values, beyond what anybody can follow."""
    if passage.end - passage.start <= _SHORTEST_DEEP or _depth(tree) <= DEPTH:
        return None
    return Problem("905", _head(passage, source), {"most": str(DEPTH), "statement": passage.keyword})


def too_many_cells(passage: Passage, source: SourceText) -> Problem | None:
    """A statement with too many cells: each stands behind a bar, and one bar more ends a row."""
    written = source.text[passage.start : passage.end]
    bars = written.count("|")
    cells = bars - len(_BARS_OF_ROWS.findall(written)) if bars > CELLS else 0
    if cells <= CELLS:
        return None
    return Problem("908", _head(passage, source), {"most": str(CELLS), "count": str(cells)})


def _head(passage: Passage, source: SourceText) -> Span:
    """The keyword of a statement."""
    return source.span(passage.start, passage.start + len(passage.keyword))


def _depth(tree: Tree[Token]) -> int:
    """How many levels a tree has, found without calling itself."""
    depths: dict[int, int] = {}
    for branch in tree.iter_subtrees():
        below = (depths[id(child)] for child in branch.children if isinstance(child, Tree))
        depths[id(branch)] = 1 + max(below, default=0)
    return depths[id(tree)]
