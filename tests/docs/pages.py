"""The pages of the documentation and the blocks that stand in them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"

_FENCE = re.compile(r"```(?P<language>\w*)\s*$")
_REMARK = re.compile(r"<!-- (?P<remark>.+?) -->\s*$")


@dataclass(frozen=True)
class Block:
    """A fenced block of a page. ``remarks`` are the hidden notes right above it, for whoever tests the page."""

    page: str
    line: int
    language: str
    text: str
    remarks: tuple[str, ...]

    def __str__(self) -> str:
        return f"{self.page}:{self.line}"


def every_page() -> tuple[Path, ...]:
    """Every page that a reader of the repository is led to."""
    return (ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted(DOCS.glob("*.md")))


def text_of(page: str) -> str:
    """The text of a page, named from the root of the repository."""
    return (ROOT / page).read_text(encoding="utf-8")


@cache
def blocks(page: str) -> tuple[Block, ...]:
    """The fenced blocks of a page, in order."""
    return tuple(_blocks(page, text_of(page).splitlines()))


def _blocks(page: str, lines: list[str]) -> Iterator[Block]:
    remarks: list[str] = []
    numbered = iter(enumerate(lines, start=1))
    for number, line in numbered:
        remark = _REMARK.match(line)
        fence = _FENCE.match(line)
        if remark:
            remarks.append(remark["remark"])
        elif fence:
            inner: list[str] = []
            for _, within in numbered:
                if within.startswith("```"):
                    break
                inner.append(within + "\n")
            yield Block(page, number, fence["language"], "".join(inner), tuple(remarks))
            remarks = []
        elif line.strip():
            remarks = []


def prose(page: str) -> str:
    """A page without its fenced blocks and hidden notes."""
    bare = re.sub(r"^```.*?^```$", "", text_of(page), flags=re.DOTALL | re.MULTILINE)
    return re.sub(r"<!--.*?-->", "", bare, flags=re.DOTALL)


def sections(page: str) -> dict[str, str]:
    """The text of each section of a page, blocks included, by its heading."""
    text, found = text_of(page), dict[str, str]()
    headings = list(re.finditer(r"^#{1,4} (?P<title>.+)$", text, flags=re.MULTILINE))
    for at, heading in enumerate(headings):
        end = headings[at + 1].start() if at + 1 < len(headings) else len(text)
        found[heading["title"].strip()] = text[heading.end() : end]
    return found
