"""The officer's own line as typed, with the exact words marked beneath."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from itertools import accumulate
from typing import Final

from grammar.diagnostics.lettering import columns, shown
from grammar.text import SourceText, Span

ROOM: Final = 84
"""The most columns that an excerpt takes; a longer line is cut on one side or both."""

CUT: Final = "…"
"""What stands where a line was cut."""

MARK: Final = "="
"""What stands beneath the words meant."""

GAP: Final = "+"
"""What stands beneath the place where something is missing."""

_TAB: Final = 4
_LEAD: Final = ROOM // 3


@dataclass(frozen=True, slots=True)
class Excerpt:
    """One line of a sheet and the line of marks that goes beneath it."""

    line: str
    marks: str


def excerpt(source: SourceText, span: Span) -> Excerpt:
    """The line on which ``span`` begins, cut to a terminal's width, with the span marked on that line."""
    line = source.line(span.line)
    first = min(span.column - 1, len(line))
    last = min(first + max(span.end - span.start, 0), len(line))
    # A line may be a megabyte long: only what can come into view is measured.
    begin = max(0, first - ROOM)
    end = first + 2 * ROOM
    cells = _cells(line[begin:end])
    left, right = _window(_edges(cells), first - begin, begin > 0, end < len(line))
    head = CUT if begin + left > 0 else ""
    tail = CUT if begin + right < len(line) else ""
    before = head + "".join(cells[left : first - begin])
    meant = "".join(cells[first - begin : min(last - begin, right)])
    return Excerpt(
        head + "".join(cells[left:right]) + tail,
        " " * columns(before) + (MARK * max(columns(meant), 1) if last > first else GAP),
    )


def _cells(line: str) -> list[str]:
    """Each character of the line as it is shown: a tab as spaces to the next stop, control characters escaped."""
    cells: list[str] = []
    at = 0
    for letter in line:
        cell = " " * (_TAB - at % _TAB) if letter == "\t" else shown(letter)
        cells.append(cell)
        at += columns(cell)
    return cells


def _edges(cells: list[str]) -> list[int]:
    """The column at which each cell begins, and the one behind the last."""
    return [0, *accumulate(columns(cell) for cell in cells)]


def _window(edges: list[int], first: int, is_cut_left: bool, is_cut_right: bool) -> tuple[int, int]:
    """Which cells to show: from one to another, about a third of the room before the first marked one."""
    if edges[-1] <= ROOM - is_cut_left - is_cut_right:
        return 0, len(edges) - 1
    most = ROOM - 2 * len(CUT)
    begin = min(max(edges[first] - _LEAD, 0), max(edges[-1] - most, 0))
    left = min(bisect_left(edges, begin), first)
    right = bisect_right(edges, edges[left] + most) - 1
    return left, right
