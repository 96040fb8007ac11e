"""Words of an answer: labels inside a sentence, lists, small multipliers, letters that are not to be seen."""

from __future__ import annotations

import unicodedata
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.explanation.words import clean, counted, inside_a_sentence, listed, spaced, times


@pytest.mark.parametrize(
    ("label", "inside"),
    [
        ("Front seat", "front seat"),
        ("CP-1 pod", "CP-1 pod"),
        ("T2", "T2"),
        ("A tank", "a tank"),
        ("A", "A"),
        ("main tank", "main tank"),
        ("", ""),
        ("Écoutille", "écoutille"),
    ],
)
def test_a_label_inside_a_sentence(label, inside):
    assert inside_a_sentence(label) == inside


@pytest.mark.parametrize(
    ("factor", "words"), [(2, "twice"), (3, "three times"), (10, "ten times"), (11, None), (Fraction(5, 2), None)]
)
def test_small_whole_multipliers_are_words(factor, words):
    assert times(Fraction(factor)) == words


def test_lists():
    assert listed([]) == ""
    assert listed(["a"]) == "a"
    assert listed(["a", "b"]) == "a and b"
    assert listed(["a", "b", "c"], "or") == "a, b or c"
    assert listed(["a, not b", "c"]) == "a, not b; and c"


def test_one_and_many():
    assert counted(1, "day") == "1 day"
    assert counted(0, "day") == "0 days"


def test_names_in_plain_words():
    assert spaced("solo_student") == "solo student"


@given(st.text())
def test_what_is_cleaned_stays_on_its_line_and_shows_every_letter(text):
    cleaned = clean(text)
    assert all(unicodedata.category(letter)[0] != "C" for letter in cleaned)
    assert len(cleaned.splitlines()) <= 1
    assert clean(cleaned) == cleaned
