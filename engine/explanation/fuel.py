"""The moment of the burn at which a limit is tightest, in words."""

from __future__ import annotations

from engine.evaluation.result import FuelState
from engine.explanation.amounts import amount
from engine.explanation.words import carried_by, listed
from grammar.figures import Rounding
from grammar.sheet import Sheet
from grammar.units import PURE


def fuel_state_in_words(sheet: Sheet, state: FuelState) -> str:
    """ "tightest with 12.4 L left in the main tank"; a tank that is empty is not named unless all are."""
    held = [
        f"{amount(left, tank.input.unit or PURE, Rounding.NEAREST)} left {carried_by(tank.input.label)}"
        for tank, left in zip(sheet.tanks, state.left, strict=True)
        if left > 0
    ]
    moment = "tightest at take-off with" if state.burned == 0 else "tightest with"
    return f"{moment} {listed(held) or 'no fuel left'}"
