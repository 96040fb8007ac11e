"""The group's airframes: which sheet each is loaded by, its weighings and what is fixed for it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import TypedDict, cast

from limits_demo.files import data_text


@dataclass(frozen=True, slots=True)
class Weighing:
    """One weighing: the day, who did it, and its figures as a request would state them."""

    weighed_on: date
    by: str
    record: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Facts:
    """What has been fixed for the airframe since a day; later facts replace earlier ones of the same name."""

    since: date
    record: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Airframe:
    """One airframe of the group. Weighings and facts stand in the order of their dates."""

    registration: str
    sheet: str
    weighings: tuple[Weighing, ...]
    facts: tuple[Facts, ...]

    def weighing_on(self, day: date) -> Weighing:
        """The latest weighing up to and including ``day``. Errors: LookupError where there is none yet."""
        known = [weighing for weighing in self.weighings if weighing.weighed_on <= day]
        if not known:
            raise LookupError(f"{self.registration} had not been weighed by {day}")
        return known[-1]

    def record_on(self, day: date) -> dict[str, str]:
        """All that the airframe's record states on ``day``, by the names of the sheet's inputs."""
        weighing = self.weighing_on(day)
        record = {"weighed_on": weighing.weighed_on.isoformat(), **weighing.record}
        for facts in self.facts:
            if facts.since <= day:
                record.update(facts.record)
        return record


def fleet() -> tuple[Airframe, ...]:
    """Every airframe of the group."""
    return tuple(
        _airframe(entry) for entry in cast("list[_AirframeEntry]", json.loads(data_text("airframes.json")))
    )


class _WeighingEntry(TypedDict):
    weighed_on: str
    by: str
    record: dict[str, str]


class _FactsEntry(TypedDict):
    since: str
    record: dict[str, str]


class _AirframeEntry(TypedDict):
    registration: str
    sheet: str
    weighings: list[_WeighingEntry]
    facts: list[_FactsEntry]


def _airframe(entry: _AirframeEntry) -> Airframe:
    return Airframe(
        entry["registration"],
        entry["sheet"],
        tuple(_weighing(weighing) for weighing in entry["weighings"]),
        tuple(_facts(facts) for facts in entry["facts"]),
    )


def _weighing(entry: _WeighingEntry) -> Weighing:
    return Weighing(date.fromisoformat(entry["weighed_on"]), entry["by"], MappingProxyType(entry["record"]))


def _facts(entry: _FactsEntry) -> Facts:
    return Facts(date.fromisoformat(entry["since"]), MappingProxyType(entry["record"]))
