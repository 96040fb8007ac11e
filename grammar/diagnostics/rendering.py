"""Problems made into text: in full with the line as typed, or one line each.

A text is a row of pieces, each with a mark that says what it is. Joined, they are plain text that needs no
colour; a command may colour the marks.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum, unique
from typing import Final

from grammar.caution import CAUTION
from grammar.diagnostics.catalogue import CATALOGUE
from grammar.diagnostics.entry import Entry, Severity
from grammar.diagnostics.excerpt import excerpt
from grammar.diagnostics.lettering import columns, filled, remedy, says, shown, shown_with_spaces
from grammar.diagnostics.problem import Elsewhere, Mend, Problem
from grammar.text import SourceText, Span

WIDTH: Final = 100
"""The most columns of a line of a full text, save where a word by itself is longer."""

_LABEL: Final = 16
"""The columns before what is said: the indent, the label and the space behind it."""


@unique
class Mark(Enum):
    """What a piece of text is, so that a command may colour it."""

    TEXT = "text"
    PLACE = "place"
    LABEL = "label"
    ERROR = "error"
    WARNING = "warning"
    TYPED = "typed"
    POINTER = "pointer"
    CERTAIN = "certain"
    CLOSING = "closing"


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of text with its mark."""

    text: str
    mark: Mark = Mark.TEXT


Text = tuple[Piece, ...]
"""Pieces in the order in which they stand; line breaks are within them."""

Catalogue = Mapping[str, Entry]
Sources = Mapping[str, SourceText]
"""The texts of the files by name. A file that is not there is spoken of without its lines."""


def plain(text: Text) -> str:
    """The text without its marks."""
    return "".join(piece.text for piece in text)


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """The problems by file, then by place."""
    return tuple(sorted(problems, key=lambda each: (each.span.file, each.span.start, each.code)))


# ---- one problem


def one_line(problem: Problem, catalogue: Catalogue = CATALOGUE) -> str:
    """``file:line:column: code what is wrong``, on one line."""
    words = says(catalogue[problem.code], problem)
    return shown(f"{problem.span}: {problem.code} {words}")


def in_full(problem: Problem, sources: Sources, catalogue: Catalogue = CATALOGUE) -> Text:
    """Everything about a problem: where, the line as typed, what is wrong, what else is involved, the remedy."""
    return tuple(_full(problem, sources, catalogue[problem.code]))


def _full(problem: Problem, sources: Sources, entry: Entry) -> Iterator[Piece]:
    mark = Mark.ERROR if entry.severity is Severity.ERROR else Mark.WARNING
    yield Piece(_place(problem.span, sources) + "\n", Mark.PLACE)
    yield from _typed("as typed:", problem.span, sources)
    yield from _labelled(f"{entry.severity.value} {entry.code}:", says(entry, problem), mark)
    for other in problem.elsewhere:
        yield from _elsewhere(other, problem.span.file, sources)
    yield from _labelled("remedy:", remedy(entry, problem))
    if problem.suggestion is not None:
        yield from _labelled("", f"Did you mean {shown(problem.suggestion)}?")
    if problem.mend is not None:
        yield from _labelled("certain:", _mend(problem.mend, sources), Mark.CERTAIN)


def _place(span: Span, sources: Sources) -> str:
    last = _last_line(span, sources)
    lines = f"line {span.line}" if last == span.line else f"lines {span.line} to {last}"
    return f"{shown(span.file)}, {lines}, column {span.column}"


def _last_line(span: Span, sources: Sources) -> int:
    source = sources.get(span.file)
    if source is None or span.end <= span.start:
        return span.line
    return source.span(span.end - 1, span.end).line


def _typed(label: str, span: Span, sources: Sources) -> Iterator[Piece]:
    source = sources.get(span.file)
    if source is None or span.line > len(source.line_starts):
        return
    seen = excerpt(source, span)
    yield Piece(_margin(label), Mark.LABEL)
    yield Piece(seen.line.rstrip() + "\n", Mark.TYPED)
    yield Piece(" " * _LABEL + seen.marks + "\n", Mark.POINTER)


def _elsewhere(other: Elsewhere, file: str, sources: Sources) -> Iterator[Piece]:
    place = f"line {other.span.line}" if other.span.file == file else _place(other.span, sources)
    yield from _labelled("see also:", f"{place}: {shown(other.what)}")
    yield from _typed("", other.span, sources)


def _mend(mend: Mend, sources: Sources) -> str:
    source = sources.get(mend.span.file)
    old = source.text[mend.span.start : mend.span.end] if source is not None else ""
    facts = {"old": shown_with_spaces(old), "new": shown_with_spaces(mend.replacement)}
    if not mend.replacement:
        return filled("`burthen read --mend` takes out `{old}`.", facts)
    if not old:
        return filled("`burthen read --mend` writes `{new}` here.", facts)
    return filled("`burthen read --mend` writes `{new}` in place of `{old}`.", facts)


def _labelled(label: str, words: str, mark: Mark = Mark.TEXT) -> Iterator[Piece]:
    lines = _wrapped(words)
    yield Piece(_margin(label), mark if mark in {Mark.ERROR, Mark.WARNING, Mark.CERTAIN} else Mark.LABEL)
    yield Piece(("\n" + " " * _LABEL).join(lines) + "\n", Mark.TEXT if mark is Mark.CERTAIN else mark)


def _wrapped(words: str) -> list[str]:
    room = WIDTH - _LABEL
    if columns(words) <= room:
        return [words]
    return textwrap.wrap(words, room, break_long_words=False, break_on_hyphens=False)


def _margin(label: str) -> str:
    return f"  {label}".ljust(_LABEL)


# ---- all problems of a file


def report(file: str, problems: Iterable[Problem], sources: Sources, catalogue: Catalogue = CATALOGUE) -> Text:
    """Every problem of a file in full, and at the end whether the sheet can be published."""
    found = in_order(problems)
    pieces: list[Piece] = []
    for problem in found:
        pieces.extend(in_full(problem, sources, catalogue))
        pieces.append(Piece("\n"))
    pieces.append(Piece(closing(file, found, catalogue) + "\n", Mark.CLOSING))
    return tuple(pieces)


def closing(file: str, problems: Iterable[Problem], catalogue: Catalogue = CATALOGUE) -> str:
    """How many problems a file has, whether the sheet can be published, and who decides in the end."""
    codes = [problem.code for problem in problems]
    errors = sum(catalogue[code].severity is Severity.ERROR for code in codes)
    warnings = len(codes) - errors
    name = shown(file)
    if errors:
        verdict = f"{name}: {_counted(errors, warnings)}. The sheet cannot be published."
    elif warnings:
        verdict = f"{name}: {_counted(errors, warnings)}. The sheet can be published; look at each one first."
    else:
        verdict = f"{name}: no problems found. The sheet can be published."
    why = f"\nMore about a problem: burthen why {codes[0]}" if codes else ""
    return f"{verdict}{why}\n{CAUTION}"


def _counted(errors: int, warnings: int) -> str:
    parts = [_number(errors, "error")] if errors else []
    parts += [_number(warnings, "warning")] if warnings else []
    return " and ".join(parts)


def _number(count: int, word: str) -> str:
    return f"1 {word}" if count == 1 else f"{count} {word}s"
