"""The sweep of a burn against the same claims looked at moment by moment, as a landing after so much trip fuel.

The moments are looked at by plain evaluation, which knows nothing of the sweep.
"""

from __future__ import annotations

from fractions import Fraction

from hypothesis import HealthCheck, assume, given, settings

from engine.evaluation.exact import evaluate_planned, plan_of
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult, LimitResult, Side
from grammar.sheet import Sheet, Verdict
from tests.engine.evaluation.small_sheets import result_of, sheet_of
from tests.strategies import Flight, flights

SAMPLES = 24
LITRE = Fraction(1, 1000)
CLOSE = Fraction(1, 10**9)
SLOW = settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])


def moments(sheet: Sheet, flight: Flight, extra: list[Fraction]) -> list[CheckResult]:
    """The sheet at evenly spread landings, and at some more (amounts burned in m3)."""
    plan = plan_of(sheet)
    litres = [flight.trip * n / SAMPLES for n in range(SAMPLES + 1)] + [burned / LITRE for burned in extra]
    base = read_loading(sheet, flight.landing_after(Fraction(0)))
    return [evaluate_planned(plan, type(base)({**base.stated, "trip_fuel": amount * LITRE})) for amount in litres]


def swept(sheet: Sheet, flight: Flight) -> CheckResult:
    stated = {**flight.stated, "trip_fuel": f"{float(flight.trip)} L"}
    return evaluate_planned(plan_of(sheet), read_loading(sheet, stated))


def pairs(sheet: Sheet) -> list[tuple[str, str]]:
    flown = [one.name for one in sheet.limits if one.name.startswith("flown_")]
    return [(name, name.replace("flown", "landed")) for name in flown]


def rooms_by_claim(result: LimitResult) -> dict[tuple[int, Side], Fraction]:
    """The rooms by the column and line of the claim within its statement, and by side."""
    start = result.limit.span.line
    return {
        (margin.claim.span.line - start, margin.claim.span.column, margin.side): margin.room  # type: ignore[misc]
        for margin in result.margins
    }


@SLOW
@given(flights())
def test_no_moment_of_the_burn_has_less_room_than_the_sweep_says(flight: Flight) -> None:
    sheet = sheet_of(flight.text)
    whole = swept(sheet, flight)
    looked_at = moments(sheet, flight, [])
    for flown, landed in pairs(sheet):
        said = rooms_by_claim(result_of(whole, flown))
        for moment in looked_at:
            for key, room in rooms_by_claim(result_of(moment, landed)).items():
                assert room >= said[key]


@SLOW
@given(flights())
def test_a_limit_broken_at_any_moment_is_outside_and_the_moment_named_breaks_it(flight: Flight) -> None:
    sheet = sheet_of(flight.text)
    whole = swept(sheet, flight)
    for flown, landed in pairs(sheet):
        said = result_of(whole, flown)
        assert said.tightest is not None
        looked_at = moments(sheet, flight, [said.tightest.burned])
        seen = {result_of(moment, landed).verdict for moment in looked_at}
        ranking = (Verdict.OUTSIDE, Verdict.UNDETERMINED, Verdict.WITHIN)
        assert said.verdict is next(verdict for verdict in ranking if verdict in seen)
        assert result_of(looked_at[-1], landed).verdict is said.verdict


@SLOW
@given(flights())
def test_the_least_room_is_had_at_the_moment_named(flight: Flight) -> None:
    sheet = sheet_of(flight.text)
    whole = swept(sheet, flight)
    for flown, landed in pairs(sheet):
        said = result_of(whole, flown)
        assert said.tightest is not None
        assume(said.margins and said.verdict is not Verdict.UNDETERMINED)
        there = rooms_by_claim(result_of(moments(sheet, flight, [said.tightest.burned])[-1], landed))
        first = said.margins[0]
        key = next(iter(rooms_by_claim(said)))
        if first.is_exact:
            assert there[key] == first.room
        else:
            assert 0 <= there[key] - first.room < CLOSE
