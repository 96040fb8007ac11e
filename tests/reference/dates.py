"""Calendar months added to a day."""

from __future__ import annotations

from calendar import monthrange
from datetime import date
from fractions import Fraction


def months_later(day: Fraction, months: int) -> Fraction:
    """The same day of a later month, or that month's last day where it is shorter."""
    start = date.fromordinal(int(day))
    year, month = divmod(start.year * 12 + start.month - 1 + months, 12)
    last = monthrange(year, month + 1)[1]
    return Fraction(date(year, month + 1, min(start.day, last)).toordinal())
