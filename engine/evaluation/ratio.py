"""Values that move with the burn: ratios of two polynomials in the amount burned."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engine.evaluation.polynomial import ONE, Polynomial, greatest_common_divisor, linear, polynomial


@dataclass(frozen=True, slots=True)
class Ratio:
    """A ratio of polynomials without a common factor; at least one of them is not constant.

    Arithmetic with ratios and fractions gives a ratio, or a fraction where nothing moves any more.
    Whoever divides sees to it that the divisor is not zero where the ratio is used.
    """

    top: Polynomial
    bottom: Polynomial

    def __call__(self, at: Fraction) -> Fraction:
        """The value once so much is burned."""
        return self.top(at) / self.bottom(at)

    def __neg__(self) -> Ratio:
        return Ratio(-self.top, self.bottom)

    def __add__(self, other: Amount) -> Amount:
        if isinstance(other, Fraction):
            return Ratio(self.top + self.bottom.scaled(other), self.bottom)
        if self.bottom == other.bottom:
            return ratio(self.top + other.top, self.bottom)
        return ratio(self.top * other.bottom + other.top * self.bottom, self.bottom * other.bottom)

    def __radd__(self, other: Fraction) -> Amount:
        return self + other

    def __sub__(self, other: Amount) -> Amount:
        return self + -other

    def __rsub__(self, other: Fraction) -> Amount:
        return -self + other

    def __mul__(self, other: Amount) -> Amount:
        if isinstance(other, Fraction):
            return Ratio(self.top.scaled(other), self.bottom) if other else other
        return ratio(self.top * other.top, self.bottom * other.bottom)

    def __rmul__(self, other: Fraction) -> Amount:
        return self * other

    def __truediv__(self, other: Amount) -> Amount:
        if isinstance(other, Fraction):
            return self * (1 / other)
        return ratio(self.top * other.bottom, self.bottom * other.top)

    def __rtruediv__(self, other: Fraction) -> Amount:
        return ratio(self.bottom.scaled(other), self.top)

    def turning(self) -> Polynomial:
        """A polynomial with the sign of the rate of change."""
        return self.top.derivative() * self.bottom - self.top * self.bottom.derivative()


Amount = Fraction | Ratio
"""A value that stands still, or one that moves with the burn."""


def ratio(top: Polynomial, bottom: Polynomial) -> Amount:
    """One polynomial divided by another, reduced; a fraction where nothing moves."""
    if bottom.degree > 0:
        shared = greatest_common_divisor(top, bottom)
        if shared.degree > 0:
            top, bottom = top.divided_by(shared)[0], bottom.divided_by(shared)[0]
    top, bottom = top.scaled(1 / bottom.leading), bottom.scaled(1 / bottom.leading)
    if top.degree < 1 and bottom.degree < 1:
        return top.coefficients[0] if top.coefficients else Fraction(0)
    return Ratio(top, bottom)


def moving(at_zero: Fraction, slope: Fraction) -> Amount:
    """A value that changes evenly with the amount burned."""
    return Ratio(linear(at_zero, slope), ONE) if slope else at_zero


def as_polynomial(amount: Amount) -> Polynomial:
    """A polynomial with the roots of the amount."""
    return amount.top if isinstance(amount, Ratio) else polynomial((amount,))
