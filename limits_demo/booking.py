"""The group's bookings: what members mean to fly, as a booking system would send it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import TypedDict, cast

from limits_demo.airframe import Airframe
from limits_demo.files import data_text


@dataclass(frozen=True, slots=True)
class Booking:
    """One booking: the airframe, the day, who asks, what for, and the loading as it was typed.

    ``shows`` says what the booking is in the demonstration for.
    """

    id: str
    airframe: str
    date: date
    asked_by: str
    purpose: str
    shows: str
    loading: Mapping[str, str]

    def request(self) -> dict[str, str]:
        """What the flight itself states, by the names of the sheet's inputs."""
        return {"flight_date": self.date.isoformat(), **self.loading}

    def stated(self, airframe: Airframe) -> dict[str, str]:
        """All that is stated for a check: the airframe's record on the day and the request."""
        return {**airframe.record_on(self.date), **self.request()}


def bookings() -> tuple[Booking, ...]:
    """Every booking, in the order of their numbers."""
    return tuple(_booking(entry) for entry in cast("list[_BookingEntry]", json.loads(data_text("bookings.json"))))


class _BookingEntry(TypedDict):
    id: str
    airframe: str
    date: str
    asked_by: str
    purpose: str
    shows: str
    loading: dict[str, str]


def _booking(entry: _BookingEntry) -> Booking:
    return Booking(
        entry["id"],
        entry["airframe"],
        date.fromisoformat(entry["date"]),
        entry["asked_by"],
        entry["purpose"],
        entry["shows"],
        MappingProxyType(entry["loading"]),
    )
