"""The checked sheet: immutable, every name resolved, every figure an exact rational in base units.

Everything else in the program is an interpretation of this structure. It says nothing of how it is used.

Three ideas hold it together:

* What the language has built in (mass, cg, volume, the bound of another limit) is spelled out here in the
  same few kinds of expression that an officer's own limits are made of, each under its name (``Named``). An
  interpretation that knows the expressions below knows the whole language.
* Each expression and condition has a *slot*. An evaluation is a tuple of values, one a slot, so an
  explanation is the pair of this structure and such a tuple.
* A value that depends on the stage of the flight is a different expression at each stage. What moves with
  the burn (stage ``THROUGHOUT``) belongs to one limit alone, so that its slots can hold the values at the
  fuel state where that limit is tightest.

Spans and slots do not count when two sheets are compared.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import Enum, unique
from fractions import Fraction

from grammar.text import Span
from grammar.units import Dimension, Unit


@unique
class Stage(Enum):
    """A moment of the flight; ``THROUGHOUT`` is every moment from take-off down to landing."""

    RAMP = "ramp"
    TAKEOFF = "takeoff"
    LANDING = "landing"
    ZERO_FUEL = "zero_fuel"
    THROUGHOUT = "throughout"


# ---- kinds of value


@dataclass(frozen=True, slots=True)
class Measure:
    """An amount of a dimension; a value of this kind is a Fraction in base units."""

    dimension: Dimension


@dataclass(frozen=True, slots=True)
class TemperaturePoint:
    """A point on the temperature scale; its value is a Fraction in kelvin."""


@dataclass(frozen=True, slots=True)
class CalendarDate:
    """A day; its value is a Fraction, the day's number counted from 0001-01-01 as day 1."""


@dataclass(frozen=True, slots=True)
class Option:
    """One of a list, or yes or no; its value is the option's word."""

    options: tuple[str, ...]
    is_yes_or_no: bool = False


Kind = Measure | TemperaturePoint | CalendarDate | Option


# ---- where a figure comes from


@dataclass(frozen=True, slots=True)
class Document:
    """A manual, supplement or bulletin."""

    name: str
    title: str
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class Source:
    """A paragraph of a document."""

    document: Document
    paragraph: str


# ---- inputs


@unique
class Role(Enum):
    """Who knows an input: the weighing, the airframe's record, or only the request."""

    WEIGHING = "weighing"
    FACT = "fact"
    GIVEN = "given"
    LOAD = "load"
    TANK = "tank"


@dataclass(frozen=True, slots=True)
class Input:
    """Something that a request or an airframe's record states.

    ``least`` and ``most`` are in base units. For a load or a tank they make a limit; for anything else they
    say what the manual covers, and a value beyond them is as good as missing. ``assumed`` is the value taken
    when nobody states one. A tank's amount is in the dimension it was declared in (a volume or a mass).
    """

    name: str
    label: str
    role: Role
    kind: Kind
    unit: Unit | None
    least: Fraction | None
    most: Fraction | None
    assumed: Fraction | str | None
    source: Source | None
    note: str | None
    span: Span | None = field(compare=False)
    is_built_in: bool = False


# ---- expressions


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


# ---- conditions


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


# ---- statements


@dataclass(frozen=True, slots=True)
class Axis:
    """An axis of a table or an envelope: what is along it and in which unit it was printed."""

    name: str
    unit: Unit
    points: tuple[Fraction, ...] = ()
    """The printed values, strictly rising, in base units (empty for an envelope)."""


@unique
class Taking(Enum):
    """What holds between two printed values of a table's axis: the straight line, or one of the two."""

    LINEAR = "linear"
    NEXT_HIGHER = "next higher"
    NEXT_LOWER = "next lower"


@dataclass(frozen=True, slots=True)
class Table:
    """A printed table. ``rows[i]`` belongs to point i of the first axis; with one axis each row has one value.

    Values are in base units. Two axes: ``rows[i][j]`` belongs to point j of the second axis.
    """

    name: str
    label: str
    axes: tuple[Axis, ...]
    unit: Unit
    taking: Taking
    rows: tuple[tuple[Fraction, ...], ...]
    source: Source
    note: str | None
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class Envelope:
    """A printed simple polygon, straight-edged in the axes it was printed in, closed.

    Corners are (across, against) in base units, in the order printed.
    """

    name: str
    label: str
    across: Axis
    against: Axis
    corners: tuple[tuple[Fraction, Fraction], ...]
    source: Source
    note: str | None
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class Place:
    """A place that carries mass. Arms are absent where the sheet has no balance to work out.

    ``mass_of_one`` is what one of the things weighs that its input counts: the mass of a piece, or the density
    of what is stated by volume. It is absent where the input is a mass.
    """

    input: Input
    mass_of_one: Expression | None
    arm: Expression | None
    lateral_arm: Expression | None
    step: Fraction | None
    floor_area: Fraction | None


@dataclass(frozen=True, slots=True)
class Tank:
    """A tank. Its amounts are in the dimension of its input's unit, a volume or a mass, the same for every
    tank of a sheet. ``density`` is absent where the tank is declared by mass and has none."""

    input: Input
    density: Expression | None
    arm: Expression | None
    lateral_arm: Expression | None


@dataclass(frozen=True, slots=True)
class BurnStep:
    """One stretch of the burn: its tanks are drawn from equally, each down to ``down_to`` (base units).

    A tank that is there already drops out and the others go on; the step ends when all have dropped out.
    """

    tanks: tuple[Tank, ...]
    down_to: Fraction


@dataclass(frozen=True, slots=True)
class Burn:
    """The order in which the tanks are used, and the inputs that say how much is: for taxiing (taken as none
    when nobody states it) and for the trip. Amounts are in the dimension of the tanks. ``span`` is None where
    a single tank needs no order."""

    steps: tuple[BurnStep, ...]
    taxi: Input
    trip: Input
    source: Source | None
    span: Span | None = field(compare=False)


@dataclass(frozen=True, slots=True)
class Chord:
    """The mean aerodynamic chord: where it begins (an arm) and how long it is, in metres; ``unit`` is the one
    in which the manual prints it."""

    start: Fraction
    length: Fraction
    unit: Unit
    source: Source | None
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class Let:
    """A name for an expression, as declared. Where it is used it stands as ``Named`` or ``NamedCondition``."""

    name: str
    source: Source | None
    note: str | None
    span: Span = field(compare=False)


@unique
class Weight(Enum):
    """What a broken limit does: refuse the load, or only be shown."""

    LIMIT = "limit"
    CAUTION = "caution"


@unique
class Ground(Enum):
    """Why a limit is there: stated as such, the range of a load or a tank, or plain arithmetic of the burn."""

    STATED = "stated"
    RANGE = "range"
    BURN = "burn"


@dataclass(frozen=True, slots=True)
class Limit:
    """What must hold, at a stage or throughout the burn, when its condition applies.

    The range of a load or a tank is a limit of the same name as the load (``ground`` is RANGE).
    """

    name: str
    label: str
    weight: Weight
    ground: Ground
    stage: Stage | None
    claim: Condition
    applies_when: Condition | None
    source: Source | None
    note: str | None
    span: Span = field(compare=False)


@unique
class Verdict(Enum):
    """How a limit came out."""

    WITHIN = "within"
    OUTSIDE = "outside"
    UNDETERMINED = "undetermined"
    NOT_APPLICABLE = "not applicable"


@dataclass(frozen=True, slots=True)
class ExpectedValue:
    """A value that a worked example prints, in base units, and how far the print may be off."""

    subject: Expression
    value: Fraction
    give_or_take: Fraction
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class ExpectedVerdict:
    """A verdict that a worked example states; ``by`` is the size of the margin, where it is stated, and
    ``by_unit`` the unit it was printed in (None for a number of days).

    ``limit`` None stands for the whole sheet.
    """

    limit: Limit | None
    verdict: Verdict
    by: Fraction | None
    by_unit: Unit | None
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class Example:
    """A worked example from the manual: what is stated, and what comes out."""

    name: str
    label: str
    settings: tuple[tuple[Input, Fraction | str], ...]
    expectations: tuple[ExpectedValue | ExpectedVerdict, ...]
    source: Source | None
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class Header:
    """Which type and revision the sheet is for, and on which days it holds (day numbers, both included)."""

    name: str
    revision: int
    title: str
    effective: Fraction | None
    until: Fraction | None
    replaces: int | None
    span: Span = field(compare=False)


@unique
class LayerKind(Enum):
    """What sort of file a part of a resolved sheet comes from."""

    SHEET = "sheet"
    SUPPLEMENT = "supplement"
    ORDER = "order"
    PERMIT = "permit"


@dataclass(frozen=True, slots=True)
class Layer:
    """One of the files that a resolved sheet is made of, and the days on which it holds (both included)."""

    kind: LayerKind
    name: str
    revision: int
    title: str
    file: str
    effective: Fraction | None
    until: Fraction | None
    airframe: str | None
    issued_by: str | None


@dataclass(frozen=True, slots=True)
class Displaced:
    """A statement that another took the place of: the layer it stood in, its line, and its paragraph."""

    layer: Layer
    source: str
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a statement of a resolved sheet comes from when it is not the sheet itself, and what it displaced,
    the latest first."""

    name: str
    layer: Layer
    displaced: tuple[Displaced, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A checked sheet."""

    header: Header
    layers: tuple[Layer, ...]
    """The files it was resolved from, the sheet itself first; empty for a sheet checked by itself."""
    origins: tuple[Origin, ...]
    datum: str | None
    chord: Chord | None
    documents: tuple[Document, ...]
    inputs: tuple[Input, ...]
    places: tuple[Place, ...]
    tanks: tuple[Tank, ...]
    burn: Burn | None
    """None for a sheet without fuel."""
    lets: tuple[Let, ...]
    tables: tuple[Table, ...]
    envelopes: tuple[Envelope, ...]
    limits: tuple[Limit, ...]
    examples: tuple[Example, ...]
    slots: int = field(compare=False)
    """How many slots a tuple of values has."""


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
