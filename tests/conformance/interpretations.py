"""The interpretations of the language that the conformance cases are put to: add one line for another."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction

from engine.evaluation.compiling.compiled import check
from engine.evaluation.exact import evaluate
from engine.evaluation.loading import Loading
from engine.evaluation.requests import read_loading
from engine.evaluation.result import (
    Cause,
    CheckResult,
    LimitResult,
    Missing,
    OutOfRange,
    OutOfTable,
    ZeroDivisor,
)
from grammar.checking import check_file
from grammar.reading import read_file
from grammar.sheet import Condition, Expression, Named, Sheet, children
from tests.conformance.case_files import Answer, Case, LimitAnswer
from tests.reference.evaluator import Evaluator, Outcome


def checked_sheet(case: Case) -> Sheet:
    """The case's sheet, read and checked without any error."""
    reading = read_file(case.sheet, case.sheet_name)
    assert not reading.problems, reading.problems
    checked = check_file(reading.file, reading.source)
    assert checked.sheet is not None, checked.problems
    return checked.sheet


# ---- the reference evaluator of the tests


def reference(case: Case) -> Answer:
    """The answer of the slow evaluator, which also looks at the fuel states that the case names."""
    evaluator = Evaluator(read_file(case.sheet, case.sheet_name).file, case.loading, case.fuel_states)
    limits = {name: _of_reference(outcome) for name, outcome in evaluator.outcomes.items()}
    names = {*case.expect.get("values", {}), *(each["value"] for each in case.published)}
    return Answer(evaluator.verdict(), limits, {name: evaluator.built_in(name) for name in names})


def _of_reference(outcome: Outcome) -> LimitAnswer:
    return LimitAnswer(outcome.verdict, outcome.margins, outcome.causes, outcome.at)


# ---- the program's exact evaluation


def exact(case: Case) -> Answer:
    """The answer of the program's exact evaluation."""
    return _answered(case, evaluate)


def compiled(case: Case) -> Answer:
    """The answer of the compiled sheet, which falls back to the exact evaluation where it has to."""
    return _answered(case, check)


def _answered(case: Case, evaluation: Callable[[Sheet, Loading], CheckResult]) -> Answer:
    sheet = checked_sheet(case)
    result = evaluation(sheet, read_loading(sheet, case.loading))
    limits = {each.limit.name: _of_engine(each) for each in result.limits}
    return Answer(result.verdict.value, limits, dict(_named_values(result)))


def _of_engine(result: LimitResult) -> LimitAnswer:
    margins: dict[str, Fraction] = {}
    for margin in result.margins:
        side = margin.side.name.lower().replace("_", " ")
        margins[side] = min(margin.room, margins.get(side, margin.room))
    gap = frozenset[tuple[str, str]]()
    if result.gap is not None:
        gap = frozenset(_cause(cause) for cause in result.gap.causes)
    return LimitAnswer(result.verdict.value, margins, gap, result.tightest.burned if result.tightest else None)


def _cause(cause: Cause) -> tuple[str, str]:
    match cause:
        case Missing():
            return "missing", cause.input.name
        case OutOfRange():
            return "out of range", cause.input.name
        case OutOfTable():
            return "out of table", cause.table.name
        case ZeroDivisor():
            return "divided by zero", ""


def _named_values(result: CheckResult) -> Iterator[tuple[str, Fraction]]:
    waiting: list[Expression | Condition] = [limit.claim for limit in result.sheet.limits]
    while waiting:
        node = waiting.pop()
        waiting += children(node)
        if isinstance(node, Named) and node.stage is not None:
            value = result.values[node.slot]
            if isinstance(value, Fraction):
                yield f"{node.name} at {node.stage.value}", value


INTERPRETATIONS: Mapping[str, Callable[[Case], Answer]] = {
    "reference": reference,
    "exact": exact,
    "compiled": compiled,
}
