"""Whether the edges of an envelope cross, against the geometry of shapely."""

from __future__ import annotations

from fractions import Fraction

import pytest
import shapely
from hypothesis import event, given, settings
from hypothesis import strategies as st

from grammar.checking.polygons import are_on_one_line, first_crossing, turn
from grammar.pipeline import read_sheet
from tests.engine.evaluation.small_sheets import HEADER
from tests.strategies import polygons

GRID = st.tuples(st.integers(0, 6), st.integers(0, 6))
"""Corners on a small grid: edges that touch, lie on one another or share a line are frequent there."""

WIDE = st.tuples(st.integers(0, 10**6), st.integers(0, 10**6))

DAMAGED = polygons((0, 40), (0, 40)).flatmap(
    lambda corners: st.permutations(range(len(corners))).map(
        lambda order: [*corners[:-2], corners[-1], corners[-2]] if order[0] == 0 else corners
    )
)


def exact(corners: list[tuple[int, int]]) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple((Fraction(x), Fraction(y)) for x, y in corners)


@given(corners=st.one_of(*(st.lists(of, min_size=3, max_size=9, unique=True) for of in (GRID, WIDE)), DAMAGED))
@settings(max_examples=600, deadline=None)
def test_a_polygon_is_simple_just_where_shapely_says_so(corners):
    wanted = shapely.LinearRing([*corners, corners[0]]).is_simple
    event(f"simple: {wanted}")
    assert (first_crossing(exact(corners)) is None) is bool(wanted)


@given(corners=st.lists(GRID, min_size=3, max_size=6, unique=True))
@settings(max_examples=200, deadline=None)
def test_a_polygon_has_no_area_just_where_all_corners_lie_on_one_line(corners):
    line = shapely.MultiPoint(corners).convex_hull
    assert are_on_one_line(exact(corners)) is (line.geom_type != "Polygon")


@given(corners=st.lists(WIDE, min_size=3, max_size=3, unique=True))
@settings(max_examples=200, deadline=None)
def test_a_turn_has_the_sign_of_shapelys_orientation(corners):
    ring = shapely.LinearRing([*corners, corners[0]])
    doubled = turn(*exact(corners))
    assert abs(doubled) == Fraction(2 * shapely.Polygon(ring).area)
    assert doubled == 0 or (doubled > 0) is bool(ring.is_ccw)


def test_the_two_edges_that_cross_are_named():
    assert first_crossing(exact([(0, 0), (2, 2), (2, 0), (0, 2)])) == (0, 2)


def codes(*corners: tuple[str, str]) -> list[str]:
    rows = "\n".join(f"  | {x} | {y} |" for x, y in corners)
    text = (
        'load seat from 0 kg to 100 kg arm 500 mm source fm "1"\n'
        f'envelope e of cg in mm against mass in kg source fm "2"\n  | cg | mass |\n{rows}\n'
        'limit l at takeoff (cg, mass) inside e source fm "2"\n'
    )
    return [problem.code for problem in read_sheet(HEADER + text, "small.limits").problems]


@pytest.mark.parametrize(
    ("corners", "told"),
    [
        ((("0", "0"), ("4", "0"), ("4", "4")), []),
        ((("0", "0"), ("4", "0")), ["509"]),
        ((("0", "0"), ("4", "0"), ("8", "0")), ["522"]),
        ((("0", "0"), ("4", "4"), ("4", "0"), ("0", "4")), ["510"]),
        ((("0", "0"), ("4", "0"), ("4", "4"), ("0", "0")), ["511"]),
        ((("0", "0"), ("4", "0"), ("4", "4"), ("2", "0")), ["510"]),
        ((("0.1", "0"), ("0.2", "0"), ("0.3", "0.1")), []),
        ((("0", "0"), ("6", "0"), ("3", "0"), ("3", "5")), ["510"]),
    ],
    ids=[
        "a triangle",
        "two corners",
        "on one line",
        "crossing",
        "closed again",
        "touching",
        "decimals",
        "doubled back",
    ],
)
def test_envelopes_by_hand(corners, told):
    assert codes(*corners) == told
