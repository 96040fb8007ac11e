"""Limits that hold throughout the burn, in cases worked by hand.

One tank of 100 L at 0.8 kg/L on an arm of 2000 mm burns down behind 300 kg on an arm of 1000 mm. With m the
mass in kilograms the moment is (2 m - 300) kg.m, so the centre of gravity lies at 2 - 300/m metres.
"""

from __future__ import annotations

from fractions import Fraction
from typing import ClassVar

import pytest

from engine.evaluation import sweep
from engine.evaluation.result import OutOfTable, Side, TooManyPieces
from engine.evaluation.workings import in_working_order
from grammar.sheet import AtLeast, AtMost, Named
from tests.engine.evaluation.small_sheets import (
    amount,
    check,
    least,
    limit,
    missing,
    outcome,
    result_of,
    rooms,
    sheet_of,
)

AIRCRAFT = """\
fuel tank from 0 L to 100 L density 0.8 kg/L arm 2000 mm source fm "1"
load seat from 0 kg to 100 kg arm 1000 mm assumed empty source fm "1"
"""
FULL = {"empty_mass": "300 kg", "empty_arm": "1000 mm", "tank": "100 L"}
LITRE = amount("1 L")


def throughout(claim: str, **stated: str):
    sheet = sheet_of(f'{AIRCRAFT}limit flown\n  throughout\n  {claim}\n  source fm "2"\n')
    return limit(sheet, "flown", FULL, **stated)


def test_the_least_room_before_a_straight_bound_may_lie_at_an_irrational_moment() -> None:
    # 0.3 + 0.0025 m - 2 + 300/m is least at m = sqrt(120000), where it is sqrt(3) - 1.7.
    result = throughout("cg at most 300 mm + mass * 2.5 mm/kg")
    margin = least(result)
    assert outcome(result) == "within"
    assert not margin.is_exact
    below = margin.room + Fraction(17, 10)
    assert below**2 <= 3 < (below + Fraction(1, 10**9)) ** 2
    assert result.tightest is not None
    mass = 380 - result.tightest.burned / LITRE * Fraction(8, 10)
    assert abs(mass**2 - 120_000) < Fraction(1, 10)


def test_the_same_bound_set_lower_is_passed_only_in_between() -> None:
    # At a = 0.267 m the least room is sqrt(3) - 1.733, below zero, while both ends are within.
    claim = "cg at most 267 mm + mass * 2.5 mm/kg"
    result = throughout(claim)
    assert outcome(result) == "outside"
    assert least(result).room < 0
    ends = sheet_of(
        f'{AIRCRAFT}limit start\n  at takeoff\n  {claim}\n  source fm "2"\n'
        f'limit end\n  at zero_fuel\n  {claim}\n  source fm "2"\n'
    )
    assert [outcome(limit(ends, name, FULL)) for name in ("start", "end")] == ["within", "within"]


def test_a_turning_point_at_a_rational_moment_is_exact() -> None:
    # With 0.0029296875 m/kg the least room is at m = 320 kg: a + 2 * 300/320 - 2 = a - 0.125.
    result = throughout("cg at most 125 mm + mass * 2.9296875 mm/kg")
    assert outcome(result) == "within"
    assert (least(result).room, least(result).is_exact) == (0, True)
    assert result.tightest is not None
    assert result.tightest.burned == 75 * LITRE
    assert result.tightest.left == (25 * LITRE,)


def test_one_hair_less_at_the_turning_point_is_outside() -> None:
    result = throughout("cg at most 124.999999 mm + mass * 2.9296875 mm/kg")
    assert outcome(result) == "outside"
    assert least(result).room == -amount("0.000001 mm")


def test_a_bound_that_is_only_touched_at_an_irrational_moment_is_kept() -> None:
    claim = "(mass * mass - 120000 kg.kg) * (mass * mass - 120000 kg.kg) at least 0 kg.kg.kg.kg"
    result = throughout(claim)
    assert outcome(result) == "within"
    assert least(result).room == 0


def test_what_fails_at_a_single_irrational_moment_is_outside() -> None:
    assert outcome(throughout("not mass * mass is 120000 kg.kg")) == "outside"
    assert outcome(throughout("not mass * mass is 150000 kg.kg")) == "within"


def test_what_fails_at_a_single_rational_moment_is_outside() -> None:
    assert outcome(throughout("not mass is 333 kg")) == "outside"
    assert outcome(throughout("not mass is 333 kg", trip_fuel="58 L")) == "within"
    assert outcome(throughout("not mass is 333 kg", trip_fuel="58.75 L")) == "outside"


def test_both_ends_of_the_burn_belong_to_it() -> None:
    assert outcome(throughout("mass at most 379.9 kg")) == "outside"
    assert outcome(throughout("mass at least 340 kg", trip_fuel="50 L")) == "within"
    assert outcome(throughout("mass at least 340 kg", trip_fuel="50.1 L")) == "outside"


def test_without_a_trip_fuel_it_goes_down_to_no_fuel() -> None:
    result = throughout("mass at least 300 kg")
    assert outcome(result) == "within"
    assert rooms(result) == {Side.TO_LEAST: 0}
    assert result.tightest is not None
    assert result.tightest.burned == 100 * LITRE


def test_taxi_fuel_is_gone_before_it_begins() -> None:
    result = throughout("mass at most 376 kg", taxi_fuel="5 L")
    assert (outcome(result), least(result).room) == ("within", 0)
    assert result.tightest is not None
    assert (result.tightest.burned, result.tightest.left) == (0, (95 * LITRE,))


def test_no_fuel_at_all_leaves_one_moment() -> None:
    result = throughout("cg at most 1000 mm", tank="0 L")
    assert (outcome(result), least(result).room) == ("within", 0)


def test_the_values_are_those_at_the_tightest_moment() -> None:
    sheet = sheet_of(
        f'{AIRCRAFT}limit flown\n  throughout\n  cg at most 125 mm + mass * 2.9296875 mm/kg\n  source fm "2"\n'
        'limit again\n  throughout\n  mass at least 301 kg\n  source fm "2"\n'
    )
    result = check(sheet, **FULL)
    for name, mass in (("flown", 320), ("again", 300)):
        one = result_of(result, name)
        margin = least(one)
        assert isinstance(one.limit.claim, AtMost | AtLeast)
        assert result.values[one.limit.claim.subject.slot] == margin.subject
        assert result.values[one.limit.claim.bound.slot] == margin.bound
        found = [
            result.values[node.slot]
            for node in in_working_order([one.limit.claim])
            if isinstance(node, Named) and node.name == "mass"
        ]
        assert found == [mass]


class TestJumps:
    CLAIM = "mass at most (400 kg when cg > 1150 mm, 352 kg otherwise)"
    # The centre of gravity is at 1150 mm with 300/0.85 = 352.94 kg aboard: from there on 352 kg is the most.

    def test_a_room_that_is_approached_and_not_reached_is_told_from_close_by(self) -> None:
        result = throughout("mass at most (400 kg when mass > 352 kg, 300 kg otherwise)")
        assert outcome(result) == "outside"
        assert least(result).room == -52  # had at 352 kg itself, where the lower bound holds
        assert least(result).is_exact

    def test_the_open_side_of_a_jump(self) -> None:
        result = throughout("mass at most (345 kg when mass > 350 kg, 360 kg otherwise)")
        assert outcome(result) == "outside"
        assert least(result).room == -35
        result = throughout("mass at least (355 kg when mass > 350 kg, 300 kg otherwise)")
        # Just above 350 kg 5 kg are wanting, and at 350 kg none are.
        assert outcome(result) == "outside"
        assert (least(result).room, least(result).is_exact) == (-5, False)
        assert result.tightest is not None
        mass = 380 - result.tightest.burned / LITRE * Fraction(8, 10)
        assert 350 < mass < 350 + Fraction(1, 10**8)

    def test_a_jump_at_a_moment_of_another_value(self) -> None:
        result = throughout(self.CLAIM)
        assert outcome(result) == "outside"
        assert least(result).room == 352 - 300 / Fraction(85, 100)


class TestTables:
    SHEET = """
table most of mass in kg gives mm source fm "3"
  | mass | most |
  | 310  | 1100 |
  | 340  | 1150 |
  | 390  | 1230 |
"""

    def test_a_table_of_the_moving_mass_is_followed_cell_by_cell(self) -> None:
        text = AIRCRAFT + self.SHEET + 'limit flown\n  throughout\n  cg at most most(mass)\n  source fm "2"\n'
        result = limit(sheet_of(text), "flown", FULL, trip_fuel="80 L")
        # Within the upper cell the room 1.15 + 0.0016 (m - 340) - 2 + 300/m is least at its lower end, 340 kg;
        # in the lower cell 1.1 + (m - 310)/600 - 2 + 300/m falls towards 340 kg too.
        at_340 = Fraction(115, 100) - 2 + Fraction(300, 340)
        at_take_off = Fraction(115, 100) + 40 * Fraction(16, 10_000) - 2 + Fraction(300, 380)
        at_landing = Fraction(110, 100) + 6 * Fraction(1, 600) - 2 + Fraction(300, 316)
        assert least(result).room == min(at_340, at_take_off, at_landing)

    def test_beyond_the_table_it_is_undetermined_and_says_how_far(self) -> None:
        text = AIRCRAFT + self.SHEET + 'limit flown\n  throughout\n  cg at most most(mass)\n  source fm "2"\n'
        result = limit(sheet_of(text), "flown", FULL)
        assert outcome(result) == "undetermined"
        assert result.gap is not None
        (cause,) = result.gap.causes
        assert isinstance(cause, OutOfTable)
        assert (cause.value, cause.nearest) == (300, 310)

    def test_outside_at_one_moment_is_outside_though_another_cannot_be_told(self) -> None:
        text = (
            AIRCRAFT
            + self.SHEET
            + 'limit flown\n  throughout\n  cg at most most(mass) - 200 mm\n  source fm "2"\n'
        )
        assert outcome(limit(sheet_of(text), "flown", FULL)) == "outside"


class TestEnvelopes:
    NOTCHED = """
envelope shape of cg in mm against mass in kg source fm "4"
  |  cg  | mass |
  |  900 |  290 |
  |  900 |  400 |
  | 1300 |  400 |
  | 1300 |  360 |
  | 1100 |  350 |
  | 1300 |  340 |
  | 1300 |  290 |
limit flown
  throughout
  (cg, mass) inside shape
  source fm "4"
"""

    def test_a_notch_that_both_ends_of_the_burn_avoid_is_found(self) -> None:
        sheet = sheet_of(AIRCRAFT + self.NOTCHED)
        result = limit(sheet, "flown", FULL)
        assert outcome(result) == "outside"
        # The notch reaches 1100 mm at 350 kg, where the centre of gravity is at 2 - 300/350 m = 1142.86 mm.
        # Aft of its edge x = 1.1 + 0.02 |m - 350| the excess 0.9 - 300/m - 0.02 |m - 350| is greatest at 350.
        by_side = rooms(result)
        assert by_side[Side.AFT] == Fraction(11, 10) - (2 - Fraction(300, 350))
        assert result.tightest is not None

    def test_the_notch_is_missed_when_landing_before_it(self) -> None:
        sheet = sheet_of(AIRCRAFT + self.NOTCHED)
        assert outcome(limit(sheet, "flown", FULL, trip_fuel="30 L")) == "within"

    def test_the_boundary_belongs_to_the_inside_along_a_whole_edge(self) -> None:
        sheet = sheet_of(
            AIRCRAFT
            + 'envelope box of fuel in kg against mass in kg source fm "4"\n'
            + "  | fuel | mass |\n  | 0 | 300 |\n  | 80 | 380 |\n  | 0 | 380 |\n"
            + 'limit flown\n  throughout\n  (fuel, mass) inside box\n  source fm "4"\n'
        )
        result = limit(sheet, "flown", FULL)
        assert outcome(result) == "within"
        assert rooms(result)[Side.AFT] == rooms(result)[Side.LIGHTER] == 0


class TestRounding:
    def test_a_mass_rounded_up_is_followed_step_by_step(self) -> None:
        assert outcome(throughout("round_up mass to 50 kg at most 400 kg")) == "within"
        result = throughout("round_up mass to 50 kg at least mass + 10 kg")
        # 350 kg rounds to itself: ten kilograms are wanting; just below 341 kg is 9 kg and more away.
        assert outcome(result) == "outside"
        assert least(result).room == -10

    def test_rounding_down_at_the_step_itself_counts(self) -> None:
        assert outcome(throughout("round_down mass to 10 kg at most 380 kg")) == "within"
        assert outcome(throughout("round_down mass to 10 kg at most 379 kg")) == "outside"

    def test_a_step_too_fine_to_follow_is_undetermined_and_never_within(
        self, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setattr(sweep, "MOST_PIECES", 60)
        result = throughout("round_up mass to 1 kg at most 400 kg")
        assert outcome(result) == "undetermined"
        assert result.gap is not None
        assert isinstance(result.gap.causes[0], TooManyPieces)
        assert outcome(throughout("round_up mass to 10 kg at most 400 kg")) == "within"


class TestGaps:
    TANKS = """\
fuel front from 0 L to 50 L density 0.8 kg/L arm 900 mm source fm "1"
fuel rear from 0 L to 50 L density 0.8 kg/L arm 1900 mm source fm "1"
burn front then rear source fm "1"
limit flown_front
  throughout
  volume(front) at most 40 L
  source fm "2"
limit flown_mass
  throughout
  mass at most 400 kg
  source fm "2"
"""
    WEIGHED: ClassVar = {"empty_mass": "300 kg", "empty_arm": "1000 mm"}

    def sheet(self):
        return sheet_of(self.TANKS.replace("front then", "front, then"))

    def test_a_tank_nobody_states_matters_only_where_it_is_needed(self) -> None:
        known = {**self.WEIGHED, "front": "41 L"}
        assert outcome(limit(self.sheet(), "flown_front", known)) == "outside"
        known = {**self.WEIGHED, "front": "40 L"}
        assert outcome(limit(self.sheet(), "flown_front", known)) == "within"
        result = limit(self.sheet(), "flown_mass", known)
        assert (outcome(result), missing(result)) == ("undetermined", ["rear"])

    def test_the_moments_after_an_unknown_tank_cannot_be_told(self) -> None:
        known = {**self.WEIGHED, "rear": "10 L"}
        result = limit(self.sheet(), "flown_front", known)
        assert (outcome(result), missing(result)) == ("undetermined", ["front"])
        assert result.tightest is None

    def test_a_condition_is_asked_at_every_moment(self) -> None:
        text = (
            AIRCRAFT
            + 'limit flown\n  throughout\n  cg at most 1100 mm\n  when mass at most 330 kg\n  source fm "2"\n'
        )
        result = limit(sheet_of(text), "flown", FULL)
        assert (outcome(result), least(result).room) == ("within", Fraction(11, 10) - 2 + Fraction(300, 330))
        assert outcome(limit(sheet_of(text), "flown", FULL, trip_fuel="10 L")) == "not applicable"
