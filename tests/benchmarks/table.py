"""Prints what the compiled way costs, beside the same limits written by hand with floats.

``python tests/benchmarks/table.py``: every row of a table comes from the same interleaved rounds of one run.
Nothing here passes or fails; times depend on the machine and on what else it does.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from engine.evaluation.exact import evaluate_planned
from engine.evaluation.requests import read_loading
from engine.explanation.document import explanation_document
from engine.explanation.encoding import Encoder
from grammar.pipeline import read_sheet
from tests.benchmarks import handwritten
from tests.benchmarks.loads import Load, compiled, loads
from tests.benchmarks.sheets import sheet_of_statements
from tests.benchmarks.timing import Timed, Work, interleaved

LOADS, ROUNDS = 40, 25


def answers() -> None:
    """A load's answer in its several depths."""
    sheet, encoder = compiled(), Encoder(compiled())
    chosen = _encoded_quickly(encoder, loads(4 * LOADS))[:LOADS]
    numbers = [sheet.numbers(load.request) for load in chosen]
    loadings = [read_loading(sheet.sheet, load.request) for load in chosen]
    documents = len(encoder.answer(chosen[0].request))
    works: dict[str, tuple[Work, int]] = {
        "hand-written floats, verdicts": (_each(handwritten.verdicts, [load.arguments for load in chosen]), 20),
        "compiled, verdicts": (_each(sheet.verdicts, [(each,) for each in numbers]), 20),
        "compiled, every value": (_each(sheet.values, [(each,) for each in numbers]), 10),
        "text to whole numbers": (_each(sheet.numbers, [(load.request,) for load in chosen]), 5),
        f"full explanation, {documents / 1000:.0f} kB of JSON": (
            _each(encoder.encoded, [(n, load.request.keys()) for n, load in zip(numbers, chosen, strict=True)]),
            1,
        ),
        "plain evaluator": (_each(evaluate_planned, [(sheet.parts.plan, loadings[0])]), 1),
        "models, from the answer to JSON": (
            _each(lambda answer: explanation_document(answer).model_dump_json(), [(sheet.check(loadings[0]),)]),
            1,
        ),
    }
    print(f"Aldermoor A4, {len(sheet.sheet.limits)} limits, {sheet.sheet.slots} values, a load")
    counts = [LOADS] * 5 + [1, 1]
    _print(interleaved(works, ROUNDS), counts)


def _encoded_quickly(encoder: Encoder, many: tuple[Load, ...]) -> list[Load]:
    """Those loads whose answers need no sweep, each met before, so that generated code encodes them."""
    for load in many:
        encoder.answer(load.request)
    found = []
    for load in many:
        numbers = encoder.compiled.numbers(load.request)
        if numbers is not None and encoder.encoded(numbers, load.request.keys()) is not None:
            found.append(load)
    print(f"{len(found)} of {len(many)} random loads take generated code all the way\n")
    return found


def _each(work: Callable[..., object], arguments: list[tuple[object, ...]]) -> Work:
    def run() -> None:
        for each in arguments:
            work(*each)

    return run


def _print(timed: dict[str, Timed], counts: list[int]) -> None:
    first = next(iter(timed.values())).seconds / counts[0]
    for (name, each), number in zip(timed.items(), counts, strict=True):
        seconds = each.seconds / number
        ratio = each.ratio * counts[0] / number
        print(f"  {name:<42} {seconds * 1e6:12.2f} µs  {ratio:10.2f}")
    print(f"  (ratios are medians of the rounds; 1 is {first * 1e6:.2f} µs)\n")


def readings() -> None:
    """Reading and checking sheets of several lengths."""
    print("Reading and checking a sheet")
    texts = {number: sheet_of_statements(number) for number in (40, 400, 4000)}
    works: dict[str, tuple[Work, int]] = {
        f"{number} statements": (_each(read_sheet, [(text, "long.limits")]), 1) for number, text in texts.items()
    }
    for (name, each), number in zip(interleaved(works, 5).items(), texts, strict=True):
        print(f"  {name:<42} {each.seconds * 1e3:12.1f} ms  {each.seconds / number * 1e6:10.0f} µs a statement")


if __name__ == "__main__":
    answers()
    readings()
