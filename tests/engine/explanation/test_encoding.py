"""The encoder gives the very bytes of the published models, for answers it has met before and for new ones."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.evaluation.compiling.compiled import compile_sheet
from engine.evaluation.loading import Loading
from engine.evaluation.requests import read_loading
from engine.explanation.amounts import amount, decimals_that_tell_apart
from engine.explanation.document import explanation_document
from engine.explanation.encoding import Encoder
from engine.explanation.encoding_figures import decimal_text, decimals_apart, shown_ratio
from grammar.figures import Rounding, show
from grammar.units import PURE
from limits_demo.booking import Booking
from tests.conformance.case_files import Case, all_cases
from tests.conformance.interpretations import checked_sheet
from tests.engine.evaluation.compiling.agreement import plain
from tests.engine.evaluation.compiling.test_same_answers import (
    AIRFRAMES,
    BOOKINGS,
    SHEETS,
    demo,
    loadings,
)
from tests.engine.evaluation.small_sheets import sheet_of
from tests.strategies import Flight, flights, typed


@cache
def encoder(name: str) -> Encoder:
    return Encoder(demo(name))


def through_the_models(of: Encoder, loading: Loading) -> bytes:
    return explanation_document(plain(of.compiled, loading)).model_dump_json().encode()


def agrees(of: Encoder, loading: Loading) -> bool:
    """Hold an encoder to the models, first as it is and then with what it has learned from this answer;
    whether generated code gave the bytes in the end."""
    expected = through_the_models(of, loading)
    assert of.answer(loading) == expected
    assert of.answer(loading) == expected
    numbers = of.compiled.numbers(loading)
    quick = None if numbers is None else of.encoded(numbers, loading.stated.keys())
    assert quick in (None, expected)
    return quick is not None


# ---- whole answers


@pytest.mark.parametrize("booking", BOOKINGS, ids=lambda booking: booking.id)
def test_a_booking_is_encoded_alike(booking: Booking) -> None:
    airframe = AIRFRAMES[booking.airframe]
    of = encoder(airframe.sheet)
    agrees(of, read_loading(of.compiled.sheet, booking.stated(airframe)))


def test_most_bookings_are_encoded_by_generated_code() -> None:
    quick = 0
    for booking in BOOKINGS:
        airframe = AIRFRAMES[booking.airframe]
        of = encoder(airframe.sheet)
        quick += agrees(of, read_loading(of.compiled.sheet, booking.stated(airframe)))
    assert quick > 0.75 * len(BOOKINGS)


def test_a_flat_request_is_encoded_like_its_loading() -> None:
    for booking in BOOKINGS:
        airframe = AIRFRAMES[booking.airframe]
        of, stated = encoder(airframe.sheet), booking.stated(airframe)
        assert of.answer(stated) == through_the_models(of, read_loading(of.compiled.sheet, stated))


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_a_random_loading_is_encoded_alike(path, data: st.DataObject) -> None:
    of = encoder(path.stem)
    agrees(of, Loading(data.draw(loadings(of.compiled))))


@pytest.mark.parametrize("case", all_cases(), ids=lambda case: case.name)
def test_a_conformance_case_is_encoded_alike(case: Case) -> None:
    of = Encoder(compile_sheet(checked_sheet(case)))
    agrees(of, read_loading(of.compiled.sheet, case.loading))


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(flights(), st.lists(st.integers(40, 130), min_size=3, max_size=3))
def test_random_flights_of_one_sheet_are_encoded_alike(flight: Flight, seats: list[int]) -> None:
    """What is learned from one answer is right for the next."""
    of = Encoder(compile_sheet(sheet_of(flight.text)))
    for seat in seats:
        stated = {**flight.stated, "seat": f"{seat} kg", "trip_fuel": f"{typed(flight.trip)} L"}
        agrees(of, read_loading(of.compiled.sheet, stated))


def test_letters_beyond_ascii_and_signs_of_formatting_come_through() -> None:
    text = """\
load seat "Sitz %s {0} für Gäste, 5 % – „vorn“" from 0 kg to 100 kg arm 1 m assumed empty source fm "§ 2 %d"
limit a "Höchstmaß 100 %" seat at most 90.5 kg source fm "\\u2028"
  note "läßt 10 % übrig"
limit b at takeoff mass at most 400 kg when seat is occupied source fm "3"
"""
    of = Encoder(compile_sheet(sheet_of(text)))
    requests = [{"seat": f"{seat} kg", "empty_mass": "333.3 kg"} for seat in ("10", "0", "90.5", "91", "55.25")]
    for request in [*requests, {"empty_mass": "333.3 kg"}, *requests]:
        agrees(of, read_loading(of.compiled.sheet, request))
    assert agrees(of, read_loading(of.compiled.sheet, requests[0]))


ALTERNATIVES = """\
load x from 0 kg to 100 kg arm 1 m source fm "1"
load y from 0 kg to 100 kg arm 1 m source fm "1"
load w from 10 kg to 100 kg arm 1 m source fm "1"
envelope hourglass of cg in m against mass in kg source fm "1"
  | cg | mass |
  | 0.97 | 300 |
  | 0.99 | 330 |
  | 0.96 | 420 |
  | 1.04 | 420 |
  | 1.01 | 330 |
  | 1.03 | 300 |
limit spread x - y between 0 kg and 5 kg source fm "1"
limit between_two x - y between 5 kg - w and w - 5 kg source fm "1"
limit either x at most y or x at most w source fm "1"
limit by_turns (x at most y when w is occupied, y at most x otherwise) source fm "1"
limit least min(x, y) at least 0 * x source fm "1"
limit balance at takeoff cg between 0.9 m and 1.1 m source fm "1"
limit point at takeoff (cg, mass) inside hourglass source fm "1"
limit point_or_light at takeoff (cg, mass) inside hourglass or mass at most 350 kg source fm "1"
caution uneven abs(x - y) / w at most 1 source fm "2"
"""


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(*[st.integers(0, 105)] * 3, st.integers(90, 110)), min_size=2, max_size=6))
def test_alternatives_choices_and_points_are_encoded_alike(places: list[tuple[int, int, int, int]]) -> None:
    of = encoder_of_alternatives()
    for x, y, w, arm in places:
        stated = {"x": f"{x} kg", "y": f"{y} kg", "w": f"{w} kg", "empty_mass": "250 kg", "empty_arm": f"{arm} cm"}
        agrees(of, read_loading(of.compiled.sheet, stated))


@cache
def encoder_of_alternatives() -> Encoder:
    """One encoder for all examples, so that each is encoded with what was learned from those before."""
    return Encoder(compile_sheet(sheet_of(ALTERNATIVES)))


# ---- figures


@given(st.integers(-(10**12), 10**12), st.integers(0, 9))
def test_a_decimal_reads_as_it_is_shown(whole: int, decimals: int) -> None:
    assert decimal_text(whole, decimals) == show(Fraction(whole, 10**decimals), Rounding.NEAREST).text


@given(
    st.one_of(st.integers(-2000, 2000), st.integers(-(10**14), 10**14)),
    st.one_of(st.integers(1, 60), st.integers(1, 10**11), st.sampled_from([2**9, 10**4, 10**9, 10**11, 5**8])),
    st.sampled_from(Rounding),
    st.integers(0, 12),
)
def test_a_ratio_is_shown_as_the_amount_is(n: int, d: int, lean: Rounding, decimals: int) -> None:
    expected = amount(Fraction(n, d), PURE, lean, decimals)
    text, exact = shown_ratio(n, d, lean, decimals)
    assert text == expected.figure.text
    assert exact == (None if expected.figure.is_exact else str(Fraction(n, d)))


@given(st.integers(-(10**9), 10**9), st.integers(1, 10**15))
def test_as_many_decimals_tell_two_values_apart(n: int, d: int) -> None:
    assert decimals_apart(n, d) == decimals_that_tell_apart(Fraction(n, d), Fraction(0), PURE)
