"""What can be read but is surely not meant: a stage written behind the claim, a strict sign in a claim."""

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
    Expression,
    Inside,
    Is,
    Limit,
    Negative,
    Quantity,
    Relation,
    Statement,
    Word,
)


def afterthoughts(statement: Statement, source: SourceText) -> Iterator[Problem]:
    """The problems of a statement that has been read."""
    if not isinstance(statement, Limit):
        return
    tail = _tail(statement.claim)
    if isinstance(tail, AtStage) and _is_clause(tail, source):
        keyword = source.text.rindex("at", tail.of.span.end, tail.stage.span.start)
        span = source.span(keyword, tail.stage.span.end)
        code = "212" if statement.stage is None else "213"
        yield Problem(code, span, {"found": source.text[span.start : span.end], "statement": "limit"})
    if isinstance(statement.claim, Comparison) and statement.claim.relation in {Relation.BELOW, Relation.ABOVE}:
        yield _strict(statement.claim, source)


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


def _strict(claim: Comparison, source: SourceText) -> Problem:
    """A claim with a strict sign: exactly on the figure would be outside."""
    sign = source.text.index(claim.relation.value, claim.left.span.end, claim.right.span.start)
    words = "at most" if claim.relation is Relation.BELOW else "at least"
    facts = {"found": claim.relation.value, "words": words}
    return Problem("136", source.span(sign, sign + 1), facts, suggestion=words)
