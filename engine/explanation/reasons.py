"""Making the tree of reasons: how each limit came out, and each value on the way, down to its paragraph.

It is made from the pair of the checked sheet and the tuple of values, and from nothing else. A part that is
needed more than once (the mass at take-off, say) is explained where it first comes up and referred to after.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from engine.evaluation.result import CheckResult, LimitResult, Margin
from engine.explanation.amounts import Holds, Shown, of_input, shown
from engine.explanation.assumptions import is_assumed
from engine.explanation.calculations import later_in_words, rounding_in_words, taking_in_words
from engine.explanation.choosing import InDoubt, Otherwise, Taken, outcome, was_ordered
from engine.explanation.citing import Citation, Citations, citations, of_limit
from engine.explanation.leaning import leanings, leanings_of_point
from engine.explanation.naming import label_of
from engine.explanation.operations import in_a_line, operation, parts_in_words
from engine.explanation.phrases import Phrases
from engine.explanation.reason_tree import (
    Chart,
    ExplainedAbove,
    FromInput,
    FuelLeft,
    LimitReason,
    Printed,
    Reason,
    Step,
    UnderName,
    WorkedOut,
)
from engine.explanation.words import clean
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
    LaterDate,
    LookUp,
    Named,
    NamedCondition,
    Read,
    Rounded,
    Stated,
    children,
)


def reasons(result: CheckResult) -> tuple[LimitReason, ...]:
    """The reasons for every limit, in the order of the sheet; shared parts are explained once in all."""
    maker = _Maker(result, citations(result.sheet), Phrases(result.values))
    return tuple(maker.limit(each) for each in result.limits)


def reason_for(result: CheckResult, limit: LimitResult) -> LimitReason:
    """The reasons for one limit, complete in themselves."""
    return _Maker(result, citations(result.sheet), Phrases(result.values)).limit(limit)


@dataclass(slots=True)
class _Maker:
    """Makes reasons from one answer, and remembers what has been explained."""

    result: CheckResult
    citations: Citations
    phrases: Phrases
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
                return self._fuel_left(node, here, cited)
            case Named() | NamedCondition() if slot in self.explained:
                label = label_of(node)
                return ExplainedAbove(slot=slot, shown=here, cited=cited, name=node.name, label=label)
            case Named() | NamedCondition():
                return self._named(node, here, lean, cited)
            case _:
                return self._worked_out(node, here, lean, cited)

    def _fuel_left(self, node: FuelAmount, here: Shown, cited: Citation | None) -> FuelLeft:
        burn = self.result.sheet.burn
        return FuelLeft(
            slot=node.slot,
            shown=here,
            cited=cited,
            tank=node.tank,
            stage=node.stage,
            held=self._stated(node.tank.input),
            taxi=None if burn is None else self._stated(burn.taxi),
            trip=None if burn is None else self._stated(burn.trip),
        )

    def _stated(self, item: Input) -> Shown | None:
        value = self.result.loading.stated.get(item.name, item.assumed)
        return None if value is None else of_input(item, value)

    def _named(
        self, node: Named | NamedCondition, here: Shown, lean: Rounding, cited: Citation | None
    ) -> UnderName:
        self.explained.add(node.slot)
        because = self.reason(node.body, lean, self.citations.below(node, cited))
        return UnderName(
            slot=node.slot, shown=here, cited=cited, name=node.name, label=label_of(node), because=because
        )

    def _worked_out(
        self, node: Expression | Condition, here: Shown, lean: Rounding, cited: Citation | None
    ) -> WorkedOut:
        said = None
        if isinstance(node, Condition) and isinstance(here, Holds):
            said = self.phrases.said(node, here.is_true)
        steps = tuple(Step(word, self.reason(part, way, cited)) for word, part, way in self._told(node, lean))
        return WorkedOut(
            slot=node.slot,
            shown=here,
            cited=cited,
            operation=operation(node),
            how=_how(node),
            said=said,
            steps=steps,
            chart=_chart(node),
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
                yield "because", guard, Rounding.NEAREST
                earlier = passed if was_ordered(node) else ()
            case Otherwise(value, passed):
                yield "what is left,", value, lean
                earlier = passed
            case InDoubt(guard):
                yield "in doubt:", guard, Rounding.NEAREST
                earlier = ()
        for guard in earlier:
            yield "passed over, as", guard, Rounding.NEAREST


def _chart(node: Expression | Condition) -> Chart | None:
    match node:
        case LookUp(table=chart) | Inside(envelope=chart):
            return Chart(chart.label, Citation(chart.name, chart.span.file, chart.span.line, chart.source))
        case _:
            return None


def _how(node: Expression | Condition) -> str:
    match node:
        case LookUp():
            return f'read from the table "{clean(node.table.label)}"{taking_in_words(node.table)}'
        case Rounded():
            return f"{rounding_in_words(node)} from"
        case LaterDate():
            return later_in_words(node)
        case _:
            return in_a_line(operation(node))
