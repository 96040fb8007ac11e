"""The truth of a condition from its parts: one case for each kind of condition, in strong Kleene logic."""

from __future__ import annotations

from engine.evaluation.envelope import is_inside
from engine.evaluation.places import compare, sign_of
from engine.evaluation.result import Gap, Truth
from engine.evaluation.workings import Workings, denied, gap_among, holds_all, holds_any
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


def truth_of(node: Condition, known: Workings) -> Truth:
    """The truth of a condition whose parts have been worked out."""
    match node:
        case AtMost():
            return _in_order(node.subject, node.bound, known)
        case AtLeast():
            return _in_order(node.bound, node.subject, known)
        case Between():
            low = _in_order(node.low, node.subject, known)
            return holds_all((low, _in_order(node.subject, node.high, known)))
        case Inside():
            return _inside(node, known)
        case Below():
            return denied(_in_order(node.right, node.left, known))
        case Above():
            return denied(_in_order(node.left, node.right, known))
        case Same():
            return _same(node, known)
        case Occupied():
            place = known.amount(node.place)
            return place if isinstance(place, Gap) else sign_of(place, known.place) > 0
        case Stated():
            return node.input.name in known.loading.stated
        case AllOf():
            return holds_all(known.truth(part) for part in node.parts)
        case AnyOf():
            return holds_any(known.truth(part) for part in node.parts)
        case Not():
            return denied(known.truth(node.of))
        case NamedCondition():
            return known.truth(node.body)
        case ConditionChoice():
            return _choice(node, known)


def _in_order(low: Expression, high: Expression, known: Workings) -> Truth:
    """Whether one value is no more than another."""
    a, b = known.amount(low), known.amount(high)
    if isinstance(a, Gap) or isinstance(b, Gap):
        return gap_among((a, b)) or False
    return compare(a, b, known.place) <= 0


def _same(node: Same, known: Workings) -> Truth:
    a, b = known.value(node.left), known.value(node.right)
    if isinstance(a, Gap) or isinstance(b, Gap):
        return gap_among((a, b)) or False
    if isinstance(a, str) or isinstance(b, str):
        return a == b
    return compare(a, b, known.place) == 0


def _inside(node: Inside, known: Workings) -> Truth:
    across, against = known.amount(node.across), known.amount(node.against)
    if isinstance(across, Gap) or isinstance(against, Gap):
        return gap_among((across, against)) or False
    return is_inside(node.envelope.corners, across, against, known.place)


def _choice(node: ConditionChoice, known: Workings) -> Truth:
    """As for a choice of values: settled only where all the conditions that remain possible agree."""
    remaining: list[Truth] = []
    guards: list[Gap] = []
    for case in node.cases:
        guard = known.truth(case.guard)
        if guard is False:
            continue
        remaining.append(known.truth(case.value))
        if guard is True:
            break
        if isinstance(guard, Gap):
            guards.append(guard)
    else:
        if node.otherwise is not None:
            remaining.append(known.truth(node.otherwise))
    if all(truth is remaining[0] for truth in remaining) and not isinstance(remaining[0], Gap):
        return remaining[0]
    return gap_among((*guards, *remaining)) or False
