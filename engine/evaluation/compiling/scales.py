"""What one whole number is worth for each input: a step that every usual figure is a whole multiple of.

Masses share one step and so do amounts of fuel, so that sums need no factors. Other inputs have their own.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import reduce
from math import lcm
from typing import Final

from engine.evaluation.compiling.forms import ONE, common_scale
from grammar.sheet import CalendarDate, Input, Kind, Measure, Option, Place, Role, Sheet, Tank, TemperaturePoint
from grammar.units import LENGTH, MASS, Dimension, Unit

MOST_DECIMALS: Final = 3
"""A figure with so many decimals in the declared unit is a whole number of steps."""

_PART: Final = Fraction(1, 10**MOST_DECIMALS)


def steps(sheet: Sheet) -> dict[str, Fraction]:
    """The step of every input of a sheet, by name, in base units."""
    fuel = _fuel_dimension(sheet)
    shared = {dimension: _shared(sheet, dimension) for dimension in {MASS, fuel} if dimension is not None}
    if fuel is not None:
        levels = (each.down_to for each in (sheet.burn.steps if sheet.burn else ()) if each.down_to)
        shared[fuel] = common_scale((shared[fuel], *levels)) / _divisions(sheet)
    return {item.name: _step(item, shared, sheet) for item in sheet.inputs}


def _fuel_dimension(sheet: Sheet) -> Dimension | None:
    return _dimension(sheet.tanks[0].input.kind) if sheet.tanks else None


def _dimension(kind: Kind) -> Dimension | None:
    return kind.dimension if isinstance(kind, Measure) else None


def _step(item: Input, shared: dict[Dimension, Fraction], sheet: Sheet) -> Fraction:
    match item.kind:
        case Measure(dimension=dimension) if dimension in shared:
            return shared[dimension]
        case Measure() | TemperaturePoint():
            return _own_step(item, sheet)
        case CalendarDate() | Option():
            return ONE


def _own_step(item: Input, sheet: Sheet) -> Fraction:
    if item.is_built_in and item.name == "serial":
        return ONE
    units = {item.unit} if item.unit is not None else set[Unit]()
    if item.role is Role.WEIGHING and _dimension(item.kind) == LENGTH:
        units = set(_arm_units(sheet)) or units
    return common_scale(part for unit in units for part in _parts(unit)) if units else _PART


def _parts(unit: Unit) -> Iterator[Fraction]:
    yield unit.factor * _PART
    if unit.offset:
        yield unit.offset


def _arm_units(sheet: Sheet) -> Iterator[Unit]:
    everything: tuple[Place | Tank, ...] = (*sheet.places, *sheet.tanks)
    for carried in everything:
        if carried.arm is not None and carried.arm.unit is not None:
            yield carried.arm.unit


def _shared(sheet: Sheet, dimension: Dimension) -> Fraction:
    """The step of a dimension: of the units that the officer declares inputs in, else of the language's."""
    inputs = [item for item in sheet.inputs if _dimension(item.kind) == dimension and item.unit is not None]
    declared = [item for item in inputs if not item.is_built_in] or inputs
    return common_scale(_factors(declared)) * _PART


def _factors(inputs: Iterable[Input]) -> Iterator[Fraction]:
    for item in inputs:
        if item.unit is not None:
            yield item.unit.factor


def _divisions(sheet: Sheet) -> int:
    """Tanks drawn from equally share what is burned: once when taxiing and once in flight."""
    together = [len(step.tanks) for step in sheet.burn.steps] if sheet.burn else []
    return reduce(lcm, (number for most in together for number in range(1, most + 1)), 1) ** 2
