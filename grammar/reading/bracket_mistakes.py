"""Brackets, and the cases of a choice that stand in them."""

from __future__ import annotations

import re
from typing import Final

from lark import Token

from grammar.diagnostics.problem import Elsewhere, Problem
from grammar.reading.stop import CLAUSES, STATEMENT_WORDS, Stop

FUNCTIONS: Final = frozenset(
    ("min", "max", "abs", "volume", "floor_loading", "count", "bound", "stated", "pieces", "end_of_month")
)
"""The functions of the language. A test holds them to those that checking knows."""

_COMMA_FIGURE: Final = re.compile(r"(?<![\w.,])\d+,\d+(?![\d.,])")


def comma_in_brackets(stop: Stop) -> Problem | None:
    """Inside brackets a comma between figures may part two values; only now is it a likely cause."""
    opened = _open_bracket(stop.read)
    if opened is None and stop.kind not in {"RPAR", "COMMA"}:
        return None
    start = stop.passage.start if opened is None else stop.offset(opened)
    found = list(_COMMA_FIGURE.finditer(stop.text, start, min(stop.at + 20, stop.passage.end)))
    if not found:
        return None
    written = found[-1][0]
    point = written.replace(",", ".")
    return stop.problem("105", stop.source.span(*found[-1].span()), suggestion=point, found=written)


def bracket_never_opened(stop: Stop) -> Problem | None:
    """A closing bracket with none to close."""
    return stop.problem("207") if stop.kind == "RPAR" and _open_bracket(stop.read) is None else None


def bracket_never_closed(stop: Stop) -> Problem | None:
    """The claim ends, or another clause begins, while a bracket is open."""
    opened = _open_bracket(stop.read)
    if opened is None or stop.wants_value or stop.last == "AT":
        return None
    if not stop.ended and stop.kind not in CLAUSES | {"LABEL", "EQUAL"} and stop.word not in STATEMENT_WORDS:
        return None
    place = Elsewhere(stop.span_of(opened), "opened here")
    return stop.problem("206", stop.line_end, elsewhere=(place,))


def case_without_condition(stop: Stop) -> Problem | None:
    """A case of a choice that does not say when it holds."""
    if stop.kind not in {"RPAR", "COMMA"} or "WHEN" not in stop.wanted or _open_bracket(stop.read) is None:
        return None
    return stop.problem("230", stop.line_end)


def case_without_value(stop: Stop) -> Problem | None:
    """A case of a choice that does not say what its value is."""
    if stop.kind not in {"WHEN", "OTHERWISE"} or stop.last not in {"LPAR", "COMMA"} or not stop.wants_value:
        return None
    example = "500 kg when engine is standard" if stop.kind == "WHEN" else "540 kg otherwise"
    return stop.problem("215", example=example)


def brackets_missing(stop: Stop) -> Problem | None:
    """A function without brackets: ``volume main_tank``."""
    if stop.last != "NAME" or stop.gap or stop.read[-1] not in FUNCTIONS or "LPAR" not in stop.wanted:
        return None
    return stop.problem("243", stop.span_of(stop.read[-1]), found=str(stop.read[-1]))


def _open_bracket(read: tuple[Token, ...]) -> Token | None:
    """The innermost bracket that is still open, if there is one."""
    opened: list[Token] = []
    for token in read:
        if token.type == "LPAR":
            opened.append(token)
        elif token.type == "RPAR" and opened:
            opened.pop()
    return opened[-1] if opened else None
