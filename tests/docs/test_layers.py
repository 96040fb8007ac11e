"""The page of supplements, orders and permits: its files read together, are tidy, and resolve as it says."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from engine.resolution.printing import printed
from engine.resolution.reading import read_together
from engine.resolution.resolving import resolve
from engine.resolution.selecting import Asked
from grammar.reading import read_file
from grammar.tidy import tidy
from tests.docs.guide import BASE, pieces
from tests.docs.guide import base as sheet_behind_the_examples
from tests.docs.pages import Block, blocks

PAGE = "docs/layers.md"
ON_THE_SHEET = "on the sheet"
LAYERS = [block for block in blocks(PAGE) if block.language == "limits"]


def file_name(block: Block) -> str:
    return block.text.split()[1] + ".limits"


def texts() -> dict[str, str]:
    files = {file_name(block): block.text for block in LAYERS if ON_THE_SHEET not in block.remarks}
    added = "\n".join(block.text for block in LAYERS if ON_THE_SHEET in block.remarks)
    return {"corrin_t2.limits": sheet_behind_the_examples() + "\n" + added} | files


def test_the_page_speaks_of_the_sheet_of_the_guide() -> None:
    assert any(BASE in piece.remarks for piece in pieces())


def test_the_files_of_the_page_read_together_without_a_problem() -> None:
    problems = read_together(texts()).problems
    assert {
        file: [(each.code, dict(each.facts)) for each in found] for file, found in problems.items() if found
    } == {}


@pytest.mark.parametrize("block", LAYERS, ids=str)
def test_a_file_of_the_page_is_tidy(block: Block) -> None:
    assert tidy(read_file(block.text, "page.limits")) == block.text


def test_the_resolved_sheet_says_what_the_page_shows() -> None:
    record = {"pod_fitted": "yes", "long_range": "no"}
    day = Fraction(date(2026, 6, 1).toordinal())
    resolved = resolve(texts(), "corrin_t2", Asked(day, "QF-COA", record))
    assert resolved.sheet is not None
    assert resolved.file is not None
    (shown,) = [block for block in blocks(PAGE) if block.language == "resolved"]
    assert shown.text in printed(resolved.sheet, resolved.file, resolved.sources)
