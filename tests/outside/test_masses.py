"""Take-off, landing and zero-fuel masses, payload, and what floors and structures carry: published results."""

from __future__ import annotations

from fractions import Fraction

from tests.outside.bench import Answer, check, page
from tests.outside.rows import Row, checks, decimal


def stated(row: Row, unit: str, **names: str) -> dict[str, str]:
    """Figures of a row with a unit, under the names of a sheet."""
    return {name: f"{decimal(row.given[key])} {unit}" for name, key in names.items()}


@checks("F01")
def test_payload_limited_by_landing(row: Row) -> None:
    """The published payload lands the aircraft exactly at its landing limit; one pound more is too much."""
    sheet = page(
        row.topic,
        """
load payload "Payload" from 0 lb to 50000 lb          source book "payload"
fuel tanks "All tanks" from 0 lb to 60000 lb          source book "payload"
let take_off_limit = min(184200 lb, 142000 lb + trip_fuel)
  source book "payload"
let zero_fuel_limit = min(138000 lb, take_off_limit - fuel at takeoff)
  source book "payload"
let payload_left = zero_fuel_limit - empty_mass
limit payload_limit "Payload that is left"
  payload at most payload_left                        source book "payload"
limit max_zero_fuel "Maximum zero-fuel weight"
  at zero_fuel
  mass at most 138000 lb                              source book "payload"
limit max_take_off "Maximum take-off weight"
  at takeoff
  mass at most 184200 lb                              source book "payload"
limit max_landing "Maximum landing weight"
  at landing
  mass at most 142000 lb                              source book "payload"
""",
    )
    known = stated(row, "lb", empty_mass="bow", tanks="fuel", trip_fuel="burn")

    answer = check(sheet, **known, payload="27500 lb")
    row.agrees("tow_limit", answer.value("take_off_limit", "lb"))
    row.agrees("zfw_limit", answer.value("zero_fuel_limit", "lb"))
    row.agrees("payload", answer.value("payload_left", "lb"))
    assert answer.verdict() == "within"
    assert answer.over("max_landing", "lb") == 0
    heavier = check(sheet, **known, payload="27501 lb")
    assert heavier.verdict("max_landing") == "outside"
    assert heavier.verdict("max_take_off") == heavier.verdict("max_zero_fuel") == "within"


@checks("F02")
def test_zero_fuel_mass_governs(row: Row) -> None:
    sheet = page(
        row.topic,
        """
load traffic_load "Traffic load" from 0 kg to 60000 kg     source book "item"
fuel tanks "All tanks" from 0 kg to 60000 kg               source book "item"
let take_off_mass = min(155000 kg, 125000 kg + trip_fuel, 108500 kg + fuel at takeoff)
  source book "item"
let traffic_left = take_off_mass - fuel at takeoff - empty_mass
limit traffic "Traffic load that is left"
  traffic_load at most traffic_left                        source book "item"
limit max_zero_fuel "Maximum zero-fuel mass"
  at zero_fuel
  mass at most 108500 kg                                   source book "item"
limit max_landing "Maximum landing mass"
  at landing
  mass at most 125000 kg                                   source book "item"
""",
    )
    aboard = row.given["trip"] + row.given["reserve"]
    known = {**stated(row, "kg", empty_mass="dom", trip_fuel="trip"), "tanks": f"{decimal(aboard)} kg"}
    answer = check(sheet, **known, traffic_load="26500 kg")
    row.agrees("tom", answer.value("take_off_mass", "kg"))
    row.agrees("tl", answer.value("traffic_left", "kg"))
    assert answer.verdict() == "within"
    heavier = check(sheet, **known, traffic_load="26501 kg")
    assert heavier.verdict("max_zero_fuel") == "outside"
    assert heavier.verdict("max_landing") == "within"


@checks("F04")
def test_regulated_take_off_mass(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given performance_limit "Performance-limited mass" in kg from 0 kg to 10000 kg
let regulated = min(8450 kg, performance_limit)
  source book "item"
limit take_off "Regulated take-off mass"
  at takeoff
  mass at most regulated                       source book "item"
""",
    )
    assert row.given["mtom"] == 8450
    answer = check(sheet, **stated(row, "kg", performance_limit="plm"), empty_mass="8200 kg")
    row.agrees("rtom", answer.value("regulated", "kg"))
    assert answer.verdict() == "within"


@checks("F07")
def test_landing_mass(row: Row) -> None:
    sheet = page(
        row.topic,
        """
load crew "Crew" from 0 lb to 1000 lb                 source book "item"
load cargo "Cargo" from 0 lb to 1000 lb               source book "item"
load equipment "Optional equipment" from 0 lb to 100 lb
  source book "item"
fuel tank "Tank" from 0 USgal to 80 USgal
  density 6 lb/USgal                                  source book "item"
limit max_landing "Maximum landing mass"
  at landing
  mass at most 2700 lb                                source book "item"
""",
    )
    masses = stated(row, "lb", empty_mass="sem", equipment="opt", crew="crew", cargo="cargo")
    fuel = stated(row, "USgal", tank="block_gal", taxi_fuel="taxi_gal", trip_fuel="trip_gal")
    row.agrees("lm_lb", check(sheet, **masses, **fuel).value("mass", "lb", "landing"))


@checks("F08")
def test_useful_load(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given take_off_mass in kg from 0 kg to 10000 kg
given dry_operating_mass in kg from 0 kg to 10000 kg
let useful_load = take_off_mass - dry_operating_mass
limit useful "The aircraft carries something"
  useful_load at least 0 kg                    source book "item"
""",
    )
    answer = check(sheet, **stated(row, "kg", take_off_mass="tom", dry_operating_mass="dom"))
    row.agrees("useful_kg", answer.value("useful_load", "kg"))


# ---- floors


@checks("G02")
def test_floor_that_bears_a_force(row: Row) -> None:
    """The source takes gravity as 10 N/kg; the published mass presses exactly with what the floor bears."""
    assert (row.given["side_m"], row.given["g"]) == (Fraction("0.5"), 10)
    sheet = page(
        row.topic,
        """
load crate "Crate, half a metre square" from 0 kg to 500 kg
  floor area 0.25 m2                           source book "item"
let crate_most = 4000 N/m2 * 0.5 m * 0.5 m / (10 N/kg)
  source book "item"
limit floor_limit "What the floor bears"
  floor_loading(crate) * 10 N/kg at most 4000 N/m2
  source book "item"
limit crate_limit "The same as a mass"
  crate at most crate_most                     source book "item"
""",
    )
    answer = check(sheet, crate="100 kg")
    row.agrees("max_kg", answer.value("crate_most", "kg"))
    assert answer.verdict() == "within"
    assert answer.over("floor_limit", "N/m2") == 0
    assert check(sheet, crate="100.01 kg").verdict("floor_limit") == "outside"


@checks("G03")
def test_pallet_on_a_floor(row: Row) -> None:
    sheet = page(
        row.topic,
        """
load pallet "Pallet with its load" from 0 kg to 1000 kg
  floor area 0.64 m2                           source book "item"
let pallet_most = 650 kg/m2 * 0.8 m * 0.8 m    source book "item"
limit floor_limit "What the floor bears"
  floor_loading(pallet) at most 650 kg/m2      source book "item"
limit pallet_limit "The same as a mass"
  pallet at most pallet_most                   source book "item"
""",
    )
    answer = check(sheet, pallet="416 kg")
    row.agrees("max_kg", answer.value("pallet_most", "kg"))
    assert answer.verdict() == "within"
    assert check(sheet, pallet="416.001 kg").verdict("floor_limit") == "outside"


@checks("G04")
def test_running_load(row: Row) -> None:
    """636.4 and 690.9 kg/m break the limit; the source prints the second truncated."""
    sheet = page(
        row.topic,
        """
load case "Case" from 0 kg to 1000 kg          source book "item"
given case_length in m from 0.5 m to 5 m
let running_load = case / case_length
limit floor_limit "Running load"
  running_load at most 630 kg/m                source book "item"
""",
    )
    answers = [
        check(sheet, case=f"{decimal(mass)} kg", case_length=f"{decimal(length)} m")
        for mass, length in row.given["cases"]
    ]
    row.agrees("running", [answer.value("running_load", "kg/m") for answer in answers])
    row.agrees("allowed", [answer.verdict("floor_limit") == "within" for answer in answers])


@checks("G06")
def test_pallet_in_pounds_and_feet(row: Row) -> None:
    sheet = page(
        row.topic,
        """
load cargo "Cargo on the pallet" from 0 lb to 5000 lb      source book "item"
load pallet "Pallet" from 0 lb to 100 lb                   source book "item"
load tie_downs "Tie-downs" from 0 lb to 100 lb             source book "item"
let footprint = 36 in * 48 in                              source book "item"
let cargo_most = 169 lb/ft2 * footprint - pallet - tie_downs
  source book "item"
limit floor_limit "What the floor bears"
  (cargo + pallet + tie_downs) / footprint at most 169 lb/ft2
  source book "item"
limit cargo_limit "The same as a mass"
  cargo at most cargo_most                                 source book "item"
""",
    )
    known = stated(row, "lb", pallet="pallet_lb", tie_downs="tiedown_lb")

    def loaded(cargo: str) -> Answer:
        return check(sheet, **known, cargo=cargo)

    row.agrees("max_lb", loaded("1948 lb").value("cargo_most", "lb"))
    assert loaded("1948 lb").verdict() == "within"
    assert loaded("1949 lb").verdict("floor_limit") == "outside"


@checks("G07")
def test_load_in_a_level_turn(row: Row) -> None:
    """The language has no cosine: the load factor stands in a table, as the source prints it at 60 degrees."""
    sheet = page(
        row.topic,
        """
given bank in deg from 0 deg to 75 deg
table load_factor of bank in deg gives number
  source book "load factor chart"
  | bank | factor |
  |    0 |      1 |
  |   60 |      2 |
let carried = load_factor(bank) * mass at ramp
limit structure "What the wings carry in the turn"
  carried at most 11400 lb                     source book "load factor chart"
""",
    )
    answer = check(sheet, bank=f"{decimal(row.given['bank_deg'])} deg", empty_mass="3000 lb")
    row.agrees("load_lb", answer.value("carried", "lb"))
    assert check(sheet, bank="61 deg", empty_mass="3000 lb").verdict() == "undetermined"
