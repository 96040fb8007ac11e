"""For which airframes a sheet, a layer or a single limit is meant."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.engine.resolution.layered import SHEET, codes, put_on, read_codes, resolved_sheet, supplement, verdict

LESS = 'amend limit max_takeoff_mass at takeoff mass at most 400 kg source s "1"'


def with_heading(clause: str) -> str:
    """The sheet with one clause more in its heading."""
    return SHEET.replace('gyroplane"\n', f'gyroplane"\n  {clause}\n', 1)


def applied(text: str, **record: str) -> bool | list[str]:
    """Whether a layer is put on, or what is told instead."""
    found = put_on(text, **record)
    return codes(found) if found.sheet is None else len(found.sheet.layers) == 2


# ---- layers


@pytest.mark.parametrize(
    ("condition", "record", "told"),
    [
        ("serial between 1001 and 1045", {"serial": "1001"}, True),
        ("serial between 1001 and 1045", {"serial": "1045"}, True),
        ("serial between 1001 and 1045", {"serial": "1000"}, False),
        ("serial between 1001 and 1045", {"serial": "1046"}, False),
        ("serial between 1001 and 1045", {}, ["766"]),
        ("serial at least 12", {"serial": "12"}, True),
        ("serial > 12", {"serial": "12"}, False),
        ("serial is 12", {"serial": "12"}, True),
        ("engine is boosted", {"engine": "boosted"}, True),
        ("engine is boosted", {"engine": "standard"}, False),
        ("engine is not boosted", {"engine": "standard"}, True),
        ("pod_fitted is yes and engine is boosted", {"pod_fitted": "no"}, False),
        ("pod_fitted is yes and engine is boosted", {"pod_fitted": "yes"}, ["766"]),
        ("pod_fitted is yes or engine is boosted", {"pod_fitted": "yes"}, True),
        ("pod_fitted is yes or engine is boosted", {}, ["766"]),
        ("not (serial between 1 and 9 or serial is 12)", {"serial": "10"}, True),
        ("not (serial between 1 and 9 or serial is 12)", {"serial": "12"}, False),
    ],
)
def test_a_supplement_is_put_on_the_airframes_that_its_heading_says(condition, record, told):
    assert applied(supplement("pod", LESS, clauses=f"applies when {condition}"), **record) == told


@given(low=st.integers(1, 60), length=st.integers(0, 40), serial=st.integers(1, 110))
@settings(deadline=None, max_examples=40)
def test_a_range_of_serials_takes_in_both_ends(low, length, serial):
    text = supplement("pod", LESS, clauses=f"applies when serial between {low} and {low + length}")
    assert applied(text, serial=str(serial)) is (low <= serial <= low + length)


def test_a_supplement_may_bring_the_fact_that_it_hangs_on():
    own = supplement("pod", 'fact mount is yes or no source s "1"', LESS, clauses="applies when mount is yes")
    assert read_codes(own) == []
    assert applied(own, mount="yes") is True
    assert applied(own, mount="no") is False
    assert applied(own) == ["766"]


def test_what_is_missing_is_named():
    found = put_on(supplement("pod", LESS, clauses="applies when pod_fitted is yes"))
    (problem,) = found.problems
    assert problem.facts["name"] == "pod"
    assert "pod_fitted" in problem.facts["needs"]


def test_a_supplement_that_does_not_apply_is_not_asked_for_its_names():
    own = supplement(
        "pod", 'load pod from 0 kg to 12 kg arm 300 mm source s "3"', clauses="applies when pod_fitted is yes"
    )
    without = resolved_sheet(put_on(own, pod_fitted="no"))
    assert "pod" not in [item.name for item in without.inputs]


@pytest.mark.parametrize(
    ("condition", "told"),
    [
        ("front_seat is empty", "521"),
        ("mass at takeoff at most 400 kg", "521"),
        ("no_such_fact is yes", "302"),
        ("serial at most 12 kg", "402"),
        ("engine is turbo", "310"),
        ("engine", "408"),
    ],
)
def test_a_heading_may_hang_on_what_is_fixed_alone(condition, told):
    found = put_on(supplement("pod", LESS, clauses=f"applies when {condition}"), engine="boosted", serial="12")
    assert found.sheet is None
    assert set(codes(found)) & {told, "403"}


def test_a_slip_in_a_heading_is_found_when_the_file_is_read():
    assert "302" in read_codes(supplement("pod", LESS, clauses="applies when no_such_fact is yes"))
    assert "521" in read_codes(supplement("pod", LESS, clauses="applies when front_seat is empty"))


# ---- the sheet


@pytest.mark.parametrize(
    ("record", "told"),
    [({"serial": "12"}, []), ({"serial": "57"}, ["768"]), ({}, ["766"])],
)
def test_a_sheet_is_only_for_the_airframes_that_its_heading_says(record, told):
    found = put_on(sheet=with_heading("applies when serial between 1 and 40"), **record)
    assert codes(found) == told
    assert (found.sheet is None) is bool(told)


# ---- a single limit

LIMITED = SHEET + (
    'limit early rear_seat at most 60 kg when airfield is grass applies when serial between 1 and 20 source fm "2.8"\n'
)


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        ({"serial": "20", "airfield": "grass"}, "outside"),
        ({"serial": "21", "airfield": "grass"}, "not applicable"),
        ({"serial": "20", "airfield": "hard"}, "not applicable"),
        ({"airfield": "grass"}, "undetermined"),
    ],
)
def test_a_limit_may_be_for_some_airframes_only(stated, told):
    assert verdict(put_on(sheet=LIMITED), "early", **stated) == told


def test_a_limits_effectivity_may_not_hang_on_the_load():
    text = 'limit late rear_seat at most 60 kg applies when front_seat is occupied source fm "2.8"\n'
    assert read_codes(sheet=SHEET + text) == ["521"]
