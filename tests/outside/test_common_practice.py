"""Facts of the trade: common practice, no source."""

from __future__ import annotations

from fractions import Fraction

from tests.outside.bench import Answer, check, page

TWO_SEATS = page(
    "Common practice, no source",
    """
load pilot "Pilot, front seat" from 0 kg to 130 kg         source book "practice"
load passenger "Passenger, rear seat" from 0 kg to 130 kg  source book "practice"
load nose_baggage "Nose baggage" from 0 kg to 20 kg
  assumed empty                                            source book "practice"
fuel tank "Tank" from 0 L to 94 L
  density 0.72 kg/L                                        source book "practice"
let passenger_most = 500 kg - empty_mass - pilot - nose_baggage - fuel at takeoff
  source book "practice"
limit front_seat "Front seat, less twice the nose baggage"
  pilot at most 110 kg - 2 * nose_baggage                  source book "practice"
limit passenger_limit "What is left for the passenger"
  passenger at most passenger_most                         source book "practice"
limit max_mass "Maximum take-off mass"
  at takeoff
  mass at most 500 kg                                      source book "practice"
""",
)


def loaded(pilot: str, passenger: str = "0 kg", baggage: str = "0 kg") -> Answer:
    return check(
        TWO_SEATS, empty_mass="285 kg", tank="94 L", pilot=pilot, passenger=passenger, nose_baggage=baggage
    )


def test_nose_baggage_takes_twice_its_mass_off_the_front_seat() -> None:
    """Common practice, no source: 110 kg less twice 10 kg leaves 90 kg."""
    answer = loaded("90 kg", baggage="10 kg")
    assert answer.margin("front_seat").bound == 90
    assert answer.verdict("front_seat") == "within"
    assert loaded("90.1 kg", baggage="10 kg").verdict("front_seat") == "outside"
    assert loaded("110 kg").verdict("front_seat") == "within"


def test_full_tank_of_petrol() -> None:
    """Common practice, no source: 94 L at about 0.72 kg/L weigh about 68 kg."""
    assert round(loaded("80 kg").value("fuel", "kg", "takeoff")) == 68
    assert loaded("80 kg").value("fuel", "kg", "takeoff") == Fraction("67.68")


def test_passenger_with_full_fuel() -> None:
    """Common practice, no source: about 67 kg are left for the passenger, less than the pilot's 80 kg."""
    most = loaded("80 kg").value("passenger_most", "kg")
    assert round(most) == 67
    assert most < 80
    assert loaded("80 kg", "67.32 kg").verdict() == "within"
    assert loaded("80 kg", "67.33 kg").verdict("max_mass") == "outside"
    assert loaded("80 kg", "80 kg").over("max_mass", "kg") == 80 - most
