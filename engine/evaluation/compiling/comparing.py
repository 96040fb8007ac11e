"""Comparisons and their joining in generated code. Equal is within: no rounding ever stands between."""

from __future__ import annotations

from typing import Final, Literal

from engine.evaluation.compiling.forms import Form
from engine.evaluation.compiling.translation import KNOWN, Test, Translation
from engine.evaluation.compiling.writer import BENT, STANDS

Relation = Literal[">=", ">", "=="]

_TURNED: Final = {">=": "<=", ">": "<", "==": "=="}


def sign_test(form: Form, relation: Relation, so_far: Translation) -> Test:
    """Whether a form is at least, more than, or just zero. What it is divided by does not change its sign."""
    form = form.over(None).primitive()
    writer = so_far.writer
    if not form.terms:
        return KNOWN[_holds(form.constant, relation)]
    degree = BENT if writer.degree(form) else STANDS
    if relation == ">=" and (writer.least(form) or 0) >= 0 and writer.least(form) is not None:
        return KNOWN[True]
    if len(form.terms) == 1:
        ((name, k),) = form.terms
        return _of_one(name, k, form.constant, relation, Test("", degree, writer.is_late(form)))
    if form.terms[0][1] < 0:
        text, relation_shown, whole = (
            writer.text(Form((-form).terms, 0, form.scale)),
            _TURNED[relation],
            form.constant,
        )
    else:
        text, relation_shown, whole = writer.text(Form(form.terms, 0, form.scale)), relation, -form.constant
    return Test(f"{text} {relation_shown} {whole}", degree, writer.is_late(form))


def _holds(value: int, relation: Relation) -> bool:
    return value > 0 or (value == 0 and relation != ">") if relation != "==" else value == 0


def _of_one(name: str, k: int, constant: int, relation: Relation, traits: Test) -> Test:
    """``k name + constant`` compared with zero, as the name compared with a whole number."""
    if relation == "==":
        if constant % k:
            return KNOWN[False]
        text = f"{name} == {-constant // k}"
    elif relation == ">=":
        text = f"{name} >= {-(constant // k)}" if k > 0 else f"{name} <= {constant // -k}"
    else:
        text = f"{name} > {-constant // k}" if k > 0 else f"{name} < {-(-constant // -k)}"
    return Test(text, traits.degree, traits.is_late)


def joined(tests: tuple[Test, ...], word: Literal["and", "or"]) -> Test:
    """Several conditions joined by one word."""
    settles = word == "or"
    if any(test.known is settles for test in tests):
        return KNOWN[settles]
    open_ones = [test for test in tests if test.known is None]
    if not open_ones:
        return KNOWN[not settles]
    text = f" {word} ".join(f"({test.text})" if " " in test.text else test.text for test in open_ones)
    degree = BENT if any(test.degree for test in open_ones) else STANDS
    return Test(text, degree, any(test.is_late for test in open_ones))


def denied(test: Test) -> Test:
    """A condition denied."""
    if test.known is not None:
        return KNOWN[not test.known]
    return Test(f"not ({test.text})", test.degree, test.is_late)
