"""Laws of the language, tried on every conformance case: they hold whatever a sheet says."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator, Mapping
from decimal import Decimal

import pytest

from engine.evaluation.exact import evaluate
from engine.evaluation.requests import read_loading
from grammar.sheet import Sheet
from tests.conformance.case_files import Case, all_cases
from tests.conformance.interpretations import checked_sheet, exact

STILL = [case for case in all_cases() if case.topic != "throughout"]
"""The cases of burns take long one by one; what they share with the others is tried on the others."""

TAKEN_OTHERWISE = ("taxi_fuel", "trip_fuel")
"""Without these the burn is taken otherwise (no taxi fuel, down to no fuel), so they are not merely missing."""


def verdicts(sheet: Sheet, loading: Mapping[str, str]) -> dict[str, tuple[str, frozenset[str]]]:
    """Each limit's verdict and the names of the inputs that it waits for."""
    found = {}
    for result in evaluate(sheet, read_loading(sheet, loading)).limits:
        causes = result.gap.causes if result.gap else ()
        names = frozenset(cause.input.name for cause in causes if hasattr(cause, "input"))
        found[result.limit.name] = (result.verdict.value, names)
    return found


def without_one(case: Case, sheet: Sheet) -> Iterator[tuple[str, dict[str, str]]]:
    """The case's loading less one entry, for each entry whose absence makes it missing."""
    assumed = {each.name for each in sheet.inputs if each.assumed is not None}
    for name in case.loading.keys() - assumed - set(TAKEN_OTHERWISE):
        yield name, {other: text for other, text in case.loading.items() if other != name}


@pytest.mark.parametrize("case", STILL, ids=lambda case: case.name)
def test_supplying_a_missing_value_changes_no_settled_answer(case: Case) -> None:
    """Kept may become not applicable: a limit that its claim keeps is settled though its condition is open."""
    sheet = checked_sheet(case)
    supplied = verdicts(sheet, case.loading)
    for name, loading in without_one(case, sheet):
        for limit, (before, _) in verdicts(sheet, loading).items():
            after = supplied[limit][0]
            kept = before == "within" and after == "not applicable"
            assert before in (after, "undetermined") or kept, (name, limit)


@pytest.mark.parametrize("case", STILL, ids=lambda case: case.name)
def test_what_became_open_names_what_was_left_out(case: Case) -> None:
    sheet = checked_sheet(case)
    supplied = verdicts(sheet, case.loading)
    for name, loading in without_one(case, sheet):
        for limit, (verdict, waits_for) in verdicts(sheet, loading).items():
            if verdict == "undetermined" and supplied[limit][0] != "undetermined":
                assert name in waits_for, (name, limit)


ONE_STEP = [case for case in STILL if case.topic != "burn_order"]
"""Open: of several tanks the exact evaluation names those of one step only (see the case in burn_order)."""


@pytest.mark.parametrize("case", ONE_STEP, ids=lambda case: case.name)
@pytest.mark.parametrize("left_out", [0, 1])
def test_supplying_what_an_open_answer_waits_for_settles_it(left_out: int, case: Case) -> None:
    """Every other entry is left out; then a limit gets just the values that it waits for."""
    sheet = checked_sheet(case)
    supplied = verdicts(sheet, case.loading)
    loading = dict(list(case.loading.items())[left_out::2])
    for limit, (verdict, waits_for) in verdicts(sheet, loading).items():
        if verdict == "undetermined" != supplied[limit][0]:
            named = {name: case.loading[name] for name in waits_for & case.loading.keys()}
            assert verdicts(sheet, loading | named)[limit][0] != "undetermined", (limit, waits_for)


FINER = {"kg": ("g", 3), "L": ("m3", -3), "mm": ("m", -3), "t": ("kg", 3), "kg.m": ("kg.mm", 3)}


def restated(text: str) -> str:
    """The same amount in another unit, exactly."""
    number, _, unit = text.partition(" ")
    if unit not in FINER:
        return text
    other, places = FINER[unit]
    return f"{Decimal(number).scaleb(places):f} {other}"


def test_an_amount_is_restated_exactly() -> None:
    assert [restated(text) for text in ("82.5 kg", "20 L", "-300 mm")] == ["82500 g", "0.020 m3", "-0.300 m"]


@pytest.mark.parametrize("case", STILL, ids=lambda case: case.name)
def test_the_unit_of_a_request_changes_nothing(case: Case) -> None:
    loading = {name: restated(text) for name, text in case.loading.items()}
    other = dataclasses.replace(case, written={**case.written, "loading": loading})
    assert exact(other) == exact(case)


def turned_round(text: str) -> str:
    """A sheet with its statements in the opposite order, behind its heading."""
    heading, *statements = re.split(r"\n(?=[a-z])", text.strip())
    return "\n".join([heading, *reversed(statements)])


@pytest.mark.parametrize("case", STILL, ids=lambda case: case.name)
def test_the_order_of_statements_changes_nothing(case: Case) -> None:
    lines = turned_round(case.sheet).split("\n")
    written = {key: value for key, value in case.written.items() if key != "sheet_file"} | {"sheet": lines}
    assert exact(dataclasses.replace(case, written=written)) == exact(case)
