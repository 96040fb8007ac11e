"""The same measurements for pytest-benchmark: ``python -m pytest tests/benchmarks --benchmark-only``."""

from __future__ import annotations

import pytest

from engine.explanation.encoding import Encoder
from grammar.pipeline import read_sheet
from tests.benchmarks import handwritten
from tests.benchmarks.loads import compiled, loads
from tests.benchmarks.sheets import sheet_of_statements

LOAD = next(
    load for load in loads(50) if all(handwritten.verdicts(*load.arguments)[at] is not False for at in range(21))
)


@pytest.mark.benchmark(group="a load")
def test_hand_written_verdicts(benchmark) -> None:
    benchmark(handwritten.verdicts, *LOAD.arguments)


@pytest.mark.benchmark(group="a load")
def test_compiled_verdicts(benchmark) -> None:
    benchmark(compiled().verdicts, compiled().numbers(LOAD.request))


@pytest.mark.benchmark(group="a load")
def test_compiled_values(benchmark) -> None:
    benchmark(compiled().values, compiled().numbers(LOAD.request))


@pytest.mark.benchmark(group="a load")
def test_full_explanation(benchmark) -> None:
    encoder, numbers = Encoder(compiled()), compiled().numbers(LOAD.request)
    encoder.answer(LOAD.request)
    assert numbers is not None
    assert encoder.encoded(numbers, LOAD.request.keys()) is not None
    benchmark(encoder.encoded, numbers, LOAD.request.keys())


@pytest.mark.benchmark(group="reading")
@pytest.mark.parametrize("statements", [40, 400, 4000])
def test_reading(benchmark, statements: int) -> None:
    text = sheet_of_statements(statements)
    assert read_sheet(text, "long.limits").sheet is not None
    benchmark(read_sheet, text, "long.limits")
