"""From tree to checked sheet: one module a concern, and here the list of the passes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from grammar import sheet, tree
from grammar.checking.carried import check_carried
from grammar.checking.declarations import (
    declare_documents,
    declare_names,
)
from grammar.checking.declared_masses import check_declared
from grammar.checking.envelopes import check_envelopes
from grammar.checking.examples import check_examples
from grammar.checking.expressions import begin
from grammar.checking.fitting import check_configurations
from grammar.checking.headings import Heading, check_header, check_heading, effectivity, write_without_sheet
from grammar.checking.inputs import check_inputs
from grammar.checking.limits import check_limits
from grammar.checking.notebook import Notebook
from grammar.checking.scope import Scope
from grammar.checking.tables import check_tables
from grammar.checking.usage import check_lets, check_usage
from grammar.diagnostics.catalogue import CATALOGUE
from grammar.diagnostics.entry import Severity
from grammar.diagnostics.problem import Problem
from grammar.text import SourceText

__all__ = ["Checked", "Composition", "check_composed", "check_file"]


@dataclass(frozen=True, slots=True)
class Composition:
    """What a file was put together from: the texts by name, and for a resolved sheet the headings of what was put
    on it, its layers and its origins."""

    sources: Mapping[str, SourceText]
    main: str
    headings: tuple[tree.LayerHeader, ...] = ()
    layers: tuple[sheet.Layer, ...] = ()
    origins: tuple[sheet.Origin, ...] = ()

    @property
    def orders(self) -> frozenset[str]:
        """The files that are orders."""
        return frozenset(layer.file for layer in self.layers if layer.kind is sheet.LayerKind.ORDER)


@dataclass(frozen=True, slots=True)
class Checked:
    """What checking a file comes to: the sheet, if nothing is wrong with it, and the problems found."""

    sheet: sheet.Sheet | None
    problems: tuple[Problem, ...]


def check_file(file: tree.File, source: SourceText) -> Checked:
    """Check the whole of one file. A sheet comes out only if no problem is an error and all of it was read."""
    return check_composed(file, Composition({source.file: source}, source.file))


def check_composed(file: tree.File, composition: Composition) -> Checked:
    """Check statements that may come from several files."""
    scope = begin(Notebook(composition.sources, composition.main), composition.orders)
    if any(isinstance(statement, tree.LayerHeader) for statement in file.statements):
        write_without_sheet(scope, file)
        return Checked(None, tuple(scope.notebook.problems))
    declare_names(scope, file)
    declare_documents(scope, file)
    header = check_header(scope, file)
    for heading in composition.headings:
        check_heading(scope, heading)
    check_inputs(scope, file)
    check_tables(scope, file)
    check_envelopes(scope, file)
    check_configurations(scope, file)
    check_carried(scope, file)
    check_declared(scope, file)
    for one in (*file.statements, *composition.headings):
        if isinstance(one, Heading):
            effectivity(scope, one)
    limits = check_limits(scope, file)
    lets = check_lets(scope, file)
    examples = check_examples(scope, file, limits)
    if file.statements:
        check_usage(scope, file)
    problems = tuple(sorted(scope.notebook.problems, key=_place))
    is_whole = header is not None and not file.unread
    if header is None or not is_whole or any(_is_error(problem) for problem in problems):
        return Checked(None, problems)
    return Checked(_assembled(scope, file, header, composition, (limits, lets, examples)), problems)


def _place(problem: Problem) -> tuple[str, int, str]:
    return problem.span.file, problem.span.start, problem.code


def _is_error(problem: Problem) -> bool:
    return CATALOGUE[problem.code].severity is Severity.ERROR


_Checked = tuple[tuple[sheet.Limit, ...], tuple[sheet.Let, ...], tuple[sheet.Example, ...]]


def _assembled(
    scope: Scope, file: tree.File, header: sheet.Header, composition: Composition, checked: _Checked
) -> sheet.Sheet:
    limits, lets, examples = checked
    datum = next((one.text.text for one in file.statements if isinstance(one, tree.Datum)), None)
    return sheet.Sheet(
        header=header,
        layers=composition.layers,
        origins=composition.origins,
        datum=datum,
        chord=scope.chord,
        documents=tuple(scope.documents.values()),
        inputs=tuple(scope.inputs.values()),
        places=tuple(scope.places.values()),
        tanks=tuple(scope.tanks.values()),
        burn=scope.burn,
        lets=lets,
        tables=tuple(scope.tables.values()),
        envelopes=tuple(scope.envelopes.values()),
        limits=limits,
        examples=examples,
        slots=scope.slot_count,
    )
