"""Clauses of statements, and what an input is said to be."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.text import Span
from grammar.tree.expressions import Expression
from grammar.tree.words import Day, Figure, Word


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
