"""The reference evaluator's own table of units, typed out again from the definitions."""

from __future__ import annotations

import re
from fractions import Fraction

KILOGRAM = {"kg": "1", "g": "1/1000", "t": "1000", "lb": "45359237/100000000", "oz": "45359237/1600000000"}
METRE = {
    "m": "1",
    "cm": "1/100",
    "mm": "1/1000",
    "km": "1000",
    "in": "254/10000",
    "ft": "3048/10000",
    "NM": "1852",
}
CUBIC_METRE = {
    "m3": "1",
    "L": "1/1000",
    "USgal": "3785411784/1000000000000",
    "USqt": "3785411784/4000000000000",
    "impgal": "454609/100000000",
    "ft3": "28316846592/1000000000000",
}
OTHERS = {
    "number": "1",
    "%": "1/100",
    "%MAC": "1",
    "m2": "1",
    "cm2": "1/10000",
    "in2": "64516/100000000",
    "ft2": "9290304/100000000",
    "s": "1",
    "min": "60",
    "h": "3600",
    "kt": "1852/3600",
    "N": "1",
    "daN": "10",
    "kN": "1000",
    "lbf": "44482216152605/10000000000000",
    "Pa": "1",
    "hPa": "100",
    "inHg": "3386389/1000",
    "kW": "1000",
    "deg": "1",
    "K": "1",
    "day": "1",
    "days": "1",
}
FACTORS = {name: Fraction(text) for name, text in {**KILOGRAM, **METRE, **CUBIC_METRE, **OTHERS}.items()}


def in_base(amount: Fraction, unit: str | None) -> Fraction:
    """A figure with its unit in kilograms, metres, seconds, kelvin, and what is made of them."""
    if unit is None:
        return amount
    if unit == "degC":
        return amount + Fraction("273.15")
    if unit == "degF":
        return (amount + Fraction("459.67")) * Fraction(5, 9)
    return amount * factor(unit)


def factor(unit: str) -> Fraction:
    """How many base units one of this unit is; parts are joined by ``.`` and ``/``."""
    if unit in FACTORS:
        return FACTORS[unit]
    first, *rest = re.split(r"([./])", unit)
    result = FACTORS[first]
    for sign, part in zip(rest[::2], rest[1::2], strict=True):
        result = result * FACTORS[part] if sign == "." else result / FACTORS[part]
    return result
