"""A sheet's text and the places in it."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of a sheet's text: which file, which line and column it begins at, and its two offsets.

    Lines and columns count from 1, offsets from 0; ``end`` is the offset behind the last character.
    """

    file: str
    line: int
    column: int
    start: int
    end: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"

    def to(self, last: Span) -> Span:
        """The span that reaches from the start of this one to the end of ``last``, in the same file."""
        return Span(self.file, self.line, self.column, self.start, last.end)


@dataclass(frozen=True, slots=True)
class SourceText:
    """The text of one file with its name, able to say on which line an offset lies."""

    file: str
    text: str
    line_starts: tuple[int, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        starts = [0]
        starts.extend(at + 1 for at, letter in enumerate(self.text) if letter == "\n")
        object.__setattr__(self, "line_starts", tuple(starts))

    def span(self, start: int, end: int) -> Span:
        """The span from offset ``start`` to offset ``end``."""
        line = bisect_right(self.line_starts, start)
        return Span(self.file, line, start - self.line_starts[line - 1] + 1, start, end)

    def line(self, number: int) -> str:
        """The text of a line, counted from 1, without its line ending."""
        start = self.line_starts[number - 1]
        end = self.line_starts[number] if number < len(self.line_starts) else len(self.text)
        return self.text[start:end].rstrip("\r\n")
