"""Reading tables: along figures, and along choices."""

from __future__ import annotations

from grammar import sheet, tree
from grammar.checking import figures, kinds, resolving
from grammar.checking.choice_tables import ChoiceTable, Printed
from grammar.checking.context import Context
from grammar.checking.scope import Scope
from grammar.text import Span


def wrong_number(scope: Scope, node: tree.Call, wanted: str) -> None:
    """Write down that a table or a function is given too few or too many values."""
    given = figures.counted(len(node.arguments), "value stands", "values stand")
    scope.notebook.write("307", node.span, name=node.name.text, wanted=wanted, given=given)


def look_up(scope: Scope, node: tree.Call, table: sheet.Table, context: Context) -> sheet.Expression | None:
    """A table along figures, read at the values given."""
    if len(node.arguments) != len(table.axes):
        wrong_number(scope, node, figures.counted(len(table.axes), "value", "values"))
        return None
    values = [resolving.value(scope, argument, context) for argument in node.arguments]
    known = tuple(value for value in values if value is not None)
    if len(known) < len(values):
        return None
    if not all(
        _fits_axis(scope, argument, value, table, axis)
        for argument, value, axis in zip(node.arguments, known, table.axes, strict=True)
    ):
        return None
    return sheet.LookUp(
        span=node.span,
        slot=scope.slot(),
        kind=figures.kind_of(table.unit),
        unit=table.unit,
        table=table,
        arguments=known,
    )


def choose(scope: Scope, node: tree.Call, table: ChoiceTable, context: Context) -> sheet.Expression | None:
    """A table along choices: a guarded choice of what is printed for each."""
    axes = table.axes()
    if len(node.arguments) != len(axes):
        wrong_number(scope, node, figures.counted(len(axes), "value", "values"))
        return None
    values = [resolving.value(scope, argument, context) for argument in node.arguments]
    known = [value for value in values if value is not None]
    if len(known) < len(values):
        return None
    return _chosen(scope, node, table, list(zip(node.arguments, known, strict=True)))


_Given = tuple[tree.Expression, sheet.Expression]


def _chosen(
    scope: Scope, node: tree.Call, part: sheet.Table | ChoiceTable | Printed, given: list[_Given]
) -> sheet.Expression | None:
    match part:
        case Printed():
            kind = figures.kind_of(part.unit)
            return sheet.Constant(span=part.span, slot=scope.slot(), kind=kind, unit=part.unit, value=part.value)
        case sheet.Table():
            return _read_part(scope, node, part, given)
        case ChoiceTable():
            return _cases(scope, node, part, given)


def _read_part(scope: Scope, node: tree.Call, table: sheet.Table, given: list[_Given]) -> sheet.Expression | None:
    ((argument, value),) = given
    if not _fits_axis(scope, argument, value, table, table.axes[0]):
        return None
    return sheet.LookUp(
        span=node.span,
        slot=scope.slot(),
        kind=figures.kind_of(table.unit),
        unit=table.unit,
        table=table,
        arguments=(value,),
    )


def _cases(scope: Scope, node: tree.Call, table: ChoiceTable, given: list[_Given]) -> sheet.Expression | None:
    argument, chooser = given[table.argument]
    if chooser.kind != table.item.kind:
        scope.notebook.write(
            "411",
            argument.span,
            table=table.name,
            axis=table.item.name,
            unit="choices",
            value=scope.typed(argument.span),
            dimension=kinds.words(chooser.kind),
            axes=", ".join(table.axes()),
        )
        return None
    rest = [one for at, one in enumerate(given) if at != table.argument]
    values = [(word, _chosen(scope, node, part, rest)) for word, part in table.parts]
    cases = tuple(
        sheet.Case(_is(scope, argument.span, chooser, word), value) for word, value in values if value is not None
    )
    if len(cases) < len(values):
        return None
    first = cases[0].value
    return sheet.Choice(
        span=node.span, slot=scope.slot(), kind=first.kind, unit=first.unit, cases=cases, otherwise=None
    )


def _is(scope: Scope, span: Span, chooser: sheet.Expression, word: str) -> sheet.Condition:
    option = sheet.Constant(span=span, slot=scope.slot(), kind=chooser.kind, unit=None, value=word)
    return sheet.Same(span=span, slot=scope.slot(), left=chooser, right=option)


def _fits_axis(
    scope: Scope, argument: tree.Expression, value: sheet.Expression, table: sheet.Table, axis: sheet.Axis
) -> bool:
    if value.kind == figures.kind_of(axis.unit):
        return True
    scope.notebook.write(
        "411",
        argument.span,
        table=table.name,
        axis=axis.name,
        unit=axis.unit.name,
        value=scope.typed(argument.span),
        dimension=kinds.words(value.kind),
        axes=", ".join(one.name for one in table.axes),
    )
    return False
