"""The room is light to enter: what only some surfaces need is imported when they are used."""

from __future__ import annotations

import subprocess
import sys

import pytest

ENTER = "import sys, engine.explanation, engine.explanation.text, engine.explanation.reasons"


def imported_after(code: str) -> set[str]:
    script = f"{code}; print(' '.join(name for name in ('rich', 'pydantic') if name in sys.modules))"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


@pytest.mark.parametrize(
    ("code", "expected"),
    [(ENTER, set()), ("import sys, engine.explanation.document", {"pydantic"})],
)
def test_what_is_imported(code, expected):
    assert imported_after(code) == expected
