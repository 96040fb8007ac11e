"""Formulas of the trade, derived by an algebra library from the definition of the balance, against sheets."""

from __future__ import annotations

from fractions import Fraction

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.outside.bench import check, page
from tests.outside.rows import decimal

TENTHS = st.integers(1000, 90_000).map(lambda whole: Fraction(whole, 10))
MASSES = st.integers(5000, 20_000).map(lambda whole: Fraction(whole, 10))
SMALL = st.integers(1, 1500).map(lambda whole: Fraction(whole, 10))

W, c, b, a, goal, w, s, t = sympy.symbols("W c b a goal w s t")
(BALLAST,) = sympy.solve(sympy.Eq((W * c + b * a) / (W + b), goal), b)
(SHIFTED,) = sympy.solve(sympy.Eq((W * c + w * (t - s)) / W, goal), w)
REMOVED = sympy.simplify((W * c - w * s) / (W - w))


def derived(formula: sympy.Expr, **known: Fraction) -> Fraction:
    """The exact value of a derived formula."""
    exact = {name: sympy.Rational(value.numerator, value.denominator) for name, value in known.items()}
    value = sympy.Rational(formula.subs(exact))
    return Fraction(int(value.p), int(value.q))


def test_the_library_derives_the_formulas_of_the_books() -> None:
    assert sympy.simplify(BALLAST - W * (goal - c) / (a - goal)) == 0
    assert sympy.simplify(SHIFTED - W * (goal - c) / (t - s)) == 0


BALLAST_SHEET = page(
    "Ballast",
    """
given aircraft "Mass without ballast" in kg from 500 kg to 2000 kg
given balance "Centre of gravity without ballast" in mm from 100 mm to 9000 mm
given wanted "Centre of gravity that is wanted" in mm from 100 mm to 9000 mm
given place "Arm of the ballast" in mm from 10000 mm to 20000 mm
load ballast "Ballast" from 0 kg to 100000 kg
  arm place                                    source book "ballast"
let needed = aircraft * (wanted - balance) / (place - wanted)
limit enough "Enough ballast"
  ballast at least needed                      source book "ballast"
limit balanced "No further forward than is wanted"
  at takeoff
  cg at least wanted                           source book "ballast"
""",
)


@settings(max_examples=40, deadline=None)
@given(mass=MASSES, balance=TENTHS, wanted=TENTHS, place=st.integers(10_000, 20_000).map(Fraction))
def test_ballast(mass: Fraction, balance: Fraction, wanted: Fraction, place: Fraction) -> None:
    """The derived amount makes the balance exactly what is wanted, and the sheet's formula says the same."""
    needed = derived(BALLAST, W=mass, c=balance, a=place, goal=wanted)
    loaded = check(
        BALLAST_SHEET,
        aircraft=f"{decimal(mass)} kg",
        empty_mass=f"{decimal(mass)} kg",
        balance=f"{decimal(balance)} mm",
        empty_arm=f"{decimal(balance)} mm",
        wanted=f"{decimal(wanted)} mm",
        place=f"{decimal(place)} mm",
        ballast=max(needed, Fraction(0)),
    )
    assert loaded.value("needed", "kg") == needed
    if needed >= 0:
        assert loaded.value("cg", "mm", "takeoff") == wanted
        assert loaded.verdict("balanced") == "within"


SHIFT_SHEET = page(
    "Shift",
    """
load forward_hold "Forward hold" from 0 kg to 20000 kg
  arm 500 mm                                   source book "shift"
load aft_hold "Aft hold" from 0 kg to 20000 kg
  arm 4500 mm                                  source book "shift"
limit balanced "Room for any balance, so that it is worked out"
  at takeoff
  cg at most 100 m                             source book "shift"
""",
)


@settings(max_examples=40, deadline=None)
@given(empty=MASSES, arm=TENTHS, hold=MASSES, move=SMALL)
def test_shift(empty: Fraction, arm: Fraction, hold: Fraction, move: Fraction) -> None:
    """The derived formula gives back what was moved, from the balance before and after."""

    def balance(forward: Fraction, aft: Fraction) -> Fraction:
        answer = check(
            SHIFT_SHEET,
            empty_mass=f"{decimal(empty)} kg",
            empty_arm=f"{decimal(arm)} mm",
            forward_hold=f"{decimal(forward)} kg",
            aft_hold=f"{decimal(aft)} kg",
        )
        return answer.value("cg", "mm", "takeoff")

    before, after = balance(hold, Fraction(0)), balance(hold - move, move)
    moved = derived(SHIFTED, W=empty + hold, c=before, goal=after, s=Fraction(500), t=Fraction(4500))
    assert moved == move
    unloaded = derived(REMOVED, W=empty + hold, c=before, w=move, s=Fraction(500))
    assert balance(hold - move, Fraction(0)) == unloaded


@pytest.mark.parametrize(("limit", "verdict"), [("2999.9", "within"), ("3000", "within"), ("3000.1", "outside")])
def test_mass_at_the_balance_itself_moves_nothing(limit: str, verdict: str) -> None:
    sheet = page(
        "Ballast at the centre of gravity",
        f"""
load ballast "Ballast" from 0 kg to 100 kg     arm 3000 mm   source book "ballast"
limit balanced "Forward limit"
  at takeoff
  cg at least {limit} mm                       source book "ballast"
""",
    )
    answer = check(sheet, empty_mass="600 kg", empty_arm="3000 mm", ballast="77.7 kg")
    assert answer.value("cg", "mm", "takeoff") == 3000
    assert answer.verdict("balanced") == verdict
