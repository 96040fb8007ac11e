"""The outline of a sheet: every load, limit, table and source in reading order, to be held beside the manual."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from engine.explanation.caution import CAUTION
from engine.explanation.words import clean
from grammar.figures import show_with_unit
from grammar.sheet import (
    CalendarDate,
    Constant,
    Envelope,
    Expression,
    Ground,
    Input,
    Limit,
    Measure,
    Option,
    Place,
    Role,
    Sheet,
    Source,
    Stage,
    Table,
    Tank,
    TemperaturePoint,
    Weight,
)
from grammar.text import SourceText, Span
from grammar.units import PURE, known_unit

Sources = Mapping[str, SourceText]
"""The texts that a sheet was read from, by the names of their files."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the outline: what the manual calls it, what the sheet says of it, and where it stands."""

    paragraph: str
    what: str
    says: str
    span: Span


def outline(sheet: Sheet, sources: Sources) -> str:
    """The outline as plain text, in the order in which the statements were written."""
    entries = sorted(_entries(sheet, sources), key=lambda entry: (entry.span.file, entry.span.start))
    widest = max((len(entry.paragraph) for entry in entries), default=0)
    lines = [f"{entry.paragraph.ljust(widest)}  {entry.what}: {entry.says}" for entry in entries]
    return "\n".join((*_heading(sheet), "", *lines, "", *_examples(sheet), CAUTION)) + "\n"


def _heading(sheet: Sheet) -> Iterator[str]:
    header = sheet.header
    yield clean(f"{header.title}: limit sheet {header.name}, revision {header.revision}")
    for document in sheet.documents:
        yield clean(f"{document.name}: {document.title}")
    if sheet.datum is not None:
        yield clean(f"arms from: {sheet.datum}")


def _examples(sheet: Sheet) -> Iterator[str]:
    count = len(sheet.examples)
    if count:
        yield f"{count} worked {'example' if count == 1 else 'examples'} of the manual stand in the sheet."


# ---- entries


def _entries(sheet: Sheet, sources: Sources) -> Iterator[Entry]:
    for item in sheet.inputs:
        if item.span is not None and item.role in (Role.FACT, Role.GIVEN):
            yield Entry(_paragraph(item.source), _named(item.label, item.name), _kind(item), item.span)
    for place in sheet.places:
        yield _carried(place, sources, _place_details(place))
    for tank in sheet.tanks:
        yield _carried(tank, sources, _tank_details(tank, sources))
    for table in sheet.tables:
        yield Entry(_paragraph(table.source), _named(table.label, table.name), _table(table), table.span)
    for envelope in sheet.envelopes:
        label = _named(envelope.label, envelope.name)
        yield Entry(_paragraph(envelope.source), label, _envelope(envelope), envelope.span)
    for limit in sheet.limits:
        if limit.ground is Ground.STATED:
            yield _limit(limit, sources)


def _named(label: str, name: str) -> str:
    return clean(label) if label.lower() == name.replace("_", " ") else clean(f"{label} [{name}]")


def _paragraph(source: Source | None) -> str:
    return "-" if source is None else clean(f"{source.document.name} {source.paragraph}")


def _typed(span: Span, sources: Sources) -> str:
    return clean(" ".join(sources[span.file].text[span.start : span.end].split()))


def _kind(item: Input) -> str:
    match item.kind:
        case Option():
            return " or ".join(item.kind.options)
        case CalendarDate():
            return "a date"
        case Measure() | TemperaturePoint():
            return _range(item) or f"in {item.unit.name}" if item.unit and item.unit.name else "a number"


def _range(item: Input) -> str:
    if item.least is None or item.most is None or item.unit is None:
        return ""
    return f"from {show_with_unit(item.least, item.unit)} to {show_with_unit(item.most, item.unit)}"


# ---- places and tanks


def _carried(carried: Place | Tank, sources: Sources, details: Iterator[str]) -> Entry:
    item = carried.input
    assert item.span is not None
    parts = [_range(item), *_arms(carried, sources), *details]
    if item.assumed is not None:
        parts.append("assumed empty")
    return Entry(_paragraph(item.source), _named(item.label, item.name), ", ".join(parts), item.span)


def _arms(carried: Place | Tank, sources: Sources) -> Iterator[str]:
    for word, arm in (("arm", carried.arm), ("lateral arm", carried.lateral_arm)):
        if arm is not None:
            yield f"{word} {_figure(arm, sources)}"


def _figure(node: Expression, sources: Sources) -> str:
    """A printed figure, or the words of an expression as typed."""
    if isinstance(node, Constant) and isinstance(node.value, Fraction):
        return show_with_unit(node.value, node.unit or PURE)
    return _typed(node.span, sources)


def _place_details(place: Place) -> Iterator[str]:
    unit = place.input.unit or PURE
    if place.step is not None:
        yield f"in steps of {show_with_unit(place.step, unit)}"
    if place.floor_area is not None:
        yield f"floor area {show_with_unit(place.floor_area, known_unit('m2'))}"


def _tank_details(tank: Tank, sources: Sources) -> Iterator[str]:
    if tank.density is not None:
        yield f"density {_figure(tank.density, sources)}"


# ---- tables, envelopes, limits


def _table(table: Table) -> str:
    axes = " and ".join(
        f"{axis.name} {show_with_unit(axis.points[0], axis.unit)} to {show_with_unit(axis.points[-1], axis.unit)} "
        f"({len(axis.points)})"
        for axis in table.axes
    )
    printed = [value for row in table.rows for value in row]
    least, most = (show_with_unit(end, table.unit) for end in (min(printed), max(printed)))
    return f"table by {axes}, from {least} to {most}"


def _envelope(envelope: Envelope) -> str:
    corners = "; ".join(
        f"{show_with_unit(across, envelope.across.unit)} at {show_with_unit(against, envelope.against.unit)}"
        for across, against in envelope.corners
    )
    return f"envelope of {envelope.across.name} against {envelope.against.name}: {corners}"


_STAGES: Final = {
    Stage.RAMP: "at the ramp, ",
    Stage.TAKEOFF: "at take-off, ",
    Stage.LANDING: "at landing, ",
    Stage.ZERO_FUEL: "without fuel, ",
    Stage.THROUGHOUT: "throughout, ",
}


def _limit(limit: Limit, sources: Sources) -> Entry:
    stage = _STAGES[limit.stage] if limit.stage is not None else ""
    says = stage + _typed(limit.claim.span, sources)
    if limit.applies_when is not None:
        says += f", when {_typed(limit.applies_when.span, sources)}"
    if limit.note is not None:
        says += f" ({clean(limit.note)})"
    what = _named(limit.label, limit.name)
    if limit.weight is Weight.CAUTION:
        what = f"caution: {what}"
    return Entry(_paragraph(limit.source), what, says, limit.span)
