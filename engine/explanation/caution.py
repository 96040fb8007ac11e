"""The words that stand with every answer, as the rooms of the engine know them."""

from __future__ import annotations

from grammar.caution import CAUTION

__all__ = ["CAUTION"]
