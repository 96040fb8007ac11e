"""Tables, with scipy as the independent check."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import RegularGridInterpolator

from engine.evaluation.places import STANDING
from engine.evaluation.result import Gap, OutOfTable
from engine.evaluation.tables import read_table
from grammar.sheet import Table
from tests.engine.evaluation.small_sheets import limit, outcome, rooms, sheet_of

SHEET = sheet_of("""\
given altitude in ft from -2000 ft to 20000 ft
given temperature in degC from -40 degC to 60 degC
load seat from 0 kg to 700 kg arm 1 m source fm "1"
table hot_and_high of altitude in ft and temperature in degC gives kg source fm "5.2"
  |      | -20 |   0 |  20 |  35 |  45 |
  |    0 | 540 | 540 | 540 | 525 | 510 |
  | 4000 | 540 | 535 | 515 | 495 | 480 |
  | 8000 | 510 | 495 | 470 | 450 | 435 |
table by_height of altitude in ft gives kg source fm "5.3"
  | altitude | mass |
  |    0 | 600 |
  | 3000 | 560 |
  | 5000 | 580 |
limit seat_max
  seat at most hot_and_high(altitude, temperature)
  source fm "5"
limit height_max
  seat at most by_height(altitude)
  source fm "5"
""")
TWO_WAY: Table = SHEET.tables[0]
ONE_WAY: Table = SHEET.tables[1]
points = [[float(p) for p in axis.points] for axis in TWO_WAY.axes]
THEIRS = RegularGridInterpolator(points, np.array([[float(v) for v in row] for row in TWO_WAY.rows]))


def read(table: Table, *at: Fraction) -> Fraction:
    value = read_table(table, at, STANDING)
    assert isinstance(value, Fraction)
    return value


def test_printed_values_come_out_at_printed_points() -> None:
    heights, temperatures = (axis.points for axis in TWO_WAY.axes)
    for row, height in zip(TWO_WAY.rows, heights, strict=True):
        assert [read(TWO_WAY, height, at) for at in temperatures] == list(row)
    assert [read(ONE_WAY, at) for at in ONE_WAY.axes[0].points] == [600, 560, 580]


@settings(deadline=None)
@given(st.fractions(0, 1, max_denominator=1000), st.fractions(0, 1, max_denominator=1000))
def test_between_them_it_is_linear_along_both_axes(up: Fraction, along: Fraction) -> None:
    at = [
        axis.points[0] + (axis.points[-1] - axis.points[0]) * t
        for axis, t in zip(TWO_WAY.axes, (up, along), strict=True)
    ]
    assert abs(float(read(TWO_WAY, *at)) - THEIRS([float(a) for a in at])[0]) < 1e-6


def test_one_axis_by_hand() -> None:
    foot = Fraction("0.3048")
    assert read(ONE_WAY, 1500 * foot) == 580
    assert read(ONE_WAY, 4500 * foot) == 575


def test_a_hair_beyond_is_no_value_but_a_gap_that_names_the_axis() -> None:
    low, high = (axis.points[0] for axis in TWO_WAY.axes), (axis.points[-1] for axis in TWO_WAY.axes)
    hair = Fraction(1, 10**12)
    for ends, way in ((tuple(low), -hair), (tuple(high), hair)):
        assert isinstance(read_table(TWO_WAY, ends, STANDING), Fraction)
        for axis in (0, 1):
            moved = tuple(end + way * (index == axis) for index, end in enumerate(ends))
            found = read_table(TWO_WAY, moved, STANDING)
            assert isinstance(found, Gap)
            assert found.causes == (OutOfTable(TWO_WAY, axis, moved[axis]),)


def test_beyond_on_both_axes_both_are_named() -> None:
    result = limit(SHEET, "seat_max", altitude="9000 ft", temperature="50 degC", seat="80 kg")
    assert outcome(result) == "undetermined"
    assert result.gap is not None
    assert [cause.axis for cause in result.gap.causes if isinstance(cause, OutOfTable)] == [0, 1]


def test_a_table_as_a_bound_with_units_of_its_own() -> None:
    result = limit(SHEET, "seat_max", altitude="2000 ft", temperature="50 degF", seat="530 kg")
    # 50 degF is 10 degC: halfway between 540 and 540 at sea level, 535 and 515 at 4000 ft.
    assert list(rooms(result).values()) == [Fraction("532.5") - 530]
