"""What a supplement amends and withdraws: the new statement holds, and what speaks of it speaks of the new one."""

from __future__ import annotations

import pytest

from tests.engine.resolution.layered import (
    SHEET,
    check,
    codes,
    limit_of,
    order,
    put_on,
    read_codes,
    resolved_sheet,
    result_of,
    supplement,
    verdict,
)

# ---- amending


def test_the_usual_loading_is_within_the_sheet_alone():
    assert check(put_on()).verdict.value == "within"


def test_an_amended_limit_holds_in_place_of_the_old_one():
    pod = supplement("pod", 'amend limit max_takeoff_mass "With pod" at takeoff mass at most 487 kg source s "2"')
    assert verdict(put_on(), "max_takeoff_mass") == "within"
    assert verdict(put_on(pod), "max_takeoff_mass") == "outside"
    assert limit_of(put_on(pod), "max_takeoff_mass").label == "With pod"


def test_an_amended_limit_stands_in_the_place_of_the_old_one():
    pod = supplement("pod", 'amend limit max_takeoff_mass at takeoff mass at most 487 kg source s "2"')
    names = [limit.name for limit in resolved_sheet(put_on()).limits]
    assert [limit.name for limit in resolved_sheet(put_on(pod)).limits] == names


@pytest.mark.parametrize(
    ("amended", "limit", "stated", "before", "after"),
    [
        ('amend load locker from 0 kg to 10 kg arm 1600 mm assumed empty source s "1"',
         "locker", {"locker": "12 kg"}, "within", "outside"),
        ('amend load rear_seat from 0 kg to 130 kg arm 2900 mm source s "1"',
         "balance", {}, "within", "outside"),
        ('amend fuel main_tank from 0 L to 50 L density 0.72 kg/L arm 1390 mm source s "1"',
         "main_tank", {}, "within", "outside"),
        ('amend fuel main_tank from 0 L to 80 L density 1.7 kg/L arm 1390 mm source s "1"',
         "max_takeoff_mass", {}, "within", "outside"),
        ('amend table by_locker of locker in kg gives kg source s "1"\n  | locker | by_locker |\n  | 0 | 150 |\n'
         "  | 20 | 120 |",
         "seats_and_locker", {}, "within", "outside"),
        ('amend envelope box of cg in mm against mass in kg source s "1"\n  | cg | mass |\n  | 900 | 290 |\n'
         "  | 900 | 480 |\n  | 1400 | 290 |",
         "balance", {}, "within", "outside"),
        ('amend chord from 500 mm length 1000 mm source s "1"', "chord_share", {}, "within", "outside"),
        ("amend let seats = front_seat + 2 * rear_seat", "seats_and_locker", {}, "within", "outside"),
        ('amend caution soft_field at takeoff mass at most 400 kg source s "1"',
         "soft_field", {}, "not applicable", "outside"),
        ('amend fact engine is one of standard, boosted, turbo source s "1"\n'
         'amend limit max_takeoff_mass at takeoff mass at most 450 kg when engine is turbo source s "1"',
         "max_takeoff_mass", {"engine": "boosted"}, "within", "not applicable"),
        ("amend given airfield is one of hard, grass, sand\n"
         'amend caution soft_field at takeoff mass at most 400 kg when airfield is sand source s "1"',
         "soft_field", {"airfield": "grass"}, "outside", "not applicable"),
    ],
    ids=["load", "arm", "tank", "density", "table", "envelope", "chord", "let", "caution", "fact", "given"],
)  # fmt: skip
def test_what_is_amended_holds_wherever_it_is_spoken_of(amended, limit, stated, before, after):
    changed = put_on(supplement("pod", amended))
    assert codes(changed) == []
    assert (verdict(put_on(), limit, **stated), verdict(changed, limit, **stated)) == (before, after)


TWO_TANKS = SHEET + (
    'fuel aux_tank "Auxiliary tank" from 0 L to 20 L density 0.72 kg/L arm 2000 mm source fm "6.4"\n'
    'burn main_tank then aux_tank source fm "7.2"\n'.replace(" then", ", then")
    + 'limit aux_left at landing volume(aux_tank) at least 10 L source fm "7.3"\n'
)


def test_an_amended_order_of_the_tanks_holds():
    flown = {"aux_tank": "20 L", "trip_fuel": "15 L"}
    first_aux = supplement("pod", 'amend burn aux_tank, then main_tank source s "7"')
    assert verdict(put_on(sheet=TWO_TANKS), "aux_left", **flown) == "within"
    assert verdict(put_on(first_aux, sheet=TWO_TANKS), "aux_left", **flown) == "outside"


CONFIGURED = (
    SHEET + 'configuration doors is one of fitted, removed removed adds -9 kg arm 1040 mm source fm "6.9"\n'
)
DECLARED = SHEET + 'declared front_seat add 4 kg source fm "6.7"\n'


def test_an_amended_configuration_holds():
    heavier = supplement(
        "doors_2",
        'amend configuration doors is one of fitted, removed removed adds 80 kg arm 1040 mm source s "1"',
    )
    off = {"doors": "removed"}
    assert verdict(put_on(sheet=CONFIGURED), "max_takeoff_mass", **off) == "within"
    assert verdict(put_on(heavier, sheet=CONFIGURED), "max_takeoff_mass", **off) == "outside"


def test_an_amended_addition_to_declared_masses_holds():
    more = supplement("belts", 'amend declared front_seat add 70 kg source s "1"')
    assert verdict(put_on(sheet=DECLARED), "max_takeoff_mass") == "within"
    assert verdict(put_on(more, sheet=DECLARED), "max_takeoff_mass") == "outside"


# ---- withdrawing


def test_a_withdrawn_limit_is_gone():
    gone = put_on(supplement("pod", 'withdraw limit with_pod source s "2"'))
    assert "with_pod" not in [limit.name for limit in resolved_sheet(gone).limits]


def test_a_withdrawn_caution_is_gone():
    gone = put_on(supplement("pod", 'withdraw caution soft_field source s "2"'))
    assert "soft_field" not in [limit.name for limit in resolved_sheet(gone).limits]


def test_a_withdrawn_load_must_be_empty_on_the_authority_of_the_supplement():
    pod = put_on(supplement("pod", 'withdraw load rear_seat source s "2.2"'))
    assert verdict(pod, "rear_seat") == "outside"
    assert verdict(pod, "rear_seat", rear_seat="0 kg") == "within"
    source = limit_of(pod, "rear_seat").source
    assert source is not None
    assert (source.document.name, source.paragraph) == ("s", "2.2")


def test_a_withdrawn_load_that_nobody_states_is_empty():
    pod = put_on(supplement("pod", 'withdraw load locker source s "2.2"'))
    assert verdict(pod, "locker") == "within"


def test_a_limit_that_can_no_longer_be_kept_is_told_when_a_tank_is_withdrawn():
    pod = supplement("pod", 'withdraw fuel aux_tank source s "2.2"')
    assert codes(put_on(pod, sheet=TWO_TANKS)) == ["513"]


def test_limits_that_speak_of_a_withdrawn_load_stay():
    pod = put_on(supplement("pod", 'withdraw load rear_seat source s "2.2"'))
    assert verdict(pod, "seats_and_locker", front_seat="130 kg", rear_seat="0 kg") == "within"
    assert verdict(pod, "seats_and_locker", front_seat="130 kg", rear_seat="91 kg") == "outside"


def test_a_withdrawn_load_in_steps_and_the_range_from_some_mass_on_must_be_empty():
    blocks = SHEET + 'load blocks from 5 kg to 20 kg in steps of 5 kg arm 100 mm source fm "6.3"\n'
    gone = put_on(supplement("pod", 'withdraw load blocks source s "2"'), sheet=blocks)
    assert verdict(gone, "blocks") == "within"
    assert verdict(gone, "blocks", blocks="5 kg") == "outside"


def test_a_withdrawn_tank_must_be_empty():
    gone = ('withdraw fuel aux_tank source s "2.2"', 'withdraw limit aux_left source s "2.3"')
    pod = put_on(supplement("pod", *gone), sheet=TWO_TANKS)
    assert verdict(pod, "aux_tank", aux_tank="1 L") == "outside"
    assert verdict(pod, "aux_tank") == "within"


def test_a_table_is_withdrawn_with_the_limit_that_reads_it():
    both = supplement(
        "pod", 'withdraw limit seats_and_locker source s "1"', 'withdraw table by_locker source s "1"'
    )
    resolved = put_on(both)
    assert resolved_sheet(resolved).tables == ()


def test_an_envelope_is_withdrawn_with_the_limit_that_asks_it():
    both = supplement("pod", 'withdraw limit balance source s "1"', 'withdraw envelope box source s "1"')
    assert resolved_sheet(put_on(both)).envelopes == ()


def test_a_table_that_a_limit_still_reads_cannot_be_withdrawn():
    gone = supplement("pod", 'withdraw table by_locker source s "1"')
    assert put_on(gone).sheet is None
    assert codes(put_on(gone)) == ["306"]


def test_nothing_is_called_unused_because_a_supplement_took_away_what_used_it():
    gone = supplement(
        "pod", 'withdraw limit with_pod source s "1"', 'withdraw limit seats_and_locker source s "1"'
    )
    assert codes(put_on(gone)) == []


# ---- what cannot be changed


@pytest.mark.parametrize(
    "statement",
    [
        'amend limit max_mass at takeoff mass at most 400 kg source s "1"',
        'withdraw limit max_mass source s "1"',
        'withdraw load third_seat source s "1"',
        'amend burn main_tank source s "1"',
    ],
)
def test_what_is_not_there_cannot_be_changed(statement):
    assert codes(put_on(supplement("pod", statement))) == ["753"]
    assert read_codes(supplement("pod", statement)) == ["753"]


@pytest.mark.parametrize(
    "statement",
    [
        'amend load seats from 0 kg to 9 kg arm 1 mm source s "1"',
        'withdraw load max_takeoff_mass source s "1"',
        'withdraw fuel rear_seat source s "1"',
        'withdraw table box source s "1"',
        'amend fact airfield is yes or no source s "1"',
    ],
)
def test_a_statement_of_one_sort_is_not_changed_by_one_of_another(statement):
    assert codes(put_on(supplement("pod", statement))) == ["755"]


@pytest.mark.parametrize(
    "statement",
    [
        'amend caution max_takeoff_mass at takeoff mass at most 500 kg source s "1"',
        'withdraw caution max_takeoff_mass source s "1"',
        'amend limit soft_field at takeoff mass at most 470 kg source s "1"',
        'withdraw limit soft_field source s "1"',
    ],
)
def test_a_limit_does_not_become_a_caution_by_the_way_nor_the_other_way_round(statement):
    assert codes(put_on(supplement("pod", statement))) == ["755"]


@pytest.mark.parametrize(
    "statement",
    [
        'limit max_takeoff_mass at takeoff mass at most 480 kg source s "1"',
        'load locker from 0 kg to 5 kg arm 1600 mm source s "1"',
        "let seats = front_seat",
        'datum "the nose"',
        'chord from 800 mm length 900 mm source s "1"',
        'document fm "Another flight manual"',
    ],
)
def test_a_name_of_the_sheet_is_not_declared_again(statement):
    assert codes(put_on(supplement("pod", statement))) == ["764"]


# ---- documents


def test_one_document_may_stand_in_sheet_and_supplement():
    same = supplement("pod", 'document fm "Corrin T2 flight manual, CT2-FM, issue 4"')
    assert codes(put_on(same)) == []
    assert [one.name for one in resolved_sheet(put_on(same)).documents].count("fm") == 1


def test_two_supplements_may_name_one_document():
    one = supplement("pod", 'limit a front_seat at most 100 kg source s "1"')
    other = supplement("skis", 'limit b rear_seat at most 100 kg source s "1"')
    assert codes(put_on(one, other)) == []


# ---- two supplements and one statement

POD = 'amend limit max_takeoff_mass at takeoff mass at most 500 kg source s "1"'
SKIS = 'amend limit max_takeoff_mass at takeoff mass at most 480 kg source s "2"'


def test_two_supplements_that_change_one_statement_are_a_conflict():
    assert codes(put_on(supplement("pod", POD), supplement("skis", SKIS))) == ["754"]
    assert read_codes(supplement("pod", POD), supplement("skis", SKIS)) == ["754"]


def test_amending_what_another_has_withdrawn_is_a_conflict():
    gone = supplement("pod", 'withdraw limit max_takeoff_mass source s "1"')
    assert codes(put_on(gone, supplement("skis", SKIS))) == ["754"]
    assert read_codes(gone, supplement("skis", SKIS)) == ["754"]


def test_withdrawing_what_another_has_amended_is_a_conflict():
    gone = supplement("skis", 'withdraw limit max_takeoff_mass source s "1"')
    assert codes(put_on(supplement("pod", POD), gone)) == ["754"]


def test_of_two_in_an_order_the_later_one_holds():
    both = (supplement("pod", POD), supplement("skis", SKIS, clauses="after pod"))
    assert verdict(put_on(*both), "max_takeoff_mass", rear_seat="67 kg") == "outside"
    assert read_codes(*both) == []
    turned = (supplement("pod", POD, clauses="after skis"), supplement("skis", SKIS))
    assert verdict(put_on(*turned), "max_takeoff_mass", rear_seat="67 kg") == "within"


def test_a_third_must_come_after_the_second_too_and_not_only_after_the_first():
    third = supplement("floats", SKIS, clauses="after pod")
    three = (supplement("pod", POD), supplement("skis", SKIS, clauses="after pod"), third)
    assert "754" in codes(put_on(*three))
    ordered = (*three[:2], supplement("floats", SKIS, clauses="after pod, skis"))
    assert codes(put_on(*ordered)) == []


def test_to_come_after_another_by_way_of_a_third_is_enough():
    between = supplement("mount", 'limit m front_seat at most 120 kg source s "1"', clauses="after pod")
    three = (supplement("pod", POD), between, supplement("skis", SKIS, clauses="after mount"))
    assert read_codes(*three) == []
    assert verdict(put_on(*three), "max_takeoff_mass", rear_seat="67 kg") == "outside"


def test_what_was_amended_and_then_withdrawn_is_gone():
    both = (
        supplement("pod", POD),
        supplement("skis", 'withdraw limit max_takeoff_mass source s "1"', clauses="after pod"),
    )
    names = [limit.name for limit in resolved_sheet(put_on(*both)).limits]
    assert "max_takeoff_mass" not in names


def test_supplements_that_are_never_fitted_together_are_no_conflict():
    one = supplement("pod", POD, clauses="applies when engine is standard")
    other = supplement("skis", SKIS, clauses="applies when engine is boosted")
    assert read_codes(one, other) == []
    assert verdict(put_on(one, other, engine="boosted"), "max_takeoff_mass") == "outside"
    assert verdict(put_on(one, other, engine="standard"), "max_takeoff_mass", engine="standard") == "within"


def test_supplements_with_conditions_that_do_meet_are_a_conflict_for_that_airframe():
    one = supplement("pod", POD, clauses="applies when engine is standard")
    other = supplement("skis", SKIS, clauses="applies when pod_fitted is yes")
    assert codes(put_on(one, other, engine="standard", pod_fitted="yes")) == ["754"]
    assert codes(put_on(one, other, engine="standard", pod_fitted="no")) == []


def test_supplements_that_hold_on_different_days_are_no_conflict():
    one = supplement("pod", POD, clauses="until 2026-05-31")
    other = supplement("skis", SKIS, clauses="effective 2026-06-01")
    assert read_codes(one, other) == []
    assert codes(put_on(one, other, day="2026-05-31")) == []
    assert codes(put_on(one, other, day="2026-06-01")) == []


def test_supplements_that_share_a_single_day_are_a_conflict():
    one = supplement("pod", POD, clauses="until 2026-06-01")
    other = supplement("skis", SKIS, clauses="effective 2026-06-01")
    assert read_codes(one, other) == ["754"]


def test_a_name_that_two_supplements_declare_is_declared_again():
    one = supplement("pod", 'load box_2 from 0 kg to 5 kg arm 100 mm source s "1"')
    other = supplement("skis", 'load box_2 from 0 kg to 9 kg arm 100 mm source s "1"')
    assert codes(put_on(one, other)) == ["764"]


def test_a_supplement_may_amend_what_the_one_before_it_declared():
    one = supplement("pod", 'load box_2 from 0 kg to 5 kg arm 100 mm assumed empty source s "1"')
    amended = 'amend load box_2 from 0 kg to 9 kg arm 100 mm assumed empty source s "1"'
    other = supplement("skis", amended, clauses="after pod")
    assert read_codes(one, other) == []
    assert verdict(put_on(one, other), "box_2", box_2="8 kg") == "within"
    assert result_of(check(put_on(one), box_2="8 kg"), "box_2").verdict.value == "outside"


def test_an_order_may_build_on_an_amended_limit():
    half = order('limit half at takeoff mass at most 0.9 * bound(max_takeoff_mass) source local_o "1"')
    assert verdict(put_on(half), "half", rear_seat="67 kg") == "within"
    assert verdict(put_on(half, supplement("pod", POD)), "half", rear_seat="67 kg") == "outside"
