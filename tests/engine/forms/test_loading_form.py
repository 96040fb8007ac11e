"""The form of a loading: what satisfies it is understood, and what it requires settles every limit."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from datetime import date
from math import ceil

import jsonschema
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.evaluation.exact import evaluate
from engine.evaluation.requests import RequestRefused, read_loading
from engine.evaluation.result import Missing
from engine.forms.loading_form import loading_form
from grammar.sheet import Sheet
from limits_demo import bookings, fleet, sheet_names, sheet_text
from tests.engine.explanation.answers import read_sheet

DEMO = {name: read_sheet(sheet_text(name)) for name in sheet_names()}

FITTED = read_sheet("""
sheet fitted revision 1 "Fitted in three ways"
document fm "Manual"
document lo "Order 14"
datum "nose"
fact hook "Winch hook fitted" is yes or no source fm "1"
configuration undercarriage "Undercarriage" is one of wheels, floats, skis
  floats weighed apart
  skis adds 12 kg arm 2300 mm
  source fm "1.6"
given persons "Persons aboard" from 0 to 4
given slope "Slope of the runway" in % from -3 % to 3 %
load pilot "Pilot" from 0 kg to 130 kg arm 2300 mm source fm "6.3"
load ballast "Ballast" from 0 kg to 10 kg in steps of 2.5 kg arm 900 mm assumed empty source fm "6.3"
declared pilot add 4 kg source lo "3"
fuel left_tank "Left tank" from 0 L to 40 L density 0.72 kg/L arm 2400 mm source fm "6.4"
fuel right_tank "Right tank" from 0 L to 40 L density 0.72 kg/L arm 2400 mm source fm "6.4"
burn left_tank with right_tank source fm "7.2"
limit total "Total" throughout mass at most 900 kg source fm "2.1"
limit balance "Balance" at takeoff cg between 2 m and 3 m source fm "2.2"
limit belts "Belts" persons at most 2 when hook is no source fm "2.3"
limit sloping "Sloping" slope at most 2 % source fm "2.4"
""")

SHEETS = {**DEMO, "fitted": FITTED}
FORMS = {name: json.loads(json.dumps(loading_form(sheet))) for name, sheet in SHEETS.items()}


def validator(form: Mapping[str, object]) -> jsonschema.Draft202012Validator:
    return jsonschema.Draft202012Validator(form, format_checker=jsonschema.FormatChecker())


# ---- loadings made from a form


def texts(rule: Mapping[str, object]) -> st.SearchStrategy[str]:
    """Texts as the pattern of a figure has them, between the ends where there are any and in its own unit."""
    unit = str(rule.get("unit", ""))
    low, high = rule.get("minimum", 0), rule.get("maximum", 900)
    whole = st.integers(ceil(low), int(high)).map(str)
    manner = st.sampled_from(["", *(f" {one}" for one in rule.get("manners", ()))])
    joint = st.sampled_from(["", " "])
    return st.builds(lambda figure, gap, known: f"{figure}{gap}{unit}{known}".strip(), whole, joint, manner)


def stated(rule: Mapping[str, object]) -> st.SearchStrategy[object]:
    if "enum" in rule:
        return st.sampled_from(rule["enum"])
    if rule.get("format") == "date":
        return st.dates(date(1990, 1, 1), date(2090, 1, 1)).map(date.isoformat)
    if "integer" in rule["type"]:
        return st.integers(0, 5000) | st.integers(0, 5000).map(str)
    return texts(rule) | st.integers(ceil(rule.get("minimum", 0)), int(rule.get("maximum", 900)))


def required(form: Mapping[str, object], loading: Mapping[str, object]) -> list[str]:
    """The names that the form requires of a loading with these choices."""
    names = list(form["required"])
    for case in form.get("allOf", ()):
        if validator(case["if"]).is_valid(loading):
            names += case["then"]["required"]
    return names


@st.composite
def filled_in(draw: st.DrawFn, name: str) -> dict[str, object]:
    """A loading with every required field of the form filled in, and some of the others."""
    form = FORMS[name]
    rules = form["properties"]
    chosen = {one: draw(stated(rules[one])) for one in form["required"]}
    chosen |= {one: draw(stated(rules[one])) for one in required(form, chosen) if one not in chosen}
    others = sorted(set(rules) - set(chosen))
    picked = draw(st.lists(st.sampled_from(others), unique=True)) if others else []
    return chosen | {one: draw(stated(rules[one])) for one in picked}


def read(sheet: Sheet, loading: Mapping[str, object]):
    return read_loading(sheet, json.dumps(loading))


@pytest.mark.parametrize("name", SHEETS)
def test_a_form_is_a_schema(name):
    jsonschema.Draft202012Validator.check_schema(FORMS[name])


@pytest.mark.parametrize("name", SHEETS)
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_what_is_required_settles_every_limit_as_far_as_tables_reach(name, data):
    sheet, loading = SHEETS[name], data.draw(filled_in(name))
    validator(FORMS[name]).validate(loading)
    result = evaluate(sheet, read(sheet, loading))
    for each in result.limits:
        causes = each.gap.causes if each.gap is not None else ()
        assert not any(isinstance(cause, Missing) for cause in causes), each.limit.name


@pytest.mark.parametrize("name", SHEETS)
def test_without_a_required_field_some_limit_can_wait_for_it(name):
    """No field is required for nothing: there is a loading without it in which a limit waits for it."""
    sheet, form = SHEETS[name], FORMS[name]
    for field in form["required"]:
        missing = {
            cause.input.name
            for each in evaluate(sheet, read(sheet, {})).limits
            for cause in (each.gap.causes if each.gap is not None else ())
            if isinstance(cause, Missing)
        }
        waits = field in missing or field in _waited_for(sheet, form, field)
        assert waits, field


def _waited_for(sheet: Sheet, form: Mapping[str, object], field: str) -> set[str]:
    """The inputs that some limit waits for with everything else filled in, over the choices of the form."""
    rules = form["properties"]
    found: set[str] = set()
    for turn in range(4):
        loading = {one: _plain(rule, turn) for one, rule in rules.items() if one != field}
        for each in evaluate(sheet, read(sheet, loading)).limits:
            causes = each.gap.causes if each.gap is not None else ()
            found |= {cause.input.name for cause in causes if isinstance(cause, Missing)}
    return found


def _plain(rule: Mapping[str, object], turn: int) -> object:
    if "enum" in rule:
        return rule["enum"][turn % len(rule["enum"])]
    if rule.get("format") == "date":
        return "2026-06-01"
    low, high = rule.get("minimum", 0), rule.get("maximum", 40)
    return low + (high - low) * turn // 3 if "integer" not in rule["type"] else 12


WRITTEN = st.sampled_from(
    [
        "98 kg", "98kg", "-3 kg", "98", "98 kgs", "0.5 lb", "1e2 kg", "1e2kg", "1e999 kg", "98,5 kg", "kg", "",
        "98 kg weighed", "98 kg declared", "98 kg guessed", "+3 kg", "60 L", "43 kg", "16 USgal", "yes", "no",
        "wheels", "boats", "2026-05-16", "2026-02-30", "16.5.2026", "12", "2 %", "NaN", "Infinity kg",
    ]
)  # fmt: skip


@pytest.mark.parametrize("name", SHEETS)
@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_one_field_that_the_form_takes_is_understood_and_no_other(name, data):
    """Ends are for a check to tell, which takes what lies beyond them; so they are not looked at here."""
    sheet, form = SHEETS[name], FORMS[name]
    field = data.draw(st.sampled_from(sorted(form["properties"])))
    rule = without_ends(form["properties"][field])
    written = data.draw(WRITTEN | stated(rule) | st.booleans() | st.integers(-5, 400) | st.none())
    takes = validator(rule).is_valid(written)
    needs_more = _needs_more(sheet, field, written)
    try:
        read(sheet, {field: written} | needs_more)
    except RequestRefused:
        assert not takes, (field, written)
    else:
        assert takes, (field, written)


def without_ends(rule: Mapping[str, object]) -> dict[str, object]:
    """A rule as a check has it: no ends but that of what can never be less than nothing."""
    kept = {key: value for key, value in rule.items() if key not in ("minimum", "maximum")}
    return kept | ({"minimum": 0} if str(rule.get("pattern", "")).startswith(r"^\+?") else {})


def _needs_more(sheet: Sheet, field: str, written: object) -> dict[str, object]:
    """What a density hangs on, so that a mass of fuel can be taken as a volume."""
    return {"fuel_grade": "avgas"} if sheet is DEMO["vessary_s2"] and field != "fuel_grade" else {}


# ---- what stands in a form


@pytest.mark.parametrize("booking", bookings(), ids=lambda booking: booking.id)
def test_a_booking_satisfies_its_form_unless_some_limit_waits_for_what_it_leaves_out(booking):
    airframe = next(one for one in fleet() if one.registration == booking.airframe)
    sheet = DEMO[airframe.sheet]
    known = frozenset(airframe.record_on(booking.date))
    form = json.loads(json.dumps(loading_form(sheet, known)))
    asked = {name: value for name, value in booking.request().items() if name in form["properties"]}
    errors = {error.validator for error in validator(form).iter_errors(asked)}
    limits = evaluate(sheet, read(sheet, booking.stated(airframe))).limits
    causes = [cause for each in limits if each.gap is not None for cause in each.gap.causes]
    waits = any(isinstance(cause, Missing) for cause in causes)
    assert errors <= {"required"}
    assert errors or not waits


def test_the_form_asks_how_a_mass_is_known_only_where_that_counts():
    pilot, ballast = (FORMS["fitted"]["properties"][name] for name in ("pilot", "ballast"))
    assert re.fullmatch(pilot["pattern"], "82 kg weighed")
    assert pilot["manners"] == ["declared", "weighed"] and "manners" not in ballast
    assert "manner(pilot)" not in FORMS["fitted"]["properties"]


def test_yes_and_no_are_words_or_booleans():
    assert FORMS["fitted"]["properties"]["hook"]["enum"] == ["no", "yes", False, True]


def test_fuel_is_stated_by_volume_or_by_mass():
    for field in ("left_tank", "trip_fuel", "taxi_fuel"):
        for text in ("20 L", "14.4 kg", "5 USgal"):
            assert re.fullmatch(FORMS["fitted"]["properties"][field]["pattern"], text), (field, text)


def test_the_trip_fuel_is_required_where_a_limit_speaks_of_the_landing():
    assert "trip_fuel" in FORMS["corrin_t2"]["required"]
    assert "trip_fuel" not in FORMS["fitted"]["required"]
    assert "taxi_fuel" not in FORMS["corrin_t2"]["required"]


def test_the_weighing_that_is_required_is_that_of_the_way_of_fitting():
    form = FORMS["fitted"]
    assert {"empty_mass", "empty_mass floats"} & set(form["required"]) == set()
    assert {"empty_mass", "empty_arm"} <= set(required(form, {"undercarriage": "skis"}))
    assert {"empty_mass floats", "empty_arm floats"} <= set(required(form, {"undercarriage": "floats"}))
    assert "empty_mass" not in required(form, {"undercarriage": "floats"})


def test_what_the_record_states_is_left_out():
    form = loading_form(DEMO["corrin_t2"], frozenset({"engine", "empty_mass"}))
    assert not {"engine", "empty_mass"} & (set(form["properties"]) | set(form["required"]))


def test_the_ends_of_what_is_given_stand_in_the_form():
    assert FORMS["corrin_t2"]["properties"]["outside_air_temperature"]["minimum"] == -20
    assert FORMS["corrin_t2"]["properties"]["outside_air_temperature"]["maximum"] == 45
