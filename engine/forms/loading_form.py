"""The form of a loading: a JSON Schema (2020-12) from which a booking form can be made and checked."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Final

from engine.explanation.caution import CAUTION
from engine.forms.needs import is_needed, read_inputs
from grammar.figures import Rounding, show
from grammar.sheet import CalendarDate, Input, Measure, Option, Role, Sheet, TemperaturePoint
from grammar.units import MASS, NUMBER, VOLUME, Unit, units_of

JsonValue = str | int | float | bool | None | list["JsonValue"] | Mapping[str, "JsonValue"]
"""A value of a JSON document. Figures of a sheet stand as numbers only where they end as decimals."""

DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"

_DECIMAL: Final = r"[0-9]+(\.[0-9]+)?"

_GROUPS: Final = {
    Role.LOAD: "places",
    Role.TANK: "fuel",
    Role.GIVEN: "the flight",
    Role.FACT: "the airframe",
    Role.WEIGHING: "the weighing",
}


def loading_form(sheet: Sheet, known: frozenset[str] = frozenset()) -> Mapping[str, JsonValue]:
    """The JSON Schema of a loading for the sheet.

    ``known`` are the inputs that the airframe's record states already; they are left out of the form.
    """
    used = read_inputs(sheet)
    asked = [one for one in sheet.inputs if one.name in used and one.name not in known]
    return {
        "$schema": DIALECT,
        "title": f"Loading of {sheet.header.title}",
        "description": CAUTION,
        "sheet": sheet.header.name,
        "revision": sheet.header.revision,
        "type": "object",
        "properties": {one.name: _property(one, sheet) for one in asked},
        "required": [one.name for one in asked if is_needed(one, sheet)],
        "additionalProperties": False,
    }


def _property(item: Input, sheet: Sheet) -> Mapping[str, JsonValue]:
    return {
        "title": item.label,
        "group": _GROUPS[item.role],
        **_values(item),
        **_step(item, sheet),
        **({"default": 0} if item.assumed is not None else {}),
        **_source(item),
    }


def _source(item: Input) -> Mapping[str, JsonValue]:
    if item.source is None:
        return {}
    return {"source": f"{item.source.document.title}, paragraph {item.source.paragraph}"}


def _values(item: Input) -> Mapping[str, JsonValue]:
    """What may be stated: a number in the declared unit or a text with its unit, a choice, or a date."""
    match item.kind:
        case Option():
            return {"type": "string", "enum": list(item.kind.options)}
        case CalendarDate():
            return {"type": "string", "format": "date"}
        case Measure() | TemperaturePoint():
            return _figure(item)


def _figure(item: Input) -> Mapping[str, JsonValue]:
    assert item.unit is not None
    names = accepted_units(item)
    sign = "" if item.role in (Role.LOAD, Role.TANK) else "-?"
    units = "|".join(names)
    is_plain_number = item.kind == Measure(NUMBER)
    pattern = f"^{sign}{_DECIMAL}( ?({units}))?$" if is_plain_number else f"^{sign}{_DECIMAL} ?({units})$"
    return {
        "type": ["number", "string"],
        "unit": item.unit.name,
        **_ends(item, item.unit),
        "pattern": pattern,
    }


def accepted_units(item: Input) -> list[str]:
    """The simple units in which the input may be stated, its own first; fuel by volume or by mass."""
    assert item.unit is not None
    dimensions = (MASS, VOLUME) if item.role is Role.TANK else (item.unit.dimension,)
    names = [name for dimension in dimensions for name in units_of(dimension, item.unit)]
    own = item.unit.name
    return [own, *(name for name in names if name != own)] if own else names


def _ends(item: Input, unit: Unit) -> Mapping[str, JsonValue]:
    ends = {"minimum": item.least, "maximum": item.most}
    return {key: number(unit.from_base(end)) for key, end in ends.items() if end is not None}


def _step(item: Input, sheet: Sheet) -> Mapping[str, JsonValue]:
    step = next((place.step for place in sheet.places if place.input == item), None)
    if step is None or item.unit is None:
        return {}
    return {"multipleOf": number(item.unit.difference_from_base(step))}


def number(value: Fraction) -> int | float:
    """A figure as a JSON number: for forms, which only guide a person; the check itself is exact."""
    shown = show(value, Rounding.NEAREST, 9).text
    return int(shown) if "." not in shown else float(shown)
