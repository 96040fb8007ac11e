"""The page "How do I say …": its fragments, the kinds that they stand in, and the answers printed beneath them.

``python -m tests.kinds.page`` writes the answers anew, for when the words of an answer have changed. Then look at
every line that differs: the page must still say what is true.
"""

from __future__ import annotations

import re
import sys
import textwrap
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from grammar.sheet import Sheet
from tests.docs.pages import ROOT, Block, blocks, text_of
from tests.docs.printed import STATED, lines_of, read_printed
from tests.docs.refill import rewritten
from tests.kinds.kinds import Kind, all_kinds, resolved_for

PAGE = "docs/how_do_i_say.md"
WIDTH = 110
AIRFRAME = "airframe"
"""What an answer states beside the values of the sheet: for which airframe it is."""

_KEPT = "\u00a0"


@dataclass(frozen=True)
class Fragment:
    """A fragment of the page, the files that it is taken from, and the answers beneath it.

    The remark above a fragment names its kind and, behind a comma, the way of saying it.
    """

    block: Block
    kind: Kind
    way: str
    answers: tuple[Block, ...]

    def __str__(self) -> str:
        return str(self.block)

    @property
    def files(self) -> Mapping[str, str]:
        return self.kind.files(self.way)

    @property
    def paragraphs(self) -> list[str]:
        return [part.strip("\n") + "\n" for part in self.block.text.split("\n\n")]


def fragments() -> tuple[Fragment, ...]:
    """Every fragment of the page."""
    return tuple(_fragments())


def _fragments() -> Iterator[Fragment]:
    kinds = {kind.name: kind for kind in all_kinds()}
    found = blocks(PAGE)
    for at, block in enumerate(found):
        if block.language != "limits":
            continue
        (remark,) = block.remarks
        name, _, way = remark.partition(", ")
        following = [each.language for each in found[at + 1 :]] + ["limits"]
        beneath = found[at + 1 : at + 1 + following.index("limits")]
        yield Fragment(block, kinds[name], way, tuple(each for each in beneath if each.language == "answer"))


def is_verbatim(paragraph: str, files: Mapping[str, str]) -> bool:
    """Whether the lines stand in one of the files just so."""
    return any("\n" + paragraph in "\n" + text for text in files.values())


def stated_in(answer: Block) -> dict[str, str]:
    """What an answer states; "empty_mass floats 800 kg" is the empty mass on floats."""
    stated: dict[str, str] = {}
    for name, value in read_printed(answer.text).stated.items():
        option = re.match(r"([a-z_]+) (?=[\d-])", value)
        stated[f"{name} {option[1]}" if option else name] = value[option.end() :] if option else value
    return stated


def sheet_of(fragment: Fragment, stated: Mapping[str, str]) -> Sheet:
    """The sheet that holds for what is stated."""
    found = resolved_for(fragment.files, stated, stated, stated.get(AIRFRAME))
    assert found.sheet is not None, f"{fragment} does not resolve"
    return found.sheet


def possible_lines(fragment: Fragment, answer: Block) -> tuple[str, ...]:
    """Every line that the answer may print."""
    stated = stated_in(answer)
    sheet = sheet_of(fragment, stated)
    return lines_of(sheet, {name: value for name, value in stated.items() if name != AIRFRAME})


# ---- written anew


def refilled(fragment: Fragment, answer: Block) -> list[str]:
    """The lines of an answer as they come out now, in the order printed."""
    possible = {line[2:].split(":", maxsplit=1)[0]: line for line in possible_lines(fragment, answer)}
    first = " ".join(answer.text.split("\n=")[0].split("\nx")[0].split("\n?")[0].split("\n-")[0].split())
    lines = _folded(first.removeprefix(STATED), "  ", STATED)
    for line in read_printed(answer.text).lines:
        name = line[2:].split(":", maxsplit=1)[0]
        lines += _folded(possible.get(name, line), "    ", "")
    return lines


def _folded(line: str, indent: str, opening: str) -> list[str]:
    kept = re.sub(r"(?<=\d) (?=[A-Za-z%])", _KEPT, opening + line)
    wrapped = textwrap.wrap(kept, WIDTH, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False)
    return [part.replace(_KEPT, " ") for part in wrapped]


def main() -> None:
    """Rewrite the page where an answer differs from what comes out."""
    new = {answer: refilled(fragment, answer) for fragment in fragments() for answer in fragment.answers}
    text = rewritten(PAGE, new)
    if text != text_of(PAGE):
        (ROOT / PAGE).write_text(text, encoding="utf-8")
        sys.stdout.write(f"{PAGE} has changed\n")


if __name__ == "__main__":
    main()
