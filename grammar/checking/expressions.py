"""Expressions: names looked up, kinds and dimensions fitted together, every figure in base units.

Each function gives None where a problem has been written down, so that nothing built on a mistake is blamed
again.
"""

from __future__ import annotations

from typing import Final

from grammar import sheet, tree
from grammar.checking import conditions, figures, functions, kinds, nesting, references
from grammar.checking.context import Context
from grammar.checking.kinds import Meeting
from grammar.checking.scope import Resolved, Scope
from grammar.checking.vocabulary import STAGES
from grammar.text import Span
from grammar.units import NUMBER, PURE, Dimension, Unit, calendar_unit, find_unit, usual_unit

CONDITIONS: Final = sheet.Condition
LONGEST_CHAIN: Final = 200
"""How many values may be multiplied or divided in one row."""


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
            return _arithmetic(scope, node, context)
        case tree.Round():
            return _round(scope, node, context)
        case tree.Choice():
            return conditions.choice(scope, node, context)
        case _:
            return conditions.condition_of(scope, node, context)


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


def display_unit(node: sheet.Expression) -> Unit:
    """The unit to show a value in; a plain number has none."""
    return node.unit or PURE


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
    of = value(scope, node.of, context)
    if of is None:
        return None
    if not isinstance(of.kind, sheet.Measure):
        _write_illegal(scope, Meeting.SUBTRACT, (node.span, of.kind), (node.of.span, of.kind))
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


# ---- arithmetic


def _arithmetic(scope: Scope, node: tree.Arithmetic, context: Context) -> sheet.Expression | None:
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
    left = value(scope, first, context)
    for one in reversed(row):
        left = _step(scope, one, left, context)
    return left


def _step(
    scope: Scope, node: tree.Arithmetic, left: sheet.Expression | None, context: Context
) -> sheet.Expression | None:
    later = _later_date(scope, node, left)
    if later is not None:
        return later
    right = value(scope, node.right, context)
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
    if not fits(scope, meeting, (node.left.span, left), (node.right.span, right)):
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
        _write_illegal(scope, Meeting.MULTIPLY, (node.left.span, left.kind), (node.right.span, right.kind))
        return None
    dimension = left.kind.dimension * right.kind.dimension
    kind = sheet.Measure(dimension)
    if left.kind.dimension == NUMBER:
        unit = display_unit(right)
    elif right.kind.dimension == NUMBER:
        unit = display_unit(left)
    else:
        unit = _unit_of_product(display_unit(left), display_unit(right), dimension)
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
        _write_illegal(scope, Meeting.DIVIDE, (node.left.span, left.kind), (node.right.span, right.kind))
        return None
    if scope.ends(right).has_zero:
        scope.notebook.write("514", node.right.span, divisor=scope.typed(node.right.span))
        return None
    dimension = left.kind.dimension / right.kind.dimension
    if right.kind.dimension == NUMBER:
        unit = display_unit(left)
    elif dimension == NUMBER:
        unit = PURE
    else:
        named = find_unit(f"{display_unit(left).name}/{display_unit(right).name}")
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


def _round(scope: Scope, node: tree.Round, context: Context) -> sheet.Expression | None:
    of = value(scope, node.of, context)
    if of is None:
        return None
    if not isinstance(of.kind, sheet.Measure):
        _write_illegal(scope, Meeting.DIVIDE, (node.of.span, of.kind), (node.step.span, of.kind))
        return None
    step = figures.positive(scope, node.step, of.kind.dimension, "the step to round to")
    if step is None:
        return None
    return sheet.Rounded(
        span=node.span, slot=scope.slot(), kind=of.kind, unit=of.unit, of=of, step=step, upward=node.upward
    )


# ---- whether two values can meet

Typed = tuple[Span, sheet.Expression]
"""A resolved expression and where it was written."""


def fits(scope: Scope, meeting: Meeting, left: Typed, right: Typed) -> bool:
    """Whether two values can be added, subtracted, ordered or be the same; if not, it is written down."""
    one, other = left[1].kind, right[1].kind
    if not kinds.is_legal(meeting, one, other):
        _write_meeting_problem(scope, meeting, left, right)
        return False
    if isinstance(one, sheet.Measure) and isinstance(other, sheet.Measure) and one.dimension != other.dimension:
        _write_meeting_problem(scope, meeting, left, right)
        return False
    return True


def _write_meeting_problem(scope: Scope, meeting: Meeting, left: Typed, right: Typed) -> None:
    one, other = left[1].kind, right[1].kind
    bare = _bare_number(left, right)
    if bare is not None:
        _write_bare_number(scope, bare[0], bare[1])
    elif isinstance(one, sheet.Measure) and isinstance(other, sheet.Measure):
        _write_dimensions(scope, meeting, left, right)
    else:
        _write_illegal(scope, meeting, (left[0], one), (right[0], other))


def _bare_number(left: Typed, right: Typed) -> tuple[Typed, Typed] | None:
    """The side that is a figure without a unit, and the other side, which has one."""
    for one, other in ((left, right), (right, left)):
        is_bare = isinstance(one[1], sheet.Constant) and one[1].unit is PURE
        if is_bare and other[1].unit is not None and other[1].unit.name and not _is_number(other[1].kind):
            return one, other
    return None


def _is_number(kind: sheet.Kind) -> bool:
    return isinstance(kind, sheet.Measure) and kind.dimension == NUMBER


def _write_bare_number(scope: Scope, bare: Typed, other: Typed) -> None:
    figure, unit = scope.typed(bare[0]), display_unit(other[1])
    scope.notebook.write(
        "403",
        bare[0],
        suggestion=f"{figure} {unit.name}",
        figure=figure,
        dimension=kinds.words(other[1].kind),
        unit=unit.name,
    )


def _write_dimensions(scope: Scope, meeting: Meeting, left: Typed, right: Typed) -> None:
    is_tank = isinstance(left[1], sheet.Named) and left[1].name in scope.tanks
    right_name = kinds.words(right[1].kind)
    if is_tank and right_name == "a volume":
        tank = scope.typed(left[0])
        scope.notebook.write("409", left[0], tank=tank, right=scope.typed(right[0]), suggestion=f"volume({tank})")
        return
    scope.notebook.write(
        "402",
        left[0].to(right[0]),
        left=scope.typed(left[0]),
        left_dimension=kinds.words(left[1].kind),
        right=scope.typed(right[0]),
        right_dimension=right_name,
        verb=meeting.value,
    )


def _write_illegal(
    scope: Scope, meeting: Meeting, left: tuple[Span, sheet.Kind], right: tuple[Span, sheet.Kind]
) -> None:
    scope.notebook.write(
        "406",
        min(left[0], right[0], key=_start).to(max(left[0], right[0], key=_start)),
        left=scope.typed(left[0]),
        left_kind=kinds.words(left[1]),
        right=scope.typed(right[0]),
        right_kind=kinds.words(right[1]),
        verb=meeting.value,
        hint=kinds.hint(left[1], right[1]),
    )


def _start(span: Span) -> int:
    return span.start
