"""Sums of masses and moments against plain fractions: exact, in whatever units they are stated."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.outside.bench import Answer, check, page
from tests.outside.rows import decimal

KILOGRAMS: Final = {"kg": Fraction(1), "lb": Fraction("0.45359237"), "g": Fraction("0.001")}
LITRES: Final = {"L": Fraction(1), "USgal": Fraction("3.785411784"), "impgal": Fraction("4.54609")}
ARMS: Final = {"front_seat": Fraction(610), "rear_seat": Fraction(1480), "nose_locker": Fraction(-120)}

SHEET: Final = page(
    "Four places",
    """
load front_seat from 0 kg to 200000 kg         arm 610 mm   source book "loads"
load rear_seat from 0 kg to 200000 kg          arm 1.48 m   source book "loads"
load nose_locker from 0 kg to 200000 kg        arm -12 cm   source book "loads"
fuel tank from 0 L to 1000000 L
  density 0.72 kg/L arm 1390 mm                             source book "loads"
limit max_mass "Maximum take-off mass"
  at takeoff
  mass at most 540 kg                                       source book "limits"
limit balance "Centre of gravity"
  at takeoff
  cg between 1000 mm and 1300 mm                            source book "limits"
limit total_moment "Moment"
  at takeoff
  moment at most 700000 kg.mm                               source book "limits"
""",
)

NUMBERS = st.decimals(min_value=0, max_value=200, places=4).map(Fraction)
MASSES = st.tuples(NUMBERS, st.sampled_from(sorted(KILOGRAMS)))
VOLUMES = st.tuples(NUMBERS, st.sampled_from(sorted(LITRES)))
Stated = tuple[Fraction, str]


@settings(max_examples=150, deadline=None)
@given(front_seat=MASSES, rear_seat=MASSES, nose_locker=MASSES, tank=VOLUMES)
def test_mass_moment_and_balance(front_seat: Stated, rear_seat: Stated, nose_locker: Stated, tank: Stated) -> None:
    masses = {"front_seat": front_seat, "rear_seat": rear_seat, "nose_locker": nose_locker}
    answer = check(
        SHEET,
        empty_mass="288 kg",
        empty_arm="1260 mm",
        tank=f"{decimal(tank[0])} {tank[1]}",
        **{name: f"{decimal(amount)} {unit}" for name, (amount, unit) in masses.items()},
    )
    kilograms = {name: amount * KILOGRAMS[unit] for name, (amount, unit) in masses.items()}
    fuel = tank[0] * LITRES[tank[1]] * Fraction(72, 100)
    mass = 288 + sum(kilograms.values()) + fuel
    moment = 288 * 1260 + sum(kilograms[name] * ARMS[name] for name in kilograms) + fuel * 1390
    assert answer.value("mass", "kg", "takeoff") == mass
    assert answer.value("moment", "kg.mm", "takeoff") == moment
    assert answer.value("cg", "mm", "takeoff") == moment / mass
    _agrees(answer, "max_mass", mass <= 540)
    _agrees(answer, "balance", 1000 * mass <= moment <= 1300 * mass)
    _agrees(answer, "total_moment", moment <= 700_000)


def _agrees(answer: Answer, limit: str, is_held: bool) -> None:
    assert answer.verdict(limit) == ("within" if is_held else "outside")


@settings(max_examples=60, deadline=None)
@given(excess=st.sampled_from([Fraction(1, 10**n) for n in range(1, 20)]))
def test_exactly_on_the_limit_and_the_least_bit_over(excess: Fraction) -> None:
    """A decimal place that a binary fraction would swallow still decides."""
    solo = {"rear_seat": "0 kg", "nose_locker": "0 kg", "tank": "0 L"}
    known = {"empty_mass": "288 kg", "empty_arm": "1260 mm", **solo}
    assert check(SHEET, **known, front_seat="252 kg").verdict("max_mass") == "within"
    over = check(SHEET, **known, front_seat=f"{decimal(252 + excess)} kg")
    assert over.verdict("max_mass") == "outside"
    assert over.over("max_mass", "kg") == excess


def test_tenths_add_up() -> None:
    """Three times 0.1 kg is 0.3 kg, which binary fractions get wrong."""
    assert 0.1 + 0.1 + 0.1 > 0.3
    sheet = page(
        "Tenths",
        """
load one from 0 kg to 1 kg                     source book "loads"
load two from 0 kg to 1 kg                     source book "loads"
load three from 0 kg to 1 kg                   source book "loads"
limit together "All three"
  one + two + three at most 0.3 kg             source book "limits"
""",
    )
    answer = check(sheet, one="0.1 kg", two="0.1 kg", three="0.1 kg")
    assert answer.verdict() == "within"
    assert answer.over("together", "kg") == 0
