"""What is so when a condition has come out, in a phrase with the figures in it.

Such as "the engine is boosted, not standard": always what is so, never what ought to be.
"""

from __future__ import annotations

from dataclasses import dataclass

from engine.explanation.calculations import Calculations
from engine.explanation.choosing import Otherwise, Taken, outcome
from engine.explanation.leaning import leanings
from engine.explanation.naming import tank_of
from engine.explanation.words import clean, inside_a_sentence, is_or_are, listed
from grammar.figures import Rounding
from grammar.sheet import (
    Above,
    AllOf,
    AnyOf,
    AtLeast,
    AtMost,
    Below,
    Between,
    CalendarDate,
    Condition,
    ConditionChoice,
    Expression,
    Inside,
    Named,
    NamedCondition,
    Not,
    Occupied,
    Option,
    Same,
    Stated,
    children,
)


@dataclass(frozen=True, slots=True)
class Phrases(Calculations):
    """Says how the values and the outcomes of one answer came about."""

    def said(self, condition: Condition, truth: bool) -> str:
        """What is so when the condition has this outcome."""
        match condition:
            case NamedCondition():
                return self.said(condition.body, truth)
            case Not():
                return self.said(condition.of, not truth)
            case AllOf() | AnyOf():
                return self._several(condition, truth)
            case ConditionChoice():
                return self._condition_case(condition, truth)
            case Occupied():
                place = self.name(condition.place)
                return f"the {place} {is_or_are(place)} {'occupied' if truth else 'empty'}"
            case Stated():
                word = "stated" if truth else "not stated"
                return f"the {inside_a_sentence(condition.input.label)} is {word}"
            case Same():
                return self._same(condition, truth)
            case Between():
                low, high = (self.figure(end, Rounding.NEAREST) for end in (condition.low, condition.high))
                words = "lies between" if truth else "does not lie between"
                return f"{self.phrase(condition.subject, Rounding.NEAREST)} {words} {low} and {high}"
            case Inside():
                across, against = (self.phrase(part, Rounding.NEAREST) for part in self._point(condition))
                where = "inside" if truth else "outside"
                return f'{across} at {against} lies {where} the envelope "{clean(condition.envelope.label)}"'
            case AtMost() | AtLeast() | Below() | Above():
                return self._compared(condition, truth)

    @staticmethod
    def _point(condition: Inside) -> tuple[Expression, Expression]:
        return condition.across, condition.against

    def _several(self, condition: AllOf | AnyOf, truth: bool) -> str:
        telling = [part for part in condition.parts if self.values[part.slot] is truth] or condition.parts
        return listed([self.said(part, truth) for part in telling])

    def _condition_case(self, condition: ConditionChoice, truth: bool) -> str:
        match outcome(condition, self.values):
            case Taken(guard, value, _) if not isinstance(value, Expression):
                return f"{self.said(value, truth)}, as {self.said(guard, True)}"
            case Otherwise(value, passed) if not isinstance(value, Expression):
                reasons = listed([self.said(guard, False) for guard in passed])
                return f"{self.said(value, truth)}, as {reasons}"
            case _:
                return f"it {'holds' if truth else 'fails'} in every case that remains possible"

    def _same(self, condition: Same, truth: bool) -> str:
        left, right = condition.left, condition.right
        if isinstance(left.kind, Option):
            actual, other = self.figure(left, Rounding.NEAREST), self.figure(right, Rounding.NEAREST)
            if left.kind.is_yes_or_no:
                return f"{self.name(left)} is {actual}"
            subject = f"the {self.name(left)} {is_or_are(self.name(left))} {actual}"
            return subject if truth else f"{subject}, not {other}"
        words = "is the same as" if truth else "is not the same as"
        return f"{self.phrase(left, Rounding.NEAREST)} {words} {self.phrase(right, Rounding.NEAREST)}"

    def _compared(self, condition: AtMost | AtLeast | Below | Above, truth: bool) -> str:
        left, right = children(condition)
        is_date = isinstance(left, Expression) and isinstance(left.kind, CalendarDate)
        verb = is_or_are(self.name(left)) if isinstance(left, Named) and tank_of(left) is None else "is"
        words = f"{verb} {_relation(condition, truth, is_date)}"
        sides = zip((left, right), leanings(condition, self.values, Rounding.DOWN), strict=True)
        said = [self.phrase(one, way) for one, way in sides if isinstance(one, Expression)]
        return f" {words} ".join(said)


def _relation(condition: AtMost | AtLeast | Below | Above, truth: bool, is_date: bool) -> str:
    less, more = ("before", "after") if is_date else ("less than", "more than")
    match condition:
        case AtMost():
            return f"not {more}" if truth else more
        case AtLeast():
            return f"not {less}" if truth else less
        case Below():
            return less if truth else f"not {less}"
        case Above():
            return more if truth else f"not {more}"
