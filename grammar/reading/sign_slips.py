"""Slips of the pen in signs, units and blanks."""

from __future__ import annotations

import re
import unicodedata
from typing import Final

from grammar.reading.correcting import MINUS_OR_COMMENT, Slip, line_before, line_behind, worded

_MOMENT: Final = re.compile(r"(?<![A-Za-z0-9_])(?:kg|g|lb|oz|N|daN|kN|lbf)[·⋅∙](?:mm|cm|m|in|ft)(?![A-Za-z0-9_])")
_SQUARED: Final = re.compile(
    r"(?:\d|(?<![a-z0-9_])(?:in|gives)[ \t])[ \t]*(?:[A-Za-z]+[./])?(?:mm|cm|m|in|ft)$"
    r"|[0-9A-Za-z]/(?:mm|cm|m|in|ft)$"
)
"""Before a small 2 or 3: a unit of length behind a figure, or one where only a unit can stand."""

_GAP: Final = r"(?:\s|--[^\n]*\n)"
_LET: Final = re.compile(rf"(?:amend{_GAP}+)?let{_GAP}+(?:[\w-]+{_GAP}*)?")
_CONDITION: Final = re.compile(r"\b(?:when|and|or|not)[ \t(]+(?:not[ \t(]+)?[a-z][a-z0-9_]*[ \t]*$")
_DASH: Final = re.compile("[-‐-―−﹣－]")
_DIVIDED: Final = re.compile("[/÷∕⁄]")
_OPTION: Final = re.compile(r"[ \t]*[a-z]")
_HEAD: Final = re.compile(r"[a-z]+[ \t]*")
_STATEMENT: Final = 400
"""How much of a statement before a sign is looked at."""


def equals(text: str, start: int, end: int) -> Slip | None:
    """A sign of equality anywhere but behind the name of a ``let``."""
    if _LET.fullmatch(_statement_before(text, start)):
        return None if end - start == 1 else Slip("111", start, end, "=", facts={"words": "`=`"})
    is_condition = _CONDITION.search(line_before(text, start)) and _OPTION.match(line_behind(text, end))
    if not is_condition:
        words = "`is` in a condition, and nothing between a name and its value"
        return Slip("111", start, end, facts={"words": words})
    slip = worded("111", "is", text[start:end])(text, start, end)
    return slip and Slip("111", start, end, slip.mend, facts={"words": "`is`"})


def _statement_before(text: str, at: int) -> str:
    """What stands in the statement before ``at``, or its last few hundred letters."""
    before = text[max(0, at - _STATEMENT) : at]
    margins = [line.end() for line in re.finditer(r"\n(?=[^\s-])", before)]
    return before[margins[-1] :] if margins else before.lstrip("\ufeff")


def or_sign(text: str, start: int, end: int) -> Slip | None:
    """Two bars mean "or" to some; in a row they are an empty cell."""
    at = text.rfind("\n", 0, start) + 1
    while text[at] in " \t":
        at += 1
    if text[at] == "|":
        return None
    has_bars = "|" in text[at:start] or "|" in line_behind(text, end)
    return worded("113", "or", "" if has_bars else "|| ∨")(text, start, end)


def short_dash(text: str, start: int, end: int) -> Slip:
    """A dash or hyphen of a text processor; between two digits it may mean "to", two of them are no minus."""
    if _DASH.fullmatch(text[start - 1 : start]) or _DASH.fullmatch(text[end : end + 1]):
        return Slip("114", start, end, facts={"sign": MINUS_OR_COMMENT})
    if text[start] != "−" and text[start - 1 : start].isdecimal() and text[end : end + 1].isdecimal():
        signs = "`-` if minus is meant, `to` or `and` between the ends of a range"
        return Slip("114", start, end, facts={"sign": signs})
    return Slip("114", start, end, "-", facts={"sign": "`-`"})


def long_dash(_text: str, start: int, _end: int) -> Slip:
    """A long dash, which may begin a comment or mean minus."""
    return Slip("135", start, start + 1)


def times(text: str, start: int, end: int) -> Slip:
    """A sign of multiplication. A raised point is a unit's own, times, or an old way of writing decimals."""
    is_point = text[start] in "·⋅∙•"
    if is_point and _MOMENT.search(text, max(0, start - 5), end + 4):
        return Slip("115", start, end, ".", facts={"sign": "`.`"})
    is_set_off = text[start - 1 : start] == " " and text[end : end + 1] == " " and text[start] != "•"
    if is_point and not (is_set_off and line_before(text, start).strip()):
        return Slip("115", start, end, facts={"sign": "`*` for times, `.` before decimals"})
    return Slip("115", start, end, "*", facts={"sign": "`*`"})


def divided(text: str, start: int, end: int) -> Slip:
    """A sign of division; the stroke of a fraction may belong to a figure, and two of them to a comment."""
    if text[start] == "⁄":
        return Slip("115", start, end, facts={"sign": "`/` to divide; two and a half is 2.5"})
    if _DIVIDED.fullmatch(text[start - 1 : start]) or _DIVIDED.fullmatch(text[end : end + 1]):
        return Slip("115", start, end, facts={"sign": "`/` once"})
    return Slip("115", start, end, "/", facts={"sign": "`/`"})


def raised(text: str, start: int, end: int) -> Slip:
    """A small raised figure: part of a unit of length, else a power, which the language does not have."""
    plain = unicodedata.normalize("NFKC", text[start:end])
    if plain in {"2", "3"} and _is_unit(text, start):
        return Slip("117", start, end, plain)
    return Slip("131", start, end)


def power(text: str, start: int, end: int) -> Slip:
    """``m^2`` for m2, or a power."""
    is_small = text[end : end + 1] in {"2", "3"} and not text[end + 1 : end + 2].isalnum()
    return Slip("131", start, end, "" if is_small and _is_unit(text, start) else None)


def _is_unit(text: str, at: int) -> bool:
    return _SQUARED.search(text, max(0, at - 16), at) is not None


def degrees(text: str, start: int, end: int) -> Slip:
    """Degrees Celsius or Fahrenheit; a lone degree sign does not say which."""
    scale = {"℃": "C", "℉": "F"}.get(text[start], text[end - 1].upper())
    if scale not in "CF":
        return Slip("109", start, end)
    before = " " if start > 0 and text[start - 1].isdigit() else ""
    return Slip("109", start, end, f"{before}deg{scale}")


def stop(text: str, start: int, end: int) -> Slip:
    """A stop that ends a line, or a colon behind a keyword, can go."""
    behind = line_behind(text, end).strip()
    is_head = text[start] == ":" and _HEAD.fullmatch(line_before(text, start)) is not None
    is_last = not behind or behind.startswith("--")
    is_certain = text[start - 1 : start].strip() and (is_last or (is_head and text[end : end + 1].isspace()))
    return Slip("132", start, end, "" if is_certain else None)


def other_bracket(text: str, start: int, end: int) -> Slip:
    """Square and curly brackets."""
    sign = "(" if text[start] in "[{" else ")"
    return Slip("125", start, end, sign, facts={"sign": sign})


def odd_space(text: str, start: int, end: int) -> Slip:
    """A blank of a text processor; between two digits it may belong to a figure."""
    is_within_figure = text[start - 1 : start].isdecimal() and text[end : end + 1].isdecimal()
    return Slip("104", start, end, None if is_within_figure else " ")


def tab(text: str, start: int, end: int) -> Slip:
    """A tab, at the beginning of a line or within it."""
    return Slip("122", start, end, "  " * (end - start) if text[start - 1 : start] in {"", "\n"} else " ")


def foreign_sign(text: str, start: int, end: int) -> Slip:
    """A sign that the language does not have."""
    return Slip("129", start, end, facts={"number": f"U+{ord(text[start]):04X}"})
