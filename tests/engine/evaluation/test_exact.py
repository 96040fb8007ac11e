"""What each part of the language comes to, in small sheets worked by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import ClassVar

import pytest

from engine.evaluation.exact import evaluate, value_for
from engine.evaluation.loading import Loading
from engine.evaluation.result import CheckResult, OutOfRange, Side, ZeroDivisor
from grammar.sheet import Absolute, AtMost, Sheet, Verdict, children
from tests.engine.evaluation.small_sheets import check, least, limit, missing, outcome, result_of, rooms, sheet_of

CABIN = """\
load front from 0 kg to 130 kg arm 600 mm source fm "1"
load rear from 0 kg to 130 kg arm 1500 mm source fm "1"
load locker from 0 kg to 40 kg arm 2000 mm assumed empty source fm "1"
"""


def holding(claim: str, more: str = "") -> Sheet:
    return sheet_of(f'{CABIN}{more}limit claim\n  {claim}\n  source fm "2"\n')


def verdict(claim: str, more: str = "", **stated: str) -> str:
    return outcome(limit(holding(claim, more), "claim", stated))


class TestOnTheLimit:
    def test_exactly_on_it_is_within_and_a_hair_beyond_is_not(self) -> None:
        sheet = holding("front at most 91 kg")
        assert outcome(limit(sheet, "claim", front="91 kg")) == "within"
        assert outcome(limit(sheet, "claim", front="91.0000000000000000001 kg")) == "outside"

    def test_tenths_add_up_as_on_paper(self) -> None:
        # 0.1 + 0.2 is more than 0.3 in binary floats.
        assert verdict("front + rear at most 0.3 kg", front="0.1 kg", rear="0.2 kg") == "within"

    def test_pounds_meet_kilograms_exactly(self) -> None:
        assert verdict("front at most 90.718474 kg", front="200 lb") == "within"
        assert verdict("front at most 90.718473 kg", front="200 lb") == "outside"

    def test_thirds_come_back_whole(self) -> None:
        assert verdict("front / 3 * 3 at most 100 kg", front="100 kg") == "within"

    def test_strictly_more_and_less_leave_the_limit_out(self) -> None:
        assert verdict("not front > 91 kg", front="91 kg") == "within"
        assert verdict("not front < 91 kg", front="91 kg") == "within"


class TestMargins:
    def test_at_most(self) -> None:
        result = limit(holding("front at most 115 kg - 3 * locker"), "claim", front="98 kg", locker="8 kg")
        assert outcome(result) == "outside"
        margin = least(result)
        assert (margin.subject, margin.bound, margin.room, margin.side) == (98, 91, -7, Side.TO_MOST)
        assert margin.share == Fraction(-7, 91)

    def test_at_least(self) -> None:
        result = limit(holding("front at least 55 kg"), "claim", front="54 kg")
        assert rooms(result) == {Side.TO_LEAST: -1}

    def test_between_has_room_on_both_sides_the_tighter_first(self) -> None:
        result = limit(holding("front between 55 kg and 110 kg"), "claim", front="100 kg")
        assert rooms(result) == {Side.TO_MOST: 10, Side.TO_LEAST: 45}
        assert least(result).side is Side.TO_MOST

    def test_a_claim_that_is_denied_has_none(self) -> None:
        assert limit(holding("not front at most 50 kg"), "claim", front="60 kg").margins == ()

    def test_all_parts_of_and_have_theirs_the_tightest_share_first(self) -> None:
        sheet = holding("front at most 100 kg and rear at most 50 kg and locker at most 0 kg")
        result = limit(sheet, "claim", front="95 kg", rear="51 kg", locker="0 kg")
        assert [margin.room for margin in result.margins] == [-1, 0, 5]

    def test_of_alternatives_only_those_that_hold(self) -> None:
        sheet = holding("front at most 50 kg or rear at most 50 kg")
        assert [m.room for m in limit(sheet, "claim", front="60 kg", rear="48 kg").margins] == [2]
        assert [m.room for m in limit(sheet, "claim", front="60 kg", rear="55 kg").margins] == [-10, -5]
        assert [m.room for m in limit(sheet, "claim", front="40 kg").margins] == [10]

    def test_what_can_be_told_is_told_though_the_verdict_is_not(self) -> None:
        sheet = holding("front at most 50 kg and rear at most 50 kg")
        result = limit(sheet, "claim", front="40 kg")
        assert (outcome(result), missing(result)) == ("undetermined", ["rear"])
        assert [margin.room for margin in result.margins] == [10]

    def test_a_bound_of_zero_that_is_passed_comes_first(self) -> None:
        sheet = holding("front at most 50 kg and locker at most 0 kg and rear at least 0 kg")
        result = limit(sheet, "claim", front="60 kg", locker="1 kg", rear="5 kg")
        assert [margin.room for margin in result.margins] == [-1, -10, 5]

    def test_an_envelope_has_four(self) -> None:
        box = (
            'envelope box of front in kg against rear in kg source fm "3"\n'
            "  | front | rear |\n  | 50 | 0 |\n  | 100 | 0 |\n  | 100 | 60 |\n  | 50 | 100 |\n"
        )
        sheet = holding("(front, rear) inside box", box)
        result = limit(sheet, "claim", front="75 kg", rear="50 kg")
        assert rooms(result) == {Side.FORWARD: 25, Side.AFT: 25, Side.LIGHTER: 50, Side.HEAVIER: 30}
        above = limit(sheet, "claim", front="75 kg", rear="90 kg")
        assert outcome(above) == "outside"
        assert rooms(above) == {Side.AFT: Fraction(-25, 2), Side.HEAVIER: -10}


class TestThreeValues:
    def test_false_and_unknown_is_false(self) -> None:
        assert verdict("front at most 50 kg and rear at most 50 kg", front="60 kg") == "outside"

    def test_true_or_unknown_is_true(self) -> None:
        assert verdict("front at most 50 kg or rear at most 50 kg", front="40 kg") == "within"

    def test_true_and_unknown_is_undetermined_and_names_what_is_missing(self) -> None:
        result = limit(holding("front at most 50 kg and rear at most 50 kg"), "claim", front="40 kg")
        assert (outcome(result), missing(result)) == ("undetermined", ["rear"])

    def test_unknown_denied_is_unknown(self) -> None:
        assert verdict("not front at most 50 kg") == "undetermined"

    def test_between_is_false_when_one_side_settles_it(self) -> None:
        assert verdict("front between rear and 100 kg", front="101 kg") == "outside"
        assert verdict("front between rear and 100 kg", front="99 kg") == "undetermined"

    def test_a_load_assumed_empty_is_not_missing(self) -> None:
        assert verdict("front + locker at most 100 kg", front="100 kg") == "within"
        assert verdict("front + locker at most 100 kg", front="100 kg", locker="1 kg") == "outside"

    def test_a_count_waits_for_every_place(self) -> None:
        claim = "count(front, rear, locker) at most 1"
        assert verdict(claim, front="80 kg") == "undetermined"
        assert verdict(claim, front="80 kg", rear="0 kg") == "within"
        assert verdict(claim, front="80 kg", rear="1 kg") == "outside"

    def test_occupied_is_more_than_nothing(self) -> None:
        assert verdict("front is occupied", front="0.001 kg") == "within"
        assert verdict("front is occupied", front="0 kg") == "outside"
        assert verdict("front is empty", front="0 kg") == "within"


class TestChoices:
    MORE = """\
given engine is one of standard, boosted, tuned
given height in ft from 0 ft to 8000 ft
"""
    CHOICE = (
        "front at most (50 kg when engine is standard, 60 kg when engine is boosted, 60 kg when engine is tuned)"
    )
    BY_HEIGHT = "front at most (60 kg when height < 2000 ft, 50 kg when height < 5000 ft, 50 kg otherwise)"

    def test_the_case_that_holds_is_taken(self) -> None:
        assert verdict(self.CHOICE, self.MORE, engine="standard", front="55 kg") == "outside"
        assert verdict(self.CHOICE, self.MORE, engine="tuned", front="55 kg") == "within"

    def test_an_unknown_guard_leaves_every_case_possible(self) -> None:
        result = limit(holding(self.CHOICE, self.MORE), "claim", front="55 kg")
        assert (outcome(result), missing(result)) == ("undetermined", ["engine"])

    def test_cases_that_agree_settle_it(self) -> None:
        same = self.CHOICE.replace("50 kg", "60 kg")
        assert verdict(same, self.MORE, front="55 kg") == "within"

    def test_the_first_case_that_holds_counts(self) -> None:
        assert verdict(self.BY_HEIGHT, self.MORE, height="1999 ft", front="55 kg") == "within"
        assert verdict(self.BY_HEIGHT, self.MORE, height="2000 ft", front="55 kg") == "outside"
        assert verdict(self.BY_HEIGHT, self.MORE, height="8000 ft", front="50 kg") == "within"

    def test_a_value_missing_in_a_case_not_chosen_does_not_matter(self) -> None:
        claim = self.CHOICE.replace("50 kg", "rear")
        assert verdict(claim, self.MORE, engine="boosted", front="55 kg") == "within"
        result = limit(holding(claim, self.MORE), "claim", front="55 kg")
        assert missing(result) == ["engine", "rear"]

    def test_beyond_what_the_manual_covers_nothing_is_known(self) -> None:
        result = limit(holding(self.BY_HEIGHT, self.MORE), "claim", front="55 kg", height="8001 ft")
        assert outcome(result) == "undetermined"
        assert result.gap is not None
        (cause,) = result.gap.causes
        assert isinstance(cause, OutOfRange)
        assert cause.value == 8001 * Fraction("0.3048")


class TestWhen:
    MORE = "given airfield is one of hard, grass\n"
    CLAIM = "front at most 50 kg\n  when airfield is grass"

    @pytest.mark.parametrize(
        ("stated", "expected"),
        [
            ({"front": "40 kg", "airfield": "grass"}, "within"),
            ({"front": "60 kg", "airfield": "grass"}, "outside"),
            ({"front": "60 kg", "airfield": "hard"}, "not applicable"),
            ({"airfield": "hard"}, "not applicable"),
            ({"front": "40 kg"}, "within"),
            ({"front": "60 kg"}, "undetermined"),
            ({}, "undetermined"),
        ],
    )
    def test_a_limit_that_may_not_apply(self, stated: dict[str, str], expected: str) -> None:
        assert outcome(limit(holding(self.CLAIM, self.MORE), "claim", stated)) == expected

    def test_it_waits_for_its_condition_and_its_claim(self) -> None:
        assert missing(limit(holding(self.CLAIM, self.MORE), "claim")) == ["airfield", "front"]

    def test_a_limit_that_does_not_apply_has_no_margin(self) -> None:
        result = limit(holding(self.CLAIM, self.MORE), "claim", front="60 kg", airfield="hard")
        assert (result.margins, result.gap) == ((), None)


class TestArithmetic:
    def test_least_greatest_and_size(self) -> None:
        sheet = holding("max(front, rear) - min(front, rear, 70 kg) at most abs(front - rear)")
        result = limit(sheet, "claim", front="60 kg", rear="90 kg")
        assert (least(result).subject, least(result).bound) == (30, 30)

    def test_the_least_of_values_waits_for_all(self) -> None:
        assert verdict("min(front, 0 kg) at most rear", rear="10 kg") == "undetermined"

    @pytest.mark.parametrize(
        ("stated", "up", "down"), [("80 kg", 80, 80), ("80.1 kg", 82.5, 80), ("82.4 kg", 82.5, 80), ("0 kg", 0, 0)]
    )
    def test_rounding_to_whole_steps(self, stated: str, up: float, down: float) -> None:
        sheet = holding("round_up front to 2.5 kg at least round_down front to 2.5 kg")
        margin = least(limit(sheet, "claim", front=stated))
        assert (margin.subject, margin.bound) == (Fraction(up), Fraction(down))

    def test_ballast_that_comes_in_blocks(self) -> None:
        sheet = sheet_of(
            'load ballast from 0 kg to 20 kg in steps of 2.5 kg arm 1 m source fm "1"\n'
            'limit claim\n  ballast at most 18 kg\n  source fm "2"\n'
        )
        assert outcome(limit(sheet, "ballast", ballast="7.5 kg")) == "within"
        assert outcome(limit(sheet, "ballast", ballast="7.4 kg")) == "outside"
        assert outcome(limit(sheet, "ballast", ballast="22.5 kg")) == "outside"

    def test_a_division_by_zero_is_a_gap(self) -> None:
        sheet = sheet_of(
            'load front from 10 kg to 130 kg arm 600 mm source fm "1"\n'
            'load rear from 0 kg to 130 kg arm 600 mm source fm "1"\n'
            'limit claim\n  rear / front at most 2\n  source fm "2"\n'
        )
        result = limit(sheet, "claim", front="0 kg", rear="10 kg")
        assert outcome(result) == "undetermined"
        assert result.gap is not None
        assert isinstance(result.gap.causes[0], ZeroDivisor)
        assert outcome(limit(sheet, "front", front="0 kg", rear="10 kg")) == "outside"

    def test_temperatures_compare_across_scales(self) -> None:
        more = "given air in degC from -40 degC to 50 degC\n"
        claim = "air at least 32 degF and front at most 100 kg"
        assert verdict(claim, more, air="0 degC", front="1 kg") == "within"
        assert verdict(claim, more, air="-0.001 degC", front="1 kg") == "outside"


class TestDates:
    SHEET = sheet_of(
        CABIN + 'limit weighing\n  flight_date at most weighed_on + 48 months\n  source fm "2"\n'
        'limit overhaul\n  flight_date at most weighed_on + 30 days\n  source fm "2"\n'
    )

    def test_the_last_day_still_counts(self) -> None:
        day = {"weighed_on": "2024-02-29"}
        assert outcome(limit(self.SHEET, "weighing", day, flight_date="2028-02-29")) == "within"
        late = limit(self.SHEET, "weighing", day, flight_date="2028-03-01")
        assert (outcome(late), least(late).room) == ("outside", -1)

    def test_days_are_days(self) -> None:
        result = limit(self.SHEET, "overhaul", weighed_on="2026-02-01", flight_date="2026-03-03")
        assert rooms(result) == {Side.TO_MOST: 0}


class TestStages:
    SHEET = sheet_of(
        'fuel tank from 0 L to 100 L density 0.75 kg/L arm 2 m source fm "1"\n'
        + "".join(
            f'limit at_{stage}\n  at {stage}\n  mass at most 1000 kg\n  source fm "2"\n'
            for stage in ("ramp", "takeoff", "landing", "zero_fuel")
        )
        + 'limit balance\n  cg at zero_fuel at most cg at takeoff\n  source fm "2"\n'
    )
    FLIGHT: ClassVar = {
        "empty_mass": "300 kg",
        "empty_arm": "1 m",
        "tank": "80 L",
        "taxi_fuel": "4 L",
        "trip_fuel": "36 L",
    }

    def test_the_mass_at_each_stage(self) -> None:
        result = check(self.SHEET, **self.FLIGHT)
        masses = [least(result_of(result, f"at_{s}")).subject for s in ("ramp", "takeoff", "landing", "zero_fuel")]
        assert masses == [360, 357, 330, 300]

    def test_two_stages_in_one_claim(self) -> None:
        margin = least(limit(self.SHEET, "balance", self.FLIGHT))
        assert (margin.subject, margin.bound) == (1, (300 + 57 * Fraction(2)) / 357)

    def test_without_trip_fuel_only_the_landing_is_open(self) -> None:
        known = {name: value for name, value in self.FLIGHT.items() if name != "trip_fuel"}
        result = check(self.SHEET, **known)
        assert outcome(result_of(result, "at_landing")) == "undetermined"
        assert missing(result_of(result, "at_landing")) == ["trip_fuel"]
        assert outcome(result_of(result, "at_takeoff")) == "within"

    def test_more_than_there_is_cannot_be_burned(self) -> None:
        assert outcome(limit(self.SHEET, "burn", self.FLIGHT, trip_fuel="76 L")) == "within"
        over = limit(self.SHEET, "burn", self.FLIGHT, trip_fuel="77 L")
        assert outcome(over) == "outside"
        assert least(over).room == Fraction(-1, 1000)

    def test_nothing_burned_is_no_matter_for_the_burn(self) -> None:
        assert outcome(limit(self.SHEET, "burn", tank="80 L")) == "not applicable"


class TestWholeSheet:
    def whole(self, **stated: str) -> CheckResult:
        sheet = sheet_of(
            CABIN + 'limit one\n  front at most 50 kg\n  source fm "2"\n'
            'caution two\n  rear at most 50 kg\n  source fm "2"\n'
        )
        return check(sheet, **stated)

    def test_every_limit_is_reported_in_the_order_of_the_sheet(self) -> None:
        result = self.whole(front="60 kg", rear="60 kg")
        assert [one.limit.name for one in result.limits] == ["one", "two", "front", "rear", "locker"]

    def test_a_caution_does_not_refuse_and_a_range_does(self) -> None:
        assert self.whole(front="50 kg", rear="60 kg").verdict is Verdict.WITHIN
        assert self.whole(front="50 kg", rear="131 kg").verdict is Verdict.OUTSIDE

    def test_outside_counts_more_than_undetermined(self) -> None:
        assert self.whole(front="60 kg").verdict is Verdict.OUTSIDE
        assert self.whole(rear="60 kg").verdict is Verdict.UNDETERMINED

    def test_every_value_is_in_its_slot(self) -> None:
        result = self.whole(front="60 kg", rear="60 kg")
        for one in result.sheet.limits:
            waiting = [one.claim, *children(one.claim)]
            assert all(result.values[node.slot] is not None for node in waiting)
        assert len(result.values) == result.sheet.slots


def nested(sheet: Sheet, depth: int) -> Sheet:
    """The sheet with the subject of its first limit put into so many absolute values, one in the other."""
    first = sheet.limits[0]
    assert isinstance(first.claim, AtMost)
    subject = first.claim.subject
    for level in range(depth):
        subject = Absolute(
            span=subject.span, slot=sheet.slots + level, kind=subject.kind, unit=subject.unit, of=subject
        )
    deep = replace(first, claim=replace(first.claim, subject=subject))
    return replace(sheet, limits=(deep, *sheet.limits[1:]), slots=sheet.slots + depth)


@pytest.mark.parametrize("depth", [200, 5000])
def test_deep_nesting_is_no_matter(depth: int) -> None:
    sheet = nested(holding("front at most 200 kg"), depth)
    assert least(limit(sheet, "claim", front="199 kg")).room == 1


def test_a_value_by_itself() -> None:
    sheet = holding("front + rear at most 100 kg")
    claim = sheet.limits[0].claim
    subject = next(iter(children(claim)))
    loading = Loading({"front": Fraction(3), "rear": Fraction(4)})
    assert value_for(sheet, loading, subject) == 7  # type: ignore[arg-type]
    assert evaluate(sheet, loading).values[subject.slot] == 7
