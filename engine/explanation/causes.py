"""Why something cannot be told, in words, and what would have to be supplied."""

from __future__ import annotations

from fractions import Fraction

from engine.evaluation.result import Cause, Gap, Missing, OutOfRange, OutOfTable, TooManyPieces, ZeroDivisor
from engine.explanation.amounts import amount, difference, of_input
from engine.explanation.phrases import Phrases
from engine.explanation.words import clean, inside_a_sentence, listed, spaced
from grammar.figures import Rounding
from grammar.sheet import Axis, Input


def cause_in_words(cause: Cause, phrases: Phrases) -> str:
    """One cause as a clause: "pressure altitude not stated"."""
    match cause:
        case Missing():
            return f"{inside_a_sentence(cause.input.label)} not stated"
        case OutOfRange():
            return _out_of_range(cause)
        case OutOfTable():
            return _out_of_table(cause)
        case ZeroDivisor():
            divisor = phrases.name(cause.quotient.divisor)
            return f"a division by zero, as {divisor} comes to zero"
        case TooManyPieces():
            return "the burn falls into more pieces than are followed"


def causes_in_words(gap: Gap | None, phrases: Phrases) -> str:
    """Every cause, one clause after the other; what is not stated is told in one."""
    causes = () if gap is None else gap.causes
    missing = [inside_a_sentence(cause.input.label) for cause in causes if isinstance(cause, Missing)]
    clauses = [f"{listed(missing)} not stated"] if missing else []
    clauses += [cause_in_words(cause, phrases) for cause in causes if not isinstance(cause, Missing)]
    return "; ".join(clauses) or "the reason is not known"


def _out_of_range(cause: OutOfRange) -> str:
    label, value = inside_a_sentence(cause.input.label), of_input(cause.input, cause.value)
    return f"the {label} of {value} is beyond what is covered, {_covered(cause.input)}"


def _covered(item: Input) -> str:
    ends = [
        f"{word} {of_input(item, end)}"
        for word, end in (("from", item.least), ("to", item.most))
        if end is not None
    ]
    return " ".join(ends)


def _out_of_table(cause: OutOfTable) -> str:
    axis = cause.table.axes[cause.axis]
    is_below = cause.value < cause.nearest
    ends, past = ("begins", "below it") if is_below else ("ends", "beyond")
    asked, end, gap = _asked(axis, cause.value, cause.nearest)
    table = f'the table "{clean(cause.table.label)}" {ends} at {end}{_whose(cause)}'
    return f"{table} and is asked for {asked}, {gap} {past}"


def _asked(axis: Axis, value: Fraction, nearest: Fraction) -> tuple[str, str, str]:
    lean = Rounding.DOWN if value < nearest else Rounding.UP
    return (
        str(amount(value, axis.unit, lean)),
        str(amount(nearest, axis.unit, lean.opposite)),
        str(difference(abs(value - nearest), axis.unit, Rounding.UP)),
    )


def _whose(cause: OutOfTable) -> str:
    """Which axis, where both are in the same dimension and the unit does not tell."""
    dimensions = [axis.unit.dimension for axis in cause.table.axes]
    if dimensions.count(dimensions[cause.axis]) == 1:
        return ""
    return f" of {spaced(cause.table.axes[cause.axis].name)}"
