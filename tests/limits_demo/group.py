"""The demonstration's sheets, read once, and its bookings, checked once, for the tests."""

from __future__ import annotations

import json
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Final

from engine.evaluation.exact import evaluate
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult, LimitResult
from grammar.pipeline import Outcome, read_sheet
from grammar.sheet import Sheet, Verdict
from grammar.units import known_unit
from limits_demo import Airframe, Booking, bookings, fleet, sheet_text

EXPECTED: Final = json.loads(Path(__file__).with_name("expected.json").read_text(encoding="utf-8"))
"""What each booking comes to, worked out apart from the program (see the note inside)."""

BOOKINGS: Final = tuple(booking.id for booking in bookings())


@cache
def outcome(name: str) -> Outcome:
    """What reading a sheet of the demonstration comes to."""
    return read_sheet(sheet_text(name), f"{name}.limits")


@cache
def sheet(name: str) -> Sheet:
    """A checked sheet of the demonstration."""
    found = outcome(name).sheet
    assert found is not None, outcome(name).problems
    return found


@dataclass(frozen=True)
class Checked:
    """A booking with its airframe and the answer to it."""

    booking: Booking
    airframe: Airframe
    answer: CheckResult

    def limit(self, name: str) -> LimitResult:
        """How one limit came out."""
        return next(each for each in self.answer.limits if each.limit.name == name)

    def named(self, verdict: Verdict) -> set[str]:
        """The limits and cautions that came out so."""
        return {each.limit.name for each in self.answer.limits if each.verdict is verdict}


@cache
def checked(booking_id: str) -> Checked:
    """The answer to a booking."""
    booking = next(one for one in bookings() if one.id == booking_id)
    airframe = next(one for one in fleet() if one.registration == booking.airframe)
    its_sheet = sheet(airframe.sheet)
    loading = read_loading(its_sheet, booking.stated(airframe))
    return Checked(booking, airframe, evaluate(its_sheet, loading))


def everyone() -> tuple[Checked, ...]:
    """Every booking, answered."""
    return tuple(checked(booking_id) for booking_id in BOOKINGS)


def in_base_units(quantity: str) -> Fraction:
    """A difference such as "-8.2 kg" or "6433/300 kg" in base units."""
    figure, unit = quantity.split()
    return Fraction(figure) * known_unit(unit).factor
