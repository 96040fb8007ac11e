"""The pieces of a sheet and the answers that stand in the language guide."""

from __future__ import annotations

from functools import cache

from engine.evaluation.proving import read_and_prove
from grammar.pipeline import Outcome
from tests.docs.pages import Block, blocks
from tests.grammar.diagnostics.whole_sheets import whole_sheet

PAGE = "docs/language.md"
FILE = "corrin_t2.limits"
BASE = "the sheet behind the examples"
"""The remark of the whole sheet that the pieces of the guide are put into."""


def pieces(page: str = PAGE) -> list[Block]:
    """The pieces of a sheet that stand in a page."""
    return [block for block in blocks(page) if block.language == "limits"]


def answers() -> list[tuple[Block, Block]]:
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
    """The whole sheet that the pieces of the guide are put into."""
    (block,) = [piece for piece in pieces() if BASE in piece.remarks]
    return block.text


@cache
def read(piece: Block) -> Outcome:
    """A piece of the guide as a part of the whole sheet."""
    if BASE in piece.remarks:
        return read_and_prove(piece.text, FILE)
    return read_and_prove(whole_sheet(piece.text, piece.remarks, base()), FILE)
