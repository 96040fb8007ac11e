"""Conditions in generated code: one case for each kind of condition."""

from __future__ import annotations

from engine.evaluation.compiling.comparing import denied, joined, sign_test
from engine.evaluation.compiling.envelopes import inside
from engine.evaluation.compiling.forms import Form
from engine.evaluation.compiling.translation import KNOWN, Test, Translation
from engine.evaluation.compiling.writer import BENT, STANDS
from grammar.sheet import (
    Above,
    AllOf,
    AnyOf,
    AtLeast,
    AtMost,
    Below,
    Between,
    Condition,
    ConditionChoice,
    Expression,
    Inside,
    NamedCondition,
    Not,
    Occupied,
    Same,
    Stated,
)


def translate_condition(node: Condition, so_far: Translation) -> Test:
    """The code of a condition whose parts have been translated."""
    test = _test(node, so_far)
    if test.known is None and (so_far.writer.keeps_all or node.slot in so_far.shared):
        name = so_far.writer.let(test.text, test.degree, is_late=test.is_late)
        return Test(name, test.degree, test.is_late)
    return test


def _test(node: Condition, so_far: Translation) -> Test:
    match node:
        case AtMost():
            return sign_test(_difference(node.bound, node.subject, so_far), ">=", so_far)
        case AtLeast():
            return sign_test(_difference(node.subject, node.bound, so_far), ">=", so_far)
        case Between():
            return _between(node, so_far)
        case Inside():
            return inside(node.envelope, so_far.form(node.across), so_far.form(node.against), so_far)
        case Below():
            return sign_test(_difference(node.right, node.left, so_far), ">", so_far)
        case Above():
            return sign_test(_difference(node.left, node.right, so_far), ">", so_far)
        case Same():
            return sign_test(_difference(node.left, node.right, so_far), "==", so_far)
        case Occupied():
            return sign_test(so_far.form(node.place), ">", so_far)
        case Stated():
            return so_far.flags.get(node.input.name, KNOWN[True])
        case AllOf():
            return joined(tuple(so_far.test(part) for part in node.parts), "and")
        case AnyOf():
            return joined(tuple(so_far.test(part) for part in node.parts), "or")
        case Not():
            return denied(so_far.test(node.of))
        case NamedCondition():
            return so_far.test(node.body)
        case ConditionChoice():
            return _choice(node, so_far)


def _difference(greater: Expression, less: Expression, so_far: Translation) -> Form:
    return so_far.writer.sum((so_far.form(greater), -so_far.form(less)))


def _between(node: Between, so_far: Translation) -> Test:
    low = sign_test(_difference(node.subject, node.low, so_far), ">=", so_far)
    high = sign_test(_difference(node.high, node.subject, so_far), ">=", so_far)
    return joined((low, high), "and")


def _choice(node: ConditionChoice, so_far: Translation) -> Test:
    guards = tuple(so_far.test(case.guard) for case in node.cases)
    values = tuple(so_far.test(case.value) for case in node.cases)
    if node.otherwise is None:
        *guards_told, _ = guards
        *values_told, last = values
    else:
        guards_told, values_told, last = list(guards), list(values), so_far.test(node.otherwise)
    pieces = zip(values_told, guards_told, strict=True)
    text = "".join(f"({value.text}) if ({guard.text}) else " for value, guard in pieces) + f"({last.text})"
    parts = (*guards, *values, last)
    degree = BENT if any(part.degree for part in parts) else STANDS
    return Test(text, degree, any(part.is_late for part in parts))
