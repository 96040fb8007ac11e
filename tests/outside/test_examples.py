"""Published worked examples as an officer would write them into a sheet, run as a sheet's own examples."""

from __future__ import annotations

import pytest

from engine.evaluation.examples import run_examples
from tests.outside.bench import page, read

FOUR_SEATS = page(
    "FAA AC 43.13-1B, chapter 10, a four-seat aeroplane",
    """
load oil "Oil" from 0 lb to 20 lb
  arm -49 in                                   source book "fig. 10-10"
load front "Front seats" from 0 lb to 340 lb
  arm 16 in                                    source book "fig. 10-10"
load rear "Rear seats" from 0 lb to 340 lb
  arm 48 in assumed empty                      source book "fig. 10-13"
fuel tanks "Tanks" from 0 USgal to 40 USgal
  density 6 lb/USgal
  arm 22 in                                    source book "fig. 10-10"

limit max_mass "Maximum weight"
  at takeoff
  mass at most 2100 lb                         source book "fig. 10-10"
limit forward "Forward limit"
  at takeoff
  cg at least 8.5 in                           source book "fig. 10-10"

example forward_extreme "Forward extreme" source book "fig. 10-10"
  given empty_mass 1169 lb, empty_arm 10.6 in
  load oil 17 lb, front 170 lb, tanks 83 lb
  expect mass at takeoff 1439 lb
  expect moment at takeoff 16104 lb.in give or take 1 lb.in
  expect cg at takeoff 11.2 in give or take 0.05 in
  expect max_mass within by 661 lb, forward within, verdict within

example most_passengers "Maximum passengers" source book "fig. 10-13"
  given empty_mass 1169 lb, empty_arm 10.6 in
  load oil 17 lb, front 340 lb, rear 340 lb, tanks 39 USgal
  expect mass at takeoff 2100 lb
  expect moment at takeoff 38466 lb.in give or take 1 lb.in
  expect cg at takeoff 18.317 in give or take 0.0005 in
  expect max_mass within by 0 lb, verdict within
""",
)
"""Rows A02 (retrieved) and A04 (derived)."""

CRUISE_HOME = page(
    "Taxi, trip and landing, exam item, subject 031 (quizvds.it, test 031, item 7)",
    """
load crew from 0 lb to 1000 lb                 source book "item"
load cargo from 0 lb to 1000 lb                source book "item"
fuel tank "Tank" from 0 USgal to 80 USgal
  density 6 lb/USgal                           source book "item"
limit max_landing "Maximum landing mass"
  at landing
  mass at most 2700 lb                         source book "item"

example to_landing "Block, taxi and trip fuel" source book "item"
  given empty_mass 1799 lb, taxi_fuel 1.7 USgal, trip_fuel 35 USgal
  load crew 300 lb, cargo 350 lb, tank 60 USgal
  expect mass at ramp 2809 lb
  expect mass at takeoff 2798.8 lb
  expect mass at landing 2588.8 lb
  expect max_landing within by 111.2 lb
""",
)
"""Row F07 (derived); the standard empty mass with the optional equipment in it."""


@pytest.mark.parametrize(
    "sheet",
    [FOUR_SEATS, CRUISE_HOME],
    ids=[
        "A02, retrieved, and A04, derived, FAA AC 43.13-1B ch. 10",
        "F07, derived, exam item on quizvds.it test 031 item 7",
    ],
)
def test_published_examples_come_out_as_printed(sheet: str) -> None:
    assert read(sheet).examples
    assert not run_examples(read(sheet))


@pytest.mark.parametrize(
    ("right", "printed", "code"),
    [
        ("18.317 in give or take 0.0005 in", "18.6 in give or take 0.05 in", "801"),
        ("mass at takeoff 1439 lb", "mass at takeoff 1439.01 lb", "801"),
        ("max_mass within by 0 lb", "max_mass outside", "802"),
        ("max_mass within by 661 lb", "max_mass within by 660 lb", "803"),
    ],
)
def test_a_misprint_is_reported(right: str, printed: str, code: str) -> None:
    """The printed quotient of fig. 10-13 does not recompute; a sheet that copies it is held up."""
    assert FOUR_SEATS.count(right) == 1
    (problem,) = run_examples(read(FOUR_SEATS.replace(right, printed)))
    assert problem.code == code
