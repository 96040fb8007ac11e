"""lark's tree of one statement -> the syntax tree, from its leaves up."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from lark import Token, Tree

from grammar.reading.clauses import CLAUSES, PIECES
from grammar.reading.heads import STATEMENTS
from grammar.reading.parts import Part, Parts, Sign
from grammar.reading.values import VALUES, Rule
from grammar.text import SourceText, Span
from grammar.tree import Day, Statement, Word

RULES: Final[Mapping[str, Rule]] = MappingProxyType({**STATEMENTS, **CLAUSES, **PIECES, **VALUES})
"""One builder for each rule of the grammar; a test holds the two together."""


def build(tree: Tree[Token], source: SourceText, offset: int) -> Statement:
    """The statement that ``tree`` is, when its text begins at ``offset`` of the file.

    It goes by a list of all branches with the innermost first, and not by calling itself, so that no depth of
    brackets exhausts the stack.
    """
    built: dict[int, Part] = {}
    for branch in tree.iter_subtrees():
        children = tuple(
            _leaf(child, source, offset) if isinstance(child, Token) else built[id(child)]
            for child in branch.children
        )
        built[id(branch)] = RULES[str(branch.data)](Parts(children, _span(branch, source, offset)))
    whole = built[id(tree)]
    assert isinstance(whole, Statement)
    return whole


def _span(branch: Tree[Token], source: SourceText, offset: int) -> Span:
    """The stretch of the file that a branch takes; an empty cell has none of its own."""
    if branch.meta.empty:
        return source.span(offset, offset)
    return source.span(offset + branch.meta.start_pos, offset + branch.meta.end_pos)


def _leaf(token: Token, source: SourceText, offset: int) -> Part:
    """What a single word or sign is."""
    start = offset + (token.start_pos or 0)
    span = source.span(start, start + len(token))
    match token.type:
        case "DATE":
            return Day(str(token), span)
        case "LABEL":
            return Word(str(token)[1:-1], span)
        case "SIGN" | "AT_MOST" | "AT_LEAST" | "END_OF_ROW":
            return Sign(token.type, span)
        case _:
            return Word(str(token), span)
