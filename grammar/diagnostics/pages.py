"""The pages that ``burthen why CODE`` prints: one for each kind of problem, kept as Markdown."""

from __future__ import annotations

import re
from dataclasses import dataclass
from importlib import resources
from importlib.resources.abc import Traversable
from typing import Final

_SUFFIX: Final = ".md"
_HEAD: Final = re.compile(r"# (?P<code>\d{3}) (?P<title>[^\n]+)\n")
_REMARK: Final = re.compile(r"<!-- (?P<remark>.*?) -->\n*", re.DOTALL)
_PART: Final = re.compile(r"^## (?P<heading>[^\n]+)\n(?P<text>.*?)(?=^## |\Z)", re.DOTALL | re.MULTILINE)
_FILE: Final = re.compile(r"```limits\n(?P<text>.*?)```", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Page:
    """A page: what it prints, and the pieces of a sheet that show the slip and its remedy.

    Each has one piece, or several files that belong together, one a block. ``remarks`` are for whoever tests the
    page: how its pieces are made into a whole sheet.
    """

    code: str
    title: str
    markdown: str
    example: tuple[str, ...]
    remedy: tuple[str, ...]
    remarks: tuple[str, ...]


def page_codes() -> tuple[str, ...]:
    """The codes that have a page, in order."""
    names = (file.name for file in _folder().iterdir())
    return tuple(sorted(name.removesuffix(_SUFFIX) for name in names if name.endswith(_SUFFIX)))


def find_page(code: str) -> Page | None:
    """The page of a code, or None where there is none."""
    if code not in page_codes():
        return None
    return parse_page(_folder().joinpath(code + _SUFFIX).read_text(encoding="utf-8"))


def parse_page(markdown: str) -> Page:
    """The page that a Markdown text is. Errors: ValueError where it has no heading."""
    head = _HEAD.match(markdown)
    if head is None:
        raise ValueError("a page begins with its code and its title")
    shown = _REMARK.sub("", markdown)
    pieces = {part["heading"]: tuple(_FILE.findall(part["text"])) for part in _PART.finditer(shown)}
    return Page(
        code=head["code"],
        title=head["title"],
        markdown=shown,
        example=pieces.get("Example", ()),
        remedy=pieces.get("Remedy", ()),
        remarks=tuple(found["remark"] for found in _REMARK.finditer(markdown)),
    )


def _folder() -> Traversable:
    return resources.files("grammar.diagnostics") / "pages"
