"""The language guide leaves nothing out: every word, unit, function, stage and bound of the language is in it."""

from __future__ import annotations

import re

import pytest

from engine.evaluation.following import MOST_DEGREE
from grammar.checking.arithmetic import LONGEST_CHAIN
from grammar.checking.nesting import MOST_ENVELOPE_CHOICES, MOST_LEVELS
from grammar.checking.references import DEEPEST_CHAIN
from grammar.checking.vocabulary import FUNCTIONS, RESERVED, STAGES
from grammar.reading import sizes
from grammar.reading.figure_slips import DIGITS
from grammar.reading.label_slips import NAME_LETTERS
from grammar.reading.parsing import words
from grammar.units import CALENDAR_UNITS, find_unit, unit_names
from tests.docs.pages import blocks, sections

PAGE = "docs/language.md"
PAGES = (PAGE, "docs/layers.md")
PIECES = "\n".join(block.text for page in PAGES for block in blocks(page) if block.language == "limits")
WORDS_OF_PIECES = frozenset(re.findall(r"[a-z_]+", re.sub(r'"[^"]*"|--.*', "", PIECES)))
"""The words that stand in the pieces of the guide and of its page of layers, labels and comments left out."""


def named_in(text: str) -> set[str]:
    """What a text sets in the letters of the language."""
    return set(re.findall(r"`([^`\n]+)`", text))


def rows_of(text: str) -> dict[str, str]:
    """The rows of a table of two columns, by the first."""
    rows = (line.strip("| ").split(" | ") for line in text.splitlines() if line.startswith("| "))
    return {row[0].strip(): row[1].strip() for row in rows if len(row) == 2}


def test_every_unit_is_listed_and_no_other() -> None:
    listed = set[str]().union(*(named_in(row) for row in rows_of(sections(PAGE)["Units"]).values()))
    assert listed == set(unit_names()) | CALENDAR_UNITS


def test_every_unit_stands_beside_its_own_dimension() -> None:
    for dimension, units in rows_of(sections(PAGE)["Units"]).items():
        for name in named_in(units) & set(unit_names()):
            unit = find_unit(name)
            assert unit is not None
            assert dimension == ("a temperature" if unit.is_point else unit.dimension.name), name


@pytest.mark.parametrize("word", sorted(words()))
def test_every_word_of_the_language_stands_in_a_piece(word: str) -> None:
    assert word in WORDS_OF_PIECES


@pytest.mark.parametrize("name", sorted({*FUNCTIONS, *STAGES}))
def test_every_function_and_stage_stands_in_a_piece(name: str) -> None:
    assert name in WORDS_OF_PIECES


def test_every_name_that_is_taken_is_listed_and_no_other() -> None:
    assert named_in(sections(PAGE)["Names that are taken"]) == set(RESERVED)


def test_what_the_language_knows_by_itself_is_all_there() -> None:
    known = named_in(sections(PAGE)["What the language knows by itself"])
    assert RESERVED - set(FUNCTIONS) - set(STAGES) - {"burn", "throughout", "verdict"} == known


BOUNDS = {
    "characters of a file": sizes.LETTERS,
    "words, figures and signs of a file": sizes.WORDS,
    "statements of a file": sizes.STATEMENTS,
    "characters of a line": sizes.LINE,
    "characters of a statement": sizes.STATEMENT,
    "values within values": sizes.DEPTH,
    "values within values, those behind names included and plain brackets not": MOST_LEVELS,
    "names that lean on one another in a row": DEEPEST_CHAIN,
    "choices of envelopes within one another": MOST_ENVELOPE_CHOICES,
    "cells of a table": sizes.CELLS,
    "digits of a figure": DIGITS,
    "letters of a name": NAME_LETTERS,
    "values multiplied or divided in one row": LONGEST_CHAIN,
    "problems shown of one file": sizes.PROBLEMS,
    "how often a claim `throughout` multiplies what changes (its degree)": MOST_DEGREE,
}


def test_the_bounds_are_those_of_the_program() -> None:
    printed = rows_of(sections(PAGE)["How large a sheet may be"])
    assert {what: printed[what] for what in BOUNDS} == {what: str(bound) for what, bound in BOUNDS.items()}
