"""A limit that holds throughout the burn, decided at every moment of it without taking samples.

On a segment of the burn each value is a ratio of polynomials in the amount burned. The segment is cut
wherever a sign changes that anything hangs on: which value is the greater, which cell of a table, which
band of an envelope, whether a claim holds, whether its room still shrinks. Over the stretches between the
cuts nothing changes, so one look decides each; the cuts themselves are looked at too, rational or not.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from engine.evaluation.burn import Course, Levels, Segment, amounts_at
from engine.evaluation.leasts import Candidate, candidates, least_margins
from engine.evaluation.margins import tightest_first
from engine.evaluation.places import Moment, Place, RootFinder, Stretch
from engine.evaluation.polynomial import Polynomial
from engine.evaluation.ratio import Amount, Ratio
from engine.evaluation.result import Gap, LimitResult, OutOfTable, TooManyPieces
from engine.evaluation.roots import Point, narrowed_to, roots_between
from engine.evaluation.settling import Judgement, judge
from engine.evaluation.working_out import work_out
from engine.evaluation.workings import Held, Node, Workings
from grammar.sheet import Limit, Sheet, Stage, Verdict

MOST_PIECES: Final = 2_000
"""How many stretches and moments of one limit are looked at before it is left undetermined."""

_NARROW: Final = Fraction(1, 2**40)
"""How closely an irrational moment is known at first, as a share of its segment."""


@dataclass(frozen=True, slots=True)
class Swept:
    """How a limit came out over the burn, and its moving values where it is tightest."""

    result: LimitResult
    values: dict[int, Held]


@dataclass(frozen=True, slots=True)
class Look:
    """What was found at one place of the burn; no place stands for the moments that cannot be followed."""

    place: Place | None
    judgement: Judgement


@dataclass(slots=True)
class Sweep:
    """The sweep of one limit over one burn. ``moving`` are the limit's moving nodes in working order."""

    sheet: Sheet
    limit: Limit
    moving: tuple[Node, ...]
    known: Workings
    course: Course
    looks: int = field(default=0, init=False)

    def run(self) -> Swept:
        """The result and the values where the limit is tightest."""
        looks = tuple(self._looks())
        verdict = _worst(look.judgement.verdict for look in looks)
        found = tuple(candidate for look in looks for candidate in _candidates(look))
        margins = tightest_first(least for least, _ in least_margins(found))
        burned = self._tightest(verdict, found, looks)
        gap = _gap(looks) if verdict is Verdict.UNDETERMINED else None
        state = None if burned is None else self.course.state(burned)
        result = LimitResult(self.limit, verdict, margins, gap, state)
        return Swept(result, self._values(burned))

    # ---- looking

    def _looks(self) -> Iterator[Look]:
        segments = self.course.segments
        if not segments:
            yield self._look(Moment(Fraction(0)), self.course.end)
        for segment in segments:
            yield self._look(Moment(segment.start), segment.levels)
            yield from self._follow(segment)
        if segments:
            yield self._look(Moment(segments[-1].end), self.course.end)
        if self.course.beyond is not None:
            yield Look(None, self._look(Moment(Fraction(0)), self.course.beyond).judgement)

    def _follow(self, segment: Segment) -> Iterator[Look]:
        """Every place between the two ends of a segment, in order."""
        waiting: list[Moment | Stretch] = [Stretch(segment.start, segment.end, _root_finder(segment))]
        while waiting:
            place = waiting.pop()
            if self.looks > MOST_PIECES:
                gap = Gap((TooManyPieces(self.limit),))
                yield Look(None, Judgement(Verdict.UNDETERMINED, gap, ()))
                return
            if isinstance(place, Moment) and isinstance(place.at, Fraction):
                yield self._look(place, segment.at(place.at))
                continue
            look = self._look(place, segment.over())
            if isinstance(place, Stretch) and place.cuts:
                waiting += reversed(place.pieces())
            else:
                yield look

    def _look(self, place: Moment | Stretch, levels: tuple[Amount | Gap, ...]) -> Look:
        self.looks += 1
        judgement = judge(self.limit, self._worked_out(place, levels))
        if isinstance(place, Stretch):
            for room in judgement.rooms:
                if isinstance(room.room, Ratio):
                    place.cut_at(room.room.turning())
        return Look(place, judgement)

    def _worked_out(self, place: Place, levels: tuple[Amount | Gap, ...]) -> Workings:
        """The limit's moving values at a place where the tanks hold these amounts."""
        fuel = {**self.known.fuel, **amounts_at(self.sheet, Stage.THROUGHOUT, levels)}
        workings = Workings(self.known.loading, fuel, list(self.known.values), place)
        work_out(self.moving, workings)
        return workings

    # ---- gathering

    def _tightest(
        self, verdict: Verdict, found: tuple[Candidate, ...], looks: tuple[Look, ...]
    ) -> Fraction | None:
        """The amount burned where the limit is tightest among the places with its verdict; without margins
        the first such place. None where that lies beyond what can be followed."""
        leasts = least_margins(one for one in found if one.verdict is verdict)
        if leasts:
            tightest = tightest_first(margin for margin, _ in leasts)[0]
            return next(burned for margin, burned in leasts if margin is tightest)
        first = next(look for look in looks if look.judgement.verdict is verdict)
        return _representative(first.place)

    def _values(self, burned: Fraction | None) -> dict[int, Held]:
        levels = self._levels(burned)
        workings = self._worked_out(Moment(burned or Fraction(0)), levels)
        return {node.slot: workings.values[node.slot] for node in self.moving}

    def _levels(self, burned: Fraction | None) -> Levels:
        if burned is None:
            return self.course.last
        segments = self.course.segments
        return next((part.at(burned) for part in segments if burned <= part.end), self.course.end)


def _root_finder(segment: Segment) -> RootFinder:
    """Finds roots on a segment, each polynomial's once."""
    found: dict[Polynomial, tuple[Point, ...]] = {}
    width = (segment.end - segment.start) * _NARROW

    def find(of: Polynomial) -> tuple[Point, ...]:
        if of not in found:
            roots = roots_between(of, segment.start, segment.end)
            found[of] = tuple(narrowed_to(root, width) for root in roots)
        return found[of]

    return find


def _representative(place: Place | None) -> Fraction | None:
    """A rational moment at a place, or the nearest below an irrational one."""
    match place:
        case Stretch():
            return place.middle
        case Moment():
            return place.at if isinstance(place.at, Fraction) else place.at.low
        case _:
            return None


def _candidates(look: Look) -> Iterator[Candidate]:
    if isinstance(look.place, (Moment, Stretch)):
        for room in look.judgement.rooms:
            yield from candidates(room, look.place, look.judgement.verdict)


def _worst(verdicts: Iterator[Verdict]) -> Verdict:
    """Outside at any moment is outside; else undetermined; else within wherever it applies at all."""
    found = set(verdicts)
    ranking = (Verdict.OUTSIDE, Verdict.UNDETERMINED, Verdict.WITHIN)
    return next((verdict for verdict in ranking if verdict in found), Verdict.NOT_APPLICABLE)


def _gap(looks: tuple[Look, ...]) -> Gap | None:
    """Every cause met along the burn; of one table's axis only the furthest beyond on each side."""
    causes = [cause for look in looks if look.judgement.gap for cause in look.judgement.gap.causes]
    furthest: dict[tuple[str, int, bool], OutOfTable] = {}
    for cause in causes:
        if isinstance(cause, OutOfTable):
            key = _beyond(cause)
            known = furthest.get(key)
            if known is None or _distance(cause) > _distance(known):
                furthest[key] = cause
    kept = [furthest[_beyond(cause)] if isinstance(cause, OutOfTable) else cause for cause in causes]
    return Gap(tuple(cause for at, cause in enumerate(kept) if cause not in kept[:at])) if kept else None


def _beyond(cause: OutOfTable) -> tuple[str, int, bool]:
    return cause.table.name, cause.axis, cause.value < cause.nearest


def _distance(cause: OutOfTable) -> Fraction:
    return abs(cause.value - cause.nearest)
