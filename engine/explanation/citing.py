"""On whose authority: which statement a figure stands in, on which line, out of which paragraph.

A document is named by its title up to the first comma ("Corrin T2 flight manual" for "Corrin T2 flight
manual, CT2-FM, issue 4"), the same way on every surface. Where two documents of a sheet would then be called
the same, both keep their full titles.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Final

from engine.explanation.naming import declared_mass
from engine.explanation.words import clean
from grammar.checking.declared_masses import DECLARED
from grammar.sheet import (
    Condition,
    Document,
    Expression,
    FuelAmount,
    Ground,
    Input,
    Limit,
    Named,
    NamedCondition,
    Read,
    Sheet,
    Source,
    Stated,
)
from grammar.text import Span

CHORD_SHARE: Final = "cg_percent_mac"
"""The built-in that rests on the paragraph of the chord."""


@dataclass(frozen=True, slots=True)
class Citation:
    """The statement that something stands in, its place in the text, and the paragraph it was taken from."""

    statement: str
    file: str | None
    line: int | None
    source: Source | None


@dataclass(frozen=True, slots=True)
class Statement:
    """A statement that can be cited; ``declares`` marks those that declare an input or a table."""

    whole: Span
    name: str
    source: Source | None
    declares: bool

    def has(self, span: Span) -> bool:
        """Whether a place in the text belongs to this statement."""
        end = max(self.whole.end, self.whole.start + 1)
        return self.whole.file == span.file and self.whole.start <= span.start < end


@dataclass(frozen=True, slots=True)
class Citations:
    """Every statement of a sheet by its place, and the short name of every document."""

    statements: tuple[Statement, ...]
    titles: tuple[tuple[Document, str], ...]
    chord: Source | None

    def of(self, node: Expression | Condition, around: Citation | None) -> Citation | None:
        """Where a node stands, inside something that stands at ``around`` (None: inside a built-in)."""
        match node:
            case Read() | Stated():
                return of_input(node.input)
            case FuelAmount():
                return of_input(node.tank.input)
            case Named(is_built_in=True, source=None):
                return None if node.name != CHORD_SHARE else Citation("chord", None, None, self.chord)
            case Named(is_built_in=True) if declared_mass(node) is not None:
                return Citation(DECLARED, node.span.file, node.span.line, node.source)
            case Named(is_built_in=True):
                return self._of_bound(node)
            case Named() | NamedCondition() if node.source is not None:
                return Citation(node.name, node.span.file, node.span.line, node.source)
            case _:
                inside_a_built_in = around is None or around.line is None or around.statement == DECLARED
                return self.at(node.span, declared_only=inside_a_built_in) or around

    @staticmethod
    def below(node: Expression | Condition, cited: Citation | None) -> Citation | None:
        """Where the parts of a node are to be taken to stand, when they do not tell themselves.

        The bound of another limit has a source, and its parts the places of that limit.
        """
        match node:
            case Named(is_built_in=True, source=None, name=name) if name != CHORD_SHARE:
                return None
            case _:
                return cited

    def _of_bound(self, node: Named) -> Citation:
        """The limit whose bound the name stands for."""
        name = node.name.removeprefix("bound(").removesuffix(")")
        for each in self.statements:
            if each.name == name and each.source == node.source and not each.declares:
                return Citation(name, each.whole.file, each.whole.line, each.source)
        return Citation(name, None, None, node.source)

    def at(self, span: Span, *, declared_only: bool = False) -> Citation | None:
        """The statement that a place in the text belongs to, with the line of that place.

        What is built in (the mass, say) is shared by all limits and bears the place of the first that asked
        for it; inside it only the places of declarations can be trusted: ``declared_only``.
        """
        for each in self.statements:
            if each.has(span) and (each.declares or not declared_only):
                return Citation(each.name, span.file, span.line, each.source)
        return None

    def short_title(self, document: Document) -> str:
        """The name of a document inside a sentence."""
        for known, title in self.titles:
            if known == document:
                return title
        return _up_to_the_first_comma(document)

    def named(self, source: Source) -> str:
        """A source in a few words: "Corrin T2 flight manual, paragraph 2.4"."""
        paragraph = clean(source.paragraph)
        word = "paragraph " if paragraph[:1].isdigit() else ""
        return f"{self.short_title(source.document)}, {word}{paragraph}"

    def ground_of(self, limit: Limit) -> str:
        """What a limit rests on, as it stands in brackets at the end of a sentence."""
        if limit.source is not None:
            return self.named(limit.source)
        return "plain arithmetic of the fuel" if limit.ground is Ground.BURN else "no document named"


def of_input(item: Input) -> Citation | None:
    """Where an input is declared; None for one that is built in."""
    if item.span is None:
        return None
    name = item.name.removeprefix("manner(").removesuffix(")")
    return Citation(name, item.span.file, item.span.line, item.source)


def of_limit(limit: Limit) -> Citation:
    """Where a limit stands."""
    return Citation(limit.name, limit.span.file, limit.span.line, limit.source)


def citations(sheet: Sheet) -> Citations:
    """The statements and documents of a sheet, ready to be cited."""
    statements = [
        Statement(item.span, item.name, item.source, True) for item in sheet.inputs if item.span is not None
    ]
    statements += [Statement(one.span, one.name, one.source, True) for one in sheet.tables]
    statements += [Statement(one.span, one.name, one.source, True) for one in sheet.envelopes]
    statements += [Statement(one.span, one.name, one.source, False) for one in sheet.lets]
    statements += [Statement(one.span, one.name, one.source, False) for one in sheet.limits]
    chord = None if sheet.chord is None else sheet.chord.source
    return Citations(tuple(statements), _short_titles(sheet.documents), chord)


def _short_titles(documents: tuple[Document, ...]) -> tuple[tuple[Document, str], ...]:
    uses = Counter(_up_to_the_first_comma(document) for document in documents)
    return tuple((document, _short_title(document, uses)) for document in documents)


def _short_title(document: Document, uses: Counter[str]) -> str:
    short = _up_to_the_first_comma(document)
    return short if uses[short] == 1 else clean(document.title)


def _up_to_the_first_comma(document: Document) -> str:
    return clean(document.title).split(",", 1)[0].strip() or clean(document.name)
