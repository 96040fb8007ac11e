"""One file's text -> its syntax tree and the problems of how it is written."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Final

from grammar.diagnostics.problem import Mend, Problem
from grammar.diagnostics.suggestions import nearest
from grammar.reading import sizes
from grammar.reading.afterthoughts import afterthoughts
from grammar.reading.building import build
from grammar.reading.drafts import Draft
from grammar.reading.mistakes import mistake
from grammar.reading.parsing import Halt, parse
from grammar.reading.slips import find_slips
from grammar.reading.statements import Layout, Passage, lay_out
from grammar.reading.stop import STATEMENT_WORDS
from grammar.text import SourceText
from grammar.tree import Comment, File, Statement, Unread

_NAME: Final = re.compile(r"[^\W\d]+[ \t]+([A-Za-z][\w-]*)")
_ROUNDS: Final = 20
"""How many mistakes of one statement are looked for, each behind a certain correction of the one before."""


@dataclass(frozen=True)
class Reading:
    """What reading a file gave: its text, the tree of what could be read, and the problems by place."""

    source: SourceText
    file: File
    problems: tuple[Problem, ...]


@dataclass(frozen=True)
class _Outcome:
    """What became of one statement."""

    node: Statement | Unread
    problems: tuple[Problem, ...]


def read_file(text: str, name: str) -> Reading:
    """Read the text of the file called ``name``; every mistaken statement is reported and the others are read."""
    source = SourceText(name, text)
    refused = sizes.file_too_large(source)
    if refused is not None:
        return Reading(source, File((), (), ()), (refused,))
    layout = lay_out(text)
    slips = tuple(islice(find_slips(source), sizes.PROBLEMS))
    outcomes = tuple(_outcomes(layout.passages[: sizes.STATEMENTS], slips, source))
    problems = [*_layout_problems(layout, slips, source), *slips]
    problems += [problem for outcome in outcomes for problem in outcome.problems]
    return Reading(source, _file(outcomes, layout, source), _in_order(problems, source))


def _outcomes(passages: tuple[Passage, ...], slips: tuple[Problem, ...], source: SourceText) -> Iterator[_Outcome]:
    """What becomes of each statement, given the slips of the pen in the whole file."""
    at = 0
    told = len(slips)
    for passage in passages:
        first = at
        while at < len(slips) and slips[at].span.start < passage.end:
            at += 1
        own = tuple(slip for slip in slips[first:at] if slip.span.start >= passage.start)
        outcome = _outcome(passage, own, source, diagnose=told < sizes.PROBLEMS)
        told += len(outcome.problems)
        yield outcome


def _outcome(passage: Passage, slips: tuple[Problem, ...], source: SourceText, *, diagnose: bool) -> _Outcome:
    """One statement read, or the problems that keep it from being read."""
    too_long = sizes.statement_too_long(passage, source)
    if too_long is not None:
        return _Outcome(_unread(passage, source), (too_long,))
    tree = None if slips else parse(source.text[passage.start : passage.end])
    if tree is None or isinstance(tree, Halt):
        mistakes = tuple(_mistakes(passage, slips, source)) if diagnose else ()
        return _Outcome(_unread(passage, source), mistakes)
    too_deep = sizes.too_deep(tree, passage, source)
    if too_deep is not None:
        return _Outcome(_unread(passage, source), (too_deep,))
    statement = build(tree, source, passage.start)
    too_wide = sizes.too_many_cells(statement, passage, source)
    if too_wide is not None:
        return _Outcome(_unread(passage, source), (too_wide,))
    return _Outcome(statement, tuple(afterthoughts(statement, source)))


def _mistakes(passage: Passage, slips: tuple[Problem, ...], source: SourceText) -> Iterator[Problem]:
    """The mistakes of a statement, as far as everything before each can be corrected for certain."""
    mends = [slip.mend for slip in slips if slip.mend is not None]
    if len(mends) < len(slips):
        return
    draft = Draft(source, passage.start, passage.end)
    draft.correct(mends)
    for _ in range(_ROUNDS):
        halt = parse(draft.text)
        if not isinstance(halt, Halt):
            return
        problem = mistake(halt, Passage(0, len(draft.text), _keyword(draft.text), ()), SourceText("", draft.text))
        yield draft.placed(problem)
        if problem.mend is None:
            return
        draft.correct_here(problem.mend)


def _layout_problems(layout: Layout, slips: tuple[Problem, ...], source: SourceText) -> Iterator[Problem]:
    """What is wrong with the file as a whole, and with the indents of its lines."""
    if layout.before and not (slips and slips[0].span.start <= layout.before[0][0]):
        yield Problem("203", source.span(*layout.before[0]))
    elif not layout.passages and not slips:
        yield Problem("220", source.span(0, 0))
    for passage in layout.passages:
        for stray in passage.strays:
            word = re.compile(r"\w+|.").match(source.text, stray)
            place = source.span(stray, word.end() if word else stray + 1)
            facts = {"found": word[0] if word else "", "statement": passage.keyword}
            yield Problem("221", place, facts, mend=Mend(source.span(stray, stray), "  "))
    yield from sizes.too_many_statements(layout.passages, source)


def _file(outcomes: tuple[_Outcome, ...], layout: Layout, source: SourceText) -> File:
    nodes = [outcome.node for outcome in outcomes]
    comments = tuple(Comment(source.text[a:b], source.span(a, b)) for a, b in layout.comments)
    statements = tuple(node for node in nodes if not isinstance(node, Unread))
    return File(statements, tuple(node for node in nodes if isinstance(node, Unread)), comments)


def _in_order(problems: list[Problem], source: SourceText) -> tuple[Problem, ...]:
    """The problems by place; of very many only the first."""
    ordered = sorted(problems, key=lambda problem: problem.span.start)
    if len(ordered) < sizes.PROBLEMS:
        return tuple(ordered)
    last = ordered[sizes.PROBLEMS - 1].span
    more = Problem("909", source.span(last.start, last.end), {"most": str(sizes.PROBLEMS)})
    return (*ordered[: sizes.PROBLEMS], more)


def _unread(passage: Passage, source: SourceText) -> Unread:
    """What is known of a statement that could not be read: its keyword as meant, its name as meant."""
    span = source.span(passage.start, passage.end)
    typed = _keyword(source.text[passage.start : passage.start + 60])
    keyword = typed if typed in STATEMENT_WORDS else nearest(typed, STATEMENT_WORDS) or typed
    found = _NAME.match(source.text, passage.start, passage.end)
    has_name = found is not None and keyword not in {"datum", "chord", "burn"}
    return Unread(keyword, found[1].lower().replace("-", "_") if found and has_name else None, span)


def _keyword(text: str) -> str:
    """The first word of a statement, in small letters."""
    found = re.match(r"\w+", text)
    return found[0].lower() if found else text[:1]
