"""What carries mass: places, tanks, the order in which fuel is burned, the chord."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from grammar.sheet.expressions import Expression
from grammar.sheet.kinds import Input, Source
from grammar.text import Span
from grammar.units import Unit


@dataclass(frozen=True, slots=True)
class Place:
    """A place that carries mass. Arms are absent where the sheet has no balance to work out.

    ``mass_of_one`` is what one of the things weighs that its input counts: the mass of a piece, or the density
    of what is stated by volume. It is absent where the input is a mass.
    """

    input: Input
    mass_of_one: Expression | None
    arm: Expression | None
    lateral_arm: Expression | None
    step: Fraction | None
    floor_area: Fraction | None


@dataclass(frozen=True, slots=True)
class Tank:
    """A tank. Its amounts are in the dimension of its input's unit, a volume or a mass, the same for every
    tank of a sheet. ``density`` is absent where the tank is declared by mass and has none."""

    input: Input
    density: Expression | None
    arm: Expression | None
    lateral_arm: Expression | None


@dataclass(frozen=True, slots=True)
class BurnStep:
    """One stretch of the burn: its tanks are drawn from equally, each down to ``down_to`` (base units).

    A tank that is there already drops out and the others go on; the step ends when all have dropped out.
    """

    tanks: tuple[Tank, ...]
    down_to: Fraction


@dataclass(frozen=True, slots=True)
class Burn:
    """The order in which the tanks are used, and the inputs that say how much is: for taxiing (taken as none
    when nobody states it) and for the trip. Amounts are in the dimension of the tanks. ``span`` is None where
    a single tank needs no order."""

    steps: tuple[BurnStep, ...]
    taxi: Input
    trip: Input
    source: Source | None
    span: Span | None = field(compare=False)


@dataclass(frozen=True, slots=True)
class Chord:
    """The mean aerodynamic chord: where it begins (an arm) and how long it is, in metres; ``unit`` is the one
    in which the manual prints it."""

    start: Fraction
    length: Fraction
    unit: Unit
    source: Source | None
    span: Span = field(compare=False)
