"""The quick reading of a request takes usual figures only, and takes them for what the plain reading does."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.evaluation.compiling.compiled import CompiledSheet, compile_sheet
from engine.evaluation.loading import Loading
from engine.evaluation.requests import RequestRefused, read_loading
from tests.engine.evaluation.compiling.agreement import reads_alike
from tests.engine.evaluation.small_sheets import sheet_of

SHEET = """\
fact engine is one of standard, boosted source fm "1"
given warmth in degC from -20 degC to 40 degC
given height in ft from 0 ft to 8000 ft
given factor from 0 to 5
load seat from 0 kg to 120 kg arm 2 m source fm "1"
load locker from 0 lb to 40 lb arm 3 m assumed empty source fm "1"
fuel tank from 0 L to 80 L density 0.72 kg/L arm 1 m source fm "1"
limit a seat at most 100 kg + factor * 1 kg when engine is boosted source fm "2"
limit b at takeoff mass at most 700 kg when warmth < 30 degC and height < 5000 ft source fm "2"
limit c locker at most 40 lb source fm "2"
limit d flight_date at most weighed_on + 4 months source fm "2"
limit e throughout cg at most 3 m source fm "2"
"""

STATED = {
    "engine": "boosted",
    "warmth": "-3.5 degC",
    "height": "1200 ft",
    "factor": "1.25",
    "seat": "82.125 kg",
    "locker": "12.5 lb",
    "tank": "60 L",
    "trip_fuel": "20 L",
    "empty_mass": "400 kg",
    "empty_arm": "1750 mm",
    "flight_date": "2026-05-03",
    "weighed_on": "2026-02-01",
}


@cache
def compiled() -> CompiledSheet:
    return compile_sheet(sheet_of(SHEET))


def test_a_usual_request_takes_the_quick_way() -> None:
    assert reads_alike(compiled(), STATED)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("seat", "82.1251 kg"),
        ("seat", "82,5 kg"),
        ("seat", "82.5kg"),
        ("seat", "82.5"),
        ("seat", "-1 kg"),
        ("seat", "+1 kg"),
        ("seat", "1e2 kg"),
        ("seat", ".5 kg"),
        ("seat", "5. kg"),
        ("seat", "1_0 kg"),
        ("seat", "٣ kg"),
        ("seat", "- kg"),
        ("seat", "180 oz"),
        ("tank", "10 USgal"),
        ("seat", "9999999999999999 kg"),
        ("tank", "40 kg"),
        ("warmth", "41 degC"),
        ("warmth", "-20.001 degC"),
        ("height", "8000.001 ft"),
        ("engine", "Boosted"),
        ("flight_date", "2026-02-30"),
        ("flight_date", "20260503"),
        ("wings", "1 kg"),
    ],
)
def test_anything_unusual_is_left_to_the_plain_way(name: str, text: str) -> None:
    assert compiled().numbers({**STATED, name: text}) is None


@pytest.mark.parametrize("name", sorted({*STATED} - {"locker"}))
def test_a_missing_value_is_left_to_the_plain_way(name: str) -> None:
    assert compiled().numbers({key: text for key, text in STATED.items() if key != name}) is None


def test_a_place_that_is_assumed_empty_may_be_left_out() -> None:
    without = {key: text for key, text in STATED.items() if key != "locker"}
    assert compiled().numbers(without) == compiled().numbers({**STATED, "locker": "0 lb"})


_figures = st.one_of(
    st.decimals(-30, 130, places=3).map(str),
    st.integers(-5, 9000).map(str),
    st.text("0123456789.-+eE_ ,", max_size=8),
    st.text(max_size=5),
)
_units = st.sampled_from(
    ["kg", "lb", "g", "L", "USgal", "degC", "degF", "ft", "m", "mm", "in", "", "kgs", "K", "number"]
)


@given(st.sampled_from(sorted(STATED)), _figures, _units, st.sampled_from([" ", "", "  "]))
def test_whatever_is_taken_is_taken_for_what_it_is(name: str, figure: str, unit: str, space: str) -> None:
    reads_alike(compiled(), {**STATED, name: f"{figure}{space}{unit}"})


@given(st.sampled_from(["flight_date", "weighed_on"]), st.text("0123456789-", min_size=8, max_size=11))
def test_a_day_is_taken_for_the_day_it_is(name: str, text: str) -> None:
    reads_alike(compiled(), {**STATED, name: text})


@given(
    st.sampled_from(["seat", "warmth", "factor", "tank", "empty_arm"]),
    st.fractions(-50, 200, max_denominator=10**5),
)
def test_a_value_is_taken_only_where_it_is_whole_steps(name: str, value) -> None:
    loading = read_loading(compiled().sheet, STATED)
    stated = {**loading.stated, name: value}
    numbers, step = compiled().numbers(Loading(stated)), compiled().parts.steps[name]
    if numbers is not None:
        at = [item.name for item in compiled().parts.needed].index(name)
        assert numbers[at] * step == value


def test_what_is_refused_is_never_taken() -> None:
    for text in ("82 stone", "about 82 kg", ""):
        request = {**STATED, "seat": text}
        with pytest.raises(RequestRefused):
            read_loading(compiled().sheet, request)
        assert compiled().numbers(request) is None
