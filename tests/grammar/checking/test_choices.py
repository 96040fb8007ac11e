"""Guarded choices over options: complete and free of overlap, by looking at every combination."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import event, given, settings
from hypothesis import strategies as st

from engine.evaluation.exact import value_for
from engine.evaluation.requests import read_loading
from grammar.checking.choices import MOST_COMBINATIONS
from grammar.pipeline import Outcome, read_sheet
from tests.engine.evaluation.small_sheets import HEADER, limit, sheet_of

INPUTS = {"engine": ("standard", "boosted", "turbo"), "surface": ("hard", "grass"), "dual": ("yes", "no")}
DECLARED = """\
fact engine is one of standard, boosted, turbo source fm "1"
given surface is one of hard, grass
given dual is yes or no
load seat from 0 kg to 1000 kg source fm "1"
"""


def read(choice: str) -> Outcome:
    text = HEADER + DECLARED + f'limit l seat at most {choice} source fm "2"\n'
    return read_sheet(text, "small.limits")


def codes(choice: str) -> list[str]:
    return [problem.code for problem in read(choice).problems if problem.code != "303"]


# ---- any guards against looking at every combination

Guard = tuple[str, object]


def _atoms() -> st.SearchStrategy[Guard]:
    named = st.sampled_from(sorted(INPUTS)).flatmap(
        lambda name: st.tuples(st.just(name), st.sampled_from(INPUTS[name]), st.booleans())
    )
    return named.map(lambda one: ("is", one))


GUARDS = st.recursive(
    _atoms(),
    lambda inner: st.one_of(
        st.tuples(st.just("not"), inner),
        st.tuples(st.just("and"), st.lists(inner, min_size=2, max_size=3)),
        st.tuples(st.just("or"), st.lists(inner, min_size=2, max_size=3)),
    ),
    max_leaves=4,
)


def written(guard: Guard) -> str:
    sort, of = guard
    if sort == "is":
        name, word, denied = of
        return f"{name} is {'not ' if denied else ''}{word}"
    if sort == "not":
        return f"not ({written(of)})"
    return "(" + f" {sort} ".join(written(part) for part in of) + ")"


def holds(guard: Guard, options: dict[str, str]) -> bool:
    sort, of = guard
    if sort == "is":
        name, word, denied = of
        return (options[name] == word) is not denied
    if sort == "not":
        return not holds(of, options)
    return (all if sort == "and" else any)(holds(part, options) for part in of)


def combinations() -> list[dict[str, str]]:
    return [dict(zip(INPUTS, words, strict=True)) for words in product(*INPUTS.values())]


def told_by_looking(guards: list[Guard], *, has_otherwise: bool) -> str | None:
    """Whether the cases overlap or leave something out, by every combination of all inputs."""
    counts = [sum(holds(guard, options) for guard in guards) for options in combinations()]
    if max(counts) > 1:
        return "602"
    return "601" if min(counts) == 0 and not has_otherwise else None


@given(guards=st.lists(GUARDS, min_size=1, max_size=4), has_otherwise=st.booleans())
@settings(deadline=None, max_examples=150)
def test_a_choice_is_complete_and_free_of_overlap_or_it_is_told(guards, has_otherwise):
    cases = ", ".join(f"{at + 1} kg when {written(guard)}" for at, guard in enumerate(guards))
    choice = f"({cases}{', 9 kg otherwise' if has_otherwise else ''})"
    told = told_by_looking(guards, has_otherwise=has_otherwise)
    event(f"told: {told}")
    assert [code for code in codes(choice) if code in ("601", "602", "603")] == ([] if told is None else [told])
    sheet = read(choice).sheet
    if told is not None:
        assert sheet is None
        return
    assert sheet is not None
    bound = next(one for one in sheet.limits if one.name == "l").claim.bound
    known = {item.name for item in sheet.inputs}
    for options in combinations():
        stated = {name: word for name, word in options.items() if name in known}
        wanted = next((at + 1 for at, guard in enumerate(guards) if holds(guard, options)), 9)
        assert value_for(sheet, read_loading(sheet, stated), bound) == wanted


@given(guards=st.lists(GUARDS, min_size=1, max_size=3))
@settings(deadline=None, max_examples=60)
def test_what_is_never_taken_is_told(guards):
    cases = ", ".join(f"{at + 1} kg when {written(guard)}" for at, guard in enumerate(guards))
    told = codes(f"({cases}, 9 kg otherwise)")
    if "602" in told:
        return
    never = sum(not any(holds(guard, options) for options in combinations()) for guard in guards)
    is_complete = all(any(holds(guard, options) for guard in guards) for options in combinations())
    assert (told.count("605"), told.count("604")) == (never, int(is_complete))


# ---- by hand


@pytest.mark.parametrize(
    ("choice", "told"),
    [
        ("(1 kg when engine is standard, 2 kg when engine is boosted)", ["601"]),
        ("(1 kg when engine is standard, 2 kg when engine is not standard)", []),
        ("(1 kg when engine is standard, 2 kg when not (engine is standard))", []),
        ("(1 kg when dual is yes, 2 kg when dual is no)", []),
        ("(1 kg when dual is yes, 2 kg when dual is yes)", ["602"]),
        ("(1 kg when engine is standard, 2 kg when surface is hard, 3 kg otherwise)", ["602"]),
        ("(1 kg when seat > 10 kg, 2 kg when seat at most 10 kg)", ["603"]),
        ("(1 kg when seat > 10 kg, 2 kg otherwise)", []),
        ("(1 kg when seat > 10 kg, 2 kg when seat > 5 kg, 3 kg otherwise)", []),
        ("(1 kg when dual is yes and seat > 10 kg, 2 kg when dual is no)", ["603"]),
        ("(1 kg when dual is yes, 2 kg when dual is no, 3 kg otherwise)", ["604"]),
        ("(1 kg when dual is yes, 2 mm when dual is no)", ["402"]),
        ("(1 kg when dual is yes, 2 kg when dual is yes and dual is no, 3 kg when dual is no)", ["605"]),
    ],
)
def test_cases_by_hand(choice, told):
    assert codes(choice) == told


def test_the_case_left_out_is_named():
    (problem,) = (one for one in read("(1 kg when engine is standard, 2 kg when engine is boosted)").problems
                  if one.code == "601")  # fmt: skip
    assert problem.facts["case"] == "engine turbo"


def test_choices_over_very_many_combinations_need_otherwise():
    facts = "".join(f'fact f{at} is yes or no source fm "1"\n' for at in range(13))
    assert MOST_COMBINATIONS < 2**13
    guard = " and ".join(f"f{at} is yes" for at in range(13))
    text = HEADER + facts + 'load seat from 0 kg to 9 kg source fm "1"\n'
    complete = text + f'limit l seat at most (1 kg when {guard}, 2 kg when not ({guard})) source fm "2"\n'
    assert [problem.code for problem in read_sheet(complete, "s").problems] == ["603"]
    safe = text + f'limit l seat at most (1 kg when {guard}, 2 kg otherwise) source fm "2"\n'
    assert read_sheet(safe, "s").problems == ()


def test_the_first_case_that_holds_counts_where_figures_are_compared():
    text = DECLARED + (
        'limit l seat at most (10 kg when seat > 100 kg, 20 kg when seat > 50 kg, 60 kg otherwise) source fm "2"\n'
    )
    sheet = sheet_of(text)
    rooms = [limit(sheet, "l", seat=f"{mass} kg").margins[0].room for mass in (101, 100, 51, 50)]
    assert rooms == [-91, -80, -31, 10]
