"""The page of the libraries names those of pyproject.toml and no other."""

from __future__ import annotations

import re
import tomllib

import pytest

from tests.docs.pages import ROOT, sections

PAGE = "docs/libraries.md"
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
EXTRAS = PROJECT["project"]["optional-dependencies"]

NEEDED = {
    "What the program needs": PROJECT["project"]["dependencies"],
    "What its tests need": EXTRAS["test"],
    "What its developers need": [*EXTRAS["develop"], *PROJECT["build-system"]["requires"]],
}


def names(requirements: list[str]) -> set[str]:
    """The names of the libraries, those of our own package left out."""
    found = (re.match(r"[A-Za-z0-9_-]+", each) for each in requirements)
    return {match[0] for match in found if match} - {"burthen"}


def first_cells(text: str) -> set[str]:
    rows = [line for line in text.splitlines() if line.startswith("| `")]
    return {name for row in rows for name in re.findall(r"`([^`]+)`", row.split(" | ")[0])}


@pytest.mark.parametrize("heading", NEEDED)
def test_each_library_has_its_line(heading: str) -> None:
    assert first_cells(sections(PAGE)[heading]) == names(NEEDED[heading])
