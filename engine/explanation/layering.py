"""What a resolved sheet is made of, in words: the permits that an answer is given under, and its layers."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from engine.explanation.words import clean, listed
from grammar.sheet import Displaced, Layer, LayerKind, Limit, Origin, Sheet


def permits(sheet: Sheet) -> tuple[Layer, ...]:
    """The permits that are on the sheet."""
    return tuple(layer for layer in sheet.layers if layer.kind is LayerKind.PERMIT)


def origin_of(limit: Limit, sheet: Sheet) -> Origin | None:
    """Where a limit comes from, when a layer brought it."""
    return next((origin for origin in sheet.origins if origin.name == limit.name), None)


def loosened_by(permit: Layer, sheet: Sheet) -> tuple[Origin, ...]:
    """The limits that a permit has put in the place of others."""
    return tuple(origin for origin in sheet.origins if origin.layer == permit and origin.displaced)


def layer_in_words(layer: Layer) -> str:
    """A layer by its sort, name, revision and title, with its days, its airframe and who issued it."""
    which = f'{layer.kind.value} {layer.name} revision {layer.revision} "{clean(layer.title)}"'
    airframe = f", for {clean(layer.airframe)} only" if layer.airframe else ""
    issued = f", issued by {clean(layer.issued_by)}" if layer.issued_by else ""
    return f"{which}{_days(layer)}{airframe}{issued}"


def permit_in_words(permit: Layer, sheet: Sheet) -> str:
    """A permit with what it loosens: shown first in every answer that is given under it."""
    names = [origin.name for origin in loosened_by(permit, sheet)]
    loosens = f"; it loosens {listed(names)}" if names else ""
    return f"{layer_in_words(permit)}{loosens}"


def displaced_in_words(displaced: Displaced) -> str:
    """What a statement took the place of."""
    source = f", {clean(displaced.source)}" if displaced.source else ""
    layer = displaced.layer
    return f"in the place of {layer.name} revision {layer.revision}, line {displaced.span.line}{source}"


def origin_in_words(origin: Origin) -> Iterator[str]:
    """Which layer brought a statement, and what it took the place of, the latest first."""
    yield f"brought by {layer_in_words(origin.layer)}"
    yield from (displaced_in_words(one) for one in origin.displaced)


def _days(layer: Layer) -> str:
    first = f" from {day(layer.effective)}" if layer.effective is not None else ""
    last = f" until {day(layer.until)}" if layer.until is not None else ""
    return first + last


def day(number: Fraction) -> str:
    """A day as year-month-day."""
    return date.fromordinal(int(number)).isoformat()
