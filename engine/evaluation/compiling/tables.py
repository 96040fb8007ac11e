"""Tables in generated code: one row of whole-number coefficients for each cell, over one common denominator.

Within a cell the value is ``a + b x`` on one axis and ``a + b x + c y + d x y`` on two, which gives just the
linear interpolation between the printed values. Beyond the printed values the plain evaluator answers.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

from engine.evaluation.compiling.data import Data
from engine.evaluation.compiling.forms import Form, common_scale, named
from engine.evaluation.compiling.writer import BENT, STANDS, Writer
from grammar.sheet import Table


def look_up(table: Table, arguments: tuple[Form, ...], writer: Writer, data: Data) -> Form:
    """The value of a table as a form."""
    made = tuple(_variable(argument, writer) for argument in arguments)
    cells = tuple(
        _cell(axis.points, argument, writer, data) for axis, argument in zip(table.axes, made, strict=True)
    )
    rows, scale = _coefficients(table, tuple(argument.scale for argument in made))
    where = "".join(f"[{cell}]" for cell in cells)
    moves = any(writer.degree(argument) or writer.degree_below(argument) for argument in made)
    is_late = any(writer.is_late(argument) for argument in made)
    return _interpolated(f"{data.add(rows)}{where}", made, scale, writer, (BENT if moves else STANDS, is_late))


def _variable(argument: Form, writer: Writer) -> Form:
    """An argument under one name."""
    made = writer.single(argument)
    if made.is_constant:
        return named(writer.let(str(made.constant), STANDS, is_late=False), made.scale)
    return made


# ---- which cell


def _cell(points: tuple[Fraction, ...], argument: Form, writer: Writer, data: Data) -> str:
    """Code for the number of the cell; whatever lies outside leaves the function."""
    name, inner = argument.terms[0][0], points[1:-1]
    if argument.below is None:
        low, high = ceil(points[0] / argument.scale), floor(points[-1] / argument.scale)
        writer.line(f"if not {low} <= {name} <= {high}: return None")
        if not inner:
            return "0"
        return f"bisect_right({data.add(tuple(ceil(point / argument.scale) for point in inner))}, {name})"
    over = _not_below(points[0], argument)
    under = _not_below(points[-1], argument, "<=")
    writer.line(f"if not ({over} and {under}): return None")
    return " + ".join(f"({_not_below(point, argument)})" for point in inner) or "0"


def _not_below(point: Fraction, argument: Form, relation: str = ">=") -> str:
    """Code that compares a quotient with a point of the axis."""
    ratio = point / argument.scale
    return f"{argument.terms[0][0]} * {ratio.denominator} {relation} {ratio.numerator} * {argument.below}"


# ---- the coefficients


def _coefficients(table: Table, scales: tuple[Fraction, ...]) -> tuple[object, Fraction]:
    """For each cell its coefficients as whole numbers, and what one of them is worth."""
    if len(table.axes) == 1:
        points = table.axes[0].points
        lines = [
            _line(span, (low[0], high[0]))
            for span, (low, high) in zip(pairwise(points), pairwise(table.rows), strict=True)
        ]
        exact: list[list[tuple[Fraction, ...]]] = [[(a, b * scales[0]) for a, b in lines]]
    else:
        exact = [
            [_plane(rows, columns, corners, scales) for columns, corners in _cells_of_row(table, index)]
            for index, rows in enumerate(pairwise(table.axes[0].points))
        ]
    scale = common_scale(k for row in exact for cell in row for k in cell if k)
    whole = tuple(tuple(tuple(int(k / scale) for k in cell) for cell in row) for row in exact)
    return (whole[0] if len(table.axes) == 1 else whole), scale


Pair = tuple[Fraction, Fraction]


def _cells_of_row(table: Table, index: int) -> list[tuple[Pair, tuple[Pair, Pair]]]:
    columns = pairwise(table.axes[1].points)
    low, high = pairwise(table.rows[index]), pairwise(table.rows[index + 1])
    return [(span, (a, b)) for span, a, b in zip(columns, low, high, strict=True)]


def _line(span: Pair, ends: Pair) -> Pair:
    """The straight line through two points: its value at zero and its slope."""
    slope = (ends[1] - ends[0]) / (span[1] - span[0])
    return ends[0] - slope * span[0], slope


def _plane(
    rows: Pair, columns: Pair, corners: tuple[Pair, Pair], scales: tuple[Fraction, ...]
) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """The bilinear function through four corners: coefficients of 1, x, y and x y for scaled arguments."""
    low, high = _line(columns, corners[0]), _line(columns, corners[1])
    a, b = _line(rows, (low[0], high[0]))
    c, d = _line(rows, (low[1], high[1]))
    return a, b * scales[0], c * scales[1], d * scales[0] * scales[1]


# ---- the value


def _interpolated(
    cell: str, arguments: tuple[Form, ...], scale: Fraction, writer: Writer, traits: tuple[int, bool]
) -> Form:
    degree, is_late = traits
    names = tuple(writer.fresh(degree, is_late=is_late) for _ in range(2 ** len(arguments)))
    writer.line(f"{', '.join(names)} = {cell}")
    above = _along(names[0], names[1], arguments[0])
    if len(arguments) == 1:
        return named(writer.let(above, degree, is_late=is_late), scale, arguments[0].below)
    first, second = arguments
    low, slope = (writer.let(text, degree, is_late=is_late) for text in (above, _along(names[2], names[3], first)))
    value = writer.let(_along(low, slope, second), degree, is_late=is_late)
    below = writer.times(first.below, second.below) if first.below and second.below else first.below or second.below
    return named(value, scale, below)


def _along(at_zero: str, slope: str, argument: Form) -> str:
    """Code for a straight line at an argument, times what the argument is divided by."""
    by = f" * {argument.below}" if argument.below else ""
    return f"{at_zero}{by} + {slope} * {argument.terms[0][0]}"
