"""How many cells a row of a printed table or envelope has, as far as its text tells."""

from __future__ import annotations

import re
from typing import Final

_TWO_AXES: Final = re.compile(r"\bof\b[^|]*\band\b[^|]*\bgives\b")
_ROW: Final = re.compile(r"^[ \t]*\|(.*)$", re.MULTILINE)


def is_whole_row(statement: str, line: str) -> bool:
    """Whether a line that lacks its first or its last bar has as many cells as a row of this statement must have.

    Only then is it certain that it is a row by itself, and not a part of one that was broken.
    """
    return _written(line).count("|") == _cells(statement)


def _cells(statement: str) -> int | None:
    """Two cells, or with two axes as many as the first row has, if that one is whole."""
    if not _TWO_AXES.search(statement):
        return 2
    first = _ROW.search(statement)
    return None if first is None or not _written(first[1]).endswith("|") else _written(first[1]).count("|")


def _written(line: str) -> str:
    return line.split("--", maxsplit=1)[0].rstrip()
