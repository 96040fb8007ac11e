"""Problems in how a sheet is written: letters and signs (1xx), the shape of statements (2xx)."""

from __future__ import annotations

from typing import Final

from grammar.diagnostics.entry import Entry

WRITING: Final[tuple[Entry, ...]] = ()
