"""Reading a printed table: between the printed values as the table says, never beyond them."""

from __future__ import annotations

from fractions import Fraction

from engine.evaluation.brackets import Bracket, find_bracket
from engine.evaluation.places import Place, value_near
from engine.evaluation.ratio import Amount
from engine.evaluation.result import Gap, OutOfTable
from grammar.sheet import Table, Taking


def read_table(table: Table, arguments: tuple[Amount, ...], place: Place) -> Amount | Gap:
    """The table's value, or a gap that names every axis along which the arguments lie outside."""
    brackets: list[Bracket] = []
    outside: list[OutOfTable] = []
    for index, (axis, argument) in enumerate(zip(table.axes, arguments, strict=True)):
        bracket = find_bracket(axis.points, argument, place)
        if bracket is None:
            outside.append(OutOfTable(table, index, value_near(argument, place)))
        else:
            brackets.append(_taken(bracket, table.taking))
    return Gap(tuple(outside)) if outside else _interpolated(table, arguments, brackets)


def _taken(bracket: Bracket, taking: Taking) -> Bracket:
    """The bracket itself, or the printed point that stands for all between it and the next."""
    if bracket.is_exact or taking is Taking.LINEAR:
        return bracket
    return Bracket(bracket.index + (taking is Taking.NEXT_HIGHER), is_exact=True)


def _interpolated(table: Table, arguments: tuple[Amount, ...], brackets: list[Bracket]) -> Amount:
    first = brackets[0]
    low = _across(table, first.index, arguments, brackets)
    if first.is_exact:
        return low
    high = _across(table, first.index + 1, arguments, brackets)
    return _on_line(table.axes[0].points, first.index, arguments[0], low, high)


def _across(table: Table, row: int, arguments: tuple[Amount, ...], brackets: list[Bracket]) -> Amount:
    """The value along one printed row, at the second axis' argument where there is one."""
    values = table.rows[row]
    if len(table.axes) == 1:
        return values[0]
    second = brackets[1]
    if second.is_exact:
        return values[second.index]
    low, high = values[second.index], values[second.index + 1]
    return _on_line(table.axes[1].points, second.index, arguments[1], low, high)


def _on_line(points: tuple[Fraction, ...], index: int, at: Amount, low: Amount, high: Amount) -> Amount:
    """The value at a place between two points of an axis, on the straight line between their values."""
    along = (at - points[index]) / (points[index + 1] - points[index])
    return low + (high - low) * along
