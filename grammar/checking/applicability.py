"""For which airframes files are meant: their conditions over facts, as a small sheet that can be evaluated."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from grammar import sheet, tree
from grammar.checking.declarations import declare_documents, declare_names
from grammar.checking.expressions import begin
from grammar.checking.headings import Heading, check_header, effectivity
from grammar.checking.inputs import check_inputs
from grammar.checking.notebook import Notebook
from grammar.checking.scope import Scope
from grammar.checking.tables import check_tables
from grammar.diagnostics.problem import Problem
from grammar.text import SourceText


@dataclass(frozen=True, slots=True)
class Candidate:
    """A file that may apply: its heading, which says when, and its statements."""

    heading: Heading
    file: tree.File
    source: SourceText


def applicability(
    base: tree.File, source: SourceText, candidates: tuple[Candidate, ...]
) -> tuple[sheet.Sheet | None, tuple[Problem, ...]]:
    """A sheet that has the facts of all files as inputs and a limit for each candidate: it applies when kept.

    Only what is wrong with the conditions themselves is told; the rest of the files is checked elsewhere.
    """
    files = (base, *(one.file for one in candidates))
    file = tree.File(tuple(_leant_on(files)), (), ())
    sources = {source.file: source} | {one.source.file: one.source for one in candidates}
    scope = begin(Notebook(sources, source.file))
    declare_names(scope, file)
    declare_documents(scope, file)
    header = check_header(scope, file)
    check_inputs(scope, file)
    check_tables(scope, file)
    before = len(scope.notebook.problems)
    limits = [_limit(scope, one) for one in candidates]
    known = tuple(limit for limit in limits if limit is not None)
    problems = tuple(scope.notebook.problems[before:])
    if header is None or len(known) < len(limits):
        return None, problems
    return _sheet(scope, header, known), problems


def _leant_on(files: tuple[tree.File, ...]) -> Iterator[tree.Statement]:
    """The heading of the first file, then whatever conditions may speak of in all of them, each name once.

    A fact that a file amends may have more choices than before: the amended one counts.
    """
    amended = {name: one for file in files for name, one in _amended_facts(file)}
    seen: set[str] = set()
    for file in files:
        for statement in file.statements:
            match statement:
                case tree.SheetHeader() if "sheet" not in seen:
                    seen.add("sheet")
                    yield statement
                case (
                    tree.Document() | tree.Fact() | tree.Given() | tree.Configuration() | tree.Load() | tree.Fuel()
                    | tree.Let() | tree.Table()
                ) if statement.name.text not in seen:  # fmt: skip
                    seen.add(statement.name.text)
                    yield amended.get(statement.name.text, statement)
                case _:
                    continue


def _amended_facts(file: tree.File) -> Iterator[tuple[str, tree.Fact]]:
    for one in file.statements:
        if isinstance(one, tree.Amend) and isinstance(one.statement, tree.Fact):
            yield one.statement.name.text, one.statement


def _limit(scope: Scope, candidate: Candidate) -> sheet.Limit | None:
    heading = candidate.heading
    claim = effectivity(scope, heading)
    if claim is None:
        return None
    return sheet.Limit(
        name=heading.name.text,
        label=heading.name.text,
        weight=sheet.Weight.LIMIT,
        ground=sheet.Ground.STATED,
        stage=None,
        claim=claim,
        applies_when=None,
        source=None,
        note=None,
        span=heading.span,
    )


def _sheet(scope: Scope, header: sheet.Header, limits: tuple[sheet.Limit, ...]) -> sheet.Sheet:
    return sheet.Sheet(
        header=header,
        layers=(),
        origins=(),
        datum=None,
        chord=None,
        documents=tuple(scope.documents.values()),
        inputs=tuple(one for one in scope.inputs.values() if one.role in (sheet.Role.FACT, sheet.Role.WEIGHING)),
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
