"""Layers and permits in the published shape."""

from __future__ import annotations

from engine.explanation import document_models as shape
from engine.explanation.layering import day, loosened_by, permit_in_words
from grammar.sheet import Displaced, Layer, Sheet


def layer_shown(layer: Layer) -> shape.LayerShown:
    """A layer in the published shape."""
    return shape.LayerShown(
        kind=layer.kind,
        name=layer.name,
        revision=layer.revision,
        title=layer.title,
        file=layer.file,
        effective=None if layer.effective is None else day(layer.effective),
        until=None if layer.until is None else day(layer.until),
        airframe=layer.airframe,
        issued_by=layer.issued_by,
    )


def permit_shown(permit: Layer, sheet: Sheet) -> shape.PermitShown:
    """A permit in the published shape."""
    return shape.PermitShown(
        sentence=permit_in_words(permit, sheet),
        permit=layer_shown(permit),
        loosens=tuple(origin.name for origin in loosened_by(permit, sheet)),
    )


def displaced_shown(displaced: Displaced) -> shape.DisplacedShown:
    """What a statement took the place of, in the published shape."""
    return shape.DisplacedShown(
        layer=displaced.layer.name,
        revision=displaced.layer.revision,
        file=displaced.span.file,
        line=displaced.span.line,
        source=displaced.source,
    )
