"""Which files hold: by the day, by the airframe, by its facts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from engine.evaluation.causes import needed
from engine.evaluation.exact import evaluate
from engine.evaluation.requests import Stated, read_loading
from grammar.checking.applicability import Candidate, applicability
from grammar.diagnostics.problem import Problem
from grammar.layering.headings import Volume
from grammar.sheet import LayerKind, Verdict


@dataclass(frozen=True, slots=True)
class Asked:
    """For which day (None: not stated) and which airframe a sheet is wanted, and what its record states."""

    day: Fraction | None = None
    airframe: str | None = None
    record: Mapping[str, Stated] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Selected:
    """The sheet and the layers that hold, in the order in which they come on top of one another."""

    sheet: Volume | None
    layers: tuple[Volume, ...]
    problems: tuple[Problem, ...]


def select(volumes: tuple[Volume, ...], name: str, asked: Asked) -> Selected:
    """The revision of the sheet ``name`` that holds, and the layers on it that hold and apply."""
    problems: list[Problem] = []
    sheets = [one for one in volumes if one.layer.kind is LayerKind.SHEET and one.layer.name == name]
    sheet = _one_revision(sheets, asked, problems, is_needed=True)
    if sheet is None:
        return Selected(None, (), tuple(problems))
    layers = [one for one in volumes if one.layer.kind is not LayerKind.SHEET and one.to == name]
    names = dict.fromkeys(one.layer.name for one in layers)
    holding = [
        _one_revision([one for one in layers if one.layer.name == its], asked, problems, is_needed=False)
        for its in names
    ]
    for_it = [one for one in holding if one is not None and _is_for_airframe(one, asked)]
    applying = _applying(sheet, tuple(for_it), asked, problems)
    return Selected(sheet, _ordered(applying, problems), tuple(problems))


# ---- days and revisions


def _one_revision(
    revisions: list[Volume], asked: Asked, problems: list[Problem], *, is_needed: bool
) -> Volume | None:
    """The one revision of a file that holds on the day."""
    if asked.day is None:
        return _without_day(revisions, problems, is_needed=is_needed)
    holding = [one for one in revisions if one.holds_on(asked.day)]
    replaced = {one.replaces for one in holding}
    current = [one for one in holding if one.layer.revision not in replaced]
    if len(current) > 1:
        later, earlier = current[1], current[0]
        facts = {"revision": str(later.layer.revision), "other": str(earlier.layer.revision)}
        facts |= {"name": later.layer.name, "day": _shown(asked.day)}
        problems.append(Problem("756", later.heading.revision.span, facts))
        return None
    if not current and is_needed:
        newest = max(revisions, key=lambda one: one.layer.revision)
        facts = {"name": newest.layer.name, "day": _shown(asked.day)}
        problems.append(Problem("767", newest.heading.name.span, facts))
    return current[0] if current else None


def _without_day(revisions: list[Volume], problems: list[Problem], *, is_needed: bool) -> Volume | None:
    """Without a day: a single revision of a sheet is what was asked for; a dated layer needs the day."""
    if len(revisions) == 1 and (is_needed or not revisions[0].is_dated):
        return revisions[0]
    last = revisions[-1]
    problems.append(Problem("769", last.heading.name.span, {"name": last.layer.name}))
    return None


def _shown(day: Fraction) -> str:
    return date.fromordinal(int(day)).isoformat()


# ---- airframes and facts


def _is_for_airframe(volume: Volume, asked: Asked) -> bool:
    return volume.layer.airframe is None or volume.layer.airframe == asked.airframe


def _applying(sheet: Volume, layers: tuple[Volume, ...], asked: Asked, problems: list[Problem]) -> list[Volume]:
    """The layers whose condition the airframe meets; the sheet's own must be met."""
    conditional = [one for one in (sheet, *layers) if one.applies is not None]
    if not conditional:
        return list(layers)
    candidates = tuple(Candidate(one.heading, one.reading.file, one.reading.source) for one in conditional)
    conditions, found = applicability(sheet.reading.file, sheet.reading.source, candidates)
    problems.extend(found)
    if conditions is None:
        return []
    known = {one.name for one in conditions.inputs}
    record = {name: written for name, written in asked.record.items() if name in known}
    result = evaluate(conditions, read_loading(conditions, record))
    verdicts = {each.limit.name: each for each in result.limits}
    for one in conditional:
        each = verdicts[one.layer.name]
        if each.verdict is Verdict.UNDETERMINED and each.gap is not None:
            needs = needed(each.gap)
            problems.append(Problem("766", one.heading.name.span, {"name": one.layer.name, "needs": needs}))
        elif one is sheet and each.verdict is Verdict.OUTSIDE and one.applies is not None:
            text = one.reading.source.text[one.applies.span.start : one.applies.span.end]
            facts = {"name": one.layer.name, "condition": " ".join(text.split())}
            problems.append(Problem("768", one.heading.name.span, facts))
    met = {name for name, each in verdicts.items() if each.verdict is Verdict.WITHIN}
    return [one for one in layers if one.applies is None or one.layer.name in met]


# ---- order

_ORDER = {LayerKind.SUPPLEMENT: 0, LayerKind.ORDER: 1, LayerKind.PERMIT: 2}


def _ordered(layers: list[Volume], problems: list[Problem]) -> tuple[Volume, ...]:
    """Supplements, then orders, then permits; among them those that come after others later."""
    waiting = sorted(
        layers, key=lambda one: (_ORDER[one.layer.kind], one.layer.effective or Fraction(0), one.layer.name)
    )
    placed: list[Volume] = []
    while waiting:
        names = {one.layer.name for one in waiting}
        ready = [one for one in waiting if not names & {word.text for word in one.after}]
        if not ready:
            chain = " and ".join(f"{one.layer.name} after {one.after[0].text}" for one in waiting)
            problems.append(Problem("763", waiting[0].heading.name.span, {"chain": chain}))
            return tuple(placed)
        placed.append(ready[0])
        waiting.remove(ready[0])
    return tuple(placed)
