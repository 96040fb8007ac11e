"""Asking what an expression stands for, from wherever it stands.

The answer is found by ``expressions.resolve``, which knows every sort of expression; the modules for single
sorts ask through here and through the scope, so that they need not know it.
"""

from __future__ import annotations

from typing import Final

from grammar import sheet, tree
from grammar.checking.context import Context
from grammar.checking.scope import Resolved, Scope

CONDITIONS: Final = sheet.Condition


def resolve(scope: Scope, node: tree.Expression, context: Context) -> Resolved | None:
    """An expression or a condition, whichever was written."""
    return scope.resolver(scope, node, context)


def value(scope: Scope, node: tree.Expression, context: Context) -> sheet.Expression | None:
    """An expression; a condition in its place is written down."""
    found = resolve(scope, node, context)
    if found is not None and isinstance(found, CONDITIONS):
        scope.notebook.write("407", node.span, typed=scope.typed(node.span))
        return None
    return found


def condition(scope: Scope, node: tree.Expression, context: Context) -> sheet.Condition | None:
    """A condition; a value in its place is written down."""
    found = resolve(scope, node, context)
    if found is None or isinstance(found, CONDITIONS):
        return found
    if isinstance(found.kind, sheet.Option) and found.kind.is_yes_or_no:
        typed = scope.typed(node.span)
        scope.notebook.write("418", node.span, name=typed, suggestion=f"{typed} is yes")
    else:
        scope.notebook.write("408", node.span, typed=scope.typed(node.span))
    return None
