"""Envelopes: which stretches of one axis lie inside at a level of the other.

A polygon is cut into bands at the levels of its corners. Within a band the same edges bound it all the
way, so that a slice is a row of intervals between straight lines. The boundary belongs to the inside; on
a corner's level a slice is all that either neighbouring band reaches.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from engine.evaluation.brackets import find_bracket
from engine.evaluation.places import Place, compare
from engine.evaluation.ratio import Amount

Corner = tuple[Fraction, Fraction]
"""A corner by its position and its level."""


@dataclass(frozen=True, slots=True)
class Line:
    """The position of an edge as a straight line over the level."""

    at_zero: Fraction
    slope: Fraction

    def at(self, level: Amount) -> Amount:
        """The position of the edge at a level."""
        return level * self.slope + self.at_zero if self.slope else self.at_zero


@dataclass(frozen=True, slots=True)
class Slices:
    """A polygon as slices: between corner levels (pairs of lines), and on them (pairs of positions)."""

    levels: tuple[Fraction, ...]
    bands: tuple[tuple[tuple[Line, Line], ...], ...]
    on_levels: tuple[tuple[tuple[Fraction, Fraction], ...], ...]

    def intervals(self, level: Amount, place: Place) -> tuple[tuple[Amount, Amount], ...]:
        """The closed intervals inside at a level, from the least position to the greatest."""
        bracket = find_bracket(self.levels, level, place)
        if bracket is None:
            return ()
        if bracket.is_exact:
            return self.on_levels[bracket.index]
        return tuple((low.at(level), high.at(level)) for low, high in self.bands[bracket.index])


@lru_cache(maxsize=256)
def slices(corners: tuple[Corner, ...]) -> Slices:
    """The slices of the closed simple polygon with these corners."""
    levels = tuple(sorted({level for _, level in corners}))
    bands = tuple(_band(corners, low, high) for low, high in pairwise(levels))
    on_levels = tuple(_on_level(corners, bands, levels, index) for index in range(len(levels)))
    return Slices(levels, bands, on_levels)


def turned(corners: tuple[Corner, ...]) -> tuple[Corner, ...]:
    """The corners with position and level exchanged."""
    return tuple((level, position) for position, level in corners)


def _band(corners: tuple[Corner, ...], low: Fraction, high: Fraction) -> tuple[tuple[Line, Line], ...]:
    """The pairs of edges between which a band is inside, in order."""
    middle = (low + high) / 2
    edges = zip(corners, (*corners[1:], corners[0]), strict=True)
    crossing = [_line(a, b) for a, b in edges if min(a[1], b[1]) < middle < max(a[1], b[1])]
    crossing.sort(key=lambda line: line.slope * middle + line.at_zero)
    return tuple(zip(crossing[::2], crossing[1::2], strict=True))


def _line(a: Corner, b: Corner) -> Line:
    slope = (b[0] - a[0]) / (b[1] - a[1])
    return Line(a[0] - slope * a[1], slope)


def _on_level(
    corners: tuple[Corner, ...],
    bands: tuple[tuple[tuple[Line, Line], ...], ...],
    levels: tuple[Fraction, ...],
    index: int,
) -> tuple[tuple[Fraction, Fraction], ...]:
    level = levels[index]
    touching = [position for position, at in corners if at == level]
    reached = [(position, position) for position in touching]
    for band in bands[max(0, index - 1) : index + 1]:
        for low, high in band:
            reached.append((low.slope * level + low.at_zero, high.slope * level + high.at_zero))
    return _merged(reached)


def _merged(intervals: list[tuple[Fraction, Fraction]]) -> tuple[tuple[Fraction, Fraction], ...]:
    merged: list[tuple[Fraction, Fraction]] = []
    for low, high in sorted(intervals):
        if merged and low <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    return tuple(merged)


def is_inside(corners: tuple[Corner, ...], position: Amount, level: Amount, place: Place) -> bool:
    """Whether a point lies in the polygon or on its boundary."""
    return any(
        compare(low, position, place) <= 0 and compare(position, high, place) <= 0
        for low, high in slices(corners).intervals(level, place)
    )


@dataclass(frozen=True, slots=True)
class Reach:
    """Where the boundary lies from a point along one axis, and the room up to it.

    ``is_low`` tells the side of the lesser positions. The room is negative where the point is outside and
    has to pass this boundary to get in.
    """

    is_low: bool
    bound: Amount
    room: Amount


def reaches(corners: tuple[Corner, ...], position: Amount, level: Amount, place: Place) -> tuple[Reach, ...]:
    """The boundary on both sides of a point inside; outside, the nearest way in on each side that has one."""
    before: Amount | None = None
    for low, high in slices(corners).intervals(level, place):
        if compare(position, low, place) < 0:
            left = () if before is None else (Reach(False, before, before - position),)
            return (Reach(True, low, position - low), *left)
        if compare(position, high, place) <= 0:
            return (Reach(True, low, position - low), Reach(False, high, high - position))
        before = high
    return () if before is None else (Reach(False, before, before - position),)
