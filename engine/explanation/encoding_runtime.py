"""What the generated encoder calls while it runs: margins and quantities from whole numbers, as published."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from functools import cmp_to_key
from typing import Final, NamedTuple

from engine.explanation.encoding_figures import (
    Shown,
    decimals_apart,
    in_a_sentence,
    share_of,
    shown_ratio,
)
from engine.explanation.encoding_frames import quantity_frame
from grammar.figures import Rounding


@dataclass(frozen=True, slots=True)
class QuantityFrames:
    """The frames of a quantity in one unit."""

    exact: str
    rounded: str

    def filled(self, figure: Shown) -> str:
        """The JSON of a quantity."""
        text, exact = figure
        return self.exact % text if exact is None else self.rounded % (text, exact)


def quantity_frames(unit: str) -> QuantityFrames:
    """The frames of a quantity in a unit, by its word."""
    return QuantityFrames(quantity_frame(unit, is_exact=True), quantity_frame(unit, is_exact=False))


_SHARE: Final = quantity_frames("%")


def share_json(room: int, bound: int) -> str:
    """The JSON of a room as a share of the bound, both in one unit."""
    share = share_of(room, bound)
    return "null" if share is None else _SHARE.filled(share)


def day_text(number: int) -> str:
    """A day of the calendar as text."""
    return date.fromordinal(number).isoformat()


# ---- margins


class Told(NamedTuple):
    """A margin as the encoder needs it: what orders it, its JSON, and its figures for a sentence.

    ``level`` is 0, or the sign of the room where the bound is zero; the share is ``share[0] / share[1]``,
    the room in base units ``room[0] / room[1]``.
    """

    side: int
    level: int
    share: tuple[int, int]
    dimension: int
    room: tuple[int, int]
    json: str
    texts: tuple[str, str, str]

    @property
    def sign(self) -> int:
        """The sign of the room."""
        return (self.room[0] > 0) - (self.room[0] < 0)


@dataclass(frozen=True, slots=True)
class SideFrame:
    """What is known beforehand of one side of a claim.

    ``frame`` is the margin's JSON with places for subject, bound, room and share. ``is_up`` says that more is
    worse. ``base`` brings rooms of one dimension to one unit.
    """

    side: int
    frame: str
    is_up: bool
    quantities: QuantityFrames
    differences: QuantityFrames
    dimension: int
    base: tuple[int, int]


def told(frame: SideFrame, subject: tuple[int, int], bound: tuple[int, int], room: tuple[int, int]) -> Told:
    """A margin from its three values in the unit in which it is shown, each a numerator over a denominator."""
    (s, s_below), (b, b_below), (r, r_below) = subject, bound, room
    decimals = decimals_apart(b * s_below - s * b_below, b_below * s_below)
    lean, other = (Rounding.UP, Rounding.DOWN) if frame.is_up else (Rounding.DOWN, Rounding.UP)
    shown_subject = shown_ratio(s, s_below, lean, decimals)
    shown_bound = shown_ratio(b, b_below, other, decimals)
    shown_room = shown_ratio(r, r_below, Rounding.DOWN, decimals)
    share = (r * b_below, abs(b) * r_below)
    json = frame.frame % (
        frame.quantities.filled(shown_subject),
        frame.quantities.filled(shown_bound),
        frame.differences.filled(shown_room),
        share_json(r * b_below, b * r_below),
    )
    texts = (in_a_sentence(shown_subject), in_a_sentence(shown_bound), _size(shown_room))
    return Told(
        frame.side,
        0 if b else (r > 0) - (r < 0),
        share if b else (0, 1),
        frame.dimension,
        (r * frame.base[0], r_below * frame.base[1]),
        json,
        texts,
    )


def _size(room: Shown) -> str:
    """The size of a room: rounded away from the flattering side, it has the digits of the room itself."""
    text, exact = room
    return in_a_sentence((text.removeprefix("-"), exact))


def arranged(margins: list[Told]) -> list[Told]:
    """The margins, the tightest first, as ``tightest_first`` orders them."""
    if len(margins) == 1:
        return margins
    dimensions = [margin.dimension for margin in margins]
    first = {dimension: dimensions.index(dimension) for dimension in dimensions}

    def compared(a: Told, b: Told) -> int:
        if a.level != b.level:
            return a.level - b.level
        shares = a.share[0] * b.share[1] - b.share[0] * a.share[1]
        if shares:
            return 1 if shares > 0 else -1
        if a.dimension != b.dimension:
            return first[a.dimension] - first[b.dimension]
        return compare_rooms(a, b)

    return sorted(margins, key=cmp_to_key(compared))


def compare_rooms(a: Told, b: Told) -> int:
    """Which of two rooms of one dimension is less."""
    difference = a.room[0] * b.room[1] - b.room[0] * a.room[1]
    return (difference > 0) - (difference < 0)


# ---- sentences


Figure = str | tuple[int, int]
"""A figure as text, or as a numerator and a denominator still to be rounded."""


@dataclass(frozen=True, slots=True)
class Hole:
    """A place in a sentence: for a figure of a slot, of a margin or of a tank, by its number.

    ``lean`` is which way a figure is rounded that is no decimal beforehand.
    """

    kind: str
    number: int
    lean: Rounding | None = None


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence of a limit as it runs for one turn of events, with places for its figures."""

    frame: str
    holes: tuple[Hole, ...]
    is_of_margins: bool = field(init=False)
    numbers: tuple[int, ...] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "is_of_margins", all(hole.kind == "margin" for hole in self.holes))
        object.__setattr__(self, "numbers", tuple(hole.number for hole in self.holes))

    def filled(self, figures: tuple[Figure, ...], margins: tuple[str, ...], left: tuple[str, ...]) -> str:
        """The sentence with its figures, as it stands in JSON."""
        if self.is_of_margins:
            return self.frame % tuple([margins[number] for number in self.numbers])
        return self.frame % tuple([_filling(hole, figures, margins, left) for hole in self.holes])


def _filling(hole: Hole, figures: tuple[Figure, ...], margins: tuple[str, ...], left: tuple[str, ...]) -> str:
    if hole.kind == "margin":
        return margins[hole.number]
    if hole.kind == "left":
        return left[hole.number]
    figure = figures[hole.number]
    return figure if isinstance(figure, str) else in_a_sentence(shown_ratio(*figure, hole.lean or Rounding.NEAREST))


NO_SENTENCE: Final = Sentence("", ())
"""What stands for a sentence that is still to be learned."""
