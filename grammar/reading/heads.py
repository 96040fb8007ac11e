"""The rules for whole statements: each yields its node of the syntax tree."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from grammar.reading.clauses import lone_number
from grammar.reading.parts import ByOrder, Expectations, Parts, Settings
from grammar.reading.values import Rule
from grammar.tree import (
    Adds,
    Amend,
    Amendable,
    At,
    Axis,
    Burn,
    BurnStep,
    Chord,
    Configuration,
    Datum,
    Declared,
    Document,
    Envelope,
    Example,
    Fact,
    Figure,
    Fitting,
    Fuel,
    Given,
    LayerHeader,
    LayerKind,
    Let,
    Limit,
    Load,
    Loosen,
    OneOf,
    Range,
    Row,
    SheetHeader,
    Table,
    Throughout,
    WeighedApart,
    Withdraw,
    Word,
)


def _sheet(parts: Parts) -> SheetHeader:
    name, revision, title = parts.all(Word)
    return SheetHeader(name, lone_number(revision), title, parts.clauses, parts.span)


def _layer(kind: LayerKind) -> Rule:
    def layer(parts: Parts) -> LayerHeader:
        name, revision, to, title = parts.all(Word)
        return LayerHeader(kind, name, lone_number(revision), to, title, parts.clauses, parts.span)

    return layer


def _document(parts: Parts) -> Document:
    name, title = parts.all(Word)
    return Document(name, title, parts.span)


def _chord(parts: Parts) -> Chord:
    start, length = parts.all(Figure)
    return Chord(start, length, parts.clauses, parts.span)


def _fact(parts: Parts) -> Fact:
    return Fact(parts.name, parts.label, parts.information, parts.clauses, parts.span)


def _given(parts: Parts) -> Given:
    return Given(parts.name, parts.label, parts.information, parts.clauses, parts.span)


def _configuration(parts: Parts) -> Configuration:
    options = parts.one(OneOf).options
    fittings: tuple[Fitting, ...] = (*parts.all(WeighedApart), *parts.all(Adds))
    return Configuration(parts.name, parts.label, options, fittings, parts.clauses, parts.span)


def _declared(parts: Parts) -> Declared:
    by_order = parts.maybe(ByOrder) is not None
    return Declared(parts.all(Word), parts.one(Figure), by_order, parts.clauses, parts.span)


def _amend(parts: Parts) -> Amend:
    statement = parts.parts[0]
    assert isinstance(statement, Amendable)
    return Amend(statement, parts.span)


def _withdraw(parts: Parts) -> Withdraw:
    thing, name = parts.all(Word)
    return Withdraw(thing, name, parts.clauses, parts.span)


def _load(parts: Parts) -> Load:
    return Load(parts.name, parts.label, parts.one(Range), parts.clauses, parts.span)


def _fuel(parts: Parts) -> Fuel:
    return Fuel(parts.name, parts.label, parts.one(Range), parts.clauses, parts.span)


def _burn(parts: Parts) -> Burn:
    return Burn(parts.all(BurnStep), parts.clauses, parts.span)


def _let(parts: Parts) -> Let:
    return Let(parts.name, parts.expressions[0], parts.clauses, parts.span)


def _table(parts: Parts) -> Table:
    name, *label, gives = parts.all(Word)
    rows = parts.all(Row)
    return Table(name, label[0] if label else None, parts.all(Axis), gives, parts.clauses, rows, parts.span)


def _envelope(parts: Parts) -> Envelope:
    across, against = parts.all(Axis)
    return Envelope(parts.name, parts.label, across, against, parts.clauses, parts.all(Row), parts.span)


def _limit(parts: Parts) -> Limit:
    return _claimed(parts, is_caution=False)


def _caution(parts: Parts) -> Limit:
    return _claimed(parts, is_caution=True)


def _claimed(parts: Parts, *, is_caution: bool) -> Limit:
    stage = parts.maybe(At) or parts.maybe(Throughout)
    claim = parts.expressions[0]
    return Limit(parts.name, parts.label, stage, claim, parts.clauses, is_caution, parts.span)


def _example(parts: Parts) -> Example:
    settings = parts.all(Settings)
    given = tuple(one for clause in settings if not clause.are_loads for one in clause.settings)
    loads = tuple(one for clause in settings if clause.are_loads for one in clause.settings)
    expected = tuple(one for clause in parts.all(Expectations) for one in clause.expectations)
    return Example(parts.name, parts.label, given, loads, expected, parts.clauses, parts.span)


STATEMENTS: Final[Mapping[str, Rule]] = MappingProxyType(
    {
        "sheet": _sheet,
        "supplement": _layer(LayerKind.SUPPLEMENT),
        "order": _layer(LayerKind.ORDER),
        "permit": _layer(LayerKind.PERMIT),
        "document": _document,
        "datum": lambda parts: Datum(parts.name, parts.span),
        "chord": _chord,
        "fact": _fact,
        "given": _given,
        "configuration": _configuration,
        "declared": _declared,
        "load": _load,
        "fuel": _fuel,
        "burn": _burn,
        "let": _let,
        "table": _table,
        "envelope": _envelope,
        "limit": _limit,
        "caution": _caution,
        "example": _example,
        "amend": _amend,
        "loosen": lambda parts: Loosen(parts.one(Limit), parts.span),
        "withdraw": _withdraw,
    }
)
"""What each rule of a statement yields."""
