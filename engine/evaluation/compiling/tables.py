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
from grammar.sheet import Table, Taking


def look_up(table: Table, arguments: tuple[Form, ...], writer: Writer, data: Data) -> Form:
    """The value of a table as a form."""
    made = tuple(_variable(argument, writer) for argument in arguments)
    moves = any(writer.degree(argument) or writer.degree_below(argument) for argument in made)
    is_late = any(writer.is_late(argument) for argument in made)
    traits = BENT if moves else STANDS, is_late
    if table.taking is not Taking.LINEAR:
        return _printed_value(table, made, writer, data, traits)
    cells = tuple(
        _cell(axis.points, argument, writer, data) for axis, argument in zip(table.axes, made, strict=True)
    )
    rows, scale = _coefficients(table, tuple(argument.scale for argument in made))
    where = "".join(f"[{cell}]" for cell in cells)
    return _interpolated(f"{data.add(rows)}{where}", made, scale, writer, traits)


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
    _leave_outside(points, argument, writer)
    if argument.below is None:
        if not inner:
            return "0"
        return f"bisect_right({data.add(tuple(ceil(point / argument.scale) for point in inner))}, {name})"
    return " + ".join(f"({_not_below(point, argument)})" for point in inner) or "0"


def _leave_outside(points: tuple[Fraction, ...], argument: Form, writer: Writer) -> None:
    """Leave the function where the argument lies beyond the printed values."""
    if argument.below is None:
        low, high = ceil(points[0] / argument.scale), floor(points[-1] / argument.scale)
        writer.line(f"if not {low} <= {argument.terms[0][0]} <= {high}: return None")
        return
    over, under = _not_below(points[0], argument), _not_below(points[-1], argument, "<=")
    writer.line(f"if not ({over} and {under}): return None")


def _not_below(point: Fraction, argument: Form, relation: str = ">=") -> str:
    """Code that compares a quotient with a point of the axis."""
    ratio = point / argument.scale
    return f"{argument.terms[0][0]} * {ratio.denominator} {relation} {ratio.numerator} * {argument.below}"


# ---- tables that take the next printed value


def _printed_value(
    table: Table, arguments: tuple[Form, ...], writer: Writer, data: Data, traits: tuple[int, bool]
) -> Form:
    """The value of a table that takes the next printed row or column, higher or lower."""
    scale = common_scale(value for row in table.rows for value in row if value)
    rows = tuple(tuple(int(value / scale) for value in row) for row in table.rows)
    is_higher = table.taking is Taking.NEXT_HIGHER
    places: list[str] = []
    for axis, argument in zip(table.axes, arguments, strict=True):
        _leave_outside(axis.points, argument, writer)
        places.append(_printed_place(axis.points, argument, data, is_higher))
    column = places[1] if len(places) > 1 else "0"
    degree, is_late = traits
    return named(writer.let(f"{data.add(rows)}[{places[0]}][{column}]", degree, is_late=is_late), scale)


def _printed_place(points: tuple[Fraction, ...], argument: Form, data: Data, is_higher: bool) -> str:
    """Code for the number of the printed value: how many lie below, or at and below without the first."""
    name, counted = argument.terms[0][0], points[:-1] if is_higher else points[1:]
    if argument.below is not None:
        relation = ">" if is_higher else ">="
        return " + ".join(f"({_not_below(point, argument, relation)})" for point in counted) or "0"
    if is_higher:
        return f"bisect_left({data.add(tuple(floor(point / argument.scale) for point in counted))}, {name})"
    return f"bisect_right({data.add(tuple(ceil(point / argument.scale) for point in counted))}, {name})"


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
    below = (
        writer.times(first.below, second.below) if first.below and second.below else first.below or second.below
    )
    return named(value, scale, below)


def _along(at_zero: str, slope: str, argument: Form) -> str:
    """Code for a straight line at an argument, times what the argument is divided by."""
    by = f" * {argument.below}" if argument.below else ""
    return f"{at_zero}{by} + {slope} * {argument.terms[0][0]}"
