"""Headings: a revision and days that make sense, and by facts alone for which airframes a file is."""

from __future__ import annotations

from fractions import Fraction

from grammar import sheet, tree
from grammar.checking import clauses, figures, resolving
from grammar.checking.context import Context
from grammar.checking.declarations import only_one, start_of
from grammar.checking.expressions import begin
from grammar.checking.notebook import Notebook
from grammar.checking.scope import Scope
from grammar.diagnostics.problem import Problem
from grammar.text import SourceText

Heading = tree.SheetHeader | tree.LayerHeader


def check_header(scope: Scope, file: tree.File) -> sheet.Header | None:
    """The heading of the sheet: there, first, and right in itself."""
    header = only_one(scope, file.statements, tree.SheetHeader, "sheet")
    if header is None:
        if not any(unread.keyword == "sheet" for unread in file.unread):
            scope.notebook.write("703", scope.notebook.top())
        return None
    if file.statements[0] is not header:
        scope.notebook.write("704", start_of(scope, header.span, "sheet"))
    return check_heading(scope, header)


def write_without_sheet(scope: Scope, file: tree.File) -> None:
    """A supplement, an order or a permit by itself says nothing: it needs the sheet that it builds on."""
    for statement in file.statements:
        if isinstance(statement, tree.LayerHeader):
            kind, name = statement.kind.value, statement.name.text
            span = start_of(scope, statement.span, kind)
            scope.notebook.write("751", span, kind=kind, name=name, to=statement.to.text)


def check_heading(scope: Scope, heading: Heading) -> sheet.Header:
    """The heading of a file, with dates that fit and each clause once."""
    revision = figures.whole_number(scope, heading.revision)
    effective, until = _day(scope, heading, tree.Effective), _day(scope, heading, tree.Until)
    if effective is not None and until is not None and until < effective:
        _write_wrong_dates(scope, heading)
    for sort in (tree.Applies, tree.After, tree.IssuedBy, tree.ForAirframe):
        clauses.one(scope, heading.clauses, sort)
    return sheet.Header(
        name=heading.name.text,
        revision=revision or 0,
        title=heading.title.text,
        effective=effective,
        until=until,
        replaces=_replaces(scope, heading, revision),
        span=heading.span,
    )


def heading_problems(heading: Heading, source: SourceText) -> tuple[Problem, ...]:
    """What is wrong with a heading by itself, whether or not its file holds on some day."""
    scope = begin(Notebook({source.file: source}, source.file))
    check_heading(scope, heading)
    return tuple(scope.notebook.problems)


def _day(scope: Scope, heading: Heading, wanted: type[tree.Effective] | type[tree.Until]) -> Fraction | None:
    clause = clauses.one(scope, heading.clauses, wanted)
    return None if clause is None else figures.day(scope, clause.day)


def _write_wrong_dates(scope: Scope, heading: Heading) -> None:
    effective = clauses.one(scope, heading.clauses, tree.Effective)
    until = clauses.one(scope, heading.clauses, tree.Until)
    if effective is not None and until is not None:
        kind = "sheet" if isinstance(heading, tree.SheetHeader) else heading.kind.value
        scope.notebook.write("705", until.span, kind=kind, until=until.day.text, effective=effective.day.text)


def _replaces(scope: Scope, heading: Heading, revision: int | None) -> int | None:
    clause = clauses.one(scope, heading.clauses, tree.Replaces)
    if clause is None:
        return None
    replaced = figures.whole_number(scope, clause.revision)
    if replaced is not None and revision is not None and replaced >= revision:
        scope.notebook.write("706", clause.span, revision=str(revision), replaces=str(replaced))
    return replaced


def effectivity(scope: Scope, heading: Heading) -> sheet.Condition | None:
    """For which airframes a file is, by its `applies when`; None where it has none or a mistake."""
    applies = next((one for one in heading.clauses if isinstance(one, tree.Applies)), None)
    if applies is None:
        return None
    name = heading.name.text
    condition = resolving.condition(scope, applies.condition, Context(owner=name, fixed="the effectivity"))
    if condition is None:
        return None
    on = _only_for_the_flight(condition)
    if on is not None:
        scope.notebook.write("770", applies.condition.span, name=name, on=on.name)
        return None
    return condition


def _only_for_the_flight(condition: sheet.Condition) -> sheet.Input | None:
    """The first input in a condition that is known only for the flight."""
    waiting: list[sheet.Expression | sheet.Condition] = [condition]
    seen: set[int] = set()
    while waiting:
        node = waiting.pop()
        if isinstance(node, sheet.Read) and node.input.role is sheet.Role.GIVEN:
            return node.input
        if node.slot not in seen:
            seen.add(node.slot)
            waiting.extend(sheet.children(node))
    return None
