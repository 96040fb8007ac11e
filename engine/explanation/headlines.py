"""The figures of one margin: what is held against what, and by how much, none of them flattering."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from engine.evaluation.result import Margin, Side
from engine.explanation.amounts import Amount, Day, amount, decimals_that_tell_apart, difference
from engine.explanation.words import counted
from grammar.figures import Rounding
from grammar.sheet import AtLeast, AtMost, Between, CalendarDate, Constant, Expression, Inside
from grammar.units import Unit, usual_unit

UPWARD = (Side.TO_MOST, Side.AFT, Side.HEAVIER)
"""The sides on which more is worse."""


@dataclass(frozen=True, slots=True)
class Days:
    """A whole number of days between two dates."""

    number: Fraction

    def __str__(self) -> str:
        return counted(abs(int(self.number)), "day")


@dataclass(frozen=True, slots=True)
class Figures:
    """A margin as it is shown.

    ``room`` is what is left, below zero by as much as the bound is passed; ``size`` is the same without its
    sign, to stand after "within … by" and "over … by".
    """

    margin: Margin
    subject: Amount | Day
    bound: Amount | Day
    room: Amount | Days
    size: Amount | Days

    @property
    def is_passed(self) -> bool:
        """Whether the bound is passed."""
        return self.margin.room < 0


def figures(margin: Margin) -> Figures:
    """The figures of a margin, all in the unit of the bound, so that they add up to the eye."""
    subject, bound = sides(margin)
    if isinstance(subject.kind, CalendarDate):
        days = Days(margin.room)
        return Figures(margin, Day(margin.subject), Day(margin.bound), days, days)
    unit = bound_unit(margin, subject, bound)
    decimals = decimals_that_tell_apart(margin.subject, margin.bound, unit)
    lean = Rounding.UP if margin.side in UPWARD else Rounding.DOWN
    towards_less = Rounding.DOWN if margin.room >= 0 else Rounding.UP
    shown_subject = amount(margin.subject, unit, lean, decimals)
    shown_bound = amount(margin.bound, unit, lean.opposite, decimals)
    room = difference(margin.room, unit, Rounding.DOWN, decimals)
    size = difference(abs(margin.room), unit, towards_less, decimals)
    if margin.is_exact:
        return Figures(margin, shown_subject, shown_bound, room, size)
    sure_bound = shown_bound if isinstance(bound, Constant) else about(shown_bound)
    return Figures(margin, about(shown_subject), sure_bound, about(room), about(size))


def about(each: Amount) -> Amount:
    """The same figure where only a bound of the value is known."""
    return replace(each, in_unit=None, figure=replace(each.figure, is_exact=False))


def sides(margin: Margin) -> tuple[Expression, Expression]:
    """The expressions whose values a margin holds against each other (for an envelope, the axis twice)."""
    match margin.claim:
        case AtMost(subject=subject, bound=bound) | AtLeast(subject=subject, bound=bound):
            return subject, bound
        case Between(subject=subject, low=low, high=high):
            return subject, high if margin.side is Side.TO_MOST else low
        case Inside(across=across, against=against):
            axis = across if margin.side in (Side.FORWARD, Side.AFT) else against
            return axis, axis


def bound_unit(margin: Margin, subject: Expression, bound: Expression) -> Unit:
    """The unit to show a margin in: the bound's, which is the manual's; for an envelope the axis' own."""
    if isinstance(margin.claim, Inside):
        envelope = margin.claim.envelope
        axis = envelope.across if margin.side in (Side.FORWARD, Side.AFT) else envelope.against
        return axis.unit
    kind = subject.kind
    fallback = usual_unit(kind.dimension) if hasattr(kind, "dimension") else None
    unit = bound.unit or subject.unit or fallback
    if unit is None:
        raise ValueError("a margin without a unit")
    return unit
