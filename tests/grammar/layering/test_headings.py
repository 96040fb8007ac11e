"""The heading of a supplement, an order or a permit is held to the same as that of a sheet."""

from __future__ import annotations

import pytest

from tests.engine.resolution.layered import SHEET, codes, order, permit, put_on, read_codes, supplement

LIMIT = 'limit l front_seat at most 100 kg source {} "1"'


@pytest.mark.parametrize(
    ("clauses", "told"),
    [
        ("effective 2026-02-30", "516"),
        ("until 2026-13-01", "516"),
        ("effective 2026-06-02; until 2026-06-01", "705"),
        ("replaces revision 3", "706"),
        ("replaces revision 0.5", "517"),
        ("effective 2026-06-01; effective 2026-06-02", "707"),
        ("until 2026-07-01; until 2026-08-01", "707"),
        ("applies when engine is standard; applies when engine is boosted", "707"),
        ("after skis; after floats", "707"),
    ],
)
def test_a_slip_in_the_heading_of_a_supplement_is_told(clauses, told):
    wrong = supplement("pod", LIMIT.format("s"), clauses=clauses, revision=2)
    assert told in read_codes(wrong)
    assert told in codes(put_on(wrong, engine="standard"))


@pytest.mark.parametrize(
    ("clauses", "told"),
    [
        ('issued by "One"; issued by "Another"', "707"),
        ("effective 2026-06-31", "516"),
    ],
)
def test_a_slip_in_the_heading_of_an_order_is_told(clauses, told):
    assert told in read_codes(order(LIMIT.format("local_o"), clauses=clauses))


def test_a_permit_with_a_day_that_does_not_exist_holds_on_no_day_at_all():
    wrong = permit(LIMIT.format("p"), clauses='until 2026-06-31; airframe "QF-COB"')
    assert "516" in read_codes(wrong)
    assert put_on(wrong, airframe="QF-COB").sheet is None


def test_a_permit_is_for_one_airframe_and_not_for_two():
    two = permit(LIMIT.format("p"), clauses='until 2026-06-07; airframe "QF-COA"; airframe "QF-COB"')
    assert "707" in read_codes(two)


@pytest.mark.parametrize("revision", ["0", "1.5"])
def test_revisions_of_layers_are_counted_in_whole_numbers(revision):
    wrong = supplement("pod", LIMIT.format("s")).replace("revision 1", f"revision {revision}")
    assert read_codes(wrong) == ["517"]


def test_a_clause_that_stands_twice_in_a_limit_or_a_table_is_told():
    twice = SHEET + (
        'limit l front_seat at most 9 kg applies when engine is standard applies when pod_fitted is no source fm "1"\n'
    )
    assert "707" in read_codes(sheet=twice)
    taken = SHEET.replace("gives kg source", "use the next higher use the next lower gives kg source", 1)
    assert taken != SHEET
    assert read_codes(sheet=taken.replace("use the next higher use the next lower gives kg", "gives kg")) == []
    steps = SHEET.replace(
        'gives kg source fm "5.2"', 'gives kg use the next higher use the next lower source fm "5.2"'
    )
    assert read_codes(sheet=steps) == ["707"]


def test_a_layer_that_breaks_what_the_sheet_reads_is_told_when_it_is_read():
    assert read_codes(supplement("pod", 'withdraw table by_locker source s "1"')) == ["306"]
    assert read_codes(supplement("pod", 'amend fact engine is one of standard, turbo source s "1"')) == ["310"]
