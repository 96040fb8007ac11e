"""Values that move: arithmetic on them is arithmetic on their values at every moment."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import assume, given
from hypothesis import strategies as st

from engine.evaluation.polynomial import linear
from engine.evaluation.ratio import Amount, Ratio, moving, ratio

fractions = st.fractions(-9, 9, max_denominator=9)
lines = st.builds(moving, fractions, fractions)


@st.composite
def amounts(draw: st.DrawFn) -> Amount:
    """Lines and quotients of lines."""
    top, bottom = draw(lines), draw(lines)
    assume(bottom != 0)
    return draw(st.sampled_from([top, top / bottom]))


def at(amount: Amount, moment: Fraction) -> Fraction:
    if isinstance(amount, Fraction):
        return amount
    assume(amount.bottom(moment))
    return amount(moment)


@given(amounts(), amounts(), fractions)
def test_arithmetic_agrees_with_the_values(a: Amount, b: Amount, moment: Fraction) -> None:
    first, second = at(a, moment), at(b, moment)
    assert at(a + b, moment) == first + second
    assert at(a - b, moment) == first - second
    assert at(a * b, moment) == first * second
    assert at(-a, moment) == -first
    if second:
        assert at(a / b, moment) == first / second


@given(amounts())
def test_what_no_longer_moves_is_a_fraction(a: Amount) -> None:
    assert a - a == Fraction(0)
    assert isinstance(a - a, Fraction)
    assert a * Fraction(0) == Fraction(0)


@given(amounts(), fractions, fractions)
def test_turning_has_the_sign_of_the_change(a: Amount, start: Fraction, step: Fraction) -> None:
    assume(isinstance(a, Ratio) and step > 0)
    assert isinstance(a, Ratio)
    tiny = step / 10**6
    assume(a.turning()(start) and a.bottom(start) and a.bottom(start + tiny))
    assume(a.turning()(start + tiny) * a.turning()(start) > 0 and a.bottom(start + tiny) * a.bottom(start) > 0)
    assume(a.bottom.degree < 1 or a.bottom.degree == 1)
    assert (a(start + tiny) > a(start)) == (a.turning()(start) > 0)


def test_a_common_factor_is_taken_out() -> None:
    line = linear(Fraction(1), Fraction(2))
    assert ratio(line * line, line) == Ratio(line, linear(Fraction(1), Fraction(0)))
    assert ratio(line, line) == Fraction(1)
