"""Writes anew what the pages print, for when the words of an answer have changed.

``python -m tests.docs.refill``, and then look at every line that differs: the page must still say what is true.
Outputs of which a page leaves lines out are for a person to change.
"""

from __future__ import annotations

import re
import sys
import tempfile
import textwrap
from collections.abc import Mapping
from pathlib import Path

from tests.docs.following import FOLLOWED, REST, Follower
from tests.docs.guide import PAGE, answers, read
from tests.docs.pages import ROOT, Block, blocks, text_of
from tests.docs.printed import STATED, lines_of, read_printed

WIDTH = 110
_KEPT = "\u00a0"


def refilled_answer(piece: Block, answer: Block) -> list[str]:
    """The lines of an answer of the guide as they come out now, in the order printed."""
    sheet = read(piece).sheet
    assert sheet is not None, f"{piece} does not read"
    printed = read_printed(answer.text)
    possible = lines_of(sheet, printed.stated)
    stated = STATED + ", ".join(f"{name}{_KEPT}{value}" for name, value in printed.stated.items())
    lines = _folded(stated, "  ")
    for line in printed.lines:
        lines += _folded(_now(line, possible), "    ")
    return lines


def _now(line: str, possible: tuple[str, ...]) -> str:
    """The line of the same limit, or the same line where it is about nothing that has a name."""
    name = line[2:].split(":", maxsplit=1)[0]
    return next((each for each in possible if each[2:].split(":")[0] == name), line)


def _folded(line: str, indent: str) -> list[str]:
    kept = re.sub(r"(?<=\d) (?=[A-Za-z%])", _KEPT, line)
    folded = textwrap.wrap(kept, WIDTH, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False)
    return [part.replace(_KEPT, " ") for part in folded]


def refilled_outputs(page: str, folder: Path) -> dict[Block, list[str]]:
    """The outputs of a page that is followed, as they come out now."""
    follower, found = Follower(folder), dict[Block, list[str]]()
    for block in blocks(page):
        if block.language == "text" and follower.shown is not None and REST not in block.text:
            found[block] = [line.rstrip() for line in follower.shown.strip("\n").splitlines()]
        follower.step(block)
    return found


def rewritten(page: str, new: Mapping[Block, list[str]]) -> str:
    """The text of a page with the insides of some of its blocks written anew."""
    lines = text_of(page).splitlines()
    for block in sorted(new, key=lambda each: each.line, reverse=True):
        lines[block.line : block.line + block.text.count("\n")] = new[block]
    return "\n".join(lines) + "\n"


def main() -> None:
    """Rewrite every page whose printed answers differ from what comes out."""
    changes: dict[str, dict[Block, list[str]]] = {PAGE: {b: refilled_answer(a, b) for a, b in answers()}}
    for page in FOLLOWED:
        with tempfile.TemporaryDirectory() as folder:
            changes[page] = refilled_outputs(page, Path(folder))
    for page, new in changes.items():
        text = rewritten(page, new)
        if text != text_of(page):
            (ROOT / page).write_text(text, encoding="utf-8")
            sys.stdout.write(f"{page} has changed\n")


if __name__ == "__main__":
    main()
