"""Bars and rows that are missing in a table or an envelope."""

from __future__ import annotations

from grammar.diagnostics.problem import Problem
from grammar.reading.correcting import line_behind
from grammar.reading.stop import Stop


def bar_at_end(stop: Stop) -> Problem | None:
    """A row whose last bar is missing. No mend: its last figure may have been cut off as well."""
    if not _in_row(stop) or not stop.gap or stop.last == "END_OF_ROW":
        return None
    return stop.problem("210", stop.line_end)


def bar_at_start(stop: Stop) -> Problem | None:
    """A row whose first bar is missing. No mend: its first figure may have been cut off as well."""
    if stop.statement not in {"table", "envelope"} or not stop.first_on_line or "VBAR" not in stop.wanted:
        return None
    return stop.problem("237") if "|" in line_behind(stop.text, stop.at) else None


def bar_within(stop: Stop) -> Problem | None:
    """Two figures of a row with no bar between them."""
    if not _in_row(stop) or stop.gap or "VBAR" not in stop.wanted or stop.last in {"VBAR", "END_OF_ROW"}:
        return None
    return stop.problem("240", stop.line_end)


def rows_missing(stop: Stop) -> Problem | None:
    """A table or an envelope without a single row."""
    return stop.problem("229", stop.line_end) if stop.ended and "VBAR" in stop.wanted else None


def _in_row(stop: Stop) -> bool:
    """Whether the last word before the stop stands in a row of a table or an envelope."""
    line = stop.text[stop.text.rfind("\n", 0, stop.after_last) + 1 : stop.after_last]
    return stop.statement in {"table", "envelope"} and line.lstrip().startswith("|")
