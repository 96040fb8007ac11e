"""Configurations: what a way of fitting the airframe adds, and weighings of its own."""

from __future__ import annotations

from fractions import Fraction

import pytest

from engine.evaluation.exact import value_for
from engine.evaluation.examples import run_examples
from engine.evaluation.requests import read_loading
from engine.evaluation.result import Gap, Value
from grammar.pipeline import read_sheet
from grammar.sheet import Sheet
from tests.engine.evaluation.small_sheets import HEADER, limit, sheet_of

LOADS = 'load seat from 0 kg to 200 kg arm 500 mm lateral arm -200 mm source fm "1"\n'
MASS = 'limit heavy at takeoff mass at most 500 kg source fm "2"\n'
BALANCE = 'limit balance at takeoff cg at most 1200 mm source fm "2"\n'
SIDE = 'limit side at takeoff lateral_cg at most 50 mm source fm "2"\n'
SKIS = """\
configuration gear "Undercarriage" is one of wheels, skis, floats
  skis adds 12 kg arm 1150 mm lateral arm 10 mm
  floats adds 40.5 kg arm 1080 mm lateral arm -5 mm
  source fm "6.9"
"""
DOORS = 'configuration doors is one of fitted, removed\n  removed adds -9 kg arm 1040 mm lateral arm 0 mm\n  source fm "6.9"\n'
APART = 'configuration gear "Undercarriage" is one of wheels, floats\n  floats weighed apart\n  source fm "6.9"\n'
WEIGHED = {"empty_mass": "300 kg", "empty_arm": "1000 mm", "empty_lateral_arm": "0 mm", "seat": "80 kg"}


def codes(statements: str) -> list[str]:
    return [problem.code for problem in read_sheet(HEADER + statements, "small.limits").problems]


def subject(sheet: Sheet, name: str, **stated: str) -> Value:
    """What the subject of a limit comes to, in base units."""
    claim = next(one for one in sheet.limits if one.name == name).claim
    return value_for(sheet, read_loading(sheet, WEIGHED | stated), claim.subject)


# ---- what a fitting adds


def test_a_fitting_adds_its_mass_and_its_moment():
    sheet = sheet_of(LOADS + SKIS + MASS + BALANCE + SIDE)
    assert [subject(sheet, "heavy", gear=gear) for gear in ("wheels", "skis", "floats")] == [
        380,
        392,
        Fraction("420.5"),
    ]
    moment = 300 + 80 * Fraction("0.5")
    arms = [
        moment / 380,
        (moment + 12 * Fraction("1.15")) / 392,
        (moment + Fraction("40.5") * Fraction("1.08")) / Fraction("420.5"),
    ]
    assert [subject(sheet, "balance", gear=gear) for gear in ("wheels", "skis", "floats")] == arms
    assert subject(sheet, "side", gear="skis") == (-16 + 12 * Fraction("0.01")) / 392


def test_a_fitting_may_take_mass_away():
    sheet = sheet_of(LOADS + DOORS + MASS)
    assert [subject(sheet, "heavy", doors=state) for state in ("fitted", "removed")] == [380, 371]


def test_two_configurations_add_up():
    sheet = sheet_of(LOADS + DOORS + SKIS + MASS)
    assert subject(sheet, "heavy", doors="removed", gear="skis") == 383


def test_without_a_word_on_the_fitting_nothing_is_cleared():
    sheet = sheet_of(LOADS + SKIS + MASS)
    assert isinstance(subject(sheet, "heavy"), Gap)
    assert limit(sheet, "heavy", WEIGHED).verdict.value == "undetermined"


def test_limits_may_hang_on_the_fitting():
    text = LOADS + SKIS + 'limit light at takeoff mass at most 385 kg when gear is skis source fm "2"\n'
    sheet = sheet_of(text)
    verdicts = [limit(sheet, "light", WEIGHED, gear=gear).verdict.value for gear in ("wheels", "skis")]
    assert verdicts == ["not applicable", "outside"]


def test_what_a_fitting_adds_counts_at_every_stage():
    text = LOADS + SKIS + 'limit dry mass at zero_fuel at most 391 kg source fm "2"\n'
    assert limit(sheet_of(text), "dry", WEIGHED, gear="skis").verdict.value == "outside"


# ---- weighed apart


def test_a_fitting_weighed_apart_has_a_weighing_of_its_own():
    sheet = sheet_of(LOADS + APART + MASS + BALANCE)
    floats = {"empty_mass floats": "341 kg", "empty_arm floats": "1020 mm"}
    assert subject(sheet, "heavy", gear="floats", **floats) == 421
    assert subject(sheet, "heavy", gear="wheels", **floats) == 380
    moment = 341 * Fraction("1.02") + 80 * Fraction("0.5")
    assert subject(sheet, "balance", gear="floats", **floats) == moment / 421


def test_the_plain_weighing_does_not_stand_in_for_the_one_apart():
    sheet = sheet_of(LOADS + APART + MASS)
    assert limit(sheet, "heavy", WEIGHED, gear="floats").verdict.value == "undetermined"
    assert limit(sheet, "heavy", WEIGHED, gear="wheels").verdict.value == "within"


def test_one_may_be_weighed_apart_and_another_add():
    sheet = sheet_of(LOADS + APART + DOORS + MASS)
    found = subject(sheet, "heavy", gear="floats", doors="removed", **{"empty_mass floats": "341 kg"})
    assert found == 341 + 80 - 9


def test_the_day_of_a_weighing_apart_is_its_own():
    text = LOADS + APART + MASS + 'limit in_time flight_date at most weighed_on + 12 months source fm "4"\n'
    sheet = sheet_of(text)
    days = {"weighed_on": "2026-01-01", "weighed_on floats": "2024-01-01", "flight_date": "2026-06-01"}
    verdicts = [limit(sheet, "in_time", WEIGHED | days, gear=gear).verdict.value for gear in ("wheels", "floats")]
    assert verdicts == ["within", "outside"]


# ---- examples


def test_an_example_states_how_the_airframe_is_fitted():
    example = (
        'example on_skis "On skis" source fm "6.6"\n  given empty_mass 300 kg, gear skis\n  load seat 80 kg\n'
        "  expect mass at takeoff 392 kg, heavy within by 108 kg\n"
    )
    assert run_examples(sheet_of(LOADS + SKIS + MASS + example)) == ()
    wrong = sheet_of(LOADS + SKIS + MASS + example.replace("392", "380"))
    assert [problem.code for problem in run_examples(wrong)] == ["801"]


# ---- slips


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        (SKIS.replace("skis adds", "sleds adds"), "310"),
        (SKIS.replace("floats adds 40.5 kg arm 1080 mm lateral arm -5 mm", "skis adds 3 kg arm 1 mm"), "529"),
        (SKIS.replace("12 kg", "12 mm"), "404"),
        (SKIS.replace("12 kg", "12"), "403"),
        (SKIS.replace("arm 1150 mm", "arm 1150 kg", 1), "404"),
        (SKIS.replace("arm 1150 mm", "arm seat * 1 mm/kg", 1), "531"),
        (SKIS.replace("arm 1150 mm", "arm (1150 mm)", 1), "531"),
        (SKIS.replace('  source fm "6.9"\n', ""), "701"),
        (APART + DOORS.replace("removed adds -9 kg arm 1040 mm lateral arm 0 mm", "removed weighed apart"), "530"),
    ],
)
def test_slips_in_a_configuration(statement, told):
    assert codes(LOADS + statement + MASS) == [told]


def test_a_fitting_without_an_arm_is_told_where_the_balance_is_worked_out():
    bare = SKIS.replace(" arm 1150 mm lateral arm 10 mm", "").replace(" arm 1080 mm lateral arm -5 mm", "")
    assert codes(LOADS + bare + MASS) == []
    assert "519" in codes(LOADS + bare + BALANCE)
    assert codes(LOADS + SKIS.replace("lateral arm 10 mm", "").replace("lateral arm -5 mm", "") + BALANCE) == []


def test_a_negative_arm_is_a_printed_figure():
    ahead = SKIS.replace("arm 1150 mm", "arm -150 mm", 1)
    sheet = sheet_of(LOADS + ahead + MASS + BALANCE)
    assert subject(sheet, "balance", gear="skis") == (300 + 40 - 12 * Fraction("0.15")) / 392
