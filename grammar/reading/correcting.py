"""What is said of a slip of the pen, and what the letters around it tell of how certain its correction is.

A mend is applied without anybody looking at it again. So it is given only where no other reading is possible;
where there is a doubt, what was probably meant is a suggestion.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Final

_PARAGRAPH: Final = re.compile(r"\bsource[ \t]+\w+[ \t]+$")
MINUS_OR_COMMENT: Final = "`--` if a comment begins here, `-` if minus is meant"
"""What two dashes may stand for."""

_CLAUSE: Final = 120
"""How far before a figure its `source` is looked for."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A slip at ``start`` to ``end`` of a text; ``mend`` is what certainly belongs there instead."""

    code: str
    start: int
    end: int
    mend: str | None = None
    suggestion: str | None = None
    facts: Mapping[str, str] = field(default_factory=dict)


Correct = Callable[[str, int, int], Slip | None]
"""From a text and the stretch of it that stood out, the slip there, or none if all is well after all."""


def offered(slip: Slip, written: str, *, is_certain: bool) -> Slip:
    """The slip with a correction: as a mend where it is certain, else as a suggestion."""
    mend, suggestion = (written, None) if is_certain else (None, written)
    return Slip(slip.code, slip.start, slip.end, mend, suggestion, slip.facts)


def worded(code: str, words: str, certain_signs: str = "") -> Correct:
    """A sign for which the language has words: they replace it, set off by blanks.

    It is certain for the signs listed, parted by blanks; others mean different things to different people.
    """

    def correct(text: str, start: int, end: int) -> Slip:
        before = "" if start == 0 or text[start - 1].isspace() else " "
        after = "" if end == len(text) or text[end].isspace() else " "
        mend = f"{before}{words}{after}" if text[start:end] in certain_signs.split() else None
        return Slip(code, start, end, mend, facts={"words": words})

    return correct


# ---- what stands around a slip; the bound on lines keeps each of these short


def line_before(text: str, at: int) -> str:
    """What stands before ``at`` on its line."""
    return text[text.rfind("\n", 0, at) + 1 : at]


def line_behind(text: str, at: int) -> str:
    """What stands from ``at`` on to the end of its line."""
    end = text.find("\n", at)
    return text[at : len(text) if end < 0 else end]


def has_bar(text: str, start: int, end: int) -> bool:
    """Whether a bar stands elsewhere on the line, so that the place may lie in a printed row."""
    return "|" in line_before(text, start) or "|" in line_behind(text, end)


def is_paragraph(text: str, at: int) -> bool:
    """Whether a paragraph belongs at ``at``: it looks like a figure and is none."""
    return _PARAGRAPH.search(text, max(0, at - _CLAUSE), at) is not None


def is_behind_digit(text: str, at: int) -> bool:
    """Whether the last thing before ``at`` on its line is a digit, or a sign that goes with digits."""
    return line_before(text, at).rstrip()[-1:] in {*"0123456789.,"}


def is_before_digit(text: str, at: int) -> bool:
    """Whether the next thing from ``at`` on, on its line, is a digit."""
    return line_behind(text, at).lstrip()[:1].isdecimal()
