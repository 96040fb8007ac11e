"""Whether a limit can be followed throughout the burn, told from the sheet alone.

Every value that the language can say is, piece by piece, a ratio of polynomials in the amount burned, and
the sweep decides any of them. Only the degree is bounded, so that no sheet makes an answer slow: a
degree that high is no limit of a manual but a slip.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final

from engine.evaluation.workings import Node, in_working_order
from grammar.sheet import (
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
    Limit,
    LookUp,
    Named,
    NamedCondition,
    Not,
    Numeric,
    Occupied,
    Product,
    Quotient,
    Read,
    Rounded,
    Same,
    Stage,
    Stated,
    Sum,
)

MOST_DEGREE: Final = 12
"""The highest degree of a polynomial that is followed. A centre of gravity against a bound that rises evenly
with the mass has degree two."""


@dataclass(frozen=True, slots=True)
class Degrees:
    """No higher than these: the degree of the top, and of each divisor below by the divisor's slot."""

    top: int = 0
    below: Mapping[int, int] = field(default_factory=dict)

    @property
    def bottom(self) -> int:
        """The degree of the whole bottom."""
        return sum(self.below.values())

    def times(self, other: Degrees) -> Degrees:
        """The degrees of a product."""
        slots = {*self.below, *other.below}
        below = {slot: self.below.get(slot, 0) + other.below.get(slot, 0) for slot in slots}
        return Degrees(self.top + other.top, below)

    def over(self, divisor: Degrees, slot: int) -> Degrees:
        """The degrees of a quotient whose divisor has this slot."""
        inverse = Degrees(divisor.bottom, {slot: divisor.top} if divisor.top else {})
        return self.times(inverse)


_STILL: Final = Degrees()


def combined(parts: Iterable[Degrees]) -> Degrees:
    """The degrees of a sum, a difference, or one chosen from the parts."""
    gathered = tuple(parts)
    below: dict[int, int] = {}
    for part in gathered:
        for slot, degree in part.below.items():
            below[slot] = max(degree, below.get(slot, 0))
    bottom = sum(below.values())
    return Degrees(max((part.top + bottom - part.bottom for part in gathered), default=0), below)


def can_follow(limit: Limit) -> str | None:
    """Why a limit cannot be followed throughout the burn, in an officer's words; None where it can."""
    roots: tuple[Condition, ...] = (limit.claim,)
    if limit.applies_when is not None:
        roots = (*roots, limit.applies_when)
    known: dict[int, Degrees] = {}
    for node in in_working_order(roots):
        if isinstance(node, Numeric):
            known[node.slot] = _degrees(node, known)
        worst = max((each.top + each.bottom for each in _tested(node, known)), default=0)
        if worst > MOST_DEGREE:
            return (
                "it multiplies or divides values that change during the burn so many times over "
                f"(degree {worst}, at most {MOST_DEGREE} is followed)"
            )
    return None


def _degrees(node: Expression, known: Mapping[int, Degrees]) -> Degrees:
    match node:
        case Constant() | Read() | Count() | LaterDate() | Rounded():
            return _STILL
        case FuelAmount():
            return Degrees(1) if node.stage is Stage.THROUGHOUT else _STILL
        case Named():
            return known[node.body.slot]
        case Absolute():
            return known[node.of.slot]
        case Sum():
            return combined(known[term.slot] for _, term in node.terms)
        case Product():
            return known[node.left.slot].times(known[node.right.slot])
        case Quotient():
            return known[node.dividend.slot].over(known[node.divisor.slot], _unnamed(node.divisor).slot)
        case Least() | Greatest():
            return combined(known[value.slot] for value in node.values)
        case LookUp():
            return _look_up(node, known)
        case Choice():
            values = [case.value for case in node.cases]
            return combined(known[v.slot] for v in (*values, node.otherwise) if v is not None)


def _look_up(node: LookUp, known: Mapping[int, Degrees]) -> Degrees:
    """Linear in each argument, so a product of them in two."""
    degrees = _STILL
    for argument in node.arguments:
        degrees = degrees.times(known[argument.slot])
    return degrees


def _unnamed(node: Expression) -> Expression:
    while isinstance(node, Named):
        node = node.body
    return node


def _tested(node: Node, known: Mapping[int, Degrees]) -> tuple[Degrees, ...]:
    """What the sweep asks the sign of at a node."""

    def difference(*of: Expression) -> Degrees:
        return combined(known[each.slot] for each in of)

    match node:
        case AtMost() | AtLeast():
            return (difference(node.subject, node.bound),)
        case Between():
            return (difference(node.subject, node.low), difference(node.subject, node.high))
        case Below() | Above() | Same():
            return (difference(node.left, node.right),)
        case Inside():
            return (difference(node.across, node.against),)
        case Occupied():
            return (known[node.place.slot],)
        case Least() | Greatest():
            return (difference(*node.values),)
        case Absolute() | Rounded():
            return (known[node.of.slot],)
        case LookUp():
            return tuple(known[argument.slot] for argument in node.arguments)
        case Quotient():
            return (known[node.divisor.slot],)
        case Constant() | Read() | FuelAmount() | Named() | Sum() | Product() | Count() | LaterDate() | Choice():
            return ()
        case Stated() | AllOf() | AnyOf() | Not() | NamedCondition() | ConditionChoice():
            return ()
