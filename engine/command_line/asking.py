"""What several commands share: the files of a type, what is stated, and the sheet resolved from them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Final

from engine.command_line.files import CannotRead, read_text
from engine.evaluation.proving import read_and_prove
from engine.evaluation.quantities import shortened
from engine.evaluation.requests import Stated, read_entries
from engine.resolution.resolving import read_volumes, resolve
from engine.resolution.selecting import Asked
from grammar import tree
from grammar.diagnostics.rendering import plain, report
from grammar.pipeline import is_error
from grammar.sheet import LayerKind, Sheet
from grammar.text import SourceText

FLIGHT_DATE: Final = "flight_date"
REGISTRATION: Final = "registration"
"""The entry of an airframe's record that names it: permits are for one airframe."""

_DAY: Final = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


@dataclass(frozen=True, slots=True)
class Files:
    """The sheet that was named, and the files that build on it. ``on`` is a day, where one was asked for."""

    sheet: Path
    layers: tuple[Path, ...] = ()
    on: str | None = None


@dataclass(frozen=True, slots=True)
class Whole:
    """A resolved sheet with its statements and the texts that it was read from."""

    sheet: Sheet
    file: tree.File
    sources: Mapping[str, SourceText]


def stated_entries(stated: tuple[str, ...], airframe: Path | None) -> dict[str, Stated]:
    """What is stated by the airframe's record, then the files, then the single values: a later one counts.

    Errors: CannotRead, RequestRefused.
    """
    parts: list[str | Mapping[str, str]] = []
    if airframe is not None:
        parts.append(read_text(airframe))
    single: dict[str, str] = {}
    for entry in stated:
        name, equals, value = entry.partition("=")
        if equals:
            single[name.strip()] = value.strip()
        else:
            parts.append(read_text(Path(entry)))
    return read_entries(*parts, single)


def resolved_or_refused(files: Files, entries: Mapping[str, Stated]) -> Whole:
    """The sheet as it holds for the airframe and the day. Errors: CannotRead with every problem."""
    texts = {str(path): read_text(path) for path in (files.sheet, *files.layers)}
    name = _name_of_sheet(texts, str(files.sheet))
    if name is None:
        outcome = read_and_prove(texts[str(files.sheet)], str(files.sheet))
        sources = {outcome.source.file: outcome.source}
        raise CannotRead(plain(report(outcome.source.file, outcome.problems, sources)).rstrip())
    registration = entries.get(REGISTRATION)
    asked = Asked(
        day=_asked_day(files.on) if files.on is not None else _day(entries.get(FLIGHT_DATE)),
        airframe=registration if isinstance(registration, str) else None,
        record=entries,
    )
    resolved = resolve(texts, name, asked)
    if resolved.sheet is None or resolved.file is None:
        told = [
            plain(report(file, tuple(own), resolved.sources)).rstrip()
            for file in texts
            if (own := [problem for problem in resolved.problems if problem.span.file == file])
            and any(is_error(problem) for problem in own)
        ]
        raise CannotRead("\n".join(told))
    return Whole(resolved.sheet, resolved.file, resolved.sources)


def _name_of_sheet(texts: Mapping[str, str], path: str) -> str | None:
    """The name of the sheet in the file that was named as such; None where it has no heading."""
    volumes, _ = read_volumes({path: texts[path]})
    if volumes and volumes[0].layer.kind is LayerKind.SHEET:
        return volumes[0].layer.name
    if volumes:
        kind, to = volumes[0].layer.kind.value, volumes[0].to
        article = "an" if kind == LayerKind.ORDER.value else "a"
        raise CannotRead(f"{path} is {article} {kind} to {to}. Name the sheet first and this file after --with.")
    return None


def _asked_day(written: str) -> Fraction:
    """The day that was asked for. Errors: CannotRead where there is no such day."""
    found = _day(written)
    if found is None:
        day = shortened(written) or "nothing"
        raise CannotRead(f"--on {day} is no day. Write it as year-month-day, such as 2026-05-03.")
    return found


def _day(written: Stated | None) -> Fraction | None:
    """The day of the flight, where one is stated; a day that does not exist is reported with the request."""
    if not isinstance(written, str):
        return None
    try:
        # ``fromisoformat`` would also take 20260503 and 2026-W18-7.
        if not _DAY.fullmatch(written):
            return None
        return Fraction(date.fromisoformat(written).toordinal())
    except ValueError:
        return None
