"""Printed envelopes: simple polygons, straight-edged in the axes they were printed in."""

from __future__ import annotations

from grammar import sheet, tree
from grammar.checking import cells, clauses, figures, polygons
from grammar.checking.declarations import is_first
from grammar.checking.inputs import label_of
from grammar.checking.scope import Scope
from grammar.diagnostics.problem import Elsewhere
from grammar.units import Unit


def check_envelopes(scope: Scope, file: tree.File) -> None:
    """Resolve every envelope of the file."""
    for statement in file.statements:
        if isinstance(statement, tree.Envelope) and is_first(scope, statement):
            envelope = _envelope(scope, statement)
            if envelope is None:
                scope.faulty.add(statement.name.text)
            else:
                scope.envelopes[envelope.name] = envelope


def _envelope(scope: Scope, statement: tree.Envelope) -> sheet.Envelope | None:
    name = statement.name.text
    source = clauses.needed_source(scope, statement.clauses, "the envelope", name, statement.name.span)
    across, against = _unit(scope, statement.across), _unit(scope, statement.against)
    if across is None or against is None:
        return None
    heading, rows = statement.rows[0], statement.rows[1:]
    named = cells.heading(scope, heading, (statement.across.name.text, statement.against.name.text))
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


def _unit(scope: Scope, axis: tree.Axis) -> Unit | None:
    """The unit of an axis, which an envelope cannot do without."""
    if axis.unit is None:
        scope.notebook.write("524", axis.span, axis=axis.name.text)
        return None
    return figures.unit(scope, axis.unit)


def _corners(
    scope: Scope, statement: tree.Envelope, rows: tuple[tree.Row, ...], units: tuple[Unit, Unit]
) -> tuple[polygons.Corner, ...] | None:
    lines = [cells.numbers(scope, row, units) for row in rows]
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
