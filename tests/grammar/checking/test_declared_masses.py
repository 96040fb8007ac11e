"""Masses that are declared and not weighed: what is added to them, where, and where not."""

from __future__ import annotations

import pytest

from engine.evaluation.exact import value_for
from engine.evaluation.requests import read_loading
from engine.evaluation.result import Value
from grammar.pipeline import read_sheet
from tests.engine.evaluation.small_sheets import HEADER, limit, sheet_of

LOADS = """\
load front "Front" from 0 kg to 110 kg arm 500 mm floor area 0.5 m2 source fm "1"
load rear "Rear" from 0 kg to 110 kg arm 900 mm source fm "1"
fuel tank "Tank" from 0 L to 50 L density 0.72 kg/L arm 800 mm source fm "1"
"""
ADDS = 'declared front, rear add 4 kg source fm "6.7"\n'
MASS = 'limit heavy at takeoff mass at most 500 kg source fm "2"\n'
WEIGHED = {"empty_mass": "300 kg", "empty_arm": "1000 mm", "front": "80 kg", "rear": "70 kg", "tank": "0 L"}


def codes(statements: str) -> list[str]:
    return [problem.code for problem in read_sheet(HEADER + LOADS + statements, "small.limits").problems]


def of_limit(claim: str, **stated: str) -> Value:
    """What the left side of a claim comes to."""
    sheet = sheet_of(LOADS + ADDS + f'limit l {claim} source fm "2"\n')
    found = next(one for one in sheet.limits if one.name == "l").claim
    return value_for(sheet, read_loading(sheet, WEIGHED | stated), found.subject)


@pytest.mark.parametrize(
    ("front", "rear", "mass"),
    [
        ("80 kg", "70 kg", 458),
        ("80 kg declared", "70 kg declared", 458),
        ("80 kg weighed", "70 kg", 454),
        ("80 kg weighed", "70 kg weighed", 450),
        ("80 kg", "0 kg", 384),
        ("0 kg declared", "0 kg", 300),
        ("0.001 kg", "0 kg weighed", None),
    ],
)
def test_it_is_added_to_what_is_declared_and_carries_something(front, rear, mass):
    found = of_limit("mass at takeoff at most 500 kg", front=front, rear=rear)
    assert found == mass if mass is not None else found > 304


@pytest.mark.parametrize(
    ("claim", "comes_to"),
    [
        ("front at most 100 kg", 84),
        ("stated(front) at most 100 kg", 80),
        ("front + rear at most 300 kg", 158),
        ("front - stated(front) at most 9 kg", 4),
        ("count(front, rear) at most 2", 2),
        ("floor_loading(front) at most 200 kg/m2", 168),
    ],
)
def test_wherever_the_place_is_named_the_mass_that_counts_is_meant(claim, comes_to):
    assert of_limit(claim) == comes_to


def test_it_counts_in_the_moment_too():
    moment = 300 * 1000 + 84 * 500 + 74 * 900
    assert of_limit("moment at takeoff at most 9000 kg.m") * 1000 == moment


def test_the_range_of_the_place_holds_for_the_mass_that_counts():
    sheet = sheet_of(LOADS + ADDS + MASS)
    verdicts = [limit(sheet, "front", front=mass).verdict.value for mass in ("106 kg", "107 kg", "107 kg weighed")]
    assert verdicts == ["within", "outside", "within"]


def test_a_place_that_is_not_stated_is_not_declared_either():
    sheet = sheet_of(LOADS + ADDS + MASS)
    stated = {name: value for name, value in WEIGHED.items() if name != "rear"}
    assert limit(sheet, "heavy", stated).verdict.value == "undetermined"


def test_a_limit_may_ask_whether_a_mass_is_weighed():
    sheet = sheet_of(LOADS + ADDS + 'limit scales front is weighed when front > 100 kg source fm "2"\n')
    verdicts = [
        limit(sheet, "scales", front=mass).verdict.value for mass in ("101 kg", "101 kg weighed", "90 kg", "97 kg")
    ]
    assert verdicts == ["outside", "within", "not applicable", "outside"]


def test_a_limit_may_ask_it_where_nothing_is_added():
    sheet = sheet_of(LOADS + 'limit scales front is declared source fm "2"\n')
    verdicts = [limit(sheet, "scales", front=mass).verdict.value for mass in ("101 kg", "101 kg weighed")]
    assert verdicts == ["within", "outside"]


def test_two_statements_for_two_places():
    sheet = sheet_of(
        LOADS + 'declared front add 4 kg source fm "6.7"\ndeclared rear add 6 lb source fm "6.8"\n' + MASS
    )
    room = limit(sheet, "heavy", WEIGHED).margins[0].room
    assert room == 500 - 450 - 4 - 6 * 45359237 / 10**8 or abs(room - (46 - 6 * 0.45359237)) < 1e-9


def test_by_order_holds_the_manuals_limits_both_ways():
    by_order = ADDS.replace("4 kg", "4 kg by order")
    least = 'limit least front at least 60 kg source fm "2"\n'
    plain, ordered = sheet_of(LOADS + ADDS + least), sheet_of(LOADS + by_order + least)
    assert limit(plain, "least", front="57 kg").verdict.value == "within"
    assert limit(ordered, "least", front="57 kg").verdict.value == "outside"
    assert limit(ordered, "least", front="60 kg").verdict.value == "within"


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        ('declared front add 4 kg source fm "1"\ndeclared front add 5 kg source fm "1"\n', "528"),
        ('declared front, front add 4 kg source fm "1"\n', "528"),
        ('declared tank add 4 kg source fm "1"\n', "305"),
        ('declared nobody add 4 kg source fm "1"\n', "302"),
        ('declared front add 0 kg source fm "1"\n', "515"),
        ('declared front add -4 kg source fm "1"\n', "515"),
        ('declared front add 4 mm source fm "1"\n', "404"),
        ('declared front add 4 source fm "1"\n', "403"),
        ("declared front add 4 kg\n", "701"),
    ],
)
def test_slips(statement, told):
    assert codes(statement + MASS) == [told]


@pytest.mark.parametrize("claim", ["tank is declared", "mass at takeoff is declared", "front + rear is weighed"])
def test_only_the_mass_on_a_place_is_declared_or_weighed(claim):
    assert codes(f'limit l {claim} source fm "1"\n')[0] in ("312", "606")
