"""Names, figures and dates as typed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from grammar.text import Span


@dataclass(frozen=True, slots=True)
class Word:
    """A name, unit or label as typed (a label without its quotation marks)."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Figure:
    """A number as typed, with its sign and its unit if it has one."""

    amount: Fraction
    unit: Word | None
    span: Span


@dataclass(frozen=True, slots=True)
class Day:
    """A calendar date as typed, year-month-day; it may name a day that does not exist."""

    text: str
    span: Span
