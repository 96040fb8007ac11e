"""Standard masses, minimum useful loads, occupant masses, fuel reserves and dates: published rules as limits."""

from __future__ import annotations

from fractions import Fraction

from tests.outside.bench import Answer, check, page
from tests.outside.rows import Row, checks, decimal

KILOGRAM_CHOICE = """
load person "One person" from 0 kg to 200 kg   source book "standard masses"
let standard = ({cases})
  source book "standard masses"
limit not_lighter "Taken as no lighter than the standard mass"
  person at least standard                     source book "standard masses"
"""


def standard_mass(row: Row, sheet: str, **category: str) -> Fraction:
    """The standard mass of a category; a person taken at exactly that is within, at less is not."""
    standard = check(sheet, **category, person="200 kg").value("standard", "kg")
    exactly = check(sheet, **category, person=f"{decimal(standard)} kg")
    lighter = check(sheet, **category, person=f"{decimal(standard - 1)} kg")
    assert (exactly.verdict(), lighter.verdict()) == ("within", "outside"), row.id
    return standard


@checks("H01")
def test_passengers_on_twenty_seats_or_more(row: Row) -> None:
    sheet = page(
        row.topic,
        "given passenger is one of male, female, all_adult_30plus, child\n"
        + KILOGRAM_CHOICE.format(
            cases="88 kg when passenger is male, 70 kg when passenger is female,\n"
            "                84 kg when passenger is all_adult_30plus, 35 kg when passenger is child"
        ),
    )
    for passenger in row.expect:
        row.agrees(passenger, standard_mass(row, sheet, passenger=passenger))


@checks("H02")
def test_passengers_on_nineteen_seats_or_fewer(row: Row) -> None:
    """The standard mass hangs on the number of seats, up to which the table is printed."""
    sheet = page(
        row.topic,
        """
fact seats "Passenger seats" from 1 to 19      source book "table 2"
given passenger is one of male, female, child
let male = (104 kg when seats at most 5, 96 kg when seats at most 9, 92 kg otherwise)
  source book "table 2"
let female = (86 kg when seats at most 5, 78 kg when seats at most 9, 74 kg otherwise)
  source book "table 2"
"""
        + KILOGRAM_CHOICE.format(
            cases="male when passenger is male, female when passenger is female,\n"
            "                35 kg when passenger is child"
        ),
    )
    for group in row.expect:
        for seats in group.split("-"):
            masses = [
                standard_mass(row, sheet, seats=seats, passenger=passenger)
                for passenger in ("male", "female", "child")
            ]
            row.agrees(group, masses)
    assert check(sheet, seats="20", passenger="male", person="90 kg").verdict("not_lighter") == "undetermined"


@checks("H03")
def test_standard_baggage(row: Row) -> None:
    sheet = page(
        row.topic,
        "given flight is one of domestic, european, intercontinental, other\n"
        + KILOGRAM_CHOICE.format(
            cases="11 kg when flight is domestic, 15 kg when flight is intercontinental,\n"
            "                13 kg when flight is european or flight is other"
        ),
    )
    for flight in row.expect:
        row.agrees(flight, standard_mass(row, sheet, flight=flight))


@checks("H04")
def test_standard_crew(row: Row) -> None:
    sheet = page(
        row.topic,
        "given crew is one of flight_crew, cabin_crew\n"
        + KILOGRAM_CHOICE.format(cases="85 kg when crew is flight_crew, 75 kg when crew is cabin_crew"),
    )
    for crew in row.expect:
        row.agrees(crew, standard_mass(row, sheet, crew=crew))


@checks("H05")
def test_stated_mass_with_its_additions(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given stated_mass "Mass that the passenger states" in kg from 0 kg to 200 kg
load passenger from 0 kg to 250 kg             source book "stated masses"
let used = stated_mass + 4 kg + 6 kg                source book "stated masses"
limit not_lighter "Taken with clothing and hand baggage"
  passenger at least used                      source book "stated masses"
""",
    )
    stated = f"{decimal(row.given['stated_kg'])} kg"
    answer = check(sheet, stated_mass=stated, passenger="90 kg")
    row.agrees("used_kg", answer.value("used", "kg"))
    assert answer.verdict() == "within"
    assert check(sheet, stated_mass=stated, passenger="89 kg").verdict() == "outside"


@checks("H07")
def test_change_that_calls_for_a_new_mass(row: Row) -> None:
    """The rule says "exceed": a change of exactly the threshold is still allowed."""
    sheet = page(
        row.topic,
        """
given max_landing_mass in kg from 1000 kg to 100000 kg
given change "Change of the mass" in kg from -1000 kg to 1000 kg
given balance_change "Change of the centre of gravity" in %MAC from -20 %MAC to 20 %MAC
let threshold = 0.5 % * max_landing_mass       source book "AMC1"
let balance_threshold = 0.5 %MAC               source book "AMC1"
limit mass_still_good "Mass need not be established again"
  abs(change) at most threshold                source book "AMC1"
limit balance_still_good "Balance need not be established again"
  abs(balance_change) at most balance_threshold
  source book "AMC1"
""",
    )
    landing = f"{decimal(row.given['mlm_kg'])} kg"

    def changed(change: str, balance: str) -> Answer:
        return check(sheet, max_landing_mass=landing, change=change, balance_change=balance)

    answer = changed("-25 kg", "0.5 %MAC")
    row.agrees("threshold_kg", answer.value("threshold", "kg"))
    row.agrees("threshold_pct_mac", answer.value("balance_threshold", "%MAC"))
    assert answer.verdict() == "within"
    assert changed("-25.1 kg", "0 %MAC").verdict("mass_still_good") == "outside"
    assert changed("0 kg", "-0.51 %MAC").verdict("balance_still_good") == "outside"


@checks("H08")
def test_negligible_change(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given change "Change of the empty weight" in lb from 0 lb to 1000 lb
let negligible = (1 lb when empty_mass < 5000 lb, 2 lb when empty_mass at most 50000 lb, 5 lb otherwise)
  source book "par. 10-2"
limit no_new_weighing "Negligible change"
  change at most negligible                    source book "par. 10-2"
""",
    )
    found = []
    for empty in row.given["empty_lb"]:
        empty_mass = f"{decimal(empty)} lb"
        negligible = check(sheet, empty_mass=empty_mass, change="0 lb").value("negligible", "lb")
        found.append(negligible)
        exactly = check(sheet, empty_mass=empty_mass, change=f"{decimal(negligible)} lb")
        assert exactly.verdict() == "within"
    row.agrees("negligible_lb", found)


@checks("H10")
def test_mass_and_balance_records_between_operators(row: Row) -> None:
    """More than four years is too long; on the very day four years later the weighing is still good."""
    sheet = page(
        row.topic,
        """
limit taken_over "No new weighing when another operator takes the aircraft over"
  flight_date at most weighed_on + 4 years     source book "AMC1"
""",
    )
    assert row.given["years_between_operators"] == 4

    def flown(day: str) -> str:
        return check(sheet, weighed_on="2022-03-10", flight_date=day).verdict()

    assert flown("2026-03-10") == "within"
    assert flown("2026-03-11") == "outside"
    years = [year for year in range(2022, 2032) if flown(f"{year}-03-10") == "within"]
    row.agrees("max_years", Fraction(max(years) - 2022))


# ---- what an aircraft must at least be able to carry


USEFUL_LOAD = page(
    "Minimum useful load",
    """
fact seats from 1 to 2                         source book "useful load"
fact horsepower from 0 to 200                  source book "useful load"
let useful_least = 190 lb * seats + 0.5 lb * horsepower
  source book "useful load"
let empty_most = 1320 lb - useful_least        source book "useful load"
limit empty_weight "Light enough when empty"
  empty_mass at most empty_most                source book "useful load"
""",
)


@checks("I01", "I02")
def test_light_sport_useful_load(row: Row) -> None:
    assert row.given["mtow_lb"] == 1320
    known = {"seats": decimal(row.given["seats"]), "horsepower": decimal(row.given["hp"])}
    most = check(USEFUL_LOAD, **known, empty_mass="800 lb").value("empty_most", "lb")
    answer = check(USEFUL_LOAD, **known, empty_mass=f"{decimal(most)} lb")
    row.agrees("useful_min_lb", answer.value("useful_least", "lb"))
    row.agrees("empty_max_lb", most)
    assert answer.verdict() == "within"
    assert check(USEFUL_LOAD, **known, empty_mass=f"{decimal(most + 1)} lb").verdict() == "outside"


@checks("I03")
def test_ultra_light_useful_load(row: Row) -> None:
    """The rule's metric and imperial forms are two rules: 178 kg is 392.4 lb, not 390."""
    sheet = page(
        row.topic,
        """
fact power in kW from 0 kW to 200 kW           source book "note"
fact brake_horsepower from 0 to 200            source book "note"
given useful "Useful load" in lb from 0 lb to 1000 lb
let least_metric = 160 kg + 0.3 kg/kW * power  source book "note"
let least_imperial = 350 lb + 0.5 lb * brake_horsepower
  source book "note"
limit metric "Useful load, metric form"
  useful at least least_metric                 source book "note"
limit imperial "Useful load, imperial form"
  useful at least least_imperial               source book "note"
""",
    )
    known = {"power": f"{decimal(row.given['kW'])} kW", "brake_horsepower": decimal(row.given["bhp"])}
    answer = check(sheet, **known, useful="391 lb")
    row.agrees("Mu_kg", answer.value("least_metric", "kg"))
    row.agrees("Wu_lb", answer.value("least_imperial", "lb"))
    assert (answer.verdict("metric"), answer.verdict("imperial")) == ("outside", "within")


@checks("I05")
def test_occupants_of_normal_and_utility_aeroplanes(row: Row) -> None:
    sheet = page(
        row.topic,
        """
fact category is one of normal, utility        source book "23.25"
fact seats from 1 to 9                         source book "23.25"
given payload in lb from 0 lb to 2000 lb
let occupants = seats * (170 lb when category is normal, 190 lb when category is utility)
  source book "23.25"
limit all_seats "All seats can be filled"
  payload at least occupants                   source book "23.25"
""",
    )
    for name, category in (("normal_lb", "normal"), ("utility_lb", "utility")):
        answer = check(sheet, category=category, seats=decimal(row.given["seats"]), payload="760 lb")
        row.agrees(name, answer.value("occupants", "lb"))
        assert answer.verdict() == "within"


@checks("I06")
def test_occupant_of_a_rotorcraft(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given mass_per_occupant "What the design counts for an occupant" in lb from 0 lb to 400 lb
let standard = 170 lb                          source book "27.25"
limit heavy_enough "Occupants counted heavy enough"
  mass_per_occupant at least standard          source book "27.25"
""",
    )
    answer = check(sheet, mass_per_occupant="170 lb")
    row.agrees("lb", answer.value("standard", "lb"))
    assert answer.verdict() == "within"
    assert check(sheet, mass_per_occupant="169.9 lb").verdict() == "outside"


@checks("I07")
def test_occupants_of_sailplanes(row: Row) -> None:
    """The greater of one per cent of the chord and 10 mm: 10 mm for a chord of 0.8 m, 12 mm for one of 1.2 m."""
    sheet = page(
        row.topic,
        """
fact chord_length in m from 0.2 m to 3 m       source book "22.23"
load pilot "Pilot with parachute" from 0 kg to 150 kg
  source book "22.23"
given extra "Further aft than the loading calls for" in mm from 0 mm to 100 mm
let lightest = 70 kg                           source book "22.23"
let heaviest = 110 kg                          source book "22.23"
let aft_extra = max(1 % * chord_length, 10 mm)
  source book "22.23"
limit cockpit "Occupants for whom the balance holds"
  pilot between lightest and heaviest          source book "22.23"
limit aft "Room behind the aftmost balance"
  extra at least aft_extra                     source book "22.23"
""",
    )

    def flown(pilot: str, chord: str, extra: str) -> Answer:
        return check(sheet, pilot=pilot, chord_length=chord, extra=extra)

    answer = flown("70 kg", "0.8 m", "10 mm")
    row.agrees("min_kg", answer.value("lightest", "kg"))
    row.agrees("max_kg", answer.value("heaviest", "kg"))
    row.reads("aft_extra", "max(1 % chord, 10 mm)")
    assert answer.value("aft_extra", "mm") == 10
    assert flown("70 kg", "1.2 m", "10 mm").value("aft_extra", "mm") == 12
    assert flown("70 kg", "1.2 m", "11.9 mm").verdict("aft") == "outside"
    for pilot in ("70 kg", "110 kg"):
        assert flown(pilot, "0.8 m", "10 mm").verdict("cockpit") == "within"
    for pilot in ("69.9 kg", "110.1 kg"):
        assert flown(pilot, "0.8 m", "10 mm").verdict("cockpit") == "outside"


@checks("I08")
def test_light_sport_mass_limit(row: Row) -> None:
    sheet = page(
        row.topic,
        """
fact surface "Takes off from" is one of land, water
  source book "1.1"
let most = (1320 lb when surface is land, 1430 lb when surface is water)
  source book "1.1"
limit max_mass "Maximum take-off weight"
  at takeoff
  mass at most most                            source book "1.1"
""",
    )
    for name, surface in (("land_lb", "land"), ("water_lb", "water")):
        most = check(sheet, surface=surface, empty_mass="1000 lb").value("most", "lb")
        row.agrees(name, most)
        assert check(sheet, surface=surface, empty_mass=f"{decimal(most)} lb").verdict() == "within"
        assert check(sheet, surface=surface, empty_mass=f"{decimal(most)}.1 lb").verdict() == "outside"


# ---- reserves


@checks("J01")
def test_reserve_by_day_by_night_and_for_rotorcraft(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given flight is one of day, night, rotorcraft
given flow "Fuel flow" in USgal/h from 1 USgal/h to 60 USgal/h
given duration in min from 0 min to 600 min
fuel tank "Tank" from 0 USgal to 50 USgal
  density 6 lb/USgal                           source book "91.151"
let reserve = (30 min when flight is day, 45 min when flight is night, 20 min when flight is rotorcraft)
  source book "91.151"
let fuel_needed = flow * (duration + reserve)
limit enough "Fuel for the flight and the reserve"
  at takeoff
  volume(tank) at least fuel_needed            source book "91.151"
""",
    )
    for name, flight in (("day_gal", "day"), ("night_gal", "night"), ("rotor_gal", "rotorcraft")):
        known = {
            "flight": flight,
            "flow": f"{decimal(row.given['gph'])} USgal/h",
            "duration": f"{decimal(row.given['flight_min'])} min",
        }
        needed = check(sheet, **known, tank="50 USgal").value("fuel_needed", "USgal")
        row.agrees(name, needed)
        assert check(sheet, **known, tank=f"{decimal(needed)} USgal").verdict() == "within"
        assert check(sheet, **known, tank=f"{decimal(needed - 1)} USgal").verdict() == "outside"


@checks("J02")
def test_reserve_at_landing(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given flow "Fuel flow at the best-range speed" in L/h from 1 L/h to 300 L/h
fuel tank "Tank" from 0 L to 200 L
  density 0.72 kg/L                            source book "OP.126"
let reserve = flow * 20 min                    source book "OP.126"
limit left "Reserve left at landing"
  at landing
  volume(tank) at least reserve                source book "OP.126"
""",
    )
    flow = f"{decimal(row.given['l_per_h'])} L/h"
    answer = check(sheet, flow=flow, tank="120 L", trip_fuel="90 L")
    row.agrees("reserve_l", answer.value("reserve", "L"))
    assert answer.verdict() == "within"
    assert check(sheet, flow=flow, tank="120 L", trip_fuel="90.1 L").verdict("left") == "outside"
    assert check(sheet, flow=flow, tank="120 L").verdict("left") == "undetermined"
