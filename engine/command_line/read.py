"""``burthen read``: everything that is wrong with sheets, and the corrections that are certain."""

from __future__ import annotations

from enum import Enum
from pathlib import Path

from engine.command_line.files import NOT_UNDERSTOOD, CannotRead, complain, read_text, write_text
from engine.evaluation.proving import read_and_prove
from grammar.diagnostics.listing import as_json
from grammar.diagnostics.mending import mended, mends_of
from grammar.diagnostics.problem import Problem
from grammar.diagnostics.rendering import one_line, plain, report
from grammar.pipeline import Outcome, is_error
from grammar.text import SourceText

CANNOT_BE_PUBLISHED = 1


class Manner(Enum):
    """How problems are shown."""

    FULL = "full"
    BRIEF = "brief"
    JSON = "json"


def run(files: tuple[Path, ...], manner: Manner, *, mend: bool) -> int:
    """Read the files and print what was found; the exit status says whether all could be published."""
    outcomes: list[Outcome] = []
    status = 0
    for path in files:
        try:
            outcomes.append(_read(path, mend=mend))
        except CannotRead as why:
            complain(str(why))
            status = NOT_UNDERSTOOD
    _print(outcomes, manner)
    if status == 0 and any(is_error(problem) for outcome in outcomes for problem in outcome.problems):
        status = CANNOT_BE_PUBLISHED
    return status


def _read(path: Path, *, mend: bool) -> Outcome:
    outcome = read_and_prove(read_text(path), str(path))
    if not mend or str(path) == "-":
        return outcome
    count = len(mends_of(outcome.source, outcome.problems))
    if count == 0:
        return outcome
    text = mended(outcome.source, outcome.problems)
    write_text(path, text)
    complain(f"{path}: {count} {'correction' if count == 1 else 'corrections'} written.")
    return read_and_prove(text, str(path))


def _print(outcomes: list[Outcome], manner: Manner) -> None:
    sources: dict[str, SourceText] = {outcome.source.file: outcome.source for outcome in outcomes}
    match manner:
        case Manner.JSON:
            problems: list[Problem] = [problem for outcome in outcomes for problem in outcome.problems]
            print(as_json(problems, sources))
        case Manner.BRIEF:
            for outcome in outcomes:
                for problem in outcome.problems:
                    print(one_line(problem))
        case Manner.FULL:
            for outcome in outcomes:
                print(plain(report(outcome.source.file, outcome.problems, sources)))
