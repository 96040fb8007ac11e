"""The tree of reasons: whole, made from the sheet and its values, and nothing explained twice."""

from __future__ import annotations

from dataclasses import replace

from engine.evaluation.loading import Loading
from engine.explanation.amounts import Unknown
from engine.explanation.reason_tree import (
    ExplainedAbove,
    FromInput,
    Printed,
    Reason,
    UnderName,
    WorkedOut,
)
from engine.explanation.reasons import reason_for, reasons
from grammar.sheet import Verdict
from tests.engine.explanation.answers import SHEET, answer, outcome


def every(reason: Reason):
    yield reason
    match reason:
        case UnderName():
            yield from every(reason.because)
        case WorkedOut():
            for step in reason.steps:
                yield from every(step.reason)


def all_of(limit_reasons):
    for each in limit_reasons:
        yield from every(each.claim)
        if each.applies is not None:
            yield from every(each.applies)


def test_every_limit_has_its_reasons_in_the_order_of_the_sheet():
    assert [each.limit for each in reasons(answer())] == list(SHEET.limits)


def test_a_shared_part_is_explained_once_and_then_referred_to():
    found = list(all_of(reasons(answer(airfield="grass"))))
    explained = [each.slot for each in found if isinstance(each, UnderName)]
    referred = [each.slot for each in found if isinstance(each, ExplainedAbove)]
    assert len(explained) == len(set(explained))
    assert referred and set(referred) <= set(explained)
    mass = next(each for each in found if isinstance(each, UnderName) and each.label == "mass at take-off")
    assert referred.count(mass.slot) == 3


def test_the_reasons_for_one_limit_are_complete_in_themselves():
    result = answer(airfield="grass")
    for name in ("climb_mass", "in_hand"):
        found = list(every(reason_for(result, outcome(result, name)).claim))
        assert any(isinstance(each, UnderName) and each.label == "mass at take-off" for each in found)


def test_each_figure_is_taken_down_to_its_paragraph():
    result = answer(front_seat="98 kg", nose_locker="8 kg")
    found = list(every(reason_for(result, outcome(result, "front_seat_max")).claim))
    leaves = [
        (str(each.shown), each.cited.statement, each.cited.line, each.cited.source.paragraph)
        for each in found
        if isinstance(each, Printed | FromInput)
    ]
    assert leaves == [
        ("98 kg", "front_seat", 18, "6.3"),
        ("115 kg", "front_seat_max", 57, "2.4"),
        ("3", "front_seat_max", 57, "2.4"),
        ("8 kg", "nose_locker", 22, "6.3"),
    ]


def test_only_the_case_taken_is_explained():
    result = answer()
    shown = [str(each.shown) for each in every(reason_for(result, outcome(result, "max_takeoff_mass")).claim)]
    assert "540 kg" in shown
    assert "500 kg" not in shown


def test_what_is_missing_stands_in_the_tree_and_beside_it():
    result = answer("pressure_altitude")
    found = reason_for(result, outcome(result, "climb_mass"))
    assert found.verdict is Verdict.UNDETERMINED
    assert [cause.input.name for cause in found.missing] == ["pressure_altitude"]
    unknown = [each for each in every(found.claim) if isinstance(each.shown, Unknown)]
    assert {each.input.name for each in unknown if isinstance(each, FromInput)} == {"pressure_altitude"}


def test_what_nobody_states_is_marked_as_taken_for_granted():
    found = {each.input.name: each.is_assumed for each in all_of(reasons(answer())) if isinstance(each, FromInput)}
    assert found["nose_locker"] and found["taxi_fuel"]
    assert not found["front_seat"] and not found["trip_fuel"]


def test_the_values_of_the_tree_are_those_of_the_evaluation_and_no_others():
    """Other values in the same slots give another tree: nothing is worked out a second time."""
    result = answer()
    slot = next(each.slot for each in all_of(reasons(result)) if isinstance(each, FromInput))
    changed = replace(result, values=tuple(777 * v if i == slot else v for i, v in enumerate(result.values)))
    one, other = ({e.slot: e.shown for e in all_of(reasons(r))} for r in (result, changed))
    assert {each for each in one if one[each] != other[each]} == {slot}


def test_the_reasons_do_not_depend_on_how_the_loading_was_written():
    result = answer()
    again = replace(result, loading=Loading(dict(reversed(result.loading.stated.items()))))
    assert reasons(result) == reasons(again)
