"""What each node of the checked sheet does, and how each of its parts takes part in it."""

from __future__ import annotations

from enum import Enum, unique
from typing import Final

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


@unique
class Operation(Enum):
    """How a value comes about; the words are those of the published document."""

    PRINTED = "printed in the sheet"
    INPUT = "stated or on record"
    FUEL_LEFT = "fuel left after the burn"
    NAME = "under a name"
    SUM = "sum"
    PRODUCT = "product"
    QUOTIENT = "quotient"
    LEAST = "the least of"
    GREATEST = "the greatest of"
    SIZE = "without its sign"
    ROUNDED_UP = "rounded up"
    ROUNDED_DOWN = "rounded down"
    TABLE = "read from a table"
    COUNT = "how many hold"
    LATER_DATE = "later date"
    CHOICE = "choice"
    AT_MOST = "at most"
    AT_LEAST = "at least"
    BETWEEN = "between"
    INSIDE = "inside an envelope"
    BELOW = "less than"
    ABOVE = "more than"
    SAME = "the same as"
    OCCUPIED = "occupied"
    STATED = "stated by somebody"
    ALL = "all hold"
    ANY = "any holds"
    NOT = "does not hold"


_IN_A_LINE: Final = {
    Operation.SUM: "the sum of",
    Operation.PRODUCT: "the product of",
    Operation.QUOTIENT: "the quotient of",
    Operation.SIZE: "the size of",
    Operation.CHOICE: "of several cases",
    Operation.COUNT: "how many of these hold",
}


def in_a_line(what: Operation) -> str:
    """An operation as it stands after a value, above its parts."""
    return _IN_A_LINE.get(what, what.value)


def operation(node: Expression | Condition) -> Operation:
    """What a node does."""
    match node:
        case Constant():
            return Operation.PRINTED
        case Read():
            return Operation.INPUT
        case FuelAmount():
            return Operation.FUEL_LEFT
        case Named() | NamedCondition():
            return Operation.NAME
        case Sum():
            return Operation.SUM
        case Product():
            return Operation.PRODUCT
        case Quotient():
            return Operation.QUOTIENT
        case Least():
            return Operation.LEAST
        case Greatest():
            return Operation.GREATEST
        case Absolute():
            return Operation.SIZE
        case Rounded():
            return Operation.ROUNDED_UP if node.upward else Operation.ROUNDED_DOWN
        case LookUp():
            return Operation.TABLE
        case Count():
            return Operation.COUNT
        case LaterDate():
            return Operation.LATER_DATE
        case Choice() | ConditionChoice():
            return Operation.CHOICE
        case AtMost():
            return Operation.AT_MOST
        case AtLeast():
            return Operation.AT_LEAST
        case Between():
            return Operation.BETWEEN
        case Inside():
            return Operation.INSIDE
        case Below():
            return Operation.BELOW
        case Above():
            return Operation.ABOVE
        case Same():
            return Operation.SAME
        case Occupied():
            return Operation.OCCUPIED
        case Stated():
            return Operation.STATED
        case AllOf():
            return Operation.ALL
        case AnyOf():
            return Operation.ANY
        case Not():
            return Operation.NOT


def parts_in_words(node: Expression | Condition) -> tuple[str, ...]:
    """The word that stands before each of ``children(node)``: "less", "times", "at most", or none."""
    match node:
        case Constant() | Read() | FuelAmount() | Stated():
            return ()
        case Named() | NamedCondition() | Absolute() | Rounded() | LaterDate() | Occupied() | Not():
            return ("",)
        case Sum():
            first = "" if node.terms[0][0] > 0 else "minus"
            return (first, *("plus" if sign > 0 else "less" for sign, _ in node.terms[1:]))
        case Product():
            return ("", "times")
        case Quotient():
            return ("", "divided by")
        case Least() | Greatest():
            return ("",) * len(node.values)
        case LookUp():
            return ("at", *("and",) * (len(node.arguments) - 1))
        case Count():
            return ("",) * len(node.conditions)
        case Choice() | ConditionChoice():
            cases = ("when", "then") * len(node.cases)
            return cases if node.otherwise is None else (*cases, "otherwise")
        case AtMost():
            return ("", "at most")
        case AtLeast():
            return ("", "at least")
        case Between():
            return ("", "no less than", "no more than")
        case Inside():
            return ("", "against")
        case Below():
            return ("", "less than")
        case Above():
            return ("", "more than")
        case Same():
            return ("", "compared with")
        case AllOf():
            return ("", *("and",) * (len(node.parts) - 1))
        case AnyOf():
            return ("", *("or",) * (len(node.parts) - 1))
