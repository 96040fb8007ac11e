"""Where on the burn a value is looked at: at one moment, or over an open stretch between two moments.

A value that moves has a sign only at a place. Over a stretch the sign is the same everywhere once the
stretch has been cut wherever a sign that mattered changes; a stretch gathers those cuts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Protocol

from engine.evaluation.polynomial import Polynomial
from engine.evaluation.ratio import Amount, Ratio
from engine.evaluation.roots import Point, between, is_before, low_end, sign, sign_at


class Place(Protocol):
    """Somewhere on the burn: it can tell the sign of a moving value, and a value of it that is taken there."""

    def sign(self, value: Ratio) -> int:
        """-1, 0 or 1, exactly."""
        ...

    def near(self, value: Ratio) -> Fraction:
        """The value at the place, or as near to it as a rational moment comes."""
        ...


@dataclass(frozen=True, slots=True)
class Moment:
    """One amount burned."""

    at: Point

    def sign(self, value: Ratio) -> int:
        """The sign at this moment."""
        return sign_at(value.top, self.at) * sign_at(value.bottom, self.at)

    def near(self, value: Ratio) -> Fraction:
        """The value at this moment, or just before it where it is irrational."""
        return value(low_end(self.at))


STANDING = Moment(Fraction(0))
"""The place of everything that does not move."""

RootFinder = Callable[[Polynomial], tuple[Point, ...]]
"""Finds every root of a polynomial on a segment of the burn, in order."""


@dataclass(slots=True)
class Stretch:
    """An open stretch of the burn, and the moments within it at which a sign that was asked for changes."""

    start: Point
    end: Point
    roots: RootFinder
    middle: Fraction = field(init=False)
    cuts: list[Point] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.middle = between(self.start, self.end)

    def sign(self, value: Ratio) -> int:
        """The sign in the middle, with a cut noted wherever it changes within the stretch."""
        self.cut_at(value.top)
        return sign(value(self.middle))

    def near(self, value: Ratio) -> Fraction:
        """The value in the middle."""
        return value(self.middle)

    def cut_at(self, roots_of: Polynomial) -> None:
        """Note the moments within the stretch at which a polynomial is zero."""
        for root in self.roots(roots_of):
            if is_before(self.start, root) and is_before(root, self.end):
                self.cuts.append(root)

    def pieces(self) -> list[Moment | Stretch]:
        """The stretch cut up: stretches and the moments between them, in order."""
        pieces: list[Moment | Stretch] = []
        start = self.start
        for cut in in_order(self.cuts):
            pieces += [Stretch(start, cut, self.roots), Moment(cut)]
            start = cut
        return [*pieces, Stretch(start, self.end, self.roots)]


def in_order(points: Iterable[Point]) -> list[Point]:
    """The points from the first to the last, each once."""
    ordered: list[Point] = []
    for point in points:
        at = len(ordered)
        while at and is_before(point, ordered[at - 1]):
            at -= 1
        if not at or is_before(ordered[at - 1], point):
            ordered.insert(at, point)
    return ordered


def compare(a: Amount, b: Amount, place: Place) -> int:
    """-1, 0 or 1 as the one amount is less than, equal to or more than the other."""
    if isinstance(a, Fraction) and isinstance(b, Fraction):
        return (a > b) - (a < b)
    return sign_of(a - b, place)


def sign_of(amount: Amount, place: Place) -> int:
    """-1, 0 or 1 as the amount is less than, equal to or more than zero."""
    return place.sign(amount) if isinstance(amount, Ratio) else sign(amount)


def value_near(amount: Amount, place: Place) -> Fraction:
    """The amount as a fraction, at the place or near it."""
    return place.near(amount) if isinstance(amount, Ratio) else amount
