"""Expressions of every sort: names looked up, kinds and dimensions fitted together, figures in base units.

Each function gives None where a problem has been written down, so that nothing built on a mistake is blamed
again.
"""

from __future__ import annotations

from grammar import sheet, tree
from grammar.checking import arithmetic, conditions, figures, functions, meetings, nesting, references, resolving
from grammar.checking.context import Context
from grammar.checking.kinds import Meeting
from grammar.checking.notebook import Notebook
from grammar.checking.scope import Resolved, Scope
from grammar.checking.vocabulary import STAGES


def begin(notebook: Notebook, order_files: frozenset[str] = frozenset()) -> Scope:
    """A scope in which expressions of every sort can be resolved."""
    return Scope(notebook, resolve, order_files)


def resolve(scope: Scope, node: tree.Expression, context: Context) -> Resolved | None:
    """An expression or a condition, whichever was written."""
    node = nesting.without_brackets(node)
    if isinstance(node, tree.Quantity | tree.DateLiteral | tree.Reference):
        return _resolved(scope, node, context)
    return nesting.resolved(scope, node, context, _resolved)


def _resolved(scope: Scope, node: tree.Expression, context: Context) -> Resolved | None:
    match node:
        case tree.Quantity():
            return quantity(scope, node.figure)
        case tree.DateLiteral():
            return _date(scope, node)
        case tree.Reference():
            return references.reference(scope, node, context)
        case tree.Call():
            return functions.call(scope, node, context)
        case tree.AtStage():
            return _at_stage(scope, node, context)
        case tree.Negative():
            return _negative(scope, node, context)
        case tree.Arithmetic():
            return arithmetic.arithmetic(scope, node, context)
        case tree.Round():
            return arithmetic.rounded(scope, node, context)
        case tree.Choice():
            return conditions.choice(scope, node, context)
        case _:
            return conditions.condition_of(scope, node, context)


# ---- figures


def quantity(scope: Scope, figure: tree.Figure) -> sheet.Constant | None:
    """A figure as a constant."""
    found = figures.value(scope, figure)
    if found is None:
        return None
    amount, unit = found
    return sheet.Constant(span=figure.span, slot=scope.slot(), kind=figures.kind_of(unit), unit=unit, value=amount)


def _date(scope: Scope, node: tree.DateLiteral) -> sheet.Constant | None:
    day = figures.day(scope, node.day)
    if day is None:
        return None
    return sheet.Constant(span=node.span, slot=scope.slot(), kind=sheet.CalendarDate(), unit=None, value=day)


def _negative(scope: Scope, node: tree.Negative, context: Context) -> sheet.Expression | None:
    if isinstance(node.of, tree.Quantity):
        figure = node.of.figure
        return quantity(scope, tree.Figure(-figure.amount, figure.unit, node.span))
    of = resolving.value(scope, node.of, context)
    if of is None:
        return None
    if not isinstance(of.kind, sheet.Measure):
        meetings.write_illegal(scope, Meeting.SUBTRACT, (node.span, of.kind), (node.of.span, of.kind))
        return None
    return sheet.Sum(span=node.span, slot=scope.slot(), kind=of.kind, unit=of.unit, terms=((-1, of),))


# ---- stages


def _at_stage(scope: Scope, node: tree.AtStage, context: Context) -> Resolved | None:
    stage = STAGES.get(node.stage.text)
    if stage is None:
        scope.unknown("309", node.stage, STAGES)
        return None
    asked = scope.stages_asked
    found = resolve(scope, node.of, context.at(stage))
    if found is not None and scope.stages_asked == asked:
        typed = scope.typed(node.of.span)
        scope.notebook.write("608", node.stage.span, typed=typed, stage=stage.value)
    scope.stages_asked = asked
    return found
