"""Shifting, adding and burning off mass, and ballast: published results by formula and by loading.

Where the source gives a formula's result, the sheet says the formula. The same shift is then made as the trade
makes it, by moving the load from one compartment to the other, and must come to the same.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.outside.bench import Answer, check, page
from tests.outside.rows import Row, checks, decimal, published

INCH = Fraction("0.0254")
POUND = Fraction("0.45359237")

SHIFT = page(
    "Shifting a load",
    """
given total "Total weight" in lb from 100 lb to 100000 lb
given balance "Centre of gravity before" in in from -500 in to 500 in
given moved "What is moved" in lb from 0 lb to 5000 lb
given moved_from in in from -500 in to 500 in
given moved_to in in from -500 in to 500 in
let added_moment = moved * (moved_to - moved_from)
let travel = added_moment / total
let balance_after = balance + travel
limit aft "Aft limit"
  balance_after at most 200 in                 source book "shift"
""",
)


def shifted(row: Row, balance: str, travel: tuple[str, str]) -> Answer:
    total, moved = decimal(row.given["W"]), decimal(row.given["w"])
    return check(
        SHIFT,
        total=f"{total} lb",
        balance=f"{balance} in",
        moved=f"{moved} lb",
        moved_from=f"{travel[0]} in",
        moved_to=f"{travel[1]} in",
    )


@checks("B01")
def test_shift_of_a_moment(row: Row) -> None:
    balance = decimal(row.given["M"] / row.given["W"])
    answer = shifted(row, balance, ("30", "150"))
    row.agrees("dM", answer.value("added_moment", "lb.in"))
    row.agrees("dcg_in", answer.value("travel", "in"))
    row.agrees("cg_in", answer.value("balance_after", "in"))


@checks("B03")
def test_shift_of_180_pounds(row: Row) -> None:
    """The travel does not hang on where the centre of gravity was."""
    for balance in ("80", "-3.5"):
        row.agrees("dcg_in", shifted(row, balance, ("110", "142")).value("travel", "in"))


@checks("B05")
def test_shift_of_100_pounds(row: Row) -> None:
    answer = shifted(row, "80", ("55", "145"))
    row.agrees("dcg_in", answer.value("travel", "in"))
    row.agrees("cg_in", answer.value("balance_after", "in"))


TWO_HOLDS = """
load near_hold "Hold moved from" from 0 lb to 5000 lb
  arm {moved_from} in                          source book "shift"
load far_hold "Hold moved to" from 0 lb to 5000 lb
  arm {moved_to} in                            source book "shift"
limit aft "Room for any balance, so that it is worked out"
  at ramp
  cg at most 500 in                            source book "shift"
"""


@pytest.mark.parametrize("id", ["B01", "B05"])
def test_the_same_shift_made_by_loading(id: str) -> None:
    """Derived from the rows: the rest of the aircraft weighs what is left and sits where the total says."""
    row = published()[id]
    total, moved, start = row.given["W"], row.given["w"], row.given["from"]
    moment = row.given["M"] if "M" in row.given else total * row.given["cg"]
    sheet = page("Two holds", TWO_HOLDS.format(moved_from=decimal(start), moved_to=decimal(row.given["to"])))
    rest = {
        "empty_mass": (total - moved) * POUND,
        "empty_arm": (moment - moved * start) / (total - moved) * INCH,
    }
    before = check(sheet, **rest, near_hold=f"{decimal(moved)} lb", far_hold="0 lb")
    after = check(sheet, **rest, near_hold="0 lb", far_hold=f"{decimal(moved)} lb")
    assert before.value("cg", "in", "ramp") == moment / total
    assert after.value("mass", "lb", "ramp") == total
    row.agrees("cg_in", after.value("cg", "in", "ramp"))
    row.agrees("dcg_in", after.value("cg", "in", "ramp") - before.value("cg", "in", "ramp"))


@checks("B02")
def test_weight_to_be_shifted(row: Row) -> None:
    """The published weight brings the balance exactly to the aft limit, which is within; less does not."""
    sheet = page(
        row.topic,
        TWO_HOLDS.format(moved_from="150", moved_to="30").replace("500 in", "80.5 in")
        + """
given balance "Centre of gravity before" in in from 0 in to 200 in
given total "Total weight" in lb from 1000 lb to 10000 lb
let to_be_moved = total * (balance - 80.5 in) / (150 in - 30 in)
  source book "shift"
limit enough "Enough is moved"
  far_hold at least to_be_moved                source book "shift"
""",
    )
    rest = {"empty_mass": 7700 * POUND, "empty_arm": (7800 * Fraction("81.5") - 100 * 150) / 7700 * INCH}
    known = {"balance": f"{decimal(row.given['cg'])} in", "total": f"{decimal(row.given['W'])} lb"}

    def moving(pounds: str, left: str) -> Answer:
        return check(sheet, **rest, **known, near_hold=f"{left} lb", far_hold=f"{pounds} lb")

    answer = moving("65", "35")
    row.agrees("w_lb", answer.value("to_be_moved", "lb"))
    assert answer.verdict() == "within"
    assert answer.over("aft", "in") == 0
    assert moving("64", "36").verdict("aft") == "outside"


@checks("B07")
def test_burn_moves_the_balance(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given flow "Fuel flow" in USgal/h from 1 USgal/h to 30 USgal/h
given duration in h from 0 h to 5 h
fuel tank "Tank" from 0 USgal to 50 USgal
  density 6 lb/USgal arm 68 in                 source book "item"
load cabin "Cabin" from 0 lb to 500 lb
  arm 68 in assumed empty                      source book "item"
let burned = flow * duration
limit enough "Trip fuel covers the flight"
  trip_fuel at least burned                    source book "item"
let burned_weight = fuel at takeoff - fuel at landing
limit weight_burned "Room for any burn, so that it is worked out"
  burned_weight at most 300 lb                 source book "item"
limit aft "Aft limit"
  at landing
  cg at most 80 in                             source book "item"
""",
    )
    total, balance = row.given["W"], row.given["cg"]
    rest = total - 240
    answer = check(
        sheet,
        flow=f"{decimal(row.given['gph'])} USgal/h",
        duration=f"{decimal(row.given['hours'])} h",
        trip_fuel="25.725 USgal",
        tank="40 USgal",
        empty_mass=rest * POUND,
        empty_arm=(total * balance - 240 * row.given["fuel_arm"]) / rest * INCH,
    )
    assert answer.over("enough", "USgal") == 0
    row.agrees("burn_lb", answer.value("burned_weight", "lb"))
    row.agrees("cg_in", answer.value("cg", "in", "landing"))


@checks("B09")
def test_fuel_to_drain(row: Row) -> None:
    """Invented masses, the published excess: draining what is published clears it, less does not."""
    sheet = page(
        row.topic,
        """
fuel tank "Tank" from 0 USgal to 50 USgal
  density 6 lb/USgal                           source book "item"
let too_heavy = mass at ramp - 2950 lb         source book "item"
let drain = too_heavy / (6 lb/USgal)           source book "item"
limit max_mass "Maximum weight"
  at ramp
  mass at most 2950 lb                         source book "item"
limit nothing_to_drain "Nothing to drain"
  drain at most 0 USgal                        source book "item"
""",
    )
    full = check(sheet, empty_mass="2740 lb", tank="50 USgal")
    assert full.over("max_mass", "lb") == row.given["over_lb"]
    row.agrees("gal", full.value("drain", "USgal"))
    assert check(sheet, empty_mass="2740 lb", tank="35 USgal").verdict() == "within"
    assert check(sheet, empty_mass="2740 lb", tank="35.1 USgal").verdict() == "outside"


BALLAST = """
given aircraft "Weight without ballast" in {mass} from 100 {mass} to 9000 {mass}
given balance "Centre of gravity without ballast" in {arm} from 0 {arm} to 500 {arm}
load ballast "Ballast" from 0 {mass} to 500 {mass}
  arm {at} {arm}                               source book "ballast"
let ballast_needed = aircraft * ({wanted} {arm} - balance) / ({at} {arm} - {wanted} {arm})
  source book "ballast"
limit enough "Enough ballast"
  ballast at least ballast_needed              source book "ballast"
limit balanced "Centre of gravity, limit"
  at ramp
  cg at {way} {wanted} {arm}                   source book "ballast"
"""


@checks("B11")
def test_permanent_ballast(row: Row) -> None:
    given = {name: decimal(number) for name, number in row.given.items()}
    sheet = page(
        row.topic, BALLAST.format(mass="lb", arm="in", at=given["arm"], wanted=given["limit"], way="least")
    )

    def with_ballast(pounds: str) -> Answer:
        weight, arm = f"{given['W']} lb", f"{given['cg']} in"
        return check(sheet, aircraft=weight, balance=arm, empty_mass=weight, empty_arm=arm, ballast=pounds)

    answer = with_ballast("7.7 lb")
    row.agrees("ballast_lb", answer.value("ballast_needed", "lb"))
    assert answer.verdict() == "within"
    assert with_ballast("7.6 lb").verdict("balanced") == "outside"


@checks("B16")
def test_load_that_reaches_the_aft_limit(row: Row) -> None:
    """The arm's unit is not stated in the source and does not matter: the ratio is the same in any."""
    given = {name: decimal(number) for name, number in row.given.items()}
    sheet = page(
        row.topic, BALLAST.format(mass="kg", arm="in", at=given["arm"], wanted=given["limit"], way="most")
    )

    def adding(kilograms: str) -> Answer:
        mass, arm = f"{given['m']} kg", f"{given['cg']} in"
        return check(sheet, aircraft=mass, balance=arm, empty_mass=mass, empty_arm=arm, ballast=kilograms)

    row.agrees("add_kg", adding("0 kg").value("ballast_needed", "kg"))
    assert adding("207.14 kg").verdict("balanced") == "within"
    assert adding("207.15 kg").verdict("balanced") == "outside"


@checks("B13")
def test_empty_weight_correction(row: Row) -> None:
    """Potable water comes out of the weighing; the hydraulic fluid is part of the empty weight and stays."""
    sheet = page(
        row.topic,
        """
given weighed_mass in lb from 5000 lb to 7000 lb
given weighed_moment in lb.in from 0 lb.in to 2000000 lb.in
given water "Potable water" in lb from 0 lb to 100 lb
let corrected_arm = (weighed_moment - water * 84 in) / (weighed_mass - water)
  source book "item"
limit aft "Aft limit"
  corrected_arm at most 160 in                 source book "item"
""",
    )
    water, arm = row.given["water"]
    assert arm == 84
    answer = check(
        sheet,
        weighed_mass=f"{decimal(row.given['W'])} lb",
        weighed_moment=f"{decimal(row.given['M'])} lb.in",
        water=f"{decimal(water)} lb",
    )
    row.agrees("cg_in", answer.value("corrected_arm", "in"))


@checks("B15")
def test_arm_from_a_moment(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given weight in lb from 1 lb to 1000 lb
given weight_moment in lb.in from 0 lb.in to 100000 lb.in
let arm_of_it = weight_moment / weight
limit aft "Aft limit"
  arm_of_it at most 200 in                     source book "item"
""",
    )
    answer = check(sheet, weight=f"{decimal(row.given['w'])} lb", weight_moment=f"{decimal(row.given['M'])} lb.in")
    row.agrees("arm_in", answer.value("arm_of_it", "in"))


@checks("B18")
def test_shift_across_the_datum(row: Row) -> None:
    sheet = page(
        row.topic,
        """
load aft_hold "Aft hold" from 0 kg to 5000 kg
  arm 15 m                                     source book "item"
load forward_hold "Forward hold" from 0 kg to 5000 kg
  arm -12 m                                    source book "item"
limit forward "Forward limit"
  at ramp
  cg at least -0.5 m                           source book "item"
""",
    )
    total, moved, balance = row.given["m"], row.given["w"], row.given["cg"]
    rest = {
        "empty_mass": total - moved,
        "empty_arm": (total * balance - moved * row.given["from"]) / (total - moved),
    }
    before = check(sheet, **rest, aft_hold="1500 kg", forward_hold="0 kg")
    after = check(sheet, **rest, aft_hold="0 kg", forward_hold="1500 kg")
    assert before.value("cg", "m", "ramp") == balance
    row.agrees("cg_m", after.value("cg", "m", "ramp"))
    assert after.verdict() == "within"


@checks("B19")
def test_shift_on_the_chord(row: Row) -> None:
    """Moving the published mass aft takes the balance from 25 to exactly 40 per cent of the chord."""
    sheet = page(
        row.topic,
        """
chord from 0 m length 1 m                      source book "item"
load forward_hold "Forward hold" from 0 kg to 500 kg
  arm -0.5 m                                   source book "item"
load aft_hold "Aft hold" from 0 kg to 500 kg
  arm 2.5 m                                    source book "item"
given total "Total mass" in kg from 1000 kg to 5000 kg
let to_be_moved = total * (40 % - 25 %) * 1 m / (2.5 m + 0.5 m)
  source book "item"
limit enough "Enough is moved aft"
  aft_hold at least to_be_moved                source book "item"
limit forward "Forward limit"
  at ramp
  cg_percent_mac at least 40 %MAC              source book "item"
""",
    )
    total = row.given["m"]
    rest = {"empty_mass": total - 110, "empty_arm": (total / 4 + 55) / (total - 110)}
    before = check(sheet, **rest, total=f"{decimal(total)} kg", forward_hold="110 kg", aft_hold="0 kg")
    after = check(sheet, **rest, total=f"{decimal(total)} kg", forward_hold="0 kg", aft_hold="110 kg")
    assert before.value("cg_percent_mac", "%MAC", "ramp") == row.given["from_pct"]
    assert after.value("cg_percent_mac", "%MAC", "ramp") == row.given["to_pct"]
    row.agrees("move_kg", after.value("to_be_moved", "kg"))
    assert before.verdict("forward") == "outside"
    assert after.verdict() == "within"
