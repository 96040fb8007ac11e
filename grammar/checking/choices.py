"""The guarded choice: its cases of one kind, complete and free of overlap where that can be known."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import islice, product
from typing import Final

from grammar import sheet, tree
from grammar.checking import meetings, resolving
from grammar.checking.context import Context
from grammar.checking.kinds import Meeting
from grammar.checking.scope import Resolved, Scope
from grammar.diagnostics.problem import Elsewhere

MOST_COMBINATIONS: Final = 4096
"""How many combinations of options are looked through; a choice over more needs `otherwise`."""


def chosen(scope: Scope, node: tree.Choice, context: Context) -> Resolved | None:
    """A guarded choice, of values or of conditions as its first case is."""
    first = resolving.resolve(scope, node.branches[0].value, context)
    if first is not None and isinstance(first, resolving.CONDITIONS):
        return chosen_condition(scope, node, context, lambda value: resolving.condition(scope, value, context))
    return _chosen_value(scope, node, context)


def _guards(scope: Scope, node: tree.Choice, context: Context) -> list[sheet.Condition] | None:
    found = [resolving.condition(scope, branch.guard, context) for branch in node.branches]
    known = [guard for guard in found if guard is not None]
    return known if len(known) == len(found) else None


def _chosen_value(scope: Scope, node: tree.Choice, context: Context) -> sheet.Expression | None:
    guards = _guards(scope, node, context)
    written = [branch.value for branch in node.branches]
    if node.otherwise is not None:
        written.append(node.otherwise)
    values = [resolving.value(scope, one, context) for one in written]
    known = [value for value in values if value is not None]
    if guards is None or len(known) < len(values):
        return None
    first = (written[0].span, known[0])
    for one, value in zip(written[1:], known[1:], strict=True):
        if not meetings.fits(scope, Meeting.SAME, first, (one.span, value)):
            return None
    if not check_guards(scope, node, guards):
        return None
    cases = zip(guards, known[: len(guards)], strict=True)
    return sheet.Choice(
        span=node.span,
        slot=scope.slot(),
        kind=known[0].kind,
        unit=known[0].unit,
        cases=tuple(sheet.Case(guard, value) for guard, value in cases),
        otherwise=known[-1] if node.otherwise is not None else None,
    )


def chosen_condition(
    scope: Scope,
    node: tree.Choice,
    context: Context,
    resolve: Callable[[tree.Expression], sheet.Condition | None],
) -> sheet.Condition | None:
    """A guarded choice of conditions; ``resolve`` makes the condition of each case."""
    guards = _guards(scope, node, context)
    values = [resolve(branch.value) for branch in node.branches]
    otherwise = None if node.otherwise is None else resolve(node.otherwise)
    known = [value for value in values if value is not None]
    lacks_otherwise = node.otherwise is not None and otherwise is None
    if guards is None or len(known) < len(values) or lacks_otherwise or not check_guards(scope, node, guards):
        return None
    return sheet.ConditionChoice(
        span=node.span,
        slot=scope.slot(),
        cases=tuple(sheet.ConditionCase(*pair) for pair in zip(guards, known, strict=True)),
        otherwise=otherwise,
    )


# ---- completeness and overlap

_Options = Mapping[str, str]
"""One combination of the options of the inputs that the guards speak of."""


def check_guards(scope: Scope, node: tree.Choice, guards: list[sheet.Condition]) -> bool:
    """Whether the cases are complete and do not overlap; over figures an ``otherwise`` completes them."""
    inputs: dict[str, sheet.Input] = {}
    if not all(_is_over_options(guard, inputs) for guard in guards) or _count(inputs) > MOST_COMBINATIONS:
        if node.otherwise is None:
            scope.notebook.write("603", node.span)
        return node.otherwise is not None
    return _check_combinations(scope, node, guards, inputs)


def _count(inputs: Mapping[str, sheet.Input]) -> int:
    count = 1
    for one in inputs.values():
        count *= len(_options(one))
    return count


def _options(one: sheet.Input) -> tuple[str, ...]:
    return one.kind.options if isinstance(one.kind, sheet.Option) else ()


def _is_over_options(guard: sheet.Condition, inputs: dict[str, sheet.Input]) -> bool:
    """Whether a guard speaks of options only; the inputs that it speaks of are gathered."""
    match guard:
        case sheet.Same():
            return all(_gather_option(side, inputs) for side in (guard.left, guard.right))
        case sheet.AllOf() | sheet.AnyOf():
            return all(_is_over_options(part, inputs) for part in guard.parts)
        case sheet.Not():
            return _is_over_options(guard.of, inputs)
        case sheet.NamedCondition():
            return _is_over_options(guard.body, inputs)
        case _:
            return False


def _gather_option(side: sheet.Expression, inputs: dict[str, sheet.Input]) -> bool:
    if not isinstance(side.kind, sheet.Option):
        return False
    if isinstance(side, sheet.Read):
        inputs[side.input.name] = side.input
        return True
    return isinstance(side, sheet.Constant)


def _holds(guard: sheet.Condition, options: _Options) -> bool:
    """Whether a guard over options holds for a combination."""
    match guard:
        case sheet.Same():
            return _word(guard.left, options) == _word(guard.right, options)
        case sheet.AllOf():
            return all(_holds(part, options) for part in guard.parts)
        case sheet.AnyOf():
            return any(_holds(part, options) for part in guard.parts)
        case sheet.Not():
            return not _holds(guard.of, options)
        case sheet.NamedCondition():
            return _holds(guard.body, options)
        case _:
            raise AssertionError("only guards over options are looked through")


def _word(side: sheet.Expression, options: _Options) -> str:
    if isinstance(side, sheet.Read):
        return options[side.input.name]
    assert isinstance(side, sheet.Constant)
    return str(side.value)


def _combinations(inputs: Mapping[str, sheet.Input]) -> Iterator[_Options]:
    names = list(inputs)
    for words in product(*(_options(inputs[name]) for name in names)):
        yield dict(zip(names, words, strict=True))


def _check_combinations(
    scope: Scope, node: tree.Choice, guards: list[sheet.Condition], inputs: Mapping[str, sheet.Input]
) -> bool:
    taken: set[int] = set()
    missing: list[_Options] = []
    for options in _combinations(inputs):
        holding = [at for at, guard in enumerate(guards) if _holds(guard, options)]
        taken.update(holding)
        if len(holding) > 1:
            _write_overlap(scope, node, holding, options)
            return False
        if not holding:
            missing.append(options)
    if missing and node.otherwise is None:
        named = " and for ".join(_named(options) for options in islice(missing, 3))
        more = ", and for others" if len(missing) > 3 else ""
        scope.notebook.write("601", node.span, case=named + more)
        return False
    _warn_of_idle_cases(scope, node, taken, is_complete=not missing)
    return True


def _named(options: _Options) -> str:
    return " and ".join(f"{name} {word}" for name, word in options.items())


def _write_overlap(scope: Scope, node: tree.Choice, holding: list[int], options: _Options) -> None:
    first, second = node.branches[holding[0]], node.branches[holding[1]]
    scope.notebook.write(
        "602",
        second.guard.span,
        elsewhere=(Elsewhere(first.guard.span, "the other case"),),
        case=_named(options),
        other=scope.typed(first.guard.span),
    )


def _warn_of_idle_cases(scope: Scope, node: tree.Choice, taken: set[int], *, is_complete: bool) -> None:
    for at, branch in enumerate(node.branches):
        if at not in taken:
            scope.notebook.write("605", branch.guard.span, condition=scope.typed(branch.guard.span))
    if node.otherwise is not None and is_complete:
        scope.notebook.write("604", node.otherwise.span)
