"""What is so when a condition has come out, in a phrase with the figures in it.

Such as "the engine is boosted, not standard": always what is so, never what ought to be.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.explanation.calculations import Calculations, whole_steps
from engine.explanation.choosing import Otherwise, Taken, outcome
from engine.explanation.leaning import leanings
from engine.explanation.naming import counted_places, tank_of
from engine.explanation.words import clean, filled_or_empty, inside_a_sentence, is_plural, listed
from grammar.figures import Rounding, show_difference
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
from grammar.units import PURE


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
                return filled_or_empty(self.name(condition.place), truth)
            case Stated():
                word = "stated" if truth else "not stated"
                return f"{inside_a_sentence(condition.input.label)} {word}"
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
        return listed([self.said(part, truth) for part in self._telling(condition, truth)])

    def _telling(self, condition: AllOf | AnyOf, truth: bool) -> tuple[Condition, ...]:
        """The parts that came out as the whole did; every part where none is on record as such."""
        return tuple(part for part in condition.parts if self.values[part.slot] is truth) or condition.parts

    def _condition_case(self, condition: ConditionChoice, truth: bool) -> str:
        match outcome(condition, self.values):
            case Taken(guard, value, _) if not isinstance(value, Expression):
                return f"{self.said(value, truth)}{self.in_this_case([guard], True)}"
            case Otherwise(value, passed) if not isinstance(value, Expression):
                return f"{self.said(value, truth)}{self.in_this_case(passed, False)}"
            case _:
                return f"it {'holds' if truth else 'fails'} in every case that remains possible"

    def _same(self, condition: Same, truth: bool) -> str:
        left, right = condition.left, condition.right
        if isinstance(left.kind, Option):
            subject = f"{self.name(left)} given as {self.figure(left, Rounding.NEAREST)}"
            is_plain = truth or left.kind.is_yes_or_no
            return subject if is_plain else f"{subject}, not {self.figure(right, Rounding.NEAREST)}"
        if whole_steps(condition) is not None:
            return self._in_steps(condition, truth)
        counting = counted_places(condition)
        if counting is not None:
            count, number = counting
            unlike = "" if truth else f", not {self.figure(number, Rounding.NEAREST)}"
            return self.count(count) + unlike
        words = "is the same as" if truth else "is not the same as"
        return f"{self.phrase(left, Rounding.NEAREST)} {words} {self.phrase(right, Rounding.NEAREST)}"

    def _in_steps(self, condition: Same, truth: bool) -> str:
        """ "trim plates 4 kg, not a whole number of 1.5 kg"."""
        subject = f"{self.name(condition.left)} {self.figure(condition.left, Rounding.NEAREST)}"
        return f"{subject}, {'' if truth else 'not '}{self.steps(condition)}"

    @staticmethod
    def steps(condition: Same) -> str:
        """The steps that a load comes in: "a whole number of 1.5 kg"."""
        rounded = whole_steps(condition)
        assert rounded is not None
        return f"a whole number of {show_difference(rounded.step, rounded.unit or PURE)}"

    def in_this_case(self, guards: Sequence[Condition], truth: bool) -> str:
        """What settled a choice, to stand after the case taken: " for engine standard".

        Only the case taken is told: of several guards that failed none is repeated.
        """
        options = [self._options(guard, truth) for guard in guards]
        if all(options):
            return f" for {listed(list(dict.fromkeys(word for words in options for word in words)))}"
        if len(guards) == 1:
            return f", as {self.said(guards[0], truth)}"
        return f", as none of the {len(guards)} other cases holds"

    def _options(self, condition: Condition, truth: bool) -> tuple[str, ...]:
        """What was chosen where a guard hangs on nothing else: "engine standard"; empty for other guards."""
        match condition:
            case NamedCondition():
                return self._options(condition.body, truth)
            case Not():
                return self._options(condition.of, not truth)
            case Same(left=left) if isinstance(left.kind, Option):
                joint = " given as " if left.kind.is_yes_or_no else " "
                return (f"{self.name(left)}{joint}{self.figure(left, Rounding.NEAREST)}",)
            case AllOf() | AnyOf():
                telling = [self._options(part, truth) for part in self._telling(condition, truth)]
                return tuple(word for words in telling for word in words) if all(telling) else ()
            case _:
                return ()

    def _compared(self, condition: AtMost | AtLeast | Below | Above, truth: bool) -> str:
        left, right = children(condition)
        is_date = isinstance(left, Expression) and isinstance(left.kind, CalendarDate)
        verb = "are" if isinstance(left, Named) and tank_of(left) is None and is_plural(self.name(left)) else "is"
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
