"""The group's airframes and their records."""

from __future__ import annotations

from collections import Counter
from datetime import date

import pytest

from engine.evaluation.requests import read_loading
from grammar.sheet import Role
from limits_demo import Airframe, fleet, sheet_names
from tests.limits_demo.group import sheet

AIRFRAMES = {airframe.registration: airframe for airframe in fleet()}


def test_there_are_two_airframes_of_each_type() -> None:
    assert Counter(airframe.sheet for airframe in fleet()) == dict.fromkeys(sheet_names(), 2)


def test_no_registration_could_be_real() -> None:
    """From memory: marks are taken from the series of radio call signs, and none of those begins with Q."""
    assert len(AIRFRAMES) == 10
    assert all(registration.startswith("QF-") for registration in AIRFRAMES)


@pytest.mark.parametrize("airframe", fleet(), ids=lambda airframe: airframe.registration)
def test_its_record_states_all_that_its_sheet_asks_of_an_airframe(airframe: Airframe) -> None:
    its_sheet = sheet(airframe.sheet)
    stated = read_loading(its_sheet, airframe.record_on(date(2026, 11, 30))).stated
    wanted = {item.name for item in its_sheet.inputs if item.role in (Role.WEIGHING, Role.FACT)}
    if all(place.lateral_arm is None for place in its_sheet.places):
        wanted.discard("empty_lateral_arm")
    assert set(stated) == wanted


@pytest.mark.parametrize("airframe", fleet(), ids=lambda airframe: airframe.registration)
def test_its_weighings_and_facts_stand_in_order(airframe: Airframe) -> None:
    weighed = [weighing.weighed_on for weighing in airframe.weighings]
    known = [facts.since for facts in airframe.facts]
    assert weighed == sorted(weighed)
    assert known == sorted(known)
    assert all(weighing.by for weighing in airframe.weighings)


@pytest.mark.parametrize(
    ("day", "empty_mass"), [("2026-06-21", "278 kg"), ("2026-06-22", "281 kg"), ("2026-12-31", "281 kg")]
)
def test_a_weighing_holds_from_its_own_day_on(day: str, empty_mass: str) -> None:
    assert AIRFRAMES["QF-COA"].record_on(date.fromisoformat(day))["empty_mass"] == empty_mass


@pytest.mark.parametrize(("day", "floor"), [("2026-05-19", "original"), ("2026-05-20", "reinforced")])
def test_a_modification_holds_from_its_own_day_on_and_leaves_other_facts_alone(day: str, floor: str) -> None:
    record = AIRFRAMES["QF-COA"].record_on(date.fromisoformat(day))
    assert (record["pannier_floor"], record["engine"]) == (floor, "standard")


def test_an_airframe_that_was_not_yet_weighed_has_no_record() -> None:
    with pytest.raises(LookupError, match="QF-COB had not been weighed by 2025-03-13"):
        AIRFRAMES["QF-COB"].record_on(date(2025, 3, 13))
