"""An answer as a document for programs: the published shape, filled in from the sheet and its values.

Importing this module imports pydantic; the rest of the room does without.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor
from typing import Final

from engine.evaluation.result import (
    Cause,
    CheckResult,
    FuelState,
    LimitResult,
    Margin,
    Missing,
    OutOfRange,
    OutOfTable,
    Side,
    TooManyPieces,
    ZeroDivisor,
)
from engine.explanation import document_models as shape
from engine.explanation.amounts import (
    Amount,
    Day,
    Word,
    amount,
    of_input,
    quantity,
)
from engine.explanation.assumptions import Assumption, assumptions
from engine.explanation.causes import cause_in_words
from engine.explanation.caution import CAUTION
from engine.explanation.document_layers import displaced_shown, layer_shown, permit_shown
from engine.explanation.document_values import quantity_shown, source_shown, value_explained
from engine.explanation.fuel import fuel_state_in_words
from engine.explanation.headlines import figures, sides
from engine.explanation.layering import origin_of, permits
from engine.explanation.sentences import Sentences, sentences
from engine.explanation.walking import visited
from grammar.figures import Rounding, show
from grammar.sheet import (
    Input,
    Sheet,
    TemperaturePoint,
)
from grammar.units import PURE

_SIDES: Final[dict[Side, shape.SideName]] = {
    Side.TO_MOST: "to_most",
    Side.TO_LEAST: "to_least",
    Side.FORWARD: "forward",
    Side.AFT: "aft",
    Side.LIGHTER: "lighter",
    Side.HEAVIER: "heavier",
}


def explanation_document(result: CheckResult) -> shape.ExplanationDocument:
    """The whole explanation of an answer in its published shape."""
    header, writer = result.sheet.header, sentences(result)
    return shape.ExplanationDocument(
        format=shape.FORMAT,
        caution=CAUTION,
        permits=tuple(permit_shown(permit, result.sheet) for permit in permits(result.sheet)),
        sheet=shape.SheetIdentity(name=header.name, revision=header.revision, title=header.title),
        layers=tuple(layer_shown(layer) for layer in result.sheet.layers),
        verdict=result.verdict,
        assumptions=tuple(_assumed(each) for each in assumptions(result)),
        limits=tuple(_limit(each, result.sheet, writer) for each in result.limits),
        values=tuple(value_explained(each, result) for each in visited(result)),
    )


def _assumed(each: Assumption) -> shape.Assumed:
    taken = None if each.taken is None else of_input(each.input, each.taken)
    return shape.Assumed(
        input=each.input.name,
        label=each.input.label,
        taken=None if taken is None or isinstance(taken, Word) else quantity_shown(taken),
        sentence=each.sentence,
        source=source_shown(each.input.source),
    )


# ---- limits


def _limit(each: LimitResult, sheet: Sheet, writer: Sentences) -> shape.LimitExplained:
    limit, causes = each.limit, () if each.gap is None else each.gap.causes
    origin = origin_of(limit, sheet)
    return shape.LimitExplained(
        name=limit.name,
        label=limit.label,
        verdict=each.verdict,
        weight=limit.weight,
        ground=limit.ground,
        stage=limit.stage,
        source=source_shown(limit.source),
        note=limit.note,
        file=limit.span.file,
        line=limit.span.line,
        layer=None if origin is None else origin.layer.name,
        displaced=() if origin is None else tuple(displaced_shown(one) for one in origin.displaced),
        sentence=writer.sentence(each),
        margins=tuple(_margin(margin) for margin in each.margins),
        missing=tuple(_missing(cause, writer) for cause in causes),
        tightest=None if each.tightest is None else _tightest(each.tightest, sheet),
        claim=limit.claim.slot,
        applies_when=None if limit.applies_when is None else limit.applies_when.slot,
    )


def _margin(margin: Margin) -> shape.ShownMargin:
    told = figures(margin)
    return shape.ShownMargin(
        claim=margin.claim.slot,
        side=_SIDES[margin.side],
        subject=quantity_shown(told.subject),
        bound=quantity_shown(told.bound),
        room=quantity_shown(told.room),
        share=_share(margin, told.subject),
    )


def _share(margin: Margin, subject: Amount | Day) -> str | None:
    """The room as a share of the bound in per cent, rounded down so that it never flatters.

    A day and a point on a scale have no size to take a share of.
    """
    is_point = any(isinstance(one.kind, TemperaturePoint) for one in sides(margin))
    if margin.share is None or is_point or isinstance(subject, Day):
        return None
    thousandths = Fraction(floor(margin.share * 100_000), 1000)
    return show(thousandths, Rounding.DOWN).text


def _missing(cause: Cause, writer: Sentences) -> shape.MissingValue:
    sentence = cause_in_words(cause, writer.phrases)
    match cause:
        case Missing():
            return _missing_value("not stated", cause.input.name, sentence)
        case OutOfRange():
            return _out_of_range(cause, sentence)
        case OutOfTable():
            return _out_of_table(cause, sentence)
        case ZeroDivisor():
            return _missing_value("division by zero", None, sentence)
        case TooManyPieces():
            return _missing_value("burn not followed", None, sentence)


def _missing_value(
    why: shape.Why,
    name: str | None,
    sentence: str,
    asked: shape.Quantity | None = None,
    nearest: shape.Quantity | None = None,
    axis: str | None = None,
) -> shape.MissingValue:
    return shape.MissingValue(why=why, name=name, axis=axis, asked=asked, nearest=nearest, sentence=sentence)


def _out_of_range(cause: OutOfRange, sentence: str) -> shape.MissingValue:
    item = cause.input
    is_below = item.least is not None and cause.value < item.least
    end = item.least if is_below else item.most
    asked = _plain(item, cause.value)
    nearest = None if end is None else _plain(item, end)
    return _missing_value("out of range", item.name, sentence, asked, nearest)


def _plain(item: Input, value: Fraction) -> shape.Quantity:
    return quantity_shown(quantity(value, item.kind, item.unit, Rounding.NEAREST))


def _out_of_table(cause: OutOfTable, sentence: str) -> shape.MissingValue:
    axis = cause.table.axes[cause.axis]
    lean = Rounding.DOWN if cause.value < cause.nearest else Rounding.UP
    asked = quantity_shown(amount(cause.value, axis.unit, lean))
    nearest = quantity_shown(amount(cause.nearest, axis.unit, lean.opposite))
    return _missing_value("out of table", cause.table.name, sentence, asked, nearest, axis.name)


def _tightest(state: FuelState, sheet: Sheet) -> shape.TightestMoment:
    unit = sheet.tanks[0].input.unit or PURE
    tanks = zip(sheet.tanks, state.left, strict=True)
    return shape.TightestMoment(
        burned=quantity_shown(amount(state.burned, unit, Rounding.NEAREST)),
        tanks=tuple(_tank(tank.input, left) for tank, left in tanks),
        sentence=fuel_state_in_words(sheet, state),
    )


def _tank(item: Input, left: Fraction) -> shape.TankLeft:
    return shape.TankLeft(tank=item.name, label=item.label, left=_plain(item, left))
