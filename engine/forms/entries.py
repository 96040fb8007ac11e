"""The statements of a sheet as lines of its outline: what the manual calls each, and what the sheet says."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from engine.explanation.naming import declared_mass
from engine.explanation.words import clean
from engine.forms.charts import charts
from engine.forms.needs import below
from engine.forms.wording import Entry, Sources, figure, named, paragraph_of, range_of, typed
from grammar.figures import show_with_unit
from grammar.sheet import (
    BurnStep,
    CalendarDate,
    Condition,
    ConditionCase,
    ConditionChoice,
    Constant,
    Ground,
    Input,
    Inside,
    Let,
    Limit,
    Measure,
    Named,
    NamedCondition,
    Option,
    Place,
    Role,
    Sheet,
    Stage,
    Tank,
    TemperaturePoint,
    Weight,
)
from grammar.text import Span
from grammar.units import PURE, known_unit


def entries(sheet: Sheet, sources: Sources) -> Iterator[Entry]:
    """Every statement of the sheet that a manual can be held against, in no order."""
    for item in sheet.inputs:
        if item.span is not None and not item.is_built_in and item.role in (Role.FACT, Role.GIVEN):
            what = named(item.label, item.name)
            yield Entry(paragraph_of(item.source), what, _kind(item) + _fittings(item.span, sources), item.span)
    yield from _chord(sheet)
    for place in sheet.places:
        yield _carried(place, sources, _place_details(place))
    for tank in sheet.tanks:
        yield _carried(tank, sources, _tank_details(tank, sources))
    yield from _burn(sheet)
    yield from _declared_masses(sheet)
    for let in sheet.lets:
        yield Entry(paragraph_of(let.source), let.name, _let(let, sheet, sources), let.span)
    yield from charts(sheet, sources)
    for limit in sheet.limits:
        if limit.ground is Ground.STATED:
            yield _limit(limit, sources)


def _kind(item: Input) -> str:
    match item.kind:
        case Option():
            return " or ".join(item.kind.options)
        case CalendarDate():
            return "a date"
        case Measure() | TemperaturePoint():
            return range_of(item) or (f"in {item.unit.name}" if item.unit and item.unit.name else "a number")


def _fittings(span: Span, sources: Sources) -> str:
    """What the ways of fitting the airframe add to its weighing, as typed; nothing for anything else."""
    found = _CONFIGURATION.match(typed(span, sources))
    return "" if found is None else _ONE_FITTING.sub(r"; \1", found["fittings"])


_CONFIGURATION: Final = re.compile(
    r"configuration \w+ (\"[^\"]*\" )?is one of \w+(, *\w+)* ?(?P<fittings>.*?)( ?(source|note) .*)?$"
)

_ONE_FITTING: Final = re.compile(r"(?:^| )(\w+ (?:adds|weighed)\b)")


# ---- what is worked out beforehand


def _let(let: Let, sheet: Sheet, sources: Sources) -> str:
    """What a name stands for, as typed."""
    for node in below(sheet.limits):
        if isinstance(node, Named | NamedCondition) and (node.name, node.source) == (let.name, let.source):
            return typed(node.body.span, sources)
    return typed(let.span, sources).partition("=")[2].strip()


def _declared_masses(sheet: Sheet) -> Iterator[Entry]:
    """What is added to a mass that is declared and not weighed."""
    for node in below(sheet.limits):
        mass = declared_mass(node) if isinstance(node, Named) else None
        if mass is not None and isinstance(node, Named) and isinstance(mass.added, Constant):
            what = f"{clean(mass.stated.input.label)}, declared and not weighed"
            added = show_with_unit(Fraction(mass.added.value), mass.added.unit or PURE)
            yield Entry(paragraph_of(node.source), what, f"{added} added", node.span)


def _chord(sheet: Sheet) -> Iterator[Entry]:
    chord = sheet.chord
    if chord is not None:
        start, length = (show_with_unit(end, chord.unit) for end in (chord.start, chord.length))
        says = f"from {start}, length {length}"
        yield Entry(paragraph_of(chord.source), "Mean aerodynamic chord", says, chord.span)


def _burn(sheet: Sheet) -> Iterator[Entry]:
    """The order in which the tanks are used."""
    burn = sheet.burn
    if burn is not None and burn.span is not None:
        steps = ", then ".join(_burn_step(step) for step in burn.steps)
        yield Entry(paragraph_of(burn.source), "Order of burning", steps, burn.span)


def _burn_step(step: BurnStep) -> str:
    tanks = " with ".join(clean(tank.input.label) for tank in step.tanks)
    unit = step.tanks[0].input.unit or PURE
    return f"{tanks} down to {show_with_unit(step.down_to, unit)}" if step.down_to else tanks


# ---- places and tanks


def _carried(carried: Place | Tank, sources: Sources, details: Iterator[str]) -> Entry:
    item = carried.input
    assert item.span is not None
    parts = [range_of(item), *_arms(carried, sources), *details]
    if item.assumed is not None:
        parts.append("assumed empty")
    return Entry(paragraph_of(item.source), named(item.label, item.name), ", ".join(parts), item.span)


def _arms(carried: Place | Tank, sources: Sources) -> Iterator[str]:
    for word, arm in (("arm", carried.arm), ("lateral arm", carried.lateral_arm)):
        if arm is not None:
            yield f"{word} {figure(arm, sources)}"


def _place_details(place: Place) -> Iterator[str]:
    unit = place.input.unit or PURE
    if place.step is not None:
        yield f"in steps of {show_with_unit(place.step, unit)}"
    if place.floor_area is not None:
        yield f"floor area {show_with_unit(place.floor_area, known_unit('m2'))}"


def _tank_details(tank: Tank, sources: Sources) -> Iterator[str]:
    if tank.density is not None:
        yield f"density {figure(tank.density, sources)}"


# ---- limits

_STAGES: Final = {
    Stage.RAMP: "at the ramp, ",
    Stage.TAKEOFF: "at take-off, ",
    Stage.LANDING: "at landing, ",
    Stage.ZERO_FUEL: "without fuel, ",
    Stage.THROUGHOUT: "throughout, ",
}


def _point(claim: Condition) -> str:
    """What a choice between envelopes is for, which stands before the choice."""
    match claim:
        case ConditionChoice(cases=(ConditionCase(value=Inside(envelope=envelope)), *_)):
            return f"({envelope.across.name}, {envelope.against.name}) inside "
        case _:
            return ""


def _limit(limit: Limit, sources: Sources) -> Entry:
    stage = _STAGES[limit.stage] if limit.stage is not None else ""
    says = stage + _point(limit.claim) + typed(limit.claim.span, sources)
    if limit.applies_when is not None:
        says += f", when {typed(limit.applies_when.span, sources)}"
    if limit.note is not None:
        says += f" ({clean(limit.note)})"
    what = named(limit.label, limit.name)
    if limit.weight is Weight.CAUTION:
        what = f"caution: {what}"
    return Entry(paragraph_of(limit.source), what, says, limit.span)
