"""The parts of which an expression or a condition is made."""

from __future__ import annotations

from collections.abc import Iterator

from grammar.sheet.expressions import (
    Above,
    Absolute,
    AllOf,
    AnyOf,
    AtLeast,
    AtMost,
    Below,
    Between,
    Choice,
    Condition,
    ConditionChoice,
    Constant,
    Count,
    Expression,
    FuelAmount,
    Greatest,
    Inside,
    LaterDate,
    Least,
    LookUp,
    Named,
    NamedCondition,
    Not,
    Occupied,
    Product,
    Quotient,
    Read,
    Rounded,
    Same,
    Stated,
    Sum,
)


def children(node: Expression | Condition) -> Iterator[Expression | Condition]:
    """The expressions and conditions that a node is made of, in the order written."""
    match node:
        case Constant() | Read() | FuelAmount() | Stated():
            return
        case Named() | NamedCondition():
            yield node.body
        case Sum():
            for _, term in node.terms:
                yield term
        case Product():
            yield node.left
            yield node.right
        case Quotient():
            yield node.dividend
            yield node.divisor
        case Least() | Greatest():
            yield from node.values
        case Absolute() | Rounded() | Not():
            yield node.of
        case LookUp():
            yield from node.arguments
        case Count():
            yield from node.conditions
        case LaterDate():
            yield node.date
        case Choice() | ConditionChoice():
            for case in node.cases:
                yield case.guard
                yield case.value
            if node.otherwise is not None:
                yield node.otherwise
        case AtMost() | AtLeast():
            yield node.subject
            yield node.bound
        case Between():
            yield node.subject
            yield node.low
            yield node.high
        case Inside():
            yield node.across
            yield node.against
        case Below() | Above() | Same():
            yield node.left
            yield node.right
        case Occupied():
            yield node.place
        case AllOf() | AnyOf():
            yield from node.parts
