"""Figures as text straight from whole numbers, just as ``grammar.figures`` and ``amounts`` show the same values.

A value is a numerator over a denominator, in the unit that it is shown in. The tests hold every function
here to its counterpart there.
"""

from __future__ import annotations

from math import gcd
from typing import Final

from engine.explanation.amounts import FEWEST_DECIMALS, FEWEST_DIGITS
from grammar.figures import ABOUT, MOST_DECIMALS_IN_FULL, Rounding

_TEN: Final = tuple(10**power for power in range(64))
_MOST: Final = FEWEST_DECIMALS + FEWEST_DIGITS
_THRESHOLD: Final = 10 ** (FEWEST_DIGITS - 1)
FEW: Final = _TEN[FEWEST_DECIMALS]
REST: Final = _TEN[MOST_DECIMALS_IN_FULL - FEWEST_DECIMALS]
"""What makes the last of a few decimals a whole number, and what further decimals a figure in full may have."""

Shown = tuple[str, str | None]
"""A figure, and where it is rounded the exact value as a fraction."""

MOST_IN_A_TABLE: Final = 4
"""The most decimals whose texts stand in a table."""


def ends(decimals: int) -> tuple[str, ...]:
    """What follows the whole part of a figure, for each number of the last decimal."""
    texts = (str(number).rjust(decimals, "0").rstrip("0") for number in range(_TEN[decimals]))
    return tuple(f".{text}" if text else "" for text in texts)


ENDS: Final = ends(FEWEST_DECIMALS)


def decimal_text(whole: int, decimals: int) -> str:
    """A whole number of the last decimal as text, zeros at the end left away."""
    if whole < 0:
        return "-" + decimal_text(-whole, decimals)
    before, after = divmod(whole, _TEN[decimals])
    if not after:
        return str(before)
    return f"{before}.{str(after).rjust(decimals, '0').rstrip('0')}"


def shown_ratio(n: int, d: int, lean: Rounding, decimals: int = 0) -> Shown:
    """The figure for n/d; d is more than zero."""
    whole, rest = divmod(n * FEW, d)
    if not rest:
        return (f"{whole // FEW}{ENDS[whole % FEW]}" if whole >= 0 else decimal_text(whole, FEWEST_DECIMALS)), None
    if decimals > FEWEST_DECIMALS or -FEW <= whole < FEW:
        return _shown_finely(n, d, lean, max(decimals, _fewest_decimals(n, d)))
    if not rest * REST % d:
        return decimal_text(n * _TEN[MOST_DECIMALS_IN_FULL] // d, MOST_DECIMALS_IN_FULL), None
    shared = gcd(n, d)
    exact = f"{n // shared}/{d // shared}"
    if lean is not Rounding.DOWN:
        whole = _rounded(whole, rest, d, lean)
    if whole < 0:
        return decimal_text(whole, FEWEST_DECIMALS), exact
    return f"{whole // FEW}{ENDS[whole % FEW]}", exact


def _shown_finely(n: int, d: int, lean: Rounding, decimals: int) -> Shown:
    """The figure with more decimals than usual where it is rounded."""
    places = max(MOST_DECIMALS_IN_FULL, decimals)
    whole, rest = divmod(n * 10**places, d)
    if not rest:
        return decimal_text(whole, places), None
    shared = gcd(n, d)
    whole, rest = divmod(n * 10**decimals, d)
    return decimal_text(_rounded(whole, rest, d, lean), decimals), f"{n // shared}/{d // shared}"


def _fewest_decimals(n: int, d: int) -> int:
    """How many decimals a rounded figure of this size has."""
    decimals, size, most = FEWEST_DECIMALS, abs(n) * FEW, d * _THRESHOLD
    while 0 < size < most and decimals < _MOST:
        size, decimals = size * 10, decimals + 1
    return decimals


def _rounded(whole: int, rest: int, d: int, lean: Rounding) -> int:
    if lean is Rounding.DOWN:
        return whole
    if lean is Rounding.UP:
        return whole + (rest > 0)
    return whole + (2 * rest > d or (2 * rest == d and whole % 2 == 1))


def in_a_sentence(figure: Shown) -> str:
    """The figure as it stands in a sentence."""
    text, exact = figure
    return text if exact is None else ABOUT + text


def decimals_apart(n: int, d: int) -> int:
    """How many decimals tell two values apart that differ by n/d."""
    decimals, size, least = FEWEST_DECIMALS, abs(n) * FEW, 2 * d
    while 0 < size <= least:
        size, decimals = size * 10, decimals + 1
    return decimals
