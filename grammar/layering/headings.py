"""What the heading of a file says: of which sort it is, what it builds on, when and for whom it holds."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from types import MappingProxyType
from typing import Final, TypeVar

from grammar import tree
from grammar.reading import Reading
from grammar.sheet import Layer, LayerKind

_KINDS: Final[Mapping[tree.LayerKind, LayerKind]] = MappingProxyType(
    {
        tree.LayerKind.SUPPLEMENT: LayerKind.SUPPLEMENT,
        tree.LayerKind.ORDER: LayerKind.ORDER,
        tree.LayerKind.PERMIT: LayerKind.PERMIT,
    }
)

Heading = tree.SheetHeader | tree.LayerHeader
SomeClause = TypeVar("SomeClause", bound=tree.Clause)


@dataclass(frozen=True, slots=True)
class Volume:
    """One file that has been read, with what its heading says.

    ``to`` is the sheet that it builds on (its own name for a sheet); ``after`` the layers it comes on top of.
    """

    layer: Layer
    to: str
    after: tuple[tree.Word, ...]
    replaces: int | None
    applies: tree.Expression | None
    heading: Heading
    reading: Reading

    def holds_on(self, day: Fraction) -> bool:
        """Whether the file holds on a day; its first and its last day count."""
        first, last = self.layer.effective, self.layer.until
        return (first is None or first <= day) and (last is None or day <= last)

    @property
    def is_dated(self) -> bool:
        """Whether it holds only from or until a certain day."""
        return self.layer.effective is not None or self.layer.until is not None


def volume_of(reading: Reading) -> Volume | None:
    """What the heading of a file says, or None where it has none that could be read."""
    heading = next((one for one in reading.file.statements if isinstance(one, Heading)), None)
    if heading is None:
        return None
    replaces = _clause(heading, tree.Replaces)
    after = _clause(heading, tree.After)
    applies = _clause(heading, tree.Applies)
    is_sheet = isinstance(heading, tree.SheetHeader)
    return Volume(
        layer=_layer(heading, reading.source.file),
        to=heading.name.text if isinstance(heading, tree.SheetHeader) else heading.to.text,
        after=() if after is None or is_sheet else after.layers,
        replaces=None if replaces is None else int(replaces.revision.amount),
        applies=None if applies is None else applies.condition,
        heading=heading,
        reading=reading,
    )


def names_below(volumes: Iterable[Volume]) -> dict[str, frozenset[str]]:
    """For each layer the names of all that it comes after, also by way of others."""
    after: dict[str, set[str]] = {}
    for volume in volumes:
        after.setdefault(volume.layer.name, set()).update(word.text for word in volume.after)
    return {name: _reached(name, after) for name in after}


def _reached(name: str, after: Mapping[str, set[str]]) -> frozenset[str]:
    found: set[str] = set()
    waiting = [name]
    while waiting:
        new = after.get(waiting.pop(), set()) - found
        found |= new
        waiting.extend(new)
    return frozenset(found)


def _layer(heading: Heading, file: str) -> Layer:
    effective, until = _clause(heading, tree.Effective), _clause(heading, tree.Until)
    airframe, issued = _clause(heading, tree.ForAirframe), _clause(heading, tree.IssuedBy)
    return Layer(
        kind=LayerKind.SHEET if isinstance(heading, tree.SheetHeader) else _KINDS[heading.kind],
        name=heading.name.text,
        revision=int(heading.revision.amount),
        title=heading.title.text,
        file=file,
        effective=None if effective is None else _day(effective.day),
        until=None if until is None else _day(until.day),
        airframe=None if airframe is None else airframe.registration.text,
        issued_by=None if issued is None else issued.who.text,
    )


def _clause(heading: Heading, wanted: type[SomeClause]) -> SomeClause | None:
    return next((clause for clause in heading.clauses if isinstance(clause, wanted)), None)


def _day(day: tree.Day) -> Fraction | None:
    """The number of a day; one that does not exist is reported when the heading is checked."""
    try:
        return Fraction(date.fromisoformat(day.text).toordinal())
    except ValueError:
        return None
