"""Expressions and conditions: the few kinds of node that everything a sheet says is made of."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING

from grammar.sheet.kinds import Input, Kind, Source, Stage
from grammar.sheet.printed import Envelope, Table
from grammar.text import Span
from grammar.units import Unit

if TYPE_CHECKING:
    from grammar.sheet.carried import Tank


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """What every expression and condition carries: its place in the text and its slot in a tuple of values."""

    span: Span = field(compare=False)
    slot: int = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Numeric(Node):
    """An expression; ``unit`` is the one to show its value in (None for a date or an option)."""

    kind: Kind
    unit: Unit | None


@dataclass(frozen=True, slots=True)
class Constant(Numeric):
    """A figure, a date or an option as printed in the sheet."""

    value: Fraction | str


@dataclass(frozen=True, slots=True)
class Read(Numeric):
    """The value of an input. Missing, or out of its declared range (unless a load or a tank): undetermined."""

    input: Input


@dataclass(frozen=True, slots=True)
class FuelAmount(Numeric):
    """The fuel left in a tank once the burn has begun, in the dimension the tank is declared in.

    The stage is TAKEOFF, LANDING or THROUGHOUT: at the ramp a tank holds what was stated (``Read``), at zero
    fuel nothing. Each of these depends on what is burned and on the tanks drawn from before it or with it.
    """

    tank: Tank
    stage: Stage


@dataclass(frozen=True, slots=True)
class Named(Numeric):
    """An expression under a name: a ``let``, a built-in such as cg, or the bound of another limit."""

    name: str
    label: str
    stage: Stage | None
    body: Expression
    source: Source | None
    is_built_in: bool


@dataclass(frozen=True, slots=True)
class Sum(Numeric):
    """The sum of its terms; a term whose sign is -1 is subtracted."""

    terms: tuple[tuple[int, Expression], ...]


@dataclass(frozen=True, slots=True)
class Product(Numeric):
    """One value times another."""

    left: Expression
    right: Expression


@dataclass(frozen=True, slots=True)
class Quotient(Numeric):
    """One value divided by another, which checking has shown cannot be zero within the declared ranges."""

    dividend: Expression
    divisor: Expression


@dataclass(frozen=True, slots=True)
class Least(Numeric):
    """The least of several values (``min``)."""

    values: tuple[Expression, ...]


@dataclass(frozen=True, slots=True)
class Greatest(Numeric):
    """The greatest of several values (``max``)."""

    values: tuple[Expression, ...]


@dataclass(frozen=True, slots=True)
class Absolute(Numeric):
    """A value without its sign."""

    of: Expression


@dataclass(frozen=True, slots=True)
class Rounded(Numeric):
    """A value rounded up or down to a whole multiple of ``step`` (in base units; counted from the zero of
    the declared unit)."""

    of: Expression
    step: Fraction
    upward: bool


@dataclass(frozen=True, slots=True)
class LookUp(Numeric):
    """A value read from a table between its printed values as the table says, undetermined outside them."""

    table: Table
    arguments: tuple[Expression, ...]


@dataclass(frozen=True, slots=True)
class Count(Numeric):
    """How many of the conditions hold (``count`` of occupied places)."""

    conditions: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class LaterDate(Numeric):
    """A date moved by whole months (a month that is too short ends on its last day), then by days, then, where
    ``to_month_end``, on to the last day of the month it has come to."""

    date: Expression
    months: int
    days: int
    to_month_end: bool = False


@dataclass(frozen=True, slots=True)
class Case:
    """One case of a guarded choice."""

    guard: Condition
    value: Expression


@dataclass(frozen=True, slots=True)
class Choice(Numeric):
    """The value of the first case whose guard holds, else ``otherwise`` (None: the cases are complete)."""

    cases: tuple[Case, ...]
    otherwise: Expression | None


Expression = (
    Constant | Read | FuelAmount | Named | Sum | Product | Quotient | Least | Greatest | Absolute | Rounded
    | LookUp | Count | LaterDate | Choice
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class AtMost(Node):
    """``subject`` is no more than ``bound``; equal is within."""

    subject: Expression
    bound: Expression


@dataclass(frozen=True, slots=True)
class AtLeast(Node):
    """``subject`` is no less than ``bound``; equal is within."""

    subject: Expression
    bound: Expression


@dataclass(frozen=True, slots=True)
class Between(Node):
    """``subject`` lies between ``low`` and ``high``; both ends are within."""

    subject: Expression
    low: Expression
    high: Expression


@dataclass(frozen=True, slots=True)
class Inside(Node):
    """The point (``across``, ``against``) lies in the envelope or on its boundary."""

    across: Expression
    against: Expression
    envelope: Envelope


@dataclass(frozen=True, slots=True)
class Below(Node):
    """``left`` is less than ``right``; equal is not."""

    left: Expression
    right: Expression


@dataclass(frozen=True, slots=True)
class Above(Node):
    """``left`` is more than ``right``; equal is not."""

    left: Expression
    right: Expression


@dataclass(frozen=True, slots=True)
class Same(Node):
    """Two values, dates or options are the same."""

    left: Expression
    right: Expression


@dataclass(frozen=True, slots=True)
class Occupied(Node):
    """A place or a tank carries something: its mass is more than zero."""

    place: Expression


@dataclass(frozen=True, slots=True)
class Stated(Node):
    """Somebody states a value for the input. Only built-in limits use it: an officer cannot write it, since
    a limit that is lifted by leaving something out would not be safe."""

    input: Input


@dataclass(frozen=True, slots=True)
class AllOf(Node):
    """Every part holds."""

    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class AnyOf(Node):
    """At least one part holds."""

    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Not(Node):
    """The condition does not hold."""

    of: Condition


@dataclass(frozen=True, slots=True)
class NamedCondition(Node):
    """A condition under a name: a ``let`` whose value is a condition."""

    name: str
    label: str
    stage: Stage | None
    body: Condition
    source: Source | None


@dataclass(frozen=True, slots=True)
class ConditionCase:
    """One case of a guarded choice of conditions."""

    guard: Condition
    value: Condition


@dataclass(frozen=True, slots=True)
class ConditionChoice(Node):
    """The condition of the first case whose guard holds, else ``otherwise`` (None: the cases are complete)."""

    cases: tuple[ConditionCase, ...]
    otherwise: Condition | None


Condition = (
    AtMost | AtLeast | Between | Inside | Below | Above | Same | Occupied | Stated | AllOf | AnyOf
    | Not | NamedCondition | ConditionChoice
)  # fmt: skip


Claim = AtMost | AtLeast | Between | Inside
"""The conditions that have a margin."""
