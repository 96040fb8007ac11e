"""Values within values, however deep: the innermost are resolved first, so that no depth exhausts the stack.

What a value within a statement stands for is found once for each context and kept, together with what finding
it did to the count of the stages asked.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from grammar import tree
from grammar.checking.context import Context
from grammar.checking.scope import Known, Resolved, Scope
from grammar.checking.vocabulary import STAGES

MOST_LEVELS: Final = 250
"""How many levels of values may stand within one another, those of named values and bounds included."""

MOST_ENVELOPE_CHOICES: Final = 40
"""How many choices of envelopes may stand within one another."""

_TAKE_A_NAME: Final = frozenset({"volume", "floor_loading", "bound", "stated"})
"""The functions that take the name of something and not a value."""

Resolve = Callable[[Scope, tree.Expression, Context], Resolved | None]
_Inner = tuple[tree.Expression, Context]


def without_brackets(node: tree.Expression) -> tree.Expression:
    """What stands within the brackets."""
    while isinstance(node, tree.Group):
        node = node.of
    return node


def resolved(scope: Scope, node: tree.Expression, context: Context, resolve: Resolve) -> Resolved | None:
    """What a value or a condition stands for, by ``resolve``, once it is known of all that stands within."""
    known = scope.known.get((id(node), context))
    if known is None:
        for inner, where in _innermost_first(scope, node, context):
            scope.known[id(inner), where] = _once(scope, inner, where, resolve)
        known = scope.known[id(node), context]
    scope.stages_asked += known.stages_asked
    scope.reach = scope.reach.and_also(known.reach)
    return known.found


def _once(scope: Scope, node: tree.Expression, context: Context, resolve: Resolve) -> Known:
    asked, reach = scope.begin_to_count()
    found = resolve(scope, node, context)
    its = scope.reach.deeper(max(1, _products(node)))
    if its.levels > MOST_LEVELS:
        if found is not None:
            scope.notebook.write("912", node.span, most=str(MOST_LEVELS))
        found = None
    known = Known(node, found, scope.stages_asked, its if found is not None else type(its)())
    scope.stages_asked, scope.reach = asked, reach
    return known


def _products(node: tree.Expression) -> int:
    """How many levels the multiplications and divisions of a row come to; a row of sums is one level."""
    count = 0
    while isinstance(node, tree.Arithmetic):
        count += node.operation in (tree.Operation.MULTIPLY, tree.Operation.DIVIDE)
        node = node.left
    return count


def is_too_many_envelope_choices(named: tree.Expression) -> bool:
    """Whether more choices of envelopes stand within one another than are followed."""
    level = [named]
    for _ in range(MOST_ENVELOPE_CHOICES):
        choices = [one for one in map(without_brackets, level) if isinstance(one, tree.Choice)]
        level = [value for choice in choices for value in values_of(choice)]
    return any(isinstance(without_brackets(one), tree.Choice) for one in level)


# ---- what stands within


def _innermost_first(scope: Scope, node: tree.Expression, context: Context) -> Iterator[_Inner]:
    """Everything within a value that is not known yet and is made of others, and last the value itself."""
    order: list[_Inner] = []
    waiting: list[_Inner] = [(node, context)]
    while waiting:
        inner, where = waiting.pop()
        if (id(inner), where) in scope.known:
            continue
        order.append((inner, where))
        waiting.extend((part, at) for part, at in _parts(inner, where) if _is_made_of_others(part))
    yield from reversed(order)


def _is_made_of_others(node: tree.Expression) -> bool:
    return not isinstance(node, tree.Quantity | tree.DateLiteral | tree.Reference)


def _parts(node: tree.Expression, context: Context) -> Iterator[_Inner]:
    if isinstance(node, tree.AtStage):
        stage = STAGES.get(node.stage.text)
        if stage is not None:
            yield without_brackets(node.of), context.at(stage)
    else:
        for part in _written_parts(node):
            yield without_brackets(part), context


def _written_parts(node: tree.Expression) -> Iterator[tree.Expression]:
    """The values and conditions that a value or a condition is written with."""
    match node:
        case tree.Quantity() | tree.DateLiteral() | tree.Reference():
            return
        case tree.Negative() | tree.Round() | tree.Not() | tree.Group() | tree.AtStage():
            yield node.of
        case tree.Call():
            yield from _arguments(node)
        case tree.Arithmetic():
            yield from _operands(node)
        case tree.Choice():
            yield from values_of(node)
            yield from (branch.guard for branch in node.branches)
        case tree.Comparison():
            yield node.left
            yield node.right
        case tree.Between():
            yield node.subject
            yield node.low
            yield node.high
        case tree.Inside():
            yield node.across
            yield node.against
            yield from _guards_within(node.envelope)
        case tree.Is():
            yield node.subject
            if not isinstance(node.state, tree.Word):
                yield node.state
        case tree.AllOf() | tree.AnyOf():
            yield from node.parts


def _arguments(node: tree.Call) -> Iterator[tree.Expression]:
    if node.name.text not in _TAKE_A_NAME:
        yield from node.arguments


def _operands(node: tree.Arithmetic) -> Iterator[tree.Expression]:
    """The values of a row of operations, which is resolved along the row and not inwards."""
    first: tree.Expression = node
    while isinstance(first, tree.Arithmetic):
        yield first.right
        first = first.left
    yield first


def values_of(node: tree.Choice) -> Iterator[tree.Expression]:
    """The values of a choice, that after `otherwise` last."""
    yield from (branch.value for branch in node.branches)
    if node.otherwise is not None:
        yield node.otherwise


def _guards_within(named: tree.Expression) -> Iterator[tree.Expression]:
    """The conditions of a choice of envelopes, and of the choices within it."""
    waiting = [named]
    while waiting:
        one = without_brackets(waiting.pop())
        if isinstance(one, tree.Choice):
            yield from (branch.guard for branch in one.branches)
            waiting.extend(values_of(one))
