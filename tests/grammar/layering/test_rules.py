"""What may stand in which file: an order may only add, a permit must give something for what it takes."""

from __future__ import annotations

import pytest

from grammar import tree
from grammar.diagnostics.rendering import one_line
from grammar.layering import rules
from tests.engine.resolution.layered import SHEET, codes, order, permit, put_on, read_codes, supplement

MAY_ADD = {
    "document": 'document more "More"',
    "given": "given flight is one of dual, solo",
    "let": "let twice = 2 * front_seat",
    "table": 'table t of front_seat in kg gives kg source local_o "1"\n  | front_seat | t |\n  | 0 | 9 |\n  | 9 | 9 |',
    "envelope": 'envelope e of cg in mm against mass in kg source local_o "1"\n  | cg | mass |\n  | 900 | 290 |\n'
    "  | 900 | 540 |\n  | 1400 | 540 |",
    "limit": 'limit l front_seat at most 100 kg source local_o "1"',
    "caution": 'caution c front_seat at most 100 kg source local_o "1"',
    "declared": 'declared front_seat, rear_seat add 4 kg source local_o "1"',
    "example": 'example x load front_seat 9 kg expect front_seat within source local_o "1"',
}
"""Every statement that an order may contain."""

MAY_NOT = {
    "datum": 'datum "the nose"',
    "chord": 'chord from 1 mm length 9 mm source local_o "1"',
    "fact": 'fact f is yes or no source local_o "1"',
    "configuration": "configuration doors is one of fitted, removed removed adds -9 kg",
    "load": 'load bag from 0 kg to 9 kg arm 1 mm source local_o "1"',
    "fuel": 'fuel more from 0 L to 9 L density 1 kg/L arm 1 mm source local_o "1"',
    "burn": 'burn main_tank source local_o "1"',
    "amend": 'amend limit max_takeoff_mass at takeoff mass at most 400 kg source local_o "1"',
    "loosen": 'loosen limit max_takeoff_mass at takeoff mass at most 600 kg source local_o "1"',
    "withdraw": 'withdraw limit max_takeoff_mass source local_o "1"',
}
"""Every statement that an order may not contain, even where it would make the sheet stricter."""


def test_the_two_lists_have_every_statement_but_the_headings():
    keywords = set(rules._KEYWORDS.values()) | {"caution"}
    assert {*MAY_ADD, *MAY_NOT} == keywords - {"sheet"}
    assert not set(MAY_ADD) & set(MAY_NOT)


@pytest.mark.parametrize("keyword", MAY_ADD)
def test_an_order_may_add_what_limits_need(keyword):
    assert not {"752", "760"} & set(read_codes(order(MAY_ADD[keyword])))


@pytest.mark.parametrize("keyword", MAY_NOT)
def test_an_order_may_do_nothing_else(keyword):
    refused = put_on(order(MAY_NOT[keyword]))
    assert "752" in codes(refused)
    assert refused.sheet is None
    problem = next(one for one in refused.problems if one.code == "752")
    assert problem.facts["keyword"] == keyword
    assert "an order may only add limits" in one_line(problem)


@pytest.mark.parametrize("keyword", [*MAY_NOT, "declared", "example"])
def test_a_permit_may_loosen_and_add_limits_and_nothing_else(keyword):
    statement = (MAY_ADD | MAY_NOT)[keyword].replace("local_o", "p")
    found = codes(put_on(permit(statement), airframe="QF-COB"))
    assert ("760" in found) is (keyword != "loosen")


@pytest.mark.parametrize("statement", ["amend", "loosen", "withdraw"])
def test_a_sheet_by_itself_changes_nothing(statement):
    text = MAY_NOT[statement].replace("local_o", "fm")
    assert "760" in read_codes(sheet=SHEET + text + "\n")


def test_a_supplement_may_not_loosen_by_a_permits_word():
    assert codes(put_on(supplement("pod", MAY_NOT["loosen"].replace("local_o", "s")))) == ["760"]


# ---- headings


def test_a_file_has_one_heading_and_it_stands_first():
    two = order(MAY_ADD["limit"]) + 'order other revision 1 to corrin_t2 "Another"\n'
    assert "761" in codes(put_on(two))
    late = 'document o "Order 14"\norder late revision 1 to corrin_t2 "Late"\n'
    assert "761" in codes(put_on(late))


def test_a_sheet_within_a_supplement_is_told():
    both = supplement("pod") + 'sheet other revision 1 "Another type"\n'
    assert "761" in codes(put_on(both))


# ---- permits

LOOSER = 'loosen limit max_takeoff_mass at takeoff mass at most 560 kg source p "1"'
ALONE = 'limit alone rear_seat is empty source p "2"'
WARNED = 'caution alone rear_seat is empty source p "2"'


@pytest.mark.parametrize(
    ("clauses", "statements", "told"),
    [
        ('effective 2026-06-01; until 2026-06-07; airframe "QF-COB"', (LOOSER, ALONE), []),
        ('effective 2026-06-01; airframe "QF-COB"', (LOOSER, ALONE), ["757"]),
        ("effective 2026-06-01; until 2026-06-07", (LOOSER, ALONE), ["758"]),
        ('effective 2026-06-01; until 2026-06-07; airframe "QF-COB"', (LOOSER,), ["759"]),
        ('effective 2026-06-01; until 2026-06-07; airframe "QF-COB"', (LOOSER, WARNED), ["759"]),
        ('until 2026-06-07; airframe "QF-COB"', (ALONE,), []),
    ],
    ids=["whole", "no end", "no airframe", "nothing instead", "a caution instead", "only adds"],
)
def test_what_a_permit_must_say(clauses, statements, told):
    assert read_codes(permit(*statements, clauses=clauses)) == told


def test_every_statement_of_the_language_has_its_keyword():
    for kind in tree.Statement.__args__:
        assert kind is tree.LayerHeader or kind in rules._KEYWORDS
