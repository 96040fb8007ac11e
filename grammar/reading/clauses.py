"""The rules for figures, clauses and other parts of statements: each yields its node of the syntax tree."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from grammar.reading.parts import ByOrder, Cell, Expectations, Parts, Settings, Tolerance
from grammar.reading.values import Rule
from grammar.tree import (
    ADate,
    Adds,
    After,
    Applies,
    Arm,
    AssumedEmpty,
    At,
    Axis,
    BurnStep,
    Day,
    Density,
    Each,
    Effective,
    ExpectValue,
    ExpectVerdict,
    Figure,
    FloorArea,
    ForAirframe,
    IssuedBy,
    LateralArm,
    Measured,
    Note,
    OneOf,
    Range,
    Replaces,
    Row,
    Setting,
    Source,
    Steps,
    Taken,
    Throughout,
    Until,
    WeighedApart,
    When,
    Word,
    YesOrNo,
)


def lone_number(digits: Word) -> Figure:
    """A number that can have neither sign nor unit, such as a revision's."""
    return Parts((digits,), digits.span).figure


def _joined(parts: Parts) -> Word:
    """Words of the language that make one together, such as ``not applicable``."""
    return Word(" ".join(word.text for word in parts.all(Word)), parts.span)


# ---- parts of statements


def _range(parts: Parts) -> Range:
    least, most = parts.all(Figure)
    return Range(least, most, parts.span)


def _measured(parts: Parts) -> Measured:
    return Measured(parts.name, parts.maybe(Range), parts.span)


def _counted(parts: Parts) -> Measured:
    return Measured(None, parts.one(Range), parts.span)


def _burn_step(parts: Parts) -> BurnStep:
    return BurnStep(parts.all(Word), parts.maybe(Figure), parts.span)


def _axis(parts: Parts) -> Axis:
    name, *unit = parts.all(Word)
    return Axis(name, unit[0] if unit else None, parts.span)


def _adds(parts: Parts) -> Adds:
    return Adds(parts.name, parts.one(Figure), parts.maybe(Arm), parts.maybe(LateralArm), parts.span)


def _source(parts: Parts) -> Source:
    document, paragraph = parts.all(Word)
    return Source(document, paragraph, parts.span)


def _cell(parts: Parts) -> Cell:
    return Cell(parts.maybe(Figure) or parts.maybe(Word))


def _row(parts: Parts) -> Row:
    return Row(tuple(cell.content for cell in parts.all(Cell)), parts.span)


def _setting(parts: Parts) -> Setting:
    name, *words = parts.all(Word)
    value = parts.maybe(Figure) or parts.maybe(Day)
    if value is None:
        return Setting(name, words[0], None, parts.span)
    return Setting(name, value, words[0] if words else None, parts.span)


def _give_or_take(parts: Parts) -> Tolerance:
    return Tolerance(parts.one(Figure))


def _expect_value(parts: Parts) -> ExpectValue:
    value = parts.maybe(Figure) or parts.one(Day)
    tolerance = parts.maybe(Tolerance)
    return ExpectValue(parts.expressions[0], value, tolerance.figure if tolerance else None, parts.span)


def _expect_verdict(parts: Parts) -> ExpectVerdict:
    limit, verdict = parts.all(Word)
    return ExpectVerdict(limit, verdict, parts.maybe(Figure), parts.span)


PIECES: Final[Mapping[str, Rule]] = MappingProxyType(
    {
        "figure": lambda parts: parts.figure,
        "unit": _joined,
        "state": _joined,
        "answer": _joined,
        "manner": _joined,
        "by_order": lambda parts: ByOrder(parts.span),
        "outcome": _joined,
        "range": _range,
        "one_of": lambda parts: OneOf(parts.all(Word), parts.span),
        "yes_or_no": lambda parts: YesOrNo(parts.span),
        "a_date": lambda parts: ADate(parts.span),
        "measured": _measured,
        "counted": _counted,
        "burn_step": _burn_step,
        "axis": _axis,
        "direction": _joined,
        "thing": _joined,
        "weighed_apart": lambda parts: WeighedApart(parts.name, parts.span),
        "adds": _adds,
        "cell": _cell,
        "row": _row,
        "setting": _setting,
        "example_given": lambda parts: Settings(parts.all(Setting), are_loads=False),
        "example_load": lambda parts: Settings(parts.all(Setting), are_loads=True),
        "expect": lambda parts: Expectations(parts.expectations),
        "expect_value": _expect_value,
        "expect_verdict": _expect_verdict,
        "give_or_take": _give_or_take,
    }
)
"""What each rule of a part of a statement yields."""

CLAUSES: Final[Mapping[str, Rule]] = MappingProxyType(
    {
        "source": _source,
        "note": lambda parts: Note(parts.name, parts.span),
        "effective": lambda parts: Effective(parts.one(Day), parts.span),
        "until": lambda parts: Until(parts.one(Day), parts.span),
        "replaces": lambda parts: Replaces(lone_number(parts.name), parts.span),
        "applies": lambda parts: Applies(parts.expressions[0], parts.span),
        "after": lambda parts: After(parts.all(Word), parts.span),
        "issued_by": lambda parts: IssuedBy(parts.name, parts.span),
        "airframe": lambda parts: ForAirframe(parts.name, parts.span),
        "taken": lambda parts: Taken(parts.name, parts.span),
        "arm": lambda parts: Arm(parts.expressions[0], parts.span),
        "lateral_arm": lambda parts: LateralArm(parts.expressions[0], parts.span),
        "density": lambda parts: Density(parts.expressions[0], parts.span),
        "steps": lambda parts: Steps(parts.one(Figure), parts.span),
        "each": lambda parts: Each(parts.one(Figure), parts.span),
        "floor_area": lambda parts: FloorArea(parts.one(Figure), parts.span),
        "assumed_empty": lambda parts: AssumedEmpty(parts.span),
        "at": lambda parts: At(parts.name, parts.span),
        "throughout": lambda parts: Throughout(parts.span),
        "when": lambda parts: When(parts.expressions[0], parts.span),
    }
)
"""What each rule of a clause yields."""
