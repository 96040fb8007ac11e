"""Names inside expressions: what each stands for, at the stage at which it is asked."""

from __future__ import annotations

from typing import Final

from grammar import sheet, tree
from grammar.checking import clauses, declared_masses, fitting, naming, nodes, resolving, tanks, totals
from grammar.checking.context import Context
from grammar.checking.scope import NamedStatement, Reach, Resolved, Scope
from grammar.checking.vocabulary import FUNCTIONS, OF_A_WEIGHING, TAXI_FUEL, TOTALS, TRIP_FUEL
from grammar.diagnostics.suggestions import nearest

DEEPEST_CHAIN: Final = 40
"""How many named values may lean on one another in a row."""


def names_of_values(scope: Scope) -> set[str]:
    """Every name that may stand for a value."""
    lets = {name for name, one in scope.declared.items() if isinstance(one, tree.Let)}
    return lets | set(scope.inputs) | set(TOTALS)


def reference(scope: Scope, node: tree.Reference, context: Context) -> Resolved | None:
    """What a name stands for."""
    name = node.name.text
    if context.fixed is not None and _hangs_on_load(scope, name):
        what, of = context.fixed, context.owner
        scope.notebook.write("521", node.span, what=what, name=of, on=name)
        return None
    if name in TOTALS:
        scope.stages_asked += 1
        return totals.total(scope, name, context, node.span)
    if name in scope.tanks:
        return _tank(scope, node, context)
    if name in scope.places:
        scope.use(name)
        return declared_masses.carried(scope, name, context, node.span)
    if name in scope.inputs:
        scope.use(name)
        is_weighed = name in OF_A_WEIGHING
        return fitting.weighing(scope, name, node.span) if is_weighed else nodes.read(scope, name, node.span)
    statement = scope.declared.get(name)
    if isinstance(statement, tree.Let):
        scope.use(name)
        return _let(scope, statement, context, node)
    if not scope.is_faulty(name):
        _write_no_value(scope, node, statement)
    return None


def _hangs_on_load(scope: Scope, name: str) -> bool:
    item = scope.inputs.get(name)
    is_carried = item is not None and item.role in (sheet.Role.LOAD, sheet.Role.TANK)
    return name in TOTALS or is_carried or name in (TAXI_FUEL, TRIP_FUEL)


def _tank(scope: Scope, node: tree.Reference, context: Context) -> sheet.Expression | None:
    scope.use(node.name.text)
    scope.stages_asked += 1
    if context.stage is None:
        scope.notebook.write("606", node.span, name=node.name.text)
        return None
    return tanks.fuel_mass(scope, scope.tanks[node.name.text], context, node.span)


def _write_no_value(scope: Scope, node: tree.Reference, statement: NamedStatement | None) -> None:
    name = node.name.text
    if statement is None:
        if name in FUNCTIONS:
            scope.notebook.write(
                "305", node.span, name=name, what="a function", wanted="a value", hint=f"Write {name}(…)."
            )
        else:
            _write_unknown(scope, node)
        return
    what, remedy = naming.SORTS.get(type(statement), ("a name", ""))
    scope.use(name)
    scope.notebook.write("305", node.span, name=name, what=what, wanted="a value", hint=remedy.format(name=name))


def _write_unknown(scope: Scope, node: tree.Reference) -> None:
    """A name that nobody declares; where it is a choice of some input, that is what was meant."""
    name = node.name.text
    owner = next(
        (
            one.name
            for one in scope.inputs.values()
            if isinstance(one.kind, sheet.Option) and name in one.kind.options
        ),
        None,
    )
    suggestion = nearest(name, names_of_values(scope)) or (f"{owner} is {name}" if owner else None)
    scope.notebook.write("302", node.span, suggestion=suggestion, name=name)


# ---- lets


def _let(scope: Scope, statement: tree.Let, context: Context, node: tree.Reference) -> Resolved | None:
    """A named value at the stage of the context: made once for each stage at which it is asked."""
    name = statement.name.text
    called = f"{name} as stated" if context.as_stated else name
    own: tuple[str, sheet.Stage | None, str | None] = (called, context.stage, context.sharing)
    shared: tuple[str, sheet.Stage | None, str | None] = (called, None, None)
    for key in (own, shared):
        if key in scope.instances:
            scope.stages_asked += key != shared
            scope.reach = scope.reach.and_also(scope.reaches[key])
            return scope.instances[key]
    if name in scope.opened:
        _write_circle(scope, name, node)
        return None
    if leans_too_far(scope, node, len(scope.opened) - 1):
        return None
    asked, reach = scope.begin_to_count()
    scope.opened.append(name)
    made = _instance(scope, statement, context)
    scope.opened.pop()
    key = own if scope.stages_asked else shared
    its = scope.reach.deeper(names=1)
    if made is not None and leans_too_far(scope, node, its.names - 1):
        made, its = None, Reach()
    scope.instances[key], scope.reaches[key] = made, its
    scope.stages_asked, scope.reach = asked + scope.stages_asked, reach.and_also(its)
    return made


def leans_too_far(scope: Scope, node: tree.Reference | tree.Call, names: int) -> bool:
    """Whether a name would lean on more others than may stand in a row; it is written down."""
    if names < DEEPEST_CHAIN:
        return False
    scope.notebook.write("911", node.span, most=str(DEEPEST_CHAIN))
    return True


def _write_circle(scope: Scope, name: str, node: tree.Reference) -> None:
    chain = " needs ".join((*scope.opened[scope.opened.index(name) :], name))
    scope.notebook.write("308", node.span, name=name, chain=chain)


def _instance(scope: Scope, statement: tree.Let, context: Context) -> Resolved | None:
    asked = scope.stages_asked
    body = resolving.resolve(scope, statement.value, context)
    if body is None:
        return None
    name = statement.name.text
    label, source = name.replace("_", " "), clauses.source(scope, statement.clauses)
    stage = context.stage if scope.stages_asked > asked else None
    if isinstance(body, resolving.CONDITIONS):
        return sheet.NamedCondition(
            span=statement.span, slot=scope.slot(), name=name, label=label, stage=stage, body=body, source=source
        )
    return sheet.Named(
        span=statement.span,
        slot=scope.slot(),
        kind=body.kind,
        unit=body.unit,
        name=name,
        label=label,
        stage=stage,
        body=body,
        source=source,
        is_built_in=False,
    )
