"""Every value that the limits of an answer rest on, each once, with where it stands and which way it leans."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass

from engine.evaluation.result import CheckResult, Margin
from engine.explanation.citing import Citation, citations, of_limit
from engine.explanation.leaning import leanings, leanings_of_point
from grammar.figures import Rounding
from grammar.sheet import Condition, Expression, Inside, children


@dataclass(frozen=True, slots=True)
class Visited:
    """A node, how its value leans, and where it stands.

    A value that several limits share and that leans both ways is rounded to the nearest.
    """

    node: Expression | Condition
    lean: Rounding
    cited: Citation | None


def visited(result: CheckResult) -> tuple[Visited, ...]:
    """Every node below the limits, in the order of the slots."""
    cites, found = citations(result.sheet), dict[int, Visited]()
    margins = tuple(margin for each in result.limits for margin in each.margins)
    waiting = deque(_roots(result))
    while waiting:
        node, lean, around = waiting.popleft()
        before = found.get(node.slot)
        now = _together(before, Visited(node, lean, cites.of(node, around)))
        if now == before:
            continue
        found[node.slot] = now
        below = cites.below(node, now.cited)
        ways = _ways(node, result, now.lean, margins)
        waiting.extend((part, way, below) for part, way in zip(children(node), ways, strict=True))
    return tuple(found[slot] for slot in sorted(found))


def _roots(result: CheckResult) -> list[tuple[Expression | Condition, Rounding, Citation | None]]:
    roots: list[tuple[Expression | Condition, Rounding, Citation | None]] = []
    for each in result.limits:
        limit = each.limit
        roots.append((limit.claim, Rounding.DOWN, of_limit(limit)))
        if limit.applies_when is not None:
            roots.append((limit.applies_when, Rounding.NEAREST, of_limit(limit)))
    return roots


def _together(before: Visited | None, now: Visited) -> Visited:
    if before is None:
        return now
    if before.lean is now.lean:
        return before
    return Visited(before.node, Rounding.NEAREST, before.cited)


def _ways(
    node: Expression | Condition, result: CheckResult, lean: Rounding, margins: tuple[Margin, ...]
) -> tuple[Rounding, ...]:
    ways = leanings(node, result.values, lean)
    if isinstance(node, Inside):
        return leanings_of_point(node, margins) or ways
    return ways
