"""The program's exact evaluation and the slow reference agree on loads that nobody worked out by hand."""

from __future__ import annotations

import dataclasses
from collections import defaultdict
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.evaluation.requests import RequestRefused
from grammar.reading import read_file
from grammar.sheet import Stage
from tests.conformance.case_files import Answer, Case, LimitAnswer, all_cases
from tests.conformance.interpretations import checked_sheet, exact, reference
from tests.reference import evaluator
from tests.reference.evaluator import Evaluator

SHARED = [case for case in all_cases() if "sheet_file" in case.written]
FIRST = {case.sheet_name: case for case in SHARED}
STATED: dict[str, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
"""By sheet and input, every value that some case states."""
for each in SHARED:
    for stated, text in each.loading.items():
        STATED[each.sheet_name][stated].add(text)


@st.composite
def loads(draw: st.DrawFn) -> Case:
    """A shared sheet with a loading mixed from the values of its cases, some left out, some a little moved."""
    case = FIRST[draw(st.sampled_from(sorted(FIRST)))]
    loading = {}
    for name, texts in STATED[case.sheet_name].items():
        text = draw(st.none() | st.sampled_from(sorted(texts)) | st.sampled_from(sorted(texts)).flatmap(moved))
        if text is not None:
            loading[name] = text
    written = {key: value for key, value in case.written.items() if key != "published"}
    return dataclasses.replace(case, written={**written, "loading": loading, "expect": {"limits": {}}})


def moved(text: str) -> st.SearchStrategy[str]:
    """The same kind of amount, larger or smaller; a date or a word stays as it is."""
    number, _, unit = text.partition(" ")
    if not unit:
        return st.just(text)
    share = st.sampled_from((Fraction(1, 2), Fraction(9, 10), Fraction(11, 10), Fraction(2)))
    return share.map(lambda factor: f"{float(round(Fraction(number) * factor, 3)):.3f} {unit}")


@pytest.fixture(autouse=True, scope="module")
def in_few_samples() -> object:
    """Fewer samples of the burn, for speed."""
    patch = pytest.MonkeyPatch()
    patch.setattr(evaluator, "SAMPLES", 12)
    yield
    patch.undo()


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(loads())
def test_the_program_and_the_reference_agree(case: Case) -> None:
    try:
        answer = exact(case)
    except RequestRefused:
        return
    other = reference(case)
    moving = {limit.name for limit in checked_sheet(case).limits if limit.stage is Stage.THROUGHOUT}
    for name, found in answer.limits.items():
        if name in moving:
            compare_moving(case, name, found, other)
        else:
            compare_still(name, found, other.limits[name])


def compare_still(name: str, found: LimitAnswer, wanted: LimitAnswer) -> None:
    assert (name, found.verdict) == (name, wanted.verdict)
    if found.verdict == "undetermined":
        assert wanted.waits_for is not None
        assert found.waits_for is not None
        assert found.waits_for <= wanted.waits_for, name
    elif found.verdict != "not applicable":
        assert found.margins is not None
        assert wanted.margins is not None
        assert wanted.margins.items() <= found.margins.items(), name


def compare_moving(case: Case, name: str, found: LimitAnswer, other: Answer) -> None:
    """What the reference saw must be so; an excursion that it did not see is shown to it."""
    wanted = other.limits[name]
    if found.verdict == "outside" != wanted.verdict:
        assert found.at is not None
        shown = Evaluator(read_file(case.sheet, case.sheet_name).file, case.loading)
        assert shown.at_fuel_state(shown.sheet.limits[name], found.at).verdict == "outside", name
        return
    assert (name, found.verdict) == (name, wanted.verdict)
    if found.verdict == "undetermined":
        assert wanted.waits_for is not None
        assert found.waits_for is not None
        assert wanted.waits_for <= found.waits_for, name
    elif found.margins and wanted.margins:
        assert all(found.margins[side] <= room for side, room in wanted.margins.items()), name
