"""An independent evaluator of limit sheets: slow, plain, and written from the language's description.

It shares nothing with the program but the reading of text into a tree. It settles a claim that must hold
``throughout`` by looking, in exact arithmetic, at every change of tanks, at 60 fuel states evenly spread
between each two of them, at those that it is told to look at, and by closing in on the tightest of them. So
it finds every excursion that has a breadth of more than 1/60 of a stretch, and narrower ones of claims with a
margin where the margin has one lowest point nearby; it cannot prove that there is none.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property

from grammar import tree
from tests.reference.burn_order import draw
from tests.reference.polygon import Point, boundary_along, covers, room_along, turned
from tests.reference.stated import clause, figure
from tests.reference.three_valued import Unknown, all_causes, calculated
from tests.reference.worked_values import Moment, Values

SAMPLES = 60
"""Into how many parts a stretch of the burn is cut."""


@dataclass(frozen=True)
class Outcome:
    """How a limit came out. ``at`` is the amount burned where a limit that holds throughout is tightest."""

    verdict: str
    margins: Mapping[str, Fraction] = field(default_factory=dict)
    causes: frozenset[tuple[str, str]] = frozenset()
    at: Fraction | None = None


class Evaluator(Values):
    """Every limit of a sheet. ``look_also_at`` are amounts burned at which it looks besides its own."""

    def __init__(self, file: tree.File, request: Mapping[str, str], look_also_at: Iterable[Fraction] = ()) -> None:
        super().__init__(file, request)
        self.look_also_at = tuple(look_also_at)

    @cached_property
    def outcomes(self) -> dict[str, Outcome]:
        """Every limit's outcome: those written, the range of each load and tank, and the burn."""
        found = {name: self._range(name) for name in (*self.sheet.loads, *self.sheet.tanks)}
        if self.sheet.tanks:
            found["burn"] = self._burn()
        return found | {name: self._limit(limit) for name, limit in self.sheet.limits.items()}

    def verdict(self) -> str:
        """The verdict of the whole sheet; cautions do not count."""
        cautions = {name for name, limit in self.sheet.limits.items() if limit.is_caution}
        verdicts = {each.verdict for name, each in self.outcomes.items() if name not in cautions}
        return next((each for each in ("outside", "undetermined") if each in verdicts), "within")

    def built_in(self, name_at_stage: str) -> Fraction:
        """A built-in value at a stage, such as "cg at takeoff"."""
        name, _, stage = name_at_stage.partition(" at ")
        value = self._built_in(name, Moment(stage))
        assert isinstance(value, Fraction), value
        return value

    def fuel_states(self) -> list[Fraction]:
        """The amounts burned at which a claim is looked at: all changes of tanks, and many between."""
        taxi, trip = self._stated("taxi_fuel"), self._stated("trip_fuel")
        _, changes = draw(self._amounts(), self.sheet.burn_steps(), sum(self._amounts().values()) + 1)
        end = max(changes) - taxi
        if not isinstance(trip, Unknown):
            end = min(trip, end)
        marks = sorted({Fraction(0), max(end, Fraction(0)), *(c - taxi for c in changes if 0 < c - taxi < end)})
        between = [
            low + (high - low) * part / SAMPLES
            for low, high in itertools.pairwise(marks)
            for part in range(SAMPLES)
        ]
        named = [burned for burned in self.look_also_at if 0 <= burned <= marks[-1]]
        return sorted({*between, *named, marks[-1]})

    def at_fuel_state(self, limit: tree.Limit, burned: Fraction) -> Outcome:
        """How a limit that holds throughout comes out at one amount burned."""
        return self._judged(limit, Moment("throughout", burned))

    def _limit(self, limit: tree.Limit) -> Outcome:
        match limit.stage:
            case tree.Throughout():
                return self._throughout(limit)
            case tree.At(stage=stage):
                return self._judged(limit, Moment(stage.text))
            case None:
                return self._judged(limit, Moment(None))

    def _judged(self, limit: tree.Limit, at: Moment) -> Outcome:
        """The outcome at one moment: a limit whose condition is open is within where its claim holds."""
        when = clause(limit, tree.When)
        applies = self.value(when.condition, at) if isinstance(when, tree.When) else True
        if applies is False:
            return Outcome("not applicable")
        outcome = self._claimed(limit.claim, at)
        if isinstance(applies, Unknown) and outcome.verdict != "within":
            return Outcome("undetermined", causes=applies.causes | outcome.causes)
        return outcome

    def _throughout(self, limit: tree.Limit) -> Outcome:
        waiting = all_causes([self._stated(tank) for tank in self.sheet.tanks])
        return self._followed(limit) if waiting is None else self._not_followed(limit, waiting)

    def _not_followed(self, limit: tree.Limit, waiting: Unknown) -> Outcome:
        """What can be said while a tank's amount is not known: of take-off, and of a burn without a measure."""
        moments = (Moment("throughout"), Moment("throughout", waiting))
        return _worst([self._judged(limit, at) for at in moments])

    def _followed(self, limit: tree.Limit) -> Outcome:
        states = {burned: self.at_fuel_state(limit, burned) for burned in self.fuel_states()}
        tightest = min(states, key=lambda burned: (_rank(states[burned]), burned))
        if states[tightest].margins:
            tightest = self._closed_in(limit, tightest, sorted(states))
            states[tightest] = self.at_fuel_state(limit, tightest)
        return replace(_worst(list(states.values())), at=tightest)

    def _closed_in(self, limit: tree.Limit, tightest: Fraction, states: list[Fraction]) -> Fraction:
        """A fuel state near the tightest one looked at that is tighter still, or that one."""
        here = states.index(tightest)
        low, high = states[max(here - 1, 0)], states[min(here + 1, len(states) - 1)]
        best, least = tightest, _rank(self.at_fuel_state(limit, tightest))
        for _ in range(16):
            third = (high - low) / 3
            left, right = (low + third).limit_denominator(10**6), (high - third).limit_denominator(10**6)
            ranks = [_rank(self.at_fuel_state(limit, at)) for at in (left, right)]
            for at, rank in zip((left, right), ranks, strict=True):
                if rank < least:
                    best, least = at, rank
            low, high = (low, right) if ranks[0] <= ranks[1] else (left, high)
        return best

    def _claimed(self, claim: tree.Expression, at: Moment) -> Outcome:
        truth = self.value(claim, at)
        if isinstance(truth, Unknown):
            return Outcome("undetermined", causes=truth.causes)
        return Outcome("within" if truth else "outside", self._margins(claim, at))

    def _margins(self, claim: tree.Expression, at: Moment) -> dict[str, Fraction]:
        """The room on each side of a claim, as far as it can be told."""
        match claim:
            case tree.Group(of=inner):
                return self._margins(inner, at)
            case tree.Comparison(relation=tree.Relation.AT_MOST, left=subject, right=bound):
                return self._room("to most", bound, subject, at)
            case tree.Comparison(relation=tree.Relation.AT_LEAST, left=subject, right=bound):
                return self._room("to least", subject, bound, at)
            case tree.Between(subject=subject, low=low, high=high):
                return self._room("to least", subject, low, at) | self._room("to most", high, subject, at)
            case tree.Inside(across=across, against=against, envelope=tree.Reference(name=name)):
                point = (self.value(across, at), self.value(against, at))
                return {} if all_causes(point) else _envelope_margins(self._corners(name.text), point)
            case _:
                return {}

    def _room(
        self, side: str, greater: tree.Expression, lesser: tree.Expression, at: Moment
    ) -> dict[str, Fraction]:
        room = calculated(lambda a, b: a - b, self.value(greater, at), self.value(lesser, at))
        return {} if isinstance(room, Unknown) else {side: room}

    def _range(self, name: str) -> Outcome:
        """The range of a load or a tank; a load that comes in steps must be a whole number of them."""
        place = (self.sheet.loads | self.sheet.tanks)[name]
        amount, steps = self._stated(name), clause(place, tree.Steps)
        if isinstance(amount, Unknown):
            return Outcome("undetermined", causes=amount.causes)
        margins = {
            "to least": amount - figure(place.range.least),
            "to most": figure(place.range.most) - amount,
        }
        in_steps = not isinstance(steps, tree.Steps) or amount % figure(steps.step) == 0
        return Outcome("within" if in_steps and min(margins.values()) >= 0 else "outside", margins)

    def _burn(self) -> Outcome:
        """No more is burned than is aboard; while no trip fuel is stated, for taxiing alone."""
        burned = [self._stated(name) for name in ("taxi_fuel", "trip_fuel") if name in self.request]
        if not burned:
            return Outcome("not applicable")
        aboard = [self._stated(tank) for tank in self.sheet.tanks]
        waiting = all_causes([*burned, *aboard])
        if waiting is not None:
            return Outcome("undetermined", causes=waiting.causes)
        room = sum(aboard) - sum(burned)
        return Outcome("within" if room >= 0 else "outside", {"to most": room})


def _worst(outcomes: list[Outcome]) -> Outcome:
    """The outcome of a limit from those at each moment: one that is broken breaks it, then an open one."""
    verdicts = {each.verdict for each in outcomes}
    verdict = next(each for each in ("outside", "undetermined", "within", "not applicable") if each in verdicts)
    if verdict == "undetermined":
        return Outcome(verdict, causes=frozenset().union(*(each.causes for each in outcomes)))
    applying = [each.margins for each in outcomes if each.verdict in ("within", "outside")]
    sides = set[str]().union(*applying)
    least = {
        side: min(margins[side] for margins in applying)
        for side in sides
        if all(side in margins for margins in applying)
    }
    return Outcome(verdict, least)


def _envelope_margins(corners: list[Point], point: Point) -> dict[str, Fraction]:
    """The room in the four directions; for a point outside, how far it is beyond the nearest way in."""
    crosswise, (x, y) = turned(corners), point
    if covers(corners, point):
        forward, aft = room_along(corners, point)
        lighter, heavier = room_along(crosswise, (y, x))
        return {"forward": forward, "aft": aft, "lighter": lighter, "heavier": heavier}
    ahead, behind = boundary_along(corners, y), boundary_along(crosswise, x)
    beyond = {
        "forward": [x - at for at in ahead if at > x],
        "aft": [at - x for at in ahead if at < x],
        "lighter": [y - at for at in behind if at > y],
        "heavier": [at - y for at in behind if at < y],
    }
    return {side: max(rooms) for side, rooms in beyond.items() if rooms}


def _rank(outcome: Outcome) -> tuple[int, Fraction]:
    """Outside before open before within; among equals the one with the least room."""
    order = {"outside": 0, "undetermined": 1, "within": 2, "not applicable": 3}
    return order[outcome.verdict], min(outcome.margins.values(), default=Fraction(0))
