"""A resolved sheet printed as a sheet: each statement that a layer brought says where it stands and what it
took the place of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Final

from engine.explanation.caution import CAUTION
from engine.explanation.layering import displaced_in_words, layer_in_words, permit_in_words
from grammar import tree
from grammar.layering.merging import name_of
from grammar.reading import read_file
from grammar.sheet import Layer, LayerKind, Origin, Sheet
from grammar.text import SourceText, Span
from grammar.tidy import tidy

Sources = Mapping[str, SourceText]

_FILE: Final = "resolved.limits"


def printed(sheet: Sheet, file: tree.File, sources: Sources) -> str:
    """The statements of a resolved sheet as text that reads as a sheet again."""
    origins = {origin.name: origin for origin in sheet.origins}
    blocks = [_block(statement, origins, sources) for statement in file.statements]
    blocks += _withdrawn(file, sheet)
    spaced = [_spaced(before, block) for before, block in pairwise(["", *blocks])]
    text = "\n".join((*_heading(sheet), *spaced)) + "\n"
    return tidy(read_file(text, _FILE))


def _spaced(before: str, block: str) -> str:
    """A blank line before a statement of another sort than the last one, and around longer ones."""
    alike = before.split(" ", 1)[0] == block.split(" ", 1)[0] and "\n" not in before + block
    return block if alike else "\n" + block


def _heading(sheet: Sheet) -> Iterator[str]:
    yield f"-- {CAUTION}"
    for layer in sheet.layers:
        if layer.kind is LayerKind.PERMIT:
            yield f"-- UNDER PERMIT: {permit_in_words(layer, sheet)}"
    yield "-- Resolved from:"
    for layer in sheet.layers:
        yield f"--   {_named(layer)}"


def _named(layer: Layer) -> str:
    return f"{layer_in_words(layer)}, {layer.file}"


# ---- statements


def _block(statement: tree.Statement, origins: Mapping[str, Origin], sources: Sources) -> str:
    """A statement as typed, with comments that lead back to where it stands."""
    name = None if isinstance(statement, tree.SheetHeader | tree.LayerHeader) else name_of(statement)
    origin = origins.get(name) if name is not None else None
    if origin is None:
        return _typed(statement.span, sources)
    return "\n".join((*_provenance(origin, statement.span), _text(statement, origin, sources)))


def _provenance(origin: Origin, span: Span) -> Iterator[str]:
    layer = origin.layer
    yield f"-- {layer.kind.value} {layer.name} revision {layer.revision}, {span.file}, line {span.line}"
    yield from _displaced(origin)


def _displaced(origin: Origin) -> Iterator[str]:
    yield from (f"--   {displaced_in_words(one)}" for one in origin.displaced)


def _withdrawn(file: tree.File, sheet: Sheet) -> list[str]:
    """What was withdrawn and stands no more, as comments."""
    headings = tree.SheetHeader | tree.LayerHeader
    standing = {name_of(one) for one in file.statements if not isinstance(one, headings)}
    gone = [origin for origin in sheet.origins if origin.name not in standing]
    return ["\n".join((_gone(origin), *_displaced(origin))) for origin in gone]


def _gone(origin: Origin) -> str:
    return f"-- withdrawn by {origin.layer.kind.value} {origin.layer.name}: {origin.name}"


def _text(statement: tree.Statement, origin: Origin, sources: Sources) -> str:
    match statement:
        case tree.Load() | tree.Fuel() if _is_withdrawn(statement):
            return _emptied(statement, sources)
        case tree.Declared() if origin.layer.kind is LayerKind.ORDER:
            return _declared(statement, sources)
        case _:
            return _typed(statement.span, sources)


def _typed(span: Span, sources: Sources) -> str:
    return sources[span.file].text[span.start : span.end]


def _is_withdrawn(load: tree.Load | tree.Fuel) -> bool:
    """A withdrawn load keeps its range's place in the text, but has the span of what withdrew it."""
    return load.range.span.file != load.span.file


def _emptied(load: tree.Load | tree.Fuel, sources: Sources) -> str:
    keyword = "load" if isinstance(load, tree.Load) else "fuel"
    label = "" if load.label is None else f'"{load.label.text}" '
    unit = "" if load.range.most.unit is None else f" {load.range.most.unit.text}"
    clauses = [
        "assumed empty" if isinstance(clause, tree.AssumedEmpty) else _typed(clause.span, sources)
        for clause in load.clauses
    ]
    return f"{keyword} {load.name.text} {label}from 0{unit} to 0{unit}\n  " + "\n  ".join(clauses)


def _declared(statement: tree.Declared, sources: Sources) -> str:
    """An addition to declared masses that an order makes: in a resolved sheet that must be said."""
    text = _typed(statement.span, sources)
    figure = _typed(statement.add.span, sources)
    return text if statement.by_order else text.replace(f"add {figure}", f"add {figure} by order", 1)
