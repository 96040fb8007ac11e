"""``burthen tidy``: sheets laid out neatly."""

from __future__ import annotations

from pathlib import Path

from engine.command_line.files import NOT_UNDERSTOOD, CannotRead, complain, read_text, write_text
from grammar.reading import read_file
from grammar.tidy import tidy

NOT_TIDY = 1


def run(files: tuple[Path, ...], *, only_check: bool) -> int:
    """Tidy the files, or say which are not tidy."""
    status = 0
    for path in files:
        try:
            if _tidied(path, only_check=only_check) and only_check:
                status = max(status, NOT_TIDY)
        except CannotRead as why:
            complain(str(why))
            status = NOT_UNDERSTOOD
    return status


def _tidied(path: Path, *, only_check: bool) -> bool:
    """Whether the file was not tidy; it is now, unless it was only to be checked."""
    text = read_text(path)
    neat = tidy(read_file(text, str(path)))
    if str(path) == "-":
        print(neat, end="")
        return neat != text
    if neat == text:
        return False
    if only_check:
        complain(f"{path} is not tidy. Run: burthen tidy {path}")
    else:
        write_text(path, neat)
    return True
