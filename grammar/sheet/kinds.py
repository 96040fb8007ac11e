"""Stages, kinds of value, sources and inputs."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum, unique
from fractions import Fraction

from grammar.text import Span
from grammar.units import Dimension, Unit


@unique
class Stage(Enum):
    """A moment of the flight; ``THROUGHOUT`` is every moment from take-off down to landing."""

    RAMP = "ramp"
    TAKEOFF = "takeoff"
    LANDING = "landing"
    ZERO_FUEL = "zero_fuel"
    THROUGHOUT = "throughout"


@dataclass(frozen=True, slots=True)
class Measure:
    """An amount of a dimension; a value of this kind is a Fraction in base units."""

    dimension: Dimension


@dataclass(frozen=True, slots=True)
class TemperaturePoint:
    """A point on the temperature scale; its value is a Fraction in kelvin."""


@dataclass(frozen=True, slots=True)
class CalendarDate:
    """A day; its value is a Fraction, the day's number counted from 0001-01-01 as day 1."""


@dataclass(frozen=True, slots=True)
class Option:
    """One of a list, or yes or no; its value is the option's word."""

    options: tuple[str, ...]
    is_yes_or_no: bool = False


Kind = Measure | TemperaturePoint | CalendarDate | Option


@dataclass(frozen=True, slots=True)
class Document:
    """A manual, supplement or bulletin."""

    name: str
    title: str
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class Source:
    """A paragraph of a document."""

    document: Document
    paragraph: str


@unique
class Role(Enum):
    """Who knows an input: the weighing, the airframe's record, or only the request."""

    WEIGHING = "weighing"
    FACT = "fact"
    GIVEN = "given"
    LOAD = "load"
    TANK = "tank"


@dataclass(frozen=True, slots=True)
class Input:
    """Something that a request or an airframe's record states.

    ``least`` and ``most`` are in base units. For a load or a tank they make a limit; for anything else they
    say what the manual covers, and a value beyond them is as good as missing. ``assumed`` is the value taken
    when nobody states one. A tank's amount is in the dimension it was declared in (a volume or a mass).
    """

    name: str
    label: str
    role: Role
    kind: Kind
    unit: Unit | None
    least: Fraction | None
    most: Fraction | None
    assumed: Fraction | str | None
    source: Source | None
    note: str | None
    span: Span | None = field(compare=False)
    is_built_in: bool = False
