"""One sentence for each limit, in the plain English of the trade.

"front seat 98 kg, over 91 kg by 7 kg: 115 kg less three times the 8 kg in the nose locker (flight manual,
paragraph 2.4)".
"""

from __future__ import annotations

from dataclasses import dataclass

from engine.evaluation.result import CheckResult, FuelState, LimitResult, Margin
from engine.explanation.calculations import whole_steps
from engine.explanation.causes import causes_in_words
from engine.explanation.choosing import InDoubt, Otherwise, Taken, outcome
from engine.explanation.citing import Citations, citations
from engine.explanation.claims import claim_in_words
from engine.explanation.fuel import fuel_state_in_words
from engine.explanation.headlines import sides
from engine.explanation.phrases import Phrases
from grammar.sheet import (
    AllOf,
    AnyOf,
    AtLeast,
    AtMost,
    Between,
    Condition,
    ConditionChoice,
    Expression,
    Ground,
    Inside,
    Limit,
    NamedCondition,
    Not,
    Same,
    Sheet,
    Stated,
    Verdict,
    children,
)


@dataclass(frozen=True, slots=True)
class Sentences:
    """Writes the sentences of one answer."""

    sheet: Sheet
    phrases: Phrases
    citations: Citations

    def sentence(self, result: LimitResult) -> str:
        """How the limit came out, why, and on whose authority."""
        return f"{self.finding(result)} ({self.citations.ground_of(result.limit)})"

    def finding(self, result: LimitResult) -> str:
        """How the limit came out and why, without the paragraph."""
        match result.verdict:
            case Verdict.NOT_APPLICABLE:
                return f"does not apply: {self._what_lifts(result.limit)}"
            case Verdict.UNDETERMINED:
                return f"cannot be told: {causes_in_words(result.gap, self.phrases)}"
            case Verdict.WITHIN | Verdict.OUTSIDE:
                holds = result.verdict is Verdict.WITHIN
                found = "; ".join(self._findings(result.limit.claim, holds, result))
                return found + self._when(result.tightest)

    def _what_lifts(self, limit: Limit) -> str:
        if limit.applies_when is None:
            return "nothing that it speaks of is so"
        return self.phrases.said(limit.applies_when, False)

    def _when(self, tightest: FuelState | None) -> str:
        return "" if tightest is None else f", {fuel_state_in_words(self.sheet, tightest)}"

    def _findings(self, condition: Condition, holds: bool, result: LimitResult) -> list[str]:
        """A clause for each part that settles the outcome."""
        match condition:
            case AtMost() | AtLeast() | Between() | Inside():
                return [self._claim(condition, holds, result)]
            case NamedCondition():
                return self._findings(condition.body, holds, result)
            case AllOf() if holds and result.limit.ground is Ground.BURN and result.margins:
                return [self._claim(result.margins[0].claim, holds, result)]
            case AllOf() | AnyOf() if _has_margins(condition, result):
                return self._of_parts(condition, holds, result)
            case ConditionChoice():
                return self._of_choice(condition, holds, result)
            case Same() if whole_steps(condition) is not None and result.limit.ground is Ground.RANGE:
                return [self.phrases.steps(condition) if holds else self.phrases.said(condition, holds)]
            case _:
                return [self.phrases.said(condition, holds) + _judged(holds)]

    def _of_parts(self, condition: AllOf | AnyOf, holds: bool, result: LimitResult) -> list[str]:
        """The parts that settle the outcome, one by one.

        When none of several alternatives holds, no single one of them is what is not allowed.
        """
        parts = self._telling(condition, holds)
        if holds or isinstance(condition, AllOf):
            return [clause for part in parts for clause in self._findings(part, holds, result)]
        return [self._alternative(part, result) for part in parts if not _is_about_stating(part)]

    def _alternative(self, part: Condition, result: LimitResult) -> str:
        """One of several alternatives, none of which holds."""
        if isinstance(part, AtMost | AtLeast | Between | Inside):
            return self._measured(part, False, result) or self.phrases.said(part, False)
        return self.phrases.said(part, False)

    def _claim(self, claim: AtMost | AtLeast | Between | Inside, holds: bool, result: LimitResult) -> str:
        return self._measured(claim, holds, result) or self.phrases.said(claim, holds) + _judged(holds)

    def _measured(
        self, claim: AtMost | AtLeast | Between | Inside, holds: bool, result: LimitResult
    ) -> str | None:
        """The claim with its margins; None where they do not speak of the moment that is told."""
        margins = tuple(margin for margin in result.margins if margin.claim.slot == claim.slot)
        if not margins or _is_contradicted(margins, holds) or self._is_of_another_moment(margins, result):
            return None
        return claim_in_words(claim, margins, result.limit, holds, self.phrases)

    def _is_of_another_moment(self, margins: tuple[Margin, ...], result: LimitResult) -> bool:
        """Whether the margins of a part are not those of the moment that the sentence speaks of."""
        if result.tightest is None or margins[0] is result.margins[0]:
            return False
        subject, _ = sides(margins[0])
        return self.phrases.values[subject.slot] != margins[0].subject

    def _telling(self, condition: AllOf | AnyOf, holds: bool) -> tuple[Condition, ...]:
        """The parts that came out as the whole did; every part where none is on record as such."""
        values = self.phrases.values
        return tuple(part for part in condition.parts if values[part.slot] is holds) or condition.parts

    def _of_choice(self, choice: ConditionChoice, holds: bool, result: LimitResult) -> list[str]:
        match outcome(choice, self.phrases.values):
            case Taken(guard, value, _) if not isinstance(value, Expression):
                found, case = self._findings(value, holds, result), self.phrases.in_this_case([guard], True)
                joint = "" if case.startswith(",") else ","
                return [f"{'; '.join(found)}{joint}{case}"]
            case Otherwise(value, _) if not isinstance(value, Expression):
                return self._findings(value, holds, result)
            case Taken() | Otherwise() | InDoubt():
                return [self.phrases.said(choice, holds) + _judged(holds)]


def _judged(holds: bool) -> str:
    """What is added to a plain statement of what is so, when it is what a limit forbids."""
    return "" if holds else ", which is not allowed"


def _is_about_stating(condition: Condition) -> bool:
    """Whether a part only asks if something is stated: the language's own, and of no use to a reader."""
    return isinstance(condition, Stated) or (isinstance(condition, Not) and isinstance(condition.of, Stated))


def _has_margins(condition: Condition, result: LimitResult) -> bool:
    """Whether some part of the condition is a claim with a margin, so that the parts are told one by one."""
    measured = {margin.claim.slot for margin in result.margins}
    waiting: list[Expression | Condition] = [condition]
    while waiting:
        node = waiting.pop()
        if node.slot in measured:
            return True
        waiting.extend(children(node))
    return False


def _is_contradicted(margins: tuple[Margin, ...], holds: bool) -> bool:
    """Whether the margins speak of another moment than the outcome.

    Of alternatives that take turns during the burn each may be passed at some moment, and the limit kept.
    """
    if holds:
        return any(margin.room < 0 and margin.is_exact for margin in margins)
    return all(margin.room >= 0 for margin in margins)


def sentences(result: CheckResult) -> Sentences:
    """The writer of sentences for an answer."""
    return Sentences(result.sheet, Phrases(result.values), citations(result.sheet))
