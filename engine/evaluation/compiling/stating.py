"""From what is stated to whole numbers: a quick way for usual figures, none for anything else.

Whatever this way does not take (a missing value, one beyond what the manual covers, a figure finer than the
step, anything unusual in a text) is left to the plain way, which also finds the words for it.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import ceil, floor
from typing import Final

from engine.evaluation.compiling.scales import MOST_DECIMALS
from engine.evaluation.loading import Loading
from grammar.checking.declared_masses import MANNERS, manner_name
from grammar.sheet import CalendarDate, Input, Measure, Option, Role, TemperaturePoint
from grammar.units import Unit, find_unit, unit_names

MOST_FIGURES: Final = 15
"""The longest figure that is taken, in digits."""


@dataclass(frozen=True, slots=True)
class Amounts:
    """An input that is an amount: what one unit with so many decimals is worth, and the least and the most."""

    units: Mapping[str, tuple[tuple[int, int], ...]]
    step: Fraction
    least: int | None
    most: int | None

    def from_text(self, text: str) -> int | None:
        """The whole number for a text such as "82.5 kg"."""
        figure, _, unit = text.partition(" ")
        worth = self.units.get(unit)
        if worth is None:
            return None
        before, point, after = figure.partition(".")
        decimals = len(after)
        if decimals >= len(worth) or (point and not after):
            return None
        digits = before.removeprefix("-") + after
        if not digits.isdigit() or not digits.isascii() or len(digits) > MOST_FIGURES or not before.strip("-"):
            return None
        times, zero = worth[decimals]
        return self._covered(int(before + after) * times + zero)

    def from_value(self, value: Fraction | str) -> int | None:
        """The whole number for a value in base units."""
        if isinstance(value, str):
            return None
        whole, rest = divmod(value.numerator * self.step.denominator, value.denominator * self.step.numerator)
        return None if rest else self._covered(whole)

    def _covered(self, number: int) -> int | None:
        if (self.least is not None and number < self.least) or (self.most is not None and number > self.most):
            return None
        return number


@dataclass(frozen=True, slots=True)
class Words:
    """An input that is one of a list: the number of each option's word."""

    numbers: Mapping[str, int]

    def from_text(self, text: str) -> int | None:
        """The number of the word."""
        return self.numbers.get(text)

    def from_value(self, value: Fraction | str) -> int | None:
        """The number of the word."""
        return self.numbers.get(value) if isinstance(value, str) else None


@dataclass(frozen=True, slots=True)
class Days:
    """An input that is a day."""

    least: Fraction | None
    most: Fraction | None

    def from_text(self, text: str) -> int | None:
        """The day's number for a text such as "2026-05-03"."""
        if len(text) != 10 or text[4] != "-" or text[7] != "-":
            return None
        try:
            return self._covered(date.fromisoformat(text).toordinal())
        except ValueError:
            return None

    def from_value(self, value: Fraction | str) -> int | None:
        """The day's number."""
        if isinstance(value, str) or value.denominator != 1:
            return None
        return self._covered(value.numerator)

    def _covered(self, day: int) -> int | None:
        below = self.least is not None and day < self.least
        return None if below or (self.most is not None and day > self.most) else day


Taker = Amounts | Words | Days


def taker(item: Input, step: Fraction, words: Mapping[str, int]) -> Taker:
    """What takes the values of an input."""
    match item.kind:
        case Option(options=options):
            return Words({option: words[option] for option in options})
        case CalendarDate():
            return Days(item.least, item.most)
        case Measure() | TemperaturePoint():
            return _amounts(item, step)


def _amounts(item: Input, step: Fraction) -> Amounts:
    """A load or a tank may be beyond its range, which is a limit, but never less than nothing."""
    carried = item.role in (Role.LOAD, Role.TANK)
    least, most = (Fraction(0), None) if carried else (item.least, item.most)
    return Amounts(
        {name: worth for name, unit in _units(item).items() if (worth := _worth(unit, step))},
        step,
        None if least is None else ceil(least / step),
        None if most is None else floor(most / step),
    )


def _units(item: Input) -> dict[str, Unit]:
    """The units in which an input may be stated, by the word that a text has for them."""
    if item.unit is None:
        return {}
    known = (find_unit(name) for name in unit_names())
    alike = {
        unit.name: unit
        for unit in known
        if unit is not None and (unit.dimension, unit.is_point) == (item.unit.dimension, item.unit.is_point)
    }
    plain = {"": item.unit} if item.unit.name in ("", "number") else {}
    return {**alike, item.unit.name: item.unit, **plain}


def _worth(unit: Unit, step: Fraction) -> tuple[tuple[int, int], ...]:
    """For each number of decimals, what the last of them is worth in steps, and where the unit's zero lies."""
    zero, worth = unit.offset / step, []
    for decimals in range(MOST_DECIMALS + 1):
        times = unit.factor / 10**decimals / step
        if times.denominator != 1 or zero.denominator != 1:
            break
        worth.append((times.numerator, zero.numerator))
    return tuple(worth)


@dataclass(frozen=True, slots=True)
class Statement:
    """How the numbers for a sheet are taken from a loading or a request.

    ``takers`` has every input of the sheet; ``needed`` are those that the numbers hold, each with the number
    taken where nobody states one (None: it is missed); ``flagged`` are the inputs of which the numbers say
    whether they are stated, after all others. ``loads`` are the places, whose mass a request may call weighed.
    """

    takers: Mapping[str, Taker]
    needed: tuple[tuple[str, int | None], ...]
    flagged: tuple[str, ...]
    loads: frozenset[str]

    def least(self, name: str) -> int | None:
        """The least number that is taken for an input."""
        of = self.takers[name]
        return of.least if isinstance(of, Amounts) else None

    def from_request(self, request: Mapping[str, str]) -> tuple[int, ...] | None:
        """The numbers for a flat request; None where the plain way has to read it."""
        takers = self.takers
        taken: dict[str, int] = {}
        for name, text in request.items():
            of = takers.get(name)
            if of is None or not isinstance(text, str):
                return None
            number = of.from_text(text)
            if number is None:
                number = self._with_manner(name, of, text, taken)
            if number is None:
                return None
            taken[name] = number
        return self._gathered(taken)

    def _with_manner(self, name: str, of: Taker, text: str, taken: dict[str, int]) -> int | None:
        """ "82 kg weighed": the amount, and how it is known where the sheet asks that."""
        amount, _, manner = text.rpartition(" ")
        if name not in self.loads or manner not in MANNERS:
            return None
        how = self.takers.get(manner_name(name))
        word = None if how is None else how.from_text(manner)
        if word is not None:
            taken[manner_name(name)] = word
        return of.from_text(amount)

    def names(self, request: Mapping[str, str]) -> Collection[str]:
        """The names of the inputs that a flat request states."""
        said = [
            manner_name(name)
            for name, text in request.items()
            if name in self.loads and text.endswith(MANNERS) and manner_name(name) in self.takers
        ]
        return {*request, *said} if said else request.keys()

    def from_loading(self, loading: Loading) -> tuple[int, ...] | None:
        """The numbers for a loading; None where the plain way has to evaluate it."""
        taken: dict[str, int] = {}
        for name, _ in self.needed:
            value = loading.stated.get(name)
            if value is None:
                continue
            number = self.takers[name].from_value(value)
            if number is None:
                return None
            taken[name] = number
        flags = {name: 0 for name in self.flagged if name in loading.stated}
        return self._gathered({**flags, **taken})

    def _gathered(self, taken: Mapping[str, int]) -> tuple[int, ...] | None:
        numbers: list[int] = []
        for name, assumed in self.needed:
            number = taken.get(name, assumed)
            if number is None:
                return None
            numbers.append(number)
        for name in self.flagged:
            numbers.append(name in taken)
        return tuple(numbers)
