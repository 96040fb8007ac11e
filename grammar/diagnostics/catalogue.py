"""All the kinds of problem there are, by code."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from grammar.diagnostics.entry import Entry
from grammar.diagnostics.examples import EXAMPLES
from grammar.diagnostics.meaning import MEANING
from grammar.diagnostics.writing import WRITING

CATALOGUE: Final[Mapping[str, Entry]] = MappingProxyType(
    {entry.code: entry for entry in (*WRITING, *MEANING, *EXAMPLES)}
)
