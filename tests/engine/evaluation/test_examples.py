"""Running worked examples: what differs is told with what came out, and what is missing."""

from __future__ import annotations

import pytest

from engine.evaluation.examples import run_examples
from grammar.diagnostics.examples import EXAMPLES
from grammar.diagnostics.lettering import remedy, says
from tests.engine.evaluation.small_sheets import sheet_of

TEXT = """\
load front from 0 kg to 130 kg arm 600 mm source fm "1"
load rear from 0 kg to 130 kg arm 1500 mm source fm "1"
fuel tank from 0 L to 100 L density 0.75 kg/L arm 2 m source fm "1"
table by_front of front in kg gives kg source fm "1"
  | front | rear |
  |  60 |  70 |
  | 100 | 110 |
limit front_max
  front at most 91 kg
  source fm "2"
limit rear_max
  rear at most by_front(front)
  source fm "2"
limit balance
  throughout
  cg at most 1400 mm
  source fm "2"
limit weighing
  flight_date at most weighed_on + 12 months
  source fm "2"
example one source fm "6"
  given empty_mass 300 kg, empty_arm 1000 mm, weighed_on 2026-01-31
  load front 98 kg, rear 80 kg, tank 40 L
  {expected}
"""
WORDS = {entry.code: entry for entry in EXAMPLES}


def run(expected: str) -> list[str]:
    """The codes and words of the problems with an example that expects so much."""
    found = run_examples(sheet_of(TEXT.replace("{expected}", expected)))
    assert all("{" not in remedy(WORDS[one.code], one) for one in found)
    return [f"{one.code} {says(WORDS[one.code], one)}" for one in found]


@pytest.mark.parametrize(
    "expected",
    [
        "expect mass at takeoff 508 kg",
        "expect mass at takeoff 508.05 kg give or take 0.05 kg",
        "expect cg at takeoff 1060.6 mm give or take 0.1 mm",
        "expect front_max outside, rear_max within, weighing undetermined",
        "expect front_max outside by 7 kg",
        "expect rear_max within by 28 kg",
        "expect verdict outside",
        "expect front 98 kg, front 98000 g",
    ],
)
def test_what_comes_out_as_printed_is_no_problem(expected: str) -> None:
    assert run(expected) == []


@pytest.mark.parametrize(
    ("expected", "told"),
    [
        (
            "expect mass at takeoff 507 kg",
            "801 one expects mass at takeoff 507 kg, and 508 kg comes out, 1 kg off.",
        ),
        (
            "expect mass at takeoff 508.06 kg give or take 0.05 kg",
            "801 one expects mass at takeoff 508.06 kg, and 508 kg comes out, 0.06 kg off.",
        ),
        (
            "expect cg at takeoff 1060.63 mm",
            "801 one expects cg at takeoff 1060.63 mm, and about 1060.629921 mm comes out, about 0.001 mm off.",
        ),
        (
            "expect front_max within",
            "802 one expects front_max within, and it comes out outside by 7 kg.",
        ),
        (
            "expect verdict within",
            "802 one expects the verdict within, and it comes out outside by front_max.",
        ),
        (
            "expect front_max outside by 6 kg",
            "803 one expects front_max outside by 6 kg, and it comes out outside by 7 kg.",
        ),
        (
            "expect mass at landing 500 kg",
            "804 one expects mass at landing 500 kg, which cannot be told: the example needs trip_fuel.",
        ),
        (
            "expect weighing within",
            "805 one expects weighing within, which cannot be told: the example needs flight_date.",
        ),
    ],
)
def test_what_differs_is_told(expected: str, told: str) -> None:
    assert run(expected) == [told]


def test_a_table_read_beyond_its_end_is_named() -> None:
    text = TEXT.replace("front 98 kg", "front 101 kg").replace("{expected}", "expect rear_max within")
    (found,) = run_examples(sheet_of(text))
    assert found.facts["needs"] == "by_front ends at 100 kg, and is read at 101 kg"


def test_every_problem_of_every_example_is_told() -> None:
    text = TEXT.replace("{expected}", "expect front_max within, rear_max outside")
    text += 'example two source fm "6"\n  load front 98 kg\n  expect front_max within\n'
    assert [one.facts["example"] for one in run_examples(sheet_of(text))] == ["one", "one", "two"]
