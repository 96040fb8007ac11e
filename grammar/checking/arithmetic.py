"""Arithmetic: sums, products, quotients, dates moved, values rounded, each with its kind and unit."""

from __future__ import annotations

from typing import Final

from grammar import sheet, tree
from grammar.checking import figures, kinds, meetings, resolving
from grammar.checking.context import Context
from grammar.checking.kinds import Meeting
from grammar.checking.scope import Scope
from grammar.units import NUMBER, PURE, Dimension, Unit, calendar_unit, find_unit, usual_unit

LONGEST_CHAIN: Final = 200
"""How many values may be multiplied or divided in one row."""


def arithmetic(scope: Scope, node: tree.Arithmetic, context: Context) -> sheet.Expression | None:
    """A row of operations from left to right, without recursion along the row."""
    row: list[tree.Arithmetic] = []
    first: tree.Expression = node
    while isinstance(first, tree.Arithmetic):
        row.append(first)
        first = first.left
    products = sum(one.operation in (tree.Operation.MULTIPLY, tree.Operation.DIVIDE) for one in row)
    if products > LONGEST_CHAIN:
        scope.notebook.write("910", node.span, count=str(products), most=str(LONGEST_CHAIN))
        return None
    left = resolving.value(scope, first, context)
    for one in reversed(row):
        left = _step(scope, one, left, context)
    return left


def _step(
    scope: Scope, node: tree.Arithmetic, left: sheet.Expression | None, context: Context
) -> sheet.Expression | None:
    later = _later_date(scope, node, left)
    if later is not None:
        return later
    right = resolving.value(scope, node.right, context)
    if left is None or right is None:
        return None
    match node.operation:
        case tree.Operation.ADD:
            return _added(scope, node, Meeting.ADD, left, right)
        case tree.Operation.SUBTRACT:
            return _added(scope, node, Meeting.SUBTRACT, left, right)
        case tree.Operation.MULTIPLY:
            return _multiplied(scope, node, left, right)
        case tree.Operation.DIVIDE:
            return _divided(scope, node, left, right)


def _later_date(scope: Scope, node: tree.Arithmetic, left: sheet.Expression | None) -> sheet.LaterDate | None:
    """A date and calendar time added or subtracted, where that is what was written."""
    if left is None or not isinstance(left.kind, sheet.CalendarDate) or not isinstance(node.right, tree.Quantity):
        return None
    figure = node.right.figure
    word = calendar_unit(figure.unit.text) if figure.unit else None
    if word is None or figure.amount.denominator != 1:
        return None
    signs = {tree.Operation.ADD: 1, tree.Operation.SUBTRACT: -1}
    sign = signs.get(node.operation)
    if sign is None:
        return None
    count = sign * int(figure.amount)
    months = {"months": count, "years": 12 * count}.get(word, 0)
    days = count if word == "days" else 0
    return sheet.LaterDate(
        span=node.span, slot=scope.slot(), kind=left.kind, unit=None, date=left, months=months, days=days
    )


def _added(
    scope: Scope, node: tree.Arithmetic, meeting: Meeting, left: sheet.Expression, right: sheet.Expression
) -> sheet.Expression | None:
    if not meetings.fits(scope, meeting, (node.left.span, left), (node.right.span, right)):
        return None
    if isinstance(left.kind, sheet.CalendarDate | sheet.Option):
        return None
    kind = kinds.result(meeting, left.kind, right.kind)
    sign = 1 if meeting is Meeting.ADD else -1
    unit = _unit_of_sum(kind, left, right)
    before = left.terms if isinstance(left, sheet.Sum) and left.kind == kind else ((1, left),)
    return sheet.Sum(span=node.span, slot=scope.slot(), kind=kind, unit=unit, terms=(*before, (sign, right)))


def _unit_of_sum(kind: sheet.Kind, left: sheet.Expression, right: sheet.Expression) -> Unit | None:
    for one in (left, right):
        if one.unit is not None and one.unit.name and figures.kind_of(one.unit) == kind:
            return one.unit
    return usual_unit(kind.dimension) if isinstance(kind, sheet.Measure) else left.unit


def _multiplied(
    scope: Scope, node: tree.Arithmetic, left: sheet.Expression, right: sheet.Expression
) -> sheet.Expression | None:
    if not isinstance(left.kind, sheet.Measure) or not isinstance(right.kind, sheet.Measure):
        meetings.write_illegal(scope, Meeting.MULTIPLY, (node.left.span, left.kind), (node.right.span, right.kind))
        return None
    dimension = left.kind.dimension * right.kind.dimension
    kind = sheet.Measure(dimension)
    if left.kind.dimension == NUMBER:
        unit = meetings.display_unit(right)
    elif right.kind.dimension == NUMBER:
        unit = meetings.display_unit(left)
    else:
        unit = _unit_of_product(meetings.display_unit(left), meetings.display_unit(right), dimension)
    return sheet.Product(span=node.span, slot=scope.slot(), kind=kind, unit=unit, left=left, right=right)


def _unit_of_product(left: Unit, right: Unit, dimension: Dimension) -> Unit:
    """The unit to show a product in: L for L/h times min, lb.in for lb times in."""
    for one in (left, right):
        above = find_unit(one.name.split("/", 1)[0])
        if "/" in one.name and above is not None and above.dimension == dimension:
            return above
    named = find_unit(f"{left.name}.{right.name}")
    return named if named is not None and named.dimension == dimension else usual_unit(dimension)


def _divided(
    scope: Scope, node: tree.Arithmetic, left: sheet.Expression, right: sheet.Expression
) -> sheet.Expression | None:
    if not isinstance(left.kind, sheet.Measure) or not isinstance(right.kind, sheet.Measure):
        meetings.write_illegal(scope, Meeting.DIVIDE, (node.left.span, left.kind), (node.right.span, right.kind))
        return None
    if scope.ends(right).has_zero:
        scope.notebook.write("514", node.right.span, divisor=scope.typed(node.right.span))
        return None
    dimension = left.kind.dimension / right.kind.dimension
    if right.kind.dimension == NUMBER:
        unit = meetings.display_unit(left)
    elif dimension == NUMBER:
        unit = PURE
    else:
        named = find_unit(f"{meetings.display_unit(left).name}/{meetings.display_unit(right).name}")
        simple = named is not None and named.dimension == dimension and named.name.count("/") == 1
        unit = named if named is not None and simple else usual_unit(dimension)
    return sheet.Quotient(
        span=node.span,
        slot=scope.slot(),
        kind=sheet.Measure(dimension),
        unit=unit,
        dividend=left,
        divisor=right,
    )


def rounded(scope: Scope, node: tree.Round, context: Context) -> sheet.Expression | None:
    """A value rounded to whole steps."""
    of = resolving.value(scope, node.of, context)
    if of is None:
        return None
    if not isinstance(of.kind, sheet.Measure):
        meetings.write_illegal(scope, Meeting.DIVIDE, (node.of.span, of.kind), (node.step.span, of.kind))
        return None
    step = figures.positive(scope, node.step, of.kind.dimension, "the step to round to")
    if step is None:
        return None
    return sheet.Rounded(
        span=node.span, slot=scope.slot(), kind=of.kind, unit=of.unit, of=of, step=step, upward=node.upward
    )
