"""Envelopes, with shapely as the independent check and a few shapes worked by hand."""

from __future__ import annotations

from fractions import Fraction

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.evaluation.envelope import Reach, is_inside, reaches, slices, turned
from engine.evaluation.places import STANDING
from tests.strategies import Corner, polygons

POLYGONS = polygons((0, 60), (0, 60))
ALONG = st.fractions(-2, 62, max_denominator=8)
NEAR = 1e-9


def exact(corners: list[Corner]) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple((Fraction(x), Fraction(y)) for x, y in corners)


def inside(corners: list[Corner], x: Fraction, y: Fraction) -> bool:
    return is_inside(exact(corners), x, y, STANDING)


@settings(deadline=None)
@given(POLYGONS, ALONG, ALONG)
def test_inside_agrees_with_shapely_away_from_the_boundary(
    corners: list[Corner], x: Fraction, y: Fraction
) -> None:
    shape, point = shapely.Polygon(corners), shapely.Point(float(x), float(y))
    assert shape.is_valid
    if shape.exterior.distance(point) > NEAR:
        assert inside(corners, x, y) == shape.contains(point)
    else:
        assert inside(corners, x, y) or not shape.contains(point)


@given(POLYGONS, st.integers(0, 7), st.fractions(0, 1, max_denominator=12))
def test_every_point_of_the_boundary_is_inside(corners: list[Corner], which: int, along: Fraction) -> None:
    (x1, y1), (x2, y2) = corners[which % len(corners)], corners[(which + 1) % len(corners)]
    assert inside(corners, x1 + (x2 - x1) * along, y1 + (y2 - y1) * along)


@settings(deadline=None)
@given(POLYGONS)
def test_the_slices_make_up_the_area(corners: list[Corner]) -> None:
    whole = slices(exact(corners))
    area = Fraction(0)
    for index, band in enumerate(whole.bands):
        low, high = whole.levels[index], whole.levels[index + 1]
        middle = (low + high) / 2
        area += sum((right.slope - left.slope) * middle + right.at_zero - left.at_zero for left, right in band) * (
            high - low
        )
    pairs = zip(corners, corners[1:] + corners[:1], strict=True)
    assert area == abs(Fraction(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs), 2))


@given(POLYGONS, ALONG, ALONG)
def test_turning_the_axes_changes_nothing(corners: list[Corner], x: Fraction, y: Fraction) -> None:
    assert inside(corners, x, y) == is_inside(turned(exact(corners)), y, x, STANDING)


@given(POLYGONS, ALONG, ALONG)
def test_the_first_and_the_way_round_of_the_corners_do_not_matter(
    corners: list[Corner], x: Fraction, y: Fraction
) -> None:
    assert inside(corners, x, y) == inside(corners[::-1], x, y) == inside(corners[2:] + corners[:2], x, y)


@given(POLYGONS, ALONG, ALONG)
def test_moving_by_the_room_comes_to_the_boundary_and_no_sooner(
    corners: list[Corner], x: Fraction, y: Fraction
) -> None:
    was_inside = inside(corners, x, y)
    for reach in reaches(exact(corners), x, y, STANDING):
        assert isinstance(reach.bound, Fraction)
        assert isinstance(reach.room, Fraction)
        step = -reach.room if reach.is_low else reach.room
        assert x + step == reach.bound
        assert inside(corners, reach.bound, y)
        assert (reach.room >= 0) == was_inside
        halfway = inside(corners, (x + reach.bound) / 2, y)
        assert halfway == (was_inside or reach.room == 0)


@given(POLYGONS, ALONG, ALONG)
def test_inside_there_is_a_boundary_on_both_sides(corners: list[Corner], x: Fraction, y: Fraction) -> None:
    if inside(corners, x, y):
        assert [reach.is_low for reach in reaches(exact(corners), x, y, STANDING)] == [True, False]


U_SHAPE = [(0, 0), (0, 10), (3, 10), (3, 4), (7, 4), (7, 10), (10, 10), (10, 0)]


def room_and_bound(found: tuple[Reach, ...]) -> list[tuple[bool, int, int]]:
    return [(reach.is_low, int(reach.bound), int(reach.room)) for reach in found]  # type: ignore[arg-type]


def test_between_two_horns_there_is_a_way_in_on_each_side() -> None:
    found = reaches(exact(U_SHAPE), Fraction(4), Fraction(6), STANDING)
    assert room_and_bound(found) == [(True, 7, -3), (False, 3, -1)]


def test_level_with_the_bottom_of_the_notch_the_whole_width_is_inside() -> None:
    found = reaches(exact(U_SHAPE), Fraction(5), Fraction(4), STANDING)
    assert room_and_bound(found) == [(True, 0, 5), (False, 10, 5)]


def test_where_no_move_along_the_axis_helps_there_is_no_margin() -> None:
    assert reaches(exact(U_SHAPE), Fraction(5), Fraction(11), STANDING) == ()


def test_outside_on_one_side_there_is_one_way_in() -> None:
    assert room_and_bound(reaches(exact(U_SHAPE), Fraction(12), Fraction(6), STANDING)) == [(False, 10, -2)]
    assert room_and_bound(reaches(exact(U_SHAPE), Fraction(-2), Fraction(6), STANDING)) == [(True, 0, -2)]


def test_a_single_highest_corner_is_inside() -> None:
    spike = [(0, 0), (5, 9), (10, 0)]
    assert inside(spike, Fraction(5), Fraction(9))
    assert room_and_bound(reaches(exact(spike), Fraction(5), Fraction(9), STANDING)) == [
        (True, 5, 0),
        (False, 5, 0),
    ]
