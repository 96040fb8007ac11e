"""The values of the explanation document: quantities, sources, and each value with what it was made from."""

from __future__ import annotations

from fractions import Fraction

from engine.evaluation.result import (
    CheckResult,
)
from engine.explanation import document_models as shape
from engine.explanation.amounts import (
    Amount,
    Day,
    Holds,
    NotNeeded,
    Shown,
    Unknown,
    Word,
    shown,
)
from engine.explanation.assumptions import is_assumed
from engine.explanation.headlines import Days
from engine.explanation.operations import operation, parts_in_words
from engine.explanation.walking import Visited
from grammar.sheet import (
    CalendarDate,
    Condition,
    Expression,
    FuelAmount,
    Inside,
    LookUp,
    Measure,
    Named,
    NamedCondition,
    Numeric,
    Option,
    Read,
    Source,
    Stated,
    TemperaturePoint,
    children,
)


def quantity_shown(value: Amount | Day | Days) -> shape.Quantity:
    """A quantity, a day or a number of days in its published shape."""
    match value:
        case Day():
            return shape.Quantity(amount=str(value), unit="date", is_exact=True, exact=None)
        case Days():
            return shape.Quantity(amount=str(value.number), unit="days", is_exact=True, exact=None)
        case Amount():
            exact = None if value.figure.is_exact else _fraction(value.in_unit)
            return shape.Quantity(
                amount=value.figure.text, unit=value.word, is_exact=value.figure.is_exact, exact=exact
            )


def _fraction(value: Fraction | None) -> str | None:
    return None if value is None else str(value)


def source_shown(source: Source | None) -> shape.SourceParagraph | None:
    """A paragraph in its published shape."""
    if source is None:
        return None
    document = source.document
    return shape.SourceParagraph(document=document.name, title=document.title, paragraph=source.paragraph)


def value_explained(each: Visited, result: CheckResult) -> shape.ValueExplained:
    """A value with what it was made from, in its published shape."""
    node, cited = each.node, each.cited
    value = shown(node, result.values[node.slot], each.lean)
    name, label = _named(node)
    return shape.ValueExplained(
        number=node.slot,
        operation=operation(node),
        name=name,
        label=label,
        kind=_kind(node),
        state=_state(value),
        text=_text(value),
        quantity=quantity_shown(value) if isinstance(value, Amount | Day) else None,
        is_assumed=isinstance(node, Read) and is_assumed(node.input, result),
        statement=None if cited is None else cited.statement,
        file=None if cited is None else cited.file,
        line=None if cited is None else cited.line,
        source=None if cited is None else source_shown(cited.source),
        made_from=tuple(part.slot for part in children(node)),
        joined_by=parts_in_words(node),
    )


def _named(node: Expression | Condition) -> tuple[str | None, str | None]:
    match node:
        case Read() | Stated():
            return node.input.name, node.input.label
        case FuelAmount():
            return node.tank.input.name, node.tank.input.label
        case Named() | NamedCondition():
            return node.name, node.label
        case LookUp():
            return node.table.name, node.table.label
        case Inside():
            return node.envelope.name, node.envelope.label
        case _:
            return None, None


def _kind(node: Expression | Condition) -> shape.ValueKind:
    if not isinstance(node, Numeric):
        return "condition"
    match node.kind:
        case Measure() | TemperaturePoint():
            return "amount"
        case CalendarDate():
            return "date"
        case Option():
            return "option"


def _state(value: Shown) -> shape.ValueState:
    match value:
        case Unknown():
            return "cannot be told"
        case NotNeeded():
            return "not needed"
        case Amount() | Day() | Word() | Holds():
            return "known"


def _text(value: Shown) -> str | None:
    match value:
        case Word():
            return value.option
        case Holds():
            return str(value)
        case _:
            return None
