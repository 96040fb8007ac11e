"""The language guide: every piece of a sheet reads without a problem, and every answer comes out as printed."""

from __future__ import annotations

from functools import cache

import pytest

from engine.evaluation.proving import read_and_prove
from grammar.pipeline import Outcome
from grammar.reading import read_file
from grammar.tidy import tidy
from tests.docs.pages import Block, blocks
from tests.docs.printed import lines_of, read_printed
from tests.grammar.diagnostics.whole_sheets import whole_sheet

PAGE = "docs/language.md"
FILE = "corrin_t2.limits"
BASE = "the sheet behind the examples"
"""The remark of the whole sheet that the pieces of the guide are put into."""

PIECES = [block for page in (PAGE, "README.md") for block in blocks(page) if block.language == "limits"]


def _answered() -> list[tuple[Block, Block]]:
    """Each answer of the guide with the piece that it belongs to."""
    found: list[tuple[Block, Block]] = []
    piece: Block | None = None
    for block in blocks(PAGE):
        if block.language == "limits":
            piece = block
        elif block.language == "answer":
            assert piece is not None, f"{block} has no piece of a sheet above it"
            found.append((piece, block))
    return found


@cache
def base() -> str:
    (block,) = [piece for piece in PIECES if BASE in piece.remarks]
    return block.text


@cache
def read(piece: Block) -> Outcome:
    """A piece of the guide as a part of the whole sheet."""
    if BASE in piece.remarks:
        return read_and_prove(piece.text, FILE)
    return read_and_prove(whole_sheet(piece.text, piece.remarks, base()), FILE)


@pytest.mark.parametrize("piece", PIECES, ids=str)
def test_a_piece_reads_without_a_problem(piece: Block) -> None:
    outcome = read(piece)
    assert [(each.code, dict(each.facts)) for each in outcome.problems] == []
    assert outcome.sheet is not None


@pytest.mark.parametrize("piece", PIECES, ids=str)
def test_a_piece_is_tidy(piece: Block) -> None:
    assert tidy(read_file(piece.text, FILE)) == piece.text


@pytest.mark.parametrize(("piece", "answer"), _answered(), ids=str)
def test_an_answer_comes_out_as_printed(piece: Block, answer: Block) -> None:
    sheet = read(piece).sheet
    assert sheet is not None
    printed = read_printed(answer.text)
    possible = lines_of(sheet, printed.stated)
    assert printed.lines, f"{answer} prints nothing that comes out"
    for line in printed.lines:
        name = line.split(":")[0]
        assert line in possible, [each for each in possible if each[1:].startswith(name[1:])]
