"""What may stand in each sort of file: an order may only add limits, a permit must give something instead."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Final

from grammar import tree
from grammar.diagnostics.problem import Problem
from grammar.layering.headings import Heading, Volume
from grammar.sheet import LayerKind
from grammar.text import Span

_KEYWORDS: Final[Mapping[type, str]] = MappingProxyType(
    {
        tree.SheetHeader: "sheet",
        tree.Document: "document",
        tree.Datum: "datum",
        tree.Chord: "chord",
        tree.Fact: "fact",
        tree.Given: "given",
        tree.Configuration: "configuration",
        tree.Load: "load",
        tree.Fuel: "fuel",
        tree.Burn: "burn",
        tree.Declared: "declared",
        tree.Let: "let",
        tree.Table: "table",
        tree.Envelope: "envelope",
        tree.Limit: "limit",
        tree.Example: "example",
        tree.Amend: "amend",
        tree.Loosen: "loosen",
        tree.Withdraw: "withdraw",
    }
)

_SAYING: Final = (tree.Document, tree.Given, tree.Let, tree.Table, tree.Envelope, tree.Limit)
"""What limits need to be said, and the limits themselves: these can take nothing away."""

_ALLOWED: Final[Mapping[LayerKind, tuple[type, ...]]] = MappingProxyType(
    {
        LayerKind.SHEET: tuple(one for one in _KEYWORDS if one not in (tree.Amend, tree.Loosen, tree.Withdraw)),
        LayerKind.SUPPLEMENT: tuple(one for one in _KEYWORDS if one not in (tree.SheetHeader, tree.Loosen)),
        LayerKind.ORDER: (*_SAYING, tree.Declared, tree.Example),
        LayerKind.PERMIT: (*_SAYING, tree.Loosen),
    }
)


def keyword_of(statement: tree.Statement) -> str:
    """The word that a statement begins with."""
    if isinstance(statement, tree.LayerHeader):
        return statement.kind.value
    if isinstance(statement, tree.Limit) and statement.is_caution:
        return "caution"
    return _KEYWORDS[type(statement)]


def check_rules(volume: Volume) -> tuple[Problem, ...]:
    """Everything in a file that may not stand in a file of its sort."""
    problems = [*_headings(volume), *_statements(volume)]
    if volume.layer.kind is LayerKind.PERMIT:
        problems.extend(_permit(volume))
    return tuple(problems)


def start_of(volume: Volume, span: Span, keyword: str) -> Span:
    """The keyword at the start of a statement."""
    return volume.reading.source.span(span.start, span.start + len(keyword))


def _headings(volume: Volume) -> Iterator[Problem]:
    statements = volume.reading.file.statements
    for place, statement in enumerate(statements):
        is_late = isinstance(statement, Heading) and place > 0
        if is_late and not (isinstance(statement, tree.SheetHeader) and volume.layer.kind is LayerKind.SHEET):
            keyword = keyword_of(statement)
            yield Problem("761", start_of(volume, statement.span, keyword), {"keyword": keyword})


def _statements(volume: Volume) -> Iterator[Problem]:
    kind = volume.layer.kind
    for statement in volume.reading.file.statements:
        if isinstance(statement, (tree.SheetHeader, tree.LayerHeader, *_ALLOWED[kind])):
            continue
        keyword = keyword_of(statement)
        span = start_of(volume, statement.span, keyword)
        if kind is LayerKind.ORDER:
            yield Problem("752", span, {"keyword": keyword})
        else:
            right = "permit" if isinstance(statement, tree.Loosen) else "supplement"
            yield Problem("760", span, {"keyword": keyword, "kind": kind.value, "right": right})


def _permit(volume: Volume) -> Iterator[Problem]:
    layer, span = volume.layer, volume.heading.name.span
    if layer.until is None:
        yield Problem("757", span, {"name": layer.name})
    if layer.airframe is None:
        yield Problem("758", span, {"name": layer.name})
    statements = volume.reading.file.statements
    loosened = [one.statement.name.text for one in statements if isinstance(one, tree.Loosen)]
    adds = any(isinstance(one, tree.Limit) and not one.is_caution for one in statements)
    if loosened and not adds:
        yield Problem("759", span, {"name": layer.name, "loosened": ", ".join(loosened)})
