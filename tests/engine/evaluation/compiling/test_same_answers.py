"""Compiled code and the plain evaluator give the same whole answer, on every case there is and on random ones."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.evaluation.compiling.compiled import CompiledSheet, compile_sheet
from engine.evaluation.loading import Loading
from engine.evaluation.requests import read_loading
from grammar.pipeline import read_sheet
from grammar.sheet import CalendarDate, Input, Option, Role
from limits_demo.airframe import fleet
from limits_demo.booking import bookings
from tests.conformance.case_files import Case, all_cases
from tests.conformance.interpretations import checked_sheet
from tests.engine.evaluation.compiling.agreement import agrees, plain, reads_alike
from tests.engine.evaluation.small_sheets import sheet_of
from tests.strategies import Flight, flights, typed

SHEETS = sorted((Path(__file__).parents[4] / "limits_demo" / "sheets").glob("*.limits"))
AIRFRAMES = {airframe.registration: airframe for airframe in fleet()}
BOOKINGS = bookings()


@cache
def demo(name: str) -> CompiledSheet:
    path = next(path for path in SHEETS if path.stem == name)
    sheet = read_sheet(path.read_text(encoding="utf-8"), path.name).sheet
    assert sheet is not None
    return compile_sheet(sheet)


# ---- every case there is


@pytest.mark.parametrize("case", all_cases(), ids=lambda case: case.name)
def test_a_conformance_case_comes_out_alike(case: Case) -> None:
    compiled = compile_sheet(checked_sheet(case))
    reads_alike(compiled, case.loading)
    agrees(compiled, read_loading(compiled.sheet, case.loading))


@pytest.mark.parametrize("booking", BOOKINGS, ids=lambda booking: booking.id)
def test_a_booking_comes_out_alike(booking) -> None:
    airframe = AIRFRAMES[booking.airframe]
    compiled, stated = demo(airframe.sheet), booking.stated(airframe)
    reads_alike(compiled, stated)
    agrees(compiled, read_loading(compiled.sheet, stated))


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_compiled_code_covers_every_demo_sheet(path: Path) -> None:
    assert demo(path.stem).layout is not None


def test_most_bookings_take_the_compiled_way() -> None:
    taken = [booking for booking in BOOKINGS if _takes_the_quick_way(booking)]
    assert len(taken) > 0.75 * len(BOOKINGS)


def _takes_the_quick_way(booking) -> bool:
    airframe = AIRFRAMES[booking.airframe]
    compiled, stated = demo(airframe.sheet), booking.stated(airframe)
    numbers = compiled.numbers(stated)
    return numbers is not None and compiled.verdicts(numbers) is not None


# ---- random flights of random sheets


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(flights())
def test_a_random_flight_comes_out_alike(flight: Flight) -> None:
    """Compiled code gives the verdicts wherever every limit can be told; beyond a table it leaves them."""
    compiled = compile_sheet(sheet_of(flight.text))
    stated = {**flight.stated, "trip_fuel": f"{typed(flight.trip)} L"}
    assert reads_alike(compiled, stated)
    loading = read_loading(compiled.sheet, stated)
    if not agrees(compiled, loading):
        assert any(each.gap is not None for each in plain(compiled, loading).limits)


# ---- random loadings of the demo sheets, on the limits and beside them


@st.composite
def loadings(draw: st.DrawFn, compiled: CompiledSheet) -> dict[str, Fraction | str]:
    """A loading of a demo sheet in which nearly everything is stated, mostly within what the manual covers."""
    base = _usual(draw, compiled)
    return {item.name: _value(draw, item, base[item.name]) for item in compiled.sheet.inputs if item.name in base}


def _usual(draw: st.DrawFn, compiled: CompiledSheet) -> dict[str, Fraction | str]:
    name = compiled.sheet.header.name
    known = [booking for booking in BOOKINGS if AIRFRAMES[booking.airframe].sheet == name]
    booking = draw(st.sampled_from(known))
    return dict(read_loading(compiled.sheet, booking.stated(AIRFRAMES[booking.airframe])).stated)


def _value(draw: st.DrawFn, item: Input, usual: Fraction | str) -> Fraction | str:
    match item.kind:
        case Option(options=options):
            return draw(st.sampled_from(options))
        case CalendarDate():
            assert isinstance(usual, Fraction)
            return usual + draw(st.integers(-900, 900))
    if item.role is Role.WEIGHING or item.unit is None or item.most is None:
        return usual
    room = item.most - (item.least or Fraction(0))
    share = draw(st.integers(-5 if item.role is Role.GIVEN else 0, 110))
    inside = item.unit.from_base((item.least or Fraction(0)) + room * Fraction(share, 100))
    return item.unit.to_base(Fraction(round(inside * 10), 10))


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_a_random_loading_comes_out_alike(path: Path, data: st.DataObject) -> None:
    compiled = demo(path.stem)
    agrees(compiled, Loading(data.draw(loadings(compiled))))


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
@settings(max_examples=30, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_on_a_limit_and_a_step_to_either_side_it_comes_out_alike(path: Path, data: st.DataObject) -> None:
    compiled = demo(path.stem)
    stated = data.draw(loadings(compiled))
    place = data.draw(st.sampled_from(_adjustable(compiled, stated)))
    at = _on_a_limit(compiled, stated, place, data)
    step = compiled.parts.steps[place]
    for value in (at - step, at, at + step):
        if value >= 0:
            agrees(compiled, Loading({**stated, place: value}))


def _adjustable(compiled: CompiledSheet, stated: dict[str, Fraction | str]) -> list[str]:
    carried = (Role.LOAD, Role.TANK)
    return [item.name for item in compiled.sheet.inputs if item.role in carried and item.name in stated]


def _on_a_limit(
    compiled: CompiledSheet, stated: dict[str, Fraction | str], place: str, data: st.DataObject
) -> Fraction:
    """The load at a place with which some limit is met as exactly as whole steps allow.

    The room of most limits is straight in a load; two looks give the line.
    """
    now = stated[place]
    assert isinstance(now, Fraction)
    step = compiled.parts.steps[place]
    rooms = _rooms(compiled, stated)
    other = _rooms(compiled, {**stated, place: now + 1000 * step})
    moved = [key for key in rooms if key in other and other[key] != rooms[key]]
    if not moved:
        return now
    key = data.draw(st.sampled_from(sorted(moved)))
    rate = (other[key] - rooms[key]) / 1000
    return max(now + step * round(-rooms[key] / rate), Fraction(0))


def _rooms(compiled: CompiledSheet, stated: dict[str, Fraction | str]) -> dict[tuple[str, str], Fraction]:
    answer = plain(compiled, Loading(stated))
    return {
        (each.limit.name, f"{margin.side.name} {margin.claim.slot}"): margin.room
        for each in answer.limits
        for margin in each.margins
    }
