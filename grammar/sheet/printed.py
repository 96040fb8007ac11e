"""What a manual prints: tables and envelopes."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum, unique
from fractions import Fraction

from grammar.sheet.kinds import Source
from grammar.text import Span
from grammar.units import Unit


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
