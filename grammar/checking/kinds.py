"""Which kinds of value may meet in which operation: one table, from which the tests make both halves."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum, unique
from types import MappingProxyType
from typing import Final

from grammar import sheet
from grammar.units import TEMPERATURE


@unique
class Sort(Enum):
    """The sorts of kind that the table distinguishes."""

    AMOUNT = "a quantity"
    DIFFERENCE = "a temperature difference"
    TEMPERATURE = "a temperature"
    DATE = "a date"
    OPTION = "a choice from a list"


@unique
class Meeting(Enum):
    """The ways in which two values meet, as in "they cannot be added"."""

    ADD = "added"
    SUBTRACT = "subtracted"
    MULTIPLY = "multiplied"
    DIVIDE = "divided"
    ORDER = "compared"
    SAME = "the same"


_AMOUNTS: Final = (Sort.AMOUNT, Sort.DIFFERENCE)

LEGAL: Final[Mapping[tuple[Meeting, Sort, Sort], Sort | None]] = MappingProxyType(
    {
        **{(meeting, sort, sort): sort for meeting in (Meeting.ADD, Meeting.SUBTRACT) for sort in _AMOUNTS},
        (Meeting.ADD, Sort.TEMPERATURE, Sort.DIFFERENCE): Sort.TEMPERATURE,
        (Meeting.ADD, Sort.DIFFERENCE, Sort.TEMPERATURE): Sort.TEMPERATURE,
        (Meeting.SUBTRACT, Sort.TEMPERATURE, Sort.DIFFERENCE): Sort.TEMPERATURE,
        (Meeting.SUBTRACT, Sort.TEMPERATURE, Sort.TEMPERATURE): Sort.DIFFERENCE,
        **{
            (meeting, one, other): Sort.AMOUNT
            for meeting in (Meeting.MULTIPLY, Meeting.DIVIDE)
            for one in _AMOUNTS
            for other in _AMOUNTS
        },
        **{(Meeting.ORDER, sort, sort): None for sort in Sort if sort is not Sort.OPTION},
        **{(Meeting.SAME, sort, sort): None for sort in Sort},
    }
)
"""The legal meetings and the sort of the result (None: a condition). Amounts that are added, ordered or the
same must also be of one dimension; the dimension of a product is the product of the dimensions."""

_HINTS: Final[Mapping[frozenset[Sort], str]] = MappingProxyType(
    {
        frozenset({Sort.TEMPERATURE}): "Temperatures can be compared and subtracted; a difference is in K.",
        frozenset(
            {Sort.TEMPERATURE, Sort.DIFFERENCE}
        ): "A temperature is in degC or degF, a difference of two in K.",
        frozenset({Sort.TEMPERATURE, Sort.AMOUNT}): "A temperature is in degC or degF, a difference of two in K.",
        frozenset({Sort.DATE}): "Dates can be compared; to a date days, months or years can be added.",
        frozenset({Sort.DATE, Sort.AMOUNT}): "To a date days, months or years can be added, such as + 48 months.",
    }
)


def sort_of(kind: sheet.Kind) -> Sort:
    """The sort of a kind."""
    match kind:
        case sheet.Measure():
            return Sort.DIFFERENCE if kind.dimension == TEMPERATURE else Sort.AMOUNT
        case sheet.TemperaturePoint():
            return Sort.TEMPERATURE
        case sheet.CalendarDate():
            return Sort.DATE
        case sheet.Option():
            return Sort.OPTION


def is_legal(meeting: Meeting, left: sheet.Kind, right: sheet.Kind) -> bool:
    """Whether the table has the meeting (dimensions are another matter)."""
    return (meeting, sort_of(left), sort_of(right)) in LEGAL


def result(meeting: Meeting, left: sheet.Measure | sheet.TemperaturePoint, right: sheet.Kind) -> sheet.Kind:
    """The kind of a legal sum or difference."""
    sort = LEGAL[meeting, sort_of(left), sort_of(right)]
    if sort is Sort.TEMPERATURE:
        return sheet.TemperaturePoint()
    return sheet.Measure(TEMPERATURE) if sort is Sort.DIFFERENCE else left


def words(kind: sheet.Kind) -> str:
    """A kind in an officer's words."""
    return kind.dimension.name if isinstance(kind, sheet.Measure) else sort_of(kind).value


def hint(left: sheet.Kind, right: sheet.Kind) -> str:
    """What may be done instead."""
    sorts = frozenset((sort_of(left), sort_of(right)))
    return _HINTS.get(sorts, "Look at both against the manual: one of them is probably not what is meant.")
