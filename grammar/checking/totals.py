"""The mass, moment and balance of the whole aircraft at a stage.

Each is spelled out in the sheet's own kinds of expression, and made once for each stage (once for each limit
where it moves with the burn).
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Final

from grammar import sheet
from grammar.checking import declared_masses, fitting, nodes, tanks
from grammar.checking.context import Context
from grammar.checking.scope import Scope
from grammar.checking.vocabulary import TOTALS
from grammar.text import Span
from grammar.units import CHORD_SHARE, LENGTH, MOMENT, NUMBER, known_unit

_HUNDRED_PERCENT: Final = Fraction(100)


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
    return nodes.named(scope, name, TOTALS[name], context, units[name], makers[name], span)


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
    if not fitting.has_every_arm(scope, is_lateral=is_lateral):
        complete = False
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


def _mass(scope: Scope, context: Context, span: Span) -> sheet.Expression:
    terms = [fitting.weighing(scope, "empty_mass", span), *fitting.masses(scope, span)]
    terms += [declared_masses.carried(scope, name, context, span) for name in scope.places]
    terms += [tanks.fuel_mass(scope, tank, context, span) for tank in scope.tanks.values()]
    return nodes.sum_of(scope, terms, scope.units.mass, span)


def _fuel(scope: Scope, context: Context, span: Span) -> sheet.Expression:
    masses = [tanks.fuel_mass(scope, tank, context, span) for tank in scope.tanks.values()]
    return nodes.sum_of(scope, masses, scope.units.mass, span)


def _moment(scope: Scope, context: Context, span: Span, *, is_lateral: bool) -> sheet.Expression:
    unit = scope.units.moment
    assert unit.dimension == MOMENT
    empty_mass = fitting.weighing(scope, "empty_mass", span)
    empty_arm = fitting.weighing(scope, "empty_lateral_arm" if is_lateral else "empty_arm", span)
    terms: list[sheet.Expression] = [nodes.product(scope, empty_mass, empty_arm, unit, span)]
    terms += fitting.moments(scope, span, is_lateral=is_lateral)
    for name, place in scope.places.items():
        arm = place.lateral_arm if is_lateral else place.arm
        if arm is not None:
            load = declared_masses.carried(scope, name, context, span)
            terms.append(nodes.product(scope, load, arm, unit, place.input.span or span))
    for tank in scope.tanks.values():
        arm = tank.lateral_arm if is_lateral else tank.arm
        if arm is not None:
            fuel = tanks.fuel_mass(scope, tank, context, span)
            terms.append(nodes.product(scope, fuel, arm, unit, tank.input.span or span))
    return nodes.sum_of(scope, terms, unit, span)


def _cg(scope: Scope, context: Context, span: Span, moment: str) -> sheet.Expression:
    dividend = total(scope, moment, context, span)
    divisor = total(scope, "mass", context, span)
    assert dividend is not None and divisor is not None
    return nodes.quotient(scope, dividend, divisor, scope.units.length, span)


def _share_of_chord(scope: Scope, context: Context, span: Span) -> sheet.Expression:
    chord, length_unit = scope.chord, scope.units.length
    cg = total(scope, "cg", context, span)
    assert chord is not None and cg is not None
    start = nodes.constant(scope, chord.start, chord.unit, chord.span)
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
        divisor=nodes.constant(scope, chord.length, chord.unit, chord.span),
    )
    percent = known_unit("%MAC")
    assert percent.dimension == CHORD_SHARE
    return nodes.product(scope, share, nodes.constant(scope, _HUNDRED_PERCENT, percent, span), percent, span)
