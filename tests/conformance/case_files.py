"""The conformance cases: data files that any interpretation of the language can be held to."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Any

from tests.reference.unit_table import factor

HERE = Path(__file__).parent
CASES = HERE / "cases"
SHEETS = HERE / "sheets"
SCHEMA = HERE / "case.schema.json"

WAITS_FOR = {"missing": "missing", "out_of_range": "out of range", "out_of_table": "out of table"}
"""The members of an expected limit that say what an undetermined verdict waits for."""


@dataclass(frozen=True)
class LimitAnswer:
    """How an interpretation says that one limit came out; amounts in base units.

    ``margins`` may be absent where an interpretation does not work them out, as may ``waits_for`` and ``at``.
    """

    verdict: str
    margins: Mapping[str, Fraction] | None = None
    waits_for: frozenset[tuple[str, str]] | None = None
    at: Fraction | None = None


@dataclass(frozen=True)
class Answer:
    """What an interpretation says of a case: ``values`` are the values it has a name and a stage for."""

    verdict: str
    limits: Mapping[str, LimitAnswer]
    values: Mapping[str, Fraction] = field(default_factory=dict)


@dataclass(frozen=True)
class Case:
    """One case of a file."""

    topic: str
    written: Mapping[str, Any]

    @property
    def name(self) -> str:
        return f"{self.topic}: {self.written['name']}"

    @property
    def sheet_name(self) -> str:
        return self.written.get("sheet_file", f"{self.name}.limits")

    @property
    def sheet(self) -> str:
        """The text of the sheet."""
        if "sheet_file" in self.written:
            return (SHEETS / self.written["sheet_file"]).read_text(encoding="utf-8")
        return "\n".join(self.written["sheet"]) + "\n"

    @property
    def loading(self) -> Mapping[str, str]:
        return self.written["loading"]

    @property
    def expect(self) -> Mapping[str, Any]:
        return self.written["expect"]

    @property
    def open_point(self) -> str | None:
        """Why the program does not give the answer yet, if it does not."""
        return self.written.get("open")

    @property
    def working(self) -> Sequence[str]:
        return self.written.get("working", ())

    @property
    def fuel_states(self) -> frozenset[Fraction]:
        """The amounts burned that the case names, where a limit is tightest or broken."""
        limits = self.expect["limits"].values()
        return frozenset(amount(each[key]) for each in limits for key in ("at", "witness") if key in each)

    @property
    def published(self) -> Sequence[Mapping[str, str]]:
        return self.written.get("published", ())


def all_cases() -> list[Case]:
    """Every case of every file, in the order of the files' names."""
    return [
        Case(path.stem, written)
        for path in sorted(CASES.glob("*.json"))
        for written in json.loads(path.read_text(encoding="utf-8"))["cases"]
    ]


def amount(text: str) -> Fraction:
    """An expected figure in base units: a decimal or a fraction, with its unit or without."""
    number, _, unit = text.partition(" ")
    return Fraction(number) * (factor(unit) if unit else 1)


def differences(case: Case, answer: Answer) -> Iterator[str]:
    """Every way in which an answer is not the one expected, in words."""
    wanted = case.expect.get("verdict", answer.verdict)
    if answer.verdict != wanted:
        yield f"the sheet is {answer.verdict}, expected {wanted}"
    for name, expected in case.expect["limits"].items():
        if name not in answer.limits:
            yield f"{name} has no answer"
        else:
            yield from (f"{name}: {what}" for what in _limit_differences(expected, answer.limits[name]))
    for name, text in case.expect.get("values", {}).items():
        if answer.values.get(name) != amount(text):
            yield f"{name} is {answer.values.get(name)}, expected {amount(text)}"


def _limit_differences(expected: Mapping[str, Any], answer: LimitAnswer) -> Iterator[str]:
    if answer.verdict != expected["verdict"]:
        yield f"{answer.verdict}, expected {expected['verdict']}"
    yield from _margin_differences(expected, answer)
    named = frozenset((kind, name) for key, kind in WAITS_FOR.items() for name in expected.get(key, ()))
    if named and answer.waits_for is not None and named != answer.waits_for:
        yield f"waits for {sorted(answer.waits_for)}, expected {sorted(named)}"
    if "at" in expected and answer.at is not None and answer.at != amount(expected["at"]):
        yield f"tightest at {answer.at}, expected {amount(expected['at'])}"


def _margin_differences(expected: Mapping[str, Any], answer: LimitAnswer) -> Iterator[str]:
    margins = answer.margins
    if margins is None:
        return
    if "margin" in expected and min(margins.values(), default=None) != amount(expected["margin"]):
        yield f"margins {dict(margins)}, expected {amount(expected['margin'])}"
    for side, text in expected.get("margins", {}).items():
        if margins.get(side) != amount(text):
            yield f"{side} is {margins.get(side)}, expected {amount(text)}"
