"""Problems as JSON, for an editor or another program."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import TypedDict

from grammar.diagnostics.catalogue import CATALOGUE
from grammar.diagnostics.lettering import remedy, says
from grammar.diagnostics.problem import Elsewhere, Mend, Problem
from grammar.diagnostics.rendering import Catalogue, Sources, in_order
from grammar.text import Span


class ListedPlace(TypedDict):
    """A stretch of text; lines and columns count from 1, the end column is the one behind the last character."""

    file: str
    line: int
    column: int
    end_line: int
    end_column: int


class ListedMend(ListedPlace):
    """A certain correction: what to write in place of the stretch."""

    replacement: str


class ListedElsewhere(ListedPlace):
    """Another place involved, and what it is there for."""

    what: str


class ListedProblem(ListedPlace):
    """A problem with its words and the facts that they were made from."""

    code: str
    severity: str
    says: str
    remedy: str
    suggestion: str | None
    mend: ListedMend | None
    elsewhere: list[ListedElsewhere]
    facts: dict[str, str]


def as_json(problems: Iterable[Problem], sources: Sources, catalogue: Catalogue = CATALOGUE) -> str:
    """The problems, in order, as a JSON list; every character beyond ASCII is escaped."""
    return json.dumps([listed(each, sources, catalogue) for each in in_order(problems)], indent=2)


def listed(problem: Problem, sources: Sources, catalogue: Catalogue = CATALOGUE) -> ListedProblem:
    """One problem as an object of the list."""
    entry = catalogue[problem.code]
    return {
        "code": problem.code,
        "severity": entry.severity.value,
        **_place(problem.span, sources),
        "says": says(entry, problem),
        "remedy": remedy(entry, problem),
        "suggestion": problem.suggestion,
        "mend": None if problem.mend is None else _mend(problem.mend, sources),
        "elsewhere": [_elsewhere(other, sources) for other in problem.elsewhere],
        "facts": dict(problem.facts),
    }


def _mend(mend: Mend, sources: Sources) -> ListedMend:
    return {**_place(mend.span, sources), "replacement": mend.replacement}


def _elsewhere(other: Elsewhere, sources: Sources) -> ListedElsewhere:
    return {**_place(other.span, sources), "what": other.what}


def _place(span: Span, sources: Sources) -> ListedPlace:
    source = sources.get(span.file)
    if source is None:
        end_line, end_column = span.line, span.column + max(span.end - span.start, 0)
    else:
        end = source.span(span.end, span.end)
        end_line, end_column = end.line, end.column
    return {
        "file": span.file,
        "line": span.line,
        "column": span.column,
        "end_line": end_line,
        "end_column": end_column,
    }
