"""Limits, worked examples, layers, and the sheet that holds them all."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum, unique
from fractions import Fraction

from grammar.sheet.carried import Burn, Chord, Place, Tank
from grammar.sheet.expressions import Condition, Expression
from grammar.sheet.kinds import Document, Input, Source, Stage
from grammar.sheet.printed import Envelope, Table
from grammar.text import Span
from grammar.units import Unit


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
