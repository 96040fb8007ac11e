"""Polynomials of one unknown with exact rational coefficients.

The unknown is the amount of fuel burned. Everything here is exact; nothing is approximated.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise, zip_longest
from math import gcd, lcm
from typing import Final

_ZERO: Final = Fraction(0)


@dataclass(frozen=True, slots=True)
class Polynomial:
    """A polynomial by its coefficients, the constant first; the last is never zero (the zero has none)."""

    coefficients: tuple[Fraction, ...]

    @property
    def degree(self) -> int:
        """The highest power; -1 for zero."""
        return len(self.coefficients) - 1

    @property
    def leading(self) -> Fraction:
        """The coefficient of the highest power."""
        return self.coefficients[-1]

    def __call__(self, at: Fraction) -> Fraction:
        """The value at a point."""
        value = _ZERO
        for coefficient in reversed(self.coefficients):
            value = value * at + coefficient
        return value

    def __add__(self, other: Polynomial) -> Polynomial:
        pairs = zip_longest(self.coefficients, other.coefficients, fillvalue=_ZERO)
        return polynomial(a + b for a, b in pairs)

    def __neg__(self) -> Polynomial:
        return Polynomial(tuple(-a for a in self.coefficients))

    def __sub__(self, other: Polynomial) -> Polynomial:
        return self + -other

    def __mul__(self, other: Polynomial) -> Polynomial:
        if not self.coefficients or not other.coefficients:
            return NOTHING
        product = [_ZERO] * (len(self.coefficients) + len(other.coefficients) - 1)
        for i, a in enumerate(self.coefficients):
            for j, b in enumerate(other.coefficients):
                product[i + j] += a * b
        return Polynomial(tuple(product))

    def scaled(self, factor: Fraction) -> Polynomial:
        """The polynomial with every coefficient multiplied by ``factor``."""
        return polynomial(a * factor for a in self.coefficients)

    def derivative(self) -> Polynomial:
        """How fast the polynomial changes."""
        return Polynomial(tuple(n * a for n, a in enumerate(self.coefficients) if n))

    def divided_by(self, divisor: Polynomial) -> tuple[Polynomial, Polynomial]:
        """The quotient and the remainder. Errors: ZeroDivisionError where the divisor is zero."""
        if not divisor.coefficients:
            raise ZeroDivisionError("a polynomial divided by zero")
        rest, quotient = list(self.coefficients), [_ZERO] * max(0, self.degree - divisor.degree + 1)
        for shift in range(len(quotient) - 1, -1, -1):
            factor = rest[shift + divisor.degree] / divisor.leading
            quotient[shift] = factor
            for power, coefficient in enumerate(divisor.coefficients):
                rest[shift + power] -= factor * coefficient
        return polynomial(quotient), polynomial(rest[: max(0, divisor.degree)])

    def primitive(self) -> Polynomial:
        """The polynomial times the positive number that makes its coefficients the least whole numbers."""
        if not self.coefficients:
            return self
        scale = lcm(*(a.denominator for a in self.coefficients))
        common = gcd(*(int(a * scale) for a in self.coefficients))
        return self.scaled(Fraction(scale, common))


def polynomial(coefficients: Iterable[Fraction]) -> Polynomial:
    """The polynomial with these coefficients, the constant first, zeros at the top left away."""
    kept = list(coefficients)
    while kept and not kept[-1]:
        kept.pop()
    return Polynomial(tuple(kept))


NOTHING: Final = Polynomial(())
ONE: Final = Polynomial((Fraction(1),))


def linear(at_zero: Fraction, slope: Fraction) -> Polynomial:
    """A straight line by its value at zero and its slope."""
    return polynomial((at_zero, slope))


def greatest_common_divisor(a: Polynomial, b: Polynomial) -> Polynomial:
    """The polynomial of highest degree that divides both, with a leading coefficient of one."""
    while b.coefficients:
        a, b = b, a.divided_by(b)[1].primitive()
    return a.scaled(1 / a.leading) if a.coefficients else a


def square_free(of: Polynomial) -> Polynomial:
    """The polynomial with the same roots, each of them once."""
    if of.degree < 2:
        return of
    repeated = greatest_common_divisor(of, of.derivative())
    return of.divided_by(repeated)[0] if repeated.degree else of


def sturm_sequence(of: Polynomial) -> tuple[Polynomial, ...]:
    """Sturm's sequence of a square-free polynomial: its changes of sign count the roots.

    Source: C. Sturm, 1829; in any textbook of algebra (from memory).
    """
    sequence = [of.primitive(), of.derivative().primitive()]
    while sequence[-1].degree > 0:
        remainder = -sequence[-2].divided_by(sequence[-1])[1]
        if not remainder.coefficients:
            break
        sequence.append(remainder.primitive())
    return tuple(sequence)


def sign_changes(sequence: tuple[Polynomial, ...], at: Fraction) -> int:
    """How often the sign changes along the sequence's values at a point, zeros left out."""
    signs = [value > 0 for value in (member(at) for member in sequence) if value]
    return sum(a != b for a, b in pairwise(signs))
