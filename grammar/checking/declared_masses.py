"""Masses that are declared and not weighed: what is added to them, and how the two are told apart."""

from __future__ import annotations

from typing import Final

from grammar import sheet, tree
from grammar.checking import clauses, figures, naming, nodes
from grammar.checking.context import Context
from grammar.checking.scope import DeclaredMass, Scope
from grammar.diagnostics.problem import Elsewhere
from grammar.text import Span
from grammar.units import MASS, Unit, known_unit

DECLARED: Final = "declared"
MANNERS: Final = (DECLARED, "weighed")
"""How the mass on a place is known. Where nobody says, it counts as declared."""


def manner_name(place: str) -> str:
    """The name of the input that says how the mass on a place is known; no sheet can declare it."""
    return f"manner({place})"


def check_declared(scope: Scope, file: tree.File) -> None:
    """Resolve every statement of what is added to declared masses."""
    for statement in file.statements:
        if isinstance(statement, tree.Declared):
            _declared(scope, statement)


def _declared(scope: Scope, statement: tree.Declared) -> None:
    names = ", ".join(place.text for place in statement.places)
    source = clauses.needed_source(scope, statement.clauses, "what is added to", names, statement.span)
    add = figures.positive(scope, statement.add, MASS, "what is added")
    if add is None:
        return
    printed = figures.value(scope, statement.add)
    unit = scope.units.mass if printed is None else printed[1]
    by_order = statement.by_order or statement.span.file in scope.order_files
    for word in statement.places:
        if _is_place(scope, word):
            figure = nodes.constant(scope, add, unit, statement.add.span)
            scope.declared_masses[word.text] = DeclaredMass(figure, source, statement.span, by_order)


def _is_place(scope: Scope, word: tree.Word) -> bool:
    name = word.text
    if scope.is_faulty(name):
        return False
    if name not in scope.places:
        if name in scope.declared or name in scope.inputs:
            what = naming.sort_of(scope, name)
            hint = "A place is declared with `load`."
            scope.notebook.write("305", word.span, name=name, what=what, wanted="a place", hint=hint)
        else:
            scope.unknown("302", word, scope.places)
        return False
    first = scope.declared_masses.get(name)
    if first is not None:
        where = Elsewhere(first.span, "it is said here first")
        scope.notebook.write("528", word.span, elsewhere=(where,), name=name)
    return first is None


def manner(scope: Scope, place: str, span: Span) -> sheet.Read:
    """How the mass on a place is known: an input that is there as soon as it is asked for."""
    name = manner_name(place)
    if name not in scope.inputs:
        item = scope.inputs[place]
        scope.inputs[name] = sheet.Input(
            name=name,
            label=f"Mass of {item.label[:1].lower()}{item.label[1:]}",
            role=sheet.Role.GIVEN,
            kind=sheet.Option(MANNERS),
            unit=None,
            least=None,
            most=None,
            assumed=DECLARED,
            source=None,
            note=None,
            span=item.span,
            is_built_in=True,
        )
    return nodes.read(scope, name, span)


def stated_mass(scope: Scope, place: str, span: Span) -> sheet.Expression:
    """The mass on a place as it is stated: what is stated itself, or so many pieces or litres of known mass."""
    read, one = nodes.read(scope, place, span), scope.places[place].mass_of_one
    if one is None or read.kind == sheet.Measure(MASS):
        return read
    key = (f"stated mass on {place}", None, None)
    found = scope.instances.get(key)
    if isinstance(found, sheet.Named):
        return found
    item = scope.inputs[place]
    made = sheet.Named(
        span=item.span or span,
        slot=scope.slot(),
        kind=sheet.Measure(MASS),
        unit=scope.units.mass,
        name=place,
        label=item.label,
        stage=None,
        body=nodes.product(scope, read, one, scope.units.mass, span),
        source=item.source,
        is_built_in=True,
    )
    scope.instances[key] = made
    return made


def carried(scope: Scope, place: str, context: Context, span: Span) -> sheet.Expression:
    """The mass that counts on a place: what is stated, and for a declared mass what is added to it.

    Nothing is added to an empty place.
    """
    stated = stated_mass(scope, place, span)
    rule = scope.declared_masses.get(place)
    if rule is None or (context.as_stated and rule.by_order):
        return stated
    key = _key(place)
    found = scope.instances.get(key)
    if isinstance(found, sheet.Named):
        return found
    made = sheet.Named(
        span=rule.span,
        slot=scope.slot(),
        kind=stated.kind,
        unit=stated.unit,
        name=place,
        label=scope.inputs[place].label,
        stage=None,
        body=nodes.sum_of(scope, [stated, _added(scope, place, stated, rule)], _unit(stated), span),
        source=rule.source,
        is_built_in=True,
    )
    scope.instances[key] = made
    return made


def _key(place: str) -> tuple[str, None, None]:
    """Under which the mass that counts on a place is kept."""
    return f"mass that counts on {place}", None, None


def counts_what_orders_add(scope: Scope, node: sheet.Expression | sheet.Condition) -> bool:
    """Whether something that an order adds to a declared mass counts in a value or a condition."""
    added = [scope.instances.get(_key(place)) for place, rule in scope.declared_masses.items() if rule.by_order]
    slots = {one.slot for one in added if one is not None}
    waiting: list[sheet.Expression | sheet.Condition] = [node]
    seen: set[int] = set()
    while waiting:
        one = waiting.pop()
        if one.slot in slots:
            return True
        if one.slot not in seen:
            seen.add(one.slot)
            waiting.extend(sheet.children(one))
    return False


def _unit(stated: sheet.Expression) -> Unit:
    return stated.unit or known_unit("kg")


def _added(scope: Scope, place: str, stated: sheet.Expression, rule: DeclaredMass) -> sheet.Expression:
    span = rule.span
    is_declared = nodes.option(scope, manner(scope, place, span), DECLARED, span)
    occupied = sheet.Occupied(span=span, slot=scope.slot(), place=stated)
    guard = sheet.AllOf(span=span, slot=scope.slot(), parts=(is_declared, occupied))
    nothing = nodes.constant(scope, figures.NOTHING, rule.add.unit or known_unit("kg"), span)
    return nodes.choice(scope, [(guard, rule.add)], nothing, span)
