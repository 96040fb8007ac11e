"""``burthen demo``: the invented Quillmere Flying Group, its bookings checked, one refusal explained in full."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Final

from engine.command_line.files import NOT_UNDERSTOOD, CannotRead, complain, write_text
from engine.evaluation.exact import Plan, evaluate_planned, plan_of
from engine.evaluation.proving import read_and_prove
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult, LimitResult
from engine.explanation.caution import CAUTION
from engine.explanation.sentences import sentences
from engine.explanation.text import print_answer
from grammar.sheet import Verdict, Weight
from limits_demo import Airframe, Booking, bookings, fleet, sheet_names, sheet_text

if TYPE_CHECKING:
    from rich.console import Console
    from rich.table import Table

SHOWN_IN_FULL: Final = "front_seat_max"
"""The limit whose breaking is explained in full: the one that is hardest to keep in one's head."""

_MARKS: Final = {Verdict.WITHIN: "=", Verdict.OUTSIDE: "x", Verdict.UNDETERMINED: "?", Verdict.NOT_APPLICABLE: "-"}
_STYLES: Final = {Verdict.WITHIN: "green", Verdict.OUTSIDE: "bold red", Verdict.UNDETERMINED: "bold magenta"}


def run(into: Path | None) -> int:
    """Check every booking of the group and print the answers; write the files for trying on if asked."""
    from rich.console import Console

    console = Console(highlight=False, soft_wrap=not sys.stdout.isatty())
    aircraft = {airframe.registration: airframe for airframe in fleet()}
    answers = list(_answers(aircraft))
    _introduce(console, len(aircraft), len(answers))
    console.print(_table(answers))
    _explain_one(console, answers)
    if into is None:
        _suggest(console, Path("quillmere"), is_written=False)
        return 0
    try:
        _write(into, aircraft)
    except CannotRead as why:
        complain(str(why))
        return NOT_UNDERSTOOD
    _suggest(console, into, is_written=True)
    return 0


def _answers(aircraft: dict[str, Airframe]) -> Iterator[tuple[Booking, CheckResult]]:
    plans = {name: _plan(name) for name in sheet_names()}
    for booking in bookings():
        airframe = aircraft[booking.airframe]
        plan = plans[airframe.sheet]
        yield booking, evaluate_planned(plan, read_loading(plan.sheet, booking.stated(airframe)))


def _plan(name: str) -> Plan:
    sheet = read_and_prove(sheet_text(name), f"{name}.limits").sheet
    if sheet is None:
        raise ValueError(f"the demonstration sheet {name} does not read")
    return plan_of(sheet)


def _introduce(console: Console, airframes: int, asked: int) -> None:
    console.print("The Quillmere Flying Group (invented: load no real aircraft by any of this)", style="bold")
    console.print(
        f"{airframes} airframes of {len(sheet_names())} types, {asked} bookings, each checked exactly against its "
        "type's limit sheet. x refused, ? cannot be told, = within.\n"
    )


def _table(answers: list[tuple[Booking, CheckResult]]) -> Table:
    from rich import box
    from rich.table import Table
    from rich.text import Text

    table = Table(box=box.SIMPLE, pad_edge=False, padding=(0, 1))
    for heading in ("booking", "airframe", "day", "answer", "what decides"):
        table.add_column(heading, no_wrap=heading != "what decides")
    for booking, result in answers:
        answer = Text(f"{_MARKS[result.verdict]} {result.verdict.value}", style=_STYLES.get(result.verdict, ""))
        table.add_row(booking.id, booking.airframe, str(booking.date), answer, Text(_what_decides(result)))
    return table


def _what_decides(result: CheckResult) -> str:
    """The limits that make the verdict, or for a load within its limits the tightest of them."""
    writer = sentences(result)
    making = [each for each in result.limits if each.verdict is result.verdict and _is_limit(each)]
    if result.verdict is not Verdict.WITHIN:
        first, others = making[0], len(making) - 1
        return writer.finding(first) + (f"; and {others} more" if others else "")
    tightest = min((each for each in making if _share(each) is not None), key=_share_or_all, default=None)
    return "" if tightest is None else f"tightest: {writer.finding(tightest)}"


def _is_limit(each: LimitResult) -> bool:
    return each.limit.weight is Weight.LIMIT


def _share(each: LimitResult) -> Fraction | None:
    """The least room as a share of its bound, where a share means something."""
    return min((margin.share for margin in each.margins if margin.share is not None), default=None)


def _share_or_all(each: LimitResult) -> Fraction:
    share = _share(each)
    return Fraction(1) if share is None else share


def _explain_one(console: Console, answers: list[tuple[Booking, CheckResult]]) -> None:
    for booking, result in answers:
        if SHOWN_IN_FULL in _broken(result):
            console.print(f"\nBooking {booking.id} in full: {booking.purpose}", style="bold")
            console.print()
            print_answer(result, console)
            return


def _broken(result: CheckResult) -> set[str]:
    return {each.limit.name for each in result.limits if each.verdict is Verdict.OUTSIDE}


# ---- files to try on


def _write(into: Path, aircraft: dict[str, Airframe]) -> None:
    """Write the sheets, the bookings and the airframe's record for each booking. Errors: CannotRead."""
    for folder in (into, into / "records", into / "bookings"):
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as problem:
            raise CannotRead(f"{folder} cannot be made: {problem.strerror}.") from None
    for name in sheet_names():
        write_text(into / f"{name}.limits", sheet_text(name))
    for booking in bookings():
        record = aircraft[booking.airframe].record_on(booking.date)
        write_text(into / "records" / f"{booking.id}.json", json.dumps(record, indent=2) + "\n")
        write_text(into / "bookings" / f"{booking.id}.json", json.dumps(booking.request(), indent=2) + "\n")


def _suggest(console: Console, into: Path, *, is_written: bool) -> None:
    booking = next(one for one in bookings() if one.airframe == fleet()[0].registration)
    sheet, asked = into / f"{fleet()[0].sheet}.limits", into / "bookings" / f"{booking.id}.json"
    record = into / "records" / f"{booking.id}.json"
    console.print("\nTry next", style="bold")
    if not is_written:
        console.print(f"  burthen demo --into {into}        (writes these sheets and bookings as files)")
    check = f"burthen check {sheet} {asked} --airframe {record}"
    for line in (
        check,
        f"{check} nose_locker=8kg front_seat=98kg",
        f"{check} --why {SHOWN_IN_FULL}",
        f"burthen read {sheet}        (change a figure in it first)",
    ):
        console.print(f"  {line}", soft_wrap=True)
    if is_written:
        console.print(f"\n{CAUTION}")
