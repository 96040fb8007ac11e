"""Points of the burn, rational or not: roots of polynomials held exactly, compared and tested exactly.

An irrational root is a polynomial and an interval in which it is the only root. It can be narrowed at
will, so two points can always be told apart, and the sign of any polynomial at it can always be told.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from engine.evaluation.polynomial import (
    Polynomial,
    greatest_common_divisor,
    linear,
    sign_changes,
    square_free,
    sturm_sequence,
)


@dataclass(frozen=True, slots=True)
class Root:
    """An irrational root: the only one of ``polynomial`` (square-free) between ``low`` and ``high``."""

    polynomial: Polynomial
    low: Fraction
    high: Fraction

    def narrowed(self) -> Root:
        """The same root in half the interval."""
        middle = (self.low + self.high) / 2
        if (self.polynomial(middle) > 0) == (self.polynomial(self.low) > 0):
            return Root(self.polynomial, middle, self.high)
        return Root(self.polynomial, self.low, middle)

    def is_root_of(self, other: Polynomial) -> bool:
        """Whether another polynomial is zero here, exactly."""
        shared = greatest_common_divisor(self.polynomial, other)
        return shared.degree > 0 and (shared(self.low) > 0) != (shared(self.high) > 0)


Point = Fraction | Root
"""A moment of the burn, by the amount burned."""


def sign(value: Fraction) -> int:
    """-1, 0 or 1."""
    return (value.numerator > 0) - (value.numerator < 0)


def low_end(point: Point) -> Fraction:
    """A rational number no greater than the point."""
    return point.low if isinstance(point, Root) else point


def high_end(point: Point) -> Fraction:
    """A rational number no less than the point."""
    return point.high if isinstance(point, Root) else point


def narrowed(point: Point) -> Point:
    """The same point, known more closely."""
    return point.narrowed() if isinstance(point, Root) else point


def narrowed_to(point: Point, width: Fraction) -> Point:
    """The same point, known at least so closely."""
    while isinstance(point, Root) and point.high - point.low > width:
        point = point.narrowed()
    return point


def is_before(a: Point, b: Point) -> bool:
    """Whether one point comes strictly before the other, exactly."""
    if isinstance(a, Fraction) and isinstance(b, Fraction):
        return a < b
    if _are_same(a, b):
        return False
    while high_end(a) > low_end(b) and high_end(b) > low_end(a):
        a, b = narrowed(a), narrowed(b)
    return high_end(a) <= low_end(b)


def _are_same(a: Point, b: Point) -> bool:
    if not (isinstance(a, Root) and isinstance(b, Root)):
        return False  # a rational point is never an irrational one
    low, high = max(a.low, b.low), min(a.high, b.high)
    if low >= high:
        return False
    shared = greatest_common_divisor(a.polynomial, b.polynomial)
    return shared.degree > 0 and (shared(low) > 0) != (shared(high) > 0)


def sign_at(of: Polynomial, point: Point) -> int:
    """The sign of a polynomial at a point, exactly."""
    if isinstance(point, Fraction):
        return sign(of(point))
    if of.degree < 1:
        return sign(of.leading) if of.coefficients else 0
    if point.is_root_of(of):
        return 0
    while True:
        low, high = bounds(of, point.low, point.high)
        if low > 0 or high < 0:
            return 1 if low > 0 else -1
        point = point.narrowed()


def bounds(of: Polynomial, low: Fraction, high: Fraction) -> tuple[Fraction, Fraction]:
    """Two numbers between which the polynomial's values from ``low`` to ``high`` lie."""
    least = most = Fraction(0)
    for coefficient in reversed(of.coefficients):
        ends = (least * low, least * high, most * low, most * high)
        least, most = min(ends) + coefficient, max(ends) + coefficient
    return least, most


def between(a: Point, b: Point) -> Fraction:
    """A short rational number strictly between two points, the first before the second."""
    return _simplest(*_gap(a, b))


def halfway(a: Point, b: Point) -> Fraction:
    """The number halfway between two points, as nearly as they are known, and strictly between them."""
    low, high = _gap(a, b)
    return (low + high) / 2


def _gap(a: Point, b: Point) -> tuple[Fraction, Fraction]:
    """Two numbers between two points, the first before the second, with room between them."""
    while high_end(a) >= low_end(b):
        a, b = narrowed(a), narrowed(b)
    return high_end(a), low_end(b)


def _simplest(low: Fraction, high: Fraction) -> Fraction:
    """The fraction with the least denominator strictly between two numbers, so that figures stay short."""
    whole = low.numerator // low.denominator
    if whole + 1 < high:
        return Fraction(whole + 1)
    low, high = low - whole, high - whole
    if low == 0:
        return whole + Fraction(1, high.denominator // high.numerator + 1)
    return whole + 1 / _simplest(1 / high, 1 / low)


# ---- finding roots


def roots_between(of: Polynomial, low: Fraction, high: Fraction) -> tuple[Point, ...]:
    """Every root strictly between two numbers, in order, each once; none for the zero polynomial."""
    if of.degree < 1:
        return ()
    return tuple(_roots(square_free(of), low, high))


def _roots(of: Polynomial, low: Fraction, high: Fraction) -> Iterator[Point]:
    if of.degree == 1:
        root = -of.coefficients[0] / of.coefficients[1]
        if low < root < high:
            yield root
    elif of.degree == 2:
        yield from _roots_of_quadratic(of, low, high)
    else:
        yield from _roots_by_halving(of, low, high)


def _roots_of_quadratic(of: Polynomial, low: Fraction, high: Fraction) -> Iterator[Point]:
    c, b, a = of.coefficients
    turn, radicand = -b / (2 * a), (b * b - 4 * a * c) / (4 * a * a)
    if radicand <= 0:
        return
    root = exact_square_root(radicand)
    if root is not None:
        yield from (point for point in (turn - root, turn + root) if low < point < high)
        return
    for start, end in ((low, min(turn, high)), (max(turn, low), high)):
        if start < end and sign(of(start)) * sign(of(end)) < 0:
            yield Root(of, start, end)


def exact_square_root(of: Fraction) -> Fraction | None:
    """The square root of a number no less than zero, where it is rational."""
    top, bottom = isqrt(of.numerator), isqrt(of.denominator)
    return Fraction(top, bottom) if top * top == of.numerator and bottom * bottom == of.denominator else None


def _roots_by_halving(of: Polynomial, low: Fraction, high: Fraction) -> Iterator[Point]:
    of = _without_root_at(_without_root_at(of, low), high)
    if of.degree < 3:
        yield from _roots(of, low, high)
        return
    sequence = sturm_sequence(of)
    count = sign_changes(sequence, low) - sign_changes(sequence, high)
    if count == 1:
        yield _rational_where_it_is(Root(of.primitive(), low, high))
    elif count > 1:
        middle = (low + high) / 2
        yield from _roots_by_halving(of, low, middle)
        if not of(middle):
            yield middle
        yield from _roots_by_halving(of, middle, high)


def _without_root_at(of: Polynomial, at: Fraction) -> Polynomial:
    return of if of.degree < 1 or of(at) else of.divided_by(linear(-at, Fraction(1)))[0]


def _rational_where_it_is(root: Root) -> Point:
    """The root as a fraction if it is one: its denominator then divides the leading whole coefficient."""
    of, scale = root.polynomial, abs(root.polynomial.leading)
    low, high = root.low, root.high
    while (high - low) * scale >= 1:
        middle = (low + high) / 2
        value = of(middle)
        if not value:
            return middle
        low, high = (middle, high) if (value > 0) == (of(low) > 0) else (low, middle)
    candidate = Fraction((high * scale).__floor__()) / scale
    return candidate if low < candidate and not of(candidate) else Root(of, low, high)
