"""Which way each value leans: how "rounded so that it never flatters" flows down from a claim to its parts.

A numeric value leans up where more of it would be worse and down where less would be worse. A condition is
taken as a number, 1 for true and 0 for false: it leans down where it ought to hold and up where it ought not.
Nearest stands where neither way is worse, or where that cannot be told from the values alone (what a table
is read at, the guard of a choice).
"""

from __future__ import annotations

from fractions import Fraction

from engine.evaluation.result import Margin, Side, SlotValue
from grammar.figures import Rounding
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

Values = tuple[SlotValue, ...]


def leanings(node: Expression | Condition, values: Values, lean: Rounding) -> tuple[Rounding, ...]:
    """Which way each of ``children(node)`` leans, in their order, when the node itself leans ``lean``."""
    match node:
        case Constant() | Read() | FuelAmount() | Stated():
            return ()
        case Named() | NamedCondition() | Rounded() | LaterDate() | Occupied():
            return (lean,)
        case Sum():
            return tuple(lean if sign > 0 else lean.opposite for sign, _ in node.terms)
        case Product():
            return (_scaled(lean, values[node.right.slot]), _scaled(lean, values[node.left.slot]))
        case Quotient():
            size = _scaled(lean, values[node.divisor.slot])
            return (size, _scaled(lean, values[node.dividend.slot]).opposite)
        case Least() | Greatest():
            return (lean,) * len(node.values)
        case Absolute():
            return (_scaled(lean, values[node.of.slot]),)
        case Count():
            return (lean,) * len(node.conditions)
        case AllOf() | AnyOf():
            return (lean,) * len(node.parts)
        case LookUp():
            return (Rounding.NEAREST,) * len(node.arguments)
        case Choice() | ConditionChoice():
            return _of_choice(node, lean)
        case AtMost() | Below():
            return (lean.opposite, lean)
        case AtLeast() | Above():
            return (lean, lean.opposite)
        case Between():
            return _of_between(node, values, lean)
        case Not():
            return (lean.opposite,)
        case Same() | Inside():
            return (Rounding.NEAREST, Rounding.NEAREST)


def _scaled(lean: Rounding, factor: SlotValue) -> Rounding:
    """The lean of a value that is multiplied by ``factor``: a negative one turns it round."""
    if not isinstance(factor, Fraction):
        return Rounding.NEAREST
    return lean if factor >= 0 else lean.opposite


def _of_choice(node: Choice | ConditionChoice, lean: Rounding) -> tuple[Rounding, ...]:
    cases = (Rounding.NEAREST, lean) * len(node.cases)
    return cases if node.otherwise is None else (*cases, lean)


def _of_between(node: Between, values: Values, lean: Rounding) -> tuple[Rounding, ...]:
    """The subject leans towards the nearer end; each end leans inwards."""
    near_low = _is_nearer_the_low_end(values[node.subject.slot], values[node.low.slot], values[node.high.slot])
    return (lean if near_low else lean.opposite, lean.opposite, lean)


def _is_nearer_the_low_end(subject: SlotValue, low: SlotValue, high: SlotValue) -> bool:
    match (subject, low, high):
        case (Fraction(), Fraction(), Fraction()):
            return subject - low < high - subject
        case _:
            return False


def leanings_of_point(claim: Inside, margins: tuple[Margin, ...]) -> tuple[Rounding, Rounding] | None:
    """Which way the two values of a point lean: each towards the nearer edge (None without margins)."""
    mine = [margin.side for margin in margins if margin.claim.slot == claim.slot]
    if not mine:
        return None
    return _towards(mine, Side.AFT, Side.FORWARD), _towards(mine, Side.HEAVIER, Side.LIGHTER)


def _towards(sides: list[Side], greater: Side, lesser: Side) -> Rounding:
    nearer = next((side for side in sides if side in (greater, lesser)), None)
    if nearer is None:
        return Rounding.NEAREST
    return Rounding.UP if nearer is greater else Rounding.DOWN
