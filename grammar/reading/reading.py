"""One file's text -> its syntax tree and the problems of how it is written."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from grammar.diagnostics.problem import Mend, Problem
from grammar.reading import sizes
from grammar.reading.outcome import Outcome, outcome
from grammar.reading.slips import find_slips
from grammar.reading.statements import Layout, lay_out
from grammar.text import SourceText
from grammar.tree import Comment, File


@dataclass(frozen=True)
class Reading:
    """What reading a file gave: its text, the tree of what could be read, and the problems by place."""

    source: SourceText
    file: File
    problems: tuple[Problem, ...]


def read_file(text: str, name: str) -> Reading:
    """Read the text of the file called ``name``; every mistaken statement is reported and the others are read."""
    source = SourceText(name, text)
    refused = sizes.file_too_large(source)
    if refused is not None:
        return Reading(source, File((), (), ()), (refused,))
    layout = lay_out(text)
    slips = tuple(islice(find_slips(source), sizes.PROBLEMS))
    outcomes = tuple(_outcomes(layout, slips, source))
    problems = [*_layout_problems(layout, slips, source), *slips]
    problems += [problem for one in outcomes for problem in one.problems]
    return Reading(source, _file(outcomes, layout, source), _in_order(problems, outcomes, source))


def _outcomes(layout: Layout, slips: tuple[Problem, ...], source: SourceText) -> Iterator[Outcome]:
    """What becomes of each statement, given the slips of the pen in the whole file."""
    at = 0
    told = len(slips)
    for passage in layout.passages[: sizes.STATEMENTS]:
        while at < len(slips) and slips[at].span.start < passage.start:
            at += 1
        first = at
        while at < len(slips) and slips[at].span.start < passage.end:
            at += 1
        result = outcome(passage, slips[first:at], source, diagnose=told < sizes.PROBLEMS)
        if result.problems:
            told += len(result.problems) + (passage.end - passage.start) // sizes.DEAR
        yield result


def _layout_problems(layout: Layout, slips: tuple[Problem, ...], source: SourceText) -> Iterator[Problem]:
    """What is wrong with the file as a whole, and with the indents of its lines."""
    if layout.before and not (slips and slips[0].span.start <= layout.before[0].start):
        yield Problem("203", source.span(layout.before[0].start, layout.before[0].end))
    elif not layout.passages and not slips:
        yield Problem("220", source.span(0, 0))
    for passage in layout.passages:
        for stray in passage.strays:
            yield _stray(stray, passage.keyword, source)
    yield from sizes.too_many_statements(layout.passages, source)


def _stray(start: int, keyword: str, source: SourceText) -> Problem:
    """A further line of a statement that was not indented."""
    word = re.compile(r"\w+|.").match(source.text, start)
    place = source.span(start, word.end() if word else start + 1)
    facts = {"found": word[0] if word else "", "statement": keyword}
    return Problem("221", place, facts, mend=Mend(source.span(start, start), "  "))


def _file(outcomes: tuple[Outcome, ...], layout: Layout, source: SourceText) -> File:
    """The tree of a whole file."""
    statements = tuple(one.statement for one in outcomes if one.statement is not None)
    unread = tuple(stub for one in outcomes for stub in one.unread)
    comments = tuple(Comment(source.text[a:b], source.span(a, b)) for a, b in layout.comments)
    return File(statements, unread, comments)


def _in_order(problems: list[Problem], outcomes: tuple[Outcome, ...], source: SourceText) -> tuple[Problem, ...]:
    """The problems by place; of very many only the first, and the last of them says so."""
    ordered = sorted(problems, key=lambda problem: problem.span.start)[: sizes.PROBLEMS]
    if len(problems) < sizes.PROBLEMS and not any(one.is_skipped for one in outcomes):
        return tuple(ordered)
    last = ordered[-1].span
    more = Problem("909", source.span(last.start, last.end), {"count": str(len(ordered))})
    return (*ordered, more)
