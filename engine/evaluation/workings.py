"""The workings of an evaluation: what is known so far, and the gaps."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from engine.evaluation.loading import Loading
from engine.evaluation.places import STANDING, Place
from engine.evaluation.ratio import Amount, Ratio
from engine.evaluation.result import Gap, Truth
from grammar.sheet import Condition, Expression, FuelAmount, Stage, children

Held = Amount | str | bool | Gap | None
"""What a slot holds while an evaluation is at work; moving values only within the sweep of a burn."""

Fuel = Mapping[tuple[str, Stage], Amount | Gap]
"""What each tank holds, by the tank's name and the stage."""

Node = Expression | Condition


@dataclass(slots=True)
class Workings:
    """The values so far by slot, and what the next ones are made from."""

    loading: Loading
    fuel: Fuel
    values: list[Held]
    place: Place = STANDING

    def amount(self, node: Expression) -> Amount | Gap:
        """The value of a numeric expression that has been worked out."""
        held = self.values[node.slot]
        if isinstance(held, (Fraction, Ratio, Gap)):
            return held
        raise TypeError(f"slot {node.slot} holds no amount: {held!r}")

    def value(self, node: Expression) -> Amount | str | Gap:
        """The value of any expression that has been worked out."""
        held = self.values[node.slot]
        if isinstance(held, (Fraction, Ratio, str, Gap)):
            return held
        raise TypeError(f"slot {node.slot} holds no value: {held!r}")

    def truth(self, node: Condition) -> Truth:
        """The truth of a condition that has been worked out."""
        held = self.values[node.slot]
        if isinstance(held, (bool, Gap)):
            return held
        raise TypeError(f"slot {node.slot} holds no truth: {held!r}")


def gap_among(values: Iterable[Held]) -> Gap | None:
    """The gaps among the values as one, or None where there is none."""
    found: Gap | None = None
    for value in values:
        if isinstance(value, Gap):
            found = value if found is None else found | value
    return found


def holds_all(truths: Iterable[Truth]) -> Truth:
    """Strong Kleene "and": false if any is false, else undetermined if any is."""
    gathered = tuple(truths)
    if any(truth is False for truth in gathered):
        return False
    return gap_among(gathered) or True


def holds_any(truths: Iterable[Truth]) -> Truth:
    """Strong Kleene "or": true if any is true, else undetermined if any is."""
    gathered = tuple(truths)
    if any(truth is True for truth in gathered):
        return True
    return gap_among(gathered) or False


def denied(truth: Truth) -> Truth:
    """Strong Kleene "not"."""
    return truth if isinstance(truth, Gap) else not truth


# ---- order of work


def in_working_order(roots: Iterable[Node], is_done: Callable[[int], bool] = lambda _: False) -> tuple[Node, ...]:
    """Every node that the roots are made of, each slot once, parts before what is made of them.

    No recursion: however deep a sheet nests, this works.
    """
    order: list[Node] = []
    seen: set[int] = set()
    waiting: list[tuple[Node, Iterator[Node] | None]] = [(root, None) for root in reversed(tuple(roots))]
    while waiting:
        node, parts = waiting.pop()
        if parts is None:
            if node.slot in seen or is_done(node.slot):
                continue
            seen.add(node.slot)
            parts = children(node)
        part = next(parts, None)
        if part is None:
            order.append(node)
        else:
            waiting += [(node, parts), (part, None)]
    return tuple(order)


def moving_slots(order: Iterable[Node]) -> frozenset[int]:
    """The slots of the nodes, given in working order, whose values move with the burn."""
    found: set[int] = set()
    for node in order:
        if isinstance(node, FuelAmount):
            moves = node.stage is Stage.THROUGHOUT
        else:
            moves = any(part.slot in found for part in children(node))
        if moves:
            found.add(node.slot)
    return frozenset(found)
