"""A sheet compiled: exact verdicts and values from straight-line code over whole numbers.

The code answers the usual case: everything stated, figures of usual length, nothing beyond a table. For all
else it gives None, and the plain evaluator answers over the same sheet. Both give the same answers.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final, cast

from engine.evaluation.burn import burn_stages
from engine.evaluation.compiling.assembling import Code, value_code, verdict_code
from engine.evaluation.compiling.layout import ASK_THE_SWEEP, Layout, MovingLayout, Piece, Pieces, row
from engine.evaluation.compiling.parts import Parts, parts_of
from engine.evaluation.compiling.writer import BeyondCompiling
from engine.evaluation.exact import evaluate_planned
from engine.evaluation.loading import Loading
from engine.evaluation.margins import tightest_first
from engine.evaluation.result import CheckResult, FuelState, LimitResult, SlotValue, overall
from engine.evaluation.settling import judge
from engine.evaluation.sweep import Sweep
from engine.evaluation.workings import Held, Workings
from grammar.sheet import Limit, Sheet, Verdict

Truths = tuple[bool | None, ...]
"""For each limit whether it holds; None where it does not apply."""

Numbers = tuple[int, ...]

MOST_BRACKETS: Final = 150
"""How many brackets may stand within one another in generated code: Python itself reads no more than 200."""

_BRACKET: Final = re.compile(r"[][(){}]")


@dataclass(frozen=True, slots=True)
class CompiledSheet:
    """A sheet and its code.

    ``verdicts`` and ``values`` take the sheet's numbers and give None where the plain evaluator has to
    answer. ``layout`` says what the values are worth.
    """

    parts: Parts
    verdicts: Callable[[Numbers], Truths | None]
    values: Callable[[Numbers], Pieces | None]
    layout: Layout | None
    sources: tuple[str, ...]

    @property
    def sheet(self) -> Sheet:
        """The sheet."""
        return self.parts.sheet

    def numbers(self, stated: Loading | Mapping[str, str]) -> Numbers | None:
        """The sheet's numbers for a loading or a flat request; None where the plain way has to take it."""
        if isinstance(stated, Loading):
            return self.parts.statement.from_loading(stated)
        return self.parts.statement.from_request(stated)

    def check(self, loading: Loading) -> CheckResult:
        """How every limit of the sheet comes out, as the plain evaluator has it."""
        numbers = self.numbers(loading)
        pieces = None if numbers is None else self.values(numbers)
        if pieces is None or self.layout is None:
            return evaluate_planned(self.parts.plan, loading)
        return _result(self.parts, self.layout, pieces, loading)


def compile_sheet(sheet: Sheet) -> CompiledSheet:
    """A sheet compiled; one that the compiled way does not cover leaves everything to the plain evaluator."""
    parts = parts_of(sheet)
    try:
        verdicts = verdict_code(parts)
        values, layout = value_code(parts)
    except BeyondCompiling:
        return CompiledSheet(parts, _nothing, _nothing, None, ())
    functions = _functions(verdicts, values)
    if functions is None:
        return CompiledSheet(parts, _nothing, _nothing, None, ())
    return CompiledSheet(
        parts,
        cast("Callable[[Numbers], Truths | None]", functions[0]),
        cast("Callable[[Numbers], Pieces | None]", functions[1]),
        layout,
        (verdicts.source, values.source),
    )


def check(sheet: Sheet, loading: Loading) -> CheckResult:
    """How every limit of a sheet comes out, as ``evaluate`` has it. For many loadings compile the sheet once."""
    return compile_sheet(sheet).check(loading)


def _functions(verdicts: Code, values: Code) -> tuple[object, object] | None:
    """The functions that generated code defines; None where it is larger than Python itself can take.

    A row of thousands of values or cases is within the bounds of a sheet, and beyond those of Python's compiler.
    """
    if max(_brackets(verdicts.source), _brackets(values.source)) > MOST_BRACKETS:
        return None
    try:
        return _function(verdicts, "verdicts"), _function(values, "values")
    except (MemoryError, RecursionError):
        return None


def _brackets(source: str) -> int:
    """How many brackets stand within one another in generated code."""
    depth = deepest = 0
    for sign in _BRACKET.findall(source):
        depth += 1 if sign in "([{" else -1
        deepest = max(deepest, depth)
    return deepest


def _nothing(_: Numbers) -> None:
    return None


def _function(code: Code, name: str) -> object:
    """The function that generated code defines. The code holds no text from the sheet or a request."""
    space: dict[str, object] = dict(code.data.pieces)
    exec(compile(code.source, "<compiled sheet>", "exec"), space)
    return space[name]


# ---- the whole answer


def _result(parts: Parts, layout: Layout, pieces: Pieces, loading: Loading) -> CheckResult:
    known = Workings(loading, {}, [slot.read(pieces) for slot in layout.slots])
    moved: dict[int, Held] = {}
    results: list[LimitResult] = []
    for at, limit in enumerate(parts.sheet.limits):
        moving, truth = layout.moving.get(at), pieces[layout.verdicts[at]]
        if at not in parts.moving:
            results.append(_standing(limit, known))
        elif moving is None or truth == ASK_THE_SWEEP:
            swept = _sweep(parts, at, known).run()
            results.append(swept.result)
            moved |= swept.values
        else:
            results.append(_moving(limit, moving, truth, pieces, layout))
    for slot, held in moved.items():
        known.values[slot] = held
    gathered = tuple(results)
    return CheckResult(
        parts.sheet, loading, overall(gathered), gathered, cast("tuple[SlotValue, ...]", tuple(known.values))
    )


def _standing(limit: Limit, known: Workings) -> LimitResult:
    judgement = judge(limit, known)
    margins = tightest_first(room.standing() for room in judgement.rooms)
    return LimitResult(limit, judgement.verdict, margins, judgement.gap)


def _sweep(parts: Parts, at: int, known: Workings) -> Sweep:
    sheet = parts.sheet
    course = burn_stages(sheet, Workings(known.loading, {}, [])).throughout
    return Sweep(sheet, sheet.limits[at], parts.plan.moving[at], known, course)


def _moving(limit: Limit, moving: MovingLayout, truth: Piece, pieces: Pieces, layout: Layout) -> LimitResult:
    state = _state(layout, pieces, row(pieces[moving.levels]))
    if truth is None:
        return LimitResult(limit, Verdict.NOT_APPLICABLE, (), None, state)
    margins = tightest_first(side.margin(moving.claim, pieces) for side in moving.sides)
    return LimitResult(limit, Verdict.WITHIN if truth else Verdict.OUTSIDE, margins, None, state)


def _state(layout: Layout, pieces: Pieces, levels: tuple[int, ...]) -> FuelState:
    if layout.takeoff is None:
        raise TypeError("a limit that moves with a burn that is not there")
    burned = sum(row(pieces[layout.takeoff])) - sum(levels)
    return FuelState(burned * layout.fuel_step, tuple(level * layout.fuel_step for level in levels))
