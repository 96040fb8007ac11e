"""Envelopes in generated code: tests of the edges where convex, else slices between corner levels."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import lcm

from engine.evaluation.compiling.comparing import joined, sign_test
from engine.evaluation.compiling.forms import Form, constant
from engine.evaluation.compiling.translation import Test, Translation
from engine.evaluation.compiling.writer import BENT, STANDS
from engine.evaluation.envelope import Corner, Line, slices
from grammar.sheet import Envelope


def inside(envelope: Envelope, across: Form, against: Form, so_far: Translation) -> Test:
    """Whether a point lies in an envelope or on its boundary."""
    if is_convex(envelope.corners):
        tests = (sign_test(edge, ">=", so_far) for edge in edges(envelope, across, against, so_far))
        return joined(tuple(dict.fromkeys(tests)), "and")
    return _in_slices(envelope, across, against, so_far)


# ---- convex


def is_convex(corners: tuple[Corner, ...]) -> bool:
    """Whether the polygon turns the same way at every corner."""
    turns = [_turn(a, b, c) for a, b, c in _threes(corners)]
    return all(turn >= 0 for turn in turns) or all(turn <= 0 for turn in turns)


def _threes(corners: tuple[Corner, ...]) -> list[tuple[Corner, Corner, Corner]]:
    return list(zip(corners, (*corners[1:], corners[0]), (*corners[2:], *corners[:2]), strict=True))


def _turn(a: Corner, b: Corner, c: Corner) -> Fraction:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def edges(envelope: Envelope, across: Form, against: Form, so_far: Translation) -> tuple[Form, ...]:
    """For each edge of a convex envelope a form that is zero or more on its inner side."""
    corners = envelope.corners
    is_clockwise = sum(_turn(*three) for three in _threes(corners)) < 0
    ring = (*corners, corners[0])
    if is_clockwise:
        ring = ring[::-1]
    return tuple(_edge(a, b, across, against, so_far) for a, b in pairwise(ring))


def _edge(a: Corner, b: Corner, across: Form, against: Form, so_far: Translation) -> Form:
    """Twice the area to the left of the edge from a to b."""
    run, rise = b[0] - a[0], b[1] - a[1]
    parts = (against.scaled(run), across.scaled(-rise), constant(rise * a[0] - run * a[1]))
    return so_far.writer.sum(tuple(part for part in parts if part.terms or part.constant))


# ---- any simple polygon


@dataclass(frozen=True, slots=True)
class WholeSlices:
    """A polygon's slices with every comparison in whole numbers.

    A level is ``(numerator, denominator)``; a line is ``(a, b, p)``, where the position, times ``p``, is
    ``a + b * level``. Positions and levels are in the scales of the two values that are compared.
    """

    levels: tuple[tuple[int, int], ...]
    bands: tuple[tuple[tuple[WholeLine, WholeLine], ...], ...]
    on_levels: tuple[tuple[tuple[WholeLine, WholeLine], ...], ...]


WholeLine = tuple[int, int, int]


def _in_slices(envelope: Envelope, across: Form, against: Form, so_far: Translation) -> Test:
    writer = so_far.writer
    across, against = writer.single(across), writer.single(against)
    whole = whole_slices(envelope.corners, across.scale, against.scale)
    test = so_far.data.function("is_in_slices", is_in_slices)
    names = (writer.name_of(across.over(None)), across.below or "1", writer.name_of(against.over(None)))
    arguments = ", ".join((so_far.data.add(whole), *names, against.below or "1"))
    forms = (across, against)
    moves = any(writer.degree(form) or writer.degree_below(form) for form in forms)
    return Test(f"{test}({arguments})", BENT if moves else STANDS, any(writer.is_late(form) for form in forms))


def whole_slices(corners: tuple[Corner, ...], across: Fraction, against: Fraction) -> WholeSlices:
    """The slices of a polygon for positions and levels at two scales."""
    exact = slices(corners)
    levels = tuple((level / against).as_integer_ratio() for level in exact.levels)
    bands = tuple(
        tuple((_whole(low, across, against), _whole(high, across, against)) for low, high in band)
        for band in exact.bands
    )
    still = Fraction(0)
    on_levels = tuple(
        tuple(
            (_whole(Line(low, still), across, against), _whole(Line(high, still), across, against))
            for low, high in row
        )
        for row in exact.on_levels
    )
    return WholeSlices(levels, bands, on_levels)


def _whole(line: Line, across: Fraction, against: Fraction) -> WholeLine:
    at_zero, slope = line.at_zero / across, line.slope * against / across
    times = lcm(at_zero.denominator, slope.denominator)
    return int(at_zero * times), int(slope * times), times


def is_in_slices(whole: WholeSlices, n: int, d: int, m: int, e: int) -> bool:
    """Whether the position n/d at the level m/e lies in one of the slices; d and e are more than zero."""
    return any(_between(pair, n, d, m, e) for pair in whole_intervals(whole, m, e))


def whole_intervals(whole: WholeSlices, m: int, e: int) -> tuple[tuple[WholeLine, WholeLine], ...]:
    """The slices at the level m/e, from the least position to the greatest."""
    index = -1
    for above, under in whole.levels:
        side = m * under - above * e
        if side < 0:
            break
        index += 1
        if side == 0:
            return whole.on_levels[index]
    return () if index in (-1, len(whole.levels) - 1) else whole.bands[index]


def _between(pair: tuple[WholeLine, WholeLine], n: int, d: int, m: int, e: int) -> bool:
    (a, b, p), (a2, b2, p2) = pair
    return (a * e + b * m) * d <= n * e * p and n * e * p2 <= (a2 * e + b2 * m) * d
