"""How a limit comes out from the truth of its claim and of its condition."""

from __future__ import annotations

from dataclasses import dataclass

from engine.evaluation.margins import Room, rooms
from engine.evaluation.result import Gap
from engine.evaluation.workings import Workings, gap_among
from grammar.sheet import Limit, Verdict


@dataclass(frozen=True, slots=True)
class Judgement:
    """The verdict on a limit at one place of the burn, the rooms that its claims leave, and its gaps."""

    verdict: Verdict
    gap: Gap | None
    rooms: tuple[Room, ...]


def judge(limit: Limit, known: Workings) -> Judgement:
    """The judgement on a limit whose claim and condition have been worked out.

    A limit whose condition cannot be told is within where its claim holds anyway, else undetermined.
    """
    claim = known.truth(limit.claim)
    applies = True if limit.applies_when is None else known.truth(limit.applies_when)
    if applies is False:
        return Judgement(Verdict.NOT_APPLICABLE, None, ())
    found = rooms(limit.claim, known)
    if claim is True:
        return Judgement(Verdict.WITHIN, None, found)
    gap = gap_among((applies, claim))
    return Judgement(Verdict.OUTSIDE if gap is None else Verdict.UNDETERMINED, gap, found)
