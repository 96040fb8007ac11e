"""One mistaken statement, corrected where that is certain, so that its further mistakes are found as well."""

from __future__ import annotations

from collections.abc import Iterable

from grammar.diagnostics.problem import Elsewhere, Mend, Problem
from grammar.text import SourceText, Span


class Draft:
    """A copy of a statement's text that is corrected step by step and knows where each letter came from."""

    def __init__(self, source: SourceText, start: int, end: int) -> None:
        self._source = source
        self.text = source.text[start:end]
        self._from = list(range(start, end))
        self._to = list(range(start + 1, end + 1))
        self._bounds = (start, end)

    def correct(self, mends: Iterable[Mend]) -> None:
        """Apply mends whose places are those of the file, and that do not overlap."""
        for mend in sorted(mends, key=lambda mend: mend.span.start, reverse=True):
            self._replace(self._here(mend.span.start), self._here(mend.span.end), mend.replacement, mend.span)

    def correct_here(self, mend: Mend) -> None:
        """Apply one mend whose place is that of the draft."""
        self._replace(mend.span.start, mend.span.end, mend.replacement, self.place(mend.span))

    def place(self, span: Span) -> Span:
        """The place in the file of a stretch of the draft."""
        if span.start == span.end:
            at = self._to[span.end - 1] if 0 < span.end <= len(self._to) else self._bounds[0]
            return self._source.span(at, at)
        return self._source.span(self._from[span.start], self._to[span.end - 1])

    def placed(self, problem: Problem) -> Problem:
        """A problem found in the draft, told of the file."""
        mend = problem.mend and Mend(self.place(problem.mend.span), problem.mend.replacement)
        elsewhere = tuple(Elsewhere(self.place(other.span), other.what) for other in problem.elsewhere)
        return Problem(problem.code, self.place(problem.span), problem.facts, elsewhere, problem.suggestion, mend)

    def _here(self, offset: int) -> int:
        """The draft's offset of an offset of the file that no correction has touched yet."""
        return offset - self._bounds[0]

    def _replace(self, start: int, end: int, words: str, origin: Span) -> None:
        self.text = self.text[:start] + words + self.text[end:]
        self._from[start:end] = [origin.start] * len(words)
        self._to[start:end] = [origin.end] * len(words)
