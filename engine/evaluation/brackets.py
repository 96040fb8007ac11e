"""Between which two points of a rising scale a value lies."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engine.evaluation.places import Place, compare
from engine.evaluation.ratio import Amount


@dataclass(frozen=True, slots=True)
class Bracket:
    """Exactly at point ``index``, or strictly between it and the next."""

    index: int
    is_exact: bool


def find_bracket(points: tuple[Fraction, ...], value: Amount, place: Place) -> Bracket | None:
    """Where the value lies on the scale; None below its first point or above its last."""
    low, high = 0, len(points) - 1
    for end, outward in ((low, -1), (high, 1)):
        side = compare(value, points[end], place)
        if side == outward:
            return None
        if side == 0:
            return Bracket(end, is_exact=True)
    while high - low > 1:
        middle = (low + high) // 2
        side = compare(value, points[middle], place)
        if side == 0:
            return Bracket(middle, is_exact=True)
        low, high = (middle, high) if side > 0 else (low, middle)
    return Bracket(low, is_exact=False)
