"""Figures that are printed and do not recompute: the answer is the recomputed one, and decides otherwise.

Each is a trap: a limit drawn at the printed figure, or a rule read as printed, gives another verdict.
"""

from __future__ import annotations

import json
import re
from fractions import Fraction
from pathlib import Path

import pytest

from tests.outside.bench import check, page

TRAPS = {
    each["id"]: each
    for each in json.loads(Path(__file__).with_name("published_errors.json").read_text(encoding="utf-8"))
}
Trap = dict[str, str]
INCH, POUND = Fraction("0.0254"), Fraction("0.45359237")


def shows(id: str) -> pytest.MarkDecorator:
    """Hand a test its trap, with where it is printed in the test's own id; the right figure is derived."""
    return pytest.mark.parametrize("trap", [TRAPS[id]], ids=[f"{id}, derived, {TRAPS[id]['where']}"])


def test_each_trap_is_tested_or_says_why_not() -> None:
    tested = set(re.findall(r'^@shows\("(E\d)"\)', Path(__file__).read_text(encoding="utf-8"), re.MULTILINE))
    assert tested == {id for id, trap in TRAPS.items() if trap["tested"]}
    assert all(trap["why_not"] for trap in TRAPS.values() if not trap["tested"])


def recomputed(trap: Trap) -> Fraction:
    """The first figure that was recomputed."""
    match = re.search(r"\d+(\.\d+)?", trap["recomputed"])
    assert match is not None
    return Fraction(match[0])


BALANCE = """
{loads}
limit forward "Forward limit"
  at landing
  cg at least {forward}                        source book "trap"
limit aft "Aft limit"
  at landing
  cg at most {aft}                             source book "trap"
"""


@shows("E1")
def test_quotient(trap: Trap) -> None:
    sheet = page(
        "Quotient",
        """
given total in lb from 1000 lb to 3000 lb
given total_moment in lb.in from 0 lb.in to 100000 lb.in
let balance = total_moment / total
limit aft "Aft limit, between the right figure and the printed one"
  balance at most 18.5 in                      source book "trap"
""",
    )
    answer = check(sheet, total="2100 lb", total_moment="38466 lb.in")
    assert round(answer.value("balance", "in"), 3) == recomputed(trap)
    assert answer.verdict() == "within"


@shows("E3")
def test_burn_ahead_of_the_balance_moves_it_aft(trap: Trap) -> None:
    sheet = page(
        "Burn",
        BALANCE.format(
            loads='fuel tank "Tank" from 0 lb to 300 lb    arm 48 in   source book "trap"',
            forward="93 in",
            aft="95 in",
        )
        + """
limit before "Room for any balance, so that it is worked out"
  at takeoff
  cg at most 100 in                            source book "trap"
""",
    )
    answer = check(
        sheet,
        tank="120 lb",
        trip_fuel="120 lb",
        empty_mass=2330 * POUND,
        empty_arm=Fraction(2450 * 93 - 120 * 48, 2330) * INCH,
    )
    before, after = answer.value("cg", "in", "takeoff"), answer.value("cg", "in", "landing")
    assert before == 93
    assert round(after - before, 3) == recomputed(trap)
    assert answer.verdict("forward") == "within"
    assert answer.verdict("aft") == "outside"


@shows("E4")
def test_travel_ten_times_too_small(trap: Trap) -> None:
    sheet = page(
        "Travel",
        BALANCE.format(
            loads='load near_hold "Hold moved from" from 0 lb to 200 lb    arm 100 in   source book "trap"\n'
            'load far_hold "Hold moved to" from 0 lb to 200 lb       arm 150 in   source book "trap"',
            forward="0 in",
            aft="100.5 in",
        ),
    )
    rest = {"empty_mass": 8500 * POUND, "empty_arm": 100 * INCH}
    before = check(sheet, **rest, near_hold="100 lb", far_hold="0 lb")
    after = check(sheet, **rest, near_hold="0 lb", far_hold="100 lb")
    travel = after.value("cg", "in", "landing") - before.value("cg", "in", "landing")
    assert round(travel, 3) == recomputed(trap)
    assert (before.verdict("aft"), after.verdict("aft")) == ("within", "outside")


@shows("E5")
def test_load_to_the_aft_limit(trap: Trap) -> None:
    """The arm less the limit stands below the line, not the arm less the balance."""
    sheet = page(
        "Load to the aft limit",
        BALANCE.format(
            loads='load hold "Aft hold" from 0 kg to 200 kg    arm 3600 mm   source book "trap"',
            forward="2900 mm",
            aft="3004 mm",
        )
        + """
let most = empty_mass * (3004 mm - empty_arm) / (3600 mm - 3004 mm)
  source book "trap"
limit hold_limit "Most in the hold"
  hold at most most                            source book "trap"
""",
    )
    empty = {"empty_mass": "980 kg", "empty_arm": "2930 mm"}
    answer = check(sheet, **empty, hold="108 kg")
    assert round(answer.value("most", "kg"), 1) == recomputed(trap)
    for hold, verdict in (("108 kg", "within"), ("121.67 kg", "within"), ("121.68 kg", "outside")):
        loaded = check(sheet, **empty, hold=hold)
        assert loaded.verdict("aft") == loaded.verdict("hold_limit") == verdict


@shows("E6")
def test_heading_of_the_heights(trap: Trap) -> None:
    """With heights taken as geopotential, 20,000 ft comes out 0.06 degF colder than what is printed for it."""
    assert (trap["printed"], trap["recomputed"]) == ("geopotential", "geometric")
    sheet = page(
        "Temperature by height",
        """
given height in ft from 0 ft to 36000 ft
let by_geopotential = 15 degC - 0.0065 K/m * height
  source book "constants"
let by_geometric = 15 degC - 0.0065 K/m * (6356766 m * height / (6356766 m + height))
  source book "constants"
limit one_way "Room for any temperature, so that it is worked out"
  by_geopotential at least -100 degC           source book "constants"
limit other_way "Room for any temperature, so that it is worked out"
  by_geometric at least -100 degC              source book "constants"
""",
    )
    printed = {"5000": "41.17", "10000": "23.36", "15000": "5.55", "20000": "-12.26"}
    for height, text in printed.items():
        answer = check(sheet, height=f"{height} ft")
        assert abs(answer.value("by_geometric", "degF") - Fraction(text)) <= Fraction("0.0101")
    as_headed = check(sheet, height="20000 ft").value("by_geopotential", "degF")
    assert abs(as_headed - Fraction("-12.26")) > Fraction("0.05")


@shows("E7")
@pytest.mark.parametrize("pair", TRAPS["E7"]["printed"].split(", "))
def test_limits_in_two_units(trap: Trap, pair: str) -> None:
    """A mass between the two figures is within the one and outside the other."""
    assert pair in trap["printed"]
    one, other = pair.split(" = ")
    sheet = page(
        "Two units",
        f"""
limit in_one_unit "Maximum mass"
  at takeoff
  mass at most {one}                           source book "trap"
limit in_the_other "Maximum mass"
  at takeoff
  mass at most {other}                         source book "trap"
""",
    )
    exact = {"kg": Fraction(1), "lb": POUND}
    figures = [Fraction(text.split()[0]) * exact[text.split()[1]] for text in (one, other)]
    assert figures[0] != figures[1]
    answer = check(sheet, empty_mass=sum(figures, Fraction(0)) / 2)
    verdicts = (answer.verdict("in_one_unit"), answer.verdict("in_the_other"))
    assert verdicts == (("outside", "within") if figures[0] < figures[1] else ("within", "outside"))
    assert answer.verdict() == "outside"


@shows("E8")
def test_running_load_is_not_cut_off(trap: Trap) -> None:
    """A limit at the printed 690 kg/m would clear what is 690.9."""
    sheet = page(
        "Running load",
        """
load case "Case" from 0 kg to 1000 kg          source book "trap"
let running_load = case / (1.1 m)              source book "trap"
limit bearing "Running load"
  running_load at most 690 kg/m                source book "trap"
""",
    )
    light, heavy = check(sheet, case="700 kg"), check(sheet, case="760 kg")
    assert round(light.value("running_load", "kg/m"), 1) == recomputed(trap)
    assert round(heavy.value("running_load", "kg/m"), 1) == Fraction("690.9")
    assert (light.verdict(), heavy.verdict()) == ("within", "outside")
