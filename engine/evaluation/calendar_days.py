"""Moving a day by calendar months and days. A day is its number, 0001-01-01 being day 1."""

from __future__ import annotations

from calendar import monthrange
from datetime import date
from fractions import Fraction
from typing import Final

_YEARS_IN_CYCLE: Final = 400
_DAYS_IN_CYCLE: Final = 146_097
"""The calendar repeats itself after 400 years (ISO 8601, the proleptic Gregorian calendar)."""


def later(day: Fraction, months: int, days: int, to_month_end: bool = False) -> Fraction:
    """The day so many months later, on the last day of a month that is too short, then so many days later,
    then on the last day of its month where that is wanted."""
    moved = _after_months(day, months) + days
    return _month_end(moved) if to_month_end else moved


def _after_months(day: Fraction, months: int) -> Fraction:
    start, cycles = _in_cycle(day)
    years, month = divmod(start.month - 1 + months, 12)
    more_cycles, year = divmod(start.year - 1 + years, _YEARS_IN_CYCLE)
    last = monthrange(year + 1, month + 1)[1]
    moved = date(year + 1, month + 1, min(start.day, last)).toordinal()
    return Fraction(moved + (cycles + more_cycles) * _DAYS_IN_CYCLE)


def _month_end(day: Fraction) -> Fraction:
    start, cycles = _in_cycle(day)
    last = start.replace(day=monthrange(start.year, start.month)[1])
    return Fraction(last.toordinal() + cycles * _DAYS_IN_CYCLE)


def _in_cycle(day: Fraction) -> tuple[date, int]:
    """The day that corresponds to this one in the first cycle, and how many cycles later this one is."""
    cycles, number = divmod(int(day) - 1, _DAYS_IN_CYCLE)
    return date.fromordinal(number + 1), cycles
