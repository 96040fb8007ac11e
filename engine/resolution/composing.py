"""A sheet with layers on it, checked as one, and each file proven with nothing on it but what it comes after."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from engine.evaluation.proving import unproven
from grammar import tree
from grammar.checking import Checked, Composition, check_composed
from grammar.diagnostics.problem import Problem
from grammar.layering.headings import Volume
from grammar.layering.merging import Merged, merge
from grammar.pipeline import in_order, is_error
from grammar.sheet import LayerKind
from grammar.text import SourceText, Span

NEVER_USED: Final = "303"
"""What a layer takes the place of may leave a name unused: no slip, once the files are put together."""

Sources = Mapping[str, SourceText]


def composed(
    base: Volume, layers: tuple[Volume, ...], sources: Sources, examples_of: Volume | None = None
) -> tuple[Merged, Checked]:
    """The sheet with the layers on it, in the order given."""
    merged = merge(base, layers, examples_of)
    every_layer = (base.layer, *(one.layer for one in layers))
    headings = tuple(one.heading for one in layers if isinstance(one.heading, tree.LayerHeader))
    composition = Composition(sources, base.reading.source.file, headings, every_layer, merged.origins)
    checked = check_composed(merged.file, composition)
    kept = tuple(one for one in checked.problems if one.code != NEVER_USED)
    return merged, Checked(checked.sheet, in_order((*merged.problems, *kept)))


def problems_of_layer(
    base: Volume, layer: Volume, others: tuple[Volume, ...], sources: Sources
) -> Iterator[Problem]:
    """What is wrong with one layer, on the sheet and on those layers that it comes after: those that it names; for
    a permit, which names none, every supplement and order. What it breaks in another file counts as its own."""
    below = tuple(_below_permit(others) if layer.layer.kind is LayerKind.PERMIT else _below(layer, others))
    _, checked = composed(base, (*below, layer), sources, layer)
    found = checked.problems
    if checked.sheet is not None and not any(is_error(problem) for problem in found):
        found = (*found, *unproven(checked.sheet))
    file = layer.reading.source.file
    elsewhere = [problem for problem in found if problem.span.file != file]
    before = _known_before(base, below, sources) if elsewhere else frozenset()
    yield from (one for one in found if one.span.file == file or (one.code, one.span) not in before)


def _known_before(base: Volume, below: tuple[Volume, ...], sources: Sources) -> frozenset[tuple[str, Span]]:
    _, without = composed(base, below, sources)
    return frozenset((problem.code, problem.span) for problem in without.problems)


def _below_permit(others: tuple[Volume, ...]) -> Iterator[Volume]:
    """Supplements, those that others come after first, then orders."""
    supplements = [one for one in others if one.layer.kind is LayerKind.SUPPLEMENT]
    found: dict[str, Volume] = {}
    for one in supplements:
        for below in (*_below(one, tuple(supplements)), one):
            found.setdefault(below.layer.name, below)
    yield from found.values()
    yield from (one for one in others if one.layer.kind is LayerKind.ORDER)


def _below(layer: Volume, others: tuple[Volume, ...]) -> Iterator[Volume]:
    """The layers that a layer comes after, those that these come after first; each once, circles cut."""
    by_name = {one.layer.name: one for one in others}
    waiting = [layer]
    begun: set[str] = set()
    done: set[str] = set()
    while waiting:
        one = waiting[-1]
        name = one.layer.name
        if name in begun:
            waiting.pop()
            if name not in done and one is not layer:
                yield one
            done.add(name)
            continue
        begun.add(name)
        named = (by_name.get(word.text) for word in reversed(one.after))
        waiting.extend(below for below in named if below is not None and below.layer.name not in begun)
