"""Exact figures as text: decimals in full where they end, else rounded in a stated direction and marked."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import Final

from grammar.units import Unit

MOST_DIGITS: Final = 40
"""The longest figure that is read, in characters: longer ones are slips or attacks."""

MOST_DECIMALS_IN_FULL: Final = 9
"""A decimal that ends within so many places is shown in full; a longer one is rounded and marked."""

ABOUT: Final = "about "
"""What stands before a figure that was rounded."""

_DECIMAL: Final = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?(?:[eE][+-]?[0-9]{1,2})?")


class Rounding(Enum):
    """Which way a figure that does not end is rounded."""

    DOWN = "down"
    UP = "up"
    NEAREST = "nearest"

    @property
    def opposite(self) -> Rounding:
        """The other direction; nearest stays nearest."""
        return {Rounding.DOWN: Rounding.UP, Rounding.UP: Rounding.DOWN}.get(self, self)


@dataclass(frozen=True, slots=True)
class Figure:
    """A number as text, and whether the text says it exactly."""

    text: str
    is_exact: bool

    def __str__(self) -> str:
        return self.text if self.is_exact else ABOUT + self.text


def read_decimal(text: str) -> Fraction | None:
    """The number that a decimal text says, exactly, or None where it is no decimal of a sensible length."""
    if len(text) > MOST_DIGITS or not _DECIMAL.fullmatch(text):
        return None
    return Fraction(text)


def decimals_needed(value: Fraction) -> int | None:
    """How many decimals say the value exactly, or None where its decimals never end."""
    rest, places = value.denominator, 0
    for prime in (2, 5):
        count = 0
        while rest % prime == 0:
            rest //= prime
            count += 1
        places = max(places, count)
    return places if rest == 1 else None


def show(value: Fraction, rounding: Rounding, decimals: int = 3) -> Figure:
    """The value as a decimal: in full where it ends soon enough, else rounded to ``decimals`` places."""
    needed = decimals_needed(value)
    if needed is not None and needed <= max(MOST_DECIMALS_IN_FULL, decimals):
        return Figure(_fixed(value, needed, rounding), is_exact=True)
    return Figure(_fixed(value, decimals, rounding), is_exact=False)


def _fixed(value: Fraction, decimals: int, rounding: Rounding) -> str:
    scaled = value * 10**decimals
    if rounding is Rounding.DOWN:
        whole = scaled.numerator // scaled.denominator
    elif rounding is Rounding.UP:
        whole = -(-scaled.numerator // scaled.denominator)
    else:
        whole = round(scaled)
    digits = str(abs(whole)).rjust(decimals + 1, "0")
    sign = "-" if whole < 0 else ""
    if decimals == 0:
        return sign + digits
    tail = digits[-decimals:].rstrip("0")
    return sign + digits[:-decimals] + ("." + tail if tail else "")


def show_with_unit(value: Fraction, unit: Unit, rounding: Rounding = Rounding.NEAREST) -> str:
    """A value in base units as text in ``unit``, such as "91 kg" or "about 1195.537 mm"."""
    return with_unit(show(unit.from_base(value), rounding), unit_word(unit))


def show_difference(value: Fraction, unit: Unit, rounding: Rounding = Rounding.NEAREST) -> str:
    """A difference of two values in base units as text in ``unit`` (a difference of degC is shown in K)."""
    return with_unit(show(unit.difference_from_base(value), rounding), difference_word(unit))


def with_unit(figure: Figure, word: str) -> str:
    """A figure and the word of its unit; a plain number stands alone."""
    return f"{figure} {word}" if word else str(figure)


def unit_word(unit: Unit) -> str:
    """The word that stands after a value in this unit; a plain number has none."""
    return "" if unit.name == "number" else unit.name


def difference_word(unit: Unit) -> str:
    """The word that stands after a difference of two values in this unit: points in degC differ by K."""
    return "K" if unit.name == "degC" else unit_word(unit)
