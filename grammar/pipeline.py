"""From the text of a sheet to the checked sheet: the whole of this room in one call."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from grammar import tree
from grammar.checking import check_file
from grammar.diagnostics.catalogue import CATALOGUE
from grammar.diagnostics.entry import Severity
from grammar.diagnostics.problem import Problem
from grammar.reading import read_file
from grammar.sheet import Sheet
from grammar.text import SourceText, Span


@dataclass(frozen=True, slots=True)
class Outcome:
    """What reading a file comes to. ``sheet`` is None when a problem is an error."""

    source: SourceText
    file: tree.File
    sheet: Sheet | None
    problems: tuple[Problem, ...]


def read_sheet(text: str, name: str) -> Outcome:
    """Read and check a sheet; ``name`` is how its file is called in problems."""
    reading = read_file(text, name)
    if not reading.file.statements:
        return Outcome(reading.source, reading.file, None, reading.problems)
    checked = check_file(reading.file, reading.source)
    problems = in_order((*reading.problems, *checked.problems))
    whole = None if any(is_error(problem) for problem in problems) else checked.sheet
    return Outcome(reading.source, reading.file, whole, problems)


def in_order(problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Problems in the order of the files and their text."""
    return tuple(sorted(problems, key=lambda one: (one.span.file, one.span.start, one.span.end, one.code)))


def each_once(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Problems in order, one that was found twice only once."""
    first: dict[tuple[str, Span], Problem] = {}
    for problem in problems:
        first.setdefault((problem.code, problem.span), problem)
    return in_order(tuple(first.values()))


def is_error(problem: Problem) -> bool:
    """Whether a sheet with the problem cannot be published."""
    return CATALOGUE[problem.code].severity is Severity.ERROR
