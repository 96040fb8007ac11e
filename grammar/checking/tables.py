"""Printed tables of figures along one or two axes; an axis may also be a list of choices."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from grammar import sheet, tree
from grammar.checking import cells, clauses, figures
from grammar.checking.choice_tables import ChoiceTable, Printed
from grammar.checking.declarations import is_first
from grammar.checking.inputs import label_of
from grammar.checking.scope import Scope
from grammar.diagnostics.suggestions import nearest
from grammar.text import Span
from grammar.units import Unit

_TAKING: Final = {"higher": sheet.Taking.NEXT_HIGHER, "lower": sheet.Taking.NEXT_LOWER}

Along = Unit | sheet.Input
"""What stands along an axis: figures in a unit, or the choices of an input."""


@dataclass(frozen=True, slots=True)
class Keys:
    """The heads of the rows or of the columns: figures in base units, or choices."""

    axis: tree.Axis
    along: Along
    points: tuple[Fraction, ...]
    words: tuple[str, ...]

    @property
    def as_axis(self) -> sheet.Axis:
        """The axis of a checked table, for figures."""
        assert isinstance(self.along, Unit)
        return sheet.Axis(self.axis.name.text, self.along, self.points)


@dataclass(frozen=True, slots=True)
class Grid:
    """What a table prints: its heads and, for each head of a row, its figures with their places."""

    statement: tree.Table
    keys: tuple[Keys, ...]
    gives: Unit
    rows: tuple[tuple[Printed, ...], ...]
    source: sheet.Source
    note: str | None


def check_tables(scope: Scope, file: tree.File) -> None:
    """Resolve every table of the file."""
    for statement in file.statements:
        if isinstance(statement, tree.Table) and is_first(scope, statement):
            grid = _grid(scope, statement)
            if grid is None:
                scope.faulty.add(statement.name.text)
            else:
                _keep(scope, statement.name.text, _assembled(scope, grid))


def _keep(scope: Scope, name: str, found: sheet.Table | ChoiceTable) -> None:
    if isinstance(found, ChoiceTable):
        scope.choice_tables[name] = found
        scope.tables.update((one.name, one) for one in found.tables())
    else:
        scope.tables[name] = found


# ---- reading the grid


def _grid(scope: Scope, statement: tree.Table) -> Grid | None:
    name = statement.name
    source = clauses.needed_source(scope, statement.clauses, "the table", name.text, name.span)
    gives = figures.unit(scope, statement.gives)
    sides = [_along(scope, axis) for axis in statement.axes]
    known = [side for side in sides if side is not None]
    if gives is None or len(known) < len(sides):
        return None
    read = _one_axis(scope, statement, known[0], gives) if len(known) == 1 else None
    if len(known) == 2:
        read = _two_axes(scope, statement, (known[0], known[1]), gives)
    if read is None or source is None:
        return None
    keys, rows = read
    return Grid(statement, keys, gives, rows, source, clauses.note(scope, statement.clauses))


def _along(scope: Scope, axis: tree.Axis) -> Along | None:
    if axis.unit is not None:
        return figures.unit(scope, axis.unit)
    item = scope.inputs.get(axis.name.text)
    if item is not None and isinstance(item.kind, sheet.Option):
        scope.use(item.name)
        return item
    if not scope.is_faulty(axis.name.text):
        unit = "kg" if item is None or item.unit is None else item.unit.name
        scope.notebook.write("524", axis.span, axis=axis.name.text, unit=unit)
    return None


_Read = tuple[tuple[Keys, ...], tuple[tuple[Printed, ...], ...]]


def _one_axis(scope: Scope, statement: tree.Table, along: Along, gives: Unit) -> _Read | None:
    axis = statement.axes[0]
    heading, rows = statement.rows[0], statement.rows[1:]
    named = cells.heading(scope, heading, (axis.name.text, _name_of_value(statement)))
    whole = [cells.has_length(scope, row, 2) for row in rows]
    if not named or not all(whole):
        return None
    keys = _keys(scope, axis, along, [(row, 0) for row in rows])
    lines = [_line(scope, row, 1, gives) for row in rows]
    known = tuple(line for line in lines if line is not None)
    return None if keys is None or len(known) < len(lines) else ((keys,), known)


def _name_of_value(statement: tree.Table) -> str:
    """What stands over the second column: any name, since a table itself has no word for what it gives."""
    found = statement.rows[0].cells
    second = found[1] if len(found) == 2 else None
    return second.text if isinstance(second, tree.Word) else statement.name.text


def _two_axes(scope: Scope, statement: tree.Table, along: tuple[Along, Along], gives: Unit) -> _Read | None:
    heading, rows = statement.rows[0], statement.rows[1:]
    if heading.cells[0] is not None:
        typed = scope.typed(cells.span_of(heading, 0))
        scope.notebook.write("507", heading.span, given=typed, wanted="an empty first cell")
        return None
    if not all(cells.has_length(scope, row, len(heading.cells)) for row in rows):
        return None
    down = _keys(scope, statement.axes[0], along[0], [(row, 0) for row in rows])
    columns = [(heading, at) for at in range(1, len(heading.cells))]
    across = _keys(scope, statement.axes[1], along[1], columns)
    lines = [_line(scope, row, 1, gives) for row in rows]
    known = tuple(line for line in lines if line is not None)
    if down is None or across is None or len(known) < len(lines):
        return None
    return (down, across), known


def _line(scope: Scope, row: tree.Row, start: int, gives: Unit) -> tuple[Printed, ...] | None:
    """The figures of a row behind its head."""
    numbers = [cells.number(scope, cell, gives, row) for cell in row.cells[start:]]
    known = [
        Printed(number, gives, cells.span_of(row, at + start))
        for at, number in enumerate(numbers)
        if number is not None
    ]
    return tuple(known) if len(known) == len(numbers) else None


def _keys(scope: Scope, axis: tree.Axis, along: Along, at: list[tuple[tree.Row, int]]) -> Keys | None:
    if isinstance(along, Unit):
        return _figures_along(scope, axis, along, at)
    return _choices_along(scope, axis, along, at)


def _figures_along(scope: Scope, axis: tree.Axis, unit: Unit, at: list[tuple[tree.Row, int]]) -> Keys | None:
    numbers = [cells.number(scope, row.cells[place], unit, row) for row, place in at]
    known = [number for number in numbers if number is not None]
    if len(known) < len(numbers):
        return None
    places = [(number, cells.span_of(*cell)) for number, cell in zip(known, at, strict=True)]
    return Keys(axis, unit, tuple(known), ()) if cells.rises(scope, axis, places, unit) else None


def _choices_along(
    scope: Scope, axis: tree.Axis, item: sheet.Input, at: list[tuple[tree.Row, int]]
) -> Keys | None:
    """The choices of an input as heads: each of them once."""
    options = item.kind.options if isinstance(item.kind, sheet.Option) else ()
    words: list[str] = []
    for row, place in at:
        word = row.cells[place]
        span = cells.span_of(row, place)
        text = word.text if isinstance(word, tree.Word) else scope.typed(span)
        if text not in options:
            _write_no_choice(scope, item, options, span, text)
            return None
        if text in words:
            scope.notebook.write("526", span, axis=axis.name.text, word=text)
            return None
        words.append(text)
    missing = [option for option in options if option not in words]
    if missing:
        scope.notebook.write("525", axis.span, axis=axis.name.text, missing=", ".join(missing))
        return None
    return Keys(axis, item, (), tuple(words))


def _write_no_choice(scope: Scope, item: sheet.Input, options: tuple[str, ...], span: Span, text: str) -> None:
    scope.notebook.write(
        "310", span, suggestion=nearest(text, options), name=item.name, options=", ".join(options), word=text
    )


# ---- from the grid to tables


def _assembled(scope: Scope, grid: Grid) -> sheet.Table | ChoiceTable:
    down, *more = grid.keys
    label = label_of(grid.statement.name, grid.statement.label)
    name = grid.statement.name.text
    if not more:
        column = tuple(row[0] for row in grid.rows)
        if isinstance(down.along, Unit):
            return _table(scope, grid, name, label, (down,), tuple((one,) for one in column))
        return ChoiceTable(name, label, down.along, 0, tuple(zip(down.words, column, strict=True)))
    across = more[0]
    if isinstance(down.along, Unit) and isinstance(across.along, Unit):
        return _table(scope, grid, name, label, grid.keys, grid.rows)
    if isinstance(down.along, Unit):
        return _by_columns(scope, grid, down, across)
    return _by_rows(scope, grid, down, across)


def _table(
    scope: Scope, grid: Grid, name: str, label: str, keys: tuple[Keys, ...], rows: tuple[tuple[Printed, ...], ...]
) -> sheet.Table:
    taken = clauses.one(scope, grid.statement.clauses, tree.Taken)
    return sheet.Table(
        name=name,
        label=label,
        axes=tuple(one.as_axis for one in keys),
        unit=grid.gives,
        taking=sheet.Taking.LINEAR if taken is None else _TAKING[taken.direction.text],
        rows=tuple(tuple(printed.value for printed in row) for row in rows),
        source=grid.source,
        note=grid.note,
        span=grid.statement.span,
    )


def _part(scope: Scope, grid: Grid, word: str, keys: Keys, figures_of: tuple[Printed, ...]) -> sheet.Table:
    """The one-axis table that holds for a choice."""
    name = grid.statement.name.text
    label = f"{label_of(grid.statement.name, grid.statement.label)}, {word}"
    return _table(scope, grid, f"{name} {word}", label, (keys,), tuple((one,) for one in figures_of))


def _by_columns(scope: Scope, grid: Grid, down: Keys, across: Keys) -> ChoiceTable:
    assert isinstance(across.along, sheet.Input)
    parts = tuple(
        (word, _part(scope, grid, word, down, tuple(row[at] for row in grid.rows)))
        for at, word in enumerate(across.words)
    )
    return ChoiceTable(grid.statement.name.text, grid.statement.name.text, across.along, 1, parts)


def _by_rows(scope: Scope, grid: Grid, down: Keys, across: Keys) -> ChoiceTable:
    assert isinstance(down.along, sheet.Input)
    name = grid.statement.name.text
    parts: list[tuple[str, sheet.Table | ChoiceTable]] = []
    for word, row in zip(down.words, grid.rows, strict=True):
        if isinstance(across.along, Unit):
            parts.append((word, _part(scope, grid, word, across, row)))
        else:
            inner = tuple(zip(across.words, row, strict=True))
            parts.append((word, ChoiceTable(f"{name} {word}", word, across.along, 0, inner)))
    return ChoiceTable(name, name, down.along, 0, tuple(parts))
