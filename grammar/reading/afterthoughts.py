"""What the grammar lets through and is surely not meant: a late stage, a row without its bar."""

from __future__ import annotations

from collections.abc import Iterator

from grammar.diagnostics.problem import Problem
from grammar.text import SourceText
from grammar.tree import (
    Arithmetic,
    AtStage,
    Between,
    Comparison,
    DateLiteral,
    Envelope,
    Expression,
    Inside,
    Is,
    Limit,
    Negative,
    Quantity,
    Row,
    Statement,
    Table,
    Word,
)


def misread(statement: Statement, source: SourceText) -> Iterator[Problem]:
    """What the grammar lets through although it cannot be meant: the statement counts as not read."""
    match statement:
        case Limit():
            yield from _late_stage(statement, source)
        case Table(rows=rows) | Envelope(rows=rows):
            yield from (_open_row(row, source) for row in rows if row.span.line != _last_line(row, source))
        case _:
            return


def _late_stage(statement: Limit, source: SourceText) -> Iterator[Problem]:
    """A stage clause behind the claim, where it was taken for the stage of the last value."""
    tail = _tail(statement.claim)
    if isinstance(tail, AtStage) and _is_clause(tail, source):
        keyword = source.text.rindex("at", tail.of.span.end, tail.stage.span.start)
        span = source.span(keyword, tail.stage.span.end)
        code = "212" if statement.stage is None else "213"
        keyword_of = "caution" if statement.is_caution else "limit"
        yield Problem(code, span, {"found": source.text[span.start : span.end], "statement": keyword_of})


def _open_row(row: Row, source: SourceText) -> Problem:
    """A row whose last bar is missing: the next line was taken for more of it. Its end may have been cut off."""
    line = source.line(row.span.line)[row.span.column - 1 :].split("--")[0].rstrip()
    place = source.span(row.span.start + len(line), row.span.start + len(line))
    facts = {"after": line.rsplit("|", 1)[-1].strip() or "|"}
    return Problem("210", place, facts)


def _last_line(row: Row, source: SourceText) -> int:
    return source.span(row.span.end, row.span.end).line


def _tail(claim: Expression) -> Expression:
    """The value that a claim ends with, if it is the outermost one there."""
    match claim:
        case Comparison(right=last) | Between(high=last) | Inside(envelope=last):
            return _tail(last)
        case Is(state=last) if not isinstance(last, Word):
            return _tail(last)
        case Arithmetic(right=last) | Negative(of=last):
            return _tail(last)
        case _:
            return claim


def _is_clause(tail: AtStage, source: SourceText) -> bool:
    """Whether a stage can only be meant for the whole limit: it follows a plain figure, or begins a line."""
    between = source.text[tail.of.span.end : tail.stage.span.start]
    return isinstance(tail.of, Quantity | DateLiteral) or "\n" in between
