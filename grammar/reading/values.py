"""The rules for values and conditions: each yields its node of the syntax tree."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from grammar.reading.parts import Part, Parts
from grammar.tree import (
    AllOf,
    AnyOf,
    Arithmetic,
    AtStage,
    Between,
    Branch,
    Call,
    Choice,
    Comparison,
    DateLiteral,
    Day,
    Expression,
    Figure,
    Group,
    Inside,
    Is,
    Negative,
    Not,
    Operation,
    Quantity,
    Reference,
    Relation,
    Round,
    Word,
)

Rule = Callable[[Parts], Part]


def _first(parts: Parts) -> Expression:
    return parts.expressions[0]


def _arithmetic(operation: Operation) -> Rule:
    def build(parts: Parts) -> Arithmetic:
        left, right = parts.expressions
        return Arithmetic(operation, left, right, parts.span)

    return build


def _comparison(relation: Relation) -> Rule:
    def build(parts: Parts) -> Comparison:
        left, right = parts.expressions
        return Comparison(relation, left, right, parts.span)

    return build


def _is(negated: bool) -> Rule:
    def build(parts: Parts) -> Is:
        subject, state = parts.expressions
        return Is(subject, state, negated, parts.span)

    return build


def _is_state(negated: bool) -> Rule:
    def build(parts: Parts) -> Is:
        return Is(_first(parts), parts.one(Word), negated, parts.span)

    return build


def _round(upward: bool) -> Rule:
    def build(parts: Parts) -> Round:
        return Round(_first(parts), parts.one(Figure), upward, parts.span)

    return build


def _choice(parts: Parts) -> Choice:
    otherwise = parts.expressions
    return Choice(parts.all(Branch), otherwise[0] if otherwise else None, parts.span)


def _branch(parts: Parts) -> Branch:
    value, guard = parts.expressions
    return Branch(value, guard, parts.span)


def _between(parts: Parts) -> Between:
    subject, low, high = parts.expressions
    return Between(subject, low, high, parts.span)


def _inside(parts: Parts) -> Inside:
    across, against, envelope = parts.expressions
    return Inside(across, against, envelope, parts.span)


VALUES: Final[Mapping[str, Rule]] = MappingProxyType(
    {
        "quantity": lambda parts: Quantity(parts.figure, parts.span),
        "date": lambda parts: DateLiteral(parts.one(Day), parts.span),
        "reference": lambda parts: Reference(parts.name, parts.span),
        "call": lambda parts: Call(parts.name, parts.expressions, parts.span),
        "at_stage": lambda parts: AtStage(_first(parts), parts.name, parts.span),
        "negative": lambda parts: Negative(_first(parts), parts.span),
        "add": _arithmetic(Operation.ADD),
        "subtract": _arithmetic(Operation.SUBTRACT),
        "multiply": _arithmetic(Operation.MULTIPLY),
        "divide": _arithmetic(Operation.DIVIDE),
        "round_up": _round(upward=True),
        "round_down": _round(upward=False),
        "group": lambda parts: Group(_first(parts), parts.span),
        "choice": _choice,
        "branch": _branch,
        "at_most": _comparison(Relation.AT_MOST),
        "at_least": _comparison(Relation.AT_LEAST),
        "below": _comparison(Relation.BELOW),
        "above": _comparison(Relation.ABOVE),
        "between": _between,
        "inside": _inside,
        "is_": _is(negated=False),
        "is_not": _is(negated=True),
        "is_state": _is_state(negated=False),
        "is_not_state": _is_state(negated=True),
        "all_of": lambda parts: AllOf(parts.expressions, parts.span),
        "any_of": lambda parts: AnyOf(parts.expressions, parts.span),
        "not_": lambda parts: Not(_first(parts), parts.span),
    }
)
"""What each rule of values and conditions yields."""
