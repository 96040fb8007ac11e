"""Problems in what a sheet says: names, kinds and units, figures, choices, sources, examples (3xx to 9xx)."""

from __future__ import annotations

from typing import Final

from grammar.diagnostics.entry import Entry

MEANING: Final[tuple[Entry, ...]] = ()
