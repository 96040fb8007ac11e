"""Which limits can be followed throughout the burn, told from the sheet alone."""

from __future__ import annotations

import pytest

from engine.evaluation.following import MOST_DEGREE, can_follow
from grammar.sheet import Limit
from tests.engine.evaluation.small_sheets import sheet_of

TANK = 'fuel tank from 0 L to 100 L density 0.8 kg/L arm 2000 mm source fm "1"\n'


def stated(claim: str, stage: str = "throughout") -> Limit:
    return sheet_of(f'{TANK}limit flown\n  {stage}\n  {claim}\n  source fm "2"\n').limits[0]


def power(of: str, times: int) -> str:
    return " * ".join([of] * times)


def masses(times: int) -> str:
    return f"{power('mass', times)} at most 5 {'.'.join(['kg'] * times)}"


@pytest.mark.parametrize(
    "claim",
    [
        "cg at most 1200 mm",
        "cg at most 300 mm + mass * 2.5 mm/kg",
        "max(cg, 1 m) + max(cg, 2 m) + max(cg, 3 m) + max(cg, 4 m) at most 11 m",
        "round_up mass to 10 kg at most 400 kg",
        masses(MOST_DEGREE),
    ],
)
def test_what_a_manual_says_is_followed(claim: str) -> None:
    assert can_follow(stated(claim)) is None


def test_powers_beyond_reason_are_not() -> None:
    reason = can_follow(stated(masses(MOST_DEGREE + 1)))
    assert reason is not None
    assert f"degree {MOST_DEGREE + 1}" in reason


def test_what_stands_still_is_no_matter() -> None:
    assert can_follow(stated(masses(MOST_DEGREE + 1), "at takeoff")) is None


def test_a_divisor_shared_by_every_term_counts_once() -> None:
    assert can_follow(stated(" + ".join(["cg"] * 20) + " at most 5 m")) is None


def test_conditions_count_too() -> None:
    reason = can_follow(stated(f"mass at most 1 kg\n  when {masses(MOST_DEGREE + 1)}"))
    assert reason is not None
