"""Where a statement stopped making sense -> the one problem to report for it."""

from __future__ import annotations

from grammar.diagnostics.problem import Problem
from grammar.reading.parsing import Halt
from grammar.reading.statements import Passage
from grammar.text import SourceText


def mistake(halt: Halt, passage: Passage, source: SourceText) -> Problem:
    """The problem at the place where reading had to stop."""
    at = passage.start + halt.at
    end = at + (len(halt.found) if halt.found else 1)
    return Problem("201", source.span(at, min(end, len(source.text))), {"found": source.text[at:end]})
