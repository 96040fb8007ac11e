"""The texts that come with the demonstration."""

from __future__ import annotations

from importlib.resources import files
from typing import Final

_HERE: Final = files("limits_demo")
_ENDING: Final = ".limits"


def sheet_names() -> tuple[str, ...]:
    """The names of the demonstration's sheets, in alphabetical order."""
    names = (entry.name for entry in (_HERE / "sheets").iterdir())
    return tuple(sorted(name.removesuffix(_ENDING) for name in names if name.endswith(_ENDING)))


def sheet_text(name: str) -> str:
    """The text of the sheet called ``name``. Errors: KeyError where the demonstration has no such sheet."""
    if name not in sheet_names():
        raise KeyError(name)
    return (_HERE / "sheets" / (name + _ENDING)).read_text(encoding="utf-8")


def data_text(name: str) -> str:
    """The text of one of the demonstration's data files."""
    return (_HERE / name).read_text(encoding="utf-8")
