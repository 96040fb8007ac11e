"""The explanation as a document: its published schema, its fixed frame, and figures that never flatter."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.explanation.caution import CAUTION
from engine.explanation.document import explanation_document
from engine.explanation.schema import schema_text
from grammar.sheet import Verdict
from tests.engine.explanation.answers import SHEET, answer, answer_of, sentence

SCHEMA = Path(__file__).parents[3] / "docs" / "explanation.schema.json"

SITUATIONS = [
    answer(),
    answer("pressure_altitude", "trip_fuel", "engine", "front_seat"),
    answer(pressure_altitude="9000 ft", airfield="grass", front_seat="98 kg", nose_locker="8 kg"),
    answer(pressure_altitude="11000 ft", flight_date="2029-03-02"),
    answer(front_seat=Fraction(250, 3), rear_seat=Fraction(1000, 7), empty_arm="1300 mm"),
]


def as_json(result) -> dict:
    return json.loads(explanation_document(result).model_dump_json())


def test_the_published_schema_is_that_of_the_models():
    """Mended by: python -m engine.explanation.schema > docs/explanation.schema.json."""
    assert SCHEMA.read_text(encoding="utf-8") == schema_text()


def test_the_schema_is_one():
    jsonschema.Draft202012Validator.check_schema(json.loads(schema_text()))


@pytest.mark.parametrize("result", SITUATIONS)
def test_every_document_is_as_the_schema_says(result):
    jsonschema.validate(as_json(result), json.loads(schema_text()), jsonschema.Draft202012Validator)


def test_the_schema_refuses_what_it_does_not_know():
    document = as_json(answer())
    document["limits"][0]["verdict"] = "fine"
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(document, json.loads(schema_text()))
    document = as_json(answer())
    document["limits"][0]["extra"] = 1
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(document, json.loads(schema_text()))


@pytest.mark.parametrize("result", SITUATIONS)
def test_the_frame_is_fixed(result):
    """The same limits and values, with the same numbers and links, whatever is stated."""
    usual, found = as_json(answer()), as_json(result)
    assert list(found) == list(usual)
    assert [list(each) for each in found["limits"]] == [list(each) for each in usual["limits"]]
    fixed = (
        "number",
        "operation",
        "name",
        "label",
        "kind",
        "statement",
        "line",
        "source",
        "made_from",
        "joined_by",
    )
    for one, other in zip(found["values"], usual["values"], strict=True):
        assert list(one) == list(other)
        assert {key: one[key] for key in fixed} == {key: other[key] for key in fixed}


@pytest.mark.parametrize("result", SITUATIONS)
def test_every_limit_stands_exactly_once_with_its_sentence(result):
    document = as_json(result)
    assert [each["name"] for each in document["limits"]] == [each.limit.name for each in result.limits]
    for each in document["limits"]:
        assert each["sentence"] == sentence(result, each["name"])
        assert (each["verdict"] == "undetermined") == bool(each["missing"])


@pytest.mark.parametrize("result", SITUATIONS)
def test_the_tree_of_reasons_is_whole(result):
    """Every number that is spoken of is there, and only those that some limit rests on."""
    document = as_json(result)
    made_from = {each["number"]: each["made_from"] for each in document["values"]}
    roots = [each["claim"] for each in document["limits"]]
    roots += [each["applies_when"] for each in document["limits"] if each["applies_when"] is not None]
    reached, waiting = set(), list(roots)
    while waiting:
        number = waiting.pop()
        if number not in reached:
            reached.add(number)
            waiting += made_from[number]
    assert reached == set(made_from)
    assert [each["number"] for each in document["values"]] == sorted(made_from)
    for each in document["values"]:
        assert len(each["made_from"]) == len(each["joined_by"])


def test_every_printed_figure_and_every_load_has_its_paragraph():
    for each in as_json(answer())["values"]:
        is_own = each["operation"] == "printed in the sheet"
        is_load = each["name"] in {place.input.name for place in SHEET.places}
        if is_own or is_load:
            assert each["source"] is not None and each["line"] is not None, each


def test_the_arms_of_places_are_cited_where_they_are_declared():
    """The moment is shared by all limits; its figures belong to the places, not to who first asked for it."""
    found = {
        each["quantity"]["amount"]: each["statement"] for each in as_json(answer())["values"] if each["quantity"]
    }
    assert found["610"] == "front_seat"
    assert found["0.72"] == "main_tank"


def test_a_document_speaks_of_the_sheet_and_of_who_decides():
    document = as_json(answer())
    assert document["sheet"] == {"name": "corrin_t2", "revision": 3, "title": "Corrin T2 light gyroplane"}
    assert json.dumps(document).count(json.dumps(CAUTION)[1:-1]) == 1
    assert document["verdict"] == Verdict.WITHIN.value


def test_what_was_taken_for_granted_is_told():
    document = as_json(answer("trip_fuel"))
    assert [each["input"] for each in document["assumptions"]] == [
        "nose_locker",
        "left_pannier",
        "right_pannier",
        "taxi_fuel",
        "trip_fuel",
    ]
    assumed = {each["name"] for each in document["values"] if each["is_assumed"]}
    assert assumed >= {"nose_locker", "left_pannier", "right_pannier"}


def test_the_two_edges_of_a_table_are_figures_too():
    (missing,) = next(
        each["missing"] for each in as_json(answer(pressure_altitude="9000 ft"))["limits"] if each["missing"]
    )
    assert missing == {
        "why": "out of table",
        "name": "hot_and_high",
        "axis": "pressure_altitude",
        "asked": {"amount": "9000", "unit": "ft", "is_exact": True, "exact": None},
        "nearest": {"amount": "8000", "unit": "ft", "is_exact": True, "exact": None},
        "sentence": 'the table "hot and high" ends at 8000 ft and is asked for 9000 ft, 1000 ft beyond',
    }


@given(st.fractions(min_value=0, max_value=130, max_denominator=997))
@settings(max_examples=40, deadline=None)
def test_every_quantity_says_exactly_what_it_is(front):
    """Exact text says the exact number; rounded text stands beside the exact fraction, close by."""
    for each in quantities(as_json(answer(front_seat=front))):
        if each["unit"] in ("date", "days"):
            continue
        text = Fraction(each["amount"])
        assert each["is_exact"] == (each["exact"] is None)
        if not each["is_exact"]:
            assert 0 < abs(Fraction(each["exact"]) - text) < Fraction(1, 1000)


def quantities(thing):
    if isinstance(thing, dict):
        if "amount" in thing:
            yield thing
        for value in thing.values():
            yield from quantities(value)
    elif isinstance(thing, list):
        for each in thing:
            yield from quantities(each)


def test_the_exact_value_of_a_load_comes_back():
    front = Fraction(250, 3)
    document = as_json(answer(front_seat=front))
    (read,) = [each for each in document["values"] if each["name"] == "front_seat"]
    assert read["quantity"] == {"amount": "83.333", "unit": "kg", "is_exact": False, "exact": "250/3"}


BULGE = """
sheet bulge revision 1 "Bulge"
document fm "Manual"
datum "firewall; arms positive aft"
fuel tank "Tank" from 0 kg to 200 kg arm 1300 mm source fm "1"
limit tip "Tip" throughout cg - mass / 500 kg * 1 m at most {most} mm source fm "2"
"""
"""With 100 kg empty at 1000 mm the claim is tightest at a mass of the square root of 15000 kg."""


@pytest.mark.parametrize("most", [1000, 810])
def test_a_moment_that_no_fraction_says_has_no_exact_figure(most):
    result = answer_of(BULGE.format(most=most), empty_mass="100 kg", empty_arm="1000 mm", tank="100 kg")
    (margin,) = as_json(result)["limits"][0]["margins"]
    assert margin["room"]["exact"] is None and not margin["room"]["is_exact"]
    true = 1300 - 30000 / 15000**0.5 - 2 * 15000**0.5
    assert 0 <= most - true - float(margin["room"]["amount"]) < 0.002
    assert 0 <= 100 * (most - true) / most - float(margin["share"]) < 0.002
    assert " by about " in sentence(result, "tip")
