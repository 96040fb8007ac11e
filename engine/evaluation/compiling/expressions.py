"""Expressions in generated code: one case for each kind of expression."""

from __future__ import annotations

from fractions import Fraction

from engine.evaluation.calendar_days import later
from engine.evaluation.compiling.forms import ONE, Form, constant, named
from engine.evaluation.compiling.tables import look_up
from engine.evaluation.compiling.translation import Translation
from engine.evaluation.compiling.writer import BENT, STANDS
from grammar.sheet import (
    Absolute,
    Choice,
    Constant,
    Count,
    Expression,
    FuelAmount,
    Greatest,
    LaterDate,
    Least,
    LookUp,
    Named,
    Product,
    Quotient,
    Read,
    Rounded,
    Sum,
    TemperaturePoint,
)


def translate_expression(node: Expression, so_far: Translation) -> Form:
    """The form of an expression whose parts have been translated."""
    form = _form(node, so_far)
    if so_far.writer.keeps_all or node.slot in so_far.shared:
        return so_far.writer.single(form)
    return form


def _form(node: Expression, so_far: Translation) -> Form:
    writer = so_far.writer
    match node:
        case Constant():
            value = node.value
            return constant(Fraction(so_far.words[value]) if isinstance(value, str) else value)
        case Read():
            return so_far.inputs[node.input.name]
        case FuelAmount():
            return so_far.fuel[node.tank.input.name, node.stage]
        case Named():
            return so_far.form(node.body)
        case Sum():
            terms = ((sign, so_far.form(term)) for sign, term in node.terms)
            return writer.sum(tuple(form if sign > 0 else -form for sign, form in terms))
        case Product():
            return writer.product(so_far.form(node.left), so_far.form(node.right))
        case Quotient():
            return writer.quotient(so_far.form(node.dividend), so_far.form(node.divisor))
        case Least():
            return _extreme(tuple(so_far.form(value) for value in node.values), "<=", so_far)
        case Greatest():
            return _extreme(tuple(so_far.form(value) for value in node.values), ">=", so_far)
        case Absolute():
            return _absolute(so_far.form(node.of), so_far)
        case Rounded():
            return _rounded(node, so_far)
        case LookUp():
            arguments = tuple(so_far.form(argument) for argument in node.arguments)
            return look_up(node.table, arguments, writer, so_far.data)
        case Count():
            return _count(node, so_far)
        case LaterDate():
            return _later(node, so_far)
        case Choice():
            return _choice(node, so_far)


def _bent(forms: tuple[Form, ...], so_far: Translation) -> tuple[int, bool]:
    """The degree of what is chosen or cut among forms, and whether it hangs on the fuel."""
    moves = any(so_far.writer.degree(form) or so_far.writer.degree_below(form) for form in forms)
    return BENT if moves else STANDS, any(so_far.writer.is_late(form) for form in forms)


def _extreme(forms: tuple[Form, ...], relation: str, so_far: Translation) -> Form:
    writer = so_far.writer
    names, scale, below = writer.alike(forms)
    degree, is_late = _bent(forms, so_far)
    best, *others = names
    for other in others:
        best = writer.let(f"{best} if {best} {relation} {other} else {other}", degree, is_late=is_late)
    return _under(best, scale, below)


def _under(name: str, scale: Fraction, below: str | None) -> Form:
    """The form of a name or a figure."""
    if name.lstrip("-").isdecimal():
        return Form((), int(name), scale, below)
    return named(name, scale, below)


def _absolute(form: Form, so_far: Translation) -> Form:
    made = so_far.writer.single(form)
    if made.is_constant:
        return constant(abs(made.value))
    degree, is_late = _bent((made,), so_far)
    name = so_far.writer.let(f"abs({made.terms[0][0]})", degree, is_late=is_late)
    return named(name, made.scale, made.below)


def _rounded(node: Rounded, so_far: Translation) -> Form:
    """Whole steps: the form over the step is ``n a / (b below)`` with whole numbers, and floors as such."""
    writer = so_far.writer
    is_point = isinstance(node.kind, TemperaturePoint) and node.unit is not None
    zero = constant(node.unit.offset if is_point and node.unit is not None else Fraction(0))
    made = writer.single(writer.sum((so_far.form(node.of), -zero)))
    ratio = made.scale / node.step
    above = f"{writer.name_of(made.over(None))} * {ratio.numerator}"
    under = f"({ratio.denominator} * {made.below})" if made.below else f"{ratio.denominator}"
    degree, is_late = _bent((made,), so_far)
    text = f"-(-({above}) // {under})" if node.upward else f"({above}) // {under}"
    steps = named(writer.let(text, degree, is_late=is_late), node.step)
    return writer.sum((steps, zero))


def _count(node: Count, so_far: Translation) -> Form:
    tests = tuple(so_far.test(condition) for condition in node.conditions)
    text = " + ".join(f"({test.text})" for test in tests)
    degree = BENT if any(test.degree for test in tests) else STANDS
    return named(so_far.writer.let(f"0 + {text}", degree, is_late=any(test.is_late for test in tests)))


def _later(node: LaterDate, so_far: Translation) -> Form:
    form = so_far.form(node.date)
    if form.is_constant:
        return constant(later(form.value, node.months, node.days, node.to_month_end))
    if not node.months and not node.to_month_end:
        return so_far.writer.sum((form, constant(Fraction(node.days))))
    move = so_far.data.function("later_day", later_day)
    day = so_far.writer.at_scale(form, ONE)
    return named(
        so_far.writer.let(f"{move}({day}, {node.months}, {node.days}, {node.to_month_end})", STANDS, is_late=False)
    )


def later_day(day: int, months: int, days: int, to_month_end: bool) -> int:
    """The number of a later day."""
    return int(later(Fraction(day), months, days, to_month_end))


def _choice(node: Choice, so_far: Translation) -> Form:
    values = tuple(case.value for case in node.cases)
    if node.otherwise is not None:
        values = (*values, node.otherwise)
    forms = tuple(so_far.form(value) for value in values)
    names, scale, below = so_far.writer.alike(forms)
    tests = tuple(so_far.test(case.guard) for case in node.cases)
    cases = tuple(zip(names, tests, strict=False))
    if node.otherwise is None:
        cases = cases[:-1]
    text = "".join(f"{name} if {test.text} else " for name, test in cases) + names[-1]
    moves = any(test.degree for test in tests)
    degree, is_late = _bent(forms, so_far)
    late = is_late or any(test.is_late for test in tests)
    if not cases:
        return _under(names[-1], scale, below)
    return named(so_far.writer.let(text, BENT if moves else degree, is_late=late), scale, below)
