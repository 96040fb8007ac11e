"""The outline of a sheet: every load, limit, table and source in reading order, to be held beside the manual."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import groupby
from textwrap import wrap
from typing import Final

from engine.explanation.caution import CAUTION
from engine.explanation.layering import day, layer_in_words
from engine.explanation.words import clean
from engine.forms.entries import entries
from engine.forms.wording import Entry, Sources
from grammar.sheet import Header, Sheet

_WIDTH: Final = 110
"""How many letters fit on a line of the page."""

_EXAMPLE: Final = re.compile(r"^example\b", re.MULTILINE)


def outline(sheet: Sheet, sources: Sources) -> str:
    """The outline as plain text, in the order in which the statements were written, file by file."""
    found = sorted(entries(sheet, sources), key=lambda entry: _place(entry, sheet))
    widest = max((len(entry.paragraph) for entry in found), default=0)
    lines = list(_heading(sheet))
    for file, group in groupby(found, key=lambda entry: entry.span.file):
        lines += ["", *_of_layer(file, sheet)]
        for entry in group:
            lines += _folded(entry, widest)
    return "\n".join((*lines, "", *_examples(sheet, sources), CAUTION)) + "\n"


def _place(entry: Entry, sheet: Sheet) -> tuple[int, str, int]:
    """Where an entry stands: the sheet itself first, then what builds on it."""
    files = [layer.file for layer in sheet.layers]
    file = entry.span.file
    return files.index(file) if file in files else len(files), file, entry.span.start


def _folded(entry: Entry, widest: int) -> list[str]:
    """An entry in lines that fit the page, set in under its own words."""
    head = entry.paragraph.ljust(widest) + "  "
    words = f"{entry.what}: {entry.says}"
    return wrap(
        words, _WIDTH, initial_indent=head, subsequent_indent=" " * (len(head) + 2), break_long_words=False,
        break_on_hyphens=False,
    )  # fmt: skip


def _heading(sheet: Sheet) -> Iterator[str]:
    header = sheet.header
    yield clean(f"{header.title}: limit sheet {header.name}, revision {header.revision}{_days(header)}")
    for layer in sheet.layers[1:]:
        yield f"with {layer_in_words(layer)} ({clean(layer.file)})"
    for document in sheet.documents:
        yield clean(f"{document.name}: {document.title}")
    if sheet.datum is not None:
        yield clean(f"arms from: {sheet.datum}")


def _days(header: Header) -> str:
    first = f", from {day(header.effective)}" if header.effective is not None else ""
    return first + (f" until {day(header.until)}" if header.until is not None else "")


def _of_layer(file: str, sheet: Sheet) -> Iterator[str]:
    """Which file the entries below stand in, where the sheet is made of several."""
    layer = next((one for one in sheet.layers[1:] if one.file == file), None)
    if layer is not None:
        yield f"{layer.kind.value} {layer.name} revision {layer.revision}, {clean(file)}"


def _examples(sheet: Sheet, sources: Sources) -> Iterator[str]:
    """How many worked examples the files have: a sheet that is resolved keeps none, as they ran in their own."""
    files = {layer.file for layer in sheet.layers} or set(sources)
    count = sum(len(_EXAMPLE.findall(source.text)) for file, source in sources.items() if file in files)
    where = "in the sheet" if len(files) == 1 else "in these files"
    if count == 1:
        yield f"1 worked example of the manual stands {where}."
    elif count:
        yield f"{count} worked examples of the manual stand {where}."
