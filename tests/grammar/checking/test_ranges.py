"""Between which ends a value can lie, against every value that it takes; and the end of a month, by the calendar."""

from __future__ import annotations

import calendar
from datetime import date
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from engine.evaluation.exact import value_for
from engine.evaluation.loading import Loading
from engine.evaluation.requests import read_loading
from grammar.checking.ranges import Ends, ends
from grammar.pipeline import read_sheet
from tests.engine.evaluation.small_sheets import HEADER, sheet_of

DECLARED = """\
given a from -3 to 2
given b from 1 to 4
given c from -5 to -1
given pick is one of one, two
table t of a in number gives number source fm "1"
  | a | t |
  | -3 | 4 |
  |  0 | -2 |
  |  2 | 5 |
"""
VALUES = {"a": range(-3, 3), "b": range(1, 5), "c": range(-5, 0), "pick": ("one", "two")}

EXPRESSIONS = st.recursive(
    st.sampled_from(("a", "b", "c", "2", "0.5", "t(a)")),
    lambda inner: st.one_of(
        st.tuples(st.sampled_from("+-*"), inner, inner).map(lambda one: f"({one[1]} {one[0]} {one[2]})"),
        st.tuples(inner, st.sampled_from(("b", "c", "2"))).map(lambda one: f"({one[0]} / {one[1]})"),
        st.tuples(st.sampled_from(("min", "max")), inner, inner).map(lambda one: f"{one[0]}({one[1]}, {one[2]})"),
        inner.map(lambda one: f"abs({one})"),
        inner.map(lambda one: f"(-{one})"),
        st.tuples(st.sampled_from(("up", "down")), inner).map(lambda one: f"(round_{one[0]} {one[1]} to 2)"),
        st.tuples(inner, inner).map(lambda one: f"({one[0]} when pick is one, {one[1]} when pick is two)"),
        st.tuples(inner, inner).map(lambda one: f"({one[0]} when a > 0, {one[1]} otherwise)"),
    ),
    max_leaves=5,
)


def ends_and_values(expression: str) -> tuple[Ends, list[Fraction]]:
    """The ends of an expression, and its values for every whole value of the inputs."""
    sheet = sheet_of(DECLARED + f'limit l {expression} at most 1000000 source fm "2"\n')
    subject = next(one for one in sheet.limits if one.name == "l").claim.subject
    found = []
    for values in product(*VALUES.values()):
        stated = {
            name: value if isinstance(value, str) else Fraction(value)
            for name, value in zip(VALUES, values, strict=True)
        }
        value = value_for(sheet, Loading(stated), subject)
        assert isinstance(value, Fraction)
        found.append(value)
    return ends(subject, {}), found


@given(EXPRESSIONS)
@settings(deadline=None, max_examples=120)
def test_no_value_lies_beyond_the_ends(expression):
    told = read_sheet(HEADER + DECLARED + f'limit l {expression} at most 1000000 source fm "2"\n', "s").problems
    assume(not any(problem.code == "514" for problem in told))
    between, values = ends_and_values(expression)
    assert between.low is not None
    assert between.high is not None
    assert between.low <= min(values)
    assert max(values) <= between.high


@pytest.mark.parametrize(
    "expression",
    [
        "a", "a + b", "a - b", "-a", "2 * a - 3 * c", "a * b", "b * c", "a * c", "b / c", "a / b", "b / 2",
        "min(a, b)", "max(a, b, c)", "abs(a)", "abs(b)", "abs(c)", "round_up a to 2", "round_down c to 2", "t(a)",
        "(a when pick is one, b when pick is two)", "a * b + c / b",
    ],
)  # fmt: skip
def test_the_ends_are_reached_where_each_input_stands_once(expression):
    between, values = ends_and_values(expression)
    if expression == "a * b + c / b":  # b stands twice: the ends may lie further out, never closer
        assert between.low is not None
        assert between.low <= min(values)
        return
    assert (between.low, between.high) == (min(values), max(values))


@pytest.mark.parametrize(
    ("expression", "told"),
    [
        ("1 / a", ["514"]),
        ("1 / b", []),
        ("1 / (a + b)", ["514"]),
        ("1 / (b - c)", []),
        ("1 / max(a, 0.001)", []),
        ("1 / max(a, 0)", ["514"]),
        ("1 / (a * b)", ["514"]),
        ("1 / (2 when pick is one, 0 when pick is two)", ["514"]),
    ],
)
def test_a_division_is_allowed_just_where_its_divisor_is_never_zero(expression, told):
    text = DECLARED + f'limit l {expression} at most 9 source fm "2"\n'
    assert [one.code for one in read_sheet(HEADER + text, "s").problems if one.code != "303"] == told


@pytest.mark.parametrize(
    ("claim", "told"),
    [
        ("a at most -3", []),
        ("a at most -3.001", ["513"]),
        ("a at least 2", []),
        ("a at least 2.001", ["513"]),
        ("a + b at most -2", []),
        ("a + b at most -2.001", ["513"]),
        ("a between 5 and 4", ["512"]),
        ("a between b and c", ["512"]),
        ("a between c and b", []),
    ],
)
def test_a_claim_is_told_as_impossible_just_beyond_the_ends(claim, told):
    text = DECLARED + f'limit l {claim} source fm "2"\n'
    assert [one.code for one in read_sheet(HEADER + text, "s").problems if one.code != "303"] == told


# ---- months

DATED = 'given on is a date\nlimit l on at most {} source fm "2"\n'


def day_of(expression: str, on: date) -> date:
    sheet = sheet_of(DATED.format(expression))
    bound = next(one for one in sheet.limits if one.name == "l").claim.bound
    value = value_for(sheet, read_loading(sheet, {"on": on.isoformat()}), bound)
    assert isinstance(value, Fraction)
    return date.fromordinal(int(value))


def by_calendar(on: date, months: int) -> date:
    """A day so many months later, on the last day of a month that is too short (common practice, no source)."""
    year, month = divmod(on.year * 12 + on.month - 1 + months, 12)
    return date(year, month + 1, min(on.day, calendar.monthrange(year, month + 1)[1]))


DAYS = st.one_of(
    st.dates(date(1900, 1, 1), date(2200, 1, 1)),
    st.sampled_from(
        [date(2024, 2, 29), date(2023, 2, 28), date(2000, 2, 29), date(2100, 2, 28), date(2024, 1, 31)]
    ),
)


@given(on=DAYS, months=st.integers(1, 60))
@settings(deadline=None, max_examples=80)
def test_months_and_the_end_of_the_month(on, months):
    later = by_calendar(on, months)
    assert day_of(f"on + {months} months", on) == later
    assert day_of(f"on - {months} months", on) == by_calendar(on, -months)
    assert day_of(f"end_of_month(on + {months} months)", on) == later.replace(
        day=calendar.monthrange(later.year, later.month)[1]
    )


@pytest.mark.parametrize(
    ("expression", "on", "wanted"),
    [
        ("on + 12 months", "2024-02-29", "2025-02-28"),
        ("on + 48 months", "2024-02-29", "2028-02-29"),
        ("on + 1 years", "2024-02-29", "2025-02-28"),
        ("on + 4 years", "2096-02-29", "2100-02-28"),
        ("on + 1 months", "2024-01-31", "2024-02-29"),
        ("on + 1 months", "2023-01-31", "2023-02-28"),
        ("end_of_month(on)", "2024-02-01", "2024-02-29"),
        ("end_of_month(on)", "2100-02-01", "2100-02-28"),
        ("end_of_month(on)", "2024-12-31", "2024-12-31"),
        ("end_of_month(on + 30 days)", "2024-01-31", "2024-03-31"),
        ("end_of_month(on) + 1 days", "2024-02-10", "2024-03-01"),
        ("end_of_month(on + 12 months) + 1 months", "2024-01-15", "2025-02-28"),
    ],
)
def test_months_by_hand(expression, on, wanted):
    assert day_of(expression, date.fromisoformat(on)).isoformat() == wanted
