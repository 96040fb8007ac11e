"""Reading a sheet to the end: what only evaluation can see is found here, after reading and checking.

A sheet passes when it reads, when what it claims can be followed exactly, and when the worked examples of its
manual come out as printed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from engine.evaluation.examples import run_examples
from engine.evaluation.following import can_follow
from grammar.diagnostics.problem import Problem
from grammar.pipeline import Outcome, in_order, is_error, read_sheet
from grammar.sheet import Sheet


def read_and_prove(text: str, name: str) -> Outcome:
    """Read and check a sheet, and run its worked examples."""
    outcome = read_sheet(text, name)
    return outcome if outcome.sheet is None else proven(outcome, outcome.sheet)


def unproven(sheet: Sheet) -> tuple[Problem, ...]:
    """What following the burn and running the worked examples find."""
    return tuple(_not_followed(sheet)) or run_examples(sheet)


def proven(outcome: Outcome, sheet: Sheet) -> Outcome:
    """The outcome with what following the burn and running the examples add to its problems."""
    problems = in_order((*outcome.problems, *unproven(sheet)))
    passed = None if any(is_error(problem) for problem in problems) else sheet
    return replace(outcome, sheet=passed, problems=problems)


def _not_followed(sheet: Sheet) -> Iterator[Problem]:
    for limit in sheet.limits:
        reason = can_follow(limit)
        if reason is not None:
            yield Problem("617", limit.claim.span, {"reason": reason})
