"""Envelopes against an independent geometry library, and two points of geometry that are easy to get wrong.

The library works in binary floating point, so it is asked to agree on membership only away from the boundary,
and on distances within a tolerance. On the boundary the exact answer is known by how the point was made.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from fractions import Fraction
from math import atan2
from typing import Final

import numpy as np
import pytest
from shapely import LineString, Point, Polygon, distance, points

from engine.evaluation.exact import Plan, evaluate_planned, plan_of
from engine.evaluation.loading import Loading
from engine.evaluation.result import LimitResult, Side
from tests.outside.bench import check, page, read
from tests.outside.rows import Row, checks, decimal

Corner = tuple[Fraction, Fraction]

TOLERANCE: Final = 1e-9
"""Of the library's distances, in millimetres or kilograms of some hundreds."""


def envelope_sheet(title: str, corners: Sequence[Corner], across: str = "cg", unit: str = "mm") -> str:
    lines = "\n".join(f"  | {decimal(x)} | {decimal(y)} |" for x, y in corners)
    return page(
        title,
        f"""
envelope printed of {across} in {unit} against mass in kg
  source book "envelope"
  | {across} | mass |
{lines}
limit balance "Centre of gravity"
  at takeoff
  ({across}, mass) inside printed              source book "envelope"
""",
    )


def at_point(plan: Plan, arm_mm: Fraction, mass: Fraction) -> LimitResult:
    """How the balance comes out for an empty aircraft with this arm and mass."""
    stated = {"empty_mass": mass, "empty_arm": arm_mm / 1000}
    return evaluate_planned(plan, Loading(stated)).limits[0]


# ---- the published rows


@checks("V01")
def test_point_on_a_sloping_edge(row: Row) -> None:
    corners = [(arm, mass) for arm, mass in row.given["polygon_arm_m_mass_kg"]]
    arm, mass = row.given["point"]
    sheet = envelope_sheet(row.topic, corners, unit="m")
    answer = check(sheet, empty_mass=f"{decimal(mass)} kg", empty_arm=f"{decimal(arm)} m")
    forward = next(one for one in answer.limit("balance").margins if one.side is Side.FORWARD)
    row.agrees("fwd_limit_m", forward.bound)
    row.agrees("margin_m", forward.room)
    row.agrees("inside", answer.verdict() == "within")
    polygon = Polygon([(float(x), float(y)) for x, y in corners])
    assert polygon.boundary.distance(Point(float(arm), float(mass))) < TOLERANCE
    ahead = check(sheet, empty_mass=f"{decimal(mass)} kg", empty_arm="2.249999 m")
    assert ahead.verdict() == "outside"


@checks("V03")
def test_straight_in_arm_against_straight_in_moment(row: Row) -> None:
    """The same two corners; the edge between them is another line when it was printed over the moment."""
    (low_arm, low), (high_arm, high) = row.given["two_points_arm_mass"]
    mass = row.given["mass"]
    aft = Fraction("2.5")
    by_arm = envelope_sheet("By arm", [(low_arm, low), (high_arm, high), (aft, high), (aft, low)], unit="m")
    by_moment = envelope_sheet(
        "By moment",
        [(low_arm * low, low), (high_arm * high, high), (aft * high, high), (aft * low, low)],
        across="moment",
        unit="kg.m",
    )

    def forward(sheet: str) -> Fraction:
        answer = check(sheet, empty_mass=f"{decimal(mass)} kg", empty_arm="2.4 m")
        return next(one.bound for one in answer.limit("balance").margins if one.side is Side.FORWARD)

    row.agrees("cg_by_arm_m", forward(by_arm))
    row.agrees("cg_by_moment_m", forward(by_moment) / mass)
    shape = Polygon([(float(low_arm * low), float(low)), (float(high_arm * high), float(high)), (9999, 975)])
    assert shape.boundary.distance(Point(float(row.expect["cg_by_moment_m"] * mass), float(mass))) < 0.001
    between = {"empty_mass": f"{decimal(mass)} kg", "empty_arm": "2.253 m"}
    assert check(by_arm, **between).verdict() == "within"
    assert check(by_moment, **between).verdict() == "outside"


# ---- random polygons


def random_polygon(chance: random.Random) -> list[Corner]:
    """A simple polygon, convex or not: corners in the order of their bearing from a point in the middle."""
    middle = (1000, 500)
    corners: dict[float, Corner] = {}
    for _ in range(chance.randint(3, 12)):
        x, y = chance.randint(600, 1400), chance.randint(200, 800)
        if (x, y) != middle:
            corners[atan2(y - middle[1], x - middle[0])] = (Fraction(x), Fraction(y))
    return [corners[bearing] for bearing in sorted(corners)]


def shape_of(corners: Sequence[Corner]) -> Polygon:
    return Polygon([(float(x), float(y)) for x, y in corners])


def usable_polygons(count: int, seed: int) -> list[list[Corner]]:
    """Polygons that the library holds to be valid, with some breadth."""
    chance = random.Random(seed)
    found: list[list[Corner]] = []
    while len(found) < count:
        corners = random_polygon(chance)
        if len(corners) >= 3 and shape_of(corners).is_valid and shape_of(corners).area > 5000:
            found.append(corners)
    return found


POLYGONS: Final = usable_polygons(40, seed=20260503)


@pytest.mark.parametrize("corners", POLYGONS, ids=range(len(POLYGONS)))
def test_membership(corners: list[Corner]) -> None:
    plan, shape = plan_of(read(envelope_sheet("Membership", corners))), shape_of(corners)
    chance = random.Random(len(corners))
    for _ in range(50):
        arm = Fraction(chance.randint(55_000, 145_000), 100)
        mass = Fraction(chance.randint(15_000, 85_000), 100)
        point = Point(float(arm), float(mass))
        if shape.boundary.distance(point) > TOLERANCE:
            assert (at_point(plan, arm, mass).verdict.value == "within") == shape.covers(point), (arm, mass)


@pytest.mark.parametrize("corners", POLYGONS, ids=range(len(POLYGONS)))
def test_the_boundary_belongs_to_the_inside(corners: list[Corner]) -> None:
    """Corners, and points that divide the edges exactly, are within."""
    plan = plan_of(read(envelope_sheet("Boundary", corners)))
    for one, other in zip(corners, corners[1:] + corners[:1], strict=True):
        for share in (Fraction(0), Fraction(1, 3), Fraction(1, 2), Fraction(6, 7)):
            arm, mass = (a + share * (b - a) for a, b in zip(one, other, strict=True))
            assert at_point(plan, arm, mass).verdict.value == "within", (arm, mass)


FAR: Final = 5000.0
"""Beyond every corner, in the units of the axes."""
DIRECTIONS: Final = {Side.FORWARD: (-1, 0), Side.AFT: (1, 0), Side.LIGHTER: (0, -1), Side.HEAVIER: (0, 1)}


def distance_along(shape: Polygon, point: Point, direction: tuple[int, int]) -> float:
    """How far the library says one can go from a point inside before meeting the boundary."""
    end = (point.x + FAR * direction[0], point.y + FAR * direction[1])
    return float(shape.boundary.intersection(LineString([point, end])).distance(point))


@pytest.mark.parametrize("corners", POLYGONS[:25], ids=range(25))
def test_room_along_each_axis(corners: list[Corner]) -> None:
    plan, shape = plan_of(read(envelope_sheet("Room", corners))), shape_of(corners)
    chance = random.Random(len(corners) + 1)
    measured = 0
    while measured < 10:
        arm = Fraction(chance.randint(60_000, 140_000), 100)
        mass = Fraction(chance.randint(20_000, 80_000), 100)
        point = Point(float(arm), float(mass))
        if not shape.contains(point) or shape.boundary.distance(point) < 0.01:
            continue
        measured += 1
        margins = {one.side: one.room for one in at_point(plan, arm, mass).margins}
        assert set(margins) == set(DIRECTIONS)
        for side, direction in DIRECTIONS.items():
            in_print = margins[side] * (1000 if direction[0] else 1)
            assert float(in_print) == pytest.approx(distance_along(shape, point, direction), abs=1e-7)


# ---- the burn past a corner


NOTCHED: Final = [
    (Fraction(x), Fraction(y))
    for x, y in ((1000, 400), (1000, 480), (1040, 500), (1000, 520), (1000, 600), (1300, 600), (1300, 400))
]
"""A forward edge with a notch cut into it, about 500 kg. Invented."""


BURN_LOADS: Final = """
load cabin "Cabin" from 0 kg to 300 kg         arm 1040 mm   source book "loads"
fuel tank "Tank" from 0 kg to 200 kg           arm 1000 mm   source book "loads"
"""
FORWARD_TANK: Final = """
fuel tank "Tank" from 0 kg to 200 kg           arm 700 mm    source book "loads"
"""


def burn_sheet(envelope: str, loads: str, when: str) -> str:
    """A sheet of an envelope and loads whose balance is looked at throughout, or at a stage."""
    return envelope.replace("  at takeoff\n", f"  {when}\n") + loads


NOTCHED_BURN: Final = {
    "empty_mass": "300 kg",
    "empty_arm": "1020 mm",
    "cabin": "130 kg",
    "tank": "140 kg",
    "trip_fuel": "130 kg",
}


def path(share: Fraction) -> tuple[Fraction, Fraction]:
    """Arm in millimetres and mass in kilograms when a share of the trip fuel of the burn above is used."""
    fuel = 140 - 130 * share
    mass = 430 + fuel
    return (300 * Fraction(1020) + 130 * Fraction(1040) + fuel * 1000) / mass, mass


def test_burn_past_a_concave_corner() -> None:
    """Take-off and landing are inside and the notch is met between them: throughout the burn it is outside."""
    shape = shape_of(NOTCHED)
    inside = [shape.covers(Point(*map(float, path(Fraction(step, 1000))))) for step in range(1001)]
    assert inside[0] and inside[-1] and not all(inside)
    envelope = envelope_sheet("Burn past a corner", NOTCHED)
    for when, verdict in (("at takeoff", "within"), ("at landing", "within"), ("throughout", "outside")):
        sheet = burn_sheet(envelope, BURN_LOADS, when)
        assert check(sheet, **NOTCHED_BURN).verdict("balance") == verdict


def test_least_room_of_the_burn() -> None:
    """Along each axis no sample of the path has less room than the answer says, and one has as little."""
    sheet = burn_sheet(envelope_sheet("Burn past a corner", NOTCHED), BURN_LOADS, "throughout")
    margins = {one.side: one.room for one in check(sheet, **NOTCHED_BURN).limit("balance").margins}
    shape = shape_of(NOTCHED)
    sampled = [Point(*map(float, path(Fraction(step, 1300)))) for step in range(1301)]
    outside = [point for point in sampled if not shape.covers(point)]
    for side in (Side.FORWARD, Side.HEAVIER, Side.LIGHTER):
        x, y = DIRECTIONS[side]
        least = -max(distance_along(shape, point, (-x, -y)) for point in outside)
        said = float(margins[side]) * (1000 if x else 1)
        assert said <= least + TOLERANCE
        assert said == pytest.approx(least, abs=0.3)


def test_a_burn_that_grazes_the_corner_is_within() -> None:
    """The tip of the notch moved to the very point that the burn passes; one thousandth further aft is outside."""
    arm, mass = path(Fraction(70, 130))
    assert mass == 500
    for further, verdict in ((Fraction(0), "within"), (Fraction(1, 1000), "outside")):
        tip = (arm + further, mass)
        corners = [tip if corner == (1040, 500) else corner for corner in NOTCHED]
        sheet = burn_sheet(envelope_sheet("Grazed", corners), BURN_LOADS, "throughout")
        assert check(sheet, **NOTCHED_BURN).verdict("balance") == verdict


@pytest.mark.parametrize("corners", POLYGONS, ids=range(len(POLYGONS)))
def test_random_burns(corners: list[Corner]) -> None:
    """Sampled 400 times, a burn that is found outside is outside; one that is within has no sample outside.

    Where the samples see nothing but the answer is outside, the moment that the answer names is looked at.
    """
    shape, chance = shape_of(corners), random.Random(sum(int(x) for x, _ in corners))
    sheet = read(burn_sheet(envelope_sheet("Random burn", corners), FORWARD_TANK, "throughout"))
    for _ in range(4):
        empty, arm = Fraction(chance.randint(250, 600)), Fraction(chance.randint(800, 1300))
        answer = check(sheet, empty_mass=f"{empty} kg", empty_arm=f"{arm} mm", tank="200 kg", trip_fuel="190 kg")

        burned = np.linspace(0, 190, 401)
        fuel = 200 - burned
        mass = float(empty) + fuel
        balance = (float(empty * arm) + fuel * 700) / mass
        seen_outside = bool((distance(shape, points(balance, mass)) > TOLERANCE).any())
        verdict = answer.verdict("balance")
        if seen_outside or verdict == "within":
            assert (verdict == "outside") == seen_outside
        else:
            tightest = answer.limit("balance").tightest
            assert tightest is not None
            left = 200 - tightest.burned
            point = Point(float((empty * arm + left * 700) / (empty + left)), float(empty + left))
            assert not shape.buffer(-1e-6).contains(point)


CURVED: Final = {"empty_mass": "400 kg", "empty_arm": "1000 mm", "tank": "200 kg", "trip_fuel": "200 kg"}
"""Fuel 300 mm ahead of the empty aircraft: 900 mm at 600 kg, 1000 mm at 400 kg."""


@pytest.mark.parametrize(
    ("tip", "verdict"), [(939, "within"), (940, "within"), (941, "outside"), (949, "outside")]
)
def test_the_path_of_a_burn_is_a_curve_in_arm_and_mass(tip: int, verdict: str) -> None:
    """At 500 kg the balance is at 940 mm, not at 950 mm as the straight line between both ends would have it.

    Worked out by hand: (400 x 1000 + 100 x 700) / 500 = 940. A tip between the two lines is passed on the
    wrong side, though both ends and the line between them keep clear of it.
    """
    corners = notched_about(Fraction(tip), 800, 1300)
    assert shape_of(corners).covers(LineString([(900, 600), (1000, 400)]))
    envelope = envelope_sheet("Chord and path", corners)
    for when, expected in (("throughout", verdict), ("at takeoff", "within"), ("at landing", "within")):
        sheet = burn_sheet(envelope, FORWARD_TANK, when)
        assert check(sheet, **CURVED).verdict("balance") == expected


@pytest.mark.parametrize(("tip", "verdict"), [(470_000, "within"), (470_001, "outside")])
def test_the_path_of_a_burn_is_straight_in_moment_and_mass(tip: int, verdict: str) -> None:
    """Printed over the moment, the line between both ends and the path are the same."""
    corners = notched_about(Fraction(tip), 200_000, 900_000)
    straight = LineString([(540_000, 600), (400_000, 400)])
    assert shape_of(corners).covers(straight) == (verdict == "within")
    envelope = envelope_sheet("By moment", corners, "moment", "kg.mm")
    assert check(burn_sheet(envelope, FORWARD_TANK, "throughout"), **CURVED).verdict("balance") == verdict


def notched_about(tip: Fraction, front: int, back: int) -> list[Corner]:
    """A forward edge with a notch at 500 kg that reaches back to a tip."""
    masses = (350, 450, 500, 550, 650)
    edge = [(tip if mass == 500 else Fraction(front), Fraction(mass)) for mass in masses]
    return [*edge, (Fraction(back), Fraction(650)), (Fraction(back), Fraction(350))]
