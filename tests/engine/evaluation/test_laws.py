"""The laws of the language that the evaluation must keep, on random loadings of one sheet that has it all."""

from __future__ import annotations

import re
from fractions import Fraction
from random import Random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.evaluation.exact import evaluate_planned, plan_of
from engine.evaluation.loading import Loading
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult, LimitResult, Missing
from grammar.sheet import Sheet, Verdict, Weight
from tests.engine.evaluation.small_sheets import HEADER, sheet_of
from tests.strategies import decimals, typed

# A figure in angle brackets is written out in one set of units or another: <12 lb> with its unit,
# <12;lb> as a cell below a heading that has it, <;lb> the unit alone.
TEXT = """\
fact engine is one of standard, boosted source fm "1"
given field is one of hard, grass
given height in <;ft> from <0 ft> to <8000 ft>

load front from <0 lb> to <290 lb> arm <24 in> source fm "1"
load rear from <0 lb> to <290 lb> arm <59 in> source fm "1"
load locker from <0 lb> to <40 lb> arm <80 in> assumed empty source fm "1"

fuel wing from <0 USgal> to <20 USgal> density <6 lb/USgal> arm <52 in> source fm "1"
fuel aft from <0 USgal> to <10 USgal> density <6 lb/USgal> arm <85 in> source fm "1"
burn aft down to <2 USgal>, then wing with aft source fm "1"

let aboard = front + rear

table by_height of height in <;ft> gives <;lb> source fm "3"
  | height | most |
  | <0;ft> | <1150;lb> |
  | <3000;ft> | <1080;lb> |
  | <6000;ft> | <960;lb> |

envelope fore_and_aft of cg in <;in> against mass in <;lb> source fm "3"
  | cg | mass |
  | <42;in> | <650;lb> |
  | <41;in> | <900;lb> |
  | <44;in> | <1150;lb> |
  | <50;in> | <1150;lb> |
  | <52;in> | <900;lb> |
  | <47;in> | <860;lb> |
  | <52;in> | <820;lb> |
  | <51;in> | <650;lb> |

limit most_mass
  at takeoff
  mass at most (<1000 lb> when engine is standard, <1150 lb> when engine is boosted)
  source fm "2"

limit seats
  aboard at most <400 lb> - 3 * locker or engine is boosted
  source fm "2"

limit one_up
  front is occupied
  when rear is occupied
  source fm "2"

limit climb
  at takeoff
  mass at most by_height(height)
  source fm "2"

limit balance
  throughout
  (cg, mass) inside fore_and_aft
  source fm "2"

limit going_aft
  throughout
  cg at most min(<52 in>, <30 in> + mass * 1.1 mm/kg)
  when field is hard
  source fm "2"

limit reserve
  at landing
  volume(wing) at least <2 USgal>
  source fm "2"

caution heavy_on_grass
  at takeoff
  mass at most <900 lb>
  when field is grass and height > <2000 ft>
  source fm "2"
"""
FACTORS = {
    "lb": ("kg", Fraction("0.45359237")),
    "in": ("mm", Fraction("25.4")),
    "ft": ("m", Fraction("0.3048")),
    "USgal": ("L", 231 * Fraction("0.254") ** 3),
    "lb/USgal": ("kg/m3", Fraction("0.45359237") / (231 * Fraction("0.0254") ** 3)),
}
KEPT = {"lb/USgal"}
"""What does not end as a decimal stays as it is."""

FIGURE = re.compile(r"<([\d.]*)([ ;])([^>]+)>")


def as_printed(match: re.Match[str]) -> str:
    return match[1] + (" " + match[3] if match[2] == " " else "" if match[1] else match[3])


def decimal(value: Fraction) -> str:
    places = 20
    scaled = value * 10**places
    assert scaled.denominator == 1
    whole, rest = divmod(scaled.numerator, 10**places)
    return f"{whole}.{rest:0{places}}".rstrip("0").rstrip(".")


def in_other_units(match: re.Match[str]) -> str:
    if match[3] in KEPT:
        return as_printed(match)
    unit, factor = FACTORS[match[3]]
    figure = decimal(Fraction(match[1]) * factor) if match[1] else ""
    return figure + (" " + unit if match[2] == " " else "" if match[1] else unit)


SHEET = sheet_of(FIGURE.sub(as_printed, TEXT))
PLAN = plan_of(SHEET)

Stated = dict[str, str]


@st.composite
def loadings(draw: st.DrawFn) -> Stated:
    """Complete loadings, each figure in the bracketed form."""

    def figure(low: int, high: int, unit: str) -> str:
        return f"<{typed(draw(decimals(low, high)))} {unit}>"

    return {
        "empty_mass": figure(480, 620, "lb"),
        "empty_arm": figure(40, 50, "in"),
        "engine": draw(st.sampled_from(["standard", "boosted"])),
        "field": draw(st.sampled_from(["hard", "grass"])),
        "height": figure(0, 9000, "ft"),
        "front": figure(0, 300, "lb"),
        "rear": draw(st.sampled_from(["<0 lb>", figure(0, 300, "lb")])),
        "locker": figure(0, 45, "lb"),
        "wing": figure(0, 20, "USgal"),
        "aft": figure(0, 10, "USgal"),
        "trip_fuel": figure(0, 25, "USgal"),
    }


def loading(sheet: Sheet, stated: Stated, way=as_printed) -> Loading:
    return read_loading(sheet, {name: FIGURE.sub(way, value) for name, value in stated.items()})


def checked(stated: Stated) -> CheckResult:
    return evaluate_planned(PLAN, loading(SHEET, stated))


def without(stated: Stated, names: set[str]) -> Stated:
    return {name: value for name, value in stated.items() if name not in names}


LEFT_OUT = st.sets(
    st.sampled_from(["empty_mass", "empty_arm", "engine", "field", "height", "front", "rear", "wing", "aft"])
)
"""What may be left out. Not trip_fuel: without it a burn goes on to the last drop, which is another question."""

MODERATE = settings(deadline=None, max_examples=30, suppress_health_check=[HealthCheck.too_slow])


class TestSupplyingWhatIsMissing:
    @MODERATE
    @given(loadings(), LEFT_OUT)
    def test_never_changes_what_was_settled(self, stated: Stated, left_out: set[str]) -> None:
        before, after = checked(without(stated, left_out)), checked(stated)
        for less, more in zip(before.limits, after.limits, strict=True):
            if less.verdict is Verdict.WITHIN:  # it holds, whether or not it turns out to apply
                assert more.verdict in (Verdict.WITHIN, Verdict.NOT_APPLICABLE)
            elif less.verdict is not Verdict.UNDETERMINED:
                assert more.verdict is less.verdict

    @MODERATE
    @given(loadings(), LEFT_OUT)
    def test_never_changes_the_verdict_of_the_sheet_once_settled(self, stated: Stated, left_out: set[str]) -> None:
        before, after = checked(without(stated, left_out)), checked(stated)
        assert before.verdict in (Verdict.UNDETERMINED, after.verdict)

    @MODERATE
    @given(loadings(), LEFT_OUT)
    def test_all_that_a_limit_names_settles_it(self, stated: Stated, left_out: set[str]) -> None:
        for result in checked(without(stated, left_out)).limits:
            if result.verdict is Verdict.UNDETERMINED:
                named = names_missing(result)
                again = checked(without(stated, left_out - named)).limits[position(result)]
                assert not names_missing(again)


def position(result: LimitResult) -> int:
    return [limit.name for limit in SHEET.limits].index(result.limit.name)


def names_missing(result: LimitResult) -> set[str]:
    causes = result.gap.causes if result.gap else ()
    return {cause.input.name for cause in causes if isinstance(cause, Missing)}


class TestAGapNeverCountsAsAPass:
    @MODERATE
    @given(loadings(), LEFT_OUT)
    def test_within_means_every_limit_holds_or_does_not_apply(self, stated: Stated, left_out: set[str]) -> None:
        result = checked(without(stated, left_out))
        limits = [one for one in result.limits if one.limit.weight is Weight.LIMIT]
        holds = all(one.verdict in (Verdict.WITHIN, Verdict.NOT_APPLICABLE) for one in limits)
        assert (result.verdict is Verdict.WITHIN) == holds
        for one in result.limits:
            assert (one.gap is not None) == (one.verdict is Verdict.UNDETERMINED)

    @MODERATE
    @given(loadings(), LEFT_OUT)
    def test_nothing_that_a_missing_value_could_break_is_within(self, stated: Stated, left_out: set[str]) -> None:
        """Whatever is within with values left out stays so for any values put in."""
        before = checked(without(stated, left_out))
        extremes = {"front": "<290 lb>", "rear": "<290 lb>", "empty_mass": "<620 lb>", "wing": "<20 USgal>"}
        after = checked({**stated, **{name: extremes[name] for name in left_out & set(extremes)}})
        for less, more in zip(before.limits, after.limits, strict=True):
            assert less.verdict is not Verdict.WITHIN or more.verdict is not Verdict.OUTSIDE

    @MODERATE
    @given(loadings(), LEFT_OUT)
    def test_what_is_within_has_room_on_every_side(self, stated: Stated, left_out: set[str]) -> None:
        for result in checked(without(stated, left_out)).limits:
            if result.verdict is Verdict.WITHIN:
                assert all(margin.room >= 0 for margin in result.margins)
            if result.verdict is Verdict.OUTSIDE and result.limit.name != "one_up":
                assert not result.margins or result.margins[0].room < 0

    def test_nothing_stated_clears_nothing(self) -> None:
        result = checked({})
        assert result.verdict is Verdict.UNDETERMINED
        within = {one.limit.name for one in result.limits if one.verdict is Verdict.WITHIN}
        assert within == {"locker"}  # assumed empty


@MODERATE
@given(loadings(), LEFT_OUT)
def test_every_limit_is_reported_held_or_broken(stated: Stated, left_out: set[str]) -> None:
    result = checked(without(stated, left_out))
    assert tuple(one.limit for one in result.limits) == SHEET.limits


class TestTheManner:
    OTHER_UNITS = sheet_of(FIGURE.sub(in_other_units, TEXT))
    NAMES = ("front", "rear", "locker", "wing", "aft", "engine", "field", "aboard", "by_height", "fore_and_aft")

    def verdicts(self, sheet: Sheet, stated: Loading) -> dict[str, tuple[Verdict, list[Fraction]]]:
        result = evaluate_planned(plan_of(sheet), stated)
        return {one.limit.name: (one.verdict, [margin.room for margin in one.margins]) for one in result.limits}

    @MODERATE
    @given(loadings())
    def test_of_units_changes_nothing(self, stated: Stated) -> None:
        ours = self.verdicts(SHEET, loading(SHEET, stated))
        assert ours == self.verdicts(self.OTHER_UNITS, loading(SHEET, stated))
        assert ours == self.verdicts(SHEET, loading(SHEET, stated, in_other_units))

    @MODERATE
    @given(loadings(), st.randoms(use_true_random=False))
    def test_of_statements_order_changes_nothing(self, stated: Stated, random: Random) -> None:
        printed = FIGURE.sub(as_printed, TEXT)
        statements = re.split(r"\n(?=\S)", printed.rstrip())
        random.shuffle(statements)
        shuffled = sheet_of("\n".join(statements) + "\n")
        assert self.verdicts(SHEET, loading(SHEET, stated)) == self.verdicts(shuffled, loading(SHEET, stated))

    @MODERATE
    @given(loadings())
    def test_of_naming_changes_nothing(self, stated: Stated) -> None:
        def renamed(match: re.Match[str]) -> str:
            return match[0] + "_by_another_name"

        text = re.sub(rf"\b({'|'.join(self.NAMES)})\b", renamed, FIGURE.sub(as_printed, TEXT))
        other = sheet_of(text)
        known = loading(SHEET, stated).stated
        moved = {name + "_by_another_name" if name in self.NAMES else name: v for name, v in known.items()}
        ours = list(self.verdicts(SHEET, Loading(known)).values())
        assert ours == list(self.verdicts(other, Loading(moved)).values())


def test_the_sheet_of_these_laws_is_what_it_seems() -> None:
    assert "<" not in HEADER
    assert len(SHEET.limits) == 8 + 5 + 1
