"""Reading files that a person names, with a plain word when that cannot be done."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Final

from engine.explanation.words import seen

MOST_BYTES: Final = 8_000_000
"""No sheet and no loading is longer; a longer file is a slip."""

NOT_UNDERSTOOD: Final = 3
"""The exit status when what was typed or given is not understood: 1 and 2 are answers about a load."""


class CannotRead(Exception):
    """A file that a person named cannot be read; the message says why and what to do."""


def read_text(path: Path) -> str:
    """The text of a file; ``-`` is standard input. Errors: CannotRead."""
    try:
        if str(path) == "-":
            return _decoded(sys.stdin.buffer.read(MOST_BYTES + 1), "standard input")
        with path.open("rb") as file:
            return _decoded(file.read(MOST_BYTES + 1), str(path))
    except FileNotFoundError:
        raise CannotRead(f"There is no file {path}. Look at the name and at the folder you are in.") from None
    except IsADirectoryError:
        raise CannotRead(f"{path} is a folder. Name a file in it.") from None
    except PermissionError:
        raise CannotRead(f"{path} may not be read by you. Ask whoever owns it.") from None
    except OSError as problem:
        raise CannotRead(f"{path} cannot be read: {problem.strerror}.") from None


def _decoded(content: bytes, name: str) -> str:
    if len(content) > MOST_BYTES:
        raise CannotRead(f"{name} is longer than {MOST_BYTES // 1_000_000} MB. It is probably another file.")
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as problem:
        raise CannotRead(
            f"{name} is not plain text in UTF-8: byte {problem.start + 1} does not belong there. "
            "Save it as plain text, UTF-8."
        ) from None


def write_text(path: Path, text: str) -> None:
    """Write a file in one go, so that a failure leaves the old one whole. Errors: CannotRead."""
    beside = path.with_name(path.name + ".new")
    try:
        beside.write_text(text, encoding="utf-8", newline="")
        beside.replace(path)
    except OSError as problem:
        raise CannotRead(f"{path} cannot be written: {problem.strerror}.") from None


def complain(message: str) -> None:
    """Say on the error stream what is wrong; no letter of a name or a value acts on the terminal."""
    print(seen(message), file=sys.stderr)
