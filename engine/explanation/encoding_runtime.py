"""What the generated encoder calls while it runs: margins and quantities from whole numbers, as published."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from datetime import date
from operator import itemgetter
from typing import Final, NamedTuple, cast

from engine.evaluation.compiling.envelopes import WholeSlices, whole_intervals
from engine.explanation.amounts import FEWEST_DECIMALS
from engine.explanation.encoding_figures import (
    ENDS,
    FEW,
    Shown,
    decimal_text,
    decimals_apart,
    in_a_sentence,
    shown_ratio,
)
from engine.explanation.encoding_frames import EXACTLY, quantity_frame
from grammar.figures import ABOUT, Rounding


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


SHARE_STEPS: Final = 100 * FEW
"""How many of the last decimal of a share in per cent make a whole."""


def share_json(steps: int) -> str:
    """The JSON of a share in steps of its last decimal."""
    if steps < 0:
        return f'"{decimal_text(steps, FEWEST_DECIMALS)}"'
    return f'"{steps // FEW}{ENDS[steps % FEW]}"'


def share_of(room: int, bound: int) -> str:
    """The JSON of a room as a share of a bound; null for a bound of zero."""
    return share_json(room * SHARE_STEPS // abs(bound)) if bound else "null"


def day_text(number: int) -> str:
    """A day of the calendar as text."""
    return date.fromordinal(number).isoformat()


# ---- margins


class Told(NamedTuple):
    """A margin as the encoder needs it: what orders it, its JSON, and its figures for a sentence.

    ``rank`` is 0, or the sign of the room where the bound is zero, and the share in steps, rounded down; the
    share itself is ``share[0] / share[1]``, the room in base units ``room[0] / room[1]``. ``turn`` is what a
    sentence may hang on: the side, the sign of the room, and which of the three figures is exact.
    """

    side: int
    rank: tuple[int, int]
    share: tuple[int, int]
    dimension: int
    room: tuple[int, int]
    json: str
    texts: tuple[str, str, str]
    turn: tuple[int, int, tuple[bool, bool, bool]]


Order = tuple[tuple[int, int, tuple[bool, bool, bool]], ...]
"""The sides of the margins in order, each with the sign of its room and which of its figures are exact."""


DecimalPieces = tuple[str, str, str, str, str]
"""What stands in a margin's JSON between the texts of subject, bound, room and share."""

Pieces = tuple[str, str, str, str, str, str, str, str]
"""The same with a place after each of the first three for how exact it is."""


class SideFrame(NamedTuple):
    """What is known beforehand of one side of a claim.

    ``pieces`` are the margin's JSON, ``decimal_pieces`` where all its values are decimals beforehand. ``leans``
    are how subject and bound are rounded: where more is worse, the subject up. ``base`` brings rooms of one
    dimension to one unit.
    """

    side: int
    pieces: Pieces
    decimal_pieces: DecimalPieces
    leans: tuple[Rounding, Rounding]
    dimension: int
    base: tuple[int, int]


Pair = tuple[int, int]
"""A numerator and a denominator that is more than zero."""


def told(frame: SideFrame, subject: Pair, bound: Pair, room: Pair, share: Pair) -> Told:
    """A margin from its three values in the unit in which it is shown, and the room over the bound."""
    (s, s_below), (b, b_below), (r, r_below), (above, below) = subject, bound, room, share
    side, (before, s1, s2, b1, b2, r1, r2, after), _, (lean, other), dimension, (times, parts) = frame
    decimals = 0 if abs(r) * FEW > 2 * r_below else decimals_apart(r, r_below)
    s_text, s_exact = shown_ratio(s, s_below, lean, decimals)
    b_text, b_exact = shown_ratio(b, b_below, other, decimals)
    r_text, r_exact = shown_ratio(r, r_below, Rounding.DOWN, decimals)
    if b:
        below, zero_sign = abs(below), 0
        steps = above * SHARE_STEPS // below
        shown_share = share_json(steps)
    else:
        above, below, zero_sign, steps, shown_share = 0, 1, (r > 0) - (r < 0), 0, "null"
    s_how, s_said = (EXACTLY, s_text) if s_exact is None else (f'false,"exact":"{s_exact}"', ABOUT + s_text)
    b_how, b_said = (EXACTLY, b_text) if b_exact is None else (f'false,"exact":"{b_exact}"', ABOUT + b_text)
    size = r_text if r >= 0 else r_text[1:]
    r_how, r_said = (EXACTLY, size) if r_exact is None else (f'false,"exact":"{r_exact}"', ABOUT + size)
    return _told(
        Told,
        (
            side,
            (zero_sign, steps),
            (above, below),
            dimension,
            (r * times, r_below * parts),
            f"{before}{s_text}{s1}{s_how}{s2}{b_text}{b1}{b_how}{b2}{r_text}{r1}{r_how}{r2}{shown_share}{after}",
            (s_said, b_said, r_said),
            (side, (r > 0) - (r < 0), (s_exact is None, b_exact is None, r_exact is None)),
        ),
    )


_told: Final = tuple.__new__
"""Makes a ``Told`` of its parts, without a look at their names."""


def told_in_decimals(
    frame: SideFrame, values: tuple[int, int, int], texts: tuple[str, str, str], ten: int
) -> Told:
    """A margin whose three values are whole numbers of one decimal, of which ``ten`` make a whole.

    ``texts`` are its figures.
    """
    _, bound, room = values
    side, _, (before, one, two, three, after), _, dimension, (times, parts) = frame
    subject_text, bound_text, room_text = texts
    sign = (room > 0) - (room < 0)
    steps = room * SHARE_STEPS // abs(bound) if bound else 0
    share = share_json(steps) if bound else "null"
    return _told(
        Told,
        (
            side,
            (0 if bound else sign, steps),
            (room, abs(bound)) if bound else (0, 1),
            dimension,
            (room * times, ten * parts),
            f"{before}{subject_text}{one}{bound_text}{two}{room_text}{three}{share}{after}",
            texts if room >= 0 else (subject_text, bound_text, room_text[1:]),
            (side, sign, (True, True, True)),
        ),
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
    """The figures of the margins, three for each side of the limit; empty for a side without a margin.

    The margins come in the order of their sides.
    """
    if len(margins) == sides:
        return tuple([text for margin in margins for text in margin.texts])
    texts = [""] * (3 * sides)
    for margin in margins:
        texts[3 * margin.side : 3 * margin.side + 3] = margin.texts
    return tuple(texts)


def rooms_compared(margins: list[Told], a: int, b: int) -> int:
    """Which of the rooms of two sides is less; 0 where not both have a margin."""
    found = {margin.side: margin for margin in margins}
    return compare_rooms(found[a], found[b]) if a in found and b in found else 0


def gathered(margins: list[Told], sides: int) -> tuple[tuple[str, ...], str, Order]:
    """The figures of the margins of a limit with so many sides, their JSON, and their order."""
    ordered = arranged(margins)
    return placed(margins, sides), ",".join([at.json for at in ordered]), tuple([at.turn for at in ordered])


_rank: Final = itemgetter(Told._fields.index("rank"))


def arranged(margins: list[Told]) -> list[Told]:
    """The margins, the tightest first, as ``tightest_first`` orders them."""
    if len(margins) == 1:
        return margins
    if len(set(map(_rank, margins))) == len(margins):
        return sorted(margins, key=_rank)
    ordered = margins[:1]
    for margin in margins[1:]:
        at = len(ordered)
        while at and _comes_before(margin, ordered[at - 1], margins):
            at -= 1
        ordered.insert(at, margin)
    return ordered


def _comes_before(a: Told, b: Told, margins: list[Told]) -> bool:
    if a.rank != b.rank:
        return a.rank < b.rank
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


Filled = Callable[[tuple[Figure, ...], tuple[str, ...], tuple[str, ...]], str]
"""A sentence as it stands in JSON, from the figures of the slots, of the margins and of the tanks."""


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence of a limit as it runs for one turn of events: what stands between its figures, and those."""

    pieces: tuple[str, ...]
    holes: tuple[Hole, ...]

    def written(self, rounded: Collection[int]) -> Filled:
        """Code that fills the sentence; ``rounded`` are the numbers of figures that are still to be rounded.

        The code holds no text of the sentence: that stands beside it.
        """
        space: dict[str, object] = {f"K{at}": piece for at, piece in enumerate(self.pieces)}
        space |= {f"R{at}": hole.lean or Rounding.NEAREST for at, hole in enumerate(self.holes)}
        space["rounded"] = _rounded
        body = "".join(f"{{{_code(hole, at, rounded)}}}{{K{at + 1}}}" for at, hole in enumerate(self.holes))
        source = f'lambda figures, margins, left: f"{{K0}}{body}"'
        return cast("Filled", eval(compile(source, "<sentence>", "eval"), space))


def _code(hole: Hole, at: int, rounded: Collection[int]) -> str:
    """The code of a figure of a sentence."""
    if hole.kind == "margin":
        return f"margins[{hole.number}]"
    if hole.kind == "left":
        return f"left[{hole.number}]"
    figure = f"figures[{hole.number}]"
    return f"rounded({figure}, R{at})" if hole.number in rounded else figure


def _rounded(figure: Pair, lean: Rounding) -> str:
    """A figure that is no decimal beforehand, as it stands in a sentence."""
    return in_a_sentence(shown_ratio(*figure, lean))


NO_SENTENCE: Final = Sentence(("",), ()).written(())
"""What stands for a sentence that is still to be learned."""
