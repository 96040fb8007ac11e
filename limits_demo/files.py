"""The texts that come with the demonstration."""

from __future__ import annotations

from importlib.resources import files
from typing import Final

_HERE: Final = files("limits_demo")
_ENDING: Final = ".limits"


def sheet_names() -> tuple[str, ...]:
    """The names of the demonstration's sheets, in alphabetical order."""
    return _names("sheets")


def sheet_text(name: str) -> str:
    """The text of the sheet called ``name``. Errors: KeyError where the demonstration has no such sheet."""
    return _text("sheets", name)


def layer_names() -> tuple[str, ...]:
    """The names of the supplements, orders and permits to the sheets, in alphabetical order."""
    return _names("layers")


def layer_text(name: str) -> str:
    """The text of the supplement, order or permit called ``name``. Errors: KeyError where there is none."""
    return _text("layers", name)


def _names(folder: str) -> tuple[str, ...]:
    names = (entry.name for entry in (_HERE / folder).iterdir())
    return tuple(sorted(name.removesuffix(_ENDING) for name in names if name.endswith(_ENDING)))


def _text(folder: str, name: str) -> str:
    if name not in _names(folder):
        raise KeyError(name)
    return (_HERE / folder / (name + _ENDING)).read_text(encoding="utf-8")


def data_text(name: str) -> str:
    """The text of one of the demonstration's data files."""
    return (_HERE / name).read_text(encoding="utf-8")
