"""The kinds of limitation that manuals print: each as a sheet that can be read aloud, with cases worked by hand.

Beside each sheet stands a file of cases. A kind may be said in several *ways*, each with files of its own; a case
counts for all of them unless it names some. Figures and aircraft are invented.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from engine.evaluation.exact import evaluate
from engine.evaluation.loading import Loading
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult, LimitResult, Margin
from engine.explanation.headlines import sides
from engine.resolution.resolving import Resolved, resolve
from engine.resolution.selecting import Asked
from grammar.sheet import CalendarDate, Measure, Role, Sheet, TemperaturePoint, Verdict
from grammar.units import PURE, known_unit
from tests.reference.unit_table import factor

SHEETS = Path(__file__).parent / "sheets"
LISTED = 29
"""The kinds up to this number were found by going through manuals; those beyond it are odder still."""

RECORD = (Role.WEIGHING, Role.FACT)
"""What an airframe's record states. It may know more of the airframe than a sheet asks for."""


@dataclass(frozen=True)
class Case:
    """One row of a kind's table, for one way of saying it."""

    kind: Kind
    way: str
    written: Mapping[str, Any]

    def __str__(self) -> str:
        way = f" ({self.way})" if self.way else ""
        return f"{self.kind}{way}: {self.written['inputs']}"

    @property
    def files(self) -> Mapping[str, str]:
        return self.kind.files(self.way)

    @property
    def record(self) -> Mapping[str, str]:
        return self.written.get("record", {})

    @property
    def request(self) -> Mapping[str, str]:
        return self.written["request"]

    @property
    def limits(self) -> Mapping[str, Mapping[str, str | None]]:
        """What is expected of each limit named; the first is the one that the working speaks of."""
        return self.written["limits"]


@dataclass(frozen=True)
class Kind:
    """A kind of limitation: the rule in a manual's words, the ways of saying it, and its cases."""

    name: str
    written: Mapping[str, Any]

    def __str__(self) -> str:
        return self.name

    @property
    def number(self) -> int:
        return self.written["kind"]

    @property
    def instance(self) -> str:
        return self.written["instance"]

    @property
    def ways(self) -> Mapping[str, Sequence[str]]:
        return self.written["ways"]

    def files(self, way: str) -> Mapping[str, str]:
        return {name: text_of(name) for name in self.ways[way]}

    def cases(self) -> Iterator[Case]:
        for written in self.written["cases"]:
            for way in written.get("ways", self.ways):
                yield Case(self, way, written)


@cache
def text_of(file: str) -> str:
    return (SHEETS / file).read_text(encoding="utf-8")


@cache
def all_kinds() -> tuple[Kind, ...]:
    """Every kind, in the order of the numbers."""
    paths = sorted(SHEETS.glob("*.json"))
    return tuple(Kind(path.stem, json.loads(path.read_text(encoding="utf-8"))) for path in paths)


def all_cases() -> tuple[Case, ...]:
    return tuple(case for kind in all_kinds() for case in kind.cases())


# ---- what the program says of a case


def resolved(case: Case) -> Resolved:
    """The sheet that holds for the case's airframe on its day."""
    return resolved_for(case.files, case.record, case.request, case.written.get("airframe"))


def resolved_for(
    files: Mapping[str, str], record: Mapping[str, str], request: Mapping[str, str], airframe: str | None
) -> Resolved:
    """The sheet that holds for what is stated."""
    day = request.get("flight_date")
    asked = Asked(None if day is None else Fraction(date.fromisoformat(day).toordinal()), airframe, record)
    return resolve(files, name_of_sheet(files), asked)


def name_of_sheet(files: Mapping[str, str]) -> str:
    """The name in the heading of the one file that is a sheet."""
    headings = [line for text in files.values() for line in text.splitlines() if line.startswith("sheet ")]
    (heading,) = headings
    return heading.split()[1]


def answer(sheet: Sheet, record: Mapping[str, str], request: Mapping[str, str]) -> CheckResult:
    """The answer of the exact evaluation to what the record and the request state."""
    return evaluate(sheet, loading(sheet, record, request))


def loading(sheet: Sheet, record: Mapping[str, str], request: Mapping[str, str]) -> Loading:
    """What the request states, and of the record what the sheet asks for."""
    asked_for = {item.name for item in sheet.inputs if item.role in RECORD}
    known = {name: value for name, value in record.items() if name in asked_for}
    return read_loading(sheet, known, request)


# ---- what is expected against what comes out


def differences(case: Case, result: CheckResult) -> Iterator[str]:
    """Every way in which the answer is not the one worked by hand."""
    if (result.verdict is Verdict.WITHIN) is not case.written["allowed"]:
        yield f"the sheet is {result.verdict.value}, and allowed should be {case.written['allowed']}"
    if result.verdict.value != case.written["verdict"]:
        yield f"the sheet is {result.verdict.value}, expected {case.written['verdict']}"
    found = {each.limit.name: each for each in result.limits}
    for name, expected in case.limits.items():
        yield from (f"{name}: {what}" for what in _of_limit(expected, found[name]))
    for each in result.limits:
        is_kept = each.verdict in (Verdict.WITHIN, Verdict.NOT_APPLICABLE)
        if not is_kept and each.limit.name not in case.limits:
            yield f"{each.limit.name} is {each.verdict.value}, and nobody expects that"
    if "tightest" in case.written:
        state = found[next(iter(case.limits))].tightest
        if state is None or state.burned != figure(case.written["tightest"]):
            yield f"tightest at {state}, expected {case.written['tightest']} burned"


def _of_limit(expected: Mapping[str, str | None], found: LimitResult) -> Iterator[str]:
    if found.verdict.value != expected["verdict"]:
        yield f"{found.verdict.value}, expected {expected['verdict']}"
    if "margin" not in expected:
        return
    printed = expected["margin"]
    if printed is None:
        if found.margins:
            yield f"margins {found.margins}, and there should be none"
        return
    rooms = [margin.room for margin in found.margins if measures(margin, printed)]
    if min(rooms, default=None) != figure(printed):
        yield f"rooms {[str(room) for room in rooms]}, expected {printed}"


def figure(printed: str) -> Fraction:
    """A margin as written: a decimal or a fraction, with its unit or without, in base units."""
    number, _, unit = printed.partition(" ")
    return Fraction(number) * (factor(unit) if unit else 1)


def measures(margin: Margin, printed: str) -> bool:
    """Whether a margin is in the dimension of the figure that is printed."""
    unit = printed.partition(" ")[2]
    match sides(margin)[0].kind:
        case CalendarDate():
            return unit == "days"
        case TemperaturePoint():
            return unit == "K"
        case Measure(dimension):
            return unit != "days" and dimension == (known_unit(unit) if unit else PURE).dimension
        case _:
            return False
