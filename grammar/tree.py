"""The syntax tree: what was written, as it was written, with the place of every part.

It knows nothing of meaning: names are not looked up, units not known, clauses may be missing or doubled.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from grammar.text import Span


@dataclass(frozen=True, slots=True)
class Word:
    """A name, unit or label as typed (a label without its quotation marks)."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Figure:
    """A number as typed, with its sign and its unit if it has one."""

    amount: Fraction
    unit: Word | None
    span: Span


@dataclass(frozen=True, slots=True)
class Day:
    """A calendar date as typed, year-month-day; it may name a day that does not exist."""

    text: str
    span: Span


# ---- expressions and conditions


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


# ---- clauses


@dataclass(frozen=True, slots=True)
class Source:
    """``source fm "2.4"``: a document and a paragraph in it."""

    document: Word
    paragraph: Word
    span: Span


@dataclass(frozen=True, slots=True)
class Note:
    """``note "placard on the panel"``."""

    text: Word
    span: Span


@dataclass(frozen=True, slots=True)
class Effective:
    """``effective 2026-04-01``: the first day on which the sheet holds."""

    day: Day
    span: Span


@dataclass(frozen=True, slots=True)
class Until:
    """``until 2026-06-30``: the last day on which the sheet holds."""

    day: Day
    span: Span


@dataclass(frozen=True, slots=True)
class Replaces:
    """``replaces revision 2``."""

    revision: Figure
    span: Span


@dataclass(frozen=True, slots=True)
class Applies:
    """``applies when pod_fitted is yes``: for which airframes a file or a limit is meant."""

    condition: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class After:
    """``after camera_pod``: the layers that this one comes on top of."""

    layers: tuple[Word, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class IssuedBy:
    """``issued by "Head of training"``."""

    who: Word
    span: Span


@dataclass(frozen=True, slots=True)
class ForAirframe:
    """``airframe "QF-COB"``: the one airframe that a permit is for."""

    registration: Word
    span: Span


@dataclass(frozen=True, slots=True)
class Taken:
    """``use the next higher``: how a table is read between its printed values, when not linearly."""

    direction: Word
    span: Span


@dataclass(frozen=True, slots=True)
class Arm:
    """``arm 610 mm``."""

    length: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class LateralArm:
    """``lateral arm -300 mm``."""

    length: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Density:
    """``density 0.72 kg/L``."""

    amount: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Steps:
    """``in steps of 2.5 kg``."""

    step: Figure
    span: Span


@dataclass(frozen=True, slots=True)
class Each:
    """``of 1.2 kg each``: a load that is counted in pieces, and what one of them weighs."""

    mass: Figure
    span: Span


@dataclass(frozen=True, slots=True)
class FloorArea:
    """``floor area 0.5 m2``."""

    area: Figure
    span: Span


@dataclass(frozen=True, slots=True)
class AssumedEmpty:
    """``assumed empty``."""

    span: Span


@dataclass(frozen=True, slots=True)
class At:
    """``at takeoff``, as a clause of a limit."""

    stage: Word
    span: Span


@dataclass(frozen=True, slots=True)
class Throughout:
    """``throughout``, as a clause of a limit."""

    span: Span


@dataclass(frozen=True, slots=True)
class When:
    """``when airfield is grass``."""

    condition: Expression
    span: Span


Clause = (
    Source | Note | Effective | Until | Replaces | Applies | After | IssuedBy | ForAirframe | Taken | Arm
    | LateralArm | Density | Each | Steps | FloorArea | AssumedEmpty | When
)  # fmt: skip


# ---- what an input can be


@dataclass(frozen=True, slots=True)
class Range:
    """``from 0 kg to 130 kg``."""

    least: Figure
    most: Figure
    span: Span


@dataclass(frozen=True, slots=True)
class OneOf:
    """``is one of standard, boosted``."""

    options: tuple[Word, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class YesOrNo:
    """``is yes or no``."""

    span: Span


@dataclass(frozen=True, slots=True)
class ADate:
    """``is a date``."""

    span: Span


@dataclass(frozen=True, slots=True)
class Measured:
    """``in ft from 0 ft to 8000 ft``; a plain number has no unit, and the range may be absent."""

    unit: Word | None
    range: Range | None
    span: Span


Information = OneOf | YesOrNo | ADate | Measured


# ---- statements


@dataclass(frozen=True, slots=True)
class SheetHeader:
    """``sheet corrin_t2 revision 3 "…"``."""

    name: Word
    revision: Figure
    title: Word
    clauses: tuple[Clause, ...]
    span: Span


class LayerKind(Enum):
    """What a file that builds on a sheet is, by its keyword."""

    SUPPLEMENT = "supplement"
    ORDER = "order"
    PERMIT = "permit"


@dataclass(frozen=True, slots=True)
class LayerHeader:
    """``supplement camera_pod revision 1 to corrin_t2 "…"``, and likewise an order or a permit."""

    kind: LayerKind
    name: Word
    revision: Figure
    to: Word
    title: Word
    clauses: tuple[Clause, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Document:
    """``document fm "…"``."""

    name: Word
    title: Word
    span: Span


@dataclass(frozen=True, slots=True)
class Datum:
    """``datum "…"``."""

    text: Word
    span: Span


@dataclass(frozen=True, slots=True)
class Chord:
    """``chord from 2200 mm length 1400 mm``."""

    start: Figure
    length: Figure
    clauses: tuple[Clause, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Fact:
    """What is fixed for one airframe."""

    name: Word
    label: Word | None
    information: Information
    clauses: tuple[Clause, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Given:
    """What is known only for the flight."""

    name: Word
    label: Word | None
    information: Information
    clauses: tuple[Clause, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class WeighedApart:
    """``floats weighed apart``: the airframe has a weighing of its own for this way of fitting it."""

    option: Word
    span: Span


@dataclass(frozen=True, slots=True)
class Adds:
    """``skis adds 12 kg arm 2300 mm``: what this way of fitting it adds to the weighing."""

    option: Word
    mass: Figure
    arm: Arm | None
    lateral_arm: LateralArm | None
    span: Span


Fitting = WeighedApart | Adds


@dataclass(frozen=True, slots=True)
class Configuration:
    """The ways in which the airframe can be fitted for a flight."""

    name: Word
    label: Word | None
    options: tuple[Word, ...]
    fittings: tuple[Fitting, ...]
    clauses: tuple[Clause, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Declared:
    """``declared front_seat, rear_seat add 4 kg``: what is added to a mass that is declared and not weighed.

    ``by_order`` is written where an order adds it and the statement stands in a resolved sheet.
    """

    places: tuple[Word, ...]
    add: Figure
    by_order: bool
    clauses: tuple[Clause, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Load:
    """A place that carries mass."""

    name: Word
    label: Word | None
    range: Range
    clauses: tuple[Clause, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Fuel:
    """A tank."""

    name: Word
    label: Word | None
    range: Range
    clauses: tuple[Clause, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class BurnStep:
    """One stretch of the burn: the tanks drawn from together, and how far down."""

    tanks: tuple[Word, ...]
    down_to: Figure | None
    span: Span


@dataclass(frozen=True, slots=True)
class Burn:
    """The order in which the tanks are used."""

    steps: tuple[BurnStep, ...]
    clauses: tuple[Clause, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Let:
    """A name for an expression."""

    name: Word
    value: Expression
    clauses: tuple[Clause, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Axis:
    """``pressure_altitude in ft``; an axis of choices has no unit."""

    name: Word
    unit: Word | None
    span: Span


@dataclass(frozen=True, slots=True)
class Row:
    """One printed row; an empty cell is None, a heading a word."""

    cells: tuple[Figure | Word | None, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Table:
    """A printed table of one or two axes."""

    name: Word
    label: Word | None
    axes: tuple[Axis, ...]
    gives: Word
    clauses: tuple[Clause, ...]
    rows: tuple[Row, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Envelope:
    """A printed polygon."""

    name: Word
    label: Word | None
    across: Axis
    against: Axis
    clauses: tuple[Clause, ...]
    rows: tuple[Row, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Limit:
    """What must hold (a limit), or what is only shown when it does not (a caution)."""

    name: Word
    label: Word | None
    stage: At | Throughout | None
    claim: Expression
    clauses: tuple[Clause, ...]
    is_caution: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Setting:
    """``front_seat 82 kg`` in an example; the value of an option or of yes and no is a word.

    ``manner`` is ``declared`` or ``weighed`` where the example says which.
    """

    name: Word
    value: Figure | Day | Word
    manner: Word | None
    span: Span


@dataclass(frozen=True, slots=True)
class ExpectValue:
    """``expect mass at takeoff 487.2 kg give or take 0.1 kg``."""

    subject: Expression
    value: Figure | Day
    give_or_take: Figure | None
    span: Span


@dataclass(frozen=True, slots=True)
class ExpectVerdict:
    """``expect front_seat_max outside by 7 kg``. ``by`` is absent where no margin is expected."""

    limit: Word
    verdict: Word
    by: Figure | None
    span: Span


Expectation = ExpectValue | ExpectVerdict


@dataclass(frozen=True, slots=True)
class Example:
    """A worked example from the manual."""

    name: Word
    label: Word | None
    given: tuple[Setting, ...]
    loads: tuple[Setting, ...]
    expectations: tuple[Expectation, ...]
    clauses: tuple[Clause, ...]
    span: Span


Amendable = (
    Chord | Fact | Given | Configuration | Load | Fuel | Burn | Declared | Let | Table | Envelope | Limit
)  # fmt: skip
"""The statements that a supplement may put in the place of those of the same name."""


@dataclass(frozen=True, slots=True)
class Amend:
    """``amend limit …``: a statement that takes the place of the one of the same name."""

    statement: Amendable
    span: Span


@dataclass(frozen=True, slots=True)
class Loosen:
    """``loosen limit …``: a limit that a permit puts in the place of the one of the same name."""

    statement: Limit
    span: Span


@dataclass(frozen=True, slots=True)
class Withdraw:
    """``withdraw load rear_seat``."""

    thing: Word
    name: Word
    clauses: tuple[Clause, ...]
    span: Span


Statement = (
    SheetHeader | LayerHeader | Document | Datum | Chord | Fact | Given | Configuration | Load | Fuel | Burn
    | Declared | Let | Table | Envelope | Limit | Example | Amend | Loosen | Withdraw
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Comment:
    """A comment, from its two hyphens to the end of its line."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Unread:
    """A statement that could not be read: enough of it is kept that nothing that leans on it is blamed."""

    keyword: str
    name: str | None
    span: Span


@dataclass(frozen=True, slots=True)
class File:
    """A whole file: its statements in the order written, those that could not be read, and its comments."""

    statements: tuple[Statement, ...]
    unread: tuple[Unread, ...]
    comments: tuple[Comment, ...]
