"""What stands before brackets: the functions of the language, and tables."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from grammar import sheet, tree
from grammar.checking import declared_masses, kinds, limits, look_ups, meetings, naming, nodes, resolving, tanks
from grammar.checking.context import Context
from grammar.checking.kinds import Meeting
from grammar.checking.scope import Scope
from grammar.checking.vocabulary import FUNCTIONS
from grammar.diagnostics.suggestions import nearest
from grammar.units import MASS, NUMBER, VOLUME, known_unit


def call(scope: Scope, node: tree.Call, context: Context) -> sheet.Expression | None:
    """A function of the language or a table, applied."""
    name = node.name.text
    function = _FUNCTIONS.get(name)
    if function is not None:
        return function(scope, node, context)
    if name in scope.choice_tables:
        scope.use(name)
        return look_ups.choose(scope, node, scope.choice_tables[name], context)
    if name in scope.tables:
        scope.use(name)
        return look_ups.look_up(scope, node, scope.tables[name], context)
    if not scope.is_faulty(name):
        known = (*FUNCTIONS, *scope.tables, *scope.choice_tables)
        scope.notebook.write("306", node.name.span, suggestion=nearest(name, known), name=name)
    return None


# ---- functions


def _extreme(scope: Scope, node: tree.Call, context: Context) -> sheet.Expression | None:
    """``min`` and ``max``: values of one kind."""
    if len(node.arguments) < 2:
        look_ups.wrong_number(scope, node, "two values or more")
        return None
    values = [resolving.value(scope, argument, context) for argument in node.arguments]
    known = tuple(value for value in values if value is not None)
    if len(known) < len(values):
        return None
    first = (node.arguments[0].span, known[0])
    for argument, value in zip(node.arguments[1:], known[1:], strict=True):
        if not meetings.fits(scope, Meeting.ORDER, first, (argument.span, value)):
            return None
    maker = sheet.Least if node.name.text == "min" else sheet.Greatest
    return maker(span=node.span, slot=scope.slot(), kind=known[0].kind, unit=known[0].unit, values=known)


def _absolute(scope: Scope, node: tree.Call, context: Context) -> sheet.Expression | None:
    if len(node.arguments) != 1:
        look_ups.wrong_number(scope, node, "one value")
        return None
    of = resolving.value(scope, node.arguments[0], context)
    if of is None:
        return None
    if not isinstance(of.kind, sheet.Measure):
        meetings.fits(scope, Meeting.MULTIPLY, (node.span, of), (node.span, of))
        return None
    return sheet.Absolute(span=node.span, slot=scope.slot(), kind=of.kind, unit=of.unit, of=of)


def _end_of_month(scope: Scope, node: tree.Call, context: Context) -> sheet.Expression | None:
    """The last day of the month in which a date lies."""
    if len(node.arguments) != 1:
        look_ups.wrong_number(scope, node, "one date")
        return None
    date = resolving.value(scope, node.arguments[0], context)
    if date is None:
        return None
    if not isinstance(date.kind, sheet.CalendarDate):
        typed = scope.typed(node.arguments[0].span)
        hint = "A date is such as weighed_on, or weighed_on + 36 months."
        scope.notebook.write(
            "305", node.arguments[0].span, name=typed, what=kinds.words(date.kind), wanted="a date", hint=hint
        )
        return None
    if isinstance(date, sheet.LaterDate) and not date.to_month_end:
        return replace(date, span=node.span, slot=scope.slot(), to_month_end=True)
    return sheet.LaterDate(
        span=node.span,
        slot=scope.slot(),
        kind=date.kind,
        unit=None,
        date=date,
        months=0,
        days=0,
        to_month_end=True,
    )


def _one_name(scope: Scope, node: tree.Call, wanted: str) -> tree.Word | None:
    """The single name that stands in the brackets."""
    if len(node.arguments) == 1 and isinstance(node.arguments[0], tree.Reference):
        return node.arguments[0].name
    look_ups.wrong_number(scope, node, wanted)
    return None


def _wrong_sort(scope: Scope, word: tree.Word, wanted: str, hint: str) -> None:
    """A name in brackets that is declared as something else, or not at all."""
    name = word.text
    if scope.is_faulty(name):
        return
    if name not in scope.declared and name not in scope.inputs:
        scope.unknown("302", word, (*scope.tanks, *scope.places, *scope.declared))
    else:
        scope.use(name)
        what = naming.sort_of(scope, name)
        scope.notebook.write("305", word.span, name=name, what=what, wanted=wanted, hint=hint)


def _volume(scope: Scope, node: tree.Call, context: Context) -> sheet.Expression | None:
    word = _one_name(scope, node, "the name of one tank")
    if word is None:
        return None
    place = scope.places.get(word.text)
    if place is not None and place.input.kind == sheet.Measure(VOLUME):
        scope.use(word.text)
        return nodes.read(scope, word.text, node.span)
    tank = scope.tanks.get(word.text)
    if tank is None:
        _wrong_sort(scope, word, "a tank", "A tank is declared with `fuel`.")
        return None
    scope.use(word.text)
    scope.stages_asked += 1
    if context.stage is None:
        scope.notebook.write("606", node.span, name=f"volume({word.text})")
        return None
    found = tanks.volume(scope, tank, context, node.span)
    if found is None:
        scope.notebook.write("520", node.span, name=word.text)
    return found


def _floor_loading(scope: Scope, node: tree.Call, context: Context) -> sheet.Expression | None:
    """The mass on a place divided by its floor area."""
    word = _one_name(scope, node, "the name of one place")
    place = None if word is None else scope.places.get(word.text)
    if word is None:
        return None
    if place is None or place.floor_area is None:
        hint = "Give the load its `floor area`, such as floor area 0.5 m2."
        _wrong_sort(scope, word, "a place with a floor area", hint)
        return None
    scope.use(word.text)
    scope.use(f"floor area of {word.text}")
    area = nodes.constant(scope, place.floor_area, known_unit("m2"), node.span)
    return sheet.Quotient(
        span=node.span,
        slot=scope.slot(),
        kind=sheet.Measure(MASS / area.kind.dimension if isinstance(area.kind, sheet.Measure) else MASS),
        unit=known_unit("kg/m2"),
        dividend=declared_masses.carried(scope, word.text, context, node.span),
        divisor=area,
    )


def _stated(scope: Scope, node: tree.Call, _context: Context) -> sheet.Expression | None:
    """The mass on a place as it is stated, without what is added to a declared one."""
    word = _one_name(scope, node, "the name of one place")
    if word is None:
        return None
    if word.text not in scope.places:
        _wrong_sort(scope, word, "a place", "A place is declared with `load`.")
        return None
    scope.use(word.text)
    return declared_masses.stated_mass(scope, word.text, node.span)


def _pieces(scope: Scope, node: tree.Call, _context: Context) -> sheet.Expression | None:
    """How many pieces a place carries."""
    word = _one_name(scope, node, "the name of one place")
    if word is None:
        return None
    place = scope.places.get(word.text)
    if place is None or place.input.kind != sheet.Measure(NUMBER):
        _wrong_sort(scope, word, "a place counted in pieces", "Declare it with `from 0 to 4 of 1.2 kg each`.")
        return None
    scope.use(word.text)
    return nodes.read(scope, word.text, node.span)


def _count(scope: Scope, node: tree.Call, context: Context) -> sheet.Expression | None:
    """How many of the places are occupied."""
    occupied: list[sheet.Condition] = []
    for argument in node.arguments:
        place = resolving.value(scope, argument, context)
        if place is None:
            return None
        if not is_carried(scope, place):
            typed = scope.typed(argument.span)
            scope.notebook.write("312", argument.span, subject=typed, state="counted")
            return None
        occupied.append(sheet.Occupied(span=argument.span, slot=scope.slot(), place=place))
    return sheet.Count(
        span=node.span,
        slot=scope.slot(),
        kind=sheet.Measure(NUMBER),
        unit=known_unit("number"),
        conditions=tuple(occupied),
    )


def is_carried(scope: Scope, node: sheet.Expression) -> bool:
    """Whether an expression is the mass on a place or in a tank, and nothing else."""
    if isinstance(node, sheet.Read):
        return node.input.name in scope.places
    return (
        isinstance(node, sheet.Named)
        and node.is_built_in
        and (node.name in scope.tanks or node.name in scope.places)
    )


def _bound(scope: Scope, node: tree.Call, context: Context) -> sheet.Expression | None:
    word = _one_name(scope, node, "the name of one limit")
    if word is None:
        return None
    statement = scope.declared.get(word.text)
    if not isinstance(statement, tree.Limit):
        _wrong_sort(scope, word, "a limit", "The bound of a limit is the figure after `at most` or `at least`.")
        return None
    scope.use(word.text)
    return limits.bound_of(scope, statement, node, context)


_FUNCTIONS: Final[Mapping[str, Callable[[Scope, tree.Call, Context], sheet.Expression | None]]] = MappingProxyType(
    {
        "min": _extreme,
        "max": _extreme,
        "abs": _absolute,
        "volume": _volume,
        "floor_loading": _floor_loading,
        "count": _count,
        "bound": _bound,
        "stated": _stated,
        "pieces": _pieces,
        "end_of_month": _end_of_month,
    }
)
