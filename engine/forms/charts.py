"""The tables and envelopes of the outline, those along a list of choices included."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from engine.explanation.words import clean
from engine.forms.needs import below
from engine.forms.wording import Entry, Sources, figure, named, paragraph_of
from grammar.figures import show_with_unit
from grammar.sheet import Choice, Condition, Constant, Envelope, Same, Sheet, Table
from grammar.text import Span


def charts(sheet: Sheet, sources: Sources) -> Iterator[Entry]:
    """Every table and envelope."""
    for table in sheet.tables:
        yield Entry(paragraph_of(table.source), named(table.label, table.name), _table(table), table.span)
    yield from _tables_of_choices(sheet, sources)
    for envelope in sheet.envelopes:
        label = named(envelope.label, envelope.name)
        yield Entry(paragraph_of(envelope.source), label, _envelope(envelope), envelope.span)


def _table(table: Table) -> str:
    axes = " and ".join(
        f"{axis.name} {show_with_unit(axis.points[0], axis.unit)} to {show_with_unit(axis.points[-1], axis.unit)} "
        f"({len(axis.points)})"
        for axis in table.axes
    )
    printed = [value for row in table.rows for value in row]
    least, most = (show_with_unit(end, table.unit) for end in (min(printed), max(printed)))
    return f"table by {axes}, from {least} to {most}"


def _tables_of_choices(sheet: Sheet, sources: Sources) -> Iterator[Entry]:
    """The tables along a list of choices, which stand in the checked sheet as choices between their figures."""
    seen: set[int] = set()
    for node in below(sheet.limits):
        if isinstance(node, Choice) and isinstance(node.cases[0].value, Constant):
            entry = _table_of_choices(node, node.cases[0].value.span, sources)
            if entry is not None and entry.span.start not in seen:
                seen.add(entry.span.start)
                yield entry


def _table_of_choices(choice: Choice, printed: Span, sources: Sources) -> Entry | None:
    """The table that the figures of a choice are printed in; None where they stand in the choice itself."""
    text = sources[printed.file].text
    start = max((found.start() for found in _MARGIN.finditer(text, 0, printed.start)), default=0)
    found = _TABLE.match(text, start)
    if found is None:
        return None
    cited = _SOURCE.search(text, start)
    paragraph = "-" if cited is None else f"{cited[1]} {cited[2]}"
    label = found["label"] or found["name"].replace("_", " ")
    figures = ", ".join(f"{figure(one.value, sources)} for {_option(one.guard)}" for one in choice.cases)
    whole = Span(printed.file, printed.line, 1, start, printed.end)
    return Entry(clean(paragraph), named(label, found["name"]), f"table: {figures}", whole)


def _option(guard: Condition) -> str:
    match guard:
        case Same(right=Constant(value=str() as option)):
            return option
        case _:
            return "the other case"


_MARGIN: Final = re.compile(r"^(?=\w)", re.MULTILINE)
_TABLE: Final = re.compile(r'(?:amend )?table (?P<name>\w+)(?: "(?P<label>[^"]*)")?')
_SOURCE: Final = re.compile(r'source (\w+) "([^"]*)"')


def _envelope(envelope: Envelope) -> str:
    corners = "; ".join(
        f"{show_with_unit(across, envelope.across.unit)} at {show_with_unit(against, envelope.against.unit)}"
        for across, against in envelope.corners
    )
    return f"envelope of {envelope.across.name} against {envelope.against.name}: {corners}"
