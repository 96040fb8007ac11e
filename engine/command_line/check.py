"""``burthen check``: one load against one sheet, with whatever supplements, orders and permits are on it."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from engine.command_line.asking import REGISTRATION, Files, resolved_or_refused, stated_entries
from engine.command_line.files import NOT_UNDERSTOOD, CannotRead, complain
from engine.evaluation.exact import evaluate
from engine.evaluation.requests import RequestProblem, RequestRefused, Stated, read_loading
from engine.evaluation.result import CheckResult
from grammar.diagnostics.suggestions import nearest
from grammar.sheet import Sheet, Verdict

STATUS: Final[Mapping[Verdict, int]] = {
    Verdict.WITHIN: 0,
    Verdict.NOT_APPLICABLE: 0,
    Verdict.OUTSIDE: 1,
    Verdict.UNDETERMINED: 2,
}
"""The exit status of each verdict."""


@dataclass(frozen=True, slots=True)
class Question:
    """What was asked on the command line. ``stated`` are files (or ``-``) and single values name=value."""

    files: Files
    stated: tuple[str, ...]
    airframe: Path | None
    why: str | None
    as_json: bool


def run(question: Question) -> int:
    """Check the load and print the answer."""
    try:
        entries = stated_entries(question.stated, question.airframe)
        sheet = resolved_or_refused(question.files, entries).sheet
        result = evaluate(sheet, read_loading(sheet, _for_sheet(entries, sheet)))
        _print(result, question)
    except CannotRead as why:
        complain(str(why))
        return NOT_UNDERSTOOD
    except RequestRefused as refused:
        complain("What was stated is not understood, so nothing was checked:")
        for problem in refused.problems:
            complain(told(problem))
        return NOT_UNDERSTOOD
    return STATUS[result.verdict]


def _for_sheet(entries: Mapping[str, Stated], sheet: Sheet) -> dict[str, Stated]:
    """The entries without the airframe's registration, which no limit speaks of."""
    names = {item.name for item in sheet.inputs}
    return {name: written for name, written in entries.items() if name != REGISTRATION or name in names}


def told(problem: RequestProblem) -> str:
    """A problem with a request as a line."""
    where = f"  {problem.name}: " if problem.name else "  "
    return where + str(problem)


def _print(result: CheckResult, question: Question) -> None:
    if question.as_json:
        from engine.explanation.document import explanation_document

        print(explanation_document(result).model_dump_json(indent=2))
        return
    from rich.console import Console

    from engine.explanation.text import print_answer, print_why

    console = Console(highlight=False, soft_wrap=not sys.stdout.isatty())
    if question.why is None:
        print_answer(result, console)
    else:
        _require_limit(result, question.why)
        print_why(result, question.why, console)


def _require_limit(result: CheckResult, name: str) -> None:
    names = [each.limit.name for each in result.limits]
    if name not in names:
        near = nearest(name, names)
        hint = f" Did you mean {near}?" if near else f" It has: {', '.join(names)}."
        raise CannotRead(f"The sheet has no limit called {name}.{hint}")
