"""The form of a loading: a JSON Schema (2020-12) from which a booking form can be made and checked.

What satisfies the schema is understood by a check; what is required settles every limit, as far as tables and
ranges reach. The ends guide whoever fills the form in: only a check tells what lies beyond them, and why.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Final

from engine.explanation.caution import CAUTION
from engine.forms.needs import (
    is_declared_or_weighed,
    is_manner,
    is_needed,
    read_inputs,
    weighed_apart,
)
from grammar.checking.declared_masses import MANNERS
from grammar.figures import Rounding, show
from grammar.sheet import CalendarDate, Constant, Input, Measure, Option, Role, Sheet, Tank, TemperaturePoint
from grammar.units import MASS, VOLUME, Dimension, Unit, units_of

JsonValue = str | int | float | bool | None | list["JsonValue"] | Mapping[str, "JsonValue"]
"""A value of a JSON document. Figures of a sheet stand as numbers only where they end as decimals."""

DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"

_DECIMAL: Final = r"[0-9]{1,20}(\.[0-9]{1,13})?([eE][+-]?[0-9]{1,2})?"
"""A figure as a check reads it; longer ones are slips."""

_DATE: Final = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"

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
    asked = [
        one for one in sheet.inputs if one.name in used and one.name not in known and not is_manner(one, sheet)
    ]
    apart = {name for name, of in weighed_apart(sheet).items() if of.configuration.name not in known}
    needed = [one.name for one in asked if is_needed(one, sheet)]
    in_any_case = [name for name in needed if name not in apart and not _is_plain_weighing(name, apart)]
    return {
        "$schema": DIALECT,
        "title": f"Loading of {sheet.header.title}",
        "description": CAUTION,
        "sheet": sheet.header.name,
        "revision": sheet.header.revision,
        "type": "object",
        "properties": {one.name: _property(one, sheet) for one in asked},
        "required": list[JsonValue](in_any_case),
        **_by_fitting(sheet, apart, frozenset(needed)),
        "additionalProperties": False,
    }


# ---- weighings of their own


def _is_plain_weighing(name: str, apart: set[str]) -> bool:
    """Whether a figure of the weighing has others that stand for it when the airframe is fitted otherwise."""
    return any(one.split(" ", 1)[0] == name for one in apart)


def _by_fitting(sheet: Sheet, apart: set[str], needed: frozenset[str]) -> Mapping[str, JsonValue]:
    """For each way of fitting the weighing that it needs, where it has one of its own."""
    if not apart:
        return {}
    chosen = {name: of for name, of in weighed_apart(sheet).items() if name in apart}
    configuration = next(iter(chosen.values())).configuration
    options = list(dict.fromkeys(of.option for of in chosen.values()))
    cases: list[JsonValue] = [
        _case(configuration.name, {"const": option}, [name for name, of in chosen.items() if of.option == option])
        for option in options
    ]
    plain = sorted({name.split(" ", 1)[0] for name in apart} & needed)
    others: Mapping[str, JsonValue] = {"not": {"enum": list[JsonValue](options)}}
    return {"allOf": [*cases, _case(configuration.name, others, plain)]}


def _case(name: str, value: Mapping[str, JsonValue], needed: list[str]) -> Mapping[str, JsonValue]:
    return {
        "if": {"properties": {name: value}, "required": [name]},
        "then": {"required": list[JsonValue](sorted(needed))},
    }


# ---- one input


def _property(item: Input, sheet: Sheet) -> Mapping[str, JsonValue]:
    return {
        "title": item.label,
        "group": _GROUPS[item.role],
        **_values(item, sheet),
        **_step(item, sheet),
        **({"default": 0} if item.assumed is not None else {}),
        **_source(item),
    }


def _source(item: Input) -> Mapping[str, JsonValue]:
    if item.source is None:
        return {}
    return {"source": f"{item.source.document.title}, paragraph {item.source.paragraph}"}


def _values(item: Input, sheet: Sheet) -> Mapping[str, JsonValue]:
    """What may be stated: a number in the declared unit or a text with its unit, a choice, or a date."""
    match item.kind:
        case Option(is_yes_or_no=True):
            return {"type": ["string", "boolean"], "enum": [*item.kind.options, False, True]}
        case Option():
            return {"type": "string", "enum": list[JsonValue](item.kind.options)}
        case CalendarDate():
            return {"type": "string", "format": "date", "pattern": _DATE}
        case Measure() | TemperaturePoint():
            return _serial(item) if item.is_built_in and item.name == "serial" else _figure(item, sheet)


def _serial(item: Input) -> Mapping[str, JsonValue]:
    return {"type": ["integer", "string"], **_ends(item, _unit(item)), "pattern": "^[0-9]{1,20}$"}


def _figure(item: Input, sheet: Sheet) -> Mapping[str, JsonValue]:
    unit = _unit(item)
    manner = f"( ({'|'.join(MANNERS)}))?" if item.role is Role.LOAD else ""
    return {
        "type": ["number", "string"],
        "unit": unit.name,
        **_ends(item, unit),
        **({"minimum": 0} if _is_never_negative(item, sheet) and item.least is None else {}),
        "pattern": f"^{_sign(item, sheet)}{_DECIMAL}{_unit_word(item, sheet)}{manner}$",
        **({"manners": list[JsonValue](MANNERS)} if is_declared_or_weighed(item, sheet) else {}),
    }


def _unit_word(item: Input, sheet: Sheet) -> str:
    """The pattern of the unit, which only a plain number may do without."""
    word = f" *({'|'.join(re.escape(name) for name in accepted_units(item, sheet))})"
    return f"({word})?" if _unit(item).name in ("", "number") else word


def _sign(item: Input, sheet: Sheet) -> str:
    return r"\+?" if _is_never_negative(item, sheet) else "[+-]?"


def _is_never_negative(item: Input, sheet: Sheet) -> bool:
    is_carried = item.role in (Role.LOAD, Role.TANK) or _is_burned(item, sheet)
    return is_carried or (item.role is Role.WEIGHING and item.kind == Measure(MASS))


def _is_burned(item: Input, sheet: Sheet) -> bool:
    return sheet.burn is not None and item.name in (sheet.burn.taxi.name, sheet.burn.trip.name)


def _unit(item: Input) -> Unit:
    assert item.unit is not None
    return item.unit


def accepted_units(item: Input, sheet: Sheet) -> list[str]:
    """The simple units in which the input may be stated, its own first; fuel by volume or by mass."""
    unit = _unit(item)
    names = [name for dimension in _dimensions(item, sheet) for name in units_of(dimension, unit)]
    return [unit.name, *(name for name in names if name != unit.name)] if unit.name else names


def _dimensions(item: Input, sheet: Sheet) -> tuple[Dimension, ...]:
    """What the input may be stated by: fuel by volume and by mass where one density brings them together."""
    tanks = [tank for tank in sheet.tanks if tank.input.name == item.name or _is_burned(item, sheet)]
    return (MASS, VOLUME) if tanks and _have_one_density(tanks) else (_unit(item).dimension,)


def _have_one_density(tanks: list[Tank]) -> bool:
    if any(tank.density is None for tank in tanks):
        return False
    printed = [tank.density.value if isinstance(tank.density, Constant) else None for tank in tanks]
    return len(tanks) == 1 or (None not in printed and len(set(printed)) == 1)


def _ends(item: Input, unit: Unit) -> Mapping[str, JsonValue]:
    """The ends of what the manual covers; one that does not end as a decimal is rounded inwards."""
    ends = (("minimum", item.least, Rounding.UP), ("maximum", item.most, Rounding.DOWN))
    return {key: number(unit.from_base(end), inwards) for key, end, inwards in ends if end is not None}


def _step(item: Input, sheet: Sheet) -> Mapping[str, JsonValue]:
    """The steps that a load comes in; to say ``multipleOf`` would be to divide decimals as binary fractions."""
    step = next((place.step for place in sheet.places if place.input == item), None)
    if step is None or item.unit is None:
        return {}
    return {"step": number(item.unit.difference_from_base(step))}


def number(value: Fraction, rounding: Rounding = Rounding.NEAREST) -> int | float:
    """A figure as a JSON number: for forms, which only guide a person; the check itself is exact."""
    shown = show(value, rounding, 9).text
    return int(shown) if "." not in shown else float(shown)
