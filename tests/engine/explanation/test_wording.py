"""Wording that has to stand up to any label, and to every way in which a sheet may be written."""

from __future__ import annotations

import pytest

from engine.evaluation.compiling.compiled import compile_sheet
from engine.evaluation.exact import evaluate
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult
from engine.explanation.briefs import Brief, brief
from engine.explanation.document import explanation_document
from engine.explanation.encoding import Encoder
from engine.explanation.sentences import sentences
from engine.explanation.text import why_text
from engine.explanation.words import carried_by, filled_or_empty, main_word
from tests.engine.explanation.answers import answer_of, outcome, read_sheet, sentence

ODD = read_sheet("""
sheet odd revision 1 "Odd labels"
document fm "Manual"
document lo "Order 14"
datum "nose"
fact engine "Engine" is one of standard, boosted, turbo source fm "1"
fact pod "Camera pod fitted" is yes or no source fm "1"
given doors "Cabin doors" is one of on, off
given glass "Glass" is one of clear, tinted
given loose "Anything loose in the cabin" is yes or no
given wind "Wind" in kt
load pilot "Pilot" from 0 kg to 110 kg arm 1 m source fm "1"
load passengers "Passengers" from 0 kg to 200 kg arm 1 m source fm "1"
load water "Water in the left wing" from 0 kg to 130 kg arm 1 m source fm "1"
load raft "Life raft, in the rear cabin" from 0 kg to 23 kg arm 1 m in steps of 11.5 kg source fm "1"
fuel tank "Tank" from 0 L to 40 L density 0.72 kg/L arm 1 m source fm "1"
declared pilot, passengers add 4 kg source lo "3"
limit together "Together" pilot + passengers + water at most 300 kg source fm "2"
limit alone "Pilot alone" pilot at most 100 kg source fm "2"
limit both "Both" count(pilot, passengers) is 2 source fm "2"
limit few "Few" count(pilot, passengers, water) at most 2 source fm "2"
limit least "Least" water at most min(max(20 kg, 100 kg - pilot), 110 kg, max(30 kg, 2 * passengers)) source fm "2"
limit nested "Nested" water at most min(110 kg, max(30 kg, 2 * passengers)) source fm "2"
limit windy "Windy" water at most (100 kg when wind > 20 kt, 90 kg when wind > 10 kt, 50 kg otherwise)
  source fm "2"
limit powered "Powered"
  water at most (100 kg when engine is standard, 90 kg when engine is boosted, 50 kg otherwise)
  source fm "2"
limit podded "Podded" water at most (100 kg when pod is yes and doors is off, 50 kg otherwise) source fm "2"
limit closed "Closed" doors is on source fm "2"
limit clear "Clear" glass is clear source fm "2"
limit tight "Tight" loose is no source fm "2"
limit dry "Dry" water is empty and passengers is empty source fm "2"
limit rafted "Raft" raft is occupied source fm "2"
limit by_doors "By the doors" (water at most 3 kg when doors is off, raft is empty when doors is on) source fm "2"
limit listed "Listed" water at most min(60 kg, (40 kg when wind > 20 kt, 50 kg otherwise)) source fm "2"
limit reserve "Reserve" at landing volume(tank) at least 12 L/h * 30 min source fm "2"
""")

USUAL = {
    "empty_mass": "300 kg", "empty_arm": "1 m", "engine": "turbo", "pod": "yes", "doors": "off", "glass": "tinted",
    "loose": "yes", "wind": "8 kt", "pilot": "98 kg", "passengers": "70 kg weighed", "water": "40 kg",
    "raft": "12 kg", "tank": "20 L", "trip_fuel": "4 L",
}  # fmt: skip


def odd(**changed: str) -> CheckResult:
    return evaluate(ODD, read_loading(ODD, USUAL | changed))


SAID = {
    "together": "the 102 kg of the pilot (98 kg declared plus 4 kg) plus the 70 kg of the passengers (weighed) "
    "plus the 40 kg of the water in the left wing comes to 212 kg, within 300 kg by 88 kg",
    "alone": "pilot 102 kg (98 kg declared plus 4 kg), over 100 kg by 2 kg",
    "passengers": "passengers 70 kg weighed, within 200 kg by 130 kg",
    "both": "2 of 2 places occupied (pilot and passengers)",
    "few": "3 of 3 places occupied (pilot, passengers and water in the left wing), over 2 by 1",
    "least": "water in the left wing 40 kg, over 20 kg by 20 kg: the least of 110 kg, 20 kg (the greater of 20 kg "
    "and 100 kg less the 102 kg of the pilot (98 kg declared plus 4 kg)) and 140 kg (the greater of 30 kg and "
    "twice the 70 kg of the passengers (weighed))",
    "nested": "water in the left wing 40 kg, within 110 kg by 70 kg: the lesser of 110 kg and 140 kg, which is "
    "the greater of 30 kg and twice the 70 kg of the passengers (weighed)",
    "windy": "water in the left wing 40 kg, within 50 kg by 10 kg: 50 kg, as none of the 2 other cases holds",
    "powered": "water in the left wing 40 kg, within 50 kg by 10 kg: 50 kg for engine turbo",
    "podded": "water in the left wing 40 kg, within 100 kg by 60 kg: 100 kg for camera pod fitted given as yes "
    "and cabin doors off",
    "closed": "cabin doors given as off, not on, which is not allowed",
    "clear": "glass given as tinted, not clear, which is not allowed",
    "tight": "anything loose in the cabin given as yes, which is not allowed",
    "dry": "the water in the left wing is aboard and the passengers are aboard, which is not allowed",
    "rafted": "the life raft, in the rear cabin, is aboard",
    "by_doors": "water in the left wing 40 kg, over 3 kg by 37 kg, for cabin doors off",
    "raft": "life raft, in the rear cabin 12 kg, not a whole number of 11.5 kg",
    "listed": "water in the left wing 40 kg, within 50 kg by 10 kg: the lesser of 60 kg and 50 kg, as the wind of "
    "8 kt is not more than 20 kt",
    "reserve": "tank at landing 16 L, above 6 L by 10 L: 12 L/h times 30 min",
}


@pytest.mark.parametrize("limit", SAID)
def test_a_sentence_with_an_odd_label(limit):
    assert sentences(odd()).finding(outcome(odd(), limit)) == SAID[limit]


OTHERWISE = {
    "both": ({"pilot": "0 kg"}, "1 of 2 places occupied (passengers), not 2, which is not allowed"),
    "few": (
        {"pilot": "0 kg", "passengers": "0 kg", "water": "0 kg"},
        "0 of 3 places occupied (empty: pilot, passengers and water in the left wing), within 2 by 2",
    ),
    "alone": ({"pilot": "0 kg"}, "pilot 0 kg, within 100 kg by 100 kg"),
    "raft": ({"raft": "23 kg"}, "exactly on the most allowed, 23 kg, and so within; a whole number of 11.5 kg"),
    "windy": ({"wind": "15 kt"}, "90 kg, as the wind of 15 kt is more than 10 kt"),
    "podded": ({"pod": "no"}, "50 kg for camera pod fitted given as no"),
    "by_doors": ({"doors": "on"}, "is aboard, which is not allowed, for cabin doors on"),
}


@pytest.mark.parametrize("limit", OTHERWISE)
def test_a_sentence_when_it_comes_out_otherwise(limit):
    changed, words = OTHERWISE[limit]
    assert words in sentences(odd(**changed)).finding(outcome(odd(**changed), limit))


def test_what_is_not_stated_is_told_in_one():
    stated = {name: value for name, value in USUAL.items() if name not in ("doors", "raft", "wind")}
    found = evaluate(ODD, read_loading(ODD, stated))
    assert sentences(found).finding(outcome(found, "windy")) == "cannot be told: wind not stated"
    assert sentences(found).finding(outcome(found, "by_doors")) == (
        "cannot be told: cabin doors; and life raft, in the rear cabin not stated"
    )


def test_what_is_added_to_a_declared_mass_has_its_own_paragraph():
    text = why_text(odd(), "alone")
    assert "the case taken, 4 kg, printed [declared, line 17; Order 14, paragraph 3]" in text
    assert "mass of pilot declared, taken for granted as nobody states it [pilot, line" in text


SITUATIONS = [
    {},
    {"pilot": "0 kg", "passengers": "0 kg", "water": "0 kg"},
    {"doors": "on", "wind": "25 kt", "pod": "no", "loose": "no", "glass": "clear", "raft": "23 kg"},
    {"engine": "standard", "pilot": "100 kg weighed", "wind": "15 kt"},
    {"pilot": "77.7 kg", "passengers": "12.5 kg", "water": "61 kg"},
    {"pilot": "61.3 kg", "passengers": "99 kg", "water": "60 kg"},
]


def test_no_sentence_hangs_on_more_than_an_encoder_looks_at():
    """What was learned from one answer gives the very bytes of the next, and nothing is given up."""
    encoder = Encoder(compile_sheet(ODD))
    for situation in SITUATIONS * 2:
        loading = read_loading(ODD, USUAL | situation)
        expected = explanation_document(encoder.compiled.check(loading)).model_dump_json().encode()
        assert encoder.answer(loading) == expected
    assert encoder.encoding is not None and not encoder.encoding.never


# ---- labels


@pytest.mark.parametrize(
    ("label", "word", "carried"),
    [
        ("Nose locker", "locker", "in the nose locker"),
        ("Locker under the right seat", "locker", "in the locker under the right seat"),
        ("Water in the left wing", "water", "of the water in the left wing"),
        ("Left water tank", "tank", "in the left water tank"),
        ("Pilot's seat", "seat", "in the pilot's seat"),
        ("Pilot", "pilot", "of the pilot"),
        ("Trim plates", "plates", "of the trim plates"),
        ("Left shelf", "shelf", "on the left shelf"),
        ("Hook", "hook", "on the hook"),
        ("Life raft, in the rear cabin", "raft", "of the life raft, in the rear cabin"),
        ("Bags (both)", "bags", "of the bags (both)"),
        ("CP-1 pod", "pod", "in the CP-1 pod"),
        ("", "", "in the "),
    ],
)
def test_what_carries_and_what_is_carried(label, word, carried):
    assert main_word(label) == word
    assert carried_by(label) == carried


@pytest.mark.parametrize(
    ("label", "filled", "empty"),
    [
        ("Rear seats", "the rear seats are occupied", "the rear seats are empty"),
        ("Bags in the nose", "the bags in the nose are aboard", "the bags in the nose are not aboard"),
        ("Glass", "the glass is occupied", "the glass is empty"),
        ("Life raft, aft", "the life raft, aft, is aboard", "the life raft, aft, is not aboard"),
        ("Children", "the children are aboard", "the children are not aboard"),
    ],
)
def test_filled_and_empty(label, filled, empty):
    assert (filled_or_empty(label, True), filled_or_empty(label, False)) == (filled, empty)


# ---- in a few words


def told(limit: str, **changed: str) -> str:
    found = odd(**changed)
    return brief(sentences(found), outcome(found, limit)).fitted(None)


def test_an_outcome_in_a_few_words():
    assert told("alone") == "pilot 102 kg, over 100 kg by 2 kg"
    assert told("together") == "Together: 88 kg left"
    assert told("together", pilot="186 kg") == "Together: exactly on it"
    assert told("together", pilot="190 kg") == "Together: over 300 kg by 4 kg"
    assert told("closed") == "cabin doors given as off, not on"
    assert told("both") == "2 of 2 places occupied (pilot and passengers)"


def test_a_table_asked_beyond_its_end_in_a_few_words():
    text = """
sheet tabled revision 1 "Tabled"
document fm "Manual"
given height "Height" in ft
load seat "Seat" from 0 kg to 130 kg source fm "1"
table most of height in ft gives kg source fm "2"
  | height | most |
  | 1000 | 100 |
  | 6000 | 80 |
limit high "High" seat at most most(height) source fm "2"
"""
    for height, words in (
        ("6800 ft", "6800 ft asked of a table that ends at 6000 ft"),
        ("10 ft", "10 ft asked of a table that begins at 1000 ft"),
    ):
        found = answer_of(text, seat="90 kg", height=height)
        assert brief(sentences(found), outcome(found, "high")).fitted(None) == words
    assert "cannot be told" in sentence(found, "high")


@pytest.mark.parametrize("width", range(10, 60))
def test_words_are_cut_to_their_width_and_the_figure_last(width):
    words = Brief("over 300 kg by 4 kg", "Centre of gravity, fore and aft")
    cut = words.fitted(width)
    assert len(cut) <= width
    if width >= 30:
        assert cut.endswith("over 300 kg by 4 kg")
