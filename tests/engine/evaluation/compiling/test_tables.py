"""Tables in compiled code read as the plain evaluator reads them: between, at and beyond the printed values."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.evaluation.compiling.compiled import compile_sheet
from engine.evaluation.loading import Loading
from tests.engine.evaluation.compiling.agreement import agrees
from tests.engine.evaluation.small_sheets import sheet_of
from tests.strategies import decimals

_points = st.lists(st.integers(0, 400), min_size=2, max_size=5, unique=True).map(sorted)
_taking = st.sampled_from(["", "  use the next higher\n", "  use the next lower\n"])


@st.composite
def one_axis(draw: st.DrawFn) -> str:
    points = draw(_points)
    values = draw(st.lists(st.integers(0, 500), min_size=len(points), max_size=len(points)))
    rows = "\n".join(f"  | {point} | {value} |" for point, value in zip(points, values, strict=True))
    return f'table most of x in kg gives kg source fm "1"\n{draw(_taking)}  | x | most |\n{rows}\n'


@st.composite
def two_axes(draw: st.DrawFn) -> str:
    first, second = draw(_points), draw(_points)
    head = " | ".join(["  |    ", *map(str, second), ""])
    rows = [" | ".join([f"  | {point}", *(str(draw(st.integers(0, 500))) for _ in second), ""]) for point in first]
    table = "\n".join([head, *rows])
    return f'table most of x in kg and y in kg gives kg source fm "1"\n{draw(_taking)}{table}\n'


def _near(draw: st.DrawFn, text: str) -> Fraction:
    """A printed figure of the table, just beside one, or anything."""
    printed = [Fraction(part) for part in text.replace("|", " ").split() if part.isdigit()]
    beside = st.tuples(st.sampled_from(printed), st.sampled_from([-1, 0, 1])).map(
        lambda pair: pair[0] + Fraction(pair[1], 1000)
    )
    return max(draw(st.one_of(beside, decimals(0, 450, 3))), Fraction(0))


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.data())
@pytest.mark.parametrize(
    ("argument", "tables"),
    [
        ("x", one_axis()),
        ("x + y", one_axis()),
        ("cg_like", one_axis()),
        ("x, y", two_axes()),
        ("cg_like, x", two_axes()),
    ],
)
def test_a_table_reads_alike(argument: str, tables: st.SearchStrategy[str], data: st.DataObject) -> None:
    table = data.draw(tables)
    text = (
        'load x from 0 kg to 900 kg arm 1 m source fm "1"\n'
        'load y from 0 kg to 900 kg arm 1 m source fm "1"\n'
        f"{table}"
        'let cg_like = (x * y) / (x + y + 1 kg) source fm "1"\n'
        f'limit a y at most most({argument}) source fm "1"\n'
        f'limit b x at least min(most({argument}), 200 kg) source fm "1"\n'
        'limit c cg_like at most 300 kg source fm "1"\n'
    )
    compiled = compile_sheet(sheet_of(text))
    assert compiled.layout is not None
    stated = {"x": _near(data.draw, table), "y": _near(data.draw, table), "empty_mass": Fraction(100)}
    agrees(compiled, Loading(stated))


def test_every_printed_value_is_given_back() -> None:
    text = """\
load x from 0 kg to 900 kg arm 1 m source fm "1"
table most of x in kg gives kg source fm "1"
  | x | most |
  | 10 | 7 |
  | 20 | 9 |
  | 40 | 3 |
limit a x at most most(x) source fm "1"
"""
    compiled = compile_sheet(sheet_of(text))
    layout = compiled.layout
    assert layout is not None
    bound = compiled.sheet.limits[0].claim.bound
    for stated, printed in ((10, 7), (20, 9), (40, 3), (30, 6)):
        numbers = compiled.numbers({"x": f"{stated} kg"})
        assert numbers is not None
        pieces = compiled.values(numbers)
        assert pieces is not None
        assert layout.slots[bound.slot].read(pieces) == printed
