"""Every kind of limitation can be said, reads without a remark, and comes out as worked by hand."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from engine.evaluation.compiling.compiled import check, compile_sheet
from engine.evaluation.exact import evaluate
from engine.explanation.document import explanation_document
from engine.explanation.encoding import Encoder
from engine.explanation.sentences import sentences
from engine.resolution.reading import read_together
from grammar.reading import read_file
from grammar.sheet import Verdict
from grammar.tidy import tidy
from tests.kinds.kinds import (
    LISTED,
    SHEETS,
    Case,
    Kind,
    all_cases,
    all_kinds,
    answer,
    differences,
    loading,
    resolved,
    text_of,
)

KINDS = all_kinds()
CASES = all_cases()
FILES = sorted(path.name for path in SHEETS.glob("*.limits"))


@pytest.mark.parametrize(("kind", "way"), [(kind, way) for kind in KINDS for way in kind.ways], ids=str)
def test_a_kind_reads_without_a_remark(kind: Kind, way: str) -> None:
    together = read_together(kind.files(way))
    assert [(each.code, dict(each.facts)) for found in together.problems.values() for each in found] == []


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_case_comes_out_as_worked_by_hand(case: Case) -> None:
    found = resolved(case)
    assert found.problems == ()
    assert found.sheet is not None
    assert list(differences(case, answer(found.sheet, case.record, case.request))) == []


@pytest.mark.parametrize("case", CASES, ids=str)
def test_compiled_code_gives_the_same_answer(case: Case) -> None:
    sheet = resolved(case).sheet
    assert sheet is not None
    result = check(sheet, loading(sheet, case.record, case.request))
    plain = answer(sheet, case.record, case.request)
    assert list(differences(case, result)) == []
    assert (result.verdict, result.limits) == (plain.verdict, plain.limits)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_published_answer_is_the_same_from_compiled_code(case: Case) -> None:
    """Asked twice, since an encoder learns from the first answer and gives the second by itself."""
    sheet = resolved(case).sheet
    assert sheet is not None
    stated = loading(sheet, case.record, case.request)
    encoder = Encoder(compile_sheet(sheet))
    expected = explanation_document(evaluate(sheet, stated)).model_dump_json().encode()
    assert [encoder.answer(stated), encoder.answer(stated)] == [expected, expected]


@pytest.mark.parametrize("case", [case for case in CASES if not case.written["allowed"]], ids=str)
def test_what_is_not_allowed_has_a_sentence_with_its_paragraph(case: Case) -> None:
    sheet = resolved(case).sheet
    assert sheet is not None
    result = answer(sheet, case.record, case.request)
    for each in result.limits:
        if each.verdict in (Verdict.OUTSIDE, Verdict.UNDETERMINED):
            said = sentences(result).sentence(each)
            assert re.search(r"\S.*\(.*\d.*\)$", said), said


@pytest.mark.parametrize("file", FILES)
def test_a_file_is_tidy(file: str) -> None:
    assert tidy(read_file(text_of(file), file)) == text_of(file)


@pytest.mark.parametrize("kind", KINDS, ids=str)
def test_the_rule_stands_above_the_sheet_or_its_layers(kind: Kind) -> None:
    """Whoever opens a file of the kind finds the rule that it says, in a manual's words."""
    first = next(iter(kind.ways.values()))
    assert kind.instance in [rule_above(text_of(file)) for file in first]


def rule_above(text: str) -> str:
    """The comment that a file begins with, on one line."""
    return " ".join(" ".join(comment_lines(text)).split())


def comment_lines(text: str) -> Iterator[str]:
    for line in text.splitlines():
        if not line.startswith("--"):
            return
        yield line.removeprefix("--")


def test_no_file_stands_idle() -> None:
    used = {file for kind in KINDS for files in kind.ways.values() for file in files}
    assert used == set(FILES)


def test_the_numbers_are_complete() -> None:
    assert [kind.number for kind in KINDS] == list(range(1, len(KINDS) + 1))
    assert len(KINDS) >= LISTED + 8


@pytest.mark.parametrize("kind", KINDS, ids=str)
def test_a_kind_has_a_case_that_is_allowed_and_one_that_is_not(kind: Kind) -> None:
    assert {case.written["allowed"] for case in kind.cases()} == {True, False}
    assert all(any(case.way == way for case in kind.cases()) for way in kind.ways)


def test_a_wrong_figure_is_found() -> None:
    case = next(case for case in CASES if case.kind.number == 1)
    spoilt = Case(
        case.kind, case.way, {**case.written, "limits": {"passenger_max": {"verdict": "within", "margin": "2 kg"}}}
    )
    sheet = resolved(spoilt).sheet
    assert sheet is not None
    assert len(list(differences(spoilt, answer(sheet, spoilt.record, spoilt.request)))) == 1


def test_a_broken_limit_that_nobody_expects_is_found() -> None:
    case = next(case for case in CASES if case.kind.number == 5 and "-26 kg" in str(case.limits))
    spoilt = Case(case.kind, case.way, {**case.written, "limits": {"locker_a": case.limits["locker_a"]}})
    sheet = resolved(spoilt).sheet
    assert sheet is not None
    found = list(differences(spoilt, answer(sheet, spoilt.record, spoilt.request)))
    assert [each.split()[0] for each in found] == ["both_lockers", "locker_b"]


def test_beyond_a_table_nothing_is_cleared() -> None:
    """No table is read beyond its printed values, nor a figure beyond what the manual covers."""
    beyond = [case for case in CASES if any(each["verdict"] == "undetermined" for each in case.limits.values())]
    assert len(beyond) >= 8
    for case in beyond:
        assert case.written["allowed"] is False
