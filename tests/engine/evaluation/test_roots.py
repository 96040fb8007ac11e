"""Exact roots, with sympy as the independent check."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.evaluation.polynomial import Polynomial, linear, polynomial
from engine.evaluation.roots import (
    Point,
    Root,
    between,
    bounds,
    exact_square_root,
    halfway,
    is_before,
    low_end,
    narrowed_to,
    roots_between,
    sign_at,
)

X = sympy.Symbol("x")
LOW, HIGH = Fraction(-10), Fraction(10)
whole = st.integers(-9, 9)
polynomials = st.lists(whole.map(Fraction), min_size=2, max_size=7).map(polynomial)


def product(*factors: Polynomial) -> Polynomial:
    result = polynomial([Fraction(1)])
    for factor in factors:
        result = result * factor
    return result


def root(at: Fraction) -> Polynomial:
    return linear(-at, Fraction(1))


def of(*coefficients: int) -> Polynomial:
    return polynomial([Fraction(a) for a in coefficients])


def sympy_roots(of: Polynomial) -> list[sympy.Expr]:
    terms = [sympy.Rational(a.numerator, a.denominator) for a in reversed(of.coefficients)]
    found = sympy.Poly(terms, X).real_roots(multiple=True)
    kept = [one for one in dict.fromkeys(found) if -10 < one < 10]
    return sorted(kept)


def agrees(ours: Point, theirs: sympy.Expr) -> bool:
    if theirs.is_rational:
        return ours == Fraction(int(theirs.p), int(theirs.q))
    close = narrowed_to(ours, Fraction(1, 10**12))
    return isinstance(close, Root) and close.low < Fraction(str(sympy.N(theirs, 30))) < close.high


@settings(deadline=None)
@given(polynomials)
def test_every_root_is_found_once_and_in_order(of: Polynomial) -> None:
    ours = roots_between(of, LOW, HIGH)
    theirs = sympy_roots(of) if of.degree > 0 else []
    assert len(ours) == len(theirs)
    assert all(agrees(one, other) for one, other in zip(ours, theirs, strict=True))
    assert all(is_before(a, b) for a, b in pairwise(ours))


@settings(deadline=None)
@given(st.lists(st.fractions(-9, 9, max_denominator=30), min_size=1, max_size=4), st.sampled_from([2, 3, 5, 7]))
def test_rational_roots_among_irrational_ones_are_fractions(at: list[Fraction], square: int) -> None:
    whole = product(*(root(each) for each in at), *(root(each) for each in at[:1]), of(-square, 0, 1))
    found = roots_between(whole, LOW, HIGH)
    assert [one for one in found if isinstance(one, Fraction)] == sorted(set(at))
    assert sum(isinstance(one, Root) for one in found) == 2


def test_roots_at_the_ends_are_not_between() -> None:
    whole = product(root(Fraction(1)), root(Fraction(2)), root(Fraction(3)), root(Fraction(5, 2)))
    assert roots_between(whole, Fraction(1), Fraction(3)) == (2, Fraction(5, 2))
    assert roots_between(of(0, 1), Fraction(0), Fraction(1)) == ()


def test_a_constant_and_zero_have_no_roots_to_cut_at() -> None:
    assert roots_between(of(5), LOW, HIGH) == roots_between(of(), LOW, HIGH) == ()


ROOT_TWO = roots_between(of(-2, 0, 1), Fraction(0), Fraction(2))[0]
ALSO_ROOT_TWO = roots_between(product(of(-2, 0, 1), of(-1, 3, 0, 1)), Fraction(1), Fraction(9))[0]


def test_the_same_irrational_moment_found_from_two_sides_is_the_same() -> None:
    assert not is_before(ROOT_TWO, ALSO_ROOT_TWO)
    assert not is_before(ALSO_ROOT_TWO, ROOT_TWO)


def test_an_irrational_moment_is_told_from_the_fractions_next_to_it() -> None:
    below, above = Fraction(1_414_213_562_373_095, 10**15), Fraction(1_414_213_562_373_096, 10**15)
    assert is_before(below, ROOT_TWO)
    assert is_before(ROOT_TWO, above)
    assert not is_before(ROOT_TWO, below)
    assert below < between(below, ROOT_TWO) < above
    assert is_before(ROOT_TWO, halfway(ROOT_TWO, above))


def test_the_sign_at_an_irrational_moment_is_exact() -> None:
    assert sign_at(of(-2, 0, 1), ROOT_TWO) == 0
    assert sign_at(product(of(-2, 0, 1), of(7, 1)), ALSO_ROOT_TWO) == 0
    assert sign_at(of(-1_414_213_562_373_095, 10**15), ROOT_TWO) == 1
    assert sign_at(of(-1_414_213_562_373_096, 10**15), ROOT_TWO) == -1
    assert sign_at(of(-3), ROOT_TWO) == -1
    assert sign_at(of(), ROOT_TWO) == 0


@given(polynomials, polynomials)
def test_the_sign_between_two_roots_is_that_in_the_middle(a: Polynomial, b: Polynomial) -> None:
    """No sign changes without a root."""
    points = [LOW, *roots_between(a, LOW, HIGH), HIGH]
    for start, end in pairwise(points):
        middle = between(start, end)
        assert is_before(start, middle)
        assert is_before(middle, end)
        later = between(middle, end)
        assert sign_at(a, middle) == sign_at(a, later)


@given(polynomials, st.tuples(whole, whole).map(sorted), st.fractions(0, 1, max_denominator=50))
def test_bounds_hold_every_value(of: Polynomial, ends: list[int], along: Fraction) -> None:
    low, high = Fraction(ends[0]), Fraction(ends[1])
    least, most = bounds(of, low, high)
    assert least <= of(low + (high - low) * along) <= most


@given(st.fractions(0, 1000, max_denominator=1000))
def test_a_square_root_is_exact_or_refused(of: Fraction) -> None:
    assert exact_square_root(of * of) == of
    found = exact_square_root(of)
    assert found is None or found * found == of


@given(st.fractions(-50, 50, max_denominator=10**6), st.fractions(-50, 50, max_denominator=10**6))
def test_the_fraction_between_two_is_between_them_and_short(a: Fraction, b: Fraction) -> None:
    low, high = min(a, b), max(a, b)
    if low == high:
        return
    found = between(low, high)
    assert low < found < high
    assert found.denominator <= ((low + high) / 2).denominator
    assert low_end(found) == found
