"""An answer as text: in colour on a terminal, plain everywhere else, the words the same on both."""

from __future__ import annotations

from collections.abc import Iterable
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from engine.evaluation.result import CheckResult, LimitResult
from engine.explanation.layout import Line, Tone, full_answer
from engine.explanation.why import one_limit

if TYPE_CHECKING:
    from rich.console import Console

_STYLES: Final = {
    Tone.PLAIN: "",
    Tone.HEADING: "bold",
    Tone.GOOD: "green",
    Tone.BAD: "bold red",
    Tone.UNSURE: "bold magenta",
    Tone.WARNING: "yellow",
    Tone.QUIET: "dim",
}

_NARROWEST: Final = 40
"""Lines are folded to no less than this, however narrow the terminal."""


def full_text(result: CheckResult) -> str:
    """The whole answer as plain text, one sentence a line."""
    return _plain(full_answer(result))


def why_text(result: CheckResult, limit: str) -> str:
    """Everything about the limit of that name as plain text. Errors: KeyError when there is no such limit."""
    return _plain(one_limit(result, find_limit(result, limit)))


def print_answer(result: CheckResult, console: Console) -> None:
    """Print the whole answer: in colour and folded to the width on a terminal, else plain."""
    _print(full_answer(result), console)


def print_why(result: CheckResult, limit: str, console: Console) -> None:
    """Print everything about the limit of that name. Errors: KeyError when there is no such limit."""
    _print(one_limit(result, find_limit(result, limit)), console)


def find_limit(result: CheckResult, name: str) -> LimitResult:
    """The result of the limit of that name. Errors: KeyError when there is none."""
    for each in result.limits:
        if each.limit.name == name:
            return each
    raise KeyError(name)


def _plain(lines: Iterable[Line]) -> str:
    return "".join(" " * line.indent + line.words + "\n" for line in lines)


def _print(lines: Iterable[Line], console: Console) -> None:
    """Labels are never taken as markup: every line is a ``Text``, which holds letters and nothing else."""
    from rich.text import Text  # noqa: PLC0415  (a terminal is not always there; the import is slow)

    for line in lines:
        if not console.is_terminal:
            console.print(Text(" " * line.indent + line.words), soft_wrap=True)
            continue
        for part in _folded(line, console.width):
            console.print(Text(part, style=_STYLES[line.tone]), soft_wrap=True)


def _folded(line: Line, width: int) -> list[str]:
    """The line in pieces that fit the width, those after the first set in a little further."""
    return wrap(
        line.words,
        max(width, _NARROWEST),
        initial_indent=" " * line.indent,
        subsequent_indent=" " * (line.indent + 2),
        break_long_words=False,
        break_on_hyphens=False,
    ) or [""]
