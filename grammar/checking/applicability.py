"""For which airframes files are meant: their conditions over facts, as a small sheet that can be evaluated."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from grammar import sheet, tree
from grammar.checking import expressions
from grammar.checking.context import Context
from grammar.checking.declarations import check_header, declare_documents, declare_names
from grammar.checking.inputs import check_inputs
from grammar.checking.notebook import Notebook
from grammar.checking.scope import Scope
from grammar.diagnostics.problem import Problem
from grammar.text import SourceText


@dataclass(frozen=True, slots=True)
class Candidate:
    """A file that may apply: its name, its condition, and its statements."""

    name: str
    applies: tree.Expression
    file: tree.File
    source: SourceText


def applicability(
    base: tree.File, source: SourceText, candidates: tuple[Candidate, ...]
) -> tuple[sheet.Sheet | None, tuple[Problem, ...]]:
    """A sheet that has the facts of all files as inputs and a limit for each candidate: it applies when kept."""
    files = (base, *(one.file for one in candidates))
    file = tree.File(tuple(_facts(files)), (), ())
    sources = {source.file: source} | {one.source.file: one.source for one in candidates}
    scope = Scope(Notebook(sources, source.file))
    declare_names(scope, file)
    declare_documents(scope, file)
    header = check_header(scope, file)
    check_inputs(scope, file)
    limits = [_limit(scope, one) for one in candidates]
    known = tuple(limit for limit in limits if limit is not None)
    problems = tuple(scope.notebook.problems)
    if header is None or problems or len(known) < len(limits):
        return None, problems
    return _sheet(scope, header, known), problems


def _facts(files: tuple[tree.File, ...]) -> Iterator[tree.Statement]:
    """The heading of the first file, then the documents and facts of all, each name once."""
    seen: set[str] = set()
    for file in files:
        for statement in file.statements:
            match statement:
                case tree.SheetHeader() if "sheet" not in seen:
                    seen.add("sheet")
                    yield statement
                case tree.Document() | tree.Fact() if statement.name.text not in seen:
                    seen.add(statement.name.text)
                    yield statement
                case _:
                    continue


def _limit(scope: Scope, candidate: Candidate) -> sheet.Limit | None:
    context = Context(owner=candidate.name, fixed="the effectivity")
    claim = expressions.condition(scope, candidate.applies, context)
    if claim is None:
        return None
    return sheet.Limit(
        name=candidate.name,
        label=candidate.name,
        weight=sheet.Weight.LIMIT,
        ground=sheet.Ground.STATED,
        stage=None,
        claim=claim,
        applies_when=None,
        source=None,
        note=None,
        span=candidate.applies.span,
    )


def _sheet(scope: Scope, header: sheet.Header, limits: tuple[sheet.Limit, ...]) -> sheet.Sheet:
    return sheet.Sheet(
        header=header,
        layers=(),
        origins=(),
        datum=None,
        chord=None,
        documents=tuple(scope.documents.values()),
        inputs=tuple(scope.inputs.values()),
        places=(),
        tanks=(),
        burn=None,
        lets=(),
        tables=(),
        envelopes=(),
        limits=limits,
        examples=(),
        slots=scope.slot_count,
    )
