"""Every link of the docs leads somewhere, and nothing in them names a machine."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from tests.docs.pages import ROOT, every_page, prose

PAGES = [str(page.relative_to(ROOT)) for page in every_page()]
_LINK = re.compile(r"\[[^\]]*\]\((?P<to>[^)\s]+)\)", re.DOTALL)
_HEADING = re.compile(r"^#{1,6} (?P<title>.+)$", re.MULTILINE)


def links_of(page: str) -> list[str]:
    return [found["to"] for found in _LINK.finditer(prose(page))]


def anchor(title: str) -> str:
    """The anchor of a heading, as the usual hosts of Markdown make it."""
    kept = re.sub(r"[^\w\- ]", "", title.strip().lower())
    return kept.replace(" ", "-")


@cache
def anchors(path: Path) -> frozenset[str]:
    bare = re.sub(r"^```.*?^```$", "", path.read_text(encoding="utf-8"), flags=re.DOTALL | re.MULTILINE)
    return frozenset(anchor(found["title"]) for found in _HEADING.finditer(bare))


@pytest.mark.parametrize("page", PAGES)
def test_every_link_leads_somewhere(page: str) -> None:
    lost: list[str] = []
    for link in links_of(page):
        name, _, part = link.partition("#")
        target = ((ROOT / page).parent / name).resolve() if name else ROOT / page
        if not target.exists() or (part and part not in anchors(target)):
            lost.append(link)
    assert not lost


@pytest.mark.parametrize("page", PAGES)
def test_no_heading_stands_twice(page: str) -> None:
    bare = re.sub(r"^```.*?^```$", "", (ROOT / page).read_text(encoding="utf-8"), flags=re.DOTALL | re.MULTILINE)
    found = [anchor(heading["title"]) for heading in _HEADING.finditer(bare)]
    assert sorted(set(found)) == sorted(found)


@pytest.mark.parametrize("page", PAGES)
def test_no_page_names_a_machine_or_a_host(page: str) -> None:
    text = (ROOT / page).read_text(encoding="utf-8")
    assert (
        re.findall(r"https?://\S+|\blocalhost\b|(?<![\w.])/(?:home|tmp|work|root|Users|usr|opt)/\S*", text) == []
    )


@pytest.mark.parametrize("page", PAGES)
def test_a_page_is_reached_from_the_readme(page: str) -> None:
    assert page == "README.md" or page in links_of("README.md")


def test_an_anchor_is_made_as_usual() -> None:
    assert anchor("`burn`: two tanks or more") == "burn-two-tanks-or-more"
    assert anchor("What comes out, and what to do with it") == "what-comes-out-and-what-to-do-with-it"
