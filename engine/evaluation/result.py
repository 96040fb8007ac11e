"""What an evaluation hands over: a verdict for every limit, with margins, causes and every value on the way.

The values are a tuple with one entry for each slot of the checked sheet. An explanation is made from the
sheet and this tuple, and from nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, unique
from fractions import Fraction

from engine.evaluation.loading import Loading
from grammar.sheet import (
    AtLeast,
    AtMost,
    Between,
    Input,
    Inside,
    Limit,
    Measure,
    Quotient,
    Sheet,
    Table,
    Verdict,
    Weight,
)

# ---- why a value is not known


@dataclass(frozen=True, slots=True)
class Missing:
    """Nobody states the input."""

    input: Input


@dataclass(frozen=True, slots=True)
class OutOfRange:
    """The input is stated, but beyond what the manual covers."""

    input: Input
    value: Fraction


@dataclass(frozen=True, slots=True)
class OutOfTable:
    """A table is read beyond its printed values: along which axis, at which value (base units)."""

    table: Table
    axis: int
    value: Fraction

    @property
    def nearest(self) -> Fraction:
        """The end of the axis that the value lies beyond, in base units."""
        points = self.table.axes[self.axis].points
        return points[0] if self.value < points[0] else points[-1]


@dataclass(frozen=True, slots=True)
class ZeroDivisor:
    """A division whose divisor came out as zero (possible only with a load beyond its range)."""

    quotient: Quotient


@dataclass(frozen=True, slots=True)
class TooManyPieces:
    """A burn that falls into more pieces than are followed (a moving value rounded in very small steps)."""

    limit: Limit


Cause = Missing | OutOfRange | OutOfTable | ZeroDivisor | TooManyPieces


@dataclass(frozen=True, slots=True)
class Gap:
    """A value or a truth that cannot be told, and everything that would have to be supplied or changed.

    Causes stand in the order in which they were met, each once.
    """

    causes: tuple[Cause, ...]

    def __or__(self, other: Gap) -> Gap:
        return Gap(self.causes + tuple(cause for cause in other.causes if cause not in self.causes))


Number = Fraction | Gap
"""The value of a numeric expression, in base units."""

Value = Fraction | str | Gap
"""The value of any expression; an option's value is its word."""

Truth = bool | Gap
"""The value of a condition: true, false or undetermined (strong Kleene logic)."""

SlotValue = Value | Truth | None
"""What a slot holds; None where the evaluation had no need to come by."""


# ---- margins


@unique
class Side(Enum):
    """Which way a margin is measured, in the officer's words."""

    TO_MOST = "up to the most allowed"
    TO_LEAST = "down to the least allowed"
    FORWARD = "towards the lesser value across"
    AFT = "towards the greater value across"
    LIGHTER = "towards the lesser value against"
    HEAVIER = "towards the greater value against"


@dataclass(frozen=True, slots=True)
class Margin:
    """The room between a subject and a bound, in base units; negative when the bound is passed.

    For an envelope ``bound`` is where its boundary lies along that axis, at the other axis' value.
    ``is_exact`` is false only for the tightest point of a burn that falls on an irrational fuel state: the
    room is then a lower bound of the true one, closer than 1e-9 in base units, and the other values are those
    of a rational moment as close by.
    """

    claim: AtMost | AtLeast | Between | Inside
    side: Side
    subject: Fraction
    bound: Fraction
    room: Fraction
    is_exact: bool = True

    @property
    def share(self) -> Fraction | None:
        """The room as a share of the bound's size; None for a bound of zero, and on scales without a natural
        zero (dates, temperatures), where a share means nothing."""
        measured = self.claim.across if isinstance(self.claim, Inside) else self.claim.subject
        if not self.bound or not isinstance(measured.kind, Measure):
            return None
        return self.room / abs(self.bound)


@dataclass(frozen=True, slots=True)
class FuelState:
    """A moment of the burn: the amount burned since take-off and what each tank holds, in the dimension of
    the tanks (base units), in the order of the sheet's tanks."""

    burned: Fraction
    left: tuple[Fraction, ...]


# ---- verdicts


@dataclass(frozen=True, slots=True)
class LimitResult:
    """How one limit came out.

    ``margins`` has every margin that can be told, the tightest first. ``causes`` says what an undetermined
    verdict waits for. ``tightest`` is the fuel state at which a limit that holds throughout is tightest (or
    at which it first fails, for one without margins).
    """

    limit: Limit
    verdict: Verdict
    margins: tuple[Margin, ...] = ()
    gap: Gap | None = None
    tightest: FuelState | None = None


@dataclass(frozen=True, slots=True)
class CheckResult:
    """The whole answer: the sheet, what was stated, each limit in the order of the sheet, every value."""

    sheet: Sheet
    loading: Loading
    verdict: Verdict
    limits: tuple[LimitResult, ...]
    values: tuple[SlotValue, ...]


def overall(results: tuple[LimitResult, ...]) -> Verdict:
    """The verdict of a sheet: outside if any limit is, else undetermined if any is, else within.

    Cautions do not count.
    """
    verdicts = {result.verdict for result in results if result.limit.weight is Weight.LIMIT}
    for verdict in (Verdict.OUTSIDE, Verdict.UNDETERMINED):
        if verdict in verdicts:
            return verdict
    return Verdict.WITHIN
