"""What one entry of a request says: an amount with its unit, a date, an option's word, yes or no."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Final

from grammar.diagnostics.lettering import shown
from grammar.diagnostics.suggestions import nearest
from grammar.figures import MOST_DIGITS, read_decimal
from grammar.sheet import CalendarDate, Input, Measure, Option, Role, TemperaturePoint
from grammar.units import MASS, VOLUME, Dimension, Unit, find_unit, unit_names, usual_unit

_LONGEST_SHOWN: Final = 60
_AMOUNT: Final = re.compile(r"([+-]?[\d.,]*\d)\s*(\D.*)?", re.DOTALL)
_EXPONENT: Final = re.compile(r"[+-]?\d+(?:\.\d+)?[eE][+-]?\d+")
_DATE: Final = re.compile(r"\d{4}-\d{2}-\d{2}")
_WORDS: Final = {True: "yes", False: "no"}


@dataclass(frozen=True, slots=True)
class Written:
    """A number by itself, as it was written."""

    text: str


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount of fuel stated as a mass where the sheet counts volumes, or the other way round."""

    value: Fraction
    dimension: Dimension


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why an entry is not taken, what it should be, and what was probably meant."""

    says: str
    expected: str
    suggestion: str | None = None


def shortened(text: str) -> str:
    """A text fit to show: control characters escaped, cut where it is long."""
    return shown(text if len(text) <= _LONGEST_SHOWN else text[:_LONGEST_SHOWN] + "…")


def read_value(item: Input, written: str | Written | bool, is_fuel: bool) -> Fraction | str | Amount | Refusal:
    """The value of an input in base units, or why it is not taken."""
    match item.kind:
        case Option():
            return _option(item.name, item.kind, written)
        case CalendarDate():
            return _date(item.name, written)
        case Measure() | TemperaturePoint():
            return _amount(item, written, is_fuel)


# ---- options and dates


def _option(name: str, kind: Option, written: str | Written | bool) -> str | Refusal:
    if isinstance(written, bool):
        if kind.is_yes_or_no:
            return _WORDS[written]
        return Refusal(f"{name} is not a matter of yes or no.", _one_of(kind))
    word = written.text if isinstance(written, Written) else written.strip()
    if word in kind.options:
        return word
    near = nearest(word.lower(), kind.options) if len(word) <= _LONGEST_SHOWN else None
    meant = word.lower() if word.lower() in kind.options else near
    return Refusal(f"{name} cannot be {shortened(word) or 'left blank'}.", _one_of(kind), meant)


def _one_of(kind: Option) -> str:
    return "yes or no" if kind.is_yes_or_no else "one of " + ", ".join(kind.options)


_DATE_EXPECTED: Final = "a date as year-month-day, such as 2026-05-03"


def _date(name: str, written: str | Written | bool) -> Fraction | Refusal:
    text = written.strip() if isinstance(written, str) else ""
    if not _DATE.fullmatch(text):
        return Refusal(f"{name} is not written as a date.", _DATE_EXPECTED)
    try:
        return Fraction(date.fromisoformat(text).toordinal())
    except ValueError:
        return Refusal(f"There is no day {text}.", _DATE_EXPECTED)


# ---- amounts


def _amount(item: Input, written: str | Written | bool, is_fuel: bool) -> Fraction | Amount | Refusal:
    unit = item.unit
    if unit is None or isinstance(written, bool):
        return Refusal(f"{item.name} is an amount, not yes or no.", _expected(item))
    figure, name = (written.text, unit.name) if isinstance(written, Written) else _split(written)
    number = _number(item, figure)
    if isinstance(number, Refusal):
        return number
    stated = unit if name == unit.name else _unit(item, figure, name, is_fuel)
    if isinstance(stated, Refusal):
        return stated
    value = stated.to_base(number)
    problem = _cannot_be(item, value, is_fuel)
    if problem is not None:
        return problem
    return value if stated.dimension == unit.dimension else Amount(value, stated.dimension)


def _split(text: str) -> tuple[str, str]:
    """The figure and the unit's name; a text without a figure is all figure."""
    text = text.strip()
    exponent = _EXPONENT.match(text)
    if exponent is not None:
        return exponent[0], text[exponent.end() :].strip()
    parts = _AMOUNT.fullmatch(text)
    return (parts[1], (parts[2] or "").strip()) if parts else (text, "")


def _number(item: Input, figure: str) -> Fraction | Refusal:
    number = read_decimal(figure)
    if number is not None:
        return number
    name = item.name
    if len(figure) > MOST_DIGITS:
        return Refusal(f"The figure for {name} is longer than {MOST_DIGITS} characters.", _expected(item))
    if "," in figure:
        meant = figure.replace(",", ".") if figure.count(",") == 1 and "." not in figure else None
        return Refusal(f"The figure for {name} has a comma.", "a decimal point, and no mark for thousands", meant)
    return Refusal(f"{name} does not begin with a figure that can be read.", _expected(item))


def _unit(item: Input, figure: str, name: str, is_fuel: bool) -> Unit | Refusal:
    """The unit that was stated, which must measure what the input is."""
    wanted = item.unit
    assert wanted is not None
    if not name and wanted.name in ("", "number"):
        return wanted
    if not name:
        return Refusal(f"{item.name} is stated without a unit.", _expected(item), f"{figure} {wanted.name}")
    if len(name) > _LONGEST_SHOWN:
        return Refusal(f"There is no unit {shortened(name)}.", _expected(item))
    unit = find_unit(name)
    if unit is None:
        return Refusal(f"There is no unit {shortened(name)}.", _expected(item), _near_unit(name))
    fits = (unit.dimension, unit.is_point) == (wanted.dimension, wanted.is_point)
    if fits or (is_fuel and unit.dimension in (MASS, VOLUME)):
        return unit
    what = "a temperature" if unit.is_point else unit.dimension.name
    return Refusal(f"{item.name} is stated in {name}, which is {what}.", _expected(item))


def _near_unit(name: str) -> str | None:
    same = next((unit for unit in unit_names() if unit.lower() == name.lower()), None)
    return same or nearest(name, unit_names())


def _cannot_be(item: Input, value: Fraction, is_fuel: bool) -> Refusal | None:
    is_mass = item.kind == Measure(MASS) and item.role is Role.WEIGHING
    if value < 0 and (is_fuel or is_mass or item.role is Role.LOAD):
        return Refusal(f"{item.name} is less than nothing.", "an amount of zero or more")
    if item.is_built_in and item.name == "serial" and value.denominator != 1:
        return Refusal("A serial number is a whole number.", "a whole number, such as 12")
    return None


def _expected(item: Input) -> str:
    """What the input takes, with an example."""
    if item.unit is None or item.unit.name in ("", "number"):
        return "a number, such as 2"
    dimension = item.unit.dimension
    if isinstance(item.kind, TemperaturePoint):
        return f"a temperature in degC or degF, such as 15 {item.unit.name}"
    if item.role is Role.TANK and dimension in (MASS, VOLUME):
        return f"a volume or a mass with its unit, such as 20 {item.unit.name}"
    return f"{dimension.name} with its unit, such as 20 {item.unit.name or usual_unit(dimension).name}"
