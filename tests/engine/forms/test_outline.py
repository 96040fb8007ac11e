"""The outline of a sheet: every statement on one page, in the order written, with its paragraph."""

from __future__ import annotations

import pytest

from engine.evaluation.proving import read_and_prove
from engine.forms.outline import outline
from grammar.sheet import Ground, Role
from limits_demo import sheet_names, sheet_text
from tests.engine.forms.test_loading_form import DEMO

EVERYTHING = """\
sheet everything revision 2 "Everything"
  effective 2026-04-01
document fm "Manual, issue 4"
document lo "Order 14"
datum "nose; arms positive aft"
chord from 40 mm length 880 mm source fm "1.2"
fact hook "Winch hook fitted" is yes or no source fm "1"
configuration undercarriage "Undercarriage" is one of wheels, floats, skis
  floats weighed apart
  skis adds 12 kg arm 2300 mm
  source fm "1.6"
given persons "Persons aboard" from 0 to 4
load pilot "Pilot" from 0 kg to 130 kg arm 2300 mm source fm "6.3"
load ballast "Ballast" from 0 kg to 10 kg in steps of 2.5 kg arm 900 mm assumed empty source fm "6.3"
declared pilot add 4 kg source lo "3"
fuel left_tank "Left tank" from 0 L to 40 L density 0.72 kg/L arm 2400 mm source fm "6.4"
fuel right_tank "Right tank" from 0 L to 40 L density 0.72 kg/L arm 2400 mm source fm "6.4"
burn left_tank down to 20 L, then right_tank, then left_tank source fm "7.2"
let crew = pilot + ballast
table most_mass "Maximum mass, by undercarriage" of undercarriage gives kg
  source fm "2.3"
  | undercarriage | most_mass |
  | wheels | 1000 |
  | floats | 1043 |
  | skis | 960 |
limit total "Total" throughout mass at most 900 kg source fm "2.1"
limit fitted "By the undercarriage" at takeoff mass at most most_mass(undercarriage) source fm "2.3"
limit aft "Aft" at takeoff cg_percent_mac at most 40 %MAC source fm "2.4" note "placard"
limit belts "Belts" persons at most 2 when hook is no source fm "2.3"
caution crewed "Crew" crew at most 120 kg source fm "2.4"
example one "One" source fm "6.6"
  given empty_mass 500 kg, undercarriage wheels
  load pilot 80 kg, left_tank 10 L, right_tank 10 L
  expect mass at takeoff 598.4 kg
"""


def page(text: str = EVERYTHING) -> str:
    outcome = read_and_prove(text, "everything.limits")
    assert outcome.sheet is not None, outcome.problems
    return outline(outcome.sheet, {outcome.source.file: outcome.source})


def test_a_page_with_every_sort_of_statement(snapshot):
    assert page() == snapshot


@pytest.mark.parametrize("name", sheet_names())
def test_every_statement_of_a_sheet_is_on_its_page(name):
    text, sheet = page(sheet_text(name)), DEMO[name]
    labels = [one.label for one in sheet.inputs if one.role in (Role.FACT, Role.GIVEN) and not one.is_built_in]
    labels += [one.input.label for one in (*sheet.places, *sheet.tanks)]
    labels += [one.label for one in (*sheet.tables, *sheet.envelopes)]
    labels += [one.label for one in sheet.limits if one.ground is Ground.STATED]
    assert [label for label in labels if f"{label} [" not in text and f"{label}: " not in text] == []
    assert all(f"{let.name}: " in text for let in sheet.lets)
    assert f"{len(sheet.examples)} worked examples of the manual stand in the sheet." in text


@pytest.mark.parametrize("name", sheet_names())
def test_a_page_is_one_page(name):
    """As much as a sheet of paper takes, a line no longer than one can read."""
    lines = page(sheet_text(name)).splitlines()
    assert len(lines) <= 66
    assert max(map(len, lines)) <= 115


def test_one_example_stands_and_two_stand():
    assert "1 worked example of the manual stands in the sheet." in page()
    again = EVERYTHING + EVERYTHING[EVERYTHING.index("example one") :].replace("example one", "example two")
    assert "2 worked examples of the manual stand in the sheet." in page(again)
