"""The expressions that the language itself makes: inputs read once, figures, sums, products, named values."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from grammar import sheet
from grammar.checking.context import Context
from grammar.checking.scope import Scope
from grammar.checking.vocabulary import STAGE_WORDS
from grammar.text import Span
from grammar.units import Unit


def read(scope: Scope, name: str, span: Span) -> sheet.Read:
    """The value of an input; one expression for each input of the sheet."""
    key = (name, None, None)
    found = scope.instances.get(key)
    if isinstance(found, sheet.Read):
        return found
    item = scope.inputs[name]
    made = sheet.Read(span=item.span or span, slot=scope.slot(), kind=item.kind, unit=item.unit, input=item)
    scope.instances[key] = made
    return made


def constant(scope: Scope, value: Fraction, unit: Unit, span: Span) -> sheet.Constant:
    """A figure of the language itself."""
    return sheet.Constant(span=span, slot=scope.slot(), kind=sheet.Measure(unit.dimension), unit=unit, value=value)


def option(scope: Scope, chooser: sheet.Expression, word: str, span: Span) -> sheet.Condition:
    """That an input is one of its choices."""
    constant_word = sheet.Constant(span=span, slot=scope.slot(), kind=chooser.kind, unit=None, value=word)
    return sheet.Same(span=span, slot=scope.slot(), left=chooser, right=constant_word)


def choice(
    scope: Scope, cases: list[tuple[sheet.Condition, sheet.Expression]], otherwise: sheet.Expression, span: Span
) -> sheet.Choice:
    """A guarded choice with an end."""
    return sheet.Choice(
        span=span,
        slot=scope.slot(),
        kind=otherwise.kind,
        unit=otherwise.unit,
        cases=tuple(sheet.Case(guard, value) for guard, value in cases),
        otherwise=otherwise,
    )


def sum_of(scope: Scope, terms: list[sheet.Expression], unit: Unit, span: Span) -> sheet.Sum:
    """The sum of several values."""
    return sheet.Sum(
        span=span,
        slot=scope.slot(),
        kind=sheet.Measure(unit.dimension),
        unit=unit,
        terms=tuple((1, term) for term in terms),
    )


def product(
    scope: Scope, left: sheet.Expression, right: sheet.Expression, unit: Unit, span: Span
) -> sheet.Product:
    """One value times another."""
    kind = sheet.Measure(unit.dimension)
    return sheet.Product(span=span, slot=scope.slot(), kind=kind, unit=unit, left=left, right=right)


def quotient(
    scope: Scope, dividend: sheet.Expression, divisor: sheet.Expression, unit: Unit, span: Span
) -> sheet.Quotient:
    """One value divided by another, which is never zero."""
    kind = sheet.Measure(unit.dimension)
    return sheet.Quotient(span=span, slot=scope.slot(), kind=kind, unit=unit, dividend=dividend, divisor=divisor)


def named(
    scope: Scope,
    name: str,
    label: str,
    context: Context,
    unit: Unit,
    body: Callable[[], sheet.Expression],
    span: Span,
) -> sheet.Expression:
    """A built-in value under its name at the stage of the context, made once for each."""
    stage = context.stage or sheet.Stage.RAMP
    key = (f"{name} as stated" if context.as_stated else name, stage, context.sharing)
    found = scope.instances.get(key)
    if isinstance(found, sheet.Named):
        return found
    made = sheet.Named(
        span=span,
        kind=sheet.Measure(unit.dimension),
        unit=unit,
        name=name,
        label=f"{label} {STAGE_WORDS[stage]}{', as stated' if context.as_stated else ''}",
        stage=stage,
        body=body(),
        source=None,
        is_built_in=True,
        slot=scope.slot(),
    )
    scope.instances[key] = made
    return made
