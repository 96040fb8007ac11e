"""Values made ready to be shown, never in the flattering direction.

Which way a value is rounded depends on what it is held against, so every value is shown with a ``Rounding``:
up where more would be worse, down where less would be worse. A figure whose decimals end is never rounded.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Final

from engine.evaluation.result import Gap, SlotValue
from engine.explanation.words import clean, spaced
from grammar.figures import Figure, Rounding, difference_word, show, unit_word, with_unit
from grammar.sheet import (
    CalendarDate,
    Condition,
    Expression,
    Input,
    Kind,
    Measure,
    Numeric,
    Option,
    TemperaturePoint,
)
from grammar.units import PURE, Unit

FEWEST_DECIMALS: Final = 3
"""A rounded figure has at least so many decimals."""

FEWEST_DIGITS: Final = 4
"""A rounded figure has at least so many significant digits."""


@dataclass(frozen=True, slots=True)
class Amount:
    """A quantity as it is shown: its figure and the word of its unit.

    ``in_unit`` is the exact number in that unit; None where only a bound of it is known.
    """

    in_unit: Fraction | None
    figure: Figure
    word: str

    def __str__(self) -> str:
        return with_unit(self.figure, clean(self.word))


@dataclass(frozen=True, slots=True)
class Day:
    """A calendar day, by its number counted from 0001-01-01 as day 1."""

    number: Fraction

    def __str__(self) -> str:
        if self.number.denominator == 1 and 1 <= self.number <= date.max.toordinal():
            return date.fromordinal(int(self.number)).isoformat()
        return f"day {self.number}"


@dataclass(frozen=True, slots=True)
class Word:
    """An option of a list, or yes or no."""

    option: str

    def __str__(self) -> str:
        return spaced(self.option)


@dataclass(frozen=True, slots=True)
class Holds:
    """The outcome of a condition."""

    is_true: bool

    def __str__(self) -> str:
        return "holds" if self.is_true else "does not hold"


@dataclass(frozen=True, slots=True)
class Unknown:
    """A value or an outcome that cannot be told, and what it waits for."""

    gap: Gap

    def __str__(self) -> str:
        return "cannot be told"


@dataclass(frozen=True, slots=True)
class NotNeeded:
    """A value that the answer could be given without."""

    def __str__(self) -> str:
        return "not needed"


Shown = Amount | Day | Word | Holds | Unknown | NotNeeded
"""What a slot shows."""


def shown(node: Expression | Condition, value: SlotValue, rounding: Rounding) -> Shown:
    """The value of a node as it is shown when it leans ``rounding``."""
    match value:
        case None:
            return NotNeeded()
        case bool():
            return Holds(value)
        case Gap():
            return Unknown(value)
        case str():
            return Word(value)
        case Fraction():
            return _quantity(node, value, rounding)


def _quantity(node: Expression | Condition, value: Fraction, rounding: Rounding) -> Amount | Day:
    if not isinstance(node, Numeric):
        raise TypeError(f"a condition cannot have the value {value}")
    return quantity(value, node.kind, node.unit, rounding)


def quantity(value: Fraction, kind: Kind, unit: Unit | None, rounding: Rounding) -> Amount | Day:
    """A value of a kind as it is shown: a day of the calendar, or an amount in its unit."""
    match kind:
        case CalendarDate():
            return Day(value)
        case Measure() | TemperaturePoint() | Option():
            return amount(value, unit or PURE, rounding)


def of_input(item: Input, value: Fraction | str, rounding: Rounding = Rounding.NEAREST) -> Amount | Day | Word:
    """What somebody states for an input, as it is shown."""
    return Word(value) if isinstance(value, str) else quantity(value, item.kind, item.unit, rounding)


def amount(value: Fraction, unit: Unit, rounding: Rounding, decimals: int = 0) -> Amount:
    """A value in base units, as it is shown in ``unit``, with at least so many decimals if it is rounded."""
    inside = unit.from_base(value)
    return Amount(inside, show(inside, rounding, max(decimals, _decimals(inside))), unit_word(unit))


def difference(value: Fraction, unit: Unit, rounding: Rounding, decimals: int = 0) -> Amount:
    """A difference of two values in base units, as it is shown beside values in ``unit``."""
    inside = unit.difference_from_base(value)
    return Amount(inside, show(inside, rounding, max(decimals, _decimals(inside))), difference_word(unit))


def _decimals(value: Fraction) -> int:
    """How many decimals a rounded figure of this size has."""
    decimals, size = FEWEST_DECIMALS, abs(value) * 10**FEWEST_DECIMALS
    while 0 < size < 10 ** (FEWEST_DIGITS - 1) and decimals < FEWEST_DECIMALS + FEWEST_DIGITS:
        size, decimals = size * 10, decimals + 1
    return decimals


def decimals_that_tell_apart(one: Fraction, other: Fraction, unit: Unit) -> int:
    """How many decimals show two different values in ``unit`` as different, each rounded towards the other.

    Rounding moves each figure by less than one step of the last decimal, so two steps have to fit between.
    """
    gap = abs(unit.from_base(one) - unit.from_base(other))
    decimals = FEWEST_DECIMALS
    while 0 < gap * 10**decimals <= 2:
        decimals += 1
    return decimals
