"""Fuel leaving the tanks in the burn order, drop by drop as it were."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class Step:
    """Tanks drawn from equally, each until it holds no more than ``floor``."""

    tanks: tuple[str, ...]
    floor: Fraction


def draw(
    amounts: dict[str, Fraction], steps: list[Step], wanted: Fraction
) -> tuple[dict[str, Fraction], list[Fraction]]:
    """What is left after drawing ``wanted``, and the amounts drawn at each change of tanks on the way.

    More cannot be drawn than the order allows: then the tanks stay at the floors of the order.
    """
    left, drawn, changes = dict(amounts), Fraction(0), [Fraction(0)]
    for step in steps:
        while drawn < wanted:
            open_tanks = [tank for tank in step.tanks if left[tank] > step.floor]
            if not open_tanks:
                break
            each = min(left[tank] - step.floor for tank in open_tanks)
            each = min(each, (wanted - drawn) / len(open_tanks))
            for tank in open_tanks:
                left[tank] -= each
            drawn += each * len(open_tanks)
            changes.append(drawn)
    return left, changes


def first_needing(amounts: dict[str, Fraction], steps: list[Step], wanted: Fraction) -> int | None:
    """The first step that must draw from a tank whose amount is not known (one that ``amounts`` lacks)."""
    before: list[Step] = []
    for index, step in enumerate(steps):
        _, changes = draw(amounts, before, wanted)
        if changes[-1] == wanted:
            return None
        if any(tank not in amounts for tank in step.tanks):
            return index
        before.append(step)
    return None
