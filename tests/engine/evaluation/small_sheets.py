"""Small sheets in the language, and what comes out of them, for the tests of the evaluation."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from engine.evaluation.exact import evaluate
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult, LimitResult, Margin, Missing, Side
from grammar.diagnostics.rendering import one_line
from grammar.pipeline import is_error, read_sheet
from grammar.sheet import Sheet
from grammar.units import known_unit

HEADER = """\
sheet small revision 1 "A small sheet"
  effective 2026-01-01
document fm "An invented flight manual"
datum "the firewall; arms positive aft"
"""


def sheet_of(statements: str) -> Sheet:
    """The checked sheet with these statements below a header; problems that are errors fail the test."""
    outcome = read_sheet(HEADER + statements, "small.limits")
    assert outcome.sheet is not None, [one_line(one) for one in outcome.problems if is_error(one)]
    return outcome.sheet


def check(sheet: Sheet, **stated: str) -> CheckResult:
    """How the sheet comes out for what is stated."""
    return evaluate(sheet, read_loading(sheet, stated))


def result_of(result: CheckResult, name: str) -> LimitResult:
    """How one limit came out."""
    return next(one for one in result.limits if one.limit.name == name)


def limit(sheet: Sheet, name: str, stated: Mapping[str, str] | None = None, **more: str) -> LimitResult:
    """How one limit of the sheet comes out for what is stated."""
    return result_of(check(sheet, **{**(stated or {}), **more}), name)


def outcome(result: LimitResult) -> str:
    """A verdict in a word."""
    return result.verdict.value


def amount(text: str) -> Fraction:
    """ "7 kg" in base units."""
    figure, _, unit = text.partition(" ")
    return Fraction(figure) * (known_unit(unit).factor if unit else 1)


def rooms(result: LimitResult) -> dict[Side, Fraction]:
    """The room on each side, of a limit with one claim."""
    found = {margin.side: margin.room for margin in result.margins}
    assert len(found) == len(result.margins)
    return found


def least(result: LimitResult) -> Margin:
    """The tightest margin."""
    return result.margins[0]


def missing(result: LimitResult) -> list[str]:
    """The names of the inputs that an undetermined limit waits for."""
    assert result.gap is not None
    return [cause.input.name for cause in result.gap.causes if isinstance(cause, Missing)]
