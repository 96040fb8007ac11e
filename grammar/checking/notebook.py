"""Where a check writes down the problems it finds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from grammar.diagnostics.problem import Elsewhere, Mend, Problem
from grammar.text import SourceText, Span


@dataclass(slots=True)
class Notebook:
    """The problems found so far. One cause is written down once.

    ``sources`` are the files checked together, by name; ``main`` is the one whose heading counts.
    """

    sources: Mapping[str, SourceText]
    main: str
    problems: list[Problem] = field(default_factory=list)
    _seen: set[tuple[str, Span]] = field(default_factory=set)

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
        key = (code, span)
        if key not in self._seen:
            self._seen.add(key)
            self.problems.append(Problem(code, span, facts, elsewhere, suggestion, mend))

    def typed(self, span: Span) -> str:
        """The words at a span as the officer typed them, on one line."""
        return " ".join(self.sources[span.file].text[span.start : span.end].split())

    def beginning(self, span: Span, length: int) -> Span:
        """The first letters of a span."""
        return self.sources[span.file].span(span.start, span.start + length)

    def top(self) -> Span:
        """The very beginning of the main file."""
        return self.sources[self.main].span(0, 0)
