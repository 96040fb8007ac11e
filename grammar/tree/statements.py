"""Statements, and the file that they stand in."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from grammar.text import Span
from grammar.tree.clauses import Arm, At, Clause, Information, LateralArm, Range, Throughout
from grammar.tree.expressions import Expression
from grammar.tree.words import Day, Figure, Word


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
