"""A small sheet and what is put on it, resolved for an airframe and a day, for the tests of layers."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from engine.evaluation.exact import evaluate
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult, LimitResult
from engine.resolution.reading import read_together
from engine.resolution.resolving import Resolved, resolve
from engine.resolution.selecting import Asked
from grammar.diagnostics.rendering import one_line
from grammar.sheet import Limit, Origin, Sheet

SHEET = """\
sheet corrin_t2 revision 3 "Corrin T2 light gyroplane"
document fm "Corrin T2 flight manual, CT2-FM, issue 4"
datum "rear face of the nose bulkhead; arms positive aft"
chord from 800 mm length 1000 mm source fm "1.5"
fact engine is one of standard, boosted source fm "1.4"
fact pod_fitted is yes or no source fm "1.5"
given airfield is one of hard, grass
load front_seat "Front seat" from 0 kg to 130 kg arm 610 mm source fm "6.3"
load rear_seat "Rear seat" from 0 kg to 130 kg arm 1480 mm source fm "6.3"
load locker "Locker" from 0 kg to 20 kg arm 1600 mm assumed empty source fm "6.3"
fuel main_tank "Main tank" from 0 L to 80 L density 0.72 kg/L arm 1390 mm source fm "6.4"
let seats = front_seat + rear_seat
table by_locker of locker in kg gives kg source fm "5.2"
  | locker | by_locker |
  |      0 |       220 |
  |     20 |       200 |
envelope box of cg in mm against mass in kg source fm "6.2"
  |   cg | mass |
  |  900 |  290 |
  |  900 |  540 |
  | 1400 |  540 |
  | 1400 |  290 |
limit max_takeoff_mass "Maximum take-off mass"
  at takeoff
  mass at most (500 kg when engine is standard, 540 kg when engine is boosted)
  source fm "2.3"
limit seats_and_locker "Seats, less with the locker loaded" seats at most by_locker(locker) source fm "2.4"
limit balance "Balance" at takeoff (cg, mass) inside box source fm "6.2"
limit chord_share "Share of the chord" at takeoff cg_percent_mac at most 60 %MAC source fm "6.2"
limit with_pod "Front seat with the pod" front_seat at most 110 kg when pod_fitted is yes source fm "2.6"
caution soft_field "Heavy on grass" at takeoff mass at most 480 kg when airfield is grass source fm "5.4"
"""

LOADED = {
    "empty_mass": "288 kg",
    "empty_arm": "1260 mm",
    "engine": "boosted",
    "pod_fitted": "no",
    "airfield": "hard",
    "front_seat": "82 kg",
    "rear_seat": "74 kg",
    "locker": "0 kg",
    "main_tank": "60 L",
}
"""A loading that is within every limit of the sheet."""


def supplement(name: str, *statements: str, clauses: str = "", revision: int = 1) -> str:
    """A supplement to the sheet with its document, called ``s``."""
    heading = f'supplement {name} revision {revision} to corrin_t2 "Supplement"{_lines(clauses)}\n'
    return heading + 'document s "A supplement to the manual"\n' + _statements(statements)


def order(*statements: str, clauses: str = "", name: str = "local", revision: int = 1) -> str:
    """An order to the sheet with its document, called ``o``."""
    heading = f'order {name} revision {revision} to corrin_t2 "Order"{_lines(clauses)}\n'
    return heading + f'document {name}_o "Quillmere order"\n' + _statements(statements)


WEEK = 'effective 2026-06-01; until 2026-06-07; airframe "QF-COB"'


def permit(*statements: str, clauses: str = WEEK, name: str = "ferry") -> str:
    """A permit to the sheet with its document, called ``p``."""
    heading = f'permit {name} revision 1 to corrin_t2 "Permit"{_lines(clauses)}\n'
    return heading + 'document p "A permit"\n' + _statements(statements)


def _lines(clauses: str) -> str:
    return "".join(f"\n  {clause}" for clause in clauses.split("; ") if clause)


def _statements(statements: tuple[str, ...]) -> str:
    return "".join(f"{one}\n" for one in statements)


def day_number(day: str) -> Fraction:
    """The number of a day, by its date."""
    return Fraction(date.fromisoformat(day).toordinal())


def put_on(*layers: str, sheet: str = SHEET, day: str | None = "2026-06-03", airframe: str | None = None,
           **record: str) -> Resolved:  # fmt: skip
    """The sheet resolved with these files for an airframe on a day."""
    texts = {"sheet.limits": sheet} | {f"layer_{at}.limits": text for at, text in enumerate(layers)}
    asked = Asked(None if day is None else day_number(day), airframe, record)
    return resolve(texts, "corrin_t2", asked)


def resolved_sheet(resolved: Resolved) -> Sheet:
    """The sheet that resolving came to; problems fail the test."""
    assert resolved.sheet is not None, [one_line(problem) for problem in resolved.problems]
    return resolved.sheet


def codes(resolved: Resolved) -> list[str]:
    """The problems of resolving, by code."""
    return [problem.code for problem in resolved.problems]


def read_codes(*layers: str, sheet: str = SHEET) -> list[str]:
    """The problems of reading the sheet and these files together, by code."""
    texts = {"sheet.limits": sheet} | {f"layer_{at}.limits": text for at, text in enumerate(layers)}
    return [problem.code for each in read_together(texts).problems.values() for problem in each]


def check(resolved: Resolved, **stated: str) -> CheckResult:
    """How the resolved sheet comes out for the usual loading and what is stated besides."""
    sheet = resolved_sheet(resolved)
    known = {item.name for item in sheet.inputs}
    usual = {name: value for name, value in LOADED.items() if name in known}
    return evaluate(sheet, read_loading(sheet, usual | stated))


def verdict(resolved: Resolved, limit: str, **stated: str) -> str:
    """How one limit of the resolved sheet comes out."""
    return result_of(check(resolved, **stated), limit).verdict.value


def result_of(result: CheckResult, limit: str) -> LimitResult:
    """How one limit came out."""
    return next(each for each in result.limits if each.limit.name == limit)


def limit_of(resolved: Resolved, name: str) -> Limit:
    """One limit of the resolved sheet."""
    return next(limit for limit in resolved_sheet(resolved).limits if limit.name == name)


def origin_of(resolved: Resolved, name: str) -> Origin:
    """Where a statement of the resolved sheet comes from."""
    return next(origin for origin in resolved_sheet(resolved).origins if origin.name == name)
