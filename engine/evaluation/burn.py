"""The burn: what each tank holds at take-off, at landing and at every moment in between.

Amounts are in the dimension of the tanks, a volume or a mass. Within a segment every tank changes evenly
with the amount burned. No tank is drawn below its level, so more than there is cannot be burned; that the
fuel is enough is for the built-in limit to say.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from engine.evaluation.expressions import read_input
from engine.evaluation.ratio import Amount, moving
from engine.evaluation.result import FuelState, Gap, Number
from engine.evaluation.workings import Workings, gap_among
from grammar.sheet import Burn, BurnStep, Input, Sheet, Stage, Tank

Levels = tuple[Number, ...]
"""What each tank of the sheet holds, in the order of the sheet."""


@dataclass(frozen=True, slots=True)
class Segment:
    """A part of the burn in which each tank changes evenly: by ``rates`` for each unit burned."""

    start: Fraction
    end: Fraction
    levels: Levels
    rates: tuple[Fraction, ...]

    def at(self, burned: Fraction) -> Levels:
        """What each tank holds once so much is burned."""
        pairs = zip(self.levels, self.rates, strict=True)
        return tuple(
            level if isinstance(level, Gap) else level + rate * (burned - self.start) for level, rate in pairs
        )

    def over(self) -> tuple[Amount | Gap, ...]:
        """What each tank holds, as a value that moves with the amount burned."""
        pairs = zip(self.levels, self.rates, strict=True)
        return tuple(
            level if isinstance(level, Gap) else moving(level - rate * self.start, rate) for level, rate in pairs
        )


@dataclass(frozen=True, slots=True)
class Course:
    """A burn from its start: segment by segment to the levels at its end.

    ``beyond`` has the levels of the moments that cannot be followed, because the amount in a tank, or how
    much is burned, is not known; None where the burn is known down to its end.
    """

    segments: tuple[Segment, ...]
    end: Levels
    beyond: Levels | None

    @property
    def last(self) -> Levels:
        """The levels at the very end, as far as they are known."""
        return self.end if self.beyond is None else self.beyond

    @property
    def burned(self) -> Fraction:
        """How much is burned along the segments."""
        return self.segments[-1].end if self.segments else Fraction(0)

    def state(self, burned: Fraction) -> FuelState | None:
        """The state of the tanks once so much is burned; None where a tank's amount is not known."""
        levels = next((part.at(burned) for part in self.segments if burned <= part.end), self.end)
        known = tuple(level for level in levels if not isinstance(level, Gap))
        return FuelState(burned, known) if len(known) == len(levels) else None


@dataclass(frozen=True, slots=True)
class BurnStages:
    """What the tanks hold at take-off and at landing, and the course from the one towards the other."""

    takeoff: Levels
    landing: Levels
    throughout: Course


def burn_stages(sheet: Sheet, known: Workings) -> BurnStages:
    """The stages of the burn for what is stated. Without a trip fuel the course goes on to the last drop."""
    ramp = tuple(_level(tank, known) for tank in sheet.tanks)
    if sheet.burn is None:
        return BurnStages(ramp, ramp, Course((), ramp, None))
    taxi, trip = _amount(sheet.burn.taxi, known), _amount(sheet.burn.trip, known)
    takeoff = _course(sheet, sheet.burn, ramp, taxi).last
    flight = _course(sheet, sheet.burn, takeoff, trip)
    if sheet.burn.trip.name in known.loading.stated:
        return BurnStages(takeoff, flight.last, flight)
    return BurnStages(takeoff, flight.last, _course(sheet, sheet.burn, takeoff, None))


def amounts_by_stage(sheet: Sheet, stages: BurnStages) -> dict[tuple[str, Stage], Amount | Gap]:
    """The fuel amounts that stand still, by tank and stage."""
    amounts: dict[tuple[str, Stage], Amount | Gap] = {}
    for stage, levels in ((Stage.TAKEOFF, stages.takeoff), (Stage.LANDING, stages.landing)):
        amounts |= amounts_at(sheet, stage, levels)
    return amounts


def amounts_at(
    sheet: Sheet, stage: Stage, levels: tuple[Amount | Gap, ...]
) -> dict[tuple[str, Stage], Amount | Gap]:
    """The amount in each tank at a stage, by the tank's name."""
    return {(tank.input.name, stage): level for tank, level in zip(sheet.tanks, levels, strict=True)}


def _level(tank: Tank, known: Workings) -> Number:
    return _amount(tank.input, known)


def _amount(which: Input, known: Workings) -> Number:
    value = read_input(which, known)
    if isinstance(value, str):
        raise TypeError(f"{which.name} is no amount: {value!r}")
    return value


def _course(sheet: Sheet, burn: Burn, levels: Levels, amount: Number | None) -> Course:
    """The course of burning an amount (None: all there is) from these levels."""
    if isinstance(amount, Gap):
        return Course((), levels, _unknown(sheet, burn.steps, levels, amount))
    segments: list[Segment] = []
    burned = Fraction(0)
    for index, step in enumerate(burn.steps):
        if burned == amount:
            break
        gap = gap_among(levels[at] for at in _members(sheet, step))
        if gap is not None:
            return Course(tuple(segments), levels, _unknown(sheet, burn.steps[index:], levels, gap))
        for segment in _segments(sheet, step, levels, burned, amount):
            segments.append(segment)
            burned, levels = segment.end, segment.at(segment.end)
    return Course(tuple(segments), levels, None)


def _segments(
    sheet: Sheet, step: BurnStep, levels: Levels, burned: Fraction, amount: Fraction | None
) -> Iterator[Segment]:
    """The segments of one step: one ends whenever a tank is down to its level."""
    members = _members(sheet, step)
    while amount is None or burned < amount:
        above = {at: level - step.down_to for at in members if not isinstance(level := levels[at], Gap)}
        drawn = {at: room for at, room in above.items() if room > 0}
        if not drawn:
            return
        most = min(drawn.values()) * len(drawn)
        end = burned + (most if amount is None else min(most, amount - burned))
        rates = tuple(Fraction(-1, len(drawn)) if at in drawn else Fraction(0) for at in range(len(levels)))
        segment = Segment(burned, end, levels, rates)
        yield segment
        burned, levels = end, segment.at(end)


def _members(sheet: Sheet, step: BurnStep) -> tuple[int, ...]:
    names = [tank.input.name for tank in sheet.tanks]
    return tuple(dict.fromkeys(names.index(tank.input.name) for tank in step.tanks))


def _unknown(sheet: Sheet, steps: tuple[BurnStep, ...], levels: Levels, why: Gap) -> Levels:
    """The levels with a gap in every tank that the steps draw from.

    What is left in a tank waits for all the tanks that are drawn from before or with it.
    """
    members = [_members(sheet, step) for step in steps]
    waiting: dict[int, Gap] = {}
    so_far = why
    for step in members:
        for at in step:
            level = levels[at]
            so_far = so_far | level if isinstance(level, Gap) else so_far
        waiting |= dict.fromkeys(step, so_far)
    return tuple(waiting.get(at, level) for at, level in enumerate(levels))
