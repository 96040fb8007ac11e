"""Working out node after node: expressions give values, conditions truths."""

from __future__ import annotations

from collections.abc import Iterable

from engine.evaluation.conditions import truth_of
from engine.evaluation.expressions import value_of
from engine.evaluation.workings import Node, Workings
from grammar.sheet import Numeric


def work_out(nodes: Iterable[Node], known: Workings) -> None:
    """Fill the slots of the nodes, which stand in working order."""
    for node in nodes:
        known.values[node.slot] = value_of(node, known) if isinstance(node, Numeric) else truth_of(node, known)
