"""How a value came about, in a phrase that has the figures in it.

Such as "115 kg less three times the 8 kg in the nose locker", or, of a condition, "the engine is boosted,
not standard". A phrase about a condition always says what is so, never what ought to be.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engine.explanation.amounts import shown
from engine.explanation.choosing import InDoubt, Otherwise, Taken, outcome
from engine.explanation.leaning import Values, leanings
from engine.explanation.words import clean, counted, inside_a_sentence, listed, times
from grammar.figures import Rounding, show_difference
from grammar.sheet import (
    Above,
    Absolute,
    AllOf,
    AnyOf,
    AtLeast,
    AtMost,
    Below,
    Between,
    CalendarDate,
    Choice,
    Condition,
    ConditionChoice,
    Constant,
    Count,
    Expression,
    FuelAmount,
    Greatest,
    Inside,
    LaterDate,
    Least,
    LookUp,
    Named,
    NamedCondition,
    Not,
    Occupied,
    Option,
    Product,
    Quotient,
    Read,
    Role,
    Rounded,
    Same,
    Stage,
    Stated,
    Sum,
    children,
)
from grammar.units import PURE

_STAGE_WORDS = {
    Stage.RAMP: " at the ramp",
    Stage.TAKEOFF: " at take-off",
    Stage.LANDING: " at landing",
    Stage.ZERO_FUEL: " without fuel",
    Stage.THROUGHOUT: "",
}

_BOUND_OF = "bound of "
"""How the label of another limit's bound begins, before the label of the limit."""

_LOOSE = (Sum, Product, Quotient, Rounded, LookUp, LaterDate, Choice)
"""Expressions whose phrase needs brackets inside another calculation."""


def limit_of_bound(node: Named) -> str | None:
    """The label of the limit whose bound the name stands for; None where it stands for something else."""
    is_bound = node.is_built_in and node.name.startswith("bound(") and node.label.startswith(_BOUND_OF)
    return node.label.removeprefix(_BOUND_OF) if is_bound else None


def label_of(node: Named | NamedCondition) -> str:
    """The label of a name inside a sentence: "mass at take-off", "bound of "Maximum take-off mass""."""
    limit = limit_of_bound(node) if isinstance(node, Named) else None
    return inside_a_sentence(node.label) if limit is None else f'{_BOUND_OF}"{clean(limit)}"'


@dataclass(frozen=True, slots=True)
class Phrases:
    """Says how the values of one answer came about."""

    values: Values

    def figure(self, node: Expression, lean: Rounding) -> str:
        """The value of an expression, as a figure."""
        return str(shown(node, self.values[node.slot], lean))

    def phrase(self, node: Expression, lean: Rounding) -> str:
        """The expression in words, with the values it was worked out from."""
        match node:
            case Constant():
                return self.figure(node, lean)
            case Read():
                return self._stated(node, lean)
            case FuelAmount():
                label, stage = inside_a_sentence(node.tank.input.label), _STAGE_WORDS[node.stage]
                return f"the {self.figure(node, lean)} left in the {label}{stage}"
            case Named():
                return self._under_name(node, lean)
            case Choice():
                return self._case(node, lean)
            case _:
                return self._worked_out(node, lean)

    def _under_name(self, node: Named, lean: Rounding) -> str:
        limit = limit_of_bound(node)
        if limit is not None:
            return f'the {self.figure(node, lean)} of "{clean(limit)}"'
        return self._with_value(node, label_of(node), lean)

    def _stated(self, node: Read, lean: Rounding) -> str:
        label = inside_a_sentence(node.input.label)
        if node.input.role in (Role.LOAD, Role.TANK):
            return f"the {self.figure(node, lean)} in the {label}"
        return self._with_value(node, label, lean)

    def _with_value(self, node: Read | Named, label: str, lean: Rounding) -> str:
        figure = self.figure(node, lean)
        is_amount = not isinstance(node.kind, CalendarDate | Option)
        return f"the {label} of {figure}" if is_amount else f"the {label}, {figure}"

    def _case(self, node: Choice, lean: Rounding) -> str:
        match outcome(node, self.values):
            case Taken(guard, value, _):
                return f"{self._as_expression(value, lean)}, as {self.said(guard, True)}"
            case Otherwise(value, passed):
                reasons = listed([self.said(guard, False) for guard in passed])
                return f"{self._as_expression(value, lean)}, as {reasons}"
            case InDoubt():
                return f"{self.figure(node, lean)} in every case that remains possible"

    def _as_expression(self, value: Expression | Condition, lean: Rounding) -> str:
        return self.phrase(value, lean) if isinstance(value, Expression) else self.said(value, True)

    def _worked_out(self, node: Expression, lean: Rounding) -> str:
        leans = leanings(node, self.values, lean)
        match node:
            case Sum():
                return self._sum(node, leans)
            case Product():
                return self._product(node, leans)
            case Quotient():
                parts = self._operand(node.dividend, leans[0]), self._operand(node.divisor, leans[1])
                return f"{parts[0]} divided by {parts[1]}"
            case Least() | Greatest():
                return self._extreme(node, leans)
            case Absolute():
                return self._size(node.of, leans[0])
            case Rounded():
                return f"{self._operand(node.of, leans[0])} {rounding_in_words(node)}"
            case LookUp():
                arguments = [self.figure(one, lean) for one, lean in zip(node.arguments, leans, strict=True)]
                return f'the table "{clean(node.table.label)}" at {listed(arguments)}'
            case Count():
                return self._count(node)
            case LaterDate():
                return f"{span_in_words(node)} {self.phrase(node.date, leans[0])}"
            case _:
                return self.phrase(node, lean)

    def _sum(self, node: Sum, leans: tuple[Rounding, ...]) -> str:
        text = ""
        for (sign, term), lean in zip(node.terms, leans, strict=True):
            part = f"({self.phrase(term, lean)})" if isinstance(term, Sum | Choice) else self.phrase(term, lean)
            if text:
                text += f" plus {part}" if sign > 0 else f" less {part}"
            else:
                text = part if sign > 0 else f"minus {part}"
        return text

    def _product(self, node: Product, leans: tuple[Rounding, ...]) -> str:
        pairs = [(node.left, leans[0]), (node.right, leans[1])]
        if isinstance(node.right, Constant) and not isinstance(node.left, Constant):
            pairs.reverse()
        (factor, factor_lean), (of, of_lean) = pairs
        if isinstance(factor, Constant) and isinstance(factor.value, Fraction) and factor.unit in (None, PURE):
            words = times(factor.value)
            if words is not None:
                return f"{words} {self._operand(of, of_lean)}"
        return f"{self._operand(factor, factor_lean)} times {self._operand(of, of_lean)}"

    def _operand(self, node: Expression, lean: Rounding) -> str:
        phrase = self.phrase(node, lean)
        return f"({phrase})" if isinstance(node, _LOOSE) else phrase

    def _extreme(self, node: Least | Greatest, leans: tuple[Rounding, ...]) -> str:
        pair = ("lesser", "greater") if len(node.values) == 2 else ("least", "greatest")
        word = pair[0] if isinstance(node, Least) else pair[1]
        return f"the {word} of {listed([self._operand(*one) for one in zip(node.values, leans, strict=True)])}"

    def _size(self, node: Expression, lean: Rounding) -> str:
        match node:
            case Sum(terms=((1, first), (-1, second))):
                leans = leanings(node, self.values, lean)
                pair = self._operand(first, leans[0]), self._operand(second, leans[1])
                return f"the difference between {pair[0]} and {pair[1]}"
            case _:
                return f"the size of {self._operand(node, lean)}"

    def _count(self, node: Count) -> str:
        conditions = [one for one in node.conditions if isinstance(one, Occupied)]
        if len(conditions) == len(node.conditions):
            return f"the number occupied of {listed([self.name(one.place) for one in conditions])}"
        return f"how many of {counted(len(node.conditions), 'condition')} hold"

    # ---- names without values

    def name(self, node: Expression) -> str:
        """What an expression is called inside a sentence: its label, or how it is worked out."""
        match node:
            case Read():
                return inside_a_sentence(node.input.label)
            case FuelAmount():
                return inside_a_sentence(node.tank.input.label) + _STAGE_WORDS[node.stage]
            case Named():
                return label_of(node)
            case _:
                return self.phrase(node, Rounding.NEAREST)

    # ---- conditions

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
                return f"the {self.name(condition.place)} is {'occupied' if truth else 'empty'}"
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
            subject = f"the {self.name(left)} is {actual}"
            return subject if truth else f"{subject}, not {other}"
        words = "is the same as" if truth else "is not the same as"
        return f"{self.phrase(left, Rounding.NEAREST)} {words} {self.phrase(right, Rounding.NEAREST)}"

    def _compared(self, condition: AtMost | AtLeast | Below | Above, truth: bool) -> str:
        left, right = children(condition)
        is_date = isinstance(left, Expression) and isinstance(left.kind, CalendarDate)
        lean = Rounding.DOWN if truth else Rounding.UP
        words = _relation(condition, truth, is_date)
        sides = zip((left, right), leanings(condition, self.values, lean), strict=True)
        said = [self.phrase(one, way) for one, way in sides if isinstance(one, Expression)]
        return f" {words} ".join(said)


def rounding_in_words(node: Rounded) -> str:
    """How a value is rounded: "rounded up to a whole 10 kg"."""
    word = "up" if node.upward else "down"
    return f"rounded {word} to a whole {show_difference(node.step, node.unit or PURE)}"


def span_in_words(node: LaterDate) -> str:
    """By how much a date is moved, and which way: "48 months after", "30 days before"."""
    moves = [(number, word) for number, word in ((node.months, "month"), (node.days, "day")) if number]
    way = "before" if moves and all(number < 0 for number, _ in moves) else "after"
    sign = -1 if way == "before" else 1
    return f"{listed([counted(sign * number, word) for number, word in moves]) or 'no days'} {way}"


def _relation(condition: AtMost | AtLeast | Below | Above, truth: bool, is_date: bool) -> str:
    less, more = ("before", "after") if is_date else ("less than", "more than")
    match condition:
        case AtMost():
            return f"is not {more}" if truth else f"is {more}"
        case AtLeast():
            return f"is not {less}" if truth else f"is {less}"
        case Below():
            return f"is {less}" if truth else f"is not {less}"
        case Above():
            return f"is {more}" if truth else f"is not {more}"
