"""The words that stand with every answer, on every surface."""

from __future__ import annotations

from typing import Final

CAUTION: Final = (
    "This answer is an aid. The approved flight manual, the placards, the local rules and the pilot in "
    "command decide."
)
"""What every surface says: one text for the terminal, the document and whatever comes later."""
