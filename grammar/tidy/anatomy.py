"""What the tree knows of a statement that its words alone do not say: units, signs, and where a line may break."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, fields, is_dataclass
from typing import Final, Protocol

from grammar.text import Span
from grammar.tree import (
    After,
    AllOf,
    AnyOf,
    Arithmetic,
    Axis,
    Burn,
    Call,
    Choice,
    Configuration,
    Declared,
    Envelope,
    Example,
    Fuel,
    Load,
    Measured,
    Negative,
    OneOf,
    Operation,
    Statement,
    Table,
    Word,
)
from grammar.tree import Figure as TypedFigure


class _Placed(Protocol):
    """A node of the tree."""

    @property
    def span(self) -> Span: ...


_SUMS: Final = frozenset({Operation.ADD, Operation.SUBTRACT})


@dataclass(frozen=True, slots=True)
class Break:
    """A place where a line that is too long may be broken; the outermost are taken first.

    ``is_each`` marks a place that is broken together with all its fellows, so that a list stands one below
    the other. ``is_word_before`` says that the break comes before the word in front of the place.
    """

    depth: int
    is_each: bool = False
    is_word_before: bool = False


@dataclass(slots=True)
class Anatomy:
    """Offsets in the text, by what begins there."""

    units: dict[int, int] = field(default_factory=dict)
    names: set[int] = field(default_factory=set)
    signs: set[int] = field(default_factory=set)
    calls: set[int] = field(default_factory=set)
    breaks: dict[int, Break] = field(default_factory=dict)


def anatomy(statement: Statement, text: str) -> Anatomy:
    """The anatomy of one statement. It goes by a list and not by calling itself: brackets may be deep."""
    found = Anatomy()
    ahead: list[tuple[object, int]] = [(statement, 0)]
    while ahead:
        node, depth = ahead.pop()
        _note(node, text, found)
        found.breaks.update(_own_breaks(node, depth))
        ahead.extend(_within(node, depth))
    return found


def _within(node: object, depth: int) -> Iterator[tuple[object, int]]:
    """The parts of a node, each with how deep a break in it is."""
    match node:
        case tuple():
            yield from ((each, depth) for each in node)
        case Arithmetic() if _is_sum(node):
            # a + b - c is one list of terms, though the tree nests it.
            yield node.left, depth if _is_sum(node.left) else depth + 1
            yield node.right, depth + 1
        case _ if is_dataclass(node) and not isinstance(node, Span | Word):
            yield from ((getattr(node, each.name), depth + 1) for each in fields(node))
        case _:
            return


def _is_sum(node: object) -> bool:
    return isinstance(node, Arithmetic) and node.operation in _SUMS


def _note(node: object, text: str, found: Anatomy) -> None:
    match node:
        case Word():
            found.names.add(node.span.start)
        case TypedFigure():
            _note_unit(node.unit, found)
            if text.startswith("-", node.span.start):
                found.signs.add(node.span.start)
        case Negative():
            found.signs.add(node.span.start)
        case Call():
            found.calls.add(node.name.span.start)
        case Axis() | Measured():
            _note_unit(node.unit, found)
        case Table():
            _note_unit(node.gives, found)
        case _:
            return


def _note_unit(unit: Word | None, found: Anatomy) -> None:
    if unit is not None:
        found.units[unit.span.start] = unit.span.end


# ---- where a long line may break


def _own_breaks(node: object, depth: int) -> Iterator[tuple[int, Break]]:
    match node:
        case Arithmetic() if _is_sum(node):
            yield node.right.span.start, Break(depth, is_word_before=True)
        case Choice():
            rest = [*node.branches[1:], *([node.otherwise] if node.otherwise is not None else [])]
            yield from _at(rest, Break(depth, is_each=True))
        case AllOf() | AnyOf():
            yield from _at(node.parts[1:], Break(depth, is_each=True, is_word_before=True))
        case Call():
            yield from _at(node.arguments[1:], Break(depth))
        case OneOf() | Configuration():
            yield from _at(node.options[1:], Break(depth))
        case Declared():
            yield from _at(node.places[1:], Break(depth))
        case After():
            yield from _at(node.layers[1:], Break(depth))
        case Burn():
            yield from _at(node.steps[1:], Break(depth, is_word_before=True))
        case Load() | Fuel():
            yield from _at(node.clauses, Break(depth))
        case Table():
            yield from _at((*node.axes, node.gives), Break(depth, is_word_before=True))
        case Envelope():
            yield from _at((node.across, node.against), Break(depth, is_word_before=True))
        case Example():
            settings = (*node.given, *node.loads)
            yield from _at((*settings, *node.expectations), Break(depth))
        case _:
            return


def _at(nodes: Sequence[_Placed], kind: Break) -> Iterator[tuple[int, Break]]:
    for node in nodes:
        yield node.span.start, kind
