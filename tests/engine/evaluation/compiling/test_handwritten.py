"""The hand-written limits that benchmarks compare with are the sheet's: away from a limit both always agree."""

from __future__ import annotations

from fractions import Fraction

from engine.evaluation.requests import read_loading
from tests.benchmarks import handwritten
from tests.benchmarks.loads import compiled, loads
from tests.engine.evaluation.compiling.agreement import TRUTHS, plain

BESIDE = Fraction(1, 10**6)
"""So close to a limit, as a share of it, binary floats may come out on either side."""


def test_hand_written_floats_and_the_sheet_agree_away_from_limits() -> None:
    seen: set[tuple[int, bool | None]] = set()
    for load in loads(150, seed=7):
        answer = plain(compiled(), read_loading(compiled().sheet, load.request))
        by_hand = handwritten.verdicts(*load.arguments)
        for at, each in enumerate(answer.limits):
            if any(margin.share is not None and abs(margin.share) < BESIDE for margin in each.margins):
                continue
            assert by_hand[at] is TRUTHS[each.verdict], (each.limit.name, load.request)
            seen.add((at, by_hand[at]))
    assert len(seen) > 1.3 * len(answer.limits)
