"""The words that the language has built in."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from grammar.sheet import CalendarDate, Input, Kind, Measure, Role, Stage
from grammar.units import LENGTH, MASS, NUMBER, Unit, known_unit

STAGES: Final[Mapping[str, Stage]] = MappingProxyType(
    {stage.value: stage for stage in Stage if stage is not Stage.THROUGHOUT}
)

STAGE_WORDS: Final[Mapping[Stage, str]] = MappingProxyType(
    {
        Stage.RAMP: "at the ramp",
        Stage.TAKEOFF: "at take-off",
        Stage.LANDING: "at landing",
        Stage.ZERO_FUEL: "without fuel",
        Stage.THROUGHOUT: "during the flight",
    }
)
"""How a stage is said in a label."""

TOTALS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "mass": "mass",
        "moment": "moment",
        "cg": "centre of gravity",
        "lateral_moment": "lateral moment",
        "lateral_cg": "lateral centre of gravity",
        "fuel": "fuel",
        "cg_percent_mac": "centre of gravity on the chord",
    }
)
"""What can be worked out for the whole aircraft at a stage, with the words for it."""

FUNCTIONS: Final = (
    "min",
    "max",
    "abs",
    "volume",
    "floor_loading",
    "count",
    "bound",
    "stated",
    "pieces",
    "end_of_month",
)

LEAST_EMPTY_MASS: Final = Fraction(1)
"""An airframe weighs at least a kilogram: so no division by the mass is ever by zero."""


def _built_in(
    name: str,
    label: str,
    role: Role,
    kind: Kind,
    unit: Unit | None,
    least: Fraction | None = None,
    assumed: Fraction | None = None,
) -> Input:
    return Input(name, label, role, kind, unit, least, None, assumed, None, None, None, is_built_in=True)


WEIGHING: Final = tuple(
    _built_in(name, label, Role.WEIGHING, Measure(dimension), known_unit(unit), least)
    for name, label, dimension, unit, least in (
        ("empty_mass", "empty mass", MASS, "kg", LEAST_EMPTY_MASS),
        ("empty_arm", "empty arm", LENGTH, "mm", None),
        ("empty_lateral_arm", "empty lateral arm", LENGTH, "mm", None),
    )
)
WEIGHED: Final = tuple(one.name for one in WEIGHING)
"""The names of what a weighing finds."""

WEIGHED_ON: Final = "weighed_on"
OF_A_WEIGHING: Final = (*WEIGHED, WEIGHED_ON)
"""What a weighing of its own has too."""

DAYS_AND_NUMBERS: Final = (
    _built_in(WEIGHED_ON, "date of the weighing", Role.WEIGHING, CalendarDate(), None),
    _built_in("serial", "serial number", Role.FACT, Measure(NUMBER), known_unit("number"), Fraction(0)),
    _built_in("flight_date", "date of the flight", Role.GIVEN, CalendarDate(), None),
)
TAXI_FUEL: Final = "taxi_fuel"
TRIP_FUEL: Final = "trip_fuel"
BURN_LIMIT: Final = "burn"
"""The name of the built-in limit that no more fuel is burned than is aboard."""

RESERVED: Final = frozenset(
    (
        *TOTALS,
        *FUNCTIONS,
        *STAGES,
        *(one.name for one in (*WEIGHING, *DAYS_AND_NUMBERS)),
        TAXI_FUEL,
        TRIP_FUEL,
        BURN_LIMIT,
        "throughout",
        "verdict",
    )
)
"""Names that a sheet cannot declare."""


def fuel_burned(name: str, unit: Unit) -> Input:
    """The built-in input for taxi or trip fuel, in the unit of the sheet's tanks."""
    label, assumed = ("taxi fuel", Fraction(0)) if name == TAXI_FUEL else ("trip fuel", None)
    return _built_in(name, label, Role.GIVEN, Measure(unit.dimension), unit, Fraction(0), assumed)
