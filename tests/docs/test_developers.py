"""What the developers' page names is there: paths, modules, functions, and the whole trail of an operation."""

from __future__ import annotations

import re
from importlib import import_module

import pytest

from engine.command_line.application import application
from tests.docs.pages import ROOT, prose, sections

PAGE = "DEVELOPERS.md"
NAMED = sorted(set(re.findall(r"`([^`\n]+)`", prose(PAGE))))
PATHS = [
    name
    for name in NAMED
    if re.fullmatch(r"\.?[\w./]+", name) and ("/" in name or name.endswith((".md", ".toml")))
]
DOTTED = [name for name in NAMED if re.fullmatch(r"(?:grammar|engine|limits_demo)(?:\.\w+)+", name)]


def is_there(path: str) -> bool:
    """Whether the path is there, from the root or, named shortly, among the modules of the evaluation."""
    return (ROOT / path).exists() or (ROOT / "engine/evaluation" / path).exists()


@pytest.mark.parametrize("path", PATHS)
def test_the_path_is_there(path: str) -> None:
    assert is_there(path)


def test_a_path_that_is_not_there_is_found() -> None:
    assert len(PATHS) > 40
    assert not is_there("grammar/nothing.py")


@pytest.mark.parametrize("name", DOTTED)
def test_the_module_or_function_is_there(name: str) -> None:
    module, _, last = name.rpartition(".")
    try:
        import_module(name)
    except ModuleNotFoundError:
        assert hasattr(import_module(module), last)


def test_the_modules_run_by_a_command_are_there() -> None:
    for module in re.findall(r"python -m ([\w.]+)", prose(PAGE)):
        import_module(module)


def test_every_command_has_a_module_of_its_own() -> None:
    for command in application.registered_commands:
        assert command.callback is not None
        assert import_module(f"engine.command_line.{command.callback.__name__}")


def test_every_room_is_named() -> None:
    named = sections(PAGE)["The rooms"]
    rooms = [room for room in (ROOT / "engine").iterdir() if (room / "__init__.py").exists()]
    rooms += [room for room in (ROOT / "grammar").iterdir() if (room / "__init__.py").exists()]
    assert rooms
    for room in rooms:
        assert f"`{room.relative_to(ROOT)}/`" in named


def modules_speaking_of(node: str) -> set[str]:
    found: set[str] = set()
    for room in ("grammar", "engine"):
        for path in (ROOT / room).rglob("*.py"):
            if re.search(rf"\b{node}\b", path.read_text(encoding="utf-8")):
                found.add(str(path.relative_to(ROOT)))
    return found


BESIDES = {"grammar/checking/limits.py"}
"""The range of a place that is loaded in steps is made of the model of an operation."""


@pytest.mark.parametrize(("recipe", "model"), [("Add an operation", "Rounded"), ("Add a statement", "Chord")])
def test_a_recipe_names_every_place_that_its_model_goes(recipe: str, model: str) -> None:
    speaking = modules_speaking_of(model) - BESIDES
    assert len(speaking) > 5
    assert {path for path in speaking if f"`{path}`" not in sections(PAGE)[recipe]} == set()
