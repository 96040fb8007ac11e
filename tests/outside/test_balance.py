"""Moment sums, centres of gravity, maximum masses and minimum fuel: published loadings through whole sheets."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from tests.outside.bench import check, page
from tests.outside.rows import Row, checks, decimal


def word(label: str) -> str:
    """The name of a place in a sheet, from its label in a published table."""
    return "".join(letter if letter.isalnum() else "_" for letter in label.lower())


def places(items: list[list[Any]]) -> str:
    """A load statement for each line of a published loading table after the first, the empty aircraft."""
    return "\n".join(
        f'load {word(label)} "{label}" from 0 lb to 1000 lb\n'
        f'  arm {decimal(arm)} in                         source book "loading table"'
        for label, _, arm in items[1:]
    )


def stated(items: list[list[Any]]) -> dict[str, str | Fraction]:
    """What a published loading table states, for a request."""
    _, empty_mass, empty_arm = items[0]
    return {
        "empty_mass": f"{decimal(empty_mass)} lb",
        "empty_arm": empty_arm * Fraction("0.0254"),
        **{word(label): f"{decimal(mass)} lb" for label, mass, _ in items[1:]},
    }


def loading_sheet(row: Row, limits: str) -> str:
    return page(f"{row.id}: {row.topic}", places(row.given["items"]) + "\n" + limits)


@checks("A01")
def test_computational_method(row: Row) -> None:
    sheet = loading_sheet(
        row,
        """
limit max_mass "Maximum weight"
  at ramp
  mass at most 3400 lb                         source book "limits"
limit balance "Centre of gravity range"
  at ramp
  cg between 78 in and 86 in                   source book "limits"
""",
    )
    answer = check(sheet, **stated(row.given["items"]))
    row.agrees("total_lb", answer.value("mass", "lb", "ramp"))
    row.agrees("cg_in", answer.value("cg", "in", "ramp"))
    row.agrees("within", answer.verdict() == "within")


@checks("A02")
def test_forward_extreme(row: Row) -> None:
    sheet = loading_sheet(
        row,
        """
limit max_mass "Maximum weight"
  at ramp
  mass at most 2100 lb                         source book "fig. 10-10"
limit forward "Forward limit"
  at ramp
  cg at least 8.5 in                           source book "fig. 10-10"
""",
    )
    answer = check(sheet, **stated(row.given["items"]))
    row.agrees("total_lb", answer.value("mass", "lb", "ramp"))
    row.agrees("moment_lbin", answer.value("moment", "lb.in", "ramp"))
    row.agrees("cg_in", answer.value("cg", "in", "ramp"))
    row.agrees("within", answer.verdict() == "within")


@checks("A04")
def test_maximum_passengers(row: Row) -> None:
    """The load is exactly the maximum weight, which is within; a pound more is not."""
    sheet = loading_sheet(
        row,
        """
limit max_mass "Maximum weight"
  at ramp
  mass at most 2100 lb                         source book "fig. 10-13"
limit aft "Room for any balance, so that it is worked out"
  at ramp
  cg at most 30 in                             source book "fig. 10-13"
""",
    )
    loaded = stated(row.given["items"])
    answer = check(sheet, **loaded)
    row.agrees("total_lb", answer.value("mass", "lb", "ramp"))
    row.agrees("moment_lbin", answer.value("moment", "lb.in", "ramp"))
    row.agrees("cg_in", answer.value("cg", "in", "ramp"))
    assert answer.verdict("max_mass") == "within"
    assert answer.over("max_mass", "lb") == 0
    heavier = check(sheet, **{**loaded, "baggage": "1 lb"})
    assert heavier.verdict("max_mass") == "outside"
    assert heavier.over("max_mass", "lb") == 1


@checks("A07")
def test_minimum_fuel(row: Row) -> None:
    """Half a pound of fuel for each horsepower; a horsepower is a plain number here."""
    sheet = page(
        row.topic,
        """
fact power "Maximum except take-off power, in horsepower" from 40 to 2000
  source book "ch. 4"
fuel tank "Tank" from 0 lb to 1000 lb
  source book "ch. 4"
let minimum_fuel = power * 0.5 lb              source book "ch. 4"
limit enough_for_weighing "Minimum fuel"
  at ramp
  fuel at least minimum_fuel                   source book "ch. 4"
""",
    )
    power = decimal(row.given["meto_hp_each_engine"])
    answer = check(sheet, power=power, tank="250 lb")
    row.agrees("lb", answer.value("minimum_fuel", "lb"))
    assert answer.verdict("enough_for_weighing") == "within"
    assert check(sheet, power=power, tank="249.9 lb").verdict("enough_for_weighing") == "outside"


@checks("A08")
def test_helicopter(row: Row) -> None:
    sheet = loading_sheet(
        row,
        """
limit total "Room for any moment, so that it is worked out"
  at ramp
  moment at most 500000 lb.in                  source book "item"
limit aft "Room for any balance, so that it is worked out"
  at ramp
  cg at most 110 in                            source book "item"
""",
    )
    answer = check(sheet, **stated(row.given["items"]))
    row.agrees("total_lb", answer.value("mass", "lb", "ramp"))
    row.agrees("moment_lbin", answer.value("moment", "lb.in", "ramp"))
    row.agrees("cg_in", answer.value("cg", "in", "ramp"))


FOUR_SEATS = page(
    "Four seats, knowledge test",
    """
load front "Front seats" from 0 lb to 400 lb          source book "figure"
load rear "Rear seats" from 0 lb to 400 lb            source book "figure"
load baggage "Baggage" from 0 lb to 200 lb            source book "figure"
fuel wings "Wing tanks" from 0 USgal to 44 USgal
  density 6 lb/USgal                                  source book "figure"
let baggage_left = 2950 lb - empty_mass - front - rear - fuel at ramp
  source book "figure"
limit max_mass "Maximum weight"
  at ramp
  mass at most 2950 lb                                source book "figure"
limit room "Baggage that is left"
  baggage at most baggage_left                        source book "figure"
""",
)


@checks("A10")
def test_overweight(row: Row) -> None:
    loaded = {word(label): mass for label, mass in row.given["items"]}
    answer = check(
        FOUR_SEATS,
        empty_mass=f"{decimal(loaded['empty'])} lb",
        front=f"{decimal(loaded['front'])} lb",
        rear=f"{decimal(loaded['rear'])} lb",
        wings="44 USgal",
        baggage=f"{decimal(loaded['baggage'])} lb",
    )
    assert answer.value("wings", "lb", "ramp") == loaded["fuel_44_gal"]
    assert answer.verdict("max_mass") == "outside"
    row.agrees("over_lb", answer.over("max_mass", "lb"))


@checks("A11")
def test_maximum_baggage(row: Row) -> None:
    loaded = {
        "empty_mass": f"{decimal(row.given['empty_lb'])} lb",
        "front": f"{decimal(row.given['front_lb'])} lb",
        "rear": f"{decimal(row.given['rear_lb'])} lb",
        "wings": f"{decimal(row.given['fuel_gal'])} USgal",
    }
    answer = check(FOUR_SEATS, **loaded, baggage="45 lb")
    row.agrees("baggage_max_lb", answer.value("baggage_left", "lb"))
    assert answer.verdict() == "within"
    assert check(FOUR_SEATS, **loaded, baggage="45.01 lb").verdict("max_mass") == "outside"


@checks("A12")
def test_moment_sum(row: Row) -> None:
    sheet = loading_sheet(
        row,
        """
limit max_mass "Maximum weight"
  at ramp
  mass at most 2950 lb                         source book "figure"
limit aft "Aft limit"
  at ramp
  cg at most 84.7 in                           source book "figure"
""",
    )
    items = row.given["items"]
    answer = check(sheet, **{**stated(items), "empty_arm": Fraction(155400, 2015) * Fraction("0.0254")})
    row.agrees("total_lb", answer.value("mass", "lb", "ramp"))
    row.agrees("cg_in", answer.value("cg", "in", "ramp"))


@checks("A14")
def test_loading_graph(row: Row) -> None:
    """The printed line of a loading graph, read as a table, gives the arm of the seats."""
    sheet = page(
        row.topic,
        """
load front "Front seats" from 1 lb to 400 lb   source book "loading graph"
table front_line "Front seats" of front in lb gives lb.in
  source book "loading graph"
  | front | moment |
  |     0 |      0 |
  |   300 |  11100 |
let arm_of_seats = front_line(front) / front
limit seats "Arm of the front seats"
  arm_of_seats at most 40 in                   source book "loading graph"
""",
    )
    assert row.given["index"] == Fraction("11.1")
    for load in ("300 lb", "170 lb", "1 lb"):
        row.agrees("arm_in", check(sheet, front=load).value("arm_of_seats", "in"))


@checks("A15")
def test_loading_table(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given total "Total weight" in lb from 1500 lb to 4000 lb
given moment_index "Total moment / 100" from 1000 to 4000
let balance_arm = moment_index * 100 lb.in / total
  source book "loading table"
limit aft "Aft limit"
  balance_arm at most 85 in                    source book "loading table"
""",
    )
    answer = check(
        sheet, total=f"{decimal(row.given['total_lb'])} lb", moment_index=decimal(row.given["moment_over_100"])
    )
    row.agrees("cg_in", answer.value("balance_arm", "in"))


@checks("A17")
def test_zero_fuel_moment(row: Row) -> None:
    sheet = loading_sheet(
        row,
        """
fuel wings "Wing tanks" from 0 USgal to 74 USgal
  density 6 lb/USgal
  arm 75 in                                    source book "SEP1"
limit zero_fuel_moment "Moment without fuel"
  at zero_fuel
  moment at most 300000 lb.in                  source book "SEP1"
limit zero_fuel_mass "Mass without fuel"
  at zero_fuel
  mass at most 3650 lb                         source book "SEP1"
""",
    )
    for fuel in ("0 USgal", "74 USgal"):
        answer = check(sheet, **stated(row.given["items"]), wings=fuel)
        row.agrees("zf_lb", answer.value("mass", "lb", "zero_fuel"))
        row.agrees("moment_over_100", answer.value("moment", "lb.in", "zero_fuel") / 100)


@checks("A18")
def test_zero_fuel_mass(row: Row) -> None:
    cabin = [name for name in row.given if name != "bem"]
    sheet = page(
        row.topic,
        "\n".join(f'load {name} from 0 lb to 400 lb\n  source book "MEP1"' for name in cabin)
        + """
fuel wings "Wing tanks" from 0 USgal to 123 USgal
  density 6 lb/USgal                           source book "MEP1"
limit zero_fuel_mass "Maximum zero-fuel mass"
  at zero_fuel
  mass at most 4470 lb                         source book "MEP1"
""",
    )
    loaded = {name: f"{decimal(row.given[name])} lb" for name in cabin}
    answer = check(sheet, empty_mass=f"{decimal(row.given['bem'])} lb", wings="100 USgal", **loaded)
    row.agrees("zfm_lb", answer.value("mass", "lb", "zero_fuel"))


@checks("A19")
def test_corners_of_the_limits(row: Row) -> None:
    """The three printed arms; the masses of the corners are ours, since they were not retrieved."""
    sheet = page(
        row.topic,
        """
envelope limits of cg in in against mass in lb
  source book "fig. 2.1"
  |   cg | mass |
  | 74.0 | 1500 |
  | 74.0 | 2500 |
  | 80.4 | 3650 |
  | 87.7 | 3650 |
  | 87.7 | 1500 |
limit balance "Centre of gravity"
  at ramp
  (cg, mass) inside limits                     source book "fig. 2.1"
""",
    )

    def edge(mass: str, side: str) -> Fraction:
        margins = check(sheet, empty_mass=mass, empty_arm="82 in").limit("balance").margins
        return next(one.bound for one in margins if one.side.name == side) / Fraction("0.0254")

    row.agrees("fwd_low_in", edge("2500 lb", "FORWARD"))
    row.agrees("fwd_at_max_in", edge("3650 lb", "FORWARD"))
    row.agrees("aft_in", edge("3000 lb", "AFT"))
    for mass, arm, verdict in (
        ("2500 lb", "74 in", "within"),
        ("2500 lb", "73.99 in", "outside"),
        ("2500 lb", "87.7 in", "within"),
        ("2500 lb", "87.71 in", "outside"),
        ("3650 lb", "80.4 in", "within"),
        ("3650 lb", "80.39 in", "outside"),
    ):
        assert check(sheet, empty_mass=mass, empty_arm=arm).verdict() == verdict
