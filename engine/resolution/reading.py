"""Reading several files together: each sheet by itself, each layer on the sheet that it builds on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from itertools import combinations

from engine.evaluation.proving import read_and_prove
from engine.resolution.composing import problems_of_layer
from engine.resolution.resolving import read_volumes
from grammar import tree
from grammar.diagnostics.problem import Elsewhere, Problem
from grammar.diagnostics.suggestions import nearest
from grammar.layering.headings import Volume, names_below
from grammar.layering.merging import name_of
from grammar.layering.rules import check_rules, start_of
from grammar.pipeline import each_once
from grammar.sheet import LayerKind
from grammar.text import SourceText


@dataclass(frozen=True, slots=True)
class Together:
    """What reading files together comes to: the texts and the problems, by the names of the files."""

    sources: Mapping[str, SourceText]
    problems: Mapping[str, tuple[Problem, ...]]


def read_together(texts: Mapping[str, str]) -> Together:
    """Read and check all files, layers on their sheets, worked examples included."""
    volumes, readings = read_volumes(texts)
    sources = {reading.source.file: reading.source for reading in readings}
    by_file = {volume.reading.source.file: volume for volume in volumes}
    across = list(_across(volumes))
    problems: dict[str, tuple[Problem, ...]] = {}
    for reading in readings:
        file = reading.source.file
        own = [problem for problem in across if problem.span.file == file]
        volume = by_file.get(file)
        if volume is None or volume.layer.kind is LayerKind.SHEET:
            found = read_and_prove(texts[file], file).problems
            own += [] if volume is None else check_rules(volume)
        else:
            found = (*reading.problems, *check_rules(volume), *_of_layer(volume, volumes, sources))
        problems[file] = each_once((*found, *own))
    return Together(sources, problems)


def _of_layer(layer: Volume, volumes: tuple[Volume, ...], sources: Mapping[str, SourceText]) -> Iterator[Problem]:
    base = base_of(layer, volumes)
    if base is None:
        kind = layer.layer.kind.value
        facts = {"kind": kind, "name": layer.layer.name, "to": layer.to}
        yield Problem("751", start_of(layer, layer.heading.span, kind), facts, suggestion=_near(layer, volumes))
        return
    others = tuple(one for one in volumes if one.to == layer.to and one is not layer)
    yield from problems_of_layer(base, layer, others, sources)


def base_of(layer: Volume, volumes: tuple[Volume, ...]) -> Volume | None:
    """The latest revision of the sheet that a layer builds on."""
    sheets = [one for one in volumes if one.layer.kind is LayerKind.SHEET and one.layer.name == layer.to]
    return max(sheets, key=lambda one: one.layer.revision, default=None)


def _near(layer: Volume, volumes: tuple[Volume, ...]) -> str | None:
    return nearest(layer.to, [one.layer.name for one in volumes if one.layer.kind is LayerKind.SHEET])


# ---- between files


def _across(volumes: tuple[Volume, ...]) -> Iterator[Problem]:
    """Revisions that hold on the same days, layers that change the same statement, and unknown layers below."""
    below = names_below(volumes)
    for one, other in combinations(volumes, 2):
        if one.to != other.to or not _meet(one, other):
            continue
        if one.layer.kind is other.layer.kind and one.layer.name == other.layer.name:
            yield from _same_days(*sorted((one, other), key=lambda volume: volume.layer.revision))
        else:
            yield from _conflicts(one, other, below)
    for volume in volumes:
        yield from _unknown_below(volume, volumes)
    yield from _circles(volumes, below)


def _meet(one: Volume, other: Volume) -> bool:
    """Whether there is a day on which both hold."""
    return not (_ends_before(one, other) or _ends_before(other, one))


def _ends_before(one: Volume, other: Volume) -> bool:
    last, first = one.layer.until, other.layer.effective
    return last is not None and first is not None and last < first


def _same_days(earlier: Volume, later: Volume) -> Iterator[Problem]:
    if later.replaces == earlier.layer.revision:
        return
    facts = {"name": later.layer.name, "revision": str(later.layer.revision)}
    facts |= {"other": str(earlier.layer.revision), "day": _first_day(earlier, later)}
    where = (Elsewhere(earlier.heading.revision.span, "the other revision"),)
    yield Problem("756", later.heading.revision.span, facts, where)


def _first_day(one: Volume, other: Volume) -> str:
    firsts = [volume.layer.effective for volume in (one, other) if volume.layer.effective is not None]
    day = max(firsts, default=Fraction(1))
    return date.fromordinal(int(day)).isoformat() if firsts else "every day"


def _conflicts(one: Volume, other: Volume, below: Mapping[str, frozenset[str]]) -> Iterator[Problem]:
    """Statements that both supplements change; where both hang on conditions, resolving will tell."""
    supplements = (LayerKind.SUPPLEMENT, LayerKind.SUPPLEMENT)
    is_ordered = one.layer.name in below[other.layer.name] or other.layer.name in below[one.layer.name]
    depend = one.applies is not None and other.applies is not None
    if (one.layer.kind, other.layer.kind) != supplements or is_ordered or depend:
        return
    changed = _changes(one)
    for name, statement in _changes(other).items():
        if name in changed:
            where = (Elsewhere(changed[name].span, "changed here too"),)
            facts = {"name": name, "other": one.layer.name}
            yield Problem("754", statement.span, facts, where)


def _changes(volume: Volume) -> dict[str, tree.Amend | tree.Withdraw]:
    found: dict[str, tree.Amend | tree.Withdraw] = {}
    for statement in volume.reading.file.statements:
        if isinstance(statement, tree.Amend | tree.Withdraw):
            name = name_of(statement)
            if name is not None:
                found[name] = statement
    return found


def _circles(volumes: tuple[Volume, ...], below: Mapping[str, frozenset[str]]) -> Iterator[Problem]:
    """Layers that come after themselves by way of others: each circle once, at the first of its files."""
    told: set[str] = set()
    for volume in volumes:
        name = volume.layer.name
        if name not in told and name in below[name]:
            circle = [name, *sorted(other for other in below[name] - {name} if name in below.get(other, ()))]
            told.update(circle)
            chain = (
                f"{', '.join(circle)} all come after one another" if len(circle) > 1 else f"{name} after {name}"
            )
            yield Problem("763", volume.heading.name.span, {"chain": chain})


def _unknown_below(volume: Volume, volumes: tuple[Volume, ...]) -> Iterator[Problem]:
    known = [one.layer.name for one in volumes if one.to == volume.to and one.layer.kind is not LayerKind.SHEET]
    for word in volume.after:
        if word.text not in known:
            facts = {"name": volume.layer.name, "other": word.text, "to": volume.to}
            yield Problem("762", word.span, facts, suggestion=nearest(word.text, known))
