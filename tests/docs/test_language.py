"""The language guide: every piece of a sheet reads without a problem, and every answer comes out as printed."""

from __future__ import annotations

import pytest

from grammar.reading import read_file
from grammar.tidy import tidy
from tests.docs.guide import FILE, answers, pieces, read
from tests.docs.pages import Block
from tests.docs.printed import lines_of, read_printed

PIECES = [*pieces(), *pieces("README.md")]


@pytest.mark.parametrize("piece", PIECES, ids=str)
def test_a_piece_reads_without_a_problem(piece: Block) -> None:
    outcome = read(piece)
    assert [(each.code, dict(each.facts)) for each in outcome.problems] == []
    assert outcome.sheet is not None


@pytest.mark.parametrize("piece", PIECES, ids=str)
def test_a_piece_is_tidy(piece: Block) -> None:
    assert tidy(read_file(piece.text, FILE)) == piece.text


@pytest.mark.parametrize(("piece", "answer"), answers(), ids=str)
def test_an_answer_comes_out_as_printed(piece: Block, answer: Block) -> None:
    sheet = read(piece).sheet
    assert sheet is not None
    printed = read_printed(answer.text)
    possible = lines_of(sheet, printed.stated)
    assert printed.lines, f"{answer} prints nothing that comes out"
    for line in printed.lines:
        name = line.split(":")[0]
        assert line in possible, [each for each in possible if each[1:].startswith(name[1:])]
