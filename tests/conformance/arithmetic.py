"""Checking a line of working, such as ``aft edge: 1180 + 30 * (540 - 480) / 120 = 1195``."""

from __future__ import annotations

import ast
import operator
import re
from collections.abc import Callable
from fractions import Fraction

_OPERATIONS: dict[type[ast.operator], Callable[[Fraction, Fraction], Fraction]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}
_RELATIONS: dict[str, Callable[[Fraction, Fraction], bool]] = {
    "=": operator.eq,
    "<": operator.lt,
    ">": operator.gt,
}


def is_true(line: str) -> bool:
    """Whether the arithmetic behind the last colon of a line holds exactly."""
    statement = line.rpartition(":")[2]
    left, relation, right = re.split(r"\s([=<>])\s", statement)
    return _RELATIONS[relation](value_of(left), value_of(right))


def value_of(text: str) -> Fraction:
    """The exact value of a text with decimals, signs, brackets and the four operations."""
    return _value(ast.parse(text.strip(), mode="eval").body, text.strip())


def _value(node: ast.expr, text: str) -> Fraction:
    match node:
        case ast.BinOp(left=left, op=op, right=right):
            return _OPERATIONS[type(op)](_value(left, text), _value(right, text))
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return -_value(operand, text)
        case ast.Constant():
            return Fraction(text[node.col_offset : node.end_col_offset])
        case _:
            raise ValueError(text)
