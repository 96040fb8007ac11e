"""Holding the compiled way to the plain evaluator: the same answer, whole, for the same loading."""

from __future__ import annotations

from collections.abc import Mapping

from engine.evaluation.compiling.compiled import CompiledSheet
from engine.evaluation.exact import evaluate_planned
from engine.evaluation.loading import Loading
from engine.evaluation.requests import RequestRefused, read_loading
from engine.evaluation.result import CheckResult
from grammar.sheet import Verdict

TRUTHS = {Verdict.WITHIN: True, Verdict.OUTSIDE: False, Verdict.NOT_APPLICABLE: None}


def plain(compiled: CompiledSheet, loading: Loading) -> CheckResult:
    """The plain evaluator's answer."""
    return evaluate_planned(compiled.parts.plan, loading)


def agrees(compiled: CompiledSheet, loading: Loading) -> bool:
    """Hold the compiled way to the plain answer; whether compiled code gave the verdicts."""
    expected = plain(compiled, loading)
    assert compiled.check(loading) == expected
    numbers = compiled.numbers(loading)
    truths = None if numbers is None else compiled.verdicts(numbers)
    if truths is None:
        return False
    assert list(truths) == [TRUTHS[each.verdict] for each in expected.limits]
    return True


def reads_alike(compiled: CompiledSheet, request: Mapping[str, str]) -> bool:
    """Hold the quick reading of a request to the plain one; whether the quick way took it."""
    numbers = compiled.numbers(request)
    if numbers is None:
        return False
    try:
        loading = read_loading(compiled.sheet, request)
    except RequestRefused as refused:
        raise AssertionError("the quick way took what the plain way refuses") from refused
    assert compiled.numbers(loading) == numbers
    return True
