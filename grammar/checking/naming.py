"""What a known name stands for, in an officer's words."""

from __future__ import annotations

from typing import Final

from grammar import sheet, tree
from grammar.checking.scope import Scope
from grammar.checking.vocabulary import TOTALS

SORTS: Final[dict[type, tuple[str, str]]] = {
    tree.Document: ("a document", "Documents stand only after `source`."),
    tree.Table: ("a table", "Read it by giving the values along its axes in brackets."),
    tree.Envelope: ("an envelope", "Ask it with `(cg, mass) inside {name}`."),
    tree.Limit: ("a limit", "For the figure that it allows write bound({name})."),
    tree.Example: ("a worked example", "An example is run, not referred to."),
}
"""Statements whose name is no value: what each is, and what to write instead."""

_ROLES: Final = {
    sheet.Role.WEIGHING: "a figure of the weighing",
    sheet.Role.FACT: "a fact",
    sheet.Role.GIVEN: "a given",
    sheet.Role.LOAD: "a load",
    sheet.Role.TANK: "a tank",
}


def sort_of(scope: Scope, name: str) -> str:
    """What a known name stands for, in an officer's words."""
    if name in scope.inputs:
        return _ROLES[scope.inputs[name].role]
    if name in TOTALS:
        return "a value worked out for the whole aircraft"
    statement = scope.declared.get(name)
    return "a named value" if isinstance(statement, tree.Let) else SORTS.get(type(statement), ("a name", ""))[0]
