"""What tanks hold at a stage: the amount, its mass and its volume."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from grammar import sheet
from grammar.checking import nodes
from grammar.checking.context import Context
from grammar.checking.scope import Scope
from grammar.text import Span
from grammar.units import MASS, PURE, VOLUME, known_unit


def amount_in_tank(scope: Scope, tank: sheet.Tank, context: Context, span: Span) -> sheet.Expression:
    """What a tank holds at a stage, in the dimension in which it is declared."""
    unit = tank.input.unit or PURE
    if context.stage in (None, sheet.Stage.RAMP):
        return nodes.read(scope, tank.input.name, span)
    if context.stage is sheet.Stage.ZERO_FUEL:
        return nodes.constant(scope, Fraction(0), unit, span)
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
        return nodes.product(scope, amount, tank.density, scope.units.mass, span)

    still = replace(context, as_stated=False)
    return nodes.named(scope, tank.input.name, tank.input.label, still, scope.units.mass, body, span)


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
        return nodes.quotient(scope, amount, tank.density, shown, span)

    name, still = f"volume({tank.input.name})", replace(context, as_stated=False)
    return nodes.named(scope, name, f"{tank.input.label}, volume", still, shown, body, span)
