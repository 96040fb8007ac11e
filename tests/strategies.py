"""Strategies shared by the tests: loadings, polygons, tanks with a burn order, whole sheets that burn fuel."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import atan2

from hypothesis import strategies as st

Corner = tuple[int, int]


def decimals(low: int, high: int, places: int = 1) -> st.SearchStrategy[Fraction]:
    """Decimal figures from ``low`` to ``high``."""
    scale = 10**places
    return st.integers(low * scale, high * scale).map(lambda n: Fraction(n, scale))


def typed(value: Fraction) -> str:
    """A decimal figure as a sheet or a request prints it."""
    scaled = value * 10**6
    assert scaled.denominator == 1
    sign = "-" if scaled < 0 else ""
    whole, rest = divmod(abs(scaled.numerator), 10**6)
    return f"{sign}{whole}.{rest:06}".rstrip("0").rstrip(".")


@st.composite
def polygons(draw: st.DrawFn, across: tuple[int, int], against: tuple[int, int]) -> list[Corner]:
    """Simple polygons within two ranges, often not convex: corners in the order of their direction from
    the middle, no two in one direction, the middle always enclosed."""
    middle = (Fraction(sum(across), 2), Fraction(sum(against), 2))
    corners: dict[tuple[int, int, Fraction], Corner] = {}
    for right, up in ((1, 1), (-1, 1), (-1, -1), (1, -1)):
        for _ in range(draw(st.integers(1, 2))):
            x = draw(st.integers(1, (across[1] - across[0]) // 2))
            y = draw(st.integers(1, (against[1] - against[0]) // 2))
            corners[right, up, Fraction(y, x)] = (int(middle[0]) + right * x, int(middle[1]) + up * y)
    return sorted(corners.values(), key=lambda at: atan2(at[1] - int(middle[1]), at[0] - int(middle[0])))


def envelope_rows(corners: list[Corner], across: str, against: str) -> str:
    """The rows of a printed envelope."""
    return "\n".join([f"  | {across} | {against} |", *(f"  | {x} | {y} |" for x, y in corners)])


# ---- sheets that burn fuel


@dataclass(frozen=True)
class Flight:
    """A sheet in which each claim is stated twice, ``throughout`` and ``at landing``, and a loading of it."""

    text: str
    stated: dict[str, str]
    trip: Fraction
    """The trip fuel in litres."""

    def landing_after(self, burned: Fraction) -> dict[str, str]:
        """The same loading landing after so many litres."""
        return {**self.stated, "trip_fuel": f"{burned} L"}


_BURN_ORDERS = (
    "a then b then c",
    "a with b, then c",
    "a down to 10 L, then b with c, then a",
    "c then a with b",
    "a with b with c",
    "b down to 5 L, then a down to 8 L, then b with a, then c",
)

_CLAIMS = (
    "mass at most {mass} kg",
    "mass between {low_mass} kg and {mass} kg",
    "cg between {fore} mm and {aft} mm",
    "(cg, mass) inside shape",
    "(cg, mass) inside shape or cg at most {fore} mm",
    "(moment, mass) inside moments",
    "cg at most {fore} mm + mass * {slope} mm/kg",
    "cg at most aft_by_mass(mass)",
    "mass at most mass_by_both(cg, fuel)",
    "round_up mass to 10 kg at most {mass} kg",
    "abs(fuel_in_a - fuel_in_b) at most {difference} kg",
    "cg at most ({aft} mm when mass > {low_mass} kg, {fore} mm otherwise)",
    "min(cg, {aft} mm) at least max({fore} mm, cg - {difference} mm)",
    "cg at least {fore} mm or (mass at most {mass} kg and fuel at least {difference} kg)",
    "not (cg < {fore} mm) and not (mass > {mass} kg)",
    "cg * cg at most {fore} mm * {aft} mm",
)


@st.composite
def flights(draw: st.DrawFn) -> Flight:
    """Three tanks with a burn order, a few claims of every form, and a loading whose trip burns them down."""
    figures = {
        "low_mass": (low_mass := draw(decimals(400, 560))),
        "mass": low_mass + draw(decimals(10, 100)),
        "fore": (fore := draw(decimals(900, 1150))),
        "aft": fore + draw(decimals(10, 250)),
        "slope": draw(decimals(0, 1, 2)),
        "difference": draw(decimals(0, 60)),
    }
    printed = {name: typed(value) for name, value in figures.items()}
    shape = draw(polygons((850, 1350), (400, 640)))
    moments = draw(polygons((300, 900), (400, 640)))
    by_mass = draw(st.lists(st.integers(900, 1300), min_size=4, max_size=4))
    by_both = draw(st.lists(st.integers(440, 640), min_size=6, max_size=6))
    claims = draw(st.lists(st.sampled_from(_CLAIMS), min_size=1, max_size=3, unique=True))
    arms = draw(st.lists(st.integers(300, 2600), min_size=4, max_size=4))
    order = draw(st.sampled_from(_BURN_ORDERS)).replace(" then", ", then").replace(",,", ",")
    statements = [_CARRIED.format(order=order, arms=arms)]
    statements.append(
        f'envelope shape of cg in mm against mass in kg source fm "4"\n{envelope_rows(shape, "cg", "mass")}'
    )
    rows = envelope_rows(moments, "moment", "mass")
    statements.append(f'envelope moments of moment in kg.m against mass in kg source fm "4"\n{rows}')
    statements.append(_TABLES.format(one=by_mass, two=by_both))
    for number, claim in enumerate(claims):
        for name, stage in (("flown", "throughout"), ("landed", "at landing")):
            statements.append(f'limit {name}_{number}\n  {stage}\n  {claim.format(**printed)}\n  source fm "5"')
    return Flight("\n".join(statements) + "\n", *_loading(draw))


def _loading(draw: st.DrawFn) -> tuple[dict[str, str], Fraction]:
    tanks = {name: draw(decimals(0, 60, 0)) for name in "abc"}
    taxi = draw(decimals(0, 8))
    trip = draw(decimals(0, 150))
    stated = {
        "empty_mass": f"{typed(draw(decimals(300, 400)))} kg",
        "empty_arm": f"{draw(st.integers(950, 1250))} mm",
        "seat": f"{typed(draw(decimals(50, 130)))} kg",
        "taxi_fuel": f"{typed(taxi)} L",
        **{name: f"{typed(amount)} L" for name, amount in tanks.items()},
    }
    return stated, trip


_CARRIED = """\
load seat from 0 kg to 200 kg arm {arms[3]} mm source fm "1"
fuel a from 0 L to 60 L density 0.72 kg/L arm {arms[0]} mm source fm "1"
fuel b from 0 L to 60 L density 0.72 kg/L arm {arms[1]} mm source fm "1"
fuel c from 0 L to 60 L density 0.8 kg/L arm {arms[2]} mm source fm "1"
burn {order} source fm "2"
let fuel_in_a = a
let fuel_in_b = b
"""

_TABLES = """\
table aft_by_mass of mass in kg gives mm source fm "3"
  | mass | aft |
  | 350 | {one[0]} |
  | 450 | {one[1]} |
  | 520 | {one[2]} |
  | 800 | {one[3]} |
table mass_by_both of cg in mm and fuel in kg gives kg source fm "3"
  |      | 0 | 120 |
  | 800  | {two[0]} | {two[1]} |
  | 1100 | {two[2]} | {two[3]} |
  | 1600 | {two[4]} | {two[5]} |
"""


_WORDS_OF_SHEETS = (
    "sheet", "document", "datum", "fact", "given", "load", "fuel", "burn", "let", "table", "envelope", "limit",
    "caution", "example", "from", "to", "arm", "source", "note", "at", "most", "least", "between", "and", "or",
    "not", "is", "in", "of", "when", "otherwise", "expect", "mass", "cg", "5", "kg", "mm", "2026-04-01", "(",
    ")", ",", "|", "+", "-", "*", "/", "<", ">", "=", '"label"', "--", '"open', "a_name", "°", "≤", "1,5",
)  # fmt: skip


def sheet_like_text() -> st.SearchStrategy[str]:
    """Words and signs of the sheet language in any order, on any lines."""
    gaps = st.sampled_from((" ", " ", " ", "\n", "\n  ", ""))
    pieces = st.tuples(st.sampled_from(_WORDS_OF_SHEETS), gaps).map("".join)
    return st.lists(pieces, max_size=40).map("".join)


@st.composite
def mangled(draw: st.DrawFn, text: str) -> str:
    """A text with up to four of its stretches taken out, doubled, moved or replaced by other letters."""
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.integers(0, 12)))
        stretch = text[start:end]
        put = draw(st.sampled_from(("", stretch * 2, stretch[::-1])) | st.text(max_size=3))
        text = text[:start] + put + text[end:]
    return text


_FIGURES_WITH_SLIPS = (
    "5", "82", "0", "100", "480", "1 480", "1\u202f480", "1\u2009480.5", "1\u00a0480", "1'480", "0 480", "61,5",
    "1,480", "1,480.5", "1.480,5", "1,000,000", "1.480.500", ".5", "5.", "61·5", "1⁄2", "90–115", "24\"", "5'",
    "6.1e2", "3,4", "5'10\"", "12", "6.3", "2.",
)  # fmt: skip
_OTHER_SLIPS = (
    "kg", "mm", "m^2", "°C", "|", "|", "||", "(", ")", "max(", ",", "+", "-", "−", "–", "––", "×", "x", "÷", "*",
    "≤", ">=", "=", "==", "!=", "&", "&&", "at most", "below", "not more than", "from", "to", "between", "and",
    "must be", "is", "arm", "in", "source fm", "load a", "limit a", "let b", "example e", "fuel at landing",
    "table t of a in ft gives kg", "envelope e of cg in mm against mass in kg", "seat-2", "Front_seat", "take-off",
    "#", "//", "# 2", "-- a 5", "'seat 2'", "“seat 3”", '"seat 4"', ";", ":", "[", "]", "\u00a0", "\u202f", "\t",
)  # fmt: skip


def slipping_text() -> st.SearchStrategy[str]:
    """Words and figures of sheets with slips of the pen in them, in any order, on any lines."""
    piece = st.sampled_from(_FIGURES_WITH_SLIPS) | st.sampled_from(_OTHER_SLIPS)
    gaps = st.sampled_from((" ", " ", " ", "\n", "\n  ", ""))
    return st.lists(st.tuples(piece, gaps).map("".join), min_size=1, max_size=20).map("".join)
