"""Reading requests: exact figures, units, and every problem at once in words for people."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.evaluation.loading import Loading
from engine.evaluation.quantities import Written
from engine.evaluation.requests import (
    LONGEST_REQUEST,
    MOST_PROBLEMS,
    RequestProblem,
    RequestRefused,
    read_loading,
)
from tests.engine.evaluation.small_sheets import sheet_of

SHEET = sheet_of("""\
fact engine is one of standard, boosted source fm "1"
fact floor_strengthened is yes or no source fm "1"
given height in ft from 0 ft to 8000 ft
given air in degC from -30 degC to 45 degC
given wind in kt from -40 kt to 40 kt
given persons from 0 to 5
load front_seat from 0 kg to 130 kg arm 600 mm source fm "1"
fuel main_tank from 0 L to 80 L density 0.72 kg/L arm 1390 mm source fm "1"
limit claim
  front_seat at most 100 kg and engine is standard and floor_strengthened is yes and height at most 1 ft
  source fm "2"
limit more
  at takeoff
  fuel at most 50 kg and wind at most 10 kt and persons at most 3 and air at least 0 degC and mass at most 500 kg
  source fm "2"
limit weighing
  flight_date at most weighed_on + 48 months and serial at most 100
  source fm "2"
limit reserve
  at landing
  fuel at least 5 kg
  source fm "2"
""")

FORBIDDEN = (
    "token", "parse", "syntax", "expression", "type", "null", "none", "boolean", "float", "exception",
    "identifier", "illegal", "invalid", "unexpected",
)  # fmt: skip


def read(text: str) -> dict[str, Fraction | str]:
    return dict(read_loading(SHEET, text).stated)


def problems(*parts: str | dict[str, str | Written | bool]) -> tuple[RequestProblem, ...]:
    with pytest.raises(RequestRefused) as refused:
        read_loading(SHEET, *parts)
    for problem in refused.value.problems:
        words = str(problem).lower().replace((problem.written or "\0").lower(), "")
        assert not any(word in words for word in FORBIDDEN), problem
    return refused.value.problems


def problem(name: str, value: str) -> RequestProblem:
    """The one problem with an entry, its value given as JSON."""
    (found,) = problems(f'{{"{name}": {value}}}')
    assert (found.pointer, found.name) == (f"/{name}", name)
    return found


class TestWhatIsTaken:
    def test_every_kind_of_entry(self) -> None:
        assert read(
            '{"front_seat": "98 kg", "main_tank": "60 L", "engine": "boosted", "floor_strengthened": "yes",'
            ' "height": "1000 ft", "air": "-5 degC", "persons": "2", "flight_date": "2026-05-03", "serial": "12"}'
        ) == {
            "front_seat": 98,
            "main_tank": Fraction(60, 1000),
            "engine": "boosted",
            "floor_strengthened": "yes",
            "height": Fraction("304.8"),
            "air": Fraction("268.15"),
            "persons": 2,
            "flight_date": 739_739,
            "serial": 12,
        }

    def test_a_json_number_is_the_decimal_that_was_written(self) -> None:
        assert read('{"front_seat": 0.29999999999999998}')["front_seat"] == Fraction("0.29999999999999998")
        assert read('{"front_seat": 0.1, "main_tank": 1e1}') == {
            "front_seat": Fraction(1, 10),
            "main_tank": Fraction(1, 100),
        }

    def test_a_number_by_itself_is_in_the_unit_of_its_place(self) -> None:
        assert read('{"height": 1000, "air": 0}') == {"height": Fraction("304.8"), "air": Fraction("273.15")}

    def test_any_unit_of_the_dimension_will_do(self) -> None:
        assert read('{"front_seat": "180 lb"}')["front_seat"] == 180 * Fraction("0.45359237")
        assert read('{"air": "50 degF"}')["air"] == Fraction("283.15")
        assert read('{"front_seat": "98kg"}') == read('{"front_seat": " 98\\u00a0kg "}') == {"front_seat": 98}

    def test_a_tank_takes_a_volume_or_a_mass(self) -> None:
        assert read('{"main_tank": "36 kg"}')["main_tank"] == Fraction(50, 1000)
        assert read('{"main_tank": "10 USgal"}')["main_tank"] == 2310 * Fraction("0.0254") ** 3
        assert read('{"trip_fuel": "7.2 kg", "taxi_fuel": "1 L"}') == {
            "trip_fuel": Fraction(10, 1000),
            "taxi_fuel": Fraction(1, 1000),
        }

    def test_yes_and_no_in_json_words_too(self) -> None:
        assert read('{"floor_strengthened": true}') == {"floor_strengthened": "yes"}
        assert read('{"floor_strengthened": false}') == {"floor_strengthened": "no"}

    def test_beyond_the_range_is_for_the_limits_to_say(self) -> None:
        assert read('{"front_seat": "500 kg", "height": "9000 ft"}')["front_seat"] == 500

    def test_a_later_part_replaces_an_earlier_one(self) -> None:
        loading = read_loading(SHEET, '{"front_seat": 80, "serial": 3}', {"front_seat": "81 kg"})
        assert loading == Loading({"front_seat": Fraction(81), "serial": Fraction(3)})

    def test_nothing_stated_is_nothing_known(self) -> None:
        assert read("{}") == {}


class TestWhatIsRefused:
    def test_a_name_that_is_not_there(self) -> None:
        found = problem("front_saet", '"80 kg"')
        assert (found.written, found.suggestion) == ("80 kg", "front_seat")

    @pytest.mark.parametrize(
        ("name", "value", "says"),
        [
            ("front_seat", '"98"', "front_seat is stated without a unit."),
            ("front_seat", '"98 mm"', "front_seat is stated in mm, which is a length."),
            ("front_seat", '"98 L"', "front_seat is stated in L, which is a volume."),
            ("front_seat", '"98 stone"', "There is no unit stone."),
            ("front_seat", '"98,5 kg"', "The figure for front_seat has a comma."),
            ("front_seat", '"heavy"', "front_seat does not begin with a figure that can be read."),
            ("front_seat", '""', "front_seat does not begin with a figure that can be read."),
            ("front_seat", '"-1 kg"', "front_seat is less than nothing."),
            ("front_seat", "-0.001", "front_seat is less than nothing."),
            ("main_tank", '"-1 L"', "main_tank is less than nothing."),
            ("trip_fuel", '"-1 kg"', "trip_fuel is less than nothing."),
            ("empty_mass", '"-1 kg"', "empty_mass is less than nothing."),
            ("front_seat", "true", "front_seat is an amount, not yes or no."),
            ("front_seat", "null", "front_seat has no value; leave out what is not known."),
            ("front_seat", '{"kg": 3}', "front_seat holds further names; a request has one level only."),
            ("front_seat", "[80, 90]", "front_seat holds a list; each name has one value."),
            ("front_seat", "NaN", "front_seat is no amount."),
            ("front_seat", "-Infinity", "front_seat is no amount."),
            ("air", '"280 K"', "air is stated in K, which is a temperature difference."),
            ("engine", '"tuned"', "engine cannot be tuned."),
            ("engine", "true", "engine is not a matter of yes or no."),
            ("engine", "3", "engine cannot be 3."),
            ("floor_strengthened", '"maybe"', "floor_strengthened cannot be maybe."),
            ("flight_date", '"3 May 2026"', "flight_date is not written as a date."),
            ("flight_date", "20260503", "flight_date is not written as a date."),
            ("flight_date", '"2026-02-30"', "There is no day 2026-02-30."),
            ("serial", '"1.5"', "A serial number is a whole number."),
            ("persons", '"2 kg"', "persons is stated in kg, which is a mass."),
        ],
    )
    def test_an_entry(self, name: str, value: str, says: str) -> None:
        assert problem(name, value).says == says

    def test_what_was_probably_meant(self) -> None:
        assert problem("front_seat", '"98"').suggestion == "98 kg"
        assert problem("front_seat", '"98 KG"').suggestion == "kg"
        assert problem("front_seat", '"98,5 kg"').suggestion == "98.5"
        assert problem("engine", '"Boosted"').suggestion == "boosted"
        assert problem("engine", '"bosted"').suggestion == "boosted"

    def test_a_figure_of_absurd_length(self) -> None:
        assert "longer than 40" in problem("front_seat", "0." + "3" * 60).says
        assert "longer than 40" in problem("front_seat", f'"{"9" * 41} kg"').says
        assert problem("front_seat", "1e999999").says

    def test_every_problem_at_once(self) -> None:
        found = problems('{"front_seat": "98", "rear": "1 kg", "engine": "tuned", "height": "1000 ft"}')
        assert [one.pointer for one in found] == ["/front_seat", "/rear", "/engine"]

    def test_a_name_stated_twice(self) -> None:
        (found,) = problems('{"front_seat": "98 kg", "front_seat": "80 kg"}')
        assert found.says == "front_seat is stated twice."

    @pytest.mark.parametrize("text", ["", "[]", "3", '"front_seat"', "{", '{"front_seat" 3}', "\ufeff{}", "nul"])
    def test_a_text_that_is_no_row_of_names_and_values(self, text: str) -> None:
        (found,) = problems(text)
        assert (found.pointer, found.name) == ("", None)

    def test_a_text_too_long_or_nested_too_deeply(self) -> None:
        assert "longer than" in problems(" " * (LONGEST_REQUEST + 1))[0].says
        assert "nested" in problems('{"front_seat": ' + "[" * 100_000)[0].says

    def test_a_request_of_nothing_but_mistakes_is_answered_soon(self) -> None:
        found = problems(json.dumps({f"front_saet{n}": "80 kg" for n in range(20_000)}))
        assert len(found) == MOST_PROBLEMS

    def test_awkward_letters_are_shown_harmlessly(self) -> None:
        (found,) = problems('{"a\\u001b[31m~/\\ud800": 3}')
        assert found.pointer == "/a<U+001B>[31m~0~1<U+D800>"

    def test_a_mass_of_fuel_without_one_density_is_refused(self) -> None:
        two = sheet_of("""\
given grade is one of light, heavy
fuel a from 0 L to 80 L density (0.7 kg/L when grade is light, 0.8 kg/L when grade is heavy) arm 1 m source fm "1"
fuel b from 0 L to 80 L density 0.8 kg/L arm 1 m source fm "1"
burn a with b source fm "1"
limit claim
  at landing
  fuel at most 90 kg
  source fm "2"
""")
        known = read_loading(two, {"grade": "light", "a": "7 kg", "b": "8 kg"}).stated
        assert (known["a"], known["b"]) == (Fraction(1, 100), Fraction(1, 100))
        assert read_loading(two, {"grade": "heavy", "trip_fuel": "8 kg"}).stated["trip_fuel"] == Fraction(1, 100)
        with pytest.raises(RequestRefused, match="different densities"):
            read_loading(two, {"grade": "light", "trip_fuel": "8 kg"})
        with pytest.raises(RequestRefused, match="hangs on something that is not stated"):
            read_loading(two, {"a": "7 kg"})

    def test_tanks_by_mass_without_a_density_take_no_volume(self) -> None:
        sheet = sheet_of("""\
fuel a from 0 kg to 80 kg arm 1 m source fm "1"
limit claim
  at landing
  fuel at most 90 kg
  source fm "2"
""")
        with pytest.raises(RequestRefused, match="no density"):
            read_loading(sheet, {"a": "7 L"})


json_values = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
)
names = st.sampled_from([item.name for item in SHEET.inputs]) | st.text()
awkward = st.text(alphabet='0123456789.,-+eE kgLmft°\u00a0½²٣ \t"yesno') | st.text()


@given(st.dictionaries(names, json_values | awkward))
def test_any_json_is_read_or_refused_with_reasons(document: dict[str, object]) -> None:
    try:
        read_loading(SHEET, json.dumps(document))
    except RequestRefused as refused:
        assert refused.problems
        assert all(problem.says and problem.expected for problem in refused.problems)


@given(st.text())
def test_any_text_is_read_or_refused_with_reasons(text: str) -> None:
    try:
        read_loading(SHEET, text)
    except RequestRefused as refused:
        assert refused.problems


@given(st.decimals(min_value=0, max_value=10**6, places=6))
def test_a_number_and_the_same_number_with_its_unit_are_one(figure: object) -> None:
    by_itself = read_loading(SHEET, f'{{"front_seat": {figure:f}}}')
    assert by_itself == read_loading(SHEET, {"front_seat": f"{figure:f} kg"})
    assert by_itself.stated["front_seat"] == Fraction(str(figure))
