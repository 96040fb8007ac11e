"""The first look at a file: which names it declares, and what may stand in it only once."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from grammar import sheet, tree
from grammar.checking.scope import NamedStatement, Scope
from grammar.checking.vocabulary import RESERVED
from grammar.diagnostics.problem import Elsewhere
from grammar.text import Span

Single = TypeVar("Single", tree.SheetHeader, tree.Datum, tree.Chord, tree.Burn)


def declare_names(scope: Scope, file: tree.File) -> None:
    """Note every name that the file declares; names of unread statements are faulty."""
    for unread in file.unread:
        if unread.name is not None:
            scope.faulty.add(unread.name)
    for statement in file.statements:
        if isinstance(statement, NamedStatement):
            _declare(scope, statement)


def _declare(scope: Scope, statement: NamedStatement) -> None:
    name = statement.name.text
    first = scope.declared.get(name)
    if name in RESERVED:
        scope.notebook.write("304", statement.name.span, name=name)
        scope.faulty.add(name)
    elif first is not None:
        scope.notebook.write(
            "301", statement.name.span, elsewhere=(Elsewhere(first.name.span, "declared first here"),), name=name
        )
    else:
        scope.declared[name] = statement


def is_first(scope: Scope, statement: NamedStatement) -> bool:
    """Whether the statement is the one that its name stands for (a second declaration is left out)."""
    return scope.declared.get(statement.name.text) is statement


def declare_documents(scope: Scope, file: tree.File) -> None:
    """Resolve the documents, which every source needs."""
    for statement in file.statements:
        if isinstance(statement, tree.Document) and is_first(scope, statement):
            name = statement.name.text
            scope.documents[name] = sheet.Document(name, statement.title.text, statement.span)


def only_one(
    scope: Scope, statements: Iterable[tree.Statement], wanted: type[Single], keyword: str
) -> Single | None:
    """The statement of a sort that may stand once; a second one is written down."""
    found = [statement for statement in statements if isinstance(statement, wanted)]
    for again in found[1:]:
        first = Elsewhere(found[0].span, "it stands here first")
        scope.notebook.write("615", start_of(scope, again.span, keyword), elsewhere=(first,), keyword=keyword)
    return found[0] if found else None


def start_of(scope: Scope, span: Span, keyword: str) -> Span:
    """The keyword at the start of a statement."""
    return scope.notebook.beginning(span, len(keyword))
