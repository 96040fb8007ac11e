"""The exact evaluation of a sheet: every limit, every margin, every value, in rational arithmetic."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engine.evaluation.burn import Course, amounts_by_stage, burn_stages
from engine.evaluation.loading import Loading
from engine.evaluation.margins import tightest_first
from engine.evaluation.ratio import Ratio
from engine.evaluation.result import CheckResult, LimitResult, SlotValue, Value, overall
from engine.evaluation.settling import judge
from engine.evaluation.sweep import Sweep
from engine.evaluation.working_out import work_out
from engine.evaluation.workings import Held, Node, Workings, in_working_order, moving_slots
from grammar.sheet import Expression, Limit, Sheet


@dataclass(frozen=True, slots=True)
class Plan:
    """The order of work for a sheet, so that many loadings can be evaluated without finding it again.

    ``still`` are the nodes that do not move with the burn, parts first; ``moving`` has for each limit, in
    the order of the sheet, those that do.
    """

    sheet: Sheet
    still: tuple[Node, ...]
    moving: tuple[tuple[Node, ...], ...]


def plan_of(sheet: Sheet) -> Plan:
    """The order of work for a sheet."""
    orders = [in_working_order(_roots(limit)) for limit in sheet.limits]
    moving = frozenset[int]().union(*(moving_slots(order) for order in orders))
    still = {node.slot: node for order in orders for node in order if node.slot not in moving}
    return Plan(
        sheet,
        tuple(still.values()),
        tuple(tuple(node for node in order if node.slot in moving) for order in orders),
    )


def _roots(limit: Limit) -> tuple[Node, ...]:
    return (limit.claim,) if limit.applies_when is None else (limit.claim, limit.applies_when)


def evaluate(sheet: Sheet, loading: Loading) -> CheckResult:
    """How every limit of the sheet comes out for a loading."""
    return evaluate_planned(plan_of(sheet), loading)


def evaluate_planned(plan: Plan, loading: Loading) -> CheckResult:
    """How every limit of a planned sheet comes out for a loading."""
    known, course = _begun(plan.sheet, loading)
    work_out(plan.still, known)
    results: list[LimitResult] = []
    moved: dict[int, Held] = {}
    for limit, moving in zip(plan.sheet.limits, plan.moving, strict=True):
        if moving:
            swept = Sweep(plan.sheet, limit, moving, known, course).run()
            results.append(swept.result)
            moved |= swept.values
        else:
            results.append(_standing_result(limit, known))
    for slot, held in moved.items():
        known.values[slot] = held
    gathered = tuple(results)
    return CheckResult(plan.sheet, loading, overall(gathered), gathered, _settled(known.values))


def moves_with_burn(expression: Expression) -> bool:
    """Whether the value differs from moment to moment of the burn."""
    return bool(moving_slots(in_working_order((expression,))))


def value_for(sheet: Sheet, loading: Loading, expression: Expression) -> Value:
    """The value of one expression for a loading. Errors: ValueError where it moves with the burn."""
    order = in_working_order((expression,))
    if moving_slots(order):
        raise ValueError("the value differs from moment to moment of the burn")
    known, _ = _begun(sheet, loading)
    work_out(order, known)
    value = known.value(expression)
    return _still(value) if isinstance(value, Ratio) else value


def _begun(sheet: Sheet, loading: Loading) -> tuple[Workings, Course]:
    """The workings with the fuel at each stage known, and the course of the burn."""
    empty = Workings(loading, {}, [])
    stages = burn_stages(sheet, empty)
    return Workings(loading, amounts_by_stage(sheet, stages), [None] * sheet.slots), stages.throughout


def _standing_result(limit: Limit, known: Workings) -> LimitResult:
    judgement = judge(limit, known)
    margins = tightest_first(room.standing() for room in judgement.rooms)
    return LimitResult(limit, judgement.verdict, margins, judgement.gap)


def _settled(values: list[Held]) -> tuple[SlotValue, ...]:
    return tuple(_still(value) if isinstance(value, Ratio) else value for value in values)


def _still(value: Ratio) -> Fraction:
    raise TypeError(f"a value that moves with the burn was left over: {value}")
