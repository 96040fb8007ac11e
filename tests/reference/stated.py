"""A flat request and a sheet's statements, laid out for the reference evaluator."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from grammar import tree
from tests.reference.burn_order import Step
from tests.reference.unit_table import CUBIC_METRE, in_base

Known = Fraction | str | bool
"""A number in base units, an option's word, or the truth of a condition."""

BUILT_IN_INPUTS = (
    "empty_mass",
    "empty_arm",
    "empty_lateral_arm",
    "weighed_on",
    "serial",
    "flight_date",
    "taxi_fuel",
    "trip_fuel",
)
_AMOUNT = re.compile(r"([+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?)\s*(\S+)?")


def value_of(text: str) -> Known:
    """What a text in a request says: a date, a figure with or without a unit, or a word."""
    if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
        return Fraction(date.fromisoformat(text).toordinal())
    match = _AMOUNT.fullmatch(text)
    if match is None:
        return text
    return in_base(Fraction(match[1]), match[2])


def unit_of(text: str) -> str | None:
    """The unit that a text in a request is written with."""
    match = _AMOUNT.fullmatch(text)
    return match[2] if match else None


def figure(written: tree.Figure, usual: str | None = None) -> Fraction:
    """A printed figure in base units; in a table's cell the unit is usually the column's."""
    return in_base(written.amount, written.unit.text if written.unit else usual)


@dataclass
class Statements:
    """The statements of a file by their kind and name."""

    file: tree.File
    loads: dict[str, tree.Load] = field(default_factory=dict)
    tanks: dict[str, tree.Fuel] = field(default_factory=dict)
    inputs: dict[str, tree.Fact | tree.Given] = field(default_factory=dict)
    lets: dict[str, tree.Let] = field(default_factory=dict)
    tables: dict[str, tree.Table] = field(default_factory=dict)
    envelopes: dict[str, tree.Envelope] = field(default_factory=dict)
    limits: dict[str, tree.Limit] = field(default_factory=dict)
    chord: tree.Chord | None = None
    burn: tree.Burn | None = None

    def __post_init__(self) -> None:
        for statement in self.file.statements:
            match statement:
                case tree.Load(name=name):
                    self.loads[name.text] = statement
                case tree.Fuel(name=name):
                    self.tanks[name.text] = statement
                case tree.Fact(name=name) | tree.Given(name=name):
                    self.inputs[name.text] = statement
                case tree.Let(name=name):
                    self.lets[name.text] = statement
                case tree.Table(name=name):
                    self.tables[name.text] = statement
                case tree.Envelope(name=name):
                    self.envelopes[name.text] = statement
                case tree.Limit(name=name):
                    self.limits[name.text] = statement
                case tree.Chord():
                    self.chord = statement
                case tree.Burn():
                    self.burn = statement
                case _:
                    pass

    def burn_steps(self) -> list[Step]:
        """The burn order as written; with one tank and no order, that tank down to nothing."""
        if self.burn is None:
            return [Step((name,), Fraction(0)) for name in self.tanks]
        return [
            Step(
                tuple(tank.text for tank in step.tanks),
                figure(step.down_to) if step.down_to else Fraction(0),
            )
            for step in self.burn.steps
        ]


def is_by_volume(unit: str | None) -> bool:
    """Whether a unit is one of volume."""
    return unit in CUBIC_METRE


def tank_is_by_volume(tank: tree.Fuel) -> bool:
    """Whether a tank's range is printed in a unit of volume."""
    unit = tank.range.most.unit
    return unit is not None and is_by_volume(unit.text)


def clause(statement: tree.Statement, kind: type[tree.Clause]) -> tree.Clause | None:
    """The first clause of a kind that a statement has."""
    clauses: tuple[tree.Clause, ...] = getattr(statement, "clauses", ())
    return next((each for each in clauses if isinstance(each, kind)), None)
