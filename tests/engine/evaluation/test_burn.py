"""What the tanks hold at each stage, by hand."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from engine.evaluation.burn import BurnStages, burn_stages
from engine.evaluation.requests import read_loading
from engine.evaluation.result import Gap, Missing
from engine.evaluation.workings import Workings
from tests.engine.evaluation.small_sheets import amount, sheet_of
from tests.strategies import Flight, decimals, flights, typed

TANKS = """\
fuel main from 0 L to 100 L density 0.72 kg/L arm 1 m source fm "1"
fuel left from 0 L to 50 L density 0.72 kg/L arm 1 m source fm "1"
fuel right from 0 L to 50 L density 0.72 kg/L arm 1 m source fm "1"
burn main down to 20 L, then left with right, then main source fm "2"
limit reserve
  at landing
  fuel at least 0 kg
  source fm "2"
"""
SHEET = sheet_of(TANKS)
LITRE = amount("1 L")


def stages(**stated: str) -> BurnStages:
    return burn_stages(SHEET, Workings(read_loading(SHEET, stated), {}, []))


def litres(levels: tuple[Fraction | Gap, ...]) -> list[Fraction | list[str]]:
    return [
        [cause.input.name for cause in level.causes if isinstance(cause, Missing)]
        if isinstance(level, Gap)
        else level / LITRE
        for level in levels
    ]


FULL = {"main": "60 L", "left": "30 L", "right": "10 L"}


def test_each_step_is_drawn_down_before_the_next_begins() -> None:
    assert litres(stages(**FULL, trip_fuel="40 L").landing) == [20, 30, 10]
    assert litres(stages(**FULL, trip_fuel="50 L").landing) == [20, 25, 5]


def test_of_two_drawn_together_one_that_is_empty_drops_out() -> None:
    assert litres(stages(**FULL, trip_fuel="60 L").landing) == [20, 20, 0]
    assert litres(stages(**FULL, trip_fuel="65 L").landing) == [20, 15, 0]


def test_the_last_step_takes_the_rest_and_no_more_than_there_is() -> None:
    assert litres(stages(**FULL, trip_fuel="90 L").landing) == [10, 0, 0]
    assert litres(stages(**FULL, trip_fuel="100 L").landing) == [0, 0, 0]
    assert litres(stages(**FULL, trip_fuel="500 L").landing) == [0, 0, 0]


def test_taxi_fuel_comes_first_and_in_the_same_order() -> None:
    flown = stages(**FULL, taxi_fuel="45 L", trip_fuel="20 L")
    assert litres(flown.takeoff) == [20, Fraction(55, 2), Fraction(15, 2)]
    assert litres(flown.landing) == [20, 15, 0]


def test_the_segments_meet_where_a_tank_changes() -> None:
    course = stages(**FULL, trip_fuel="100 L").throughout
    assert [segment.end / LITRE for segment in course.segments] == [40, 60, 80, 100]
    assert [list(segment.rates) for segment in course.segments] == [
        [-1, 0, 0],
        [0, Fraction(-1, 2), Fraction(-1, 2)],
        [0, -1, 0],
        [-1, 0, 0],
    ]


def test_an_unknown_trip_leaves_the_landing_open_and_the_burn_going_on() -> None:
    flown = stages(**FULL)
    assert litres(flown.landing) == [["trip_fuel"]] * 3
    assert flown.throughout.burned == 100 * LITRE


def test_an_unknown_tank_matters_from_its_own_step_on() -> None:
    known = {"main": "60 L", "left": "30 L"}
    assert litres(stages(**known, trip_fuel="40 L").landing) == [20, 30, ["right"]]
    assert litres(stages(**known, trip_fuel="41 L").landing) == [["right"]] * 3
    course = stages(**known).throughout
    assert course.burned == 40 * LITRE
    assert course.beyond is not None


def test_without_taxi_fuel_a_take_off_amount_needs_no_other_tank() -> None:
    assert litres(stages(left="30 L").takeoff) == [["main"], 30, ["right"]]


@given(flights(), decimals(0, 200))
def test_what_is_burned_is_what_is_gone(flight: Flight, trip: Fraction) -> None:
    sheet = sheet_of(flight.text)
    loading = read_loading(sheet, {**flight.stated, "trip_fuel": f"{typed(trip)} L"})
    flown = burn_stages(sheet, Workings(loading, {}, []))
    before = sum(level for level in flown.takeoff if isinstance(level, Fraction))
    after = sum(level for level in flown.landing if isinstance(level, Fraction))
    assert before - after == flown.throughout.burned == min(trip * LITRE, flown.throughout.burned)
    for start, end in zip(flown.takeoff, flown.landing, strict=True):
        assert isinstance(start, Fraction)
        assert isinstance(end, Fraction)
        assert 0 <= end <= start


@given(st.data(), flights())
def test_burning_in_two_parts_is_burning_at_once(data: st.DataObject, flight: Flight) -> None:
    sheet = sheet_of(flight.text)
    part = data.draw(st.integers(0, 60))
    rest = data.draw(st.integers(0, 60))

    def after(taxi: int, trip: int) -> tuple[Fraction | Gap, ...]:
        stated = {**flight.stated, "taxi_fuel": f"{taxi} L", "trip_fuel": f"{trip} L"}
        return burn_stages(sheet, Workings(read_loading(sheet, stated), {}, [])).landing

    assert after(part, rest) == after(0, part + rest)
