"""Frames: pieces of the published JSON with places for what changes from answer to answer.

A frame is made from the published models themselves, with a mark wherever something changes, so that the
shape stands in one place only. The mark is a letter for private use, which no sheet can show.
"""

from __future__ import annotations

from typing import Final

from pydantic import BaseModel
from pydantic_core import to_json

from engine.explanation.document_models import Quantity

MARK: Final = "\ue000"
"""What stands in a model where text changes."""

MARKED: Final = Quantity(amount=MARK, unit=MARK, is_exact=True, exact=None)
"""What stands in a model where a whole quantity changes."""

_MARKED: Final = MARKED.model_dump_json()

EXACTLY: Final = 'true,"exact":null'
"""How the JSON of a quantity goes on after ``is_exact`` where its text says it exactly."""

PLACE: Final = "\ue001"
"""What stands in a frame where something is to be put: like the mark, a letter that no sheet can show."""


def frame_of(model: BaseModel) -> str:
    """The JSON of a model with a place for every marked quantity and every marked text."""
    return _with_places(model.model_dump_json())


def _with_places(text: str) -> str:
    return text.replace(_MARKED, PLACE).replace(MARK, PLACE)


def pieces_of(frame: str) -> tuple[str, ...]:
    """What stands between the places of a frame, each letter for one byte of its UTF-8.

    So every text in the encoder is one byte a letter, and the whole is turned into bytes without a look.
    """
    return tuple(_as_bytes(piece) for piece in frame.split(PLACE))


def form_of(frame: str) -> str:
    """A frame to be filled with the ``%`` operator, each letter for one byte of its UTF-8."""
    return "%s".join(piece.replace("%", "%%") for piece in pieces_of(frame))


def _as_bytes(text: str) -> str:
    return text.encode().decode("latin-1")


def quantity_frame(unit: str, *, is_exact: bool) -> str:
    """The JSON of a quantity in a unit: a place for the figure, and one for the exact value where rounded."""
    return form_of(frame_of(Quantity(amount=MARK, unit=unit, is_exact=is_exact, exact=None if is_exact else MARK)))


def sentence_pieces(text: str) -> tuple[str, ...]:
    """What stands between the marks of a sentence in JSON, without its quotation marks."""
    return pieces_of(_with_places(to_json(text).decode()[1:-1]))
