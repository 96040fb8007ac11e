"""Tables against independent interpolation; beyond the print nothing is settled, where others clamp in silence."""

from __future__ import annotations

import random
from fractions import Fraction
from typing import Final

import numpy as np
import pytest
from scipy.interpolate import RegularGridInterpolator

from engine.evaluation.result import OutOfTable
from tests.outside.bench import Answer, check, page
from tests.outside.rows import decimal

Grid = tuple[list[int], list[int], list[list[int]]]


def random_grid(chance: random.Random) -> Grid:
    """Two rising axes and whole numbers between them."""
    heights = sorted(chance.sample(range(0, 10_000, 50), chance.randint(2, 6)))
    temperatures = sorted(chance.sample(range(-30, 50), chance.randint(2, 6)))
    return heights, temperatures, [[chance.randint(300, 700) for _ in temperatures] for _ in heights]


def performance_sheet(grid: Grid) -> str:
    heights, temperatures, masses = grid
    head = "  |   | " + " | ".join(str(one) for one in temperatures) + " |"
    lines = "\n".join(
        f"  | {height} | " + " | ".join(str(mass) for mass in row) + " |"
        for height, row in zip(heights, masses, strict=True)
    )
    return page(
        "Mass for the height and temperature of the day",
        f"""
given pressure_altitude in ft from -5000 ft to 20000 ft
given temperature in degC from -100 degC to 100 degC
table hot_and_high of pressure_altitude in ft and temperature in degC gives kg
  source book "performance"
{head}
{lines}
let allowed = hot_and_high(pressure_altitude, temperature)
limit climb "Mass for the height and temperature of the day"
  at takeoff
  mass at most allowed                         source book "performance"
""",
    )


GRIDS: Final = [random_grid(random.Random(seed)) for seed in range(25)]


def asked(sheet: str, height: Fraction, temperature: Fraction) -> Answer:
    return check(
        sheet,
        pressure_altitude=f"{decimal(height)} ft",
        temperature=f"{decimal(temperature)} degC",
        empty_mass="400 kg",
    )


@pytest.mark.parametrize("grid", GRIDS, ids=range(len(GRIDS)))
def test_bilinear_table(grid: Grid) -> None:
    heights, temperatures, masses = grid
    sheet = performance_sheet(grid)
    library = RegularGridInterpolator((heights, temperatures), np.array(masses, dtype=float))
    chance = random.Random(sum(heights))
    for _ in range(12):
        height = Fraction(chance.randint(heights[0] * 10, heights[-1] * 10), 10)
        temperature = Fraction(chance.randint(temperatures[0] * 10, temperatures[-1] * 10), 10)
        allowed = asked(sheet, height, temperature).value("allowed", "kg")
        theirs = float(library([[float(height), float(temperature)]])[0])
        assert float(allowed) == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize("grid", GRIDS[:10], ids=range(10))
def test_printed_values_are_read_as_printed(grid: Grid) -> None:
    heights, temperatures, masses = grid
    sheet = performance_sheet(grid)
    for height, row in zip(heights, masses, strict=True):
        for temperature, mass in zip(temperatures, row, strict=True):
            assert asked(sheet, Fraction(height), Fraction(temperature)).value("allowed", "kg") == mass


@pytest.mark.parametrize("grid", GRIDS, ids=range(len(GRIDS)))
def test_beyond_the_table_nothing_is_settled(grid: Grid) -> None:
    """Where the library raises, the limit is undetermined and says along which axis and to where it reaches."""
    heights, temperatures, masses = grid
    sheet = performance_sheet(grid)
    library = RegularGridInterpolator((heights, temperatures), np.array(masses, dtype=float))
    little = Fraction(1, 1000)
    for axis, height, temperature, nearest in (
        (0, heights[0] - little, Fraction(temperatures[0]), heights[0] * Fraction("0.3048")),
        (0, heights[-1] + little, Fraction(temperatures[0]), heights[-1] * Fraction("0.3048")),
        (1, Fraction(heights[0]), temperatures[0] - little, temperatures[0] + Fraction("273.15")),
        (1, Fraction(heights[0]), temperatures[-1] + little, temperatures[-1] + Fraction("273.15")),
    ):
        with pytest.raises(ValueError, match="out of bounds"):
            library([[float(height), float(temperature)]])
        result = asked(sheet, height, temperature).limit("climb")
        assert result.verdict.value == "undetermined"
        assert result.gap is not None
        (cause,) = result.gap.causes
        assert isinstance(cause, OutOfTable)
        assert (cause.axis, cause.nearest) == (axis, nearest)


ONE_AXIS = page(
    "Mass for the height of the day",
    """
given pressure_altitude in ft from 0 ft to 20000 ft
table high of pressure_altitude in ft gives kg
  source book "performance"
  | pressure_altitude | mass |
  |              1000 |  540 |
  |              4000 |  510 |
  |              8000 |  430 |
let allowed = high(pressure_altitude)
limit climb "Mass for the height of the day"
  at takeoff
  mass at most allowed                         source book "performance"
""",
)
HEIGHTS, MASSES = [1000.0, 4000.0, 8000.0], [540.0, 510.0, 430.0]


@pytest.mark.parametrize("height", [1000, 1001, 2500, 3999, 4000, 5123, 8000])
def test_one_axis(height: int) -> None:
    found = check(ONE_AXIS, pressure_altitude=f"{height} ft", empty_mass="400 kg").value("allowed", "kg")
    assert float(found) == pytest.approx(float(np.interp(height, HEIGHTS, MASSES)), rel=1e-12)


@pytest.mark.parametrize("height", [0, 999, 8001, 20_000])
def test_where_others_clamp(height: int) -> None:
    """The library gives the end of the table for a height beyond it; here that never clears a load."""
    clamped = float(np.interp(height, HEIGHTS, MASSES))
    assert clamped in (MASSES[0], MASSES[-1])
    answer = check(ONE_AXIS, pressure_altitude=f"{height} ft", empty_mass="400 kg")
    assert clamped > 400
    assert answer.verdict() == "undetermined"
