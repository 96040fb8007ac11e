"""What a sheet declares and never uses, and what it ought to have."""

from __future__ import annotations

import re
from typing import Final

from grammar import sheet, tree
from grammar.checking import clauses, resolving
from grammar.checking.context import Context
from grammar.checking.declarations import is_first, only_one
from grammar.checking.scope import NamedStatement, Scope
from grammar.text import Span

_WORDS: Final[dict[type, str]] = {
    tree.Document: "The document",
    tree.Fact: "The fact",
    tree.Given: "The given",
    tree.Configuration: "The configuration",
    tree.Let: "The named value",
    tree.Table: "The table",
    tree.Envelope: "The envelope",
}


def check_lets(scope: Scope, file: tree.File) -> tuple[sheet.Let, ...]:
    """Every named value, also one that is not used: it is read as at take-off to find its mistakes."""
    found: list[sheet.Let] = []
    for statement in file.statements:
        if not isinstance(statement, tree.Let) or not is_first(scope, statement):
            continue
        name = statement.name.text
        if not any(key[0] == name for key in scope.instances) and name not in scope.faulty:
            context = Context(stage=sheet.Stage.TAKEOFF)
            resolving.resolve(scope, statement.value, context)
        _check_figures_sourced(scope, statement)
        source, note = clauses.source(scope, statement.clauses), clauses.note(scope, statement.clauses)
        found.append(sheet.Let(name, source, note, statement.span))
    return tuple(found)


def _check_figures_sourced(scope: Scope, statement: tree.Let) -> None:
    if any(isinstance(clause, tree.Source) for clause in statement.clauses):
        return
    figure = _first_figure(statement.value)
    if figure is not None:
        scope.notebook.write(
            "702",
            figure,
            name=statement.name.text,
            figure=scope.typed(figure),
            document=scope.a_document(),
        )


def _first_figure(node: tree.Expression) -> Span | None:
    """The first figure with a unit in an expression. Pure numbers (twice, half) need no paragraph."""
    waiting: list[tree.Expression] = [node]
    found: list[Span] = []
    while waiting:
        one = waiting.pop()
        if isinstance(one, tree.Quantity) and one.figure.unit is not None and one.figure.amount != 0:
            found.append(one.span)
        waiting.extend(parts(one))
    return min(found, key=lambda span: span.start, default=None)


def parts(node: tree.Expression) -> tuple[tree.Expression, ...]:
    """The expressions that an expression of the tree is made of."""
    match node:
        case tree.Quantity() | tree.DateLiteral() | tree.Reference():
            return ()
        case tree.Call():
            return node.arguments
        case tree.AtStage() | tree.Negative() | tree.Round() | tree.Group() | tree.Not():
            return (node.of,)
        case tree.Arithmetic() | tree.Comparison():
            return node.left, node.right
        case tree.Choice():
            cases = tuple(part for branch in node.branches for part in (branch.value, branch.guard))
            return cases if node.otherwise is None else (*cases, node.otherwise)
        case tree.Between():
            return node.subject, node.low, node.high
        case tree.Inside():
            return node.across, node.against, node.envelope
        case tree.Is():
            return (node.subject,) if isinstance(node.state, tree.Word) else (node.subject, node.state)
        case tree.AllOf() | tree.AnyOf():
            return node.parts


def check_usage(scope: Scope, file: tree.File) -> None:
    """Warn of every name that nothing uses, of arms without a datum and of a sheet without limits."""
    for statement in file.statements:
        if isinstance(statement, NamedStatement) and scope.is_faulty(statement.name.text):
            # What a faulty statement would use once it is mended is not to be called unused.
            scope.used.update(re.findall(r"[a-z][a-z0-9_]*", scope.typed(statement.span)))
    for statement in file.statements:
        if isinstance(statement, NamedStatement) and is_first(scope, statement):
            name = statement.name.text
            what = _WORDS.get(type(statement))
            is_idle = name not in scope.used and not scope.is_faulty(name)
            if what is not None and is_idle and not file.unread:
                scope.notebook.write("303", statement.name.span, what=what, name=name)
    _check_datum(scope, file)
    if not file.unread and not any(isinstance(one, tree.Limit) for one in file.statements):
        scope.notebook.write("709", file.statements[0].span)


def _check_datum(scope: Scope, file: tree.File) -> None:
    datum = only_one(scope, file.statements, tree.Datum, "datum")
    arms = [
        clause.span
        for statement in file.statements
        if isinstance(statement, tree.Load | tree.Fuel)
        for clause in statement.clauses
        if isinstance(clause, tree.Arm)
    ]
    is_unread = any(unread.keyword == "datum" for unread in file.unread)
    if arms and datum is None and not is_unread:
        scope.notebook.write("708", arms[0])
