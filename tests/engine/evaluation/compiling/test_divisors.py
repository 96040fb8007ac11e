"""A division by zero is never worked out by compiled code, whatever else asks about the divisor."""

from __future__ import annotations

from fractions import Fraction

from engine.evaluation.compiling.compiled import compile_sheet
from engine.evaluation.loading import Loading
from grammar.sheet import Verdict
from tests.engine.evaluation.compiling.agreement import agrees
from tests.engine.evaluation.small_sheets import sheet_of

SHEET = """\
load x from 0 kg to 100 kg arm 1 m source fm "1"
load w from 10 kg to 100 kg arm 1 m source fm "1"
limit a x at most 50 kg when w is occupied source fm "1"
limit b x / w at most 1 source fm "2"
"""


def test_a_condition_on_the_divisor_is_no_guard_of_the_division() -> None:
    compiled = compile_sheet(sheet_of(SHEET))
    for x, w in ((0, 0), (1, 0), (0, 10), (10, 10), (11, 10)):
        loading = Loading({"x": Fraction(x), "w": Fraction(w)})
        assert agrees(compiled, loading) is bool(w)
        if not w:
            assert compiled.check(loading).limits[1].verdict is Verdict.UNDETERMINED
