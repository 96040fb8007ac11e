"""A page followed from top to bottom, as a reader would: files written, commands typed, outputs compared."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

from tests.docs.pages import Block, blocks
from tests.grammar.diagnostics.whole_sheets import heading, statements

FOLLOWED = ("README.md", "docs/tutorial.md", "docs/checking.md")
"""The pages that are followed."""

REST = "…"
"""A line of a printed output that stands for any number of lines."""

FILE = re.compile(r"(?P<how>file|into) (?P<name>[\w.]+)")
"""The remarks of a block that is a file, or whose statements go into one."""


@dataclass
class Follower:
    """Somebody who follows a page in a folder of their own. ``shown`` is what the last command printed."""

    folder: Path
    shown: str | None = None
    mistakes: list[str] = field(default_factory=list)

    def follow(self, page: str) -> None:
        """Do everything that the page asks for, and note what comes out otherwise."""
        for block in blocks(page):
            self.step(block)

    def step(self, block: Block) -> None:
        """Do what one block asks for."""
        named = next((found for remark in block.remarks if (found := FILE.fullmatch(remark))), None)
        if named is not None:
            path = self.folder / named["name"]
            before = path.read_text(encoding="utf-8") if named["how"] == "into" and path.exists() else ""
            path.write_text(put_into(before, block.text) if before else block.text, encoding="utf-8")
        elif block.language == "sh" and is_for_burthen(block):
            self.shown = self._run(["bash", "-c", block.text])
            self._look_for_faults(block, self.shown)
        elif block.language == "python":
            self.shown = self._run([sys.executable, "-c", block.text])
        elif block.language == "text" and self.shown is not None:
            self._compare(block, self.shown)

    def _run(self, command: list[str]) -> str:
        beside = Path(sys.executable).parent
        environment = os.environ | {"PATH": f"{beside}{os.pathsep}{os.environ['PATH']}", "PYTHONUTF8": "1"}
        done = subprocess.run(
            command,
            cwd=self.folder,
            env=environment,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            encoding="utf-8",
            timeout=120,
            check=False,
        )
        return done.stdout

    def _look_for_faults(self, block: Block, shown: str) -> None:
        for words in ("No such command", "No such option", "Burthen itself has failed"):
            if words in shown:
                self.mistakes.append(f"{block}: {shown}")

    def _compare(self, block: Block, shown: str) -> None:
        if not is_shown(block.text, shown):
            self.mistakes.append(f"{block} prints\n{block.text}\nand this comes out:\n{shown}")


def is_for_burthen(block: Block) -> bool:
    """Whether every command of a block is one of ours, or shows the status of one; what installs is not run."""
    joined = block.text.replace("\\\n", " ")
    return all(re.match(r"(burthen|echo|cat) ", line) for line in joined.splitlines())


def is_shown(printed: str, shown: str) -> bool:
    """Whether a page prints what was shown, lines that it leaves out apart."""
    parts = [re.escape(line.rstrip()) for line in printed.strip("\n").splitlines()]
    rest = re.escape(REST)
    pattern = "\n".join(r"(?:.*\n)*?.*" if part == rest else part for part in parts)
    lines = "\n".join(line.rstrip() for line in shown.strip("\n").splitlines())
    return re.fullmatch(pattern, lines) is not None


def put_into(sheet: str, piece: str) -> str:
    """The sheet with the statements of a piece: in the place of those of the same name, or at the end."""
    kept = {heading(statement): statement for statement in statements(sheet)}
    for statement in statements(piece):
        name = heading(statement)
        if name in kept:
            kept[name] = statement.rstrip("\n") + "\n" * (len(kept[name]) - len(kept[name].rstrip("\n")))
        else:
            last = list(kept)[-1]
            gap = "\n" if last.split()[0] == name.split()[0] == "document" else "\n\n"
            kept[last] = kept[last].rstrip("\n") + gap
            kept[name] = statement.rstrip("\n") + "\n"
    return "".join(kept.values())
