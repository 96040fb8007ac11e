"""On which days files hold: both ends count; revisions replace one another; a temporary revision expires."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.engine.resolution.layered import (
    SHEET,
    codes,
    order,
    put_on,
    read_codes,
    resolved_sheet,
    supplement,
    verdict,
)


def sheet(revision: int, clauses: str = "", most: int = 500) -> str:
    """A revision of the sheet with its own greatest mass for the standard engine."""
    lines = "".join(f"\n  {clause}" for clause in clauses.split("; ") if clause)
    text = SHEET.replace("revision 3", f"revision {revision}").replace('gyroplane"\n', f'gyroplane"{lines}\n', 1)
    return text.replace("500 kg when", f"{most} kg when")


def on(day: str | None, *texts: str):
    """What several files come to on a day, the first of them a sheet."""
    return put_on(*texts[1:], sheet=texts[0], day=day)


def revision_on(day: str | None, *texts: str) -> int | list[str]:
    """Which revision of the sheet holds, or what is told instead."""
    found = on(day, *texts)
    return codes(found) if found.sheet is None else found.sheet.header.revision


# ---- the sheet itself


@pytest.mark.parametrize(
    ("day", "told"),
    [
        ("2026-03-31", ["767"]),
        ("2026-04-01", 3),
        ("2026-06-30", 3),
        ("2026-07-01", ["767"]),
    ],
)
def test_a_sheet_holds_from_its_first_to_its_last_day(day, told):
    assert revision_on(day, sheet(3, "effective 2026-04-01; until 2026-06-30")) == told


@given(
    first=st.dates(date(2000, 1, 1), date(2050, 1, 1)),
    length=st.integers(0, 800),
    off=st.integers(-3, 803),
)
def test_a_layer_holds_on_just_the_days_between_its_ends(first, length, off):
    last, day = first + timedelta(days=length), first + timedelta(days=off)
    text = supplement(
        "tr", 'limit l front_seat at most 9 kg source s "1"', clauses=f"effective {first}; until {last}"
    )
    layers = resolved_sheet(put_on(text, day=day.isoformat())).layers
    assert (len(layers) == 2) is (first <= day <= last)


def test_the_newer_revision_takes_over_on_its_first_day():
    both = sheet(3, "effective 2026-04-01"), sheet(4, "effective 2026-06-01; replaces revision 3")
    assert read_codes(*both[1:], sheet=both[0]) == []
    assert [revision_on(day, *both) for day in ("2026-04-01", "2026-05-31", "2026-06-01")] == [3, 3, 4]


def test_a_revision_that_ended_before_the_next_began_needs_no_replacing():
    both = sheet(3, "until 2026-05-31"), sheet(4, "effective 2026-06-01")
    assert read_codes(*both[1:], sheet=both[0]) == []
    assert [revision_on(day, *both) for day in ("2026-05-31", "2026-06-01")] == [3, 4]


def test_a_day_between_two_revisions_is_cleared_by_neither():
    both = sheet(3, "until 2026-05-30"), sheet(4, "effective 2026-06-01")
    assert revision_on("2026-05-31", *both) == ["767"]


def test_two_revisions_on_one_day_are_told():
    both = sheet(3, "effective 2026-04-01"), sheet(4, "effective 2026-06-01")
    assert read_codes(*both[1:], sheet=both[0]) == ["756"]
    assert [revision_on(day, *both) for day in ("2026-05-31", "2026-06-01")] == [3, ["756"]]


def test_two_revisions_that_share_only_one_day_are_told():
    both = sheet(3, "until 2026-06-01"), sheet(4, "effective 2026-06-01")
    assert read_codes(*both[1:], sheet=both[0]) == ["756"]
    assert revision_on("2026-06-01", *both) == ["756"]


def test_a_temporary_revision_of_the_sheet_gives_way_again():
    three = (
        sheet(3, "effective 2026-04-01"),
        sheet(4, "effective 2026-06-01; until 2026-06-30; replaces revision 3"),
    )
    assert [revision_on(day, *three) for day in ("2026-05-31", "2026-06-30", "2026-07-01")] == [3, 4, 3]


def test_replacing_goes_from_each_revision_to_the_one_before():
    three = (
        sheet(3, "effective 2026-04-01"),
        sheet(4, "effective 2026-06-01; replaces revision 3"),
        sheet(5, "effective 2026-07-01; replaces revision 4"),
    )
    assert [revision_on(day, *three) for day in ("2026-04-01", "2026-06-01", "2026-07-01")] == [3, 4, 5]


def test_without_a_day_one_revision_is_taken_and_of_two_none():
    assert revision_on(None, sheet(3, "effective 2026-04-01")) == 3
    both = sheet(3, "effective 2026-04-01"), sheet(4, "effective 2026-06-01; replaces revision 3")
    assert revision_on(None, *both) == ["769"]


# ---- layers

LESS = 'amend limit max_takeoff_mass at takeoff mass at most {} kg source s "1"'


def test_a_temporary_revision_expires_after_its_last_day():
    temporary = supplement("tr", LESS.format(400), clauses="effective 2026-06-01; until 2026-06-30")
    verdicts = [
        verdict(put_on(temporary, day=day), "max_takeoff_mass")
        for day in ("2026-05-31", "2026-06-01", "2026-06-30", "2026-07-01")
    ]
    assert verdicts == ["within", "outside", "outside", "within"]


def test_a_newer_revision_of_a_supplement_takes_over():
    old = supplement("tr", LESS.format(400), clauses="effective 2026-05-01")
    new = supplement("tr", LESS.format(530), revision=2, clauses="effective 2026-06-01; replaces revision 1")
    assert read_codes(old, new) == []
    verdicts = [verdict(put_on(old, new, day=day), "max_takeoff_mass") for day in ("2026-05-31", "2026-06-01")]
    assert verdicts == ["outside", "within"]


def test_two_revisions_of_a_supplement_on_one_day_are_told():
    old = supplement("tr", LESS.format(400), clauses="effective 2026-05-01")
    new = supplement("tr", LESS.format(530), revision=2, clauses="effective 2026-06-01")
    assert read_codes(old, new) == ["756"]
    assert codes(put_on(old, new, day="2026-06-01")) == ["756"]
    assert codes(put_on(old, new, day="2026-05-31")) == []


def test_two_revisions_of_an_order_on_one_day_are_told():
    old = order('limit a front_seat at most 100 kg source local_o "1"')
    new = order('limit a front_seat at most 90 kg source local_o "1"', revision=2)
    assert codes(put_on(old, new)) == ["756"]


def test_without_a_day_a_layer_without_dates_holds_and_one_with_dates_is_not_guessed():
    assert codes(put_on(supplement("tr", LESS.format(400)), day=None)) == []
    dated = supplement("tr", LESS.format(400), clauses="until 2026-06-30")
    assert codes(put_on(dated, day=None)) == ["769"]


def test_no_sheet_of_the_name_is_told_and_does_not_crash():
    orphan = supplement("tr", LESS.format(400)).replace("to corrin_t2", "to corrin_t9")
    assert read_codes(orphan) == ["751"]


def test_the_order_in_which_files_are_named_does_not_matter():
    layers = (
        supplement("pod", LESS.format(520), clauses="effective 2026-05-01"),
        supplement("skis", LESS.format(510), clauses="after pod"),
        supplement("tr", 'limit l front_seat at most 100 kg source s "1"', clauses="until 2026-06-30"),
        order('declared front_seat add 4 kg source local_o "1"'),
    )
    found = {repr(_shape(put_on(*order_named))) for order_named in permutations(layers)}
    assert len(found) == 1


def _shape(resolved) -> object:
    whole = resolved_sheet(resolved)
    layers = [(layer.name, layer.revision) for layer in whole.layers]
    limits = [(limit.name, limit.label, limit.source and limit.source.paragraph) for limit in whole.limits]
    return layers, limits, [(one.name, one.layer.name, len(one.displaced)) for one in whole.origins]
