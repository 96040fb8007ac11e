"""``burthen demo``: the invented Quillmere Flying Group, its bookings checked, one refusal explained in full."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Final

from engine.command_line.files import NOT_UNDERSTOOD, CannotRead, complain, write_text
from engine.evaluation.exact import Plan, evaluate_planned, plan_of
from engine.evaluation.proving import read_and_prove
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult, LimitResult
from engine.explanation.briefs import brief
from engine.explanation.sentences import sentences
from engine.explanation.text import print_why
from grammar.sheet import Ground, Verdict, Weight
from limits_demo import Airframe, Booking, bookings, fleet, layer_names, layer_text, sheet_names, sheet_text

if TYPE_CHECKING:
    from rich.console import Console
    from rich.text import Text

SHOWN_IN_FULL: Final = "front_seat_max"
"""The limit whose breaking is explained in full: the one that is hardest to keep in one's head."""

Answer = tuple[Booking, CheckResult]

_MARKS: Final = {Verdict.WITHIN: "=", Verdict.OUTSIDE: "x", Verdict.UNDETERMINED: "?", Verdict.NOT_APPLICABLE: "-"}
_STYLES: Final = {
    Verdict.WITHIN: "green",
    Verdict.OUTSIDE: "bold red",
    Verdict.UNDETERMINED: "bold magenta",
    Verdict.NOT_APPLICABLE: "",
}
_MEANINGS: Final = {
    Verdict.WITHIN: "the tightest limit, and how much is left to it",
    Verdict.OUTSIDE: "what is broken, by how much",
    Verdict.UNDETERMINED: "not cleared, as something is not known",
}
_NARROWEST: Final = 24
"""What decides is cut to no less than this, however narrow the terminal."""


def run(into: Path | None) -> int:
    """Check every booking of the group and print the answers; write the files for trying on if asked."""
    from rich.console import Console

    console = Console(highlight=False, soft_wrap=True)
    aircraft = {airframe.registration: airframe for airframe in fleet()}
    if into is not None:
        try:
            _write(into, aircraft)
        except CannotRead as why:
            complain(str(why))
            return NOT_UNDERSTOOD
    answers = list(_answers(aircraft))
    _introduce(console, len(aircraft), answers)
    for booking, result in answers:
        console.print(_row(booking, result, console.width if console.is_terminal else None))
    _suggest(console, into, _explain_one(console, answers))
    return 0


def _answers(aircraft: dict[str, Airframe]) -> Iterator[Answer]:
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


def _introduce(console: Console, airframes: int, answers: list[Answer]) -> None:
    counts = Counter(result.verdict for _, result in answers)
    console.print("The Quillmere Flying Group (invented: load no real aircraft by any of this)", style="bold")
    console.print(
        f"{len(answers)} bookings, {airframes} airframes, {len(sheet_names())} types, each checked exactly:"
    )
    for verdict, meaning in _MEANINGS.items():
        console.print(f"  {_MARKS[verdict]} {counts[verdict]} {verdict.value}: {meaning}", style=_STYLES[verdict])
    console.print()


def _row(booking: Booking, result: CheckResult, width: int | None) -> Text:
    """A booking in one line, cut to the width of a terminal."""
    from rich.text import Text

    row = Text(f"{booking.id}  {booking.airframe}  ")
    row.append(_MARKS[result.verdict], style=_STYLES[result.verdict])
    row.append("  ")
    row.append(_what_decides(result, None if width is None else max(width - len(row), _NARROWEST)))
    return row


def _what_decides(result: CheckResult, width: int | None) -> str:
    """The limit that makes the verdict, or for a load within its limits the tightest of them."""
    making = [each for each in result.limits if each.verdict is result.verdict and _is_limit(each)]
    first = min(making, key=_prominence)
    others = len(making) - 1 if result.verdict is not Verdict.WITHIN else 0
    more = f"; {others} more" if others else ""
    return brief(sentences(result), first).fitted(None if width is None else width - len(more)) + more


def _prominence(each: LimitResult) -> tuple[bool, bool, Fraction]:
    """What the sheet states before what only ranges say, then the least room as a share of its bound."""
    shares = [margin.share for margin in each.margins if margin.share is not None]
    return each.limit.ground is not Ground.STATED, not shares, min(shares, default=Fraction(0))


def _is_limit(each: LimitResult) -> bool:
    return each.limit.weight is Weight.LIMIT


def _explain_one(console: Console, answers: list[Answer]) -> str:
    """Explain one refusal down to the paragraphs; the number of its booking."""
    booking, result = next((one, found) for one, found in answers if SHOWN_IN_FULL in _broken(found))
    console.print(f"\nWhy {booking.id} is refused ({booking.purpose})\n", style="bold", markup=False)
    print_why(result, SHOWN_IN_FULL, console)
    return booking.id


def _broken(result: CheckResult) -> set[str]:
    return {each.limit.name for each in result.limits if each.verdict is Verdict.OUTSIDE}


# ---- files to try on


def _write(into: Path, aircraft: dict[str, Airframe]) -> None:
    """Write the sheets, what builds on them, the bookings and the record for each. Errors: CannotRead."""
    for folder in (into, into / "layers", into / "records", into / "bookings"):
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as problem:
            raise CannotRead(f"{folder} cannot be made: {problem.strerror}.") from None
    for name in sheet_names():
        write_text(into / f"{name}.limits", sheet_text(name))
    for name in layer_names():
        write_text(into / "layers" / f"{name}.limits", layer_text(name))
    for booking in bookings():
        record = aircraft[booking.airframe].record_on(booking.date)
        write_text(into / "records" / f"{booking.id}.json", json.dumps(record, indent=2) + "\n")
        write_text(into / "bookings" / f"{booking.id}.json", json.dumps(booking.request(), indent=2) + "\n")


def _suggest(console: Console, into: Path | None, booking: str) -> None:
    """What to try next, with the booking that was explained."""
    folder = Path("quillmere") if into is None else into
    airframe = next(one.airframe for one in bookings() if one.id == booking)
    name = next(one.sheet for one in fleet() if one.registration == airframe)
    sheet, asked = folder / f"{name}.limits", folder / "bookings" / f"{booking}.json"
    record = folder / "records" / f"{booking}.json"
    check = f"burthen check {sheet} {asked} \\\n      --airframe {record}"
    steps = [
        ("every limit of that booking:", check),
        ("the same with less in the nose locker:", f"{check} nose_locker=4kg"),
        ("why a limit came out as it did:", f"{check} --why balance"),
        ("a sheet on one page, to hold beside its manual:", f"burthen outline {sheet}"),
        ("change a figure in it, then have it read:", f"burthen read {sheet}"),
    ]
    if into is None:
        steps.insert(0, ("write these sheets, airframes and bookings as files:", f"burthen demo --into {folder}"))
    else:
        console.print(f"\nThe sheets, airframes and bookings are written in {folder}.", markup=False)
    console.print("\nTry next", style="bold")
    for what, command in steps:
        console.print(f"  {what}\n    {command}", markup=False)
