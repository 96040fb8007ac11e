"""From the text of a sheet and what is stated to the answer, by the whole pipeline, for the outside checks."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from engine.evaluation.exact import evaluate
from engine.evaluation.loading import Loading
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult, LimitResult, Margin
from grammar.diagnostics.rendering import one_line
from grammar.pipeline import read_sheet
from grammar.sheet import Condition, Expression, Named, Sheet, children
from grammar.units import known_unit

_FRONT = """
sheet outside_check revision 1 "{title}"
  effective 2026-01-01

document book "{title}"

datum "as printed in the book; arms positive aft"

"""


def page(title: str, statements: str) -> str:
    """A sheet whose statements, like its title, come from one published book."""
    return _FRONT.lstrip("\n").format(title=title) + statements.strip() + "\n"


def read(text: str) -> Sheet:
    """The checked sheet, which must be free of problems of any severity, warnings included."""
    return _read(text)


@lru_cache(maxsize=256)
def _read(text: str) -> Sheet:
    outcome = read_sheet(text, "outside.limits")
    assert not outcome.problems, "\n".join(one_line(one) for one in outcome.problems)
    assert outcome.sheet is not None
    return outcome.sheet


def named_values(sheet: Sheet) -> Iterator[Named]:
    """Every value with a name (a ``let``, mass, cg and the like) that a limit of the sheet makes use of."""
    waiting: list[Expression | Condition] = []
    for limit in sheet.limits:
        waiting.append(limit.claim)
        if limit.applies_when is not None:
            waiting.append(limit.applies_when)
    while waiting:
        node = waiting.pop()
        if isinstance(node, Named):
            yield node
        waiting.extend(children(node))


@dataclass(frozen=True)
class Answer:
    """An answer, asked for by the names that the sheet uses."""

    result: CheckResult

    def value(self, name: str, unit: str, at: str | None = None) -> Fraction:
        """The value of a ``let``, or of a built-in such as cg at a stage, in a unit."""
        for node in named_values(self.result.sheet):
            if node.name == name and (node.stage.value if node.stage else None) == at:
                held = self.result.values[node.slot]
                assert isinstance(held, Fraction), f"{name}: {held}"
                shown = known_unit(unit)
                assert getattr(node.kind, "dimension", shown.dimension) == shown.dimension, f"{name} is no {unit}"
                return shown.from_base(held)
        raise AssertionError(f"no limit of the sheet makes use of {name} {at or ''}")

    def limit(self, name: str) -> LimitResult:
        """How a limit came out."""
        return next(one for one in self.result.limits if one.limit.name == name)

    def verdict(self, name: str | None = None) -> str:
        """The verdict of a limit, or of the whole sheet."""
        return (self.limit(name) if name else self.result).verdict.value

    def margin(self, name: str) -> Margin:
        """The tightest margin of a limit."""
        return self.limit(name).margins[0]

    def over(self, name: str, unit: str) -> Fraction:
        """By how much a limit is passed, in a unit; negative where there is room."""
        return -self.margin(name).room / known_unit(unit).factor


def check(sheet: Sheet | str, **stated: str | Fraction) -> Answer:
    """The answer to a request: JSON as a booking system writes it.

    A Fraction goes in as it is, in base units: for an arm or a mass that no finite decimal says.
    """
    checked = read(sheet) if isinstance(sheet, str) else sheet
    written = {name: value for name, value in stated.items() if isinstance(value, str)}
    exact = {name: value for name, value in stated.items() if isinstance(value, Fraction)}
    loading = read_loading(checked, json.dumps(written))
    return Answer(evaluate(checked, Loading({**loading.stated, **exact})))
