"""Why a value is not known, in plain words."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from engine.evaluation.result import Cause, Gap, Missing, OutOfRange, OutOfTable, TooManyPieces, ZeroDivisor
from grammar.figures import show_with_unit
from grammar.units import Unit


def needed(gap: Gap) -> str:
    """Everything that would have to be supplied or changed."""
    return "; ".join(in_words(cause) for cause in gap.causes)


def in_words(cause: Cause) -> str:
    """One cause in words, by the names of the sheet."""
    match cause:
        case Missing():
            return f"{cause.input.name} is not stated"
        case OutOfRange():
            return f"{cause.input.name} {value_shown(cause.value, cause.input.unit)} is beyond its declared range"
        case OutOfTable():
            unit = cause.table.axes[cause.axis].unit
            at, end = show_with_unit(cause.value, unit), show_with_unit(cause.nearest, unit)
            return f"{cause.table.name} ends at {end}, and is read at {at}"
        case ZeroDivisor():
            return "a division by zero"
        case TooManyPieces():
            return f"{cause.limit.name} changes too often during the burn to be followed"


def value_shown(value: Fraction, unit: Unit | None) -> str:
    """A value in base units as text; without a unit it is a day."""
    return _day(value) if unit is None else show_with_unit(value, unit)


def _day(value: Fraction) -> str:
    """A day as a date, or by its number where the calendar of the computer ends."""
    number = int(value)
    is_shown = date.min.toordinal() <= number <= date.max.toordinal()
    return date.fromordinal(number).isoformat() if is_shown else f"day {number}"
