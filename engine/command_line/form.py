"""``burthen form``: the form of a loading."""

from __future__ import annotations

import json
from pathlib import Path

from engine.command_line.asking import Files, resolved_or_refused, stated_entries
from engine.command_line.files import NOT_UNDERSTOOD, CannotRead, complain
from engine.evaluation.requests import RequestRefused
from engine.forms.loading_form import loading_form


def run(files: Files, airframe: Path | None) -> int:
    """Print the form for the sheet, without what the airframe's record states."""
    try:
        record = stated_entries((), airframe)
        whole = resolved_or_refused(files, record)
    except (CannotRead, RequestRefused) as why:
        complain(str(why))
        return NOT_UNDERSTOOD
    print(json.dumps(loading_form(whole.sheet, frozenset(record)), indent=2, ensure_ascii=False))
    return 0
