"""The rows of printed tables and envelopes: figures in their columns, headings, values that rise."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from grammar import tree
from grammar.checking import figures
from grammar.checking.scope import Scope
from grammar.text import Span
from grammar.units import Unit


def number(scope: Scope, cell: tree.Figure | tree.Word | None, unit: Unit, row: tree.Row) -> Fraction | None:
    """A cell's figure in base units."""
    if not isinstance(cell, tree.Figure):
        span = cell.span if isinstance(cell, tree.Word) else row.span
        scope.notebook.write("506", span, where="A cell of this row" if cell is None else f"The cell {cell.text}")
        return None
    if cell.unit is not None:
        scope.notebook.write("419", cell.span, figure=scope.typed(cell.span))
        return None
    return unit.to_base(cell.amount)


def has_length(scope: Scope, row: tree.Row, wanted: int) -> bool:
    """Whether a row has as many cells as the heading."""
    if len(row.cells) == wanted:
        return True
    scope.notebook.write(
        "505",
        row.span,
        given=figures.counted(len(row.cells), "cell", "cells"),
        wanted=figures.counted(wanted, "cell is wanted", "cells are wanted"),
    )
    return False


def numbers(scope: Scope, row: tree.Row, units: tuple[Unit, ...]) -> tuple[Fraction, ...] | None:
    """A row's figures, each in the unit of its column."""
    if not has_length(scope, row, len(units)):
        return None
    found = [number(scope, cell, unit, row) for cell, unit in zip(row.cells, units, strict=True)]
    whole = tuple(one for one in found if one is not None)
    return whole if len(whole) == len(found) else None


def heading(scope: Scope, row: tree.Row, wanted: tuple[str, ...]) -> bool:
    """Whether the first row says what its columns hold."""
    given = tuple(cell.text if isinstance(cell, tree.Word) else "" for cell in row.cells)
    if given == wanted:
        return True
    scope.notebook.write("507", row.span, given=" | ".join(given) or "nothing", wanted=" | ".join(wanted))
    return False


def rises(scope: Scope, axis: tree.Axis, points: list[tuple[Fraction, Span]], unit: Unit) -> bool:
    """Whether the values along an axis rise strictly, and are two or more."""
    if len(points) < 2:
        scope.notebook.write("518", axis.name.span, axis=axis.name.text)
        return False
    for (before, _), (point, span) in pairwise(points):
        if point <= before:
            scope.notebook.write(
                "504",
                span,
                axis=axis.name.text,
                before=figures.shown(before, unit),
                figure=figures.shown(point, unit),
            )
            return False
    return True


def span_of(row: tree.Row, at: int) -> Span:
    """Where a cell stands; an empty one is somewhere in its row."""
    cell = row.cells[at]
    return row.span if cell is None else cell.span
