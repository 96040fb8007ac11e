"""The check values from outside the project: read exactly, compared with the tolerance their source allows.

A test claims rows with ``@checks("A02")``. It is then run once for each of them, with the row's id, standing
and source in the test's own id, and must compare every figure that the row expects, or it fails. The standing
is "retrieved" (the published text was seen), "derived" (plain arithmetic on published inputs) or "from memory".
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any, Final

import pytest

STANDINGS: Final = {"retrieved": "retrieved", "derived": "derived", "memory": "from memory"}
_FILE: Final = Path(__file__).with_name("check_values.json")


@dataclass
class Row:
    """One published check value; numbers are the exact decimals of the file."""

    id: str
    topic: str
    given: Mapping[str, Any]
    expect: Mapping[str, Any]
    tolerance: Fraction | Mapping[str, Fraction]
    unit: Mapping[str, str]
    source: str
    status: str
    note: str
    compared: set[str] = field(default_factory=set)

    @property
    def title(self) -> str:
        """Id, standing and source, for the id of a test."""
        return f"{self.id}, {STANDINGS[self.status]}, {self.source[:90]}"

    def agrees(self, name: str, found: object) -> None:
        """Assert that what was found is what the row expects under a name."""
        self.compared.add(name)
        expected = self.expect[name]
        if isinstance(expected, list):
            assert isinstance(found, list) and len(found) == len(expected), f"{self.id} {name}: {found}"
            for one, other in zip(found, expected, strict=True):
                self._same(name, one, other)
        else:
            self._same(name, found, expected)

    def reads(self, name: str, text: str) -> None:
        """Assert that the row expects a text: one that says a rule in words, which the test then tries out."""
        self.compared.add(name)
        assert self.expect[name] == text

    def _same(self, name: str, found: object, expected: object) -> None:
        if isinstance(expected, bool):
            assert found is expected, f"{self.id} {name}: {found}, published {expected}"
            return
        assert isinstance(found, Fraction) and isinstance(expected, Fraction), f"{self.id} {name}: {found!r}"
        allowed = self.tolerance.get(name, Fraction(0)) if isinstance(self.tolerance, dict) else self.tolerance
        difference = abs(found - expected)
        assert difference <= allowed, f"{self.id} {name}: {float(found)}, published {float(expected)}"

    @property
    def not_compared(self) -> set[str]:
        """The expected figures that no test has looked at."""
        return set(self.expect) - self.compared


def published() -> dict[str, Row]:
    """Every row by its id, afresh."""
    listed = json.loads(_FILE.read_text(encoding="utf-8"), parse_float=Fraction, parse_int=Fraction)
    return {each["id"]: Row(**each) for each in listed}


def checks(*ids: str) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Run a test for each of the rows, handing it the row as ``row``."""
    rows = published()
    titles = [rows[each].title for each in ids]
    return pytest.mark.parametrize("row", ids, indirect=True, ids=titles)


def decimal(number: Fraction) -> str:
    """A number of a row as it stands in a sheet; it must be a finite decimal."""
    text = f"{Decimal(number.numerator) / number.denominator:f}"
    assert Fraction(text) == number, number
    return text
