"""Figures with units: from what was typed to exact rationals in base units."""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction
from typing import Final

from grammar import sheet, tree
from grammar.checking.scope import Scope
from grammar.diagnostics.suggestions import nearest
from grammar.figures import Rounding, show
from grammar.units import (
    CALENDAR_UNITS,
    NUMBER,
    PURE,
    Dimension,
    Unit,
    find_unit,
    unit_names,
    usual_unit,
)

NOTHING: Final = Fraction(0)
"""No amount, of whatever dimension."""

_AMBIGUOUS: Final = re.compile(r"(?<![A-Za-z])(gal|gallons?)(?![A-Za-z])")


def unit(scope: Scope, word: tree.Word) -> Unit | None:
    """The unit that a word names, or None with a problem written down."""
    found = find_unit(word.text)
    if found is None and _AMBIGUOUS.search(word.text):
        us, imperial = (_AMBIGUOUS.sub(f"{measure}gal", word.text) for measure in ("US", "imp"))
        scope.notebook.write("420", word.span, unit=word.text, us=us, imperial=imperial)
    elif found is None:
        near = nearest(word.text, unit_names()) or _by_letters(word.text)
        scope.notebook.write("401", word.span, suggestion=near, unit=word.text)
    return found


def _by_letters(word: str) -> str | None:
    """The unit that differs only in capitals, as KG or Lb does."""
    return next((name for name in unit_names() if name.lower() == word.lower()), None)


def value(scope: Scope, figure: tree.Figure) -> tuple[Fraction, Unit] | None:
    """A figure in base units, with its unit (``PURE`` for a plain number)."""
    if figure.unit is None:
        return figure.amount, PURE
    if figure.unit.text in CALENDAR_UNITS:
        scope.notebook.write("417", figure.span, figure=scope.typed(figure.span))
        return None
    found = unit(scope, figure.unit)
    return None if found is None else (found.to_base(figure.amount), found)


def value_of(scope: Scope, figure: tree.Figure, dimension: Dimension, what: str) -> Fraction | None:
    """A figure that must be of the given dimension, in base units; ``what`` names it, as in "the arm"."""
    found = value(scope, figure)
    if found is None:
        return None
    amount, its_unit = found
    if its_unit.dimension == dimension and not its_unit.is_point:
        return amount
    wrong_dimension(scope, figure, its_unit, dimension, what)
    return None


def value_in(scope: Scope, figure: tree.Figure, wanted: Unit, what: str) -> Fraction | None:
    """A figure that must be measurable in the wanted unit (points on a scale included), in base units."""
    found = value(scope, figure)
    if found is None:
        return None
    amount, its_unit = found
    if its_unit.dimension == wanted.dimension and its_unit.is_point == wanted.is_point:
        return amount
    wrong_dimension(scope, figure, its_unit, wanted.dimension, what, wanted)
    return None


def wrong_dimension(
    scope: Scope,
    figure: tree.Figure,
    its_unit: Unit,
    wanted: Dimension,
    what: str,
    wanted_unit: Unit | None = None,
) -> None:
    """Write down that a figure has no unit, or one of another dimension than wanted."""
    typed = scope.typed(figure.span)
    shown = wanted_unit or usual_unit(wanted)
    wanted_name = "a temperature" if shown.is_point else wanted.name
    if its_unit.dimension == NUMBER and figure.unit is None:
        scope.notebook.write(
            "403",
            figure.span,
            figure=typed,
            dimension=wanted_name,
            unit=shown.name,
            suggestion=f"{typed} {shown.name}",
        )
    else:
        scope.notebook.write(
            "404",
            figure.span,
            figure=typed,
            dimension="a temperature" if its_unit.is_point else its_unit.dimension.name,
            what=what,
            wanted=wanted_name,
            unit=shown.name or "a plain number",
        )


def positive(scope: Scope, figure: tree.Figure, dimension: Dimension, what: str) -> Fraction | None:
    """A figure that must be of the dimension and more than zero."""
    amount = value_of(scope, figure, dimension, what)
    if amount is not None and amount <= 0:
        scope.notebook.write("515", figure.span, what=what, figure=scope.typed(figure.span))
        return None
    return amount


def day(scope: Scope, typed: tree.Day) -> Fraction | None:
    """A date as its day number."""
    try:
        return Fraction(date.fromisoformat(typed.text).toordinal())
    except ValueError:
        scope.notebook.write("516", typed.span, day=typed.text)
        return None


def whole_number(scope: Scope, figure: tree.Figure) -> int | None:
    """A revision number."""
    if figure.unit is not None or figure.amount.denominator != 1 or figure.amount < 1:
        scope.notebook.write("517", figure.span, figure=scope.typed(figure.span))
        return None
    return int(figure.amount)


def shown(amount: Fraction, its_unit: Unit) -> str:
    """A value in base units as text for a message."""
    figure = str(show(its_unit.from_base(amount), Rounding.NEAREST))
    return f"{figure} {its_unit.name}".strip()


def counted(number: int, one: str, many: str) -> str:
    """ "1 figure", "3 figures"."""
    return f"{number} {one if number == 1 else many}"


def kind_of(its_unit: Unit) -> sheet.Kind:
    """The kind of a value measured in a unit."""
    return sheet.TemperaturePoint() if its_unit.is_point else sheet.Measure(its_unit.dimension)
