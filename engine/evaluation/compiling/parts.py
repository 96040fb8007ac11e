"""What the compiled way needs to know of a sheet before it writes any code."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from engine.evaluation.compiling.layout import ASK_THE_SWEEP
from engine.evaluation.compiling.moving import Moving, moving_limit
from engine.evaluation.compiling.scales import steps
from engine.evaluation.compiling.stating import Statement, taker
from engine.evaluation.compiling.writer import BeyondCompiling
from engine.evaluation.exact import Plan, evaluate_planned, plan_of
from engine.evaluation.loading import Loading
from engine.evaluation.workings import Node
from grammar.sheet import (
    Constant,
    FuelAmount,
    Input,
    Limit,
    Option,
    Read,
    Role,
    Sheet,
    Stage,
    Stated,
    Verdict,
    children,
)


@dataclass(frozen=True, slots=True)
class Parts:
    """A sheet laid out for compiling.

    ``needed`` are the inputs whose numbers the code takes, ``flagged`` those of which it asks whether they
    are stated. ``moving`` has each limit that moves with the burn by its number, None where it is left to
    the sweep. ``shared`` are the slots that more than one node is made from, ``stages`` the stages of which
    the fuel is asked for.
    """

    plan: Plan
    statement: Statement
    steps: dict[str, Fraction]
    words: tuple[str, ...]
    needed: tuple[Input, ...]
    flagged: tuple[Input, ...]
    moving: dict[int, Moving | None]
    shared: frozenset[int]
    stages: frozenset[Stage]

    @property
    def sheet(self) -> Sheet:
        """The sheet."""
        return self.plan.sheet

    @property
    def fuel_step(self) -> Fraction:
        """What one whole number of fuel is worth; one for a sheet without fuel."""
        return self.steps[self.sheet.tanks[0].input.name] if self.sheet.tanks else Fraction(1)

    def number_of(self) -> dict[str, int]:
        """The number of each option's word."""
        return {word: at for at, word in enumerate(self.words)}


def parts_of(sheet: Sheet) -> Parts:
    """The parts of a sheet."""
    plan = plan_of(sheet)
    nodes = tuple(_nodes(plan))
    worth, words = steps(sheet), tuple(dict.fromkeys(_words(sheet, nodes)))
    needed, flagged = _needed(sheet, nodes), _flagged(nodes)
    return Parts(
        plan,
        _statement(sheet, worth, words, needed, flagged),
        worth,
        words,
        needed,
        flagged,
        {at: _moving(sheet.limits[at], found) for at, found in enumerate(plan.moving) if found},
        _shared(nodes),
        frozenset(node.stage for node in nodes if isinstance(node, FuelAmount)),
    )


def _statement(
    sheet: Sheet,
    worth: dict[str, Fraction],
    words: tuple[str, ...],
    needed: tuple[Input, ...],
    flagged: tuple[Input, ...],
) -> Statement:
    numbers = {word: at for at, word in enumerate(words)}
    takers = {item.name: taker(item, worth[item.name], numbers) for item in sheet.inputs}
    assumed = tuple((item.name, _assumed(item, worth[item.name], numbers)) for item in needed)
    loads = frozenset(item.name for item in sheet.inputs if item.role is Role.LOAD)
    return Statement(takers, assumed, tuple(item.name for item in flagged), loads)


def _nodes(plan: Plan) -> Iterator[Node]:
    yield from plan.still
    for moving in plan.moving:
        yield from moving


def _words(sheet: Sheet, nodes: tuple[Node, ...]) -> Iterator[str]:
    for item in sheet.inputs:
        if isinstance(item.kind, Option):
            yield from item.kind.options
    for node in nodes:
        if isinstance(node, Constant) and isinstance(node.value, str):
            yield node.value


def _needed(sheet: Sheet, nodes: tuple[Node, ...]) -> tuple[Input, ...]:
    names = {node.input.name for node in nodes if isinstance(node, (Read, Stated))}
    names |= {tank.input.name for tank in sheet.tanks}
    if sheet.burn is not None:
        names |= {sheet.burn.taxi.name, sheet.burn.trip.name}
    return tuple(item for item in sheet.inputs if item.name in names)


def _flagged(nodes: tuple[Node, ...]) -> tuple[Input, ...]:
    """What is asked of and may be left out: of any other input the numbers are there only if it is stated."""
    asked = {node.input.name: node.input for node in nodes if isinstance(node, Stated)}
    return tuple(item for item in asked.values() if item.assumed is not None)


def _moving(limit: Limit, nodes: tuple[Node, ...]) -> Moving | None:
    try:
        return moving_limit(limit, nodes)
    except BeyondCompiling:
        return None


def _shared(nodes: tuple[Node, ...]) -> frozenset[int]:
    counted = Counter(part.slot for node in nodes for part in children(node))
    return frozenset(slot for slot, times in counted.items() if times > 1)


def _assumed(item: Input, step: Fraction, numbers: dict[str, int]) -> int | None:
    """The number taken where nobody states one; None where it is missed."""
    if isinstance(item.assumed, str):
        return numbers[item.assumed]
    return None if item.assumed is None else int(item.assumed / step)


def loading_of(parts: Parts, numbers: tuple[int, ...]) -> Loading:
    """The loading that numbers were taken from, as far as the sheet needs it."""
    flags = dict(zip((item.name for item in parts.flagged), numbers[len(parts.needed) :], strict=True))
    pairs = zip(parts.needed, numbers, strict=False)
    stated = {item.name: _value(item, number, parts) for item, number in pairs if flags.get(item.name, 1)}
    return Loading(stated)


def _value(item: Input, number: int, parts: Parts) -> Fraction | str:
    return parts.words[number] if isinstance(item.kind, Option) else number * parts.steps[item.name]


@dataclass(frozen=True, slots=True)
class SweptVerdict:
    """The verdict of the plain sweep on one limit, for a place in compiled code."""

    parts: Parts
    at: int

    def __call__(self, numbers: tuple[int, ...]) -> int | bool | None:
        """True, False, None where the limit does not apply, or that it cannot be told."""
        limit = self.parts.sheet.limits[self.at]
        plan = plan_of(replace(self.parts.sheet, limits=(limit,)))
        (result,) = evaluate_planned(plan, loading_of(self.parts, numbers)).limits
        match result.verdict:
            case Verdict.WITHIN | Verdict.OUTSIDE:
                return result.verdict is Verdict.WITHIN
            case Verdict.NOT_APPLICABLE:
                return None
            case Verdict.UNDETERMINED:
                return ASK_THE_SWEEP
