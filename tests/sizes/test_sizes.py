"""Large sheets are read and evaluated; larger ones are refused with a diagnostic, never by a crash or a hang."""

from __future__ import annotations

import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from time import perf_counter

import pytest

from engine.evaluation.compiling.compiled import CompiledSheet, compile_sheet
from engine.evaluation.exact import evaluate
from engine.evaluation.proving import read_and_prove
from engine.evaluation.requests import read_loading
from engine.explanation.document import explanation_document
from engine.explanation.text import full_text, why_text
from engine.resolution.reading import read_together
from engine.resolution.resolving import resolve
from engine.resolution.selecting import Asked
from grammar.checking.nesting import MOST_ENVELOPE_CHOICES
from grammar.diagnostics.catalogue import CATALOGUE
from grammar.pipeline import Outcome
from grammar.sheet import Sheet, Verdict

HEADER = """\
sheet large revision 1 "A large sheet"
document fm "An invented flight manual"
datum "the firewall; arms positive aft"
given pick is one of a, b
given height in ft from 0 ft to 8000 ft
load seat from 0 kg to 200 kg arm 1000 mm source fm "1"
load bag from 0 kg to 200 kg arm 1000 mm source fm "1"
fuel tank from 0 L to 100 L density 0.72 kg/L arm 1200 mm source fm "1"
table worn of seat in kg gives kg source fm "1"
  | seat | worn |
  |    0 |    0 |
  |  200 |  200 |
"""
STATED = {"pick": "a", "height": "10 ft", "seat": "80 kg", "bag": "3 kg", "tank": "20 L", "empty_mass": "300 kg",
          "empty_arm": "1000 mm"}  # fmt: skip
IN_USE = 'limit in_use bag at most 200 kg when pick is a and height at least 0 ft and worn(bag) at least 0 kg source fm "1"\n'
SLOW = 20.0
"""Seconds: what takes longer is as good as a hang."""


@contextmanager
def without_hanging() -> Iterator[None]:
    began = perf_counter()
    yield
    assert perf_counter() - began < SLOW


def read(statements: str) -> Outcome:
    with without_hanging():
        return read_and_prove(HEADER + IN_USE + statements, "large.limits")


def codes(outcome: Outcome) -> set[str]:
    assert all(problem.code in CATALOGUE for problem in outcome.problems)
    return {problem.code for problem in outcome.problems}


def is_too_large(outcome: Outcome) -> bool:
    """Whether it was refused for its size, and for nothing else."""
    return bool(outcome.problems) and all(code.startswith("9") for code in codes(outcome))


def verdict(outcome: Outcome, name: str, **stated: str) -> Verdict:
    """How a limit comes out, by the plain evaluator and by the compiled one."""
    sheet = outcome.sheet
    assert sheet is not None, codes(outcome)
    known = {item.name for item in sheet.inputs}
    loading = read_loading(sheet, {key: value for key, value in (STATED | stated).items() if key in known})
    with without_hanging():
        plain, compiled = evaluate(sheet, loading), compiled_once(sheet).check(loading)
    found = {each.limit.name: each.verdict for each in plain.limits}
    assert found == {each.limit.name: each.verdict for each in compiled.limits}
    return found[name]


LATEST: list[CompiledSheet] = []


def compiled_once(sheet: Sheet) -> CompiledSheet:
    """The sheet compiled; the latest one is kept."""
    if not LATEST or LATEST[0].sheet is not sheet:
        LATEST[:] = [compile_sheet(sheet)]
    return LATEST[0]


def limit(claim: str) -> str:
    """A limit on lines that are not too long."""
    words, lines, line = claim.split(" "), [], ""
    for word in words:
        line = f"{line} {word}" if line else word
        if len(line) > 1000:
            lines.append(line)
            line = ""
    return "limit asked " + "\n  ".join([*lines, line]) + '\n  source fm "2"\n'


# ---- what is read and evaluated


def test_a_file_of_four_thousand_statements():
    lines = [f'load place_{at} from 0 kg to {at % 90 + 10} kg arm {at} mm source fm "1"' for at in range(2000)]
    lines += [f'limit most_{at} place_{at} at most {at % 80 + 5} kg source fm "2"' for at in range(2000)]
    outcome = read("\n".join(lines) + "\n")
    assert len(outcome.file.statements) > 4000
    stated = {f"place_{at}": "5 kg" for at in range(2000)}
    assert verdict(outcome, "most_0", **stated) is Verdict.WITHIN
    assert verdict(outcome, "most_0", **stated | {"place_0": "5.001 kg"}) is Verdict.OUTSIDE


def test_a_table_of_200_by_200():
    across = " | ".join(str(at) for at in range(200))
    rows = "\n".join(
        f"  | {down} | " + " | ".join(str(down + at) for at in range(200)) + " |" for down in range(200)
    )
    text = f'table wide of seat in kg and bag in kg gives kg source fm "5"\n  | | {across} |\n{rows}\n'
    outcome = read(text + limit("wide(seat, bag) at most 83.5 kg"))
    assert verdict(outcome, "asked", seat="80.25 kg", bag="3.25 kg") is Verdict.WITHIN
    assert verdict(outcome, "asked", seat="80.25 kg", bag="3.26 kg") is Verdict.OUTSIDE
    assert verdict(outcome, "asked", seat="199.5 kg") is Verdict.UNDETERMINED


def test_an_envelope_of_500_corners():
    top = [f"  | {at} | {500 + 10 * (at % 2)} |" for at in range(500, 1500, 4)]
    bottom = [f"  | {at} | {100 - 10 * (at % 2)} |" for at in range(1496, 496, -4)]
    text = 'envelope many of cg in mm against mass in kg source fm "5"\n' + "\n".join(
        ["  | cg | mass |", *top, *bottom]
    )
    outcome = read(text + "\n" + limit("throughout (cg, mass) inside many"))
    assert outcome.sheet is not None
    assert len(outcome.sheet.envelopes[0].corners) == 500
    assert verdict(outcome, "asked") is Verdict.WITHIN
    assert verdict(outcome, "asked", seat="180 kg", bag="20 kg") is Verdict.OUTSIDE


def nested(before: str, inner: str, after: str, depth: int) -> str:
    return before * depth + inner + after * depth


NESTED: dict[str, Callable[[int], str]] = {
    "brackets": lambda n: nested("( ", "seat", " )", n) + " at most 80 kg",
    "a sum to the right": lambda n: nested("0 kg + ( ", "seat", " )", n) + " at most 80 kg",
    "a sum to the left": lambda n: nested("( ", "seat", " + 0 kg )", n) + " at most 80 kg",
    "a product": lambda n: nested("1 * ( ", "seat", " )", n) + " at most 80 kg",
    "minus": lambda n: "- " * (2 * (n // 2)) + "seat at most 80 kg",
    "minus with brackets": lambda n: nested("- ( - ( ", "seat", " ) )", n // 2) + " at most 80 kg",
    "min": lambda n: nested("min( bag + 100 kg , ", "seat", " )", n) + " at most 80 kg",
    "min, the first": lambda n: nested("min( ", "seat", " , bag + 100 kg )", n) + " at most 80 kg",
    "max": lambda n: nested("max( bag , ", "seat", " )", n) + " at most 80 kg",
    "abs": lambda n: nested("abs( ", "seat", " )", n) + " at most 80 kg",
    "rounding": lambda n: "round_up " * n + "seat" + " to 1 kg" * n + " at most 80 kg",
    "a table": lambda n: nested("worn( ", "seat", " )", n) + " at most 80 kg",
    "a choice, the first": lambda n: nested("( ", "seat", " when pick is a , bag when pick is b )", n) + " at most 80 kg",
    "a choice, the second": lambda n: nested("( bag when pick is b , ", "seat", " when pick is a )", n) + " at most 80 kg",
    "otherwise": lambda n: nested("( bag when height > 20 ft , ", "seat", " otherwise )", n) + " at most 80 kg",
    "a choice of conditions": lambda n: nested(
        "( ", "seat at most 80 kg", " when pick is a , bag at least 0 kg when pick is b )", n
    ),
    "not": lambda n: "not " * (2 * (n // 2)) + "( seat at most 80 kg )",
    "not with brackets": lambda n: nested("not ( not ( ", "seat at most 80 kg", " ) )", n // 2),
    "and within or": lambda n: nested(
        "bag at least 0 kg and ( height > 20 ft or ( ", "seat at most 80 kg", " ) )", n // 2
    ),
    "a guard": lambda n: "seat at most ( 80 kg when " + "not " * (2 * (n // 2)) + "pick is a , 1 kg when pick is b )",
}  # fmt: skip


@pytest.mark.parametrize("form", NESTED)
def test_values_and_conditions_nested_200_deep(form):
    outcome = read(limit(NESTED[form](200)))
    assert codes(outcome) == set()
    assert verdict(outcome, "asked", seat="80 kg") is Verdict.WITHIN
    assert verdict(outcome, "asked", seat="81 kg") is Verdict.OUTSIDE


@pytest.mark.parametrize("form", NESTED)
def test_what_nests_200_deep_is_explained(form):
    sheet = read(limit(NESTED[form](200))).sheet
    assert sheet is not None
    result = evaluate(sheet, read_loading(sheet, STATED | {"seat": "81 kg"}))
    with without_hanging():
        assert "81 kg" in why_text(result, "asked")
        assert "asked" in full_text(result)
        assert '"asked"' in explanation_document(result).model_dump_json()


@pytest.mark.parametrize("form", NESTED)
@pytest.mark.parametrize("depth", [260, 490, 2000, 20_000])
def test_deeper_ones_are_evaluated_or_refused(form, depth):
    outcome = read(limit(NESTED[form](depth)))
    if outcome.sheet is None:
        assert is_too_large(outcome)
    else:
        assert verdict(outcome, "asked", seat="81 kg") is Verdict.OUTSIDE


def test_deep_values_are_read_where_half_of_the_stack_is_taken_already():
    """As within a web server, whose own calls stand on the stack below."""
    text = HEADER + IN_USE + limit(NESTED["a choice of conditions"](200))

    def below(frames: int) -> Outcome:
        return below(frames - 1) if frames else read_and_prove(text, "large.limits")

    assert below(sys.getrecursionlimit() // 3).sheet is not None


def test_deep_values_are_read_in_a_thread():
    found: list[Outcome] = []
    thread = threading.Thread(target=lambda: found.append(read(limit(NESTED["min"](240)))))
    thread.start()
    thread.join(SLOW)
    assert found[0].sheet is not None


# ---- long rows

ROWS: dict[str, Callable[[int], str]] = {
    "sums": lambda n: "seat" + " + 0 kg" * n + " at most 80 kg",
    "differences": lambda n: "seat" + " - 0 kg" * n + " at most 80 kg",
    "products": lambda n: "seat" + " * 1" * n + " at most 80 kg",
    "quotients": lambda n: "seat" + " / 1" * n + " at most 80 kg",
    "and": lambda n: "seat at most 80 kg" + " and bag at least 0 kg" * n,
    "or": lambda n: "seat at most 80 kg" + " or bag at least 200 kg" * n,
    "min": lambda n: "min( seat " + ", bag + 190 kg " * n + ") at most 80 kg",
    "cases": lambda n: "seat at most ( " + "".join(f"{at} kg when height > {20_000 - at} ft , " for at in range(n))
    + "80 kg otherwise )",
    "occupied": lambda n: "count( " + "bag , " * n + "seat ) at most 3 or seat at most 80 kg",
}  # fmt: skip


@pytest.mark.parametrize("form", ROWS)
@pytest.mark.parametrize("length", [190, 480, 2000, 9000])
def test_long_rows_are_evaluated_or_refused(form, length):
    outcome = read(limit(ROWS[form](length)))
    if outcome.sheet is None:
        assert is_too_large(outcome)
        assert length > 190
    else:
        assert verdict(outcome, "asked", seat="81 kg") is Verdict.OUTSIDE


# ---- names that lean on one another


def _chain(length: int, form: str) -> list[str]:
    return ["let n0 = seat", *(f"let n{at} = {form.format(before=f'n{at - 1}')}" for at in range(1, length))]


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize(("length", "told"), [(40, set()), (41, {"911"}), (300, {"911"}), (5000, {"911"})])
def test_a_chain_of_names(length, told, turned):
    chain = _chain(length, "{before} + 0 kg").copy()
    chain = [line + ' source fm "3"' if at else line for at, line in enumerate(chain)]
    statements = "\n".join(chain[::-1] if turned else chain) + "\n" + limit(f"n{length - 1} at most 80 kg")
    outcome = read(statements)
    assert codes(outcome) == told
    if not told:
        assert verdict(outcome, "asked", seat="81 kg") is Verdict.OUTSIDE


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize(("length", "told"), [(39, set()), (60, {"911"}), (3000, {"911"})])
def test_a_chain_of_bounds(length, told, turned):
    chain = [f'limit b{at} seat at most bound(b{at + 1}) source fm "3"' for at in range(length)]
    chain.append(f'limit b{length} seat at most 80 kg source fm "3"')
    outcome = read("\n".join(chain[::-1] if turned else chain) + "\n")
    assert codes(outcome) == told
    if not told:
        assert verdict(outcome, "b0", seat="81 kg") is Verdict.OUTSIDE


def test_names_that_each_stand_twice_in_the_next():
    chain = _chain(39, "min({before}, {before})")
    outcome = read("\n".join(chain) + "\n" + limit("n38 at most 80 kg"))
    assert verdict(outcome, "asked", seat="81 kg") is Verdict.OUTSIDE


def test_names_that_each_stand_twice_in_the_next_and_move_with_the_burn():
    chain = ["let n0 = mass", *_chain(39, "max({before}, {before})")[1:]]
    outcome = read("\n".join(chain) + "\n" + limit("throughout n38 at most 397.4 kg"))
    assert verdict(outcome, "asked", seat="80 kg") is Verdict.WITHIN
    assert verdict(outcome, "asked", seat="81 kg") is Verdict.OUTSIDE


def test_names_that_each_stand_twice_in_the_next_with_an_order_that_adds():
    chain = _chain(39, "min({before}, {before})")
    added = 'declared seat add 4 kg by order source fm "3"\n'
    outcome = read(added + "\n".join(chain) + "\n" + limit("n38 at least 60 kg"))
    assert verdict(outcome, "asked", seat="57 kg") is Verdict.OUTSIDE


def test_deep_values_in_a_chain_of_names():
    deep = nested("min( seat + 100 kg ,\n ", "{before}", " )", 60)
    chain = [line + (' source fm "3"' if at else "") for at, line in enumerate(_chain(4, deep))]
    outcome = read("\n".join(chain) + "\n" + limit("n3 at most 80 kg"))
    assert verdict(outcome, "asked", seat="81 kg") is Verdict.OUTSIDE
    assert outcome.sheet is not None
    result = evaluate(outcome.sheet, read_loading(outcome.sheet, STATED | {"seat": "81 kg"}))
    assert "81 kg" in why_text(result, "asked")
    longer = [line + (' source fm "3"' if at else "") for at, line in enumerate(_chain(30, deep))]
    for order in (longer, longer[::-1]):
        assert codes(read("\n".join(order) + "\n" + limit("n29 at most 80 kg"))) == {"912"}


def test_a_circle_of_many_names_is_told():
    chain = _chain(200, "{before}")
    chain[0] = "let n0 = n199"
    assert codes(read("\n".join(chain) + "\n" + limit("n199 at most 80 kg"))) <= {"308", "911"}


def test_choices_of_envelopes_within_one_another():
    box = 'envelope box of cg in mm against mass in kg source fm "5"\n  | cg | mass |\n  | 1 | 1 |\n  | 9 | 9 |\n  | 1 | 9 |\n'
    for depth, told in ((MOST_ENVELOPE_CHOICES, set()), (MOST_ENVELOPE_CHOICES + 1, {"912"}), (120, {"912"})):
        inner = nested("( box when pick is b , ", "box", " when pick is a )", depth)
        assert codes(read(box + limit(f"at takeoff (cg, mass) inside {inner}"))) == told


# ---- many tanks, many files


def test_two_hundred_tanks():
    tanks = [f'fuel t{at} from 0 L to 9 L density 0.72 kg/L arm {at} mm source fm "1"' for at in range(200)]
    order = "burn tank,\n  then " + ",\n  then ".join(f"t{at}" for at in range(200)) + ' source fm "7"\n'
    outcome = read("\n".join(tanks) + "\n" + order + limit("throughout mass at most 1000 kg"))
    stated = {f"t{at}": "1 L" for at in range(200)} | {"trip_fuel": "150 L"}
    assert verdict(outcome, "asked", **stated) is Verdict.WITHIN


SUPPLEMENT = """\
supplement s{at} revision 1 to large "Supplement {at}"{after}
document d{at} "Supplement {at}"
load pod_{at} from 0 kg to 9 kg arm 5 mm assumed empty source d{at} "1"
amend limit heavy at takeoff mass at most {most} kg source d{at} "2"
"""
HEAVY = 'limit heavy at takeoff mass at most 900 kg source fm "2"\n'


def test_many_supplements_each_after_all_before():
    texts = {"large.limits": HEADER + IN_USE + HEAVY}
    for at in range(60):
        after = "\n  after " + ",\n    ".join(f"s{below}" for below in range(at)) if at else ""
        texts[f"s{at}.limits"] = SUPPLEMENT.format(at=at, after=after, most=899 - at)
    with without_hanging():
        resolved = resolve(texts, "large", Asked())
    assert resolved.sheet is not None
    assert len(resolved.sheet.layers) == 61
    heavy = next(origin for origin in resolved.sheet.origins if origin.name == "heavy")
    assert [one.layer.name for one in heavy.displaced] == [*(f"s{at}" for at in range(58, -1, -1)), "large"]


def test_a_long_chain_of_supplements():
    texts = {"large.limits": HEADER + IN_USE + HEAVY}
    for at in range(60):
        after = f"\n  after s{at - 1}" if at else ""
        texts[f"s{at}.limits"] = SUPPLEMENT.format(at=at, after=after, most=899 - at)
    with without_hanging():
        assert {file for file, found in read_together(texts).problems.items() if found} == set()
