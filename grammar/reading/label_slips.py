"""Slips of the pen in labels, comments and words."""

from __future__ import annotations

import re
from typing import Final

from grammar.reading.correcting import MINUS_OR_COMMENT, Correct, Slip, line_before, line_behind

NAME_LETTERS: Final = 80
"""The most letters of a name."""

_SINGLE: Final = re.compile("['‘’`]")


def label(code: str) -> Correct:
    """A label between marks of another shape, certain where it stands by itself and no further mark follows."""

    def correct(text: str, start: int, end: int) -> Slip:
        inside = text[start + 1 : end - 1]
        is_alone = not text[max(0, start - 1) : start].isalnum() and not text[end : end + 1].isalnum()
        is_alone = is_alone and not (code == "102" and _SINGLE.search(line_behind(text, end)))
        return Slip(code, start, end, f'"{inside}"' if is_alone and '"' not in inside else None)

    return correct


def open_label(text: str, start: int, end: int) -> Slip:
    """A label without its closing mark."""
    return Slip("103", start, start + len(text[start:end].rstrip()))


def foreign_comment(text: str, start: int, end: int) -> Slip:
    """Another language's sign for a comment.

    Made into a comment, the rest of the line counts no more: it is certain only where that is the whole line.
    """
    sign = re.match(r"#+|//+|/\*+", text[start:end])
    stop = start + (sign.end() if sign else 1)
    before = line_before(text, start)
    is_certain = not before if text.startswith("//", start) else not before.strip() and text[start] == "#"
    return Slip("124", start, stop, "--" if is_certain else None)


def dash_comment(text: str, start: int, _end: int) -> Slip:
    """Two dashes of a text processor where a comment may begin."""
    if line_before(text, start):
        return Slip("114", start, start + 2, facts={"sign": MINUS_OR_COMMENT})
    return Slip("114", start, start + 2, "--", facts={"sign": "`--`"})


def word(text: str, start: int, end: int) -> Slip | None:
    """A word that is too long, or has letters that names cannot have."""
    written = text[start:end]
    if len(written) > NAME_LETTERS:
        return Slip("907", start, end, facts={"most": str(NAME_LETTERS)})
    if written.isascii():
        return None
    strange = "".join(dict.fromkeys(letter for letter in written if not letter.isascii()))
    return Slip("126", start, end, facts={"strange": strange})


def named(code: str) -> Correct:
    """A character that cannot be seen on the page: its number is told. No correction is certain."""

    def correct(text: str, start: int, end: int) -> Slip:
        numbers = ", ".join(dict.fromkeys(f"U+{ord(letter):04X}" for letter in text[start:end]))
        return Slip(code, start, end, facts={"number": numbers})

    return correct
