"""Each limit in one sentence: read as a pilot would, and as an auditor would."""

from __future__ import annotations

from fractions import Fraction

import pytest

from engine.evaluation.result import CheckResult
from tests.engine.explanation.answers import CORRIN, TWO_UP, answer, answer_of, sentence

FM = "(Corrin T2 flight manual, paragraph {})"


def test_an_excess_says_by_how_much_and_how_the_bound_came_about():
    found = sentence(answer(front_seat="98 kg", nose_locker="8 kg"), "front_seat_max")
    assert found == (
        "front seat 98 kg, over 91 kg by 7 kg: 115 kg less three times the 8 kg in the nose locker "
        + FM.format("2.4")
    )


def test_what_is_within_says_by_how_much():
    found = sentence(answer(airfield="grass", pressure_altitude="3000 ft"), "soft_field")
    assert found == "mass at take-off 487.2 kg, over 480 kg by 7.2 kg " + FM.format("5.4")


def test_a_choice_names_the_case_taken():
    found = sentence(answer(), "max_takeoff_mass")
    assert found == (
        "mass at take-off 487.2 kg, within 540 kg by 52.8 kg: 540 kg for engine boosted " + FM.format("2.3")
    )


def test_just_on_the_limit_is_within():
    found = sentence(answer(front_seat="115 kg"), "allowance")
    assert found.startswith("front seat 115 kg, exactly on the most allowed, 115 kg, and so within: ")


def test_forty_grams_over_show():
    found = sentence(answer(front_seat="115.04 kg"), "allowance")
    assert found.startswith("front seat 115.04 kg, over 115 kg by 0.04 kg: ")


def test_a_hair_over_shows_though_its_decimals_never_end():
    found = sentence(answer(front_seat=115 + Fraction(1, 30_000_000)), "allowance")
    assert found.startswith("front seat about 115.00000004 kg, over 115 kg by about 0.00000004 kg: ")


def test_a_hair_under_never_reads_as_over():
    found = sentence(answer(front_seat=115 - Fraction(1, 30_000_000)), "allowance")
    assert found.startswith("front seat about 114.99999997 kg, within 115 kg by about 0.00000003 kg: ")


def test_too_little_is_short_of_the_least():
    found = sentence(answer(trip_fuel="55 L"), "reserve")
    assert found == "main tank at landing 5 L, short of 8 L by 3 L " + FM.format("2.9")


def test_a_point_aft_of_the_envelope():
    found = sentence(answer(front_seat="40 kg", rear_seat="120 kg"), "balance")
    assert found == (
        "centre of gravity during the flight about 1260.522 mm at 491.2 kg: about 68.322 mm aft of the envelope, "
        "tightest at take-off with 60 L left in the main tank " + FM.format("6.2")
    )


def test_what_is_not_stated_is_named():
    found = sentence(answer("pressure_altitude"), "climb_mass")
    assert found == "cannot be told: pressure altitude not stated " + FM.format("5.2")


def test_a_table_asked_beyond_its_end_says_how_far():
    found = sentence(answer(pressure_altitude="9000 ft"), "climb_mass")
    assert found == (
        'cannot be told: the table "hot and high" ends at 8000 ft and is asked for 9000 ft, 1000 ft beyond '
        + FM.format("5.2")
    )


def test_a_value_beyond_what_the_manual_covers():
    found = sentence(answer(outside_air_temperature="46 degC"), "climb_mass")
    assert found == (
        "cannot be told: the outside air temperature of 46 degC is beyond what is covered, "
        "from -20 degC to 45 degC " + FM.format("5.2")
    )


def test_what_does_not_apply_says_why():
    found = sentence(answer(), "in_hand")
    assert found == "does not apply: airfield given as hard, not grass (Quillmere order 14, paragraph 2)"


def test_the_bound_of_another_limit_is_called_by_that_limit():
    found = sentence(answer(airfield="grass"), "in_hand")
    assert '0.95 times the 540 kg of "Maximum take-off mass"' in found


def test_a_date_is_after_or_before():
    late = sentence(answer(flight_date="2029-03-02"), "weighing")
    assert late.startswith(
        "date of the flight 2029-03-02, after 2029-02-28 by 2 days: 48 months after the date of the weighing"
    )
    in_time = sentence(answer(flight_date="2029-02-28"), "weighing")
    assert in_time.startswith("date of the flight 2029-02-28, the last day allowed: 48 months after")


def test_a_plain_condition_that_fails_says_what_is_so():
    found = sentence(answer(nose_locker="5 kg", pod_fitted="yes"), "pod_floor")
    assert found == (
        "the nose locker is occupied and camera pod fitted given as yes, which is not allowed "
        "(Corrin service bulletin 7, paragraph 3)"
    )


def test_an_empty_place_is_not_just_on_its_least():
    found = sentence(answer(), "nose_locker")
    assert found == "nose locker 0 kg, within 15 kg by 15 kg " + FM.format("6.3")


def test_the_burn_rests_on_no_document():
    found = sentence(answer(trip_fuel="61 L"), "burn")
    assert found == (
        "the taxi fuel of 0 L plus the trip fuel of 61 L comes to 61 L, over 60 L by 1 L: "
        "the 60 L in the main tank (plain arithmetic of the fuel)"
    )


def test_all_figures_of_a_sentence_are_in_the_unit_of_the_manual():
    text = """
sheet small revision 1 "Small"
document fm "Manual"
load seat "Seat" from 0 kg to 130 kg source fm "1"
limit most "Most" seat at most 220 lb source fm "2"
"""
    found = sentence(answer_of(text, seat="98 kg"), "most")
    assert found == "seat about 216.054 lb, within 220 lb by about 3.946 lb (Manual, paragraph 2)"


def test_documents_that_would_be_called_the_same_keep_their_full_titles():
    text = CORRIN.replace('"Quillmere order 14"', '"Corrin T2 flight manual, supplement 3"')

    found = answer_of(text, **TWO_UP)
    assert sentence(found, "in_hand").endswith("(Corrin T2 flight manual, supplement 3, paragraph 2)")
    assert sentence(found, "reserve").endswith("(Corrin T2 flight manual, CT2-FM, issue 4, paragraph 2.9)")


SITUATIONS = {
    "solo in front": answer(rear_seat="0 kg", main_tank="40 L"),
    "heavy, standard engine": answer(engine="standard", front_seat="98 kg", nose_locker="8 kg"),
    "nose heavy": answer(front_seat="130 kg", rear_seat="0 kg", nose_locker="15 kg", empty_arm="1190 mm"),
    "tail heavy": answer(front_seat="40 kg", rear_seat="120 kg"),
    "too high for the table": answer(pressure_altitude="9000 ft"),
    "beyond what is covered": answer(pressure_altitude="11000 ft"),
    "little is stated": answer("front_seat", "engine", "pressure_altitude", "trip_fuel"),
    "grass, high and uneven": answer(
        airfield="grass", pressure_altitude="5000 ft", left_pannier="8 kg", right_pannier="5 kg"
    ),
    "out of weighing": answer(flight_date="2029-03-01"),
    "too little fuel for the trip": answer(trip_fuel="65 L"),
    "thirds": answer(front_seat=Fraction(250, 3), rear_seat=Fraction(220, 3), nose_locker=Fraction(10, 3)),
}


def all_sentences(result: CheckResult) -> dict[str, str]:
    return {each.limit.name: sentence(result, each.limit.name) for each in result.limits}


def test_every_sentence_of_two_up(snapshot):
    assert all_sentences(answer()) == snapshot


@pytest.mark.parametrize("situation", SITUATIONS)
def test_what_a_situation_changes(situation, snapshot):
    """Only the sentences that are not those of two up, so that each can be read with care."""
    usual = all_sentences(answer())
    found = all_sentences(SITUATIONS[situation])
    assert {name: said for name, said in found.items() if said != usual[name]} == snapshot


SETTLED = """
sheet settled revision 1 "Settled"
document fm "Manual"
fact engine is one of standard, boosted source fm "1"
load seat "Seat" from 0 kg to 130 kg source fm "1"
load box "Box" from 0 kg to 130 kg source fm "1"
limit most "Most" seat at most (100 kg when engine is standard, 100 kg when engine is boosted) source fm "2"
limit either "Either"
  (seat at most 100 kg when engine is standard, box is empty when engine is boosted)
  source fm "2"
"""


def test_a_choice_that_is_settled_whichever_case_it_is_does_not_name_one():
    found = sentence(answer_of(SETTLED, seat="98 kg"), "most")
    assert found.startswith("seat 98 kg, within 100 kg by 2 kg: 100 kg in every case that remains possible")


def test_a_guard_in_doubt_settles_no_case():
    text = (
        SETTLED
        + """
given height in ft from 0 ft to 9000 ft
limit high "High" seat at most (100 kg when height > 2000 ft, 100 kg otherwise) source fm "2"
"""
    )
    found = sentence(answer_of(text, seat="98 kg"), "high")
    assert found.startswith("seat 98 kg, within 100 kg by 2 kg: 100 kg in every case that remains possible")


TURNS = """
sheet turns revision 1 "Turns"
document fm "Manual"
fuel tank "Tank" from 0 kg to 100 kg source fm "1"
limit turns "Turns" throughout tank at most {most} kg or tank at least {least} kg source fm "2"
"""


TAKING_TURNS = {
    (30, 20): "the 20 kg in the tank is not more than 30 kg; "
    "tank 20 kg, exactly on the least allowed, 20 kg, and so within, tightest with 20 kg left in the tank",
    (20, 30): "tank about 30 kg, over 20 kg by about 10 kg; "
    "about 29.999 kg in the tank is less than 30 kg, tightest with about 30 kg left in the tank",
}


@pytest.mark.parametrize("ends", TAKING_TURNS)
def test_alternatives_that_take_turns_during_the_burn_are_told_for_one_moment(ends):
    """Each is passed by 20 kg or more at some moment; what is told is what is so at the tightest one."""
    result = answer_of(TURNS.format(most=ends[0], least=ends[1]), tank="50 kg")
    assert sentence(result, "turns") == TAKING_TURNS[ends] + " (Manual, paragraph 2)"


def test_alternatives_that_all_fail_are_no_less_settled():
    result = answer_of(SETTLED, seat="101 kg", box="1 kg")
    assert sentence(result, "either") == (
        "it fails in every case that remains possible, which is not allowed (Manual, paragraph 2)"
    )
    result = answer_of(SETTLED, seat="101 kg", box="1 kg", engine="boosted")
    assert sentence(result, "either") == (
        "the box is occupied, which is not allowed, for engine boosted (Manual, paragraph 2)"
    )


BRACKETS = """
sheet brackets revision 1 "Brackets"
document fm "Manual"
load a "A" from 1 kg to 200 kg source fm "1"
load b "B" from 1 kg to 200 kg source fm "1"
load c "C" from 1 kg to 200 kg source fm "1"
limit top "Top" a at most {bound} source fm "2"
"""


@pytest.mark.parametrize(
    ("bound", "phrase"),
    [
        ("2 * (b + c)", "twice (the 2 kg in the B plus the 3 kg in the C)"),
        ("b - (c - b)", "the 2 kg in the B less (the 3 kg in the C less the 2 kg in the B)"),
        ("min(b, c) + b", "(the lesser of the 2 kg in the B and the 3 kg in the C) plus the 2 kg in the B"),
        (
            "max(b, min(b, c))",
            "the greater of the 2 kg in the B and 2 kg, which is the lesser of the 2 kg in the B",
        ),
        ("(round_up b to 10 kg) + c", "(the 2 kg in the B, rounded up to a whole 10 kg) plus the 3 kg in the C"),
        ("10 kg - abs(b - c)", "10 kg less (the difference between the 2 kg in the B and the 3 kg in the C)"),
        ("1 kg * (b / (b + c))", "1 kg times (the 2 kg in the B divided by (the 2 kg in the B plus "),
        ("b + c / 2 + b", "the 2 kg in the B plus the 3 kg in the C divided by 2 plus the 2 kg in the B"),
    ],
)
def test_a_phrase_can_be_read_in_one_way_only(bound, phrase):
    found = sentence(answer_of(BRACKETS.format(bound=bound), a="1 kg", b="2 kg", c="3 kg"), "top")
    assert phrase in found
