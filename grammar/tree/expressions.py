"""Expressions and conditions as written; which of the two something is, checking finds out."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from grammar.text import Span
from grammar.tree.words import Day, Figure, Word


class Operation(Enum):
    """The four operations of arithmetic, by their sign."""

    ADD = "+"
    SUBTRACT = "-"
    MULTIPLY = "*"
    DIVIDE = "/"


class Relation(Enum):
    """How two values are compared, in the language's words."""

    AT_MOST = "at most"
    AT_LEAST = "at least"
    BELOW = "<"
    ABOVE = ">"


@dataclass(frozen=True, slots=True)
class Quantity:
    """A figure inside an expression."""

    figure: Figure
    span: Span


@dataclass(frozen=True, slots=True)
class DateLiteral:
    """A date inside an expression."""

    day: Day
    span: Span


@dataclass(frozen=True, slots=True)
class Reference:
    """A name inside an expression."""

    name: Word
    span: Span


@dataclass(frozen=True, slots=True)
class Call:
    """A function or a table applied to arguments."""

    name: Word
    arguments: tuple[Expression, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class AtStage:
    """A value at a named stage of the flight."""

    of: Expression
    stage: Word
    span: Span


@dataclass(frozen=True, slots=True)
class Negative:
    """A value with its sign changed."""

    of: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Arithmetic:
    """Two values and an operation between them."""

    operation: Operation
    left: Expression
    right: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Round:
    """A value rounded up or down to whole multiples of a step."""

    of: Expression
    step: Figure
    upward: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Group:
    """An expression in brackets. Kept so that tidying can print it again."""

    of: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Branch:
    """One case of a guarded choice."""

    value: Expression
    guard: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Choice:
    """A guarded choice: the value of the first case whose guard holds, else what precedes ``otherwise``."""

    branches: tuple[Branch, ...]
    otherwise: Expression | None
    span: Span


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two values and the relation claimed between them."""

    relation: Relation
    left: Expression
    right: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Between:
    """A value claimed to lie between two others, both included."""

    subject: Expression
    low: Expression
    high: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Inside:
    """A pair of values claimed to lie inside an envelope."""

    across: Expression
    against: Expression
    envelope: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Is:
    """A value claimed to be (or not to be) a state, an option or another value."""

    subject: Expression
    state: Expression | Word
    negated: bool
    span: Span


@dataclass(frozen=True, slots=True)
class AllOf:
    """Conditions joined by ``and``."""

    parts: tuple[Expression, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class AnyOf:
    """Conditions joined by ``or``."""

    parts: tuple[Expression, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Not:
    """A condition denied."""

    of: Expression
    span: Span


Expression = (
    Quantity
    | DateLiteral
    | Reference
    | Call
    | AtStage
    | Negative
    | Arithmetic
    | Round
    | Group
    | Choice
    | Comparison
    | Between
    | Inside
    | Is
    | AllOf
    | AnyOf
    | Not
)
"""Whatever can stand where a value or a condition is wanted. Which of the two it is, checking finds out."""
