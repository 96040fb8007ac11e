"""Slips of the pen in dates and figures. No mend changes, joins or parts what may be two figures."""

from __future__ import annotations

import re
import unicodedata
from typing import Final

from grammar.reading.correcting import (
    Correct,
    Slip,
    has_bar,
    is_before_digit,
    is_behind_digit,
    line_before,
    offered,
)
from grammar.reading.days import certain_day
from grammar.reading.stop import STATEMENT_WORDS

DIGITS: Final = 40
"""The most digits of a figure."""

_LOOK_BACK: Final = 400
"""How far back the beginning of a statement is looked for."""

_KEYWORD: Final = re.compile("[a-z]+")

_GROUPING: Final = frozenset("\u2009\u202f")
"""Thin blanks: nobody types them but to set off thousands."""


def odd_day(text: str, start: int, end: int) -> Slip:
    """A date not written year-month-day; behind a figure or a sign it may be a sum."""
    last = line_before(text, start).rstrip()[-1:]
    day = certain_day(text[start:end])
    return Slip("119", start, end, day if last.isalpha() or last in {"<", ">"} else None)


def power_of_ten(_text: str, start: int, end: int) -> Slip:
    """``6.1e2``."""
    return Slip("130", start, end)


def thousands_sign(text: str, start: int, end: int) -> Slip | None:
    """Both signs, or one sign twice: the last one is the decimal sign only if the other stands before it.

    A comma may as well part two values in brackets, or two cells of a row; points may be those of a paragraph.
    """
    written = text[start:end]
    if "," in written and may_be_in_brackets(text, start):
        return None
    last = "," if written.rfind(",") > written.rfind(".") else "."
    whole, _, decimals = written.rpartition(last)
    has_both = {",", "."} <= set(written)
    figure = re.sub("[.,]", "", whole) + ("." if has_both else "") + decimals
    is_certain = "," in written and not has_bar(text, start, end)
    return offered(Slip("108", start, end), figure, is_certain=is_certain)


def thousands_gap(text: str, start: int, end: int) -> Slip:
    """A blank or an apostrophe between digits: it marks thousands, or parts two figures."""
    written = text[start:end]
    is_row = has_bar(text, start, end)
    is_certain = not is_row and not written.startswith("0") and set(re.sub(r"[\d.]", "", written)) <= _GROUPING
    slip = Slip("107", start, end)
    return slip if is_row else offered(slip, _without_gaps(written), is_certain=is_certain)


def _without_gaps(written: str) -> str:
    return re.sub(r"[^\d.,]", "", written).replace(",", ".")


def comma_figure(text: str, start: int, end: int) -> Slip | None:
    """A comma inside a figure; inside brackets it may as well part two values, and stays for the grammar."""
    if may_be_in_brackets(text, start):
        return None
    whole, decimals = text[start:end].split(",")
    if len(decimals) == 3 and 1 <= len(whole) <= 3 and not whole.startswith("0"):
        facts = {"point": f"{whole}.{decimals}", "joined": whole + decimals}
        return Slip("106", start, end, facts=facts)
    return offered(Slip("105", start, end), f"{whole}.{decimals}", is_certain=not has_bar(text, start, end))


def may_be_in_brackets(text: str, at: int) -> bool:
    """Whether a round bracket may be open at ``at``, as far as the text shortly before in its statement tells."""
    first = max(0, at - _LOOK_BACK)
    start = _statement_start(text, first, at)
    if start is None:
        return True
    opened = text.find("(", start, at)
    if opened < 0:
        return False
    is_clear = text.find("--", opened, at) < 0 and text.find('"', opened, at) < 0
    return not is_clear or text.count("(", start, at) > text.count(")", start, at)


def _statement_start(text: str, first: int, at: int) -> int | None:
    """Where from ``first`` on the statement begins that ``at`` belongs to, or None if it began before."""
    line = text.rfind("\n", first, at)
    while line >= 0:
        keyword = _KEYWORD.match(text, line + 1)
        if keyword is not None and keyword[0] in STATEMENT_WORDS:
            return line + 1
        line = text.rfind("\n", first, line)
    return 0 if first == 0 else None


def bare_point(text: str, start: int, end: int) -> Slip:
    """``.5``, and ``5.``, which may have lost its decimals; a blank may have slipped in beside the point."""
    written = text[start:end]
    if written.startswith("."):
        return Slip("118", start, end, None if is_behind_digit(text, start) else f"0{written}")
    return Slip("118", start, end, suggestion=None if is_before_digit(text, end) else written.rstrip("."))


def figure(_text: str, start: int, end: int) -> Slip | None:
    """A figure is fine, unless it has more digits than anything that was ever measured."""
    return Slip("906", start, end, facts={"most": str(DIGITS)}) if end - start > DIGITS else None


def fraction_sign(text: str, start: int, end: int) -> Slip:
    """``2½`` is 2.5; thirds have no decimals that end."""
    thousandths = unicodedata.numeric(text[end - 1]) * 1000
    whole = text[start : end - 1].strip()
    if thousandths != int(thousandths):
        return Slip("116", start, end)
    is_loose = end - 1 - start > len(whole) and has_bar(text, start, end)
    decimals = f"{int(thousandths):03}".rstrip("0")
    written = f"{whole or '0'}.{decimals}"
    is_certain = not is_loose and not is_behind_digit(text, start) and not is_before_digit(text, end)
    return Slip("116", start, end, written if is_certain else None)


def dots(_text: str, start: int, end: int) -> Slip:
    """``0 kg .. 130 kg``."""
    return Slip("226", start, end)


def measure_mark(unit: str) -> Correct:
    """The marks for feet and inches behind a figure; together they are two figures in two units."""

    def correct(text: str, start: int, end: int) -> Slip:
        first = start
        while first > 0 and (text[first - 1].isdecimal() or text[first - 1] == "."):
            first -= 1
        before = line_before(text, first).rstrip()[-1:]
        is_alone = before not in {*"'’′\"″,"} and not text[end : end + 1].isalnum()
        is_alone = is_alone and not is_before_digit(text, end) and not text[first - 1 : first].isalnum()
        mend = f"{text[first:start]} {unit}" if is_alone else None
        return Slip("133", first, end, mend, facts={"unit": unit})

    return correct
