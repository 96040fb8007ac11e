"""No figure of an answer looks safer than it is: each is read back and held against the exact value."""

from __future__ import annotations

import re
from fractions import Fraction

from hypothesis import example, given, settings
from hypothesis import strategies as st

from engine.evaluation.exact import evaluate
from engine.evaluation.loading import Loading
from engine.evaluation.result import CheckResult, Margin, Side
from engine.explanation.headlines import UPWARD, figures
from engine.explanation.leaning import leanings
from grammar.figures import Rounding
from grammar.sheet import Condition, Expression, Read, Verdict, children
from tests.engine.explanation.answers import answer, outcome, read_sheet, sentence

amounts = st.fractions(min_value=0, max_value=130, max_denominator=9973)
"""Masses in kilograms, most of which have no end as decimals."""

FIGURE = r"(?:about )?(-?[\d.]+)"


def read_back(text: str) -> Fraction:
    found = re.fullmatch(FIGURE + r" \S+", text)
    assert found, text
    return Fraction(found[1])


def is_never_flattering(margin: Margin) -> None:
    shown = figures(margin)
    subject, bound, room = (read_back(str(each)) for each in (shown.subject, shown.bound, shown.room))
    exact = [each.in_unit for each in (shown.subject, shown.bound, shown.room)]
    if margin.side in UPWARD:
        assert subject >= exact[0] and bound <= exact[1]
    else:
        assert subject <= exact[0] and bound >= exact[1]
    assert room <= exact[2]
    assert (room < 0) == (margin.room < 0)
    assert (subject == bound) == (margin.subject == margin.bound)


@given(front=amounts, rear=amounts, nose=amounts)
@example(front=Fraction("115.04"), rear=Fraction(0), nose=Fraction(0))
@example(front=115 + Fraction(1, 3 * 10**20), rear=Fraction(0), nose=Fraction(0))
@settings(max_examples=60, deadline=None)
def test_no_figure_flatters(front, rear, nose):
    result = answer(front_seat=front, rear_seat=rear, nose_locker=nose / 10)
    margins = [
        margin
        for each in result.limits
        if each.limit.name != "weighing"
        for margin in each.margins
        if margin.is_exact
    ]
    assert margins
    for margin in margins:
        is_never_flattering(margin)


SAID = re.compile(f"front seat {FIGURE} kg, (over|within) {FIGURE} kg by {FIGURE} kg: ")


@given(front=amounts, nose=amounts)
@settings(max_examples=80, deadline=None)
def test_a_sentence_never_flatters(front, nose):
    nose = nose / 10
    result = answer(front_seat=front, nose_locker=nose)
    said = SAID.match(sentence(result, "front_seat_max"))
    bound = 115 - 3 * nose
    if front == bound:
        assert said is None
        return
    assert said, sentence(result, "front_seat_max")
    assert Fraction(said[1]) >= front
    assert Fraction(said[3]) <= bound
    assert said[2] == ("over" if front > bound else "within")
    by = Fraction(said[4])
    assert by >= front - bound if front > bound else by <= bound - front
    assert (Fraction(said[1]) > Fraction(said[3])) == (front > bound)


NUDGED = read_sheet("""
sheet nudged revision 1 "Nudged"
document fm "Manual"
load a "A" from 1 kg to 200 kg source fm "1"
load b "B" from 1 kg to 200 kg source fm "1"
load c "C" from 1 kg to 200 kg source fm "1"
load d "D" from 1 kg to 200 kg source fm "1"
load e "E" from 1 kg to 200 kg source fm "1"
limit sums "Sums" a - 3 * b at most 115 kg - 2 * c + d / 7 source fm "2"
limit ratio "Ratio" (a + b) / (c + d) at most 3 - e / 90 kg source fm "2"
limit negative "Negative" a * ((b - 100 kg) / 30 kg) at least -(c / (d - 300 kg)) * 40 kg source fm "2"
limit extremes "Extremes" min(a, b - c) at most max(d, e) source fm "2"
limit size "Size" abs(a - b) at most 30 kg - (abs(c - d)) / 3 source fm "2"
limit chosen "Chosen" (a when b > 60 kg, c otherwise) at least d source fm "2"
limit opposite "Opposite" not (a - b at most c) source fm "2"
""")
NAMES = ("a", "b", "c", "d", "e")
HAIR = Fraction(1, 10**9)


def leans(result: CheckResult, name: str) -> dict[str, Rounding]:
    """Which way each load leans in the claim of a limit."""
    found: dict[str, Rounding] = {}
    waiting: list[tuple[Expression | Condition, Rounding]] = [(outcome(result, name).limit.claim, Rounding.DOWN)]
    while waiting:
        node, lean = waiting.pop()
        if isinstance(node, Read):
            found[node.input.name] = lean
        waiting.extend(zip(children(node), leanings(node, result.values, lean), strict=True))
    return found


def room(result: CheckResult, name: str) -> Fraction:
    """The room of a limit whose claim has one margin."""
    (margin,) = outcome(result, name).margins
    return margin.room


@given(loads=st.lists(st.fractions(min_value=2, max_value=199, max_denominator=97), min_size=5, max_size=5))
@settings(max_examples=60, deadline=None)
def test_what_leans_upward_is_worse_when_there_is_more_of_it(loads):
    stated = dict(zip(NAMES, loads, strict=True))
    before = evaluate(NUDGED, Loading(stated))
    for limit in ("sums", "ratio", "negative", "extremes", "size", "chosen"):
        for name, lean in leans(before, limit).items():
            if lean is Rounding.NEAREST:
                continue
            hair = HAIR if lean is Rounding.UP else -HAIR
            after = evaluate(NUDGED, Loading(stated | {name: stated[name] + hair}))
            assert room(after, limit) <= room(before, limit), (limit, name, lean)


def test_what_must_not_hold_leans_the_other_way():
    loads = Loading({name: Fraction(50) for name in NAMES})
    assert leans(evaluate(NUDGED, loads), "opposite") == {
        "a": Rounding.DOWN,
        "b": Rounding.UP,
        "c": Rounding.UP,
    }


def test_a_point_leans_towards_its_nearer_edges():
    result = outcome(answer(front_seat="40 kg", rear_seat="120 kg"), "balance")
    (aft,) = [margin for margin in result.margins if margin.side is Side.AFT]
    shown = figures(aft)
    assert result.verdict is Verdict.OUTSIDE
    assert read_back(str(shown.subject)) > shown.subject.in_unit
    assert read_back(str(shown.size)) > -shown.room.in_unit
