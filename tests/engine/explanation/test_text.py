"""An answer as text: nothing lost without colour, nothing trusted in a label."""

from __future__ import annotations

import io
import re
from dataclasses import fields, is_dataclass, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.console import Console

from engine.evaluation.exact import evaluate
from engine.explanation.caution import CAUTION
from engine.explanation.text import full_text, print_answer, print_why, why_text
from grammar.text import Span
from grammar.units import Unit
from tests.engine.explanation.answers import SHEET, TWO_UP, answer, stated

ESCAPE = re.compile("\x1b\\[[0-9;]*m")

TROUBLE = answer(
    "pressure_altitude",
    front_seat="98 kg",
    nose_locker="8 kg",
    pod_fitted="yes",
    left_pannier="8 kg",
    airfield="grass",
)
"""Something in every group but one."""


def printed(result, *, terminal: bool, limit: str | None = None, width: int = 90) -> str:
    paper = io.StringIO()
    console = Console(file=paper, force_terminal=terminal, width=width, color_system="standard")
    if limit is None:
        print_answer(result, console)
    else:
        print_why(result, limit, console)
    return paper.getvalue()


def words(text: str) -> list[str]:
    return ESCAPE.sub("", text).split()


def test_a_full_answer(snapshot):
    assert full_text(TROUBLE) == snapshot


def test_an_answer_with_nothing_wrong(snapshot):
    assert full_text(answer()) == snapshot


def test_an_answer_without_the_trip_fuel(snapshot):
    assert full_text(answer("trip_fuel", "engine")) == snapshot


@pytest.mark.parametrize("limit", [each.limit.name for each in TROUBLE.limits])
def test_why_a_limit_came_out_as_it_did(limit, snapshot):
    assert why_text(TROUBLE, limit) == snapshot


def test_the_worst_comes_first():
    text = full_text(TROUBLE)
    headings = ["OUTSIDE", "Limits broken", "Limits that cannot be told", "Cautions", "Within", "Assumed", CAUTION]
    places = [text.index(heading) for heading in headings]
    assert places == sorted(places)


def test_every_answer_says_who_decides():
    for text in (full_text(TROUBLE), why_text(TROUBLE, "balance")):
        assert text.count(CAUTION) == 1


def test_away_from_a_terminal_there_is_no_colour_and_no_folding():
    assert printed(TROUBLE, terminal=False) == full_text(TROUBLE)
    assert printed(TROUBLE, terminal=False, limit="balance") == why_text(TROUBLE, "balance")
    assert "\x1b" not in full_text(TROUBLE)


@pytest.mark.parametrize("limit", [None, "balance", "front_seat_max"])
def test_on_a_terminal_the_words_are_the_same_in_colour(limit):
    text = printed(TROUBLE, terminal=True, limit=limit)
    assert ESCAPE.search(text)
    plain = full_text(TROUBLE) if limit is None else why_text(TROUBLE, limit)
    assert words(text) == words(plain)


def test_a_terminal_is_filled_and_not_overrun():
    lines = ESCAPE.sub("", printed(TROUBLE, terminal=True, width=90)).splitlines()
    assert 80 < max(map(len, lines)) <= 90


def heads(text: str) -> list[str]:
    """The names that begin an entry of a full answer."""
    return re.findall(r"^  [x?!=-] (\w+): ", text, flags=re.MULTILINE)


SITUATIONS = st.fixed_dictionaries(
    {},
    optional={
        "front_seat": st.sampled_from(["0 kg", "82 kg", "131 kg"]),
        "rear_seat": st.sampled_from(["0 kg", "74 kg", "125 kg"]),
        "nose_locker": st.sampled_from(["0 kg", "8 kg", "16 kg"]),
        "main_tank": st.sampled_from(["0 L", "60 L", "81 L"]),
        "trip_fuel": st.sampled_from(["0 L", "30 L", "70 L"]),
        "engine": st.sampled_from(["standard", "boosted"]),
        "airfield": st.sampled_from(["hard", "grass"]),
        "pod_fitted": st.sampled_from(["yes", "no"]),
        "pressure_altitude": st.sampled_from(["0 ft", "9000 ft", "11000 ft"]),
        "flight_date": st.sampled_from(["2025-03-01", "2029-02-28", "2030-01-01"]),
        "empty_arm": st.sampled_from(["900 mm", "1240 mm", "1400 mm"]),
        "empty_mass": st.just("288 kg"),
        "outside_air_temperature": st.just("20 degC"),
        "weighed_on": st.just("2025-02-28"),
    },
)


@given(SITUATIONS)
@settings(max_examples=60, deadline=None)
def test_every_limit_stands_exactly_once(situation):
    result = answer_of_corrin(situation)
    names = [each.limit.name for each in result.limits]
    assert sorted(heads(full_text(result))) == sorted(names)
    for name in names:
        why = why_text(result, name)
        assert re.search(rf"^[x?!=-] {name}: ", why)
        assert len(re.findall(r"^[x?!=-] \w+: ", why, flags=re.MULTILINE)) == 1


def answer_of_corrin(situation):
    return answer(*(name for name in TWO_UP if name not in situation), **situation)


HOSTILE = [
    "[bold red]WITHIN[/]",
    "[link=file:///]Seat[/link] \\[x]",
    "\x1b[2J\x1b[31mSeat",
    "Seat\rWITHIN: every limit that applies is kept",
    "Seat\u2028WITHIN",
    "\u202eTAES",
    "Seat \x9b31m",
]


def put_in(thing, label):
    """The same checked sheet with other words for some labels: reading would refuse most of these."""
    if isinstance(thing, tuple):
        return tuple(put_in(part, label) for part in thing)
    if isinstance(thing, str):
        return label if thing in REPLACED else thing
    if not is_dataclass(thing) or isinstance(thing, Span | Unit):
        return thing
    return replace(thing, **{each.name: put_in(getattr(thing, each.name), label) for each in fields(thing)})


REPLACED = ("Front seat", "Front seat within the allowance", "placard on the front bulkhead", "Quillmere order 14")
"""The labels of a load and a limit, a note, and the title of a document."""


@pytest.mark.parametrize("label", HOSTILE)
@pytest.mark.parametrize("terminal", [True, False])
def test_a_label_is_only_ever_letters(label, terminal):
    sheet = put_in(SHEET, label)
    result = evaluate(sheet, stated(sheet, TWO_UP | {"front_seat": "131 kg"}))
    for limit in (None, "front_seat", "allowance", "front_seat_max", "in_hand"):
        shown = printed(result, terminal=terminal, limit=limit)
        bare = ESCAPE.sub("", shown) if terminal else shown
        assert not re.search("[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e]", bare)
        assert not any(line.startswith("WITHIN") for line in bare.splitlines())
    if label.startswith("["):
        assert label in full_text(result)
