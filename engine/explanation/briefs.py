"""A limit's outcome in a few words, for a line of a table: what stands out first, and no paragraph."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from engine.evaluation.result import LimitResult, Margin, OutOfTable
from engine.explanation.amounts import amount
from engine.explanation.causes import causes_in_words
from engine.explanation.claims import beyond_in_words, relation_in_words
from engine.explanation.headlines import figures, sides
from engine.explanation.sentences import Sentences
from engine.explanation.words import clean
from grammar.figures import Rounding
from grammar.sheet import Expression, FuelAmount, Inside, Named, Read, Verdict

_CUT: Final = "…"
_SHORTEST: Final = 8
"""What an outcome is about is cut to no less than this."""


@dataclass(frozen=True, slots=True)
class Brief:
    """A few words in two parts: what it is about, which may be cut where there is no room, and what is said."""

    says: str
    about: str = ""
    joint: str = ": "

    def fitted(self, width: int | None) -> str:
        """The words in no more than so many letters, where a width is given."""
        whole = f"{self.about}{self.joint}{self.says}" if self.about else self.says
        if width is None or len(whole) <= width:
            return whole
        for_about = width - len(self.joint) - len(self.says)
        if not self.about or for_about < _SHORTEST:
            return whole[: width - 1].rstrip() + _CUT
        return f"{self.about[: for_about - 1].rstrip(', ')}{_CUT}{self.joint}{self.says}"


def brief(writer: Sentences, result: LimitResult) -> Brief:
    """How a limit came out, in a few words."""
    match result.verdict:
        case Verdict.WITHIN if result.margins:
            return Brief(_room(result.margins[0]), clean(result.limit.label))
        case Verdict.OUTSIDE if result.margins and result.margins[0].room < 0:
            return _passed(writer, result, result.margins[0])
        case Verdict.UNDETERMINED:
            return _not_told(writer, result)
        case Verdict.WITHIN | Verdict.OUTSIDE | Verdict.NOT_APPLICABLE:
            return Brief(writer.finding(result).removesuffix(", which is not allowed"))


def _room(margin: Margin) -> str:
    if margin.room == 0 and margin.is_exact:
        return "exactly on it"
    return f"{figures(margin).size} left"


def _passed(writer: Sentences, result: LimitResult, margin: Margin) -> Brief:
    """By how much a bound is passed, and by what: its name and value, or the limit's label."""
    label = clean(result.limit.label)
    if isinstance(margin.claim, Inside):
        return Brief(f"{beyond_in_words(margin.claim, margin)} the envelope", label)
    subject, _ = sides(margin)
    shown = figures(margin)
    if _has_a_name(subject):
        return Brief(relation_in_words(shown), f"{writer.phrases.name(subject)} {shown.subject}", ", ")
    return Brief(relation_in_words(shown), label)


def _has_a_name(subject: Expression) -> bool:
    return isinstance(subject, Read | Named | FuelAmount)


def _not_told(writer: Sentences, result: LimitResult) -> Brief:
    gap = result.gap
    beyond = [cause for cause in gap.causes if isinstance(cause, OutOfTable)] if gap is not None else []
    if gap is None or len(beyond) != len(gap.causes):
        return Brief(causes_in_words(gap, writer.phrases))
    return Brief(_beyond_a_table(beyond[0]))


def _beyond_a_table(cause: OutOfTable) -> str:
    unit = cause.table.axes[cause.axis].unit
    lean = Rounding.DOWN if cause.value < cause.nearest else Rounding.UP
    ends = "begins" if cause.value < cause.nearest else "ends"
    asked, end = amount(cause.value, unit, lean), amount(cause.nearest, unit, lean.opposite)
    return f"{asked} asked of a table that {ends} at {end}"
