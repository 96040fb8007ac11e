"""The built-in values: what tanks hold, and the mass, moment and balance of the whole aircraft at a stage.

Each is spelled out in the sheet's own kinds of expression, and made once for each stage (once for each limit
where it moves with the burn).
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Final

from grammar import sheet
from grammar.checking.context import Context
from grammar.checking.scope import Scope
from grammar.checking.vocabulary import STAGE_WORDS, TOTALS
from grammar.text import Span
from grammar.units import CHORD_SHARE, LENGTH, MASS, MOMENT, NUMBER, PURE, VOLUME, Unit, known_unit

_HUNDRED_PERCENT: Final = Fraction(100)


def read(scope: Scope, name: str, span: Span) -> sheet.Read:
    """The value of an input; one expression for each input of the sheet."""
    key = (name, None, None)
    found = scope.instances.get(key)
    if isinstance(found, sheet.Read):
        return found
    item = scope.inputs[name]
    made = sheet.Read(span=item.span or span, slot=scope.slot(), kind=item.kind, unit=item.unit, input=item)
    scope.instances[key] = made
    return made


def constant(scope: Scope, value: Fraction, unit: Unit, span: Span) -> sheet.Constant:
    """A figure of the language itself."""
    return sheet.Constant(span=span, slot=scope.slot(), kind=sheet.Measure(unit.dimension), unit=unit, value=value)


def amount_in_tank(scope: Scope, tank: sheet.Tank, context: Context, span: Span) -> sheet.Expression:
    """What a tank holds at a stage, in the dimension in which it is declared."""
    unit = tank.input.unit or PURE
    if context.stage in (None, sheet.Stage.RAMP):
        return read(scope, tank.input.name, span)
    if context.stage is sheet.Stage.ZERO_FUEL:
        return constant(scope, Fraction(0), unit, span)
    key = (f"amount of {tank.input.name}", context.stage, context.sharing)
    found = scope.instances.get(key)
    if isinstance(found, sheet.FuelAmount):
        return found
    kind = sheet.Measure(unit.dimension)
    made = sheet.FuelAmount(
        span=span, slot=scope.slot(), kind=kind, unit=unit, tank=tank, stage=context.stage or sheet.Stage.RAMP
    )
    scope.instances[key] = made
    return made


def fuel_mass(scope: Scope, tank: sheet.Tank, context: Context, span: Span) -> sheet.Expression:
    """The mass of the fuel in a tank at a stage."""

    def body() -> sheet.Expression:
        amount = amount_in_tank(scope, tank, context, span)
        if tank.density is None or tank.input.kind == sheet.Measure(MASS):
            return amount
        return _product(scope, amount, tank.density, scope.units.mass, span)

    return _named(scope, tank.input.name, tank.input.label, context, scope.units.mass, body, span)


def volume(scope: Scope, tank: sheet.Tank, context: Context, span: Span) -> sheet.Expression | None:
    """The volume of the fuel in a tank at a stage; None where it is declared by mass without a density."""
    unit = tank.input.unit or PURE
    if unit.dimension == MASS and tank.density is None:
        return None
    shown = unit if unit.dimension == VOLUME else known_unit("L")

    def body() -> sheet.Expression:
        amount = amount_in_tank(scope, tank, context, span)
        if unit.dimension == VOLUME or tank.density is None:
            return amount
        return _quotient(scope, amount, tank.density, shown, span)

    name = f"volume({tank.input.name})"
    return _named(scope, name, f"{tank.input.label}, volume", context, shown, body, span)


def total(scope: Scope, name: str, context: Context, span: Span) -> sheet.Expression | None:
    """A built-in value of the whole aircraft at the stage of the context.

    None where something that it needs is missing, which has been written down.
    """
    stage = context.stage
    if stage is None:
        scope.notebook.write("606", span, name=name)
        return None
    if not _can_be_worked_out(scope, name, span):
        return None
    units = {
        "mass": scope.units.mass,
        "fuel": scope.units.mass,
        "moment": scope.units.moment,
        "lateral_moment": scope.units.moment,
        "cg": scope.units.length,
        "lateral_cg": scope.units.length,
        "cg_percent_mac": known_unit("%MAC"),
    }
    makers: dict[str, Callable[[], sheet.Expression]] = {
        "mass": lambda: _mass(scope, context, span),
        "fuel": lambda: _fuel(scope, context, span),
        "moment": lambda: _moment(scope, context, span, is_lateral=False),
        "lateral_moment": lambda: _moment(scope, context, span, is_lateral=True),
        "cg": lambda: _cg(scope, context, span, "moment"),
        "lateral_cg": lambda: _cg(scope, context, span, "lateral_moment"),
        "cg_percent_mac": lambda: _share_of_chord(scope, context, span),
    }
    return _named(scope, name, TOTALS[name], context, units[name], makers[name], span)


# ---- what each needs


def _can_be_worked_out(scope: Scope, name: str, span: Span) -> bool:
    if name == "cg_percent_mac" and scope.chord is None:
        if not scope.is_faulty("chord"):
            scope.notebook.write("523", span)
        return False
    if name in ("moment", "cg", "cg_percent_mac"):
        return _every_arm_is_there(scope, is_lateral=False)
    if name in ("lateral_moment", "lateral_cg"):
        return _every_arm_is_there(scope, is_lateral=True)
    return True


def _every_arm_is_there(scope: Scope, *, is_lateral: bool) -> bool:
    complete = True
    carried: list[sheet.Place | sheet.Tank] = [*scope.places.values(), *scope.tanks.values()]
    for item in carried:
        arm = item.lateral_arm if is_lateral else item.arm
        if arm is None and item.input.span is not None:
            complete = False
            if not scope.is_faulty(f"arm of {item.input.name}"):
                scope.notebook.write(
                    "519",
                    item.input.span,
                    name=item.input.name,
                    what="the lateral balance" if is_lateral else "the centre of gravity",
                    arm="lateral arm" if is_lateral else "arm",
                )
    return complete


# ---- how each is made


def _named(
    scope: Scope,
    name: str,
    label: str,
    context: Context,
    unit: Unit,
    body: Callable[[], sheet.Expression],
    span: Span,
) -> sheet.Expression:
    stage = context.stage or sheet.Stage.RAMP
    key = (name, stage, context.sharing)
    found = scope.instances.get(key)
    if isinstance(found, sheet.Named):
        return found
    made = sheet.Named(
        span=span,
        kind=sheet.Measure(unit.dimension),
        unit=unit,
        name=name,
        label=f"{label} {STAGE_WORDS[stage]}",
        stage=stage,
        body=body(),
        source=None,
        is_built_in=True,
        slot=scope.slot(),
    )
    scope.instances[key] = made
    return made


def _sum(scope: Scope, terms: list[sheet.Expression], unit: Unit, span: Span) -> sheet.Sum:
    return sheet.Sum(
        span=span,
        slot=scope.slot(),
        kind=sheet.Measure(unit.dimension),
        unit=unit,
        terms=tuple((1, term) for term in terms),
    )


def _product(
    scope: Scope, left: sheet.Expression, right: sheet.Expression, unit: Unit, span: Span
) -> sheet.Product:
    kind = sheet.Measure(unit.dimension)
    return sheet.Product(span=span, slot=scope.slot(), kind=kind, unit=unit, left=left, right=right)


def _quotient(
    scope: Scope, dividend: sheet.Expression, divisor: sheet.Expression, unit: Unit, span: Span
) -> sheet.Quotient:
    kind = sheet.Measure(unit.dimension)
    return sheet.Quotient(span=span, slot=scope.slot(), kind=kind, unit=unit, dividend=dividend, divisor=divisor)


def _mass(scope: Scope, context: Context, span: Span) -> sheet.Expression:
    places = [read(scope, place.input.name, span) for place in scope.places.values()]
    tanks = [fuel_mass(scope, tank, context, span) for tank in scope.tanks.values()]
    return _sum(scope, [read(scope, "empty_mass", span), *places, *tanks], scope.units.mass, span)


def _fuel(scope: Scope, context: Context, span: Span) -> sheet.Expression:
    tanks = [fuel_mass(scope, tank, context, span) for tank in scope.tanks.values()]
    return _sum(scope, tanks, scope.units.mass, span)


def _moment(scope: Scope, context: Context, span: Span, *, is_lateral: bool) -> sheet.Expression:
    unit = scope.units.moment
    empty_arm = "empty_lateral_arm" if is_lateral else "empty_arm"
    terms: list[sheet.Expression] = [
        _product(scope, read(scope, "empty_mass", span), read(scope, empty_arm, span), unit, span)
    ]
    for place in scope.places.values():
        arm = place.lateral_arm if is_lateral else place.arm
        if arm is not None:
            load = read(scope, place.input.name, span)
            terms.append(_product(scope, load, arm, unit, place.input.span or span))
    for tank in scope.tanks.values():
        arm = tank.lateral_arm if is_lateral else tank.arm
        if arm is not None:
            mass = fuel_mass(scope, tank, context, span)
            terms.append(_product(scope, mass, arm, unit, tank.input.span or span))
    assert unit.dimension == MOMENT
    return _sum(scope, terms, unit, span)


def _cg(scope: Scope, context: Context, span: Span, moment: str) -> sheet.Expression:
    dividend = total(scope, moment, context, span)
    divisor = total(scope, "mass", context, span)
    assert dividend is not None and divisor is not None
    return _quotient(scope, dividend, divisor, scope.units.length, span)


def _share_of_chord(scope: Scope, context: Context, span: Span) -> sheet.Expression:
    chord, length_unit = scope.chord, scope.units.length
    cg = total(scope, "cg", context, span)
    assert chord is not None and cg is not None
    start = constant(scope, chord.start, chord.unit, chord.span)
    behind = sheet.Sum(
        span=span,
        slot=scope.slot(),
        kind=sheet.Measure(LENGTH),
        unit=length_unit,
        terms=((1, cg), (-1, start)),
    )
    share = sheet.Quotient(
        span=span,
        slot=scope.slot(),
        kind=sheet.Measure(NUMBER),
        unit=known_unit("%"),
        dividend=behind,
        divisor=constant(scope, chord.length, chord.unit, chord.span),
    )
    percent = known_unit("%MAC")
    assert percent.dimension == CHORD_SHARE
    return _product(scope, share, constant(scope, _HUNDRED_PERCENT, percent, span), percent, span)
