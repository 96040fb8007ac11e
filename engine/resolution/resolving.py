"""Of all the files of a type, what holds for one airframe on one day, as one checked sheet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from engine.evaluation.proving import read_and_prove
from engine.resolution.composing import composed, problems_of_layer
from engine.resolution.selecting import Asked, Selected, select
from grammar import tree
from grammar.checking.headings import heading_problems
from grammar.diagnostics.problem import Problem
from grammar.layering.headings import Volume, volume_of
from grammar.layering.rules import check_rules
from grammar.pipeline import each_once, is_error
from grammar.reading import Reading, read_file
from grammar.sheet import Sheet
from grammar.text import SourceText


@dataclass(frozen=True, slots=True)
class Resolved:
    """What resolving comes to. ``sheet`` is None when a problem is an error; ``file`` has its statements, each
    with its place in one of ``sources``."""

    sheet: Sheet | None
    file: tree.File | None
    sources: Mapping[str, SourceText]
    problems: tuple[Problem, ...]


def read_volumes(texts: Mapping[str, str]) -> tuple[tuple[Volume, ...], tuple[Reading, ...]]:
    """The files of a type, by file name: those with a heading, and all readings."""
    readings = tuple(read_file(text, name) for name, text in texts.items())
    volumes = tuple(volume for volume in map(volume_of, readings) if volume is not None)
    return volumes, readings


def resolve(texts: Mapping[str, str], name: str, asked: Asked) -> Resolved:
    """The sheet called ``name`` as it holds for whom and when it is asked. Errors: RequestRefused."""
    volumes, readings = read_volumes(texts)
    sources = {reading.source.file: reading.source for reading in readings}
    problems = [problem for reading in readings for problem in reading.problems]
    problems += [problem for volume in volumes for problem in (*check_rules(volume), *_of_heading(volume))]
    selected = Selected(None, (), ()) if _any_error(problems) else select(volumes, name, asked)
    problems += selected.problems
    if selected.sheet is None or _any_error(problems):
        return Resolved(None, None, sources, each_once(problems))
    problems += _unproven_parts(selected.sheet, selected.layers, sources)
    merged, checked = composed(selected.sheet, selected.layers, sources)
    found = each_once((*problems, *checked.problems))
    return Resolved(None if _any_error(found) else checked.sheet, merged.file, sources, found)


def _of_heading(volume: Volume) -> tuple[Problem, ...]:
    """A file that would hold on a day that it does not mean must be told, also where it is left out for it."""
    return heading_problems(volume.heading, volume.reading.source)


def _any_error(problems: Iterable[Problem]) -> bool:
    return any(is_error(problem) for problem in problems)


def _unproven_parts(base: Volume, layers: tuple[Volume, ...], sources: Mapping[str, SourceText]) -> list[Problem]:
    """What is wrong with the sheet by itself and with each layer on it, worked examples included."""
    source = base.reading.source
    found = list(read_and_prove(source.text, source.file).problems)
    for layer in layers:
        found.extend(problems_of_layer(base, layer, layers, sources))
    return found
