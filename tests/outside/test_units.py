"""Units: every factor of the table against an independent library, published factors, and limits in two units."""

from __future__ import annotations

import warnings
from fractions import Fraction
from itertools import product
from typing import Final

import pint
import pytest

from grammar.units import find_unit, known_unit, unit_names
from tests.outside.bench import check, page
from tests.outside.rows import Row, checks, decimal

OTHER_WORD: Final = {
    "number": "dimensionless",
    "%": "percent",
    "t": "metric_ton",
    "in": "inch",
    "ft": "foot",
    "NM": "nautical_mile",
    "m2": "meter**2",
    "cm2": "centimeter**2",
    "in2": "inch**2",
    "ft2": "foot**2",
    "m3": "meter**3",
    "ft3": "foot**3",
    "L": "liter",
    "USgal": "US_liquid_gallon",
    "USqt": "US_liquid_quart",
    "impgal": "imperial_gallon",
    "min": "minute",
    "h": "hour",
    "kt": "knot",
    "lbf": "pound_force",
    "inHg": "inch_Hg",
    "deg": "degree",
    "K": "delta_degree_Celsius",
    "degC": "degree_Celsius",
    "degF": "degree_Fahrenheit",
}
"""What the library calls a unit, where it does not use the same word."""

BASE: Final = {
    "mass": "kilogram",
    "length": "meter",
    "time": "second",
    "temperature": "kelvin",
    "share": "dimensionless",
    "angle": "degree",
}

NOT_IN_THE_LIBRARY: Final = {"%MAC": "a share of one aircraft's own chord"}
ROUNDED_BY_CONVENTION: Final = {"inHg": Fraction("0.0005") / Fraction("3386.389")}
"""3386.389 Pa is the conventional figure (NIST SP 811, from memory), good to half of its last digit; the library
works from a density of mercury."""
POINTS: Final = ("degC", "degF")


@pytest.fixture(scope="module")
def library() -> pint.UnitRegistry[Fraction]:
    """The library, working in rational numbers."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return pint.UnitRegistry(non_int_type=Fraction)


def factor_there(library: pint.UnitRegistry[Fraction], name: str) -> Fraction:
    """How many of our base units the library says that one of the unit is."""
    unit = known_unit(name)
    base = library.dimensionless
    words = BASE.values()
    for word, exponent in zip(words, unit.dimension.exponents, strict=True):
        if word != "dimensionless" and exponent:
            base = base * library.parse_units(word) ** exponent
    first, *rest = _parts(name)
    amount = 1 * library.parse_units(OTHER_WORD.get(first, first))
    for sign, part in zip(rest[::2], rest[1::2], strict=True):
        other = library.parse_units(OTHER_WORD.get(part, part))
        amount = amount * other if sign == "." else amount / other
    return Fraction(amount.to(base).magnitude)


def _parts(name: str) -> list[str]:
    return name.replace(".", " . ").replace("/", " / ").split()


def test_every_unit_is_in_one_of_the_lists(library: pint.UnitRegistry[Fraction]) -> None:
    """No unit of the table goes unchecked: the library knows the word of each that is not set apart."""
    for name in unit_names():
        if name not in NOT_IN_THE_LIBRARY:
            library.parse_units(OTHER_WORD.get(name, name))
    assert set(NOT_IN_THE_LIBRARY) | set(ROUNDED_BY_CONVENTION) | set(POINTS) <= set(unit_names())


@pytest.mark.parametrize("name", [name for name in unit_names() if name not in (*NOT_IN_THE_LIBRARY, *POINTS)])
def test_factor(library: pint.UnitRegistry[Fraction], name: str) -> None:
    ours, theirs = known_unit(name).factor, factor_there(library, name)
    if name in ROUNDED_BY_CONVENTION:
        assert abs(ours / theirs - 1) <= ROUNDED_BY_CONVENTION[name]
    else:
        assert ours == theirs


@pytest.mark.parametrize("name", POINTS)
def test_temperature(library: pint.UnitRegistry[Fraction], name: str) -> None:
    for text in ("-459.67", "-273.15", "-40", "0", "15", "59", "98.6", "100", "212"):
        amount = Fraction(text)
        theirs = library.Quantity(amount, OTHER_WORD[name]).to("kelvin").magnitude
        ours = known_unit(name).to_base(amount)
        assert ours == theirs
        assert known_unit(name).from_base(ours) == amount


COMPOUND: Final = (
    "kg/L", "lb/USgal", "lb/impgal", "kg/USgal", "g/cm2", "kg/m2", "lb/ft2", "kg/m", "lb/in", "lbf/in2", "N/m2",
    "kg.m", "kg.mm", "lb.in", "lb.ft", "L/h", "USgal/h", "impgal/h", "lb/h", "kg/min", "ft/min", "kg/kW", "N/kg",
    "N.m/kg/K", "K/m", "ft/K", "NM/h", "daN/m2", "kg/m3", "oz/USqt", "t.km",
)  # fmt: skip


@pytest.mark.parametrize("name", COMPOUND)
def test_compound_factor(library: pint.UnitRegistry[Fraction], name: str) -> None:
    assert known_unit(name).factor == factor_there(library, name)


MULTIPLIABLE: Final = [
    name for name in unit_names() if name not in (*NOT_IN_THE_LIBRARY, *POINTS, *ROUNDED_BY_CONVENTION)
]


def test_every_pair_of_units(library: pint.UnitRegistry[Fraction]) -> None:
    """The factor of a pair is what the library's factors of its parts make."""
    theirs = {name: factor_there(library, name) for name in MULTIPLIABLE}
    for one, other in product(MULTIPLIABLE, repeat=2):
        assert known_unit(f"{one}.{other}").factor == theirs[one] * theirs[other]
        assert known_unit(f"{one}/{other}").factor == theirs[one] / theirs[other]


def test_points_on_a_scale_make_no_compound() -> None:
    for name in ("kg/degC", "degC.m", "ft/degF"):
        assert find_unit(name) is None


def test_there_is_no_plain_gallon_and_no_plain_quart() -> None:
    """A gallon says whose it is: an imperial one holds a fifth more."""
    for name in ("gal", "gallon", "gals", "qt", "quart", "pt", "lbs", "kgs"):
        assert find_unit(name) is None


# ---- published factors


CONVERSION = """
given measured in {stated} from 0 {stated} to 100000 {stated}
let same = measured
limit any_amount "Room for any amount, so that it is worked out"
  same at most 100000 {stated}                 source book "factor"
"""


def converted(row: Row, amount: str, stated: str, wanted: str) -> Fraction:
    """An amount, stated in one unit in a request, as the answer gives it in another."""
    sheet = page(row.topic, CONVERSION.format(stated=stated))
    return check(sheet, measured=f"{amount} {stated}").value("same", wanted)


@checks("U01")
def test_pound(row: Row) -> None:
    row.agrees("kg", converted(row, "1", "lb", "kg"))


@checks("U02")
def test_inch_and_foot(row: Row) -> None:
    row.agrees("mm", converted(row, "1", "in", "mm"))
    row.agrees("ft_m", converted(row, "1", "ft", "m"))


@checks("U03")
def test_us_gallon(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given side in in from 0 in to 300 in
let gallon = side * 1 in * 1 in                source book "definition"
limit any_amount "Room for any amount, so that it is worked out"
  gallon at most 10 L                          source book "definition"
""",
    )
    answer = check(sheet, side=f"{decimal(row.given['in3'])} in")
    row.agrees("L", answer.value("gallon", "L"))
    assert answer.value("gallon", "USgal") == 1


@checks("U04")
def test_imperial_gallon(row: Row) -> None:
    row.agrees("L", converted(row, "1", "impgal", "L"))
    row.agrees("US_gal", converted(row, "1", "impgal", "USgal"))


DENSITY = """
fuel tank "Tank" from 0 USgal to 100 USgal
  density {density} lb/USgal                   source book "standard weights"
limit fuel_mass "Room for any fuel, so that it is worked out"
  at ramp
  fuel at most 1000 kg                         source book "standard weights"
"""


def mass_of(row: Row, volume: str) -> Fraction:
    """What a volume weighs at the published density, in kilograms."""
    sheet = page(row.topic, DENSITY.format(density=decimal(row.given["lb_per_gal"])))
    return check(sheet, tank=volume).value("fuel", "kg", "ramp")


@checks("U05", "U06", "U07")
def test_density_in_metric_units(row: Row) -> None:
    row.agrees("kg_per_L", mass_of(row, "1 L"))
    if "kg_per_gal" in row.expect:
        row.agrees("kg_per_gal", mass_of(row, "1 USgal"))


TWO_UNITS = """
limit as_written "Maximum mass, in the unit of the rule"
  at takeoff
  mass at most {written}                       source book "rule"
limit as_rounded "Maximum mass, in the unit of the brackets"
  at takeoff
  mass at most {rounded}                       source book "rule"
let written = {written}                        source book "rule"
limit named "The same by its name"
  at takeoff
  mass at most written                         source book "rule"
"""


def verdicts(row: Row, written: str, rounded: str, mass: str) -> tuple[str, str]:
    answer = check(page(row.topic, TWO_UNITS.format(written=written, rounded=rounded)), empty_mass=mass)
    return answer.verdict("as_written"), answer.verdict("as_rounded")


@checks("U09")
def test_limits_in_pounds_with_kilograms_in_brackets(row: Row) -> None:
    """A mass between the two figures is allowed by one and refused by the other."""
    found = []
    for pounds, kilograms in zip(row.given["lb"], row.given["stated_kg"], strict=True):
        written, rounded = f"{decimal(pounds)} lb", f"{decimal(kilograms)} kg"
        sheet = page(row.topic, TWO_UNITS.format(written=written, rounded=rounded))
        exact = check(sheet, empty_mass="1 kg").value("written", "kg")
        found.append(exact)
        between = f"{decimal(round((exact + kilograms) / 2, 4))} kg"
        wanted = ("outside", "within") if exact < kilograms else ("within", "outside")
        assert verdicts(row, written, rounded, between) == wanted
    row.agrees("kg", found)


@checks("U10")
def test_limits_in_kilograms_with_pounds_in_brackets(row: Row) -> None:
    found = []
    for kilograms, pounds in zip(row.given["kg"], row.given["stated_lb"], strict=True):
        written, rounded = f"{decimal(kilograms)} kg", f"{decimal(pounds)} lb"
        sheet = page(row.topic, TWO_UNITS.format(written=written, rounded=rounded))
        found.append(check(sheet, empty_mass="1 kg").value("written", "lb"))
        assert verdicts(row, written, rounded, f"{decimal(pounds)} lb") == ("outside", "within")
        assert verdicts(row, written, rounded, f"{decimal(kilograms)} kg") == ("within", "within")
    row.agrees("lb", found)


@checks("U11")
def test_moment(row: Row) -> None:
    row.agrees("kgm", converted(row, decimal(row.given["lbin"]), "lb.in", "kg.m"))


@checks("U12")
def test_floor_loading(row: Row) -> None:
    row.agrees("kg_m2", converted(row, decimal(row.given["psf"]), "lb/ft2", "kg/m2"))


@checks("U13")
def test_factors_on_a_take_off_distance(row: Row) -> None:
    """Factors multiply; they are not added."""
    sheet = page(
        row.topic,
        """
given base "Take-off distance, book" in m from 0 m to 2000 m
let corrected = base * 1.2 * 1.1 * 1.1         source book "factors"
limit runway "Take-off distance"
  corrected at most 726 m                      source book "factors"
""",
    )
    answer = check(sheet, base=f"{decimal(row.given['base_m'])} m")
    row.agrees("m", answer.value("corrected", "m"))
    assert answer.verdict() == "within"
    assert check(sheet, base="500.1 m").verdict() == "outside"
