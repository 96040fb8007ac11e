"""One line of the outline, and the words that every sort of statement shares in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from engine.explanation.words import clean
from grammar.figures import show_with_unit
from grammar.sheet import Constant, Expression, Input, Source
from grammar.text import SourceText, Span
from grammar.units import PURE

Sources = Mapping[str, SourceText]
"""The texts that a sheet was read from, by the names of their files."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the outline: what the manual calls it, what the sheet says of it, and where it stands."""

    paragraph: str
    what: str
    says: str
    span: Span


def named(label: str, name: str) -> str:
    """A label, with the name in the sheet where that is not the same."""
    return clean(label) if label.lower() == name.replace("_", " ") else clean(f"{label} [{name}]")


def paragraph_of(source: Source | None) -> str:
    """The document and paragraph of a statement."""
    return "-" if source is None else clean(f"{source.document.name} {source.paragraph}")


def typed(span: Span, sources: Sources) -> str:
    """A stretch of a sheet as typed, on one line."""
    return clean(" ".join(sources[span.file].text[span.start : span.end].split()))


def range_of(item: Input) -> str:
    """From where to where an input may go; nothing where the sheet does not say."""
    if item.least is None or item.most is None or item.unit is None:
        return ""
    return f"from {show_with_unit(item.least, item.unit)} to {show_with_unit(item.most, item.unit)}"


def figure(node: Expression, sources: Sources) -> str:
    """A printed figure, or the words of an expression as typed."""
    if isinstance(node, Constant) and isinstance(node.value, Fraction):
        return show_with_unit(node.value, node.unit or PURE)
    return typed(node.span, sources)
