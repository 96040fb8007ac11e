"""Forms are exact: whatever is done to them, they stand for the same rational numbers."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from engine.evaluation.compiling.comparing import sign_test
from engine.evaluation.compiling.data import Data
from engine.evaluation.compiling.forms import Form, common_scale, constant, rescaled, total
from engine.evaluation.compiling.translation import Translation
from engine.evaluation.compiling.writer import Writer

NAMES = ("v0", "v1", "v2")
_scales = st.fractions(Fraction(1, 1000), 1000, max_denominator=1000)
_values = st.fixed_dictionaries({name: st.integers(-50, 50) for name in NAMES})


@st.composite
def forms(draw: st.DrawFn) -> Form:
    whole = st.integers(-20, 20)
    terms = tuple((name, k) for name in NAMES if (k := draw(whole)))
    return Form(terms, draw(whole), draw(_scales))


def value(form: Form, names: dict[str, int]) -> Fraction:
    return form.scale * (sum(k * names[name] for name, k in form.terms) + form.constant)


@given(forms(), _values)
def test_a_form_without_common_divisors_is_the_same(form: Form, names: dict[str, int]) -> None:
    assert value(form.primitive(), names) == value(form, names)


@given(st.lists(forms(), min_size=1, max_size=4), _values)
def test_a_sum_of_forms_is_the_sum(parts: list[Form], names: dict[str, int]) -> None:
    assert value(total(parts), names) == sum(value(part, names) for part in parts)


@given(st.lists(_scales, min_size=1, max_size=4))
def test_every_scale_is_a_whole_multiple_of_the_common_one(scales: list[Fraction]) -> None:
    assert all((scale / common_scale(scales)).denominator == 1 for scale in scales)


@given(forms(), st.integers(1, 30), _values)
def test_a_finer_scale_changes_nothing(form: Form, finer: int, names: dict[str, int]) -> None:
    assert value(rescaled(form, form.scale / finer), names) == value(form, names)


@given(st.fractions())
def test_a_constant_is_itself(number: Fraction) -> None:
    assert constant(number).value == number


@given(forms(), st.sampled_from([">=", ">", "=="]), _values)
def test_a_comparison_in_code_is_the_comparison(form: Form, relation: str, names: dict[str, int]) -> None:
    writer = Writer(keeps_all=False)
    writer.degrees |= dict.fromkeys(NAMES, 0)
    test = sign_test(form, relation, Translation(writer, Data(), {}, {}, {}, frozenset()))
    expected = {">=": value(form, names) >= 0, ">": value(form, names) > 0, "==": value(form, names) == 0}
    space: dict[str, object] = dict(names)
    exec("\n".join(line.strip() for line in writer.lines), space)
    assert eval(test.text, space) is expected[relation]
