""" "Did you mean": the nearest known word, offered only when it is near."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

SHORT_WORD: Final = 4
"""Words up to this length may be off by one letter, longer ones by two; of two letters none may be off."""


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word nearest to ``word`` (a swap of neighbours counts once), or None where none is near."""
    if len(word) <= 2:
        return None
    most = 1 if len(word) <= SHORT_WORD else 2
    distances = ((edit_distance(word, other), other) for other in known if abs(len(word) - len(other)) <= most)
    near = sorted(pair for pair in distances if 0 < pair[0] <= most)
    return near[0][1] if near else None


def edit_distance(one: str, other: str) -> int:
    """How many letters must be put in, taken out, changed or swapped with a neighbour to make one the other."""
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(one, 1):
        before_that, before, row = before, row, [i]
        for j, wanted in enumerate(other, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != wanted))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == wanted:
                cost = min(cost, before_that[j - 2] + 1)
            row.append(cost)
    return row[-1]
