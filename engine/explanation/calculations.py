"""How a value came about, in a phrase with the figures in it: "115 kg less three times the 8 kg in the nose
locker"."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from engine.explanation.amounts import shown
from engine.explanation.choosing import InDoubt, Otherwise, Taken, outcome
from engine.explanation.leaning import Values, leanings
from engine.explanation.naming import DeclaredMass, declared_mass, label_of, limit_of_bound, tank_left, tank_of
from engine.explanation.words import carried_by, clean, counted, inside_a_sentence, listed, times
from grammar.figures import ABOUT, Rounding, show_difference
from grammar.sheet import (
    Absolute,
    CalendarDate,
    Choice,
    Condition,
    Constant,
    Count,
    Expression,
    FuelAmount,
    Greatest,
    LaterDate,
    Least,
    LookUp,
    Named,
    NamedCondition,
    Occupied,
    Option,
    Product,
    Quotient,
    Read,
    Role,
    Rounded,
    Same,
    Sum,
    Table,
    Taking,
    children,
)
from grammar.units import PURE

_LOOSE_IN_A_LIST = (Least, Greatest, Absolute, Rounded)
_LOOSE_IN_A_SUM = (*_LOOSE_IN_A_LIST, Sum, Choice)
_LOOSE_IN_A_PRODUCT = (*_LOOSE_IN_A_SUM, Product, Quotient, LookUp, LaterDate)
"""Expressions whose phrase stands in brackets inside a list, a sum, a product."""


DEEPEST_TOLD: Final = 60
"""How many levels of values within values a sentence tells; of what goes deeper it gives the figure alone."""


def _is_too_deep_to_tell(node: Expression) -> bool:
    """Whether more levels stand within one another than a sentence can tell. What has a name is told by it."""
    level: list[Expression | Condition] = [node]
    seen: set[int] = set()
    for _ in range(DEEPEST_TOLD):
        below = [part for one in level if not isinstance(one, Named | NamedCondition) for part in children(one)]
        level = [part for part in below if part.slot not in seen]
        seen.update(part.slot for part in level)
        if not level:
            return False
    return True


@dataclass(frozen=True, slots=True)
class Calculations(ABC):
    """Says how the values of one answer came about; what is said of a condition is left to ``said``."""

    values: Values

    @abstractmethod
    def said(self, condition: Condition, truth: bool) -> str:
        """What is so when the condition has this outcome."""

    @abstractmethod
    def in_this_case(self, guards: Sequence[Condition], truth: bool) -> str:
        """What settled a choice, to stand after the case taken: " for engine standard"."""

    def figure(self, node: Expression, lean: Rounding) -> str:
        """The value of an expression, as a figure."""
        return str(shown(node, self.values[node.slot], lean))

    def _the_figure(self, node: Expression, lean: Rounding) -> str:
        """The value with its article: "the 8 kg", but "about 3.334 kg"."""
        figure = self.figure(node, lean)
        return figure if figure.startswith(ABOUT) else f"the {figure}"

    def phrase(self, node: Expression, lean: Rounding) -> str:
        """The expression in words, with the values it was worked out from."""
        match node:
            case Constant():
                return self.figure(node, lean)
            case Read():
                return self._stated(node, lean)
            case FuelAmount():
                return f"{self._the_figure(node, lean)} left {carried_by(self.name(node))}"
            case Named():
                return self._under_name(node, lean)
            case Choice():
                return self._case(node, lean)
            case _:
                return self._worked_out(node, lean)

    def _under_name(self, node: Named, lean: Rounding) -> str:
        limit = limit_of_bound(node)
        if limit is not None:
            return f'{self._the_figure(node, lean)} of "{clean(limit)}"'
        tank = tank_of(node)
        if tank is not None:
            return f"{self._the_figure(node, lean)} {carried_by(tank)}"
        declared = declared_mass(node)
        if declared is not None:
            place = carried_by(declared.stated.input.label)
            return f"{self._the_figure(node, lean)} {place}{self._in_brackets(declared)}"
        return self._with_value(node, label_of(node), lean)

    def _stated(self, node: Read, lean: Rounding) -> str:
        label = inside_a_sentence(node.input.label)
        if node.input.role in (Role.LOAD, Role.TANK):
            return f"{self._the_figure(node, lean)} {carried_by(node.input.label)}"
        return self._with_value(node, label, lean)

    def _with_value(self, node: Read | Named, label: str, lean: Rounding) -> str:
        figure = self.figure(node, lean)
        is_amount = not isinstance(node.kind, CalendarDate | Option)
        return f"the {label} of {figure}" if is_amount else f"the {label}, {figure}"

    def _case(self, node: Choice, lean: Rounding) -> str:
        match outcome(node, self.values):
            case Taken(guard, value, _):
                return self._as_expression(value, lean) + self.in_this_case([guard], True)
            case Otherwise(value, passed):
                return self._as_expression(value, lean) + self.in_this_case(passed, False)
            case InDoubt():
                return f"{self.figure(node, lean)} in every case that remains possible"

    def _as_expression(self, value: Expression | Condition, lean: Rounding) -> str:
        return self.phrase(value, lean) if isinstance(value, Expression) else self.said(value, True)

    def _worked_out(self, node: Expression, lean: Rounding) -> str:
        if _is_too_deep_to_tell(node):
            return self.figure(node, lean)
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
                return f"{self.phrase(node.of, leans[0])}, {rounding_in_words(node)}"
            case LookUp():
                arguments = [self.figure(one, lean) for one, lean in zip(node.arguments, leans, strict=True)]
                return f'the table "{clean(node.table.label)}" at {listed(arguments)}{taking_in_words(node.table)}'
            case Count():
                return f"the {self.count(node)}"
            case LaterDate():
                return f"{later_in_words(node)} {self.phrase(node.date, leans[0])}"
            case _:
                return self.phrase(node, lean)

    def _sum(self, node: Sum, leans: tuple[Rounding, ...]) -> str:
        text = ""
        for (sign, term), lean in zip(node.terms, leans, strict=True):
            part = self._inside(term, lean, _LOOSE_IN_A_SUM)
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
        return self._inside(node, lean, _LOOSE_IN_A_PRODUCT)

    def _inside(self, node: Expression, lean: Rounding, loose: tuple[type, ...]) -> str:
        """A phrase inside another, in brackets where it would run into its neighbours."""
        phrase = self.phrase(node, lean)
        return f"({phrase})" if isinstance(node, loose) else phrase

    def _extreme(self, node: Least | Greatest, leans: tuple[Rounding, ...]) -> str:
        """The least or greatest of several; what would make the list hard to hear stands last, by its figure."""
        pair = ("lesser", "greater") if len(node.values) == 2 else ("least", "greatest")
        word = pair[0] if isinstance(node, Least) else pair[1]
        parts = [(one, lean, self.phrase(one, lean)) for one, lean in zip(node.values, leans, strict=True)]
        long = [part for part in parts if isinstance(part[0], _LOOSE_IN_A_LIST) or "," in part[2]]
        told = [phrase for one, lean, phrase in parts if (one, lean, phrase) not in long]
        told += [self._by_its_figure(*part, is_last=len(long) == 1) for part in long]
        return f"the {word} of {', '.join(told[:-1])} and {told[-1]}"

    def _by_its_figure(self, node: Expression, lean: Rounding, phrase: str, *, is_last: bool) -> str:
        """ "91 kg, which is 115 kg less ...", or in brackets; the phrase of a choice begins with its figure."""
        if isinstance(node, Choice):
            return phrase if is_last else f"({phrase})"
        figure = self.figure(node, lean)
        return f"{figure}, which is {phrase}" if is_last else f"{figure} ({phrase})"

    def _size(self, node: Expression, lean: Rounding) -> str:
        match node:
            case Sum(terms=((1, first), (-1, second))):
                leans = leanings(node, self.values, lean)
                pair = self._operand(first, leans[0]), self._operand(second, leans[1])
                return f"the difference between {pair[0]} and {pair[1]}"
            case _:
                return f"the size of {self._operand(node, lean)}"

    def count(self, node: Count) -> str:
        """How many are occupied and which: "1 of 2 places occupied (front seat)"."""
        places = [one for one in node.conditions if isinstance(one, Occupied)]
        what = counted(len(node.conditions), "place" if len(places) == len(node.conditions) else "condition")
        if any(not isinstance(self.values[one.slot], bool) for one in node.conditions):
            return f"number of {what} {'occupied' if places else 'that hold'}"
        number = sum(self.values[one.slot] is True for one in node.conditions)
        if len(places) < len(node.conditions):
            return f"{number} of {what} that hold"
        taken = [self.name(one.place) for one in places if self.values[one.slot] is True]
        which = listed(taken) or f"empty: {listed([self.name(one.place) for one in places])}"
        return f"{number} of {what} occupied ({which})"

    # ---- masses that are declared or weighed

    def manner(self, mass: DeclaredMass) -> str:
        """How the mass on a place is known: "98 kg declared plus 4 kg", "weighed", or nothing for an empty one."""
        if self.values[mass.is_added_to.slot] is True:
            added = self.figure(mass.added, Rounding.NEAREST)
            return f"{self.figure(mass.stated, Rounding.NEAREST)} declared plus {added}"
        return "weighed" if self.values[mass.is_declared.slot] is False else ""

    def _in_brackets(self, mass: DeclaredMass) -> str:
        manner = self.manner(mass)
        return f" ({manner})" if manner else ""

    # ---- names without values

    def name(self, node: Expression) -> str:
        """What an expression is called inside a sentence: its label, or how it is worked out."""
        match node:
            case Read():
                return inside_a_sentence(node.input.label)
            case FuelAmount():
                return tank_left(node.tank.input, node.stage)
            case Named():
                return label_of(node)
            case _:
                return self.phrase(node, Rounding.NEAREST)


def whole_steps(condition: Same) -> Rounded | None:
    """The rounding in "a value is the same as itself, rounded to whole steps"; None for anything else."""
    match condition:
        case Same(left=left, right=Rounded(of=of) as rounded) | Same(left=Rounded(of=of) as rounded, right=left):
            return rounded if of.slot == left.slot else None
        case _:
            return None


def taking_in_words(table: Table) -> str:
    """How a table is read between its printed values, where not along the straight line."""
    return "" if table.taking is Taking.LINEAR else f", {table.taking.value}"


def rounding_in_words(node: Rounded) -> str:
    """How a value is rounded: "rounded up to a whole 10 kg"."""
    word = "up" if node.upward else "down"
    return f"rounded {word} to a whole {show_difference(node.step, node.unit or PURE)}"


def later_in_words(node: LaterDate) -> str:
    """What is done to a date: "48 months after", "the end of the month 36 months after"."""
    if not node.to_month_end:
        return span_in_words(node)
    moved = f" {span_in_words(node)}" if node.months or node.days else " of"
    return f"the end of the month{moved}"


def span_in_words(node: LaterDate) -> str:
    """By how much a date is moved, and which way: "48 months after", "30 days before"."""
    moves = [(number, word) for number, word in ((node.months, "month"), (node.days, "day")) if number]
    way = "before" if moves and all(number < 0 for number, _ in moves) else "after"
    sign = -1 if way == "before" else 1
    return f"{listed([counted(sign * number, word) for number, word in moves]) or 'no days'} {way}"
