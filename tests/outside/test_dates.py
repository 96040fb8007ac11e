"""The validity of a weighing, against an independent calendar library."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.outside.bench import check, page

DAYS = st.dates(min_value=date(1990, 1, 1), max_value=date(2099, 12, 31))
SPANS = {
    "1 month": relativedelta(months=1),
    "6 months": relativedelta(months=6),
    "11 months": relativedelta(months=11),
    "12 months": relativedelta(months=12),
    "36 months": relativedelta(months=36),
    "37 months": relativedelta(months=37),
    "48 months": relativedelta(months=48),
    "1 year": relativedelta(years=1),
    "4 years": relativedelta(years=4),
    "30 days": relativedelta(days=30),
    "365 days": relativedelta(days=365),
}


def weighing_sheet(span: str) -> str:
    return page(
        "Validity of a weighing",
        f"""
limit weighing "Weighed within {span}"
  flight_date at most weighed_on + {span}      source book "weighing"
""",
    )


def verdict(span: str, weighed: date, flown: date) -> str:
    answer = check(weighing_sheet(span), weighed_on=weighed.isoformat(), flight_date=flown.isoformat())
    return answer.verdict()


@pytest.mark.parametrize("span", SPANS)
@settings(max_examples=40, deadline=None)
@given(weighed=DAYS)
@example(weighed=date(2024, 2, 29))
@example(weighed=date(2023, 2, 28))
@example(weighed=date(2024, 1, 31))
@example(weighed=date(2025, 8, 31))
@example(weighed=date(2096, 2, 29))
def test_last_day_of_validity(span: str, weighed: date) -> None:
    """The last day is the library's; on it the weighing is good, the day after it is not."""
    last = weighed + SPANS[span]
    assert verdict(span, weighed, last) == "within"
    assert verdict(span, weighed, last + timedelta(days=1)) == "outside"
    assert verdict(span, weighed, last - timedelta(days=1)) == "within"


@settings(max_examples=60, deadline=None)
@given(weighed=DAYS, flown=DAYS)
def test_any_two_days(weighed: date, flown: date) -> None:
    expected = "within" if flown <= weighed + relativedelta(months=48) else "outside"
    assert verdict("48 months", weighed, flown) == expected


@pytest.mark.parametrize(
    ("weighed", "span", "last"),
    [
        ("2024-02-29", "1 year", "2025-02-28"),
        ("2024-02-29", "4 years", "2028-02-29"),
        ("2024-01-31", "1 month", "2024-02-29"),
        ("2023-01-31", "1 month", "2023-02-28"),
        ("2023-02-28", "12 months", "2024-02-28"),
        ("2023-08-31", "6 months", "2024-02-29"),
        ("2096-02-29", "4 years", "2100-02-28"),
    ],
)
def test_month_ends_and_leap_days(weighed: str, span: str, last: str) -> None:
    """A month that is too short ends on its last day; 2100 is no leap year."""
    assert date.fromisoformat(weighed) + SPANS[span] == date.fromisoformat(last)
    after = date.fromisoformat(last) + timedelta(days=1)
    assert verdict(span, date.fromisoformat(weighed), date.fromisoformat(last)) == "within"
    assert verdict(span, date.fromisoformat(weighed), after) == "outside"
