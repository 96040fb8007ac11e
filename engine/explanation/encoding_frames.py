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

MARKED: Final = Quantity(amount=MARK, unit="", is_exact=True, exact=None)
"""What stands in a model where a whole quantity changes."""

_MARKED: Final = MARKED.model_dump_json()
_MARK_AS_TEXT: Final = f'"{MARK}"'


def frame_of(model: BaseModel) -> str:
    """The JSON of a model with ``%s`` for every marked quantity, and within the quotes of every marked text."""
    return _with_places(model.model_dump_json())


def _with_places(text: str) -> str:
    return text.replace("%", "%%").replace(_MARKED, "%s").replace(MARK, "%s")


def quantity_frame(unit: str, *, is_exact: bool) -> str:
    """The JSON of a quantity in a unit: a place for the figure, and one for the exact value where rounded."""
    return frame_of(Quantity(amount=MARK, unit=unit, is_exact=is_exact, exact=None if is_exact else MARK))


def sentence_frame(text: str) -> str:
    """A sentence with marks as it stands in JSON, without its quotation marks."""
    return _with_places(to_json(text).decode()[1:-1])


def text_json(text: str) -> str:
    """A text as JSON, with its quotation marks."""
    return to_json(text).decode()
