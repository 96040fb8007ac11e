"""Nodes in working order into code, each into a form or a test."""

from __future__ import annotations

from collections.abc import Iterable

from engine.evaluation.compiling.conditions import translate_condition
from engine.evaluation.compiling.expressions import translate_expression
from engine.evaluation.compiling.translation import Translation
from engine.evaluation.workings import Node
from grammar.sheet import Numeric


def translate(nodes: Iterable[Node], so_far: Translation) -> None:
    """Translate the nodes, which stand in working order."""
    for node in nodes:
        if isinstance(node, Numeric):
            so_far.forms[node.slot] = translate_expression(node, so_far)
        else:
            so_far.tests[node.slot] = translate_condition(node, so_far)
