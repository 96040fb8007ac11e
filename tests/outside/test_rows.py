"""Every published row is checked somewhere in this folder, or stands in the list of those that cannot be.

The check values (``check_values.json``) are facts with their sources, gathered outside the project. Of each
row it is said how it stands: retrieved, derived, or from memory. Figures that are printed and do not recompute
are in ``published_errors.json``; no test expects them.
"""

from __future__ import annotations

import ast
import json
from collections import Counter
from pathlib import Path

import pytest

from tests.outside.rows import STANDINGS, published

NOT_EXPRESSIBLE = {
    "K13": "density altitude as a power (exponent 0.235) of pressure over temperature: a sheet has no powers",
    "K14": "as K13, and the vapour pressure is an exponential of the dew point",
}
"""Rows that the language cannot say, with the reason."""

FOLDER = Path(__file__).parent


def claimed() -> Counter[str]:
    """The ids in every ``@checks(...)`` above a test of this folder, and how often each stands there."""
    found: Counter[str] = Counter()
    for module in sorted(FOLDER.glob("test_*.py")):
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
                found.update(_ids(node))
    return found


def _ids(function: ast.FunctionDef) -> list[str]:
    calls = [decorator for decorator in function.decorator_list if isinstance(decorator, ast.Call)]
    return [
        ast.literal_eval(argument)
        for call in calls
        if isinstance(call.func, ast.Name) and call.func.id == "checks"
        for argument in call.args
    ]


def test_every_row_is_checked_or_says_why_not() -> None:
    assert set(claimed()) | set(NOT_EXPRESSIBLE) == set(published())


def test_no_row_is_both_checked_and_set_aside() -> None:
    assert not set(claimed()) & set(NOT_EXPRESSIBLE)
    assert all(times == 1 for times in claimed().values())


def test_there_are_as_many_rows_as_were_gathered() -> None:
    """No id stands twice, which would hide a row behind another."""
    listed = json.loads((FOLDER / "check_values.json").read_text(encoding="utf-8"))
    assert len(listed) == len(published()) == 93


@pytest.mark.parametrize("id", list(published()))
def test_row_has_source_standing_and_something_to_compare(id: str) -> None:
    row = published()[id]
    assert row.source and row.status in STANDINGS
    assert row.expect and set(row.unit) == set(row.expect)
    assert not isinstance(row.tolerance, dict) or set(row.tolerance) <= set(row.expect)
