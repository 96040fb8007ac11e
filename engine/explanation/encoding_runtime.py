"""What the generated encoder calls while it runs: margins and quantities from whole numbers, as published."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date
from math import gcd
from operator import itemgetter
from typing import Final, NamedTuple

from engine.evaluation.compiling.envelopes import WholeSlices, whole_intervals
from engine.explanation.encoding_figures import (
    ENDS,
    FEW,
    REST,
    Shown,
    decimals_apart,
    in_a_sentence,
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
        return self.exact % text if exact is None else self.rounded % figure


def quantity_frames(unit: str) -> QuantityFrames:
    """The frames of a quantity in a unit, by its word."""
    return QuantityFrames(quantity_frame(unit, is_exact=True), quantity_frame(unit, is_exact=False))


_SHARE: Final = quantity_frames("%")
_EXACT_SHARE, _ROUNDED_SHARE = _SHARE.exact, _SHARE.rounded


def share_json(n: int, d: int) -> str:
    """The JSON of a share of n/d per cent; null where d is zero."""
    if d > 0:
        whole, rest = divmod(n * FEW, d)
        if whole >= FEW and rest and rest * REST % d:
            shared = gcd(n, d)
            return _ROUNDED_SHARE % (f"{whole // FEW}{ENDS[whole % FEW]}", f"{n // shared}/{d // shared}")
    elif not d:
        return "null"
    figure = shown_ratio(n, abs(d), Rounding.DOWN)
    return _EXACT_SHARE % figure[0] if figure[1] is None else _ROUNDED_SHARE % figure


def day_text(number: int) -> str:
    """A day of the calendar as text."""
    return date.fromordinal(number).isoformat()


# ---- margins


class Told(NamedTuple):
    """A margin as the encoder needs it: what orders it, its JSON, and its figures for a sentence.

    ``level`` is 0, or the sign of the room where the bound is zero; the share is ``share[0] / share[1]``,
    the room in base units ``room[0] / room[1]``. ``exact`` says which of the three figures is.
    """

    side: int
    level: int
    share: tuple[int, int]
    dimension: int
    room: tuple[int, int]
    json: str
    texts: tuple[str, str, str]
    exact: tuple[bool, bool, bool]


Order = tuple[tuple[int, int, tuple[bool, bool, bool]], ...]
"""The sides of the margins in order, each with the sign of its room and which of its figures are exact."""


def order_of(margins: list[Told]) -> Order:
    """What a sentence may hang on: the order of the margins, their signs, and which figures are exact."""
    return tuple([(at.side, (at.room[0] > 0) - (at.room[0] < 0), at.exact) for at in margins])


@dataclass(frozen=True, slots=True)
class SideFrame:
    """What is known beforehand of one side of a claim.

    ``frame`` is the margin's JSON with places for subject, bound, room and share, ``decimal_frame`` the same
    with places for their texts where all are decimals beforehand. ``is_up`` says that more is
    worse. ``base`` brings rooms of one dimension to one unit.
    """

    side: int
    frame: str
    decimal_frame: str
    is_up: bool
    quantities: QuantityFrames
    differences: QuantityFrames
    dimension: int
    base: tuple[int, int]


Pair = tuple[int, int]
"""A numerator and a denominator that is more than zero."""


def told(frame: SideFrame, subject: Pair, bound: Pair, room: Pair, share: Pair) -> Told:
    """A margin from its three values in the unit in which it is shown, and the room over the bound."""
    (s, s_below), (b, b_below), (r, r_below) = subject, bound, room
    decimals = decimals_apart(r, r_below)
    lean, other = (Rounding.UP, Rounding.DOWN) if frame.is_up else (Rounding.DOWN, Rounding.UP)
    shown_subject = shown_ratio(s, s_below, lean, decimals)
    shown_bound = shown_ratio(b, b_below, other, decimals)
    shown_room = shown_ratio(r, r_below, Rounding.DOWN, decimals)
    filled = frame.quantities.filled
    json = frame.frame % (
        filled(shown_subject),
        filled(shown_bound),
        frame.differences.filled(shown_room),
        share_json(100 * share[0], share[1]),
    )
    size = shown_room if r >= 0 else (shown_room[0][1:], shown_room[1])
    return Told(
        frame.side,
        0 if b else (r > 0) - (r < 0),
        (share[0], abs(share[1])) if b else (0, 1),
        frame.dimension,
        (r * frame.base[0], r_below * frame.base[1]),
        json,
        (in_a_sentence(shown_subject), in_a_sentence(shown_bound), in_a_sentence(size)),
        (shown_subject[1] is None, shown_bound[1] is None, shown_room[1] is None),
    )


def told_in_decimals(
    frame: SideFrame, values: tuple[int, int, int], texts: tuple[str, str, str], decimals: int
) -> Told:
    """A margin whose three values are whole numbers of one decimal; ``texts`` are its figures."""
    _, bound, room = values
    json = frame.decimal_frame % (*texts, share_json(100 * room, bound))
    return Told(
        frame.side,
        0 if bound else (room > 0) - (room < 0),
        (room, abs(bound)) if bound else (0, 1),
        frame.dimension,
        (room * frame.base[0], 10**decimals * frame.base[1]),
        json,
        texts if room >= 0 else (texts[0], texts[1], texts[2][1:]),
        (True, True, True),
    )


@dataclass(frozen=True, slots=True)
class PointAxis:
    """One axis of an envelope for a point that stands still.

    ``slices`` are the envelope's along this axis at the levels of the other, ``frames`` those of its lesser
    and its greater side, ``factor`` brings a value to the unit in which it is shown.
    """

    slices: WholeSlices
    frames: tuple[SideFrame, SideFrame]
    factor: tuple[int, int]


def told_of_point(axes: tuple[PointAxis, PointAxis], across: Pair, against: Pair) -> list[Told]:
    """The margins of a point: the envelope's boundary on both sides, or the nearest way in."""
    ways = ((axes[0], across, against), (axes[1], against, across))
    return [margin for axis, position, level in ways for margin in _told_on_axis(axis, position, level)]


def _told_on_axis(axis: PointAxis, position: Pair, level: Pair) -> Iterator[Told]:
    n, d = position
    times, parts = axis.factor
    for is_low, (bound, below) in _reaches(axis.slices, position, level):
        room = n * below - bound * d if is_low else bound * d - n * below
        frame = axis.frames[0] if is_low else axis.frames[1]
        subject, edge = (n * times, d * parts), (bound * times, below * parts)
        yield told(frame, subject, edge, (room * times, d * below * parts), (room, bound * d))


def _reaches(slices: WholeSlices, position: Pair, level: Pair) -> list[tuple[bool, Pair]]:
    """As ``envelope.reaches`` has it: each with whether it is on the lesser side, and where it lies."""
    (n, d), (m, e) = position, level
    before: Pair | None = None
    for low, high in whole_intervals(slices, m, e):
        least, most = _at(low, m, e), _at(high, m, e)
        if n * least[1] < least[0] * d:
            return [(True, least)] if before is None else [(True, least), (False, before)]
        if n * most[1] <= most[0] * d:
            return [(True, least), (False, most)]
        before = most
    return [] if before is None else [(False, before)]


def _at(line: tuple[int, int, int], m: int, e: int) -> Pair:
    """Where an edge lies at the level m/e."""
    a, b, p = line
    return a * e + b * m, p * e


def placed(margins: list[Told], sides: int) -> tuple[str, ...]:
    """The figures of the margins, three for each side of the limit; empty for a side without a margin."""
    texts = [""] * (3 * sides)
    for margin in margins:
        texts[3 * margin.side : 3 * margin.side + 3] = margin.texts
    return tuple(texts)


def rooms_compared(margins: list[Told], a: int, b: int) -> int:
    """Which of the rooms of two sides is less; 0 where not both have a margin."""
    found = {margin.side: margin for margin in margins}
    return compare_rooms(found[a], found[b]) if a in found and b in found else 0


def arranged(margins: list[Told]) -> list[Told]:
    """The margins, the tightest first, as ``tightest_first`` orders them."""
    ordered = margins[:1]
    for margin in margins[1:]:
        at = len(ordered)
        while at and _comes_before(margin, ordered[at - 1], margins):
            at -= 1
        ordered.insert(at, margin)
    return ordered


def _comes_before(a: Told, b: Told, margins: list[Told]) -> bool:
    if a.level != b.level:
        return a.level < b.level
    (one, one_below), (other, other_below) = a.share, b.share
    left, right = one * other_below, other * one_below
    if left != right:
        return left < right
    if a.dimension != b.dimension:
        first = [margin.dimension for margin in margins]
        return first.index(a.dimension) < first.index(b.dimension)
    return compare_rooms(a, b) < 0


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
    """A sentence of a limit as it runs for one turn of events, with places for its figures.

    ``pick`` takes the figures straight from those of the margins, where no others are needed.
    """

    frame: str
    holes: tuple[Hole, ...]
    pick: Callable[[tuple[str, ...]], tuple[str, ...]] | None = field(init=False, compare=False)

    def __post_init__(self) -> None:
        is_of_margins = all(hole.kind == "margin" for hole in self.holes)
        numbers = [hole.number for hole in self.holes]
        pick = itemgetter(*numbers) if is_of_margins and len(numbers) > 1 else None
        object.__setattr__(self, "pick", pick)

    def filled(self, figures: tuple[Figure, ...], margins: tuple[str, ...], left: tuple[str, ...]) -> str:
        """The sentence with its figures, as it stands in JSON."""
        if self.pick is not None:
            return self.frame % self.pick(margins)
        return self.frame % tuple([_filling(hole, figures, margins, left) for hole in self.holes])


def _filling(hole: Hole, figures: tuple[Figure, ...], margins: tuple[str, ...], left: tuple[str, ...]) -> str:
    if hole.kind == "margin":
        return margins[hole.number]
    if hole.kind == "left":
        return left[hole.number]
    figure = figures[hole.number]
    return (
        figure if isinstance(figure, str) else in_a_sentence(shown_ratio(*figure, hole.lean or Rounding.NEAREST))
    )


NO_SENTENCE: Final = Sentence("", ())
"""What stands for a sentence that is still to be learned."""
