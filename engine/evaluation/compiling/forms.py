"""The forms that values take in generated code: whole-number sums over names, with a scale known beforehand.

A form stands for ``scale * (terms + constant) / below``. The names hold whole numbers at run time; the
coefficients, the constant and the scale are worked out once, when a sheet is compiled. ``below`` is a name
that holds more than zero, so that the sign of a form is the sign of its whole numbers.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce
from math import gcd
from typing import Final

ONE: Final = Fraction(1)


@dataclass(frozen=True, slots=True)
class Form:
    """``scale * (sum of coefficient * name + constant) / below``; the scale is more than zero."""

    terms: tuple[tuple[str, int], ...]
    constant: int
    scale: Fraction
    below: str | None = None

    @property
    def is_constant(self) -> bool:
        """Whether the value is known beforehand."""
        return not self.terms and self.below is None

    @property
    def value(self) -> Fraction:
        """The value of a constant. Errors: ValueError where it is known at run time only."""
        if not self.is_constant:
            raise ValueError("not a constant")
        return self.scale * self.constant

    @property
    def single(self) -> str | None:
        """The name whose whole number, times the scale, is the value (before it is divided by ``below``)."""
        if len(self.terms) == 1 and not self.constant and self.terms[0][1] == 1:
            return self.terms[0][0]
        return None

    def __neg__(self) -> Form:
        return Form(tuple((name, -k) for name, k in self.terms), -self.constant, self.scale, self.below)

    def scaled(self, factor: Fraction) -> Form:
        """The form times a number known beforehand."""
        if not factor:
            return constant(factor)
        turned = self if factor > 0 else -self
        return Form(turned.terms, turned.constant, self.scale * abs(factor), self.below)

    def primitive(self) -> Form:
        """The same form with coefficients that have no common divisor."""
        shared = gcd(self.constant, *(k for _, k in self.terms))
        if shared in (0, 1):
            return self if self.terms or self.constant else Form((), 0, self.scale)
        terms = tuple((name, k // shared) for name, k in self.terms)
        return Form(terms, self.constant // shared, self.scale * shared, self.below)

    def over(self, below: str | None) -> Form:
        """The same whole numbers divided by another name."""
        return Form(self.terms, self.constant, self.scale, below)


def constant(value: Fraction) -> Form:
    """A value known beforehand: one, or one less than nothing, at a scale of its own size."""
    return Form((), (value > 0) - (value < 0), abs(value) or ONE)


def named(name: str, scale: Fraction = ONE, below: str | None = None) -> Form:
    """The value of a name."""
    return Form(((name, 1),), 0, scale, below)


def common_scale(scales: Iterable[Fraction]) -> Fraction:
    """The greatest number that every one of the scales is a whole multiple of; one where there are none."""
    gathered = tuple(scales)
    return reduce(_shared, gathered) if gathered else ONE


def _shared(a: Fraction, b: Fraction) -> Fraction:
    above = gcd(a.numerator * b.denominator, b.numerator * a.denominator)
    return Fraction(above, a.denominator * b.denominator)


def rescaled(form: Form, scale: Fraction) -> Form:
    """The same value at a scale that the form's own is a whole multiple of."""
    if not form.terms and not form.constant:
        return Form((), 0, scale, form.below)
    factor = form.scale / scale
    if factor.denominator != 1:
        raise ValueError("a scale that does not go into the other")
    times = factor.numerator
    return Form(tuple((name, k * times) for name, k in form.terms), form.constant * times, scale, form.below)


def total(forms: Iterable[Form]) -> Form:
    """The sum of forms that share what they are divided by."""
    gathered = tuple(forms)
    below = next((form.below for form in gathered if form.below), None)
    scale = common_scale(form.scale for form in gathered if form.terms or form.constant)
    terms: dict[str, int] = {}
    whole = 0
    for form in (rescaled(each, scale) for each in gathered):
        for name, k in form.terms:
            terms[name] = terms.get(name, 0) + k
        whole += form.constant
    kept = tuple((name, k) for name, k in terms.items() if k)
    return Form(kept, whole, scale, below).primitive()
