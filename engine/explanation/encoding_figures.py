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

Shown = tuple[str, str | None]
"""A figure, and where it is rounded the exact value as a fraction."""


def decimal_text(whole: int, decimals: int) -> str:
    """A whole number of the last decimal as text, zeros at the end left away."""
    if whole < 0:
        return "-" + decimal_text(-whole, decimals)
    before, after = divmod(whole, _TEN[decimals])
    if not after:
        return str(before)
    return f"{before}.{str(after).rjust(decimals, '0').rstrip('0')}"


def fewest_decimals(n: int, d: int) -> int:
    """How many decimals a rounded figure of this size has."""
    decimals, size, most = FEWEST_DECIMALS, abs(n) * _TEN[FEWEST_DECIMALS], d * _THRESHOLD
    while 0 < size < most and decimals < _MOST:
        size, decimals = size * 10, decimals + 1
    return decimals


def shown_ratio(n: int, d: int, lean: Rounding, decimals: int = 0) -> Shown:
    """The figure for n/d; d is more than zero."""
    decimals = max(decimals, fewest_decimals(n, d))
    places = max(MOST_DECIMALS_IN_FULL, decimals)
    whole, rest = divmod(n * 10**places, d)
    if not rest:
        return decimal_text(whole, places), None
    shared = gcd(n, d)
    return decimal_text(_rounded(n * 10**decimals, d, lean), decimals), f"{n // shared}/{d // shared}"


def _rounded(n: int, d: int, lean: Rounding) -> int:
    whole, rest = divmod(n, d)
    match lean:
        case Rounding.DOWN:
            return whole
        case Rounding.UP:
            return whole + (rest > 0)
        case Rounding.NEAREST:
            return whole + (2 * rest > d or (2 * rest == d and whole % 2 == 1))


def in_a_sentence(figure: Shown) -> str:
    """The figure as it stands in a sentence."""
    text, exact = figure
    return text if exact is None else ABOUT + text


def decimals_apart(n: int, d: int) -> int:
    """How many decimals tell two values apart that differ by n/d."""
    decimals, size, least = FEWEST_DECIMALS, abs(n) * _TEN[FEWEST_DECIMALS], 2 * d
    while 0 < size <= least:
        size, decimals = size * 10, decimals + 1
    return decimals


def share_of(room: int, bound: int) -> Shown | None:
    """The room as a share of the bound's size in per cent, both in one unit; None for a bound of zero."""
    return shown_ratio(100 * room, abs(bound), Rounding.DOWN) if bound else None
