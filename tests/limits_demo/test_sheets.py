"""The five sheets read without a problem, their examples come out, and each shows what it is there for."""

from __future__ import annotations

import pytest

from engine.evaluation.examples import run_examples
from grammar.sheet import Ground, Inside, Limit, Stage, Weight
from limits_demo import sheet_names, sheet_text
from tests.limits_demo.group import outcome, sheet

TYPES = ("aldermoor_a4", "corrin_t2", "pellow_h2", "tamsel_g1", "vessary_s2")


def test_the_five_types_of_the_group_have_a_sheet() -> None:
    assert sheet_names() == TYPES


def test_there_is_no_sheet_of_another_type() -> None:
    with pytest.raises(KeyError):
        sheet_text("no_such_type")


@pytest.mark.parametrize("name", TYPES)
def test_it_reads_with_no_problem_and_no_warning(name: str) -> None:
    assert outcome(name).problems == ()


@pytest.mark.parametrize("name", TYPES)
def test_its_worked_examples_come_out_as_printed(name: str) -> None:
    assert len(sheet(name).examples) >= 8
    assert run_examples(sheet(name)) == ()


@pytest.mark.parametrize("name", TYPES)
def test_it_has_15_to_40_statements(name: str) -> None:
    assert 15 <= len(outcome(name).file.statements) <= 40


@pytest.mark.parametrize("name", TYPES)
def test_its_first_line_says_that_it_is_invented(name: str) -> None:
    first = sheet_text(name).splitlines()[0]
    assert "invented" in first
    assert "No real aircraft may be loaded by this sheet" in first


@pytest.mark.parametrize("name", TYPES)
def test_no_document_is_listed_without_a_figure_from_it(name: str) -> None:
    found = sheet(name)
    statements = (*found.limits, *found.inputs, *found.tables, *found.envelopes, *found.lets)
    cited = {one.source.document.name for one in statements if one.source is not None}
    assert cited == {document.name for document in found.documents}


# ---- the Aldermoor A4, by which speed is measured


def _aldermoor_limits() -> list[Limit]:
    return [limit for limit in sheet("aldermoor_a4").limits if limit.weight is Weight.LIMIT]


def test_the_aldermoor_has_exactly_20_limits() -> None:
    grounds = [limit.ground for limit in _aldermoor_limits()]
    assert len(grounds) == 20
    assert (grounds.count(Ground.STATED), grounds.count(Ground.RANGE), grounds.count(Ground.BURN)) == (12, 7, 1)


def test_the_aldermoor_has_envelopes_that_hold_throughout_the_burn() -> None:
    throughout = [
        limit.name
        for limit in _aldermoor_limits()
        if limit.stage is Stage.THROUGHOUT and isinstance(limit.claim, Inside)
    ]
    assert throughout == ["normal_balance", "utility_balance"]


def test_the_aldermoor_has_a_table_of_two_axes_and_one_of_one() -> None:
    assert sorted(len(table.axes) for table in sheet("aldermoor_a4").tables) == [1, 2]


# ---- what the others are there to show


def test_the_corrin_front_seat_allows_less_with_the_nose_locker_loaded() -> None:
    assert "front_seat at most 115 kg - 3 * nose_locker" in sheet_text("corrin_t2")


@pytest.mark.parametrize("name", ["vessary_s2", "pellow_h2"])
def test_side_by_side_types_are_balanced_sideways_too(name: str) -> None:
    found = sheet(name)
    assert all(place.lateral_arm is not None for place in (*found.places, *found.tanks))


@pytest.mark.parametrize("name", ["aldermoor_a4", "pellow_h2"])
def test_types_with_two_tanks_say_in_which_order_they_are_used(name: str) -> None:
    found = sheet(name)
    assert len(found.tanks) == 2
    assert found.burn is not None
    assert found.burn.source is not None


def test_the_tamsel_has_a_chord_steps_of_ballast_and_no_fuel() -> None:
    found = sheet("tamsel_g1")
    assert found.chord is not None
    assert {place.input.name for place in found.places if place.step is not None} == {"trim_plates", "fin_blocks"}
    assert found.tanks == ()
    assert found.burn is None
