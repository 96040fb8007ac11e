"""The clauses of a statement: each at most once, and the source that every figure needs."""

from __future__ import annotations

from typing import Final, TypeVar

from grammar import sheet, tree
from grammar.checking.scope import Scope
from grammar.diagnostics.problem import Elsewhere
from grammar.text import Span

_WORDS: Final[dict[type, str]] = {
    tree.Source: "source",
    tree.Note: "note",
    tree.Effective: "effective",
    tree.Until: "until",
    tree.Replaces: "replaces",
    tree.Arm: "arm",
    tree.LateralArm: "lateral arm",
    tree.Density: "density",
    tree.Steps: "in steps of",
    tree.Each: "of … each",
    tree.FloorArea: "floor area",
    tree.AssumedEmpty: "assumed empty",
    tree.When: "when",
    tree.Applies: "applies when",
    tree.After: "after",
    tree.IssuedBy: "issued by",
    tree.ForAirframe: "airframe",
    tree.Taken: "use the next",
}

SomeClause = TypeVar("SomeClause", bound=tree.Clause)


def one(scope: Scope, clauses: tuple[tree.Clause, ...], wanted: type[SomeClause]) -> SomeClause | None:
    """The clause of the wanted sort, or None; a second one is written down."""
    found = [clause for clause in clauses if isinstance(clause, wanted)]
    for again in found[1:]:
        first = Elsewhere(found[0].span, "it stands here first")
        scope.notebook.write("707", again.span, elsewhere=(first,), clause=_WORDS[wanted])
    return found[0] if found else None


def note(scope: Scope, clauses: tuple[tree.Clause, ...]) -> str | None:
    """The note of a statement, if it has one."""
    clause = one(scope, clauses, tree.Note)
    return clause.text.text if clause else None


def source(scope: Scope, clauses: tuple[tree.Clause, ...]) -> sheet.Source | None:
    """The source of a statement, if it has one and its document is declared."""
    clause = one(scope, clauses, tree.Source)
    if clause is None:
        return None
    name = clause.document.text
    scope.use(name)
    document = scope.documents.get(name)
    if document is None:
        if not scope.is_faulty(name):
            scope.unknown("311", clause.document, scope.documents)
        return None
    return sheet.Source(document, clause.paragraph.text)


def needed_source(
    scope: Scope, clauses: tuple[tree.Clause, ...], what: str, name: str, span: Span
) -> sheet.Source | None:
    """The source of a statement that must have one; ``what`` says which statement, for the message."""
    if not any(isinstance(clause, tree.Source) for clause in clauses):
        scope.notebook.write("701", span, what=what, name=name, document=scope.a_document())
    return source(scope, clauses)
