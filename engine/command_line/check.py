"""``burthen check``: one load against one sheet."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from engine.command_line.files import NOT_UNDERSTOOD, CannotRead, complain, read_text
from engine.evaluation.exact import evaluate
from engine.evaluation.proving import read_and_prove
from engine.evaluation.requests import RequestProblem, RequestRefused, read_loading
from engine.evaluation.result import CheckResult
from grammar.diagnostics.rendering import plain, report
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

    sheet: Path
    stated: tuple[str, ...]
    airframe: Path | None
    why: str | None
    as_json: bool


def run(question: Question) -> int:
    """Check the load and print the answer."""
    try:
        sheet = _sheet(question.sheet)
        result = evaluate(sheet, read_loading(sheet, *_parts(question)))
        _print(result, question)
    except CannotRead as why:
        complain(str(why))
        return NOT_UNDERSTOOD
    except RequestRefused as refused:
        complain("What was stated is not understood, so nothing was checked:")
        for problem in refused.problems:
            complain(_told(problem))
        return NOT_UNDERSTOOD
    return STATUS[result.verdict]


def _sheet(path: Path) -> Sheet:
    outcome = read_and_prove(read_text(path), str(path))
    if outcome.sheet is None:
        sources = {outcome.source.file: outcome.source}
        raise CannotRead(plain(report(outcome.source.file, outcome.problems, sources)).rstrip())
    return outcome.sheet


def _parts(question: Question) -> list[str | Mapping[str, str]]:
    """The airframe's record, then the files, then the single values: a later one replaces an earlier."""
    parts: list[str | Mapping[str, str]] = []
    if question.airframe is not None:
        parts.append(read_text(question.airframe))
    single: dict[str, str] = {}
    for entry in question.stated:
        name, equals, value = entry.partition("=")
        if equals:
            single[name.strip()] = value.strip()
        else:
            parts.append(read_text(Path(entry)))
    return [*parts, single]


def _told(problem: RequestProblem) -> str:
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
