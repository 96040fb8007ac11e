"""The first look at a file: which names it declares, and what may stand in it only once."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from grammar import sheet, tree
from grammar.checking.headings import check_heading
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
        scope.notebook.write("615", _start_of(scope, again.span, keyword), elsewhere=(first,), keyword=keyword)
    return found[0] if found else None


def _start_of(scope: Scope, span: Span, keyword: str) -> Span:
    return scope.notebook.beginning(span, len(keyword))


def check_header(scope: Scope, file: tree.File) -> sheet.Header | None:
    """The heading of the sheet: there, first, and right in itself."""
    header = only_one(scope, file.statements, tree.SheetHeader, "sheet")
    if header is None:
        if not any(unread.keyword == "sheet" for unread in file.unread):
            scope.notebook.write("703", scope.notebook.top())
        return None
    if file.statements[0] is not header:
        scope.notebook.write("704", _start_of(scope, header.span, "sheet"))
    return check_heading(scope, header)


def write_without_sheet(scope: Scope, file: tree.File) -> None:
    """A supplement, an order or a permit by itself says nothing: it needs the sheet that it builds on."""
    for statement in file.statements:
        if isinstance(statement, tree.LayerHeader):
            kind, name = statement.kind.value, statement.name.text
            span = _start_of(scope, statement.span, kind)
            scope.notebook.write("751", span, kind=kind, name=name, to=statement.to.text)
