"""An amount stated in any unit, put into the manner in which its input is declared."""

from __future__ import annotations

from fractions import Fraction

from grammar.checking.vocabulary import TAXI_FUEL, TRIP_FUEL
from grammar.sheet import Constant, Input, Role, Tank
from grammar.units import MASS, VOLUME, Dimension, Unit


def in_manner_of(item: Input, amount: Fraction, unit: Unit, tanks: tuple[Tank, ...]) -> Fraction | None:
    """An amount in base units of ``unit``, as the input counts it: the same, or for fuel a volume from a mass
    (or a mass from a volume) where the density is one printed figure. None where that cannot be done.
    """
    wanted = item.unit
    if wanted is None or unit.is_point != wanted.is_point:
        return None
    if unit.dimension == wanted.dimension:
        return amount
    density = _density(item, tanks)
    if density is None:
        return None
    return _by_density(amount, unit.dimension, wanted.dimension, density)


def _density(item: Input, tanks: tuple[Tank, ...]) -> Fraction | None:
    """The density to convert by: the tank's own, or for what is burned the one that all tanks share."""
    if item.role is Role.TANK:
        its = [tank.density for tank in tanks if tank.input.name == item.name]
    elif item.name in (TAXI_FUEL, TRIP_FUEL):
        its = [tank.density for tank in tanks]
    else:
        return None
    printed = {one.value for one in its if isinstance(one, Constant)}
    only = next(iter(printed)) if len(printed) == 1 and all(isinstance(one, Constant) for one in its) else None
    return only if isinstance(only, Fraction) else None


def _by_density(amount: Fraction, stated: Dimension, wanted: Dimension, density: Fraction) -> Fraction | None:
    if (stated, wanted) == (MASS, VOLUME):
        return amount / density
    if (stated, wanted) == (VOLUME, MASS):
        return amount * density
    return None
