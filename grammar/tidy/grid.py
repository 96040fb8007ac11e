"""Printed rows made into columns: figures below each other by their decimal points, headings in the middle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import zip_longest

from grammar.diagnostics.lettering import columns
from grammar.tidy.anatomy import Anatomy
from grammar.tidy.printing import spaced
from grammar.tidy.tokens import Token


@dataclass(frozen=True, slots=True)
class _Cell:
    """What stands in a cell: a figure in two halves, parted at its decimal point, or a heading."""

    whole: str
    rest: str
    is_figure: bool


@dataclass(frozen=True, slots=True)
class _Column:
    """How wide a column is, and how much of it the figures take before and behind the point."""

    width: int
    whole: int
    rest: int


def grid(rows: Sequence[Sequence[Token]], found: Anatomy) -> list[str]:
    """The text of each row, its columns as wide as in every other."""
    cells = [[_cell(words, found) for words in _between_bars(row)] for row in rows]
    across = [_column([cell for cell in column if cell]) for column in zip_longest(*cells)]
    return [
        "| " + " | ".join(_laid(cell, column) for cell, column in zip(row, across, strict=False)) + " |"
        for row in cells
    ]


def _between_bars(row: Sequence[Token]) -> list[list[Token]]:
    cells: list[list[Token]] = [[]]
    for word in row[1:]:
        if word.text == "|":
            cells.append([])
        else:
            cells[-1].append(word)
    return cells[:-1]


def _cell(words: Sequence[Token], found: Anatomy) -> _Cell:
    text = spaced(words, found)
    if not text or text[0].isalpha():
        return _Cell(text, "", is_figure=False)
    width = len(text) - len(text.lstrip("-0123456789"))
    return _Cell(text[:width], text[width:], is_figure=True)


def _column(cells: Sequence[_Cell]) -> _Column:
    figures = [cell for cell in cells if cell.is_figure]
    whole = max((len(cell.whole) for cell in figures), default=0)
    rest = max((columns(cell.rest) for cell in figures), default=0)
    headings = max((len(cell.whole) for cell in cells if not cell.is_figure), default=0)
    return _Column(max(whole + rest, headings), whole, rest)


def _laid(cell: _Cell, column: _Column) -> str:
    if cell.is_figure:
        return (cell.whole.rjust(column.whole) + cell.rest.ljust(column.rest)).rjust(column.width)
    left = (column.width - len(cell.whole)) // 2
    return (" " * left + cell.whole).ljust(column.width)
