"""Polynomials, with sympy as the independent check."""

from __future__ import annotations

from fractions import Fraction

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from engine.evaluation.polynomial import (
    NOTHING,
    ONE,
    Polynomial,
    greatest_common_divisor,
    linear,
    polynomial,
    square_free,
)

X = sympy.Symbol("x")
fractions = st.fractions(min_value=-20, max_value=20, max_denominator=12)
polynomials = st.lists(fractions, max_size=5).map(polynomial)
some = polynomials.filter(lambda of: of.degree >= 0)


def symbolic(of: Polynomial) -> sympy.Poly:
    terms = [sympy.Rational(a.numerator, a.denominator) for a in reversed(of.coefficients)]
    return sympy.Poly(terms or [0], X, domain="QQ")


@given(polynomials, polynomials, fractions)
def test_arithmetic_agrees_with_the_values(a: Polynomial, b: Polynomial, at: Fraction) -> None:
    assert (a + b)(at) == a(at) + b(at)
    assert (a - b)(at) == a(at) - b(at)
    assert (a * b)(at) == a(at) * b(at)
    assert a.scaled(at)(at) == at * a(at)


@given(polynomials, some)
def test_division_leaves_a_remainder_of_lower_degree(a: Polynomial, b: Polynomial) -> None:
    quotient, remainder = a.divided_by(b)
    assert quotient * b + remainder == a
    assert remainder.degree < max(b.degree, 1)
    assert remainder == NOTHING or b.degree > 0


@given(polynomials)
def test_the_derivative_is_sympys(of: Polynomial) -> None:
    assert symbolic(of.derivative()) == symbolic(of).diff(X)


@given(some, some, some)
def test_the_greatest_common_divisor_is_sympys(a: Polynomial, b: Polynomial, shared: Polynomial) -> None:
    ours = greatest_common_divisor(a * shared, b * shared)
    assert symbolic(ours) == sympy.gcd(symbolic(a * shared), symbolic(b * shared)).monic()


@given(some, some)
def test_square_free_keeps_each_root_once(a: Polynomial, b: Polynomial) -> None:
    of = a * a * b
    ours = symbolic(square_free(of))
    theirs = symbolic(of).sqf_part()
    assert ours.monic() == theirs.monic()


def test_zeros_at_the_top_do_not_count() -> None:
    assert linear(Fraction(2), Fraction(0)) == polynomial([Fraction(2)])
    assert (ONE - ONE, NOTHING.degree, ONE.degree) == (NOTHING, -1, 0)


@given(some)
def test_primitive_is_a_positive_multiple_in_least_whole_numbers(of: Polynomial) -> None:
    whole = of.primitive()
    assert all(a.denominator == 1 for a in whole.coefficients)
    assert whole.leading / of.leading > 0
    assert whole.scaled(of.leading / whole.leading) == of


def test_nothing_is_divided_by_zero() -> None:
    with pytest.raises(ZeroDivisionError):
        ONE.divided_by(NOTHING)
