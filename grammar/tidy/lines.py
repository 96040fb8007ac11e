"""The lines that a statement is laid out on: which of its words begin one, and which source is set apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grammar.tidy.anatomy import Anatomy
from grammar.tidy.tokens import Token
from grammar.tree import (
    Amend,
    Burn,
    Chord,
    Clause,
    Configuration,
    Datum,
    Declared,
    Document,
    Each,
    Envelope,
    Example,
    Fact,
    Fuel,
    Given,
    LayerHeader,
    Let,
    Limit,
    Load,
    Loosen,
    Note,
    Row,
    SheetHeader,
    Source,
    Statement,
    Table,
    Withdraw,
)

_EXAMPLE_LINES = frozenset({"given", "load", "expect", "source", "note"})


@dataclass(frozen=True, slots=True)
class Line:
    """The words of one line, the source that ends it where it has one, and whether it is a printed row.

    ``is_aligned`` says that the source stands below the other sources of the file.
    """

    words: tuple[Token, ...]
    source: tuple[Token, ...] = ()
    is_aligned: bool = False
    is_row: bool = False


def lines(statement: Statement, tokens: Sequence[Token], found: Anatomy) -> tuple[Line, ...]:
    """The lines of a statement, the one at the margin first."""
    starts = {tokens[0].start, *_starts(statement, tokens, found)}
    source = _source_at_end_of_line(statement, tokens)
    rows = {row.span.start for row in _rows(statement)}
    made: list[Line] = []
    for words in _split(tokens, starts | ({source} if source is not None else set())):
        first = words[0].start
        if first == source and _can_carry(made[-1].words, words):
            made[-1] = Line(made[-1].words, words, is_aligned=not isinstance(statement, Example))
        else:
            made.append(Line(words, is_row=first in rows))
    return tuple(made)


def _can_carry(words: Sequence[Token], source: Sequence[Token]) -> bool:
    """Whether no comment stands between a line and its source, or within the source."""
    is_broken = words[-1].after is not None or any(token.before for token in source)
    return not is_broken and all(token.after is None for token in source[:-1])


def _split(tokens: Sequence[Token], starts: set[int]) -> Iterator[tuple[Token, ...]]:
    words: list[Token] = []
    for token in tokens:
        if token.start in starts and words:
            yield tuple(words)
            words = []
        words.append(token)
    yield tuple(words)


def _starts(statement: Statement, tokens: Sequence[Token], found: Anatomy) -> Iterator[int]:
    match statement:
        case Document() | Datum():
            return
        case SheetHeader() | LayerHeader():
            yield from (clause.span.start for clause in statement.clauses)
        case Chord() | Fact() | Given() | Let() | Burn() | Declared() | Withdraw():
            yield from _after_first_source(statement.clauses)
        case Configuration():
            yield from (part.span.start for part in (*statement.fittings, *statement.clauses))
        case Amend() | Loosen():
            yield from _starts(statement.statement, tokens, found)
        case Load() | Fuel():
            # What one piece weighs belongs to the range and stays on its line.
            further = [clause for clause in statement.clauses if not isinstance(clause, Each)]
            if further and not isinstance(further[0], Source):
                yield further[0].span.start
            yield from _after_first_source(statement.clauses)
        case Table() | Envelope():
            yield from (part.span.start for part in (*statement.clauses, *statement.rows))
        case Limit():
            if statement.stage is not None:
                yield statement.stage.span.start
            yield statement.claim.span.start
            yield from (clause.span.start for clause in statement.clauses)
        case Example():
            yield from _example_starts(tokens, found)


def _after_first_source(clauses: Sequence[Clause]) -> Iterator[int]:
    """A note begins a line, and so does everything behind a source or a note."""
    is_new_line = False
    for clause in clauses:
        if is_new_line or isinstance(clause, Note):
            yield clause.span.start
        is_new_line = is_new_line or isinstance(clause, Source | Note)


def _example_starts(tokens: Sequence[Token], found: Anatomy) -> Iterator[int]:
    """The tree does not tell one ``given`` line from the next, so they are found by their first words."""
    for token in tokens[1:]:
        if token.text in _EXAMPLE_LINES and token.start not in found.names:
            yield token.start


def _source_at_end_of_line(statement: Statement, tokens: Sequence[Token]) -> int | None:
    """Where the source begins that stands at the end of a line and not on one of its own."""
    match statement:
        case Chord() | Fact() | Given() | Let() | Burn() | Load() | Fuel() | Declared() | Withdraw():
            return _first_source(statement.clauses)
        case Amend() | Loosen():
            return _source_at_end_of_line(statement.statement, tokens)
        case Example():
            first = next((clause.span.start for clause in statement.clauses), None)
            headed = statement.label.span.end if statement.label is not None else statement.name.span.end
            between = [token for token in tokens if first is not None and headed <= token.start < first]
            return first if not between and _first_source(statement.clauses) == first else None
        case _:
            return None


def _first_source(clauses: Sequence[Clause]) -> int | None:
    """The first source, if no note stands before it."""
    first = next((clause for clause in clauses if isinstance(clause, Source | Note)), None)
    return first.span.start if isinstance(first, Source) else None


def _rows(statement: Statement) -> tuple[Row, ...]:
    match statement:
        case Table(rows=rows) | Envelope(rows=rows):
            return rows
        case Amend(statement=amended):
            return _rows(amended)
        case _:
            return ()
