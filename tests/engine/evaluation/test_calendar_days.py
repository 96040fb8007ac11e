"""Dates moved by calendar months, with dateutil as the independent check."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from engine.evaluation.calendar_days import later

days = st.dates(date(1900, 1, 1), date(2200, 12, 31))


def number(day: date) -> Fraction:
    return Fraction(day.toordinal())


@given(days, st.integers(-600, 600), st.integers(-400, 400))
def test_months_then_days_as_dateutil_counts_them(day: date, months: int, more: int) -> None:
    expected = day + relativedelta(months=months) + timedelta(days=more)
    assert later(number(day), months, more) == number(expected)


def test_a_month_too_short_ends_on_its_last_day() -> None:
    assert later(number(date(2024, 1, 31)), 1, 0) == number(date(2024, 2, 29))
    assert later(number(date(2024, 2, 29)), 12, 0) == number(date(2025, 2, 28))
    assert later(number(date(2024, 2, 29)), 48, 0) == number(date(2028, 2, 29))


def test_the_calendar_goes_on_beyond_the_year_9999() -> None:
    last = number(date.max)
    assert later(last, 0, 1) == last + 1
    assert later(last, 12, 0) == last + 366  # the year 10000 is a leap year
    assert later(later(last, 4800, 0), -4800, 0) == last
