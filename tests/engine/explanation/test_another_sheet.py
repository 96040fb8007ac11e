"""Sentences and reasons of a sheet in other units, with two tanks and the rarer kinds of expression."""

from __future__ import annotations

import pytest

from engine.evaluation.exact import evaluate
from engine.explanation.text import why_text
from tests.engine.explanation.answers import outcome, read_sheet, sentence, stated

VESSARY = read_sheet("""
sheet vessary_s2 revision 1 "Vessary S2"
document fm "Vessary S2 handbook, issue 2"
datum "firewall; arms positive aft"
chord from 2200 mm length 1400 mm source fm "1.1"
fact doors is one of fitted, off source fm "1.2"
given outside_air_temperature in degC from -30 degC to 45 degC
given runway in m from 0 m to 3000 m
load front_left "Front left" from 0 lb to 250 lb arm 85 in lateral arm -12 in source fm "6.1"
load front_right "Front right" from 0 lb to 250 lb arm 85 in lateral arm 12 in source fm "6.1"
load baggage "Baggage" from 0 lb to 120 lb arm 140 in lateral arm 0 in floor area 0.5 m2
  source fm "6.1"
fuel left_tank "Left tank" from 0 USgal to 26 USgal density 6 lb/USgal arm 95 in lateral arm -60 in
  source fm "6.2"
fuel right_tank "Right tank" from 0 USgal to 26 USgal density 6 lb/USgal arm 95 in lateral arm 60 in
  source fm "6.2"
burn left_tank with right_tank source fm "7.2"
let two_up = front_left is occupied and front_right is occupied
table rear_most of front_left in lb gives lb source fm "2.6"
  | front_left | lb |
  | 100 | 60 |
  | 200 | 120 |
envelope side of lateral_cg in in against mass in lb source fm "6.3"
  | lateral_cg | mass |
  | -3 | 1000 |
  | 3 | 1000 |
  | 3 | 2300 |
  | -3 | 2300 |
limit total "Total" at takeoff mass at most 2300 lb source fm "2.1"
limit sideways "Sideways" throughout (lateral_cg, mass) inside side source fm "6.3"
limit chordwise "On the chord" at takeoff cg_percent_mac between 5 %MAC and 30 %MAC
  source fm "6.4"
limit floor_limit "Floor loading" floor_loading(baggage) at most 100 kg/m2 source fm "2.5"
limit bags "Baggage for the front" baggage at most rear_most(front_left) source fm "2.6"
limit seats "Seats" count(front_left, front_right) at least 1 source fm "2.7"
limit doorless "Nobody beside with the doors off"
  (front_right is empty when doors is off, baggage at most 100 lb when doors is fitted)
  source fm "2.8"
limit warm "Not in the cold" outside_air_temperature at least -10 degC source fm "2.9"
limit field "Room to stop" runway at least round_up (mass at takeoff / 3 kg * 1 m) to 10 m
  source fm "5.1"
limit least_one "Either" front_left at most 200 lb or baggage is empty source fm "2.10"
limit tankdiff "Uneven tanks" at takeoff abs(volume(left_tank) - volume(right_tank)) at most 5 USgal
  source fm "2.11"
limit pair "Least of three"
  baggage at most min(100 lb, 0.5 * front_left, (200 lb when doors is off or two_up, 90 lb otherwise))
  source fm "2.12"
""")

USUAL = {
    "empty_mass": "1400 lb",
    "empty_arm": "90 in",
    "empty_lateral_arm": "0 in",
    "doors": "fitted",
    "outside_air_temperature": "15 degC",
    "runway": "400 m",
    "front_left": "180 lb",
    "front_right": "150 lb",
    "baggage": "50 lb",
    "left_tank": "20 USgal",
    "right_tank": "18 USgal",
    "taxi_fuel": "1 USgal",
    "trip_fuel": "20 USgal",
}

SITUATIONS = {
    "usual": {},
    "doors off, cold, much baggage": {
        "doors": "off",
        "baggage": "110 lb",
        "outside_air_temperature": "-12 degC",
        "front_left": "90 lb",
        "runway": "100 m",
    },
    "one tank full, the other empty": {
        "front_left": "230 lb",
        "front_right": "0 lb",
        "baggage": "120 lb",
        "left_tank": "26 USgal",
        "right_tank": "0 USgal",
    },
}


def answer(**changed):
    return evaluate(VESSARY, stated(VESSARY, USUAL | changed))


@pytest.mark.parametrize("situation", SITUATIONS)
def test_every_sentence(situation, snapshot):
    result = answer(**SITUATIONS[situation])
    assert {each.limit.name: sentence(result, each.limit.name) for each in result.limits} == snapshot


@pytest.mark.parametrize(
    "limit", ["chordwise", "sideways", "field", "pair", "doorless", "floor_limit", "tankdiff"]
)
def test_the_reasons(limit, snapshot):
    assert why_text(answer(**SITUATIONS["one tank full, the other empty"]), limit) == snapshot


def test_the_figures_of_the_chord_are_cited():
    text = why_text(answer(), "chordwise")
    assert "[chord; Vessary S2 handbook, paragraph 1.1]" in text


def test_what_a_tank_holds_is_called_by_the_tank():
    assert outcome(answer(), "tankdiff").margins
    assert sentence(answer(), "tankdiff").startswith(
        "the difference between the 19.5 USgal in the left tank at take-off "
        "and the 17.5 USgal in the right tank at take-off comes to 2 USgal"
    )


def test_a_table_asked_before_its_beginning():
    assert sentence(answer(front_left="90 lb"), "bags").startswith(
        'cannot be told: the table "rear most" begins at 100 lb and is asked for 90 lb, 10 lb below it'
    )


def test_a_temperature_is_short_by_a_difference():
    assert "-12 degC, short of -10 degC by 2 K" in sentence(answer(outside_air_temperature="-12 degC"), "warm")
