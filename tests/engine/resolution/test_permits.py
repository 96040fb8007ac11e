"""A permit: for one airframe, for its days, and only for what the manual limits."""

from __future__ import annotations

import pytest

from tests.engine.resolution.layered import (
    check,
    codes,
    order,
    origin_of,
    permit,
    put_on,
    read_codes,
    resolved_sheet,
    supplement,
    verdict,
)

FERRY = permit(
    'loosen limit max_takeoff_mass "Ferry" at takeoff mass at most 560 kg source p "1"',
    'limit alone "Nobody behind" rear_seat is empty source p "2"',
)
HEAVY = {"empty_mass": "420 kg", "rear_seat": "0 kg"}
"""545.2 kg at take-off: more than the manual allows, and not more than the permit."""


def test_a_permit_loosens_its_limit_for_its_airframe_on_its_days():
    ferry = put_on(FERRY, airframe="QF-COB")
    assert verdict(put_on(airframe="QF-COB"), "max_takeoff_mass", **HEAVY) == "outside"
    assert verdict(ferry, "max_takeoff_mass", **HEAVY) == "within"


def test_what_a_permit_adds_holds_too():
    ferry = put_on(FERRY, airframe="QF-COB")
    assert check(ferry, **HEAVY).verdict.value == "outside"  # the envelope ends at 540 kg
    assert verdict(ferry, "alone", **HEAVY) == "within"
    assert verdict(ferry, "alone", **HEAVY | {"rear_seat": "1 kg"}) == "outside"


@pytest.mark.parametrize("airframe", ["QF-COA", "QF-COB ", "qf-cob", None])
def test_a_permit_is_for_no_other_airframe(airframe):
    other = put_on(FERRY, airframe=airframe)
    assert [layer.name for layer in resolved_sheet(other).layers] == ["corrin_t2"]
    assert verdict(other, "max_takeoff_mass", **HEAVY) == "outside"


@pytest.mark.parametrize(
    ("day", "holds"),
    [("2026-05-31", False), ("2026-06-01", True), ("2026-06-07", True), ("2026-06-08", False)],
)
def test_a_permit_holds_from_its_first_to_its_last_day(day, holds):
    ferry = put_on(FERRY, airframe="QF-COB", day=day)
    assert (verdict(ferry, "max_takeoff_mass", **HEAVY) == "within") is holds


def test_without_a_day_a_permit_cannot_be_told():
    assert codes(put_on(FERRY, airframe="QF-COB", day=None)) == ["769"]


def test_a_permit_loosens_no_limit_of_an_order():
    local = order('limit less at takeoff mass at most 480 kg source local_o "1"')
    loosening = permit(
        'loosen limit less at takeoff mass at most 500 kg source p "1"', 'limit b rear_seat is empty source p "2"'
    )
    refused = put_on(local, loosening, airframe="QF-COB")
    assert codes(refused) == ["765"]
    assert refused.sheet is None
    assert read_codes(local, loosening) == ["765"]


def test_an_order_still_holds_beside_a_permit():
    local = order('limit less at takeoff mass at most 480 kg source local_o "1"')
    both = put_on(local, FERRY, airframe="QF-COB")
    assert verdict(both, "less", **HEAVY) == "outside"


def test_an_order_that_leans_on_a_loosened_bound_leans_on_the_new_one():
    local = order('limit half at takeoff mass at most 0.99 * bound(max_takeoff_mass) source local_o "1"')
    assert verdict(put_on(local, airframe="QF-COB"), "half", **HEAVY) == "outside"
    assert verdict(put_on(local, FERRY, airframe="QF-COB"), "half", **HEAVY) == "within"


def test_a_permit_may_loosen_what_a_supplement_has_amended_or_added():
    pod = supplement(
        "pod",
        'amend limit max_takeoff_mass at takeoff mass at most 490 kg source s "1"',
        'limit pod_seat front_seat at most 80 kg source s "2"',
    )
    loosening = permit(
        'loosen limit max_takeoff_mass at takeoff mass at most 560 kg source p "1"',
        'loosen limit pod_seat front_seat at most 90 kg source p "1"',
        'limit alone rear_seat is empty source p "2"',
    )
    assert read_codes(pod, loosening) == []
    both = put_on(pod, loosening, airframe="QF-COB")
    assert verdict(both, "max_takeoff_mass", **HEAVY) == "within"
    assert verdict(both, "pod_seat", **HEAVY) == "within"
    before = origin_of(both, "max_takeoff_mass")
    assert [one.layer.name for one in before.displaced] == ["pod", "corrin_t2"]


def test_a_permit_cannot_loosen_a_caution_nor_what_is_not_there():
    for name, told in (("soft_field", "755"), ("nothing", "753"), ("box", "755"), ("front_seat", "755")):
        loosening = permit(
            f'loosen limit {name} at takeoff mass at most 500 kg source p "1"',
            'limit b rear_seat is empty source p "2"',
        )
        assert codes(put_on(loosening, airframe="QF-COB")) == [told]
