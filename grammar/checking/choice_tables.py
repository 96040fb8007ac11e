"""Tables along a list of choices: read as a guarded choice, so that no interpretation needs to know of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from grammar import sheet
from grammar.text import Span
from grammar.units import Unit


@dataclass(frozen=True, slots=True)
class Printed:
    """A printed figure in base units, its unit and its place."""

    value: Fraction
    unit: Unit
    span: Span


@dataclass(frozen=True, slots=True)
class ChoiceTable:
    """What holds for each choice of ``item``, which is given as the argument of number ``argument``."""

    name: str
    label: str
    item: sheet.Input
    argument: int
    parts: tuple[tuple[str, sheet.Table | ChoiceTable | Printed], ...]

    def tables(self) -> Iterator[sheet.Table]:
        """The tables of figures within."""
        for _, part in self.parts:
            if isinstance(part, sheet.Table):
                yield part
            elif isinstance(part, ChoiceTable):
                yield from part.tables()

    def axes(self) -> tuple[str, ...]:
        """The names along the axes, in the order in which the values are given."""
        part = self.parts[0][1]
        inner: tuple[str, ...] = ()
        if isinstance(part, sheet.Table):
            inner = tuple(axis.name for axis in part.axes)
        elif isinstance(part, ChoiceTable):
            inner = part.axes()
        return (*inner[: self.argument], self.item.name, *inner[self.argument :])
