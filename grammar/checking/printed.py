"""Printed tables and envelopes: rectangular, rising, closed by simple polygons."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from grammar import sheet, tree
from grammar.checking import clauses, figures, polygons
from grammar.checking.declarations import is_first
from grammar.checking.inputs import label_of
from grammar.checking.scope import Scope
from grammar.diagnostics.problem import Elsewhere
from grammar.text import Span
from grammar.units import Unit


def check_printed(scope: Scope, file: tree.File) -> None:
    """Resolve every table and envelope of the file."""
    for statement in file.statements:
        match statement:
            case tree.Table() if is_first(scope, statement):
                table = _table(scope, statement)
                if table is None:
                    scope.faulty.add(statement.name.text)
                else:
                    scope.tables[table.name] = table
            case tree.Envelope() if is_first(scope, statement):
                envelope = _envelope(scope, statement)
                if envelope is None:
                    scope.faulty.add(statement.name.text)
                else:
                    scope.envelopes[envelope.name] = envelope
            case _:
                continue


# ---- cells


def _number(scope: Scope, cell: tree.Figure | tree.Word | None, unit: Unit, row: tree.Row) -> Fraction | None:
    """A cell's figure in base units."""
    if not isinstance(cell, tree.Figure):
        span = cell.span if isinstance(cell, tree.Word) else row.span
        scope.notebook.write("506", span, where="A cell of this row" if cell is None else f"The cell {cell.text}")
        return None
    if cell.unit is not None:
        scope.notebook.write("419", cell.span, figure=scope.typed(cell.span))
        return None
    return unit.to_base(cell.amount)


def _numbers(scope: Scope, row: tree.Row, units: tuple[Unit, ...]) -> tuple[Fraction, ...] | None:
    """A row's figures, each in the unit of its column."""
    if len(row.cells) != len(units):
        scope.notebook.write(
            "505",
            row.span,
            given=figures.counted(len(row.cells), "cell", "cells"),
            wanted=figures.counted(len(units), "cell is wanted", "cells are wanted"),
        )
        return None
    numbers = [_number(scope, cell, unit, row) for cell, unit in zip(row.cells, units, strict=True)]
    whole = tuple(number for number in numbers if number is not None)
    return whole if len(whole) == len(numbers) else None


def _heading(scope: Scope, row: tree.Row, wanted: tuple[str, ...]) -> bool:
    """Whether the first row says what its columns hold."""
    given = tuple(cell.text if isinstance(cell, tree.Word) else "" for cell in row.cells)
    if given == wanted:
        return True
    scope.notebook.write("507", row.span, given=" | ".join(given) or "nothing", wanted=" | ".join(wanted))
    return False


def _rises(scope: Scope, axis: tree.Axis, points: list[tuple[Fraction, Span]], unit: Unit) -> bool:
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


# ---- tables


def _table(scope: Scope, statement: tree.Table) -> sheet.Table | None:
    name = statement.name.text
    source = clauses.needed_source(scope, statement.clauses, "the table", name, statement.name.span)
    gives = figures.unit(scope, statement.gives)
    units = [figures.unit(scope, axis.unit) for axis in statement.axes]
    known = [unit for unit in units if unit is not None]
    if gives is None or len(known) < len(units):
        return None
    body = (
        _one_axis(scope, statement, known[0], gives)
        if len(known) == 1
        else _two_axes(scope, statement, known[0], known[1], gives)
    )
    if body is None or source is None:
        return None
    axes, rows = body
    note = clauses.note(scope, statement.clauses)
    label = label_of(statement.name, statement.label)
    return sheet.Table(name, label, axes, gives, rows, source, note, statement.span)


_Body = tuple[tuple[sheet.Axis, ...], tuple[tuple[Fraction, ...], ...]]


def _one_axis(scope: Scope, statement: tree.Table, unit: Unit, gives: Unit) -> _Body | None:
    axis = statement.axes[0]
    heading, rows = statement.rows[0], statement.rows[1:]
    named = _heading(scope, heading, (axis.name.text, _name_of_value(statement)))
    pairs = [_numbers(scope, row, (unit, gives)) for row in rows]
    whole = [pair for pair in pairs if pair is not None]
    if not named or len(whole) < len(pairs):
        return None
    points = [(pair[0], _cell_span(row, 0)) for pair, row in zip(whole, rows, strict=True)]
    if not _rises(scope, axis, points, unit):
        return None
    checked = sheet.Axis(axis.name.text, unit, tuple(pair[0] for pair in whole))
    return (checked,), tuple((pair[1],) for pair in whole)


def _name_of_value(statement: tree.Table) -> str:
    """What stands over the second column: any name, since a table itself has no word for what it gives."""
    cells = statement.rows[0].cells
    second = cells[1] if len(cells) == 2 else None
    return second.text if isinstance(second, tree.Word) else statement.name.text


def _two_axes(scope: Scope, statement: tree.Table, down: Unit, across: Unit, gives: Unit) -> _Body | None:
    heading, rows = statement.rows[0], statement.rows[1:]
    if heading.cells[0] is not None:
        scope.notebook.write(
            "507", heading.span, given=scope.typed(_cell_span(heading, 0)), wanted="an empty first cell"
        )
        return None
    top = [_number(scope, cell, across, heading) for cell in heading.cells[1:]]
    columns = [point for point in top if point is not None]
    lines = [_numbers(scope, row, (down, *(gives for _ in top))) for row in rows]
    whole = [line for line in lines if line is not None]
    if len(columns) < len(top) or len(whole) < len(lines):
        return None
    tops = [(point, _cell_span(heading, at + 1)) for at, point in enumerate(columns)]
    sides = [(line[0], _cell_span(row, 0)) for line, row in zip(whole, rows, strict=True)]
    rising = [_rises(scope, statement.axes[0], sides, down), _rises(scope, statement.axes[1], tops, across)]
    if not all(rising):
        return None
    axes = (
        sheet.Axis(statement.axes[0].name.text, down, tuple(line[0] for line in whole)),
        sheet.Axis(statement.axes[1].name.text, across, tuple(columns)),
    )
    return axes, tuple(line[1:] for line in whole)


def _cell_span(row: tree.Row, at: int) -> Span:
    cell = row.cells[at]
    return row.span if cell is None else cell.span


# ---- envelopes


def _envelope(scope: Scope, statement: tree.Envelope) -> sheet.Envelope | None:
    name = statement.name.text
    source = clauses.needed_source(scope, statement.clauses, "the envelope", name, statement.name.span)
    across, against = figures.unit(scope, statement.across.unit), figures.unit(scope, statement.against.unit)
    if across is None or against is None:
        return None
    heading, rows = statement.rows[0], statement.rows[1:]
    named = _heading(scope, heading, (statement.across.name.text, statement.against.name.text))
    corners = _corners(scope, statement, rows, (across, against))
    if not named or corners is None or source is None:
        return None
    return sheet.Envelope(
        name=name,
        label=label_of(statement.name, statement.label),
        across=sheet.Axis(statement.across.name.text, across),
        against=sheet.Axis(statement.against.name.text, against),
        corners=corners,
        source=source,
        note=clauses.note(scope, statement.clauses),
        span=statement.span,
    )


def _corners(
    scope: Scope, statement: tree.Envelope, rows: tuple[tree.Row, ...], units: tuple[Unit, Unit]
) -> tuple[polygons.Corner, ...] | None:
    lines = [_numbers(scope, row, units) for row in rows]
    corners = tuple((line[0], line[1]) for line in lines if line is not None)
    if len(corners) < len(lines):
        return None
    name = statement.name
    if len(corners) < 3:
        count = figures.counted(len(corners), "corner", "corners")
        scope.notebook.write("509", name.span, name=name.text, count=count)
        return None
    if _has_double_corner(scope, corners, rows, units):
        return None
    if polygons.are_on_one_line(corners):
        scope.notebook.write("522", name.span, name=name.text)
        return None
    if _crosses(scope, corners, rows, units):
        return None
    return corners


def _named_corner(corner: polygons.Corner, units: tuple[Unit, Unit]) -> str:
    return f"({figures.shown(corner[0], units[0])}, {figures.shown(corner[1], units[1])})"


def _has_double_corner(
    scope: Scope, corners: tuple[polygons.Corner, ...], rows: tuple[tree.Row, ...], units: tuple[Unit, Unit]
) -> bool:
    first: dict[polygons.Corner, tree.Row] = {}
    found = False
    for corner, row in zip(corners, rows, strict=True):
        if corner in first:
            where = Elsewhere(first[corner].span, "the same corner stands here first")
            scope.notebook.write("511", row.span, elsewhere=(where,), corner=_named_corner(corner, units))
            found = True
        first.setdefault(corner, row)
    return found


def _crosses(
    scope: Scope, corners: tuple[polygons.Corner, ...], rows: tuple[tree.Row, ...], units: tuple[Unit, Unit]
) -> bool:
    crossing = polygons.first_crossing(corners)
    if crossing is None:
        return False
    one, other = crossing
    scope.notebook.write(
        "510",
        rows[other].span,
        elsewhere=(Elsewhere(rows[one].span, "the other edge begins here"),),
        other_start=_named_corner(corners[one], units),
        other_end=_named_corner(corners[(one + 1) % len(corners)], units),
    )
    return True
