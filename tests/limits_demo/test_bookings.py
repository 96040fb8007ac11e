"""The group's bookings against what each comes to by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from engine.evaluation.exact import evaluate
from engine.evaluation.requests import read_loading
from engine.evaluation.result import LimitResult, Missing, OutOfTable
from grammar.sheet import Ground, Inside, Verdict, Weight
from limits_demo import fleet
from tests.limits_demo.group import BOOKINGS, EXPECTED, Checked, checked, everyone, in_base_units


def test_there_are_40_bookings_for_airframes_of_the_group() -> None:
    assert len(set(BOOKINGS)) == len(BOOKINGS) == 40
    assert {one.booking.airframe for one in everyone()} == {airframe.registration for airframe in fleet()}
    assert set(EXPECTED) == {*BOOKINGS, "note"}


@pytest.mark.parametrize("booking", BOOKINGS)
def test_its_verdict_is_the_one_worked_out_by_hand(booking: str) -> None:
    assert checked(booking).answer.verdict.value == EXPECTED[booking]["verdict"]


@pytest.mark.parametrize("booking", BOOKINGS)
def test_every_limit_comes_out_as_by_hand(booking: str) -> None:
    for verdict in (Verdict.OUTSIDE, Verdict.UNDETERMINED, Verdict.NOT_APPLICABLE):
        assert checked(booking).named(verdict) == set(EXPECTED[booking].get(verdict.value, ())), verdict


@pytest.mark.parametrize("booking", BOOKINGS)
def test_its_tightest_limit_is_the_one_by_hand_and_leaves_the_same_room(booking: str) -> None:
    by_hand = {name: in_base_units(room) for name, room in EXPECTED[booking]["tightest"].items()}
    assert _tightest(checked(booking)) == by_hand


@pytest.mark.parametrize("booking", [one for one in BOOKINGS if "tightest_after_burning" in EXPECTED[one]])
def test_a_limit_that_holds_throughout_is_tightest_where_it_is_by_hand(booking: str) -> None:
    for name, burned in EXPECTED[booking]["tightest_after_burning"].items():
        state = checked(booking).limit(name).tightest
        assert state is not None
        assert state.burned == in_base_units(burned)


def _tightest(one: Checked) -> dict[str, Fraction]:
    """The stated limits with the least room as a share of the bound, and that room."""
    shares = {
        (each.limit.name, margin.room): margin.share
        for each in one.answer.limits
        if each.limit.weight is Weight.LIMIT and each.limit.ground is Ground.STATED
        for margin in each.margins
        if margin.share is not None and not isinstance(margin.claim, Inside)
    }
    return {name: room for (name, room), share in shares.items() if share == min(shares.values())}


# ---- together they show everything


def test_every_verdict_on_a_load_occurs() -> None:
    verdicts = [one.answer.verdict for one in everyone()]
    counted = [verdicts.count(verdict) for verdict in (Verdict.WITHIN, Verdict.OUTSIDE, Verdict.UNDETERMINED)]
    assert min(counted) >= 4, counted


def test_every_verdict_on_a_limit_occurs() -> None:
    assert {each.verdict for one in everyone() for each in one.answer.limits} == set(Verdict)


def test_a_value_is_missing_in_one_and_a_table_left_in_another() -> None:
    causes = [type(cause) for each in _undetermined() if each.gap for cause in each.gap.causes]
    assert {Missing, OutOfTable} <= set(causes)


def _undetermined() -> list[LimitResult]:
    return [each for one in everyone() for each in one.answer.limits if each.verdict is Verdict.UNDETERMINED]


def test_cautions_are_broken_by_loads_that_are_within() -> None:
    cautioned = [one for one in everyone() if one.answer.verdict is Verdict.WITHIN and one.named(Verdict.OUTSIDE)]
    assert len(cautioned) >= 3


def test_several_loads_are_exactly_on_a_stated_limit_and_within() -> None:
    exact = [
        one.booking.id
        for one in everyone()
        if one.answer.verdict is Verdict.WITHIN and 0 in _tightest(one).values()
    ]
    assert len(exact) >= 6, exact


def test_ranges_of_places_and_the_burn_itself_are_broken_too() -> None:
    grounds = {
        each.limit.ground for one in everyone() for each in one.answer.limits if each.verdict is Verdict.OUTSIDE
    }
    assert grounds == set(Ground)


def test_one_load_is_refused_only_for_the_middle_of_its_burn() -> None:
    one = checked("Q-119")
    assert one.named(Verdict.OUTSIDE) == {"normal_balance"}
    state = one.limit("normal_balance").tightest
    assert state is not None
    trip = one.answer.loading.stated["trip_fuel"]
    assert isinstance(trip, Fraction)
    assert 0 < state.burned < trip
    assert _is_within_at_both_ends(one)


def _is_within_at_both_ends(one: Checked) -> bool:
    """Whether the balance is within for the same airframe with no trip at all and with the fuel of its landing.

    The wing tanks are down to 11.5 gallons and the aft tank is empty after 45 gallons of the trip.
    """
    stated = one.booking.stated(one.airframe)
    at_takeoff = stated | {"trip_fuel": "0 USgal"}
    at_landing = stated | {
        "wing_tanks": "11.5 USgal",
        "aft_tank": "0 USgal",
        "taxi_fuel": "0 USgal",
        "trip_fuel": "0 USgal",
    }
    return all(
        each.verdict is Verdict.WITHIN
        for ends in (at_takeoff, at_landing)
        for each in evaluate(one.answer.sheet, read_loading(one.answer.sheet, ends)).limits
        if each.limit.name == "normal_balance"
    )
