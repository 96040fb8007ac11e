"""Answers as a page prints them: what is stated, and the lines that come out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from engine.evaluation.exact import evaluate
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult
from engine.explanation.assumptions import assumptions
from engine.explanation.layout import group_of, opening
from engine.explanation.sentences import sentences
from grammar.sheet import Sheet

STATED = "stated: "
NOTHING = "nothing"


@dataclass(frozen=True)
class Printed:
    """An answer on a page: the values stated, and every line printed beneath them."""

    stated: dict[str, str]
    lines: tuple[str, ...]


def read_printed(text: str) -> Printed:
    """The answer that a block prints. A line that is set in goes on with the line above."""
    lines: list[str] = []
    for line in text.splitlines():
        if line.startswith(" ") and lines:
            lines[-1] += " " + line.strip()
        else:
            lines.append(line.strip())
    first, *rest = lines
    if not first.startswith(STATED):
        raise ValueError(f"the first line of an answer begins with {STATED!r}")
    return Printed(_stated(first.removeprefix(STATED)), tuple(rest))


def _stated(text: str) -> dict[str, str]:
    if text == NOTHING:
        return {}
    pairs = (entry.strip().partition(" ") for entry in text.split(","))
    return {name: value for name, _, value in pairs}


def lines_of(sheet: Sheet, stated: dict[str, str]) -> tuple[str, ...]:
    """Every line that the answer for what is stated may print."""
    result = evaluate(sheet, read_loading(sheet, stated))
    return tuple(" ".join(line.split()) for line in _lines(result))


def _lines(result: CheckResult) -> Iterator[str]:
    yield next(iter(opening(result))).words
    writer = sentences(result)
    for each in result.limits:
        yield f"{group_of(each).sign} {each.limit.name}: {writer.sentence(each)}"
    for assumption in assumptions(result):
        yield f"~ {assumption.sentence}"
