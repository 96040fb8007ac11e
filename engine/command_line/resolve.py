"""``burthen resolve``: the one sheet that holds for an airframe on a day."""

from __future__ import annotations

from pathlib import Path

from engine.command_line.asking import Files, resolved_or_refused, stated_entries
from engine.command_line.files import NOT_UNDERSTOOD, CannotRead, complain
from engine.evaluation.requests import RequestRefused
from engine.resolution.printing import printed


def run(files: Files, stated: tuple[str, ...], airframe: Path | None) -> int:
    """Print the resolved sheet."""
    try:
        whole = resolved_or_refused(files, stated_entries(stated, airframe))
    except (CannotRead, RequestRefused) as why:
        complain(str(why))
        return NOT_UNDERSTOOD
    print(printed(whole.sheet, whole.file, whole.sources), end="")
    return 0
