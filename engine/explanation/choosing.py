"""Which case of a guarded choice was taken, told from the values of its guards."""

from __future__ import annotations

from dataclasses import dataclass

from engine.explanation.leaning import Values
from grammar.sheet import Case, Choice, Condition, ConditionCase, ConditionChoice, Expression


@dataclass(frozen=True, slots=True)
class Taken:
    """The case whose guard holds, after the guards before it, which do not hold."""

    guard: Condition
    value: Expression | Condition
    passed: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Otherwise:
    """No guard holds: what is left."""

    value: Expression | Condition
    passed: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class InDoubt:
    """A guard cannot be told, so neither can the case; the cases from it on remain possible."""

    guard: Condition


Outcome = Taken | Otherwise | InDoubt


def outcome(choice: Choice | ConditionChoice, values: Values) -> Outcome:
    """The case that was taken, going through the guards in the order written."""
    cases: tuple[Case | ConditionCase, ...] = choice.cases
    passed: tuple[Condition, ...] = ()
    for case in cases:
        truth = values[case.guard.slot]
        if truth is True:
            return Taken(case.guard, case.value, passed)
        if truth is not False:
            return InDoubt(case.guard)
        passed = (*passed, case.guard)
    if choice.otherwise is None:
        return InDoubt(cases[-1].guard)
    return Otherwise(choice.otherwise, passed)


def was_ordered(choice: Choice | ConditionChoice) -> bool:
    """Whether the order of the cases matters: cases that are complete do not overlap."""
    return choice.otherwise is not None
