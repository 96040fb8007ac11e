"""``burthen outline``: a sheet on one page."""

from __future__ import annotations

from pathlib import Path

from engine.command_line.asking import Files, resolved_or_refused, stated_entries
from engine.command_line.files import NOT_UNDERSTOOD, CannotRead, complain
from engine.evaluation.requests import RequestRefused
from engine.forms.outline import outline


def run(files: Files, airframe: Path | None) -> int:
    """Print the outline of the sheet as it holds for the airframe and the day."""
    try:
        whole = resolved_or_refused(files, stated_entries((), airframe))
    except (CannotRead, RequestRefused) as why:
        complain(str(why))
        return NOT_UNDERSTOOD
    print(outline(whole.sheet, whole.sources), end="")
    return 0
