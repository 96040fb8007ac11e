"""Law 4: an order never loosens. Whatever a sheet with an order allows, the sheet without it allows."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest
from hypothesis import HealthCheck, event, example, given, settings
from hypothesis import strategies as st

from engine.evaluation.exact import evaluate
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult
from engine.resolution.resolving import resolve
from engine.resolution.selecting import Asked
from grammar.sheet import Role, Sheet, Verdict
from limits_demo import Airframe, fleet, sheet_names, sheet_text
from tests.engine.resolution.layered import SHEET, check, codes, order, put_on, resolved_sheet, verdict
from tests.strategies import typed

ADDS = 'declared front_seat, rear_seat add 4 kg source local_o "3"'


def with_limit(limit: str) -> str:
    """The usual sheet with one limit more."""
    return f'{SHEET}limit asked {limit} source fm "2.9"\n'


# ---- what an order adds to declared masses


def test_what_an_order_adds_counts_in_the_mass():
    front, rear = {"front_seat": "130 kg"}, {"rear_seat": "79 kg"}
    heavy = {**front, **rear, "empty_mass": "279.8 kg"}
    assert verdict(put_on(), "max_takeoff_mass", **heavy) == "within"
    assert verdict(put_on(order(ADDS)), "max_takeoff_mass", **heavy) == "within"
    assert verdict(put_on(), "max_takeoff_mass", **heavy, locker="3.8 kg") == "within"
    assert verdict(put_on(order(ADDS)), "max_takeoff_mass", **heavy, locker="3.8 kg") == "outside"


def test_a_weighed_mass_counts_as_it_is():
    full = {"front_seat": "130 kg weighed", "rear_seat": "79 kg weighed", "empty_mass": "287.8 kg"}
    assert verdict(put_on(order(ADDS)), "max_takeoff_mass", **full) == "within"


def test_nothing_is_added_to_an_empty_place():
    light = {"front_seat": "115 kg", "rear_seat": "0 kg", "empty_mass": "381.8 kg"}
    assert verdict(put_on(order(ADDS)), "max_takeoff_mass", **light, locker="0 kg") == "outside"
    lighter = light | {"empty_mass": "377.8 kg"}
    assert verdict(put_on(order(ADDS)), "max_takeoff_mass", **lighter, locker="0 kg") == "within"


@pytest.mark.parametrize(
    ("claim", "stated", "short"),
    [
        ("front_seat at least 60 kg", {"front_seat": "60 kg"}, {"front_seat": "57 kg"}),
        ("front_seat - rear_seat at least 0 kg", {"rear_seat": "80 kg", "front_seat": "80 kg"},
         {"rear_seat": "80 kg weighed", "front_seat": "79 kg"}),
        ("locker at most front_seat", {"locker": "20 kg", "front_seat": "20 kg"},
         {"locker": "20 kg", "front_seat": "19 kg"}),
        ("cg at takeoff at most 1213 mm", {"front_seat": "80 kg"}, {"front_seat": "66 kg", "rear_seat": "74 kg weighed"}),
        ("not (front_seat < 60 kg)", {"front_seat": "60 kg"}, {"front_seat": "57 kg"}),
        ("front_seat at least 60 kg or rear_seat is empty", {"front_seat": "60 kg"}, {"front_seat": "57 kg"}),
        ("rear_seat at most 70 kg when front_seat < 59 kg", {"front_seat": "59 kg"}, {"front_seat": "57 kg"}),
        ("rear_seat at most (70 kg when front_seat < 59 kg, 90 kg otherwise)", {"front_seat": "59 kg"},
         {"front_seat": "57 kg"}),
    ],
    ids=["least", "difference", "as a bound", "balance", "denied", "either", "condition", "choice"],
)  # fmt: skip
def test_what_an_order_adds_helps_no_limit_of_the_manual(claim, stated, short):
    sheet = with_limit(claim)
    with_order = order(ADDS)
    assert verdict(put_on(sheet=sheet), "asked", **short) == "outside"
    assert verdict(put_on(with_order, sheet=sheet), "asked", **short) == "outside"
    assert verdict(put_on(with_order, sheet=sheet), "asked", **stated) in ("within", "not applicable")


def test_what_an_order_adds_helps_no_limit_by_the_bound_of_another():
    sheet = SHEET + (
        'limit locker_by_seat locker at most front_seat - 50 kg source fm "2.8"\n'
        'limit rear_by_bound rear_seat at most 60 kg + bound(locker_by_seat) source fm "2.9"\n'
    )
    short = {"front_seat": "62 kg", "rear_seat": "74 kg weighed"}
    assert verdict(put_on(sheet=sheet), "rear_by_bound", **short) == "outside"
    assert verdict(put_on(order(ADDS), sheet=sheet), "rear_by_bound", **short) == "outside"


def test_what_an_order_adds_helps_no_limit_by_a_named_value():
    sheet = SHEET + 'let lighter = front_seat\nlimit asked lighter at least 60 kg source fm "2.9"\n'
    assert verdict(put_on(order(ADDS), sheet=sheet), "asked", front_seat="57 kg") == "outside"


def test_an_orders_own_limit_counts_with_what_it_adds():
    own = order(ADDS, 'limit asked front_seat at least 60 kg source local_o "4"')
    assert verdict(put_on(own), "asked", front_seat="57 kg") == "within"
    stated = order(ADDS, 'limit asked stated(front_seat) at least 60 kg source local_o "4"')
    assert verdict(put_on(stated), "asked", front_seat="57 kg") == "outside"


def test_the_range_of_a_seat_holds_with_and_without_what_is_added():
    assert verdict(put_on(order(ADDS)), "front_seat", front_seat="126 kg") == "within"
    assert verdict(put_on(order(ADDS)), "front_seat", front_seat="127 kg") == "outside"
    child = SHEET.replace("from 0 kg to 130 kg arm 610 mm", "from 50 kg to 130 kg arm 610 mm")
    assert verdict(put_on(order(ADDS), sheet=child), "front_seat", front_seat="48 kg") == "outside"
    assert verdict(put_on(order(ADDS), sheet=child), "front_seat", front_seat="50 kg") == "within"


def test_two_orders_cannot_add_to_one_seat():
    both = (order(ADDS), order('declared front_seat add 2 kg source other_o "1"', name="other"))
    assert codes(put_on(*both)) == ["528"]


def test_an_order_cannot_add_less_than_nothing():
    less = order('declared front_seat add -4 kg source local_o "3"')
    assert codes(put_on(less)) == ["515"]


# ---- the law, on sheets made to be loosened

CLAIMS = (
    "front_seat at least {a} kg",
    "front_seat at most {a} kg",
    "front_seat + rear_seat between {a} kg and {b} kg",
    "locker at most front_seat - {a} kg",
    "locker at most {a} kg - front_seat",
    "at takeoff cg between {fore} mm and {aft} mm",
    "at takeoff (cg, mass) inside slanted",
    "throughout (cg, mass) inside slanted",
    "at takeoff mass at least {m} kg",
    "at takeoff mass at most {m} kg",
    "rear_seat at most {a} kg when front_seat < {b} kg",
    "rear_seat at most {a} kg when front_seat > {b} kg",
    "at takeoff mass at most {m} kg when cg > {fore} mm",
    "rear_seat at most ({a} kg when front_seat < {b} kg, {b} kg otherwise)",
    "rear_seat at most read(front_seat)",
    "not (front_seat < {a} kg) or rear_seat is empty",
    "max(front_seat, rear_seat) at least {a} kg",
    "min(front_seat, rear_seat) at most {a} kg",
    "abs(front_seat - rear_seat) at most {a} kg",
    "round_up front_seat to 10 kg at least {a} kg",
    "floor_loading(locker) at most {a} kg/m2",
    "count(front_seat, rear_seat, locker) at most 2",
    "stated(front_seat) at least {a} kg",
    "rear_seat at most {a} kg + bound(base)",
    "lighter at least {a} kg",
)

MADE = SHEET.replace("arm 1600 mm assumed empty", "arm 1600 mm floor area 0.2 m2 assumed empty") + (
    'table read of front_seat in kg gives kg source fm "5"\n  | front_seat | read |\n  | 0 | 20 |\n  | 70 | 90 |\n'
    "  | 130 | 40 |\n"
    'envelope slanted of cg in mm against mass in kg source fm "6"\n  | cg | mass |\n  | 1000 | 290 |\n'
    "  | 1150 | 540 |\n  | 1180 | 420 |\n  | 1260 | 540 |\n  | 1300 | 290 |\n"
    'limit base locker at most front_seat - 40 kg source fm "2"\n'
    'let lighter = min(front_seat, rear_seat + 20 kg) source fm "2"\n'
)

FIGURES = st.fixed_dictionaries(
    {
        "a": st.integers(40, 110),
        "b": st.integers(40, 110),
        "m": st.integers(380, 540),
        "fore": st.integers(1000, 1200),
        "aft": st.integers(1150, 1300),
    }
)


@st.composite
def limits(draw: st.DrawFn, source: str, names: str) -> str:
    """Up to three limits of any form, with their figures."""
    drawn = draw(st.lists(st.sampled_from(CLAIMS), min_size=1, max_size=3))
    written = []
    for at, claim in enumerate(drawn):
        figures = draw(FIGURES)
        figures["a"], figures["b"] = sorted((figures["a"], figures["b"]))
        figures["fore"], figures["aft"] = sorted((figures["fore"], figures["aft"]))
        kind = draw(st.sampled_from(("limit", "limit", "caution")))
        written.append(f'{kind} {names}_{at} {claim.format(**figures)} source {source} "9"')
    return "\n".join(written)


@st.composite
def added(draw: st.DrawFn) -> str:
    """What an order adds to declared masses, or nothing."""
    places = draw(st.lists(st.sampled_from(("front_seat", "rear_seat", "locker")), unique=True))
    amount = draw(st.integers(1, 30))
    return f'declared {", ".join(places)} add {amount} kg source local_o "3"' if places else ""


MASSES = st.one_of(st.integers(0, 130), st.sampled_from((0, 40, 60, 70, 80, 90)))
MANNERS = st.sampled_from(("", " declared", " weighed"))


@st.composite
def loadings(draw: st.DrawFn) -> dict[str, str]:
    """What a request states, now and then leaving something out."""
    stated = {
        "empty_mass": f"{draw(st.integers(260, 330))} kg",
        "front_seat": f"{draw(MASSES)} kg{draw(MANNERS)}",
        "rear_seat": f"{draw(MASSES)} kg{draw(MANNERS)}",
        "locker": f"{draw(st.integers(0, 20))} kg{draw(MANNERS)}",
        "main_tank": f"{draw(st.integers(0, 80))} L",
    }
    left_out = draw(st.sampled_from((None, None, None, *stated)))
    return {name: value for name, value in stated.items() if name != left_out}


KEPT = (Verdict.WITHIN, Verdict.NOT_APPLICABLE)


def answer(sheet: Sheet, stated: dict[str, str]) -> CheckResult:
    known = {item.name for item in sheet.inputs}
    given = {"empty_arm": "1200 mm", "engine": "boosted", "pod_fitted": "no", "airfield": "hard"} | stated
    loading = read_loading(sheet, {name: value for name, value in given.items() if name in known})
    return evaluate(sheet, loading)


def loosened(with_order: CheckResult, without: CheckResult) -> list[str]:
    """The limits and cautions that the order has kept and that are not kept without it, and the whole sheet."""
    kept = {each.limit.name: each.verdict in KEPT for each in with_order.limits}
    found = [each.limit.name for each in without.limits if kept[each.limit.name] and each.verdict not in KEPT]
    is_allowed = with_order.verdict is Verdict.WITHIN
    return [*found, "the sheet"] if is_allowed and without.verdict is not Verdict.WITHIN else found


@given(of_manual=limits("fm", "manual"), of_order=limits("local_o", "order"), adds=added(),
       stated=st.lists(loadings(), min_size=5, max_size=20))  # fmt: skip
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_an_order_never_loosens_a_sheet(of_manual, of_order, adds, stated):
    sheet = MADE + of_manual + "\n"
    bare, ordered = put_on(sheet=sheet), put_on(order(adds, of_order), sheet=sheet)
    if bare.sheet is None or ordered.sheet is None:
        event("the figures contradict one another")
        assert {*codes(bare), *codes(ordered)} <= {"303", "512", "513"}
        return
    for one in stated:
        with_order = answer(ordered.sheet, one)
        event(f"with the order {with_order.verdict.value}")
        assert loosened(with_order, answer(bare.sheet, one)) == []


def test_the_law_is_tried_on_loads_that_are_allowed():
    sheet = resolved_sheet(put_on(sheet=MADE))
    ordered = resolved_sheet(put_on(order(ADDS), sheet=MADE))
    stated = {"empty_mass": "280 kg", "front_seat": "70 kg", "rear_seat": "40 kg", "main_tank": "60 L"}
    assert answer(sheet, stated).verdict is Verdict.WITHIN
    assert answer(ordered, stated).verdict is Verdict.WITHIN


# ---- the law, on the sheets of the demonstration

SHEETS = {
    name: {place.input.name for place in put.places}
    for name in sheet_names()
    if (put := resolve({name: sheet_text(name)}, name, Asked(Fraction(739_800))).sheet) is not None
}


@cache
def resolved_demo(name: str, of_order: str = "") -> Sheet:
    texts = {f"{name}.limits": sheet_text(name)}
    if of_order:
        heading = f'order local revision 1 to {name} "Order"\ndocument local_o "Order"\n'
        texts["order.limits"] = heading + of_order
    resolved = resolve(texts, name, Asked(Fraction(739_800), record=_airframe(name).facts[0].record))
    return resolved_sheet(resolved)


def _airframe(name: str) -> Airframe:
    return next(one for one in fleet() if one.sheet == name)


@st.composite
def demo_orders(draw: st.DrawFn) -> tuple[str, str]:
    """A sheet of the demonstration and an order to it."""
    name = draw(st.sampled_from(sorted(SHEETS)))
    places = draw(st.lists(st.sampled_from(sorted(SHEETS[name])), min_size=1, max_size=2, unique=True))
    lines = [f'declared {", ".join(places)} add {draw(st.integers(1, 9))} kg source local_o "1"']
    if draw(st.booleans()):
        lines.append(f'limit order_a {places[0]} at most {draw(st.integers(30, 60))} kg source local_o "2"')
    if draw(st.booleans()):
        lines.append(
            f'caution order_b at takeoff mass at most {draw(st.integers(300, 900))} kg source local_o "2"'
        )
    return name, "\n".join(lines) + "\n"


@given(chosen=demo_orders(), draws=st.data())
@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_an_order_never_loosens_a_sheet_of_the_demonstration(chosen, draws):
    name, of_order = chosen
    bare, ordered = resolved_demo(name), resolved_demo(name, of_order)
    record = dict(_airframe(name).facts[0].record) | dict(_airframe(name).weighings[-1].record)
    for _ in range(6):
        stated = record | draws.draw(demo_loadings(bare))
        with_order = evaluate(ordered, read_loading(ordered, stated))
        assert loosened(with_order, evaluate(bare, read_loading(bare, stated))) == []


@st.composite
def demo_loadings(draw: st.DrawFn, sheet: Sheet) -> dict[str, str]:
    """A loading within the ranges of the places and tanks."""
    stated: dict[str, str] = {}
    for item in sheet.inputs:
        if item.role in (Role.LOAD, Role.TANK) and item.unit is not None and item.most is not None:
            most = item.unit.from_base(item.most)
            tenths = draw(st.integers(0, 10))
            step = next((place.step for place in sheet.places if place.input is item), None)
            amount = most * tenths / 10 if step is None else item.most * (tenths // 10) / item.unit.factor
            stated[item.name] = f"{typed(Fraction(round(amount * 10), 10))} {item.unit.name}"
    return stated


def test_every_sheet_of_the_demonstration_takes_an_order():
    assert set(SHEETS) == set(sheet_names())


@example(4)
@given(st.integers(1, 40))
@settings(max_examples=10, deadline=None)
def test_the_more_an_order_adds_the_less_it_allows(kilograms):
    more = order(f'declared front_seat, rear_seat add {kilograms} kg source local_o "3"')
    room = check(put_on(more)).limits[0].margins[0].room
    assert room == check(put_on()).limits[0].margins[0].room - 2 * kilograms
