"""Weighings, tares and the place of a centre of gravity on the chord: published results."""

from __future__ import annotations

from fractions import Fraction

from tests.outside.bench import check, page
from tests.outside.rows import Row, checks, decimal

TWO_KINDS_OF_WHEEL = page(
    "Weighing on three scales",
    """
fact undercarriage is one of nose_wheel, tail_wheel                  source book "ch. 3"
fact mains_arm "Datum to the main wheels" in in from -500 in to 500 in
  source book "ch. 3"
fact wheelbase "Main wheels to the third wheel" in in from 0 in to 500 in
  source book "ch. 3"
given mains "Both main-wheel scales" in lb from 100 lb to 5000 lb
given third "Nose-wheel or tail-wheel scale" in lb from 0 lb to 1000 lb
let third_arm = (mains_arm - wheelbase when undercarriage is nose_wheel,
                 mains_arm + wheelbase when undercarriage is tail_wheel)
  source book "ch. 3"
let weighed_mass = mains + third
let weighed_arm = (mains * mains_arm + third * third_arm) / weighed_mass
limit aft "Room for any balance, so that it is worked out"
  weighed_arm at most 500 in                                         source book "ch. 3"
""",
)


def weighed_arm(row: Row, undercarriage: str, third: Fraction, mains_arm: Fraction) -> Fraction:
    answer = check(
        TWO_KINDS_OF_WHEEL,
        undercarriage=undercarriage,
        mains_arm=f"{decimal(mains_arm)} in",
        wheelbase=f"{decimal(row.given['L'])} in",
        mains=f"{decimal(row.given['W'] - third)} lb",
        third=f"{decimal(third)} lb",
    )
    assert answer.value("weighed_mass", "lb") == row.given["W"]
    return answer.value("weighed_arm", "in")


@checks("C02")
def test_nose_wheel_datum_ahead(row: Row) -> None:
    row.agrees("cg_in", weighed_arm(row, "nose_wheel", row.given["F"], row.given["D"]))


@checks("C03")
def test_nose_wheel_datum_behind(row: Row) -> None:
    row.agrees("cg_in", weighed_arm(row, "nose_wheel", row.given["F"], -row.given["D"]))


@checks("C04")
def test_tail_wheel_datum_ahead(row: Row) -> None:
    row.agrees("cg_in", weighed_arm(row, "tail_wheel", row.given["R"], row.given["D"]))


@checks("C05")
def test_tail_wheel_datum_behind(row: Row) -> None:
    row.agrees("cg_in", weighed_arm(row, "tail_wheel", row.given["R"], -row.given["D"]))


@checks("C06")
def test_feet_inches_and_kilograms(row: Row) -> None:
    assert row.given["wheelbase"] == "7 ft 8 in"
    sheet = page(
        row.topic,
        """
given nose in kg from 0 kg to 2000 kg
given left in kg from 500 kg to 2000 kg
given right in kg from 500 kg to 2000 kg
let weighed_mass = nose + left + right
let behind_the_nose_wheel = (left + right) * (7 ft + 8 in) / weighed_mass
  source book "item"
limit aft "Room for any balance, so that it is worked out"
  behind_the_nose_wheel at most 92 in          source book "item"
""",
    )
    answer = check(
        sheet,
        nose=f"{decimal(row.given['nose_kg'])} kg",
        left=f"{decimal(row.given['left_kg'])} kg",
        right=f"{decimal(row.given['right_kg'])} kg",
    )
    row.agrees("total_kg", answer.value("weighed_mass", "kg"))
    row.agrees("cg_in_aft_of_nose", answer.value("behind_the_nose_wheel", "in"))


@checks("C08")
def test_three_points(row: Row) -> None:
    """The scales as an airframe's weighing (its right wheel) and two loads: the built-in cg does the sum."""
    sheet = page(
        row.topic,
        """
load nose "Nose-wheel scale" from 0 kg to 2000 kg
  arm 55 in                                    source book "item"
load left "Left main-wheel scale" from 0 kg to 2000 kg
  arm 121 in                                   source book "item"
limit aft "Room for any balance, so that it is worked out"
  at ramp
  cg at most 121 in                            source book "item"
""",
    )
    (nose, nose_arm), (left, left_arm), (right, right_arm) = row.given["items"]
    assert (nose_arm, left_arm) == (55, 121)
    answer = check(
        sheet,
        nose=f"{decimal(nose)} kg",
        left=f"{decimal(left)} kg",
        empty_mass=f"{decimal(right)} kg",
        empty_arm=f"{decimal(right_arm)} in",
    )
    row.agrees("cg_in", answer.value("cg", "in", "ramp"))


@checks("C10")
def test_wheel_loads(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given each_nose_wheel in kg from 0 kg to 2000 kg
given each_main_wheel in kg from 1000 kg to 20000 kg
let nose_wheels = 2 * each_nose_wheel
let main_wheels = 4 * each_main_wheel
let ahead_of_the_mains = nose_wheels * 10 m / (nose_wheels + main_wheels)
  source book "item"
limit forward "Room for any balance, so that it is worked out"
  ahead_of_the_mains at most 10 m              source book "item"
""",
    )
    assert (row.given["nose_wheels"], row.given["mains"], row.given["base_m"]) == (2, 4, 10)
    answer = check(
        sheet,
        each_nose_wheel=f"{decimal(row.given['nose_each_kg'])} kg",
        each_main_wheel=f"{decimal(row.given['main_each_kg'])} kg",
    )
    row.agrees("cg_m_ahead_of_mains", answer.value("ahead_of_the_mains", "m"))


@checks("C11")
def test_tare(row: Row) -> None:
    sheet = page(
        row.topic,
        """
given scale "Scale reading" in lb from 0 lb to 5000 lb
given tare "Chocks and jacks" in lb from 0 lb to 100 lb
let net = scale - tare
limit something_weighed "A scale reads more than its tare"
  net at least 0 lb                            source book "weighing"
""",
    )
    net = [
        check(sheet, scale=f"{decimal(scale)} lb", tare=f"{decimal(tare)} lb").value("net", "lb")
        for scale, tare in row.given["scales_tare"]
    ]
    row.agrees("net", net)


@checks("C12")
def test_oil_out_of_a_weighing(row: Row) -> None:
    """Two gallons, and the same as eight quarts."""
    sheet = page(
        row.topic,
        """
given oil in USgal from 0 USgal to 10 USgal
let oil_weight = oil * 7.5 lb/USgal            source book "par. 10-15"
limit oil_aboard "Room for any oil, so that it is worked out"
  oil_weight at most 100 lb                    source book "par. 10-15"
""",
    )
    for stated in (f"{decimal(row.given['oil_US_gal'])} USgal", "8 USqt"):
        row.agrees("oil_lb", check(sheet, oil=stated).value("oil_weight", "lb"))


CHORD = """
chord from {start} in length {length} in       source book "chord"
let trailing_edge = {start} in + {length} in   source book "chord"
limit ahead_of_the_trailing_edge "Balance ahead of the trailing edge"
  at ramp
  cg at most trailing_edge                     source book "chord"
limit share "Room for any balance, so that it is worked out"
  at ramp
  cg_percent_mac between 0 %MAC and 50 %MAC    source book "chord"
"""


def share_of_chord(row: Row, start: Fraction, length: Fraction, balance: Fraction) -> Fraction:
    sheet = page(row.topic, CHORD.format(start=decimal(start), length=decimal(length)))
    answer = check(sheet, empty_mass="1000 kg", empty_arm=f"{decimal(balance)} in")
    assert answer.value("trailing_edge", "in") == start + length
    assert answer.verdict() == "within"
    return answer.value("cg_percent_mac", "%MAC", "ramp")


@checks("D01")
def test_chord_between_its_edges(row: Row) -> None:
    start, end = row.given["lemac"], row.given["temac"]
    row.agrees("pct", share_of_chord(row, start, end - start, row.given["cg"]))
    edges = page(
        row.topic,
        """
given trailing_edge in in from 0 in to 2000 in
given leading_edge in in from 0 in to 2000 in
let chord_length = trailing_edge - leading_edge
limit long_enough "The trailing edge is the one behind"
  chord_length at least 0 in                   source book "chord"
""",
    )
    answer = check(edges, trailing_edge=f"{decimal(end)} in", leading_edge=f"{decimal(start)} in")
    row.agrees("mac_in", answer.value("chord_length", "in"))


@checks("D03", "D06")
def test_share_of_a_chord_given_by_its_edges(row: Row) -> None:
    start, end = row.given["lemac"], row.given["temac"]
    row.agrees("pct", share_of_chord(row, start, end - start, row.given["cg"]))


@checks("D04")
def test_share_of_a_chord_given_by_its_length(row: Row) -> None:
    """Published rounded to 36.3; the exact 36.25 is what is compared with a limit."""
    found = share_of_chord(row, row.given["lemac"], row.given["mac"], row.given["cg"])
    row.agrees("pct", found)
    assert found == Fraction("36.25")


@checks("D07")
def test_definition_of_the_share(row: Row) -> None:
    """Where the chord begins does not matter."""
    for start in (Fraction(0), Fraction(500), Fraction("-12.5")):
        balance = start + row.given["cg_behind_le_in"]
        row.agrees("pct", share_of_chord(row, start, row.given["mac_in"], balance))
