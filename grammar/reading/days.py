"""Dates that are not written year-month-day, and what can be said for certain about them."""

from __future__ import annotations

import re
from typing import Final

_MONTHS: Final = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTH: Final = (
    r"(?:Jan(?:uary)?|Feb(?:ruary)?|Mar(?:ch)?|Apr(?:il)?|May|June?|July?|Aug(?:ust)?"
    r"|Sept?(?:ember)?|Oct(?:ober)?|Nov(?:ember)?|Dec(?:ember)?)\.?"
)
_YEAR: Final = r"(?:19|20)\d\d"

GOOD_DAY: Final = r"\d{4}-\d{2}-\d{2}(?!\d)"
YEAR_FIRST: Final = rf"{_YEAR}[-./]\d{{1,2}}[-./]\d{{1,2}}(?![\d.])"
YEAR_LAST: Final = rf"\d{{1,2}}[-./]\d{{1,2}}[-./]{_YEAR}(?!\d)"
_ORDINAL: Final = r"\d{1,2}(?:st|nd|rd|th)?"
IN_WORDS: Final = rf"{_ORDINAL}[ ]+{_MONTH}[ ]+{_YEAR}(?!\d)|{_MONTH}[ ]+{_ORDINAL},?[ ]+{_YEAR}(?!\d)"

_PART: Final = re.compile(r"\d+|[A-Za-z]{3,}")


def certain_day(written: str) -> str | None:
    """The date as year-month-day, where only one day can be meant: by ``4/13/2026``, not by ``4/5/2026``."""
    parts = _PART.findall(written)
    year = next(part for part in parts if len(part) == 4 and part.isdigit())
    month_word = next((part for part in parts if part.isalpha()), None)
    rest = [int(part) for part in parts if part.isdigit() and part != year]
    if month_word is not None:
        return _iso(year, _MONTHS.index(month_word[:3].lower()) + 1, rest[0])
    first, second = rest[0], rest[1]
    if parts[0] == year:
        return _iso(year, first, second)
    if first > 12 or first == second:
        return _iso(year, second, first)
    return _iso(year, first, second) if second > 12 else None


def _iso(year: str, month: int, day: int) -> str | None:
    return f"{year}-{month:02}-{day:02}" if 1 <= month <= 12 and 1 <= day <= 31 else None
