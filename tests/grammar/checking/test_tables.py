"""Tables along choices, and tables read by the next printed value."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.evaluation.exact import value_for
from engine.evaluation.requests import read_loading
from engine.evaluation.result import Gap, Value
from grammar.pipeline import read_sheet
from grammar.sheet import Sheet
from tests.engine.evaluation.small_sheets import HEADER, limit, sheet_of
from tests.strategies import typed

HEAD = """\
given surface is one of hard, grass, sand
given wind is one of calm, strong
given dual is yes or no
given height in ft
load seat from 0 kg to 200 kg arm 500 mm source fm "1"
"""


def codes(statements: str) -> list[str]:
    found = read_sheet(HEADER + HEAD + statements, "small.limits").problems
    return [problem.code for problem in found if problem.code != "303"]


def table(heading: str, *rows: str) -> str:
    """A table in the language, with its source."""
    return "\n".join([f'table t of {heading} gives kg source fm "5"', *(f"  {row}" for row in rows), ""])


def reading(of: str) -> str:
    return f'limit l seat at most t({of}) source fm "6"\n'


def bound(sheet: Sheet, **stated: str) -> Value:
    """What the limit's bound comes to, in kilograms."""
    claim = next(one for one in sheet.limits if one.name == "l").claim
    return value_for(sheet, read_loading(sheet, stated), claim.bound)


# ---- along one list of choices

BY_SURFACE = table("surface", "| surface | t |", "| hard | 120 |", "| sand | 90 |", "| grass | 100 |")


def test_a_table_along_choices_says_what_is_printed_for_each():
    sheet = sheet_of(HEAD + BY_SURFACE + reading("surface"))
    assert [bound(sheet, surface=word) for word in ("hard", "grass", "sand")] == [120, 100, 90]
    assert isinstance(bound(sheet), Gap)


def test_an_undetermined_choice_is_settled_where_the_figures_agree():
    same = sheet_of(HEAD + BY_SURFACE.replace("120", "90").replace("100", "90") + reading("surface"))
    assert limit(same, "l", seat="90 kg").verdict.value == "within"


def test_a_table_along_yes_and_no():
    sheet = sheet_of(HEAD + table("dual", "| dual | t |", "| yes | 80 |", "| no | 110 |") + reading("dual"))
    assert [bound(sheet, dual=word) for word in ("yes", "no")] == [80, 110]


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        (["| hard | 120 |", "| grass | 100 |"], "525"),
        (["| hard | 120 |", "| grass | 100 |", "| sand | 90 |", "| grass | 95 |"], "526"),
        (["| hard | 120 |", "| gras | 100 |", "| sand | 90 |"], "310"),
        (["| hard | 120 |", "| 5 | 100 |", "| sand | 90 |"], "310"),
        (["| hard | 120 |", "| | 100 |", "| sand | 90 |"], "310"),
        (["| hard | 120 |", "| grass | |", "| sand | 90 |"], "506"),
        (["| hard | 120 |", "| grass | 100 | 1 |", "| sand | 90 |"], "505"),
    ],
)
def test_each_choice_stands_just_once(rows, told):
    assert codes(table("surface", "| surface | t |", *rows) + reading("surface")) == [told]


@pytest.mark.parametrize(
    ("heading", "told"),
    [("height", "524"), ("seat", "524"), ("nothing", "524"), ("surface in kg", "507")],
)
def test_an_axis_needs_a_unit_or_a_list(heading, told):
    rows = ("| x | t |", "| hard | 120 |", "| grass | 100 |", "| sand | 90 |")
    assert told in codes(table(heading, *rows) + reading("surface"))


@pytest.mark.parametrize(
    ("of", "told"), [("wind", "411"), ("height", "411"), ("surface, wind", "307"), ("hard", "302")]
)
def test_a_table_along_choices_is_asked_by_its_own_list(of, told):
    assert codes(BY_SURFACE + reading(of)) == [told]


# ---- along two

GRID = ("| hard | 120 | 110 |", "| grass | 100 | 90 |", "| sand | 80 | 70 |")


def test_a_table_along_two_lists():
    sheet = sheet_of(HEAD + table("surface and wind", "| | strong | calm |", *GRID) + reading("surface, wind"))
    found = {
        (one, two): bound(sheet, surface=one, wind=two) for one in ("hard", "sand") for two in ("calm", "strong")
    }
    assert found == {("hard", "calm"): 110, ("hard", "strong"): 120, ("sand", "calm"): 70, ("sand", "strong"): 80}


def test_the_values_are_given_in_the_order_of_the_axes():
    swapped = table("surface and wind", "| | strong | calm |", *GRID) + reading("wind, surface")
    assert codes(swapped) == ["411"]


def test_figures_down_and_choices_across():
    text = table("height in ft and wind", "| | strong | calm |", "| 0 | 100 | 120 |", "| 1000 | 80 | 110 |")
    sheet = sheet_of(HEAD + text + reading("height, wind"))
    assert bound(sheet, height="500 ft", wind="calm") == 115
    assert bound(sheet, height="1000 ft", wind="strong") == 80
    assert isinstance(bound(sheet, height="1001 ft", wind="strong"), Gap)


def test_choices_down_and_figures_across():
    text = table("wind and height in ft", "| | 0 | 1000 |", "| calm | 120 | 110 |", "| strong | 100 | 80 |")
    sheet = sheet_of(HEAD + text + reading("wind, height"))
    assert bound(sheet, height="250 ft", wind="strong") == 95
    assert bound(sheet, height="0 ft", wind="calm") == 120
    assert isinstance(bound(sheet, height="-1 ft", wind="calm"), Gap)


@pytest.mark.parametrize(
    ("heading", "rows", "told"),
    [
        ("surface and wind", ("| | strong |", "| hard | 1 |", "| grass | 1 |", "| sand | 1 |"), "525"),
        ("surface and wind", ("| | strong | calm | calm |", "| hard | 1 | 1 | 1 |"), "526"),
        ("surface and wind", ("| | strong | calm |", "| hard | 1 | 1 |"), "525"),
        ("surface and wind", ("| surface | strong | calm |", *GRID), "507"),
        ("wind and height in ft", ("| | 1000 | 0 |", "| calm | 1 | 1 |", "| strong | 1 | 1 |"), "504"),
        ("wind and height in ft", ("| | 1000 |", "| calm | 1 |", "| strong | 1 |"), "518"),
    ],
)
def test_what_is_wrong_along_two_axes(heading, rows, told):
    assert told in codes(table(heading, *rows) + reading("surface, wind"))


def test_a_table_along_choices_by_the_next_higher():
    text = table(
        "wind and height in ft", "| | 0 | 1000 |", "| calm | 120 | 110 |", "| strong | 100 | 80 |"
    ).replace("gives kg", "gives kg use the next higher")
    sheet = sheet_of(HEAD + text + reading("wind, height"))
    assert [bound(sheet, height=f"{at} ft", wind="strong") for at in (0, 1, 999, 1000)] == [100, 80, 80, 80]


# ---- the next printed value

POINTS = st.lists(st.integers(-50, 50), min_size=2, max_size=8, unique=True).map(sorted)


@given(points=POINTS, values=st.lists(st.integers(0, 200), min_size=8, max_size=8), asked=st.integers(-60, 60),
       part=st.sampled_from(("0", "0.5", "0.001")), direction=st.sampled_from(("higher", "lower")))  # fmt: skip
@settings(deadline=None, max_examples=60)
def test_between_two_printed_values_the_next_one_counts(points, values, asked, part, direction):
    rows = [f"| {point} | {value} |" for point, value in zip(points, values, strict=False)]
    text = table("height in ft", "| height | t |", *rows).replace("gives kg", f"gives kg use the next {direction}")
    at = asked + Fraction(part)
    found = bound(sheet_of(HEAD + text + reading("height")), height=f"{typed(at)} ft")
    if not points[0] <= at <= points[-1]:
        assert isinstance(found, Gap)
    elif direction == "higher":
        assert found == values[bisect_left(points, at)]
    else:
        assert found == values[bisect_right(points, at) - 1]


@given(at=st.integers(0, 30), across=st.integers(0, 30), direction=st.sampled_from(("higher", "lower")))
@settings(deadline=None, max_examples=30)
def test_the_next_value_is_taken_along_both_axes(at, across, direction):
    text = table(
        "height in ft and seat in kg",
        "| | 0 | 10 | 30 |",
        "| 0 | 1 | 2 | 3 |",
        "| 20 | 4 | 5 | 6 |",
        "| 30 | 7 | 8 | 9 |",
    ).replace("gives kg", f"gives kg use the next {direction}")
    text += 'limit l seat at most 200 kg + t(height, seat) source fm "6"\n'
    down, along = [0, 20, 30], [0, 10, 30]
    find = (bisect_left) if direction == "higher" else (lambda row, x: bisect_right(row, x) - 1)
    wanted = 3 * find(down, at) + find(along, across) + 1
    assert bound(sheet_of(HEAD + text), height=f"{at} ft", seat=f"{across} kg") == 200 + wanted


@pytest.mark.parametrize(("direction", "within"), [("higher", "90 kg"), ("lower", "100 kg")])
def test_exactly_on_a_printed_value_that_value_counts_either_way(direction, within):
    rows = ("| height | t |", "| 0 | 110 |", "| 1000 | 100 |", "| 2000 | 90 |")
    text = table("height in ft", *rows).replace("gives kg", f"gives kg use the next {direction}")
    sheet = sheet_of(HEAD + text + reading("height"))
    assert limit(sheet, "l", height="1000 ft", seat="100 kg").verdict.value == "within"
    assert limit(sheet, "l", height="1000 ft", seat="100.001 kg").verdict.value == "outside"
    assert limit(sheet, "l", height="1500 ft", seat=within).verdict.value == "within"
    assert bound(sheet, height="0 ft") == 110
    assert bound(sheet, height="2000 ft") == 90
    assert isinstance(bound(sheet, height="2000.001 ft"), Gap)
    assert isinstance(bound(sheet, height="-0.001 ft"), Gap)


def test_a_table_of_choices_alone_has_nothing_between_its_values():
    stepped = BY_SURFACE.replace("gives kg", "gives kg use the next higher")
    sheet = sheet_of(HEAD + stepped + reading("surface"))
    assert bound(sheet, surface="grass") == 100
