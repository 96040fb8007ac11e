"""Units of measurement, with exact factors.

Every factor is a rational number taken from the definition of the unit: the international pound and yard of
1959, the US gallon of 231 cubic inches, the imperial gallon of 4.54609 litres, the international nautical
mile, standard gravity 9.80665 m/s2, the horsepower of 550 foot-pounds a second. The tests hold the table to an
independent library.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Final

BASE_UNITS: Final = ("kg", "m", "s", "K", "%MAC", "deg")
"""The unit in which each of a dimension's exponents counts. Values inside the program are in these."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """What a quantity measures: the exponents of mass, length, time, temperature difference, share of the
    chord, and angle."""

    exponents: tuple[int, int, int, int, int, int] = (0, 0, 0, 0, 0, 0)

    def __mul__(self, other: Dimension) -> Dimension:
        return self._combined(other, 1)

    def __truediv__(self, other: Dimension) -> Dimension:
        return self._combined(other, -1)

    def _combined(self, other: Dimension, sign: int) -> Dimension:
        a, b = self.exponents, other.exponents
        return Dimension(
            (
                a[0] + sign * b[0],
                a[1] + sign * b[1],
                a[2] + sign * b[2],
                a[3] + sign * b[3],
                a[4] + sign * b[4],
                a[5] + sign * b[5],
            )
        )

    @property
    def name(self) -> str:
        """The dimension in an officer's words, such as "a mass", or its make-up where it has no word."""
        return _DIMENSION_NAMES.get(self) or f"a quantity in {self._spelled()}"

    def _spelled(self) -> str:
        up = [_power(u, e) for u, e in zip(BASE_UNITS, self.exponents, strict=True) if e > 0]
        down = [_power(u, -e) for u, e in zip(BASE_UNITS, self.exponents, strict=True) if e < 0]
        return "/".join([".".join(up) or "1", *down])


def _power(unit: str, exponent: int) -> str:
    return unit if exponent == 1 else f"{unit}{exponent}"


NUMBER: Final = Dimension()
MASS: Final = Dimension((1, 0, 0, 0, 0, 0))
LENGTH: Final = Dimension((0, 1, 0, 0, 0, 0))
TIME: Final = Dimension((0, 0, 1, 0, 0, 0))
TEMPERATURE: Final = Dimension((0, 0, 0, 1, 0, 0))
CHORD_SHARE: Final = Dimension((0, 0, 0, 0, 1, 0))
ANGLE: Final = Dimension((0, 0, 0, 0, 0, 1))
AREA: Final = LENGTH * LENGTH
VOLUME: Final = AREA * LENGTH
DENSITY: Final = MASS / VOLUME
MOMENT: Final = MASS * LENGTH
SPEED: Final = LENGTH / TIME
FORCE: Final = MASS * LENGTH / (TIME * TIME)
PRESSURE: Final = FORCE / AREA
POWER: Final = FORCE * SPEED

_DIMENSION_NAMES: Final = {
    NUMBER: "a plain number",
    MASS: "a mass",
    LENGTH: "a length",
    TIME: "a time",
    TEMPERATURE: "a temperature difference",
    CHORD_SHARE: "a share of the chord",
    ANGLE: "an angle",
    AREA: "an area",
    VOLUME: "a volume",
    DENSITY: "a density",
    MOMENT: "a moment",
    SPEED: "a speed",
    FORCE: "a force",
    PRESSURE: "a pressure",
    POWER: "a power",
    MASS / AREA: "a floor loading",
    MASS / LENGTH: "a running load",
    VOLUME / TIME: "a fuel flow by volume",
    MASS / TIME: "a fuel flow by mass",
}


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: an amount ``a`` of it is ``a * factor + offset`` in base units.

    ``is_point`` marks a unit of a scale without a natural zero (degC, degF): its values are points on the
    scale, not amounts, and may be compared but not added.
    """

    name: str
    dimension: Dimension
    factor: Fraction
    offset: Fraction = Fraction(0)
    is_point: bool = False

    def to_base(self, amount: Fraction) -> Fraction:
        """An amount in this unit, in base units."""
        return amount * self.factor + self.offset

    def from_base(self, value: Fraction) -> Fraction:
        """A value in base units, in this unit."""
        return (value - self.offset) / self.factor

    def difference_from_base(self, value: Fraction) -> Fraction:
        """A difference of two values in base units, in this unit."""
        return value / self.factor


_GRAVITY: Final = Fraction("9.80665")
_POUND: Final = Fraction("0.45359237")
_INCH: Final = Fraction("0.0254")
_FOOT: Final = 12 * _INCH
_LITRE: Final = Fraction("0.001")
_NAUTICAL_MILE: Final = Fraction(1852)
_HOUR: Final = Fraction(3600)

PURE: Final = Unit("", NUMBER, Fraction(1))
"""The unit of a number without one."""

_UNITS: Final = {
    unit.name: unit
    for unit in (
        Unit("number", NUMBER, Fraction(1)),
        Unit("%", NUMBER, Fraction(1, 100)),
        Unit("%MAC", CHORD_SHARE, Fraction(1)),
        Unit("kg", MASS, Fraction(1)),
        Unit("g", MASS, Fraction(1, 1000)),
        Unit("t", MASS, Fraction(1000)),
        Unit("lb", MASS, _POUND),
        Unit("oz", MASS, _POUND / 16),
        Unit("m", LENGTH, Fraction(1)),
        Unit("cm", LENGTH, Fraction(1, 100)),
        Unit("mm", LENGTH, Fraction(1, 1000)),
        Unit("km", LENGTH, Fraction(1000)),
        Unit("in", LENGTH, _INCH),
        Unit("ft", LENGTH, _FOOT),
        Unit("NM", LENGTH, _NAUTICAL_MILE),
        Unit("m2", AREA, Fraction(1)),
        Unit("cm2", AREA, Fraction(1, 10_000)),
        Unit("in2", AREA, _INCH**2),
        Unit("ft2", AREA, _FOOT**2),
        Unit("m3", VOLUME, Fraction(1)),
        Unit("ft3", VOLUME, _FOOT**3),
        Unit("L", VOLUME, _LITRE),
        Unit("USgal", VOLUME, 231 * _INCH**3),
        Unit("USqt", VOLUME, 231 * _INCH**3 / 4),
        Unit("impgal", VOLUME, Fraction("4.54609") * _LITRE),
        Unit("s", TIME, Fraction(1)),
        Unit("min", TIME, Fraction(60)),
        Unit("h", TIME, _HOUR),
        Unit("kt", SPEED, _NAUTICAL_MILE / _HOUR),
        Unit("N", FORCE, Fraction(1)),
        Unit("daN", FORCE, Fraction(10)),
        Unit("kN", FORCE, Fraction(1000)),
        Unit("lbf", FORCE, _POUND * _GRAVITY),
        Unit("Pa", PRESSURE, Fraction(1)),
        Unit("hPa", PRESSURE, Fraction(100)),
        Unit("psi", PRESSURE, _POUND * _GRAVITY / _INCH**2),
        Unit("inHg", PRESSURE, Fraction("3386.389")),
        Unit("kW", POWER, Fraction(1000)),
        Unit("hp", POWER, 550 * _FOOT * _POUND * _GRAVITY),
        Unit("deg", ANGLE, Fraction(1)),
        Unit("K", TEMPERATURE, Fraction(1)),
        Unit("degC", TEMPERATURE, Fraction(1), Fraction("273.15"), is_point=True),
        Unit("degF", TEMPERATURE, Fraction(5, 9), Fraction("459.67") * Fraction(5, 9), is_point=True),
    )
}

_CALENDAR: Final = {"day": "days", "month": "months", "year": "years"}
CALENDAR_UNITS: Final = frozenset((*_CALENDAR, *_CALENDAR.values()))
"""The words that count calendar time. A month has no fixed length, so they are no units."""


def unit_names() -> tuple[str, ...]:
    """Every simple unit's name, for a guide or for "did you mean"."""
    return tuple(_UNITS)


def units_of(dimension: Dimension, like: Unit) -> tuple[str, ...]:
    """The simple units of a dimension; points on a scale only where ``like`` is one."""
    return tuple(
        name for name, unit in _UNITS.items() if unit.dimension == dimension and unit.is_point == like.is_point
    )


def calendar_unit(word: str) -> str | None:
    """ "days", "months" or "years" where ``word`` counts calendar time."""
    return _CALENDAR.get(word, word if word in _CALENDAR.values() else None)


@lru_cache(maxsize=1024)
def find_unit(name: str) -> Unit | None:
    """The unit called ``name``, made of simple units with ``.`` and ``/`` where need be (kg/L, lb.in).

    None where a part of the name is no unit, or is a point on a scale and so cannot be multiplied.
    """
    simple = _UNITS.get(name)
    if simple is not None:
        return simple
    dimension, factor, sign = NUMBER, Fraction(1), 1
    for part in re.split(r"([./])", name):
        if part in (".", "/"):
            sign = 1 if part == "." else -1
            continue
        unit = _UNITS.get(part)
        if unit is None or unit.is_point:
            return None
        dimension = dimension * unit.dimension if sign > 0 else dimension / unit.dimension
        factor = factor * unit.factor if sign > 0 else factor / unit.factor
    return Unit(name, dimension, factor)


def known_unit(name: str) -> Unit:
    """The unit called ``name``, which must be one. Errors: KeyError."""
    unit = find_unit(name)
    if unit is None:
        raise KeyError(name)
    return unit


_USUAL: Final = (
    "kg", "mm", "h", "K", "%MAC", "deg", "m2", "L", "kg/L", "kg.mm", "kt", "daN", "hPa", "kW",
    "kg/m2", "kg/m", "L/h", "kg/h",
)  # fmt: skip


def usual_unit(dimension: Dimension) -> Unit:
    """The unit in which to show a quantity of this dimension when the sheet does not suggest one."""
    for name in _USUAL:
        unit = known_unit(name)
        if unit.dimension == dimension:
            return unit
    return PURE if dimension == NUMBER else Unit(dimension._spelled(), dimension, Fraction(1))
