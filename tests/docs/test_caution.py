"""Every surface says that this is an aid, and who decides."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from typer.testing import CliRunner

from engine.command_line.application import application
from limits_demo import sheet_text
from tests.docs.pages import ROOT, every_page

WHO_DECIDES = re.compile(
    r"approved flight manual, (the )?placards, (the )?local rules and (the )?pilot in command decide"
)


def says_who_decides(text: str) -> bool:
    plain = re.sub(r"[\s│]+", " ", text)
    return WHO_DECIDES.search(plain) is not None and "aid" in plain


def printed(*arguments: str) -> str:
    return CliRunner().invoke(application, list(arguments)).output


@pytest.fixture
def sheet(tmp_path: Path) -> str:
    path = tmp_path / "corrin_t2.limits"
    path.write_text(sheet_text("corrin_t2"), encoding="utf-8")
    return str(path)


SURFACES: Mapping[str, Callable[[str], tuple[str, ...]]] = {
    "help": lambda _: ("--help",),
    "demo": lambda _: ("demo",),
    "reading": lambda sheet: ("read", sheet),
    "answer": lambda sheet: ("check", sheet, "front_seat=98kg"),
    "reasons": lambda sheet: ("check", sheet, "front_seat=98kg", "--why", "front_seat_max"),
    "document": lambda sheet: ("check", sheet, "front_seat=98kg", "--json"),
}


@pytest.mark.parametrize("surface", SURFACES)
def test_the_surface_says_who_decides(surface: str, sheet: str) -> None:
    assert says_who_decides(printed(*SURFACES[surface](sheet)))


@pytest.mark.parametrize("page", every_page(), ids=lambda page: str(page.relative_to(ROOT)))
def test_the_page_says_who_decides(page: Path) -> None:
    assert says_who_decides(page.read_text(encoding="utf-8"))


def test_a_text_without_the_caution_is_found() -> None:
    assert not says_who_decides("An aid only: the pilot decides.")
