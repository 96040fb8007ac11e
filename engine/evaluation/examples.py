"""Running a sheet's worked examples: what the manual prints against what comes out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from engine.evaluation.causes import in_words, value_shown
from engine.evaluation.exact import Plan, evaluate_planned, plan_of, value_for
from engine.evaluation.loading import Loading
from engine.evaluation.margins import unit_of
from engine.evaluation.result import (
    CheckResult,
    Gap,
    LimitResult,
    Margin,
    Missing,
    Value,
)
from grammar.diagnostics.problem import Problem
from grammar.figures import Rounding, show, show_difference
from grammar.sheet import Example, ExpectedValue, ExpectedVerdict, Expression, Named, Read, Sheet, Verdict, Weight
from grammar.units import PURE, Unit

_WHOLE_SHEET: Final = "the verdict"
_MOST_DECIMALS: Final = 60


@dataclass(frozen=True, slots=True)
class _Run:
    """An example that has been run."""

    sheet: Sheet
    example: Example
    result: CheckResult


def run_examples(sheet: Sheet) -> tuple[Problem, ...]:
    """Every way in which the sheet's worked examples do not come out as printed."""
    plan = plan_of(sheet)
    return tuple(problem for example in sheet.examples for problem in _run(plan, example))


def _run(plan: Plan, example: Example) -> Iterator[Problem]:
    loading = Loading({item.name: value for item, value in example.settings})
    run = _Run(plan.sheet, example, evaluate_planned(plan, loading))
    for expectation in example.expectations:
        match expectation:
            case ExpectedValue():
                yield from _compare_value(run, expectation)
            case ExpectedVerdict():
                yield from _compare_verdict(run, expectation)


def _problem(run: _Run, code: str, expectation: ExpectedValue | ExpectedVerdict, facts: dict[str, str]) -> Problem:
    return Problem(code, expectation.span, {"example": run.example.name, **facts})


# ---- values


def _compare_value(run: _Run, expected: ExpectedValue) -> Iterator[Problem]:
    subject = expected.subject
    facts = {"subject": _called(subject), "expected": value_shown(expected.value, subject.unit)}
    found: Value = value_for(run.sheet, run.result.loading, subject)
    if isinstance(found, Gap):
        yield _problem(run, "804", expected, facts | {"needs": needs(found)})
    elif isinstance(found, Fraction) and abs(found - expected.value) > expected.give_or_take:
        yield _problem(run, "801", expected, facts | _differing(found, expected))


def _called(subject: Expression) -> str:
    """What the example calls its subject."""
    match subject:
        case Named():
            return f"{subject.name} at {subject.stage.value}" if subject.stage else subject.name
        case Read():
            return subject.input.name
        case _:
            return "this value"


def _differing(found: Fraction, expected: ExpectedValue) -> dict[str, str]:
    """The value that came out and how far off it is, with as many decimals as it takes to see that."""
    unit = expected.subject.unit
    if unit is None:
        days = abs(found - expected.value)
        return {"found": value_shown(found, unit), "off": f", {days} days off"}
    off = show_difference(abs(found - expected.value), unit, Rounding.UP)
    return {"found": _telling(found, expected.value, unit), "off": f", {off} off"}


def _telling(found: Fraction, printed: Fraction, unit: Unit) -> str:
    amount = unit.from_base(found)
    decimals = 3
    while decimals < _MOST_DECIMALS and (
        show(amount, Rounding.NEAREST, decimals).text
        == show(unit.from_base(printed), Rounding.NEAREST, decimals).text
    ):
        decimals += 3
    return f"{show(amount, Rounding.NEAREST, decimals)} {unit.name}".strip()


# ---- verdicts and margins


def _compare_verdict(run: _Run, expected: ExpectedVerdict) -> Iterator[Problem]:
    result = next((one for one in run.result.limits if one.limit.name == _name(expected)), None)
    verdict = run.result.verdict if result is None else result.verdict
    facts = {"limit": _name(expected), "expected": expected.verdict.value, "found": verdict.value}
    if verdict is expected.verdict:
        yield from _compare_margin(run, expected, result, facts)
    elif verdict is Verdict.UNDETERMINED:
        yield _problem(run, "805", expected, facts | {"needs": _needs_of(run, result)})
    else:
        found = _because_of(run) if result is None else _outcome(verdict, result)
        yield _problem(run, "802", expected, facts | {"found": found})


def _name(expected: ExpectedVerdict) -> str:
    return _WHOLE_SHEET if expected.limit is None else expected.limit.name


def _compare_margin(
    run: _Run, expected: ExpectedVerdict, result: LimitResult | None, facts: dict[str, str]
) -> Iterator[Problem]:
    by = expected.by
    if by is None or any(_is_by(margin, expected, by) for margin in _tightest_of_each(result)):
        return
    facts |= {"by": _size(by, expected.by_unit), "found": _outcome(expected.verdict, result)}
    yield _problem(run, "803", expected, facts)


def _tightest_of_each(result: LimitResult | None) -> tuple[Margin, ...]:
    """The tightest margin in each dimension (an envelope has two); of a broken limit only those passed."""
    first: dict[object, Margin] = {}
    for margin in result.margins if result else ():
        if result is not None and result.verdict is Verdict.OUTSIDE and margin.room >= 0:
            continue
        unit = unit_of(margin)
        first.setdefault(unit.dimension if unit else None, margin)
    return tuple(first.values())


_CLOSE: Final = Fraction(1, 10**9)


def _is_by(margin: Margin, expected: ExpectedVerdict, by: Fraction) -> bool:
    """Whether the margin has the size printed; one at an irrational moment is only known so closely."""
    unit, printed = unit_of(margin), expected.by_unit
    if (unit is None) != (printed is None):
        return False
    if unit is not None and printed is not None and unit.dimension != printed.dimension:
        return False
    off = abs(abs(margin.room) - by)
    return off == 0 if margin.is_exact else off <= _CLOSE


def _because_of(run: _Run) -> str:
    """The verdict of the whole sheet with the limits that make it."""
    verdict = run.result.verdict
    names = [
        one.limit.name
        for one in run.result.limits
        if one.verdict is verdict and one.limit.weight is Weight.LIMIT and verdict is not Verdict.WITHIN
    ]
    return f"{verdict.value} by {_listed(names)}" if names else verdict.value


def _outcome(verdict: Verdict, result: LimitResult | None) -> str:
    margins = result.margins if result else ()
    if not margins:
        return f"{verdict.value} without a margin in figures"
    return f"{verdict.value} by {_size(abs(margins[0].room), unit_of(margins[0]))}"


def _size(difference: Fraction, unit: Unit | None) -> str:
    return f"{difference} days" if unit is None else show_difference(difference, unit or PURE)


# ---- what is missing


def _needs_of(run: _Run, result: LimitResult | None) -> str:
    gaps = (one.gap for one in run.result.limits if result is None or one is result)
    whole = Gap(())
    for gap in gaps:
        whole = whole if gap is None else whole | gap
    return needs(whole)


def needs(gap: Gap) -> str:
    """What an example would have to state, or state otherwise."""
    missing = [cause.input.name for cause in gap.causes if isinstance(cause, Missing)]
    others = [in_words(cause) for cause in gap.causes if not isinstance(cause, Missing)]
    first = [f"the example needs {_listed(missing)}"] if missing else []
    return "; ".join([*first, *others])


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
