"""The tree of reasons: how each limit came out, and each value on the way, down to its paragraph.

It is made from the pair of the checked sheet and the tuple of values, and from nothing else. A part that is
needed more than once (the mass at take-off, say) is explained where it first comes up and referred to after.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from engine.evaluation.result import Cause, CheckResult, FuelState, LimitResult, Margin
from engine.explanation.amounts import Shown, shown
from engine.explanation.assumptions import is_assumed
from engine.explanation.choosing import InDoubt, Otherwise, Taken, outcome, was_ordered
from engine.explanation.citing import Citation, Citations, citations, of_limit
from engine.explanation.leaning import leanings, leanings_of_point
from engine.explanation.operations import Operation, operation, parts_in_words
from grammar.figures import Rounding
from grammar.sheet import (
    Choice,
    Condition,
    ConditionChoice,
    Constant,
    Expression,
    FuelAmount,
    Input,
    Inside,
    Limit,
    LookUp,
    Named,
    NamedCondition,
    Read,
    Stage,
    Stated,
    Table,
    Tank,
    Verdict,
    children,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Explained:
    """What every reason carries: its slot, its value as shown, and where it stands in the sheet."""

    slot: int
    shown: Shown
    cited: Citation | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed(Explained):
    """A figure, a date or an option that the sheet prints."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FromInput(Explained):
    """What the weighing, the airframe's record or the request states, or what is taken where nobody does."""

    input: Input
    is_assumed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FuelLeft(Explained):
    """What the burn has left in a tank."""

    tank: Tank
    stage: Stage


@dataclass(frozen=True, slots=True, kw_only=True)
class UnderName(Explained):
    """A value that has a name, with the reason for it."""

    name: str
    label: str
    because: Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class ExplainedAbove(Explained):
    """A value under a name whose reason was given before."""

    name: str
    label: str


@dataclass(frozen=True, slots=True)
class Step:
    """A part of a calculation and the word that joins it: "less", "times", "at most", or none."""

    word: str
    reason: Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedOut(Explained):
    """A value worked out of others; ``table`` is the one that was read, if any."""

    operation: Operation
    steps: tuple[Step, ...]
    table: Table | None


Reason = Printed | FromInput | FuelLeft | UnderName | ExplainedAbove | WorkedOut


@dataclass(frozen=True, slots=True)
class LimitReason:
    """Why a limit came out as it did.

    ``applies`` is the reason for its condition (None where it has none); ``missing`` is what an undetermined
    verdict waits for; ``tightest`` is the fuel state at which a limit that holds throughout is tightest.
    """

    limit: Limit
    verdict: Verdict
    cited: Citation
    margins: tuple[Margin, ...]
    missing: tuple[Cause, ...]
    tightest: FuelState | None
    applies: Reason | None
    claim: Reason


def reasons(result: CheckResult) -> tuple[LimitReason, ...]:
    """The reasons for every limit, in the order of the sheet; shared parts are explained once in all."""
    maker = _Maker(result, citations(result.sheet))
    return tuple(maker.limit(each) for each in result.limits)


def reason_for(result: CheckResult, limit: LimitResult) -> LimitReason:
    """The reasons for one limit, complete in themselves."""
    return _Maker(result, citations(result.sheet)).limit(limit)


@dataclass(slots=True)
class _Maker:
    """Makes reasons from one answer, and remembers what has been explained."""

    result: CheckResult
    citations: Citations
    explained: set[int] = field(default_factory=set)
    margins: tuple[Margin, ...] = ()

    def limit(self, each: LimitResult) -> LimitReason:
        limit, self.margins = each.limit, each.margins
        cited = of_limit(limit)
        applies = None
        if limit.applies_when is not None:
            applies = self.reason(limit.applies_when, Rounding.NEAREST, cited)
        claim = self.reason(limit.claim, Rounding.DOWN, cited)
        causes = () if each.gap is None else each.gap.causes
        return LimitReason(limit, each.verdict, cited, each.margins, causes, each.tightest, applies, claim)

    def reason(self, node: Expression | Condition, lean: Rounding, around: Citation | None) -> Reason:
        slot, cited = node.slot, self.citations.of(node, around)
        here = shown(node, self.result.values[slot], lean)
        match node:
            case Constant():
                return Printed(slot=slot, shown=here, cited=cited)
            case Read() | Stated():
                taken = is_assumed(node.input, self.result)
                return FromInput(slot=slot, shown=here, cited=cited, input=node.input, is_assumed=taken)
            case FuelAmount():
                return FuelLeft(slot=slot, shown=here, cited=cited, tank=node.tank, stage=node.stage)
            case Named() | NamedCondition() if slot in self.explained:
                return ExplainedAbove(slot=slot, shown=here, cited=cited, name=node.name, label=node.label)
            case Named() | NamedCondition():
                return self._named(node, here, lean, cited)
            case _:
                return self._worked_out(node, here, lean, cited)

    def _named(
        self, node: Named | NamedCondition, here: Shown, lean: Rounding, cited: Citation | None
    ) -> UnderName:
        self.explained.add(node.slot)
        because = self.reason(node.body, lean, self.citations.below(node, cited))
        return UnderName(
            slot=node.slot, shown=here, cited=cited, name=node.name, label=node.label, because=because
        )

    def _worked_out(
        self, node: Expression | Condition, here: Shown, lean: Rounding, cited: Citation | None
    ) -> WorkedOut:
        table = node.table if isinstance(node, LookUp) else None
        steps = tuple(Step(word, self.reason(part, way, cited)) for word, part, way in self._told(node, lean))
        return WorkedOut(
            slot=node.slot, shown=here, cited=cited, operation=operation(node), steps=steps, table=table
        )

    def _told(
        self, node: Expression | Condition, lean: Rounding
    ) -> Iterator[tuple[str, Expression | Condition, Rounding]]:
        """The parts that explain the node: of a choice only the case taken, and what decided it."""
        if isinstance(node, Choice | ConditionChoice):
            yield from self._told_of_choice(node, lean)
            return
        ways = leanings(node, self.result.values, lean)
        if isinstance(node, Inside):
            ways = leanings_of_point(node, self.margins) or ways
        yield from zip(parts_in_words(node), children(node), ways, strict=True)

    def _told_of_choice(
        self, node: Choice | ConditionChoice, lean: Rounding
    ) -> Iterator[tuple[str, Expression | Condition, Rounding]]:
        match outcome(node, self.result.values):
            case Taken(guard, value, passed):
                yield "the case taken,", value, lean
                yield "as", guard, Rounding.NEAREST
                earlier = passed if was_ordered(node) else ()
            case Otherwise(value, passed):
                yield "what is left,", value, lean
                earlier = passed
            case InDoubt(guard):
                yield "in doubt:", guard, Rounding.NEAREST
                earlier = ()
        for guard in earlier:
            yield "passed over, as", guard, Rounding.NEAREST
