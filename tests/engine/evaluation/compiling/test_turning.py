"""An edge that leans against the path: the room is least between two turns of the burn, and is found there.

The path is ``cg = p / mass + q``, a hyperbola. Its distance from a straight edge may have a lowest point that
no end of the burn shows; the figures below are worked out so that it does, on each side of the envelope.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from engine.evaluation.compiling.compiled import CompiledSheet, compile_sheet
from engine.evaluation.compiling.layout import ASK_THE_SWEEP
from engine.evaluation.loading import Loading
from engine.evaluation.result import Side
from grammar.sheet import Verdict
from tests.engine.evaluation.compiling.agreement import agrees, plain
from tests.engine.evaluation.small_sheets import sheet_of

SHEET = """\
fuel tank from 0 kg to 300 kg arm {arm} m source fm "1"
envelope shape of cg in m against mass in kg source fm "1"
  | cg | mass |
{rows}
limit balance throughout (cg, mass) inside shape source fm "1"
"""

# The empty aircraft's moment is 67.5 kg.m more than its mass times the arm of the tank, q = 0.87 m.
# Forward edge: 1.05 m at 300 kg, 0.95 m at 600 kg; the room is least at 450 kg, 0.02 m.
FORWARD = ((Fraction("1.05"), 300), (Fraction("0.95"), 600), (Fraction("1.3"), 600), (Fraction("1.3"), 300))
# Lower edge: it falls by 1500 kg a metre; the room is least where mass squared is 1500 * 67.5, about 318 kg.
LIGHTER = ((Fraction("0.9"), 495), (Fraction("1.2"), 45), (Fraction("1.2"), 600), (Fraction("0.9"), 600))


def sheet(corners: tuple[tuple[Fraction, int], ...], mirrored: bool) -> CompiledSheet:
    rows = "\n".join(f"  | {float(2 - x if mirrored else x):.4f} | {mass} |" for x, mass in corners)
    return compile_sheet(sheet_of(SHEET.format(arm="1.13" if mirrored else "0.87", rows=rows)))


def loading(compiled: CompiledSheet, mirrored: bool) -> Loading:
    step = compiled.parts.steps["empty_arm"]
    arm = Fraction("67.5") / 310 + Fraction("0.87")
    arm = round(arm / step) * step
    stated = {"tank": Fraction(280), "trip_fuel": Fraction(280), "empty_mass": Fraction(310)}
    return Loading({**stated, "empty_arm": 2 - arm if mirrored else arm})


@pytest.mark.parametrize(
    ("corners", "mirrored", "side"),
    [
        (FORWARD, False, Side.FORWARD),
        (FORWARD, True, Side.AFT),
        (LIGHTER, False, Side.LIGHTER),
        (LIGHTER, True, Side.LIGHTER),
    ],
)
def test_a_room_that_is_least_between_two_turns_is_found_there(
    corners: tuple[tuple[Fraction, int], ...], mirrored: bool, side: Side
) -> None:
    compiled = sheet(corners, mirrored)
    stated = loading(compiled, mirrored)
    expected = plain(compiled, stated).limits[0]
    at_takeoff = plain(compiled, Loading({**stated.stated, "trip_fuel": Fraction(0)}))
    room = next(margin.room for margin in expected.margins if margin.side is side)
    least_at_the_ends = min(
        margin.room
        for answer in (at_takeoff, plain(compiled, _landed(stated)))
        for margin in answer.limits[0].margins
        if margin.side is side
    )
    assert room < least_at_the_ends
    assert agrees(compiled, stated)


def _landed(stated: Loading) -> Loading:
    return Loading({**stated.stated, "tank": Fraction(0), "trip_fuel": Fraction(0)})


def test_a_path_that_dips_out_between_two_turns_is_outside() -> None:
    """With the edge 2.5 cm further aft the path begins and ends inside and is outside in between."""
    corners = tuple((x + Fraction("0.025") if x < Fraction("1.2") else x, mass) for x, mass in FORWARD)
    compiled = sheet(corners, mirrored=False)
    stated = loading(compiled, False)
    for end in (Loading({**stated.stated, "trip_fuel": Fraction(0)}), _landed(stated)):
        assert plain(compiled, end).limits[0].verdict is Verdict.WITHIN
    assert plain(compiled, stated).limits[0].verdict is Verdict.OUTSIDE
    assert agrees(compiled, stated)


def test_where_the_room_may_turn_the_sweep_is_asked() -> None:
    compiled = sheet(FORWARD, mirrored=False)
    numbers = compiled.numbers(loading(compiled, False))
    assert numbers is not None
    assert compiled.layout is not None
    pieces = compiled.values(numbers)
    assert pieces is not None
    assert pieces[compiled.layout.verdicts[0]] == ASK_THE_SWEEP
