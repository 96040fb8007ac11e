"""Where a check writes down the problems it finds."""

from __future__ import annotations

from dataclasses import dataclass, field

from grammar.diagnostics.problem import Elsewhere, Mend, Problem
from grammar.text import SourceText, Span


@dataclass(slots=True)
class Notebook:
    """The problems found so far in one file. One cause is written down once."""

    source: SourceText
    problems: list[Problem] = field(default_factory=list)
    _seen: set[tuple[str, int, int]] = field(default_factory=set)

    def write(
        self,
        code: str,
        span: Span,
        *,
        elsewhere: tuple[Elsewhere, ...] = (),
        suggestion: str | None = None,
        mend: Mend | None = None,
        **facts: str,
    ) -> None:
        """Write a problem down, unless the same one is there already for the same words."""
        key = (code, span.start, span.end)
        if key not in self._seen:
            self._seen.add(key)
            self.problems.append(Problem(code, span, facts, elsewhere, suggestion, mend))

    def typed(self, span: Span) -> str:
        """The words at a span as the officer typed them, on one line."""
        return " ".join(self.source.text[span.start : span.end].split())
