"""Loads of the Aldermoor A4 to be measured with: the same for the sheet and for the hand-written limits."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from random import Random

from engine.evaluation.compiling.compiled import CompiledSheet, compile_sheet
from grammar.pipeline import read_sheet

SHEET = Path(__file__).parents[2] / "limits_demo" / "sheets" / "aldermoor_a4.limits"

Arguments = tuple[float | bool, ...]


@dataclass(frozen=True)
class Load:
    """One load: as a request states it, and as the hand-written limits take it."""

    request: dict[str, str]
    arguments: Arguments


@cache
def compiled() -> CompiledSheet:
    """The compiled sheet."""
    sheet = read_sheet(SHEET.read_text(encoding="utf-8"), SHEET.name).sheet
    assert sheet is not None
    return compile_sheet(sheet)


_UNITS = {
    "empty_mass": "lb",
    "empty_arm": "in",
    "pressure_altitude": "ft",
    "outside_air_temperature": "degF",
    "pilot": "lb",
    "front_passenger": "lb",
    "rear_seats": "lb",
    "nose_locker": "lb",
    "aft_locker": "lb",
    "wing_tanks": "USgal",
    "aft_tank": "USgal",
    "taxi_fuel": "USgal",
    "trip_fuel": "USgal",
}


def loads(number: int, seed: int = 1) -> tuple[Load, ...]:
    """Different loads, most of them within all limits, all with a trip that burns tank after tank."""
    random = Random(seed)
    return tuple(_load(random) for _ in range(number))


def _load(random: Random) -> Load:
    figures = {
        "empty_mass": random.choice((1562.0, 1579.0, 1588.0)),
        "empty_arm": random.choice((105.2, 104.8, 104.6)),
        "pressure_altitude": random.randrange(0, 4000, 100) / 1,
        "outside_air_temperature": random.randrange(20, 80) / 1,
        "pilot": random.randrange(1300, 2200) / 10,
        "front_passenger": random.randrange(0, 2000) / 10,
        "rear_seats": random.choice((0.0, random.randrange(0, 2500) / 10)),
        "nose_locker": random.choice((0.0, random.randrange(0, 60) / 1)),
        "aft_locker": random.choice((0.0, random.randrange(0, 60) / 1)),
        "wing_tanks": random.randrange(380, 440) / 10,
        "aft_tank": random.choice((0.0, random.randrange(0, 140) / 10)),
        "taxi_fuel": random.choice((0.0, 1.2)),
        "trip_fuel": random.randrange(100, 330) / 10,
    }
    category, surface = random.choice(("normal", "normal", "utility")), random.choice(("paved", "grass"))
    request = {name: f"{figure:g} {_UNITS[name]}" for name, figure in figures.items()}
    return Load({**request, "category": category, "surface": surface}, _arguments(figures, category, surface))


def _arguments(figures: dict[str, float], category: str, surface: str) -> Arguments:
    mass, arm, height, degrees, *loaded = figures.values()
    return (mass, arm, category == "normal", height, degrees, surface == "grass", *loaded)
