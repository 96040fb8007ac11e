"""An independent evaluator of limit sheets: slow, plain, and written from the language's description.

It shares nothing with the program but the reading of text into a tree. It settles a claim that must hold
``throughout`` by looking, in exact arithmetic, at every change of tanks, at 60 fuel states evenly spread
between each two of them, and by closing in on the tightest of those. So it finds every excursion that has a
breadth of more than 1/60 of a stretch, and narrower ones of claims with a margin where the margin has one
lowest point nearby; it cannot prove that there is none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from functools import cached_property
from math import ceil, floor

from grammar import tree
from tests.reference.burn_order import draw, first_needing
from tests.reference.dates import months_later
from tests.reference.polygon import Point, covers, room_along, turned
from tests.reference.stated import (
    BUILT_IN_INPUTS,
    Known,
    Statements,
    clause,
    figure,
    tank_is_by_volume,
    unit_of,
    value_of,
)

SAMPLES = 60
"""Into how many parts a stretch of the burn is cut."""


@dataclass(frozen=True)
class Unknown:
    """A value that cannot be told, with what it waits for: ("missing", "front_seat") and the like."""

    causes: frozenset[tuple[str, str]]


Value = Known | Unknown


@dataclass(frozen=True)
class Moment:
    """A stage of the flight, or an amount of fuel burned since take-off."""

    stage: str | None
    burned: Fraction | Unknown = Fraction(0)


@dataclass(frozen=True)
class Outcome:
    """How a limit came out. ``at`` is the amount burned where a limit that holds throughout is tightest."""

    verdict: str
    margins: Mapping[str, Fraction] = field(default_factory=dict)
    causes: frozenset[tuple[str, str]] = frozenset()
    at: Fraction | None = None


def unknown(kind: str, name: str) -> Unknown:
    return Unknown(frozenset({(kind, name)}))


def all_causes(values: Iterable[Value]) -> Unknown | None:
    """Everything that any of the values waits for; None where all are known."""
    causes = frozenset(cause for value in values if isinstance(value, Unknown) for cause in value.causes)
    return Unknown(causes) if causes else None


def calculated(calculate: Callable[..., Known], *values: Value) -> Value:
    """A value worked out from others, unknown where one of them is."""
    return all_causes(values) or calculate(*values)


def every(truths: list[Value]) -> Value:
    """``and``: one false part settles it, else an unknown part leaves it open."""
    if any(truth is False for truth in truths):
        return False
    return all_causes(truths) or True


def some(truths: list[Value]) -> Value:
    """``or``: one true part settles it, else an unknown part leaves it open."""
    if any(truth is True for truth in truths):
        return True
    return all_causes(truths) or False


def times(left: Value, right: Value) -> Value:
    """A product; nothing times whatever it may be is nothing."""
    if left == 0 or right == 0:
        return Fraction(0)
    return calculated(lambda a, b: a * b, left, right)


def denied(truth: Value) -> Value:
    return truth if isinstance(truth, Unknown) else not truth


class Evaluator:
    """One sheet and one request. ``look_also_at`` are amounts burned at which it looks besides its own."""

    def __init__(
        self, file: tree.File, request: Mapping[str, str], look_also_at: Iterable[Fraction] = ()
    ) -> None:
        self.sheet = Statements(file)
        self.request = request
        self.look_also_at = tuple(look_also_at)
        self.found: dict[tuple[str, Moment], Value] = {}

    # ---- limits

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
        end = trip if not isinstance(trip, Unknown) else max(changes) - taxi
        marks = sorted({Fraction(0), max(end, Fraction(0)), *(c - taxi for c in changes if 0 < c - taxi < end)})
        between = [
            low + (high - low) * part / SAMPLES
            for low, high in zip(marks, marks[1:], strict=False)
            for part in range(SAMPLES)
        ]
        named = [burned for burned in self.look_also_at if 0 <= burned <= marks[-1]]
        return sorted({*between, *named, marks[-1]})

    def at_fuel_state(self, limit: tree.Limit, burned: Fraction) -> Outcome:
        """How the claim of a limit that holds throughout comes out at one amount burned."""
        return self._claimed(limit.claim, Moment("throughout", burned))

    def _limit(self, limit: tree.Limit) -> Outcome:
        at = Moment(limit.stage.stage.text if isinstance(limit.stage, tree.At) else None)
        throughout = isinstance(limit.stage, tree.Throughout)
        when = clause(limit, tree.When)
        applies = self.value(when.condition, at) if isinstance(when, tree.When) else True
        if applies is False:
            return Outcome("not applicable")
        outcome = self._throughout(limit) if throughout else self._claimed(limit.claim, at)
        if isinstance(applies, Unknown) and outcome.verdict != "within":
            return Outcome("undetermined", causes=applies.causes | outcome.causes)
        return outcome

    def _throughout(self, limit: tree.Limit) -> Outcome:
        waiting = all_causes([self._stated(tank) for tank in self.sheet.tanks])
        return self._followed(limit) if waiting is None else self._not_followed(limit, waiting)

    def _not_followed(self, limit: tree.Limit, waiting: Unknown) -> Outcome:
        """What can be said while a tank's amount is not known: of take-off, and of a burn without a measure."""
        moments = (Moment("throughout"), Moment("throughout", waiting))
        first, beyond = (self._claimed(limit.claim, at) for at in moments)
        if "outside" in (first.verdict, beyond.verdict):
            return Outcome("outside")
        if first.verdict == beyond.verdict == "within":
            return first
        return Outcome("undetermined", causes=first.causes | beyond.causes)

    def _followed(self, limit: tree.Limit) -> Outcome:
        states = {burned: self.at_fuel_state(limit, burned) for burned in self.fuel_states()}
        tightest = min(states, key=lambda burned: (_rank(states[burned]), burned))
        if states[tightest].margins:
            tightest = self._closed_in(limit, tightest, sorted(states))
            states[tightest] = self.at_fuel_state(limit, tightest)
        verdicts = {each.verdict for each in states.values()}
        if "outside" not in verdicts and "undetermined" in verdicts:
            return Outcome("undetermined", causes=frozenset().union(*(s.causes for s in states.values())))
        least = {
            side: min(state.margins[side] for state in states.values())
            for side in states[tightest].margins
            if all(side in state.margins for state in states.values())
        }
        return Outcome("outside" if "outside" in verdicts else "within", least, at=tightest)

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
        declared = (self.sheet.loads | self.sheet.tanks)[name].range
        amount = self._stated(name)
        if isinstance(amount, Unknown):
            return Outcome("undetermined", causes=amount.causes)
        margins = {"to least": amount - figure(declared.least), "to most": figure(declared.most) - amount}
        return Outcome("outside" if min(margins.values()) < 0 else "within", margins)

    def _burn(self) -> Outcome:
        if "taxi_fuel" not in self.request and "trip_fuel" not in self.request:
            return Outcome("not applicable")
        aboard = [self._stated(tank) for tank in self.sheet.tanks]
        parts = [self._stated("taxi_fuel"), self._stated("trip_fuel"), *aboard]
        room = calculated(lambda taxi, trip, *tanks: sum(tanks) - taxi - trip, *parts)
        if isinstance(room, Unknown):
            return Outcome("undetermined", causes=room.causes)
        return Outcome("within" if room >= 0 else "outside", {"to most": room})

    # ---- what is stated

    def _stated(self, name: str) -> Value:
        """What the request says of an input, in base units, or what is taken when it says nothing."""
        if name in self.request:
            return self._amount(name, self.request[name])
        place = (self.sheet.loads | self.sheet.tanks).get(name)
        if name == "taxi_fuel" or (place is not None and clause(place, tree.AssumedEmpty)):
            return Fraction(0)
        return unknown("missing", name)

    def _amount(self, name: str, text: str) -> Value:
        """A tank's fuel and the fuel burned may be stated as a mass or a volume; it is kept as declared."""
        value, unit = value_of(text), unit_of(text)
        fuel = name in self.sheet.tanks or name in ("taxi_fuel", "trip_fuel")
        if not fuel:
            return value
        tank = self.sheet.tanks.get(name) or next(iter(self.sheet.tanks.values()))
        stated_by_volume = unit in ("m3", "L", "USgal", "USqt", "impgal", "ft3")
        if stated_by_volume == tank_is_by_volume(tank):
            return value
        density = self._density(tank)
        if stated_by_volume:
            return calculated(lambda volume, each: volume * each, value, density)
        return calculated(lambda mass, each: mass / each, value, density)

    def _input(self, name: str) -> Value:
        """A given or a fact; beyond its declared range it is as good as missing."""
        value = self._stated(name)
        declared = self.sheet.inputs.get(name)
        if isinstance(value, Unknown) or declared is None:
            return value
        information = declared.information
        if isinstance(information, tree.Measured) and information.range is not None:
            unit = information.unit.text if information.unit else None
            least, most = (figure(end, unit) for end in (information.range.least, information.range.most))
            if not least <= value <= most:
                return unknown("out of range", name)
        return value

    # ---- fuel

    def _amounts(self) -> dict[str, Fraction]:
        return {tank: self._stated(tank) for tank in self.sheet.tanks}

    def _tank(self, name: str, at: Moment) -> Value:
        """What a tank holds at a moment, in the dimension that it is declared in."""
        if at.stage == "zero_fuel":
            return Fraction(0)
        if at.stage == "ramp":
            return self._stated(name)
        used = [self._stated("taxi_fuel"), at.burned]
        if at.stage == "landing":
            used.append(self._stated("trip_fuel"))
        wanted, steps, stated = all_causes(used), self.sheet.burn_steps(), self._amounts()
        known = {tank: amount for tank, amount in stated.items() if not isinstance(amount, Unknown)}
        first = 0 if wanted is not None else first_needing(known, steps, sum(used))
        if first is None:
            return draw(known, steps, sum(used))[0][name] if name in known else stated[name]
        waiting = [tank for step in steps[first:] for tank in step.tanks]
        before = draw(known, steps[:first], Fraction(0) if wanted else sum(used))[0]
        if name not in waiting:
            return before.get(name, stated[name])
        needed = [stated[tank] for tank in steps[first].tanks] if wanted is None else [wanted]
        return all_causes([stated[name], *needed]) or stated[name]

    def _density(self, tank: tree.Fuel) -> Value:
        written = clause(tank, tree.Density)
        return self.value(written.amount, Moment(None)) if isinstance(written, tree.Density) else Fraction(1)

    def _tank_mass(self, name: str, at: Moment) -> Value:
        amount, tank = self._tank(name, at), self.sheet.tanks[name]
        if not tank_is_by_volume(tank):
            return amount
        return times(amount, self._density(tank))

    def _tank_volume(self, name: str, at: Moment) -> Value:
        amount, tank = self._tank(name, at), self.sheet.tanks[name]
        if tank_is_by_volume(tank):
            return amount
        return calculated(lambda mass, density: mass / density, amount, self._density(tank))

    # ---- mass and balance

    def _items(self, at: Moment) -> dict[str, Value]:
        """The mass of everything aboard, by name."""
        masses = {"empty_mass": self._stated("empty_mass")}
        masses |= {name: self._stated(name) for name in self.sheet.loads}
        return masses | {name: self._tank_mass(name, at) for name in self.sheet.tanks}

    def _arm(self, name: str, lateral: bool) -> Value:
        if name == "empty_mass":
            return self._stated("empty_lateral_arm" if lateral else "empty_arm")
        written = clause((self.sheet.loads | self.sheet.tanks)[name], tree.LateralArm if lateral else tree.Arm)
        return self.value(written.length, Moment(None)) if written is not None else Fraction(0)

    def _built_in(self, name: str, at: Moment) -> Value:
        if (name, at) not in self.found:
            self.found[name, at] = self._worked_out(name, at)
        return self.found[name, at]

    def _worked_out(self, name: str, at: Moment) -> Value:
        match name:
            case "mass":
                return calculated(lambda *masses: sum(masses), *self._items(at).values())
            case "fuel":
                tanks = [self._tank_mass(tank, at) for tank in self.sheet.tanks]
                return calculated(lambda *masses: sum(masses), *tanks)
            case "moment" | "lateral_moment":
                moments = [
                    times(mass, self._arm(item, name == "lateral_moment"))
                    for item, mass in self._items(at).items()
                ]
                return calculated(lambda *parts: sum(parts), *moments)
            case "cg" | "lateral_cg":
                moment = self._built_in("moment" if name == "cg" else "lateral_moment", at)
                return calculated(lambda total, mass: total / mass, moment, self._built_in("mass", at))
            case "cg_percent_mac":
                chord = self.sheet.chord
                start, length = figure(chord.start), figure(chord.length)
                return calculated(lambda cg: 100 * (cg - start) / length, self._built_in("cg", at))
            case _:
                raise KeyError(name)

    # ---- expressions

    def value(self, node: tree.Expression, at: Moment) -> Value:
        """What an expression or a condition comes to at a moment of the flight."""
        match node:
            case tree.Quantity(figure=written):
                return figure(written)
            case tree.DateLiteral(day=day):
                return Fraction(date.fromisoformat(day.text).toordinal())
            case tree.Group(of=inner):
                return self.value(inner, at)
            case tree.AtStage(of=inner, stage=stage):
                return self.value(inner, Moment(stage.text))
            case tree.Reference(name=name):
                return self._reference(name.text, at)
            case tree.Call(name=name, arguments=arguments):
                return self._call(name.text, arguments, at)
            case tree.Negative(of=inner):
                return calculated(lambda value: -value, self.value(inner, at))
            case tree.Arithmetic():
                return self._arithmetic(node, at)
            case tree.Round(of=inner, step=step, upward=upward):
                way = ceil if upward else floor
                return calculated(
                    lambda value: way(value / figure(step)) * figure(step), self.value(inner, at)
                )
            case tree.Choice():
                return self._choice(node, at)
            case _:
                return self._condition(node, at)

    def _reference(self, name: str, at: Moment) -> Value:
        if name in self.sheet.lets:
            return self.value(self.sheet.lets[name].value, at)
        if name in self.sheet.loads:
            return self._stated(name)
        if name in self.sheet.tanks:
            return self._tank_mass(name, at)
        if name in self.sheet.inputs or name in BUILT_IN_INPUTS:
            return self._input(name)
        try:
            return self._built_in(name, at)
        except KeyError:
            return name  # an option's word

    def _call(self, name: str, arguments: tuple[tree.Expression, ...], at: Moment) -> Value:
        if name in self.sheet.tables:
            return self._look_up(self.sheet.tables[name], [self.value(each, at) for each in arguments])
        match name:
            case "min" | "max":
                return calculated(
                    lambda *each: min(each) if name == "min" else max(each),
                    *(self.value(each, at) for each in arguments),
                )
            case "abs":
                return calculated(abs, self.value(arguments[0], at))
            case "count":
                truths = [calculated(lambda mass: mass > 0, self.value(each, at)) for each in arguments]
                return calculated(lambda *each: Fraction(sum(each)), *truths)
            case "volume":
                tank = arguments[0]
                moment = at
                if isinstance(tank, tree.AtStage):
                    tank, moment = tank.of, Moment(tank.stage.text)
                assert isinstance(tank, tree.Reference)
                return self._tank_volume(tank.name.text, moment)
            case "bound":
                assert isinstance(arguments[0], tree.Reference)
                return self._bound(self.sheet.limits[arguments[0].name.text], at)
            case _:
                raise KeyError(name)

    def _bound(self, limit: tree.Limit, at: Moment) -> Value:
        claim = limit.claim
        while isinstance(claim, tree.Group):
            claim = claim.of
        assert isinstance(claim, tree.Comparison)
        stage = Moment(limit.stage.stage.text) if isinstance(limit.stage, tree.At) else at
        return self.value(claim.right, stage)

    def _arithmetic(self, node: tree.Arithmetic, at: Moment) -> Value:
        sign = -1 if node.operation is tree.Operation.SUBTRACT else 1
        unit = node.right.figure.unit if isinstance(node.right, tree.Quantity) else None
        left = self.value(node.left, at)
        if unit is not None and unit.text.rstrip("s") in ("month", "year"):
            months = sign * int(node.right.figure.amount) * (12 if unit.text.startswith("year") else 1)
            return calculated(lambda day: months_later(day, months), left)
        right = self.value(node.right, at)
        match node.operation:
            case tree.Operation.ADD | tree.Operation.SUBTRACT:
                return calculated(lambda a, b: a + sign * b, left, right)
            case tree.Operation.MULTIPLY:
                return times(left, right)
            case tree.Operation.DIVIDE:
                if right == 0:
                    return unknown("divided by zero", "")
                return calculated(lambda a, b: a / b, left, right)

    def _choice(self, node: tree.Choice, at: Moment) -> Value:
        """The value of the first case that holds; while a guard is open, all that may follow must agree."""
        possible: list[Value] = []
        open_guards: list[Value] = []
        for branch in node.branches:
            guard = self.value(branch.guard, at)
            if guard is False:
                continue
            possible.append(self.value(branch.value, at))
            if guard is True:
                break
            open_guards.append(guard)
        else:
            if node.otherwise is not None:
                possible.append(self.value(node.otherwise, at))
        known = not any(isinstance(value, Unknown) for value in possible)
        if known and len(set(possible)) == 1:
            return possible[0]
        causes = all_causes([*open_guards, *possible])
        assert causes is not None
        return causes

    def _look_up(self, table: tree.Table, values: list[Value]) -> Value:
        open_points = all_causes(values)
        if open_points is not None:
            return open_points
        if len(table.axes) == 1:
            return self._one_axis(table, values)
        return self._two_axes(table, values)

    def _one_axis(self, table: tree.Table, values: list[Value]) -> Value:
        along, gives = table.axes[0].unit.text, table.gives.text
        line = [
            (figure(row.cells[0], along), figure(row.cells[1], gives))
            for row in table.rows
            if not isinstance(row.cells[0], tree.Word | None)
        ]
        value = _interpolated(line, values[0])
        return value if value is not None else unknown("out of table", table.name.text)

    def _two_axes(self, table: tree.Table, values: list[Value]) -> Value:
        (down, across), gives = (axis.unit.text for axis in table.axes), table.gives.text
        heading, *rows = table.rows
        columns = [figure(cell, across) for cell in heading.cells[1:]]
        line = []
        for row in rows:
            printed = [figure(cell, gives) for cell in row.cells[1:]]
            line.append(
                (
                    figure(row.cells[0], down),
                    _interpolated(list(zip(columns, printed, strict=True)), values[1]),
                )
            )
        if any(at_column is None for _, at_column in line):
            return unknown("out of table", table.name.text)
        value = _interpolated(line, values[0])
        return value if value is not None else unknown("out of table", table.name.text)

    # ---- conditions

    def _condition(self, node: tree.Expression, at: Moment) -> Value:
        match node:
            case tree.AllOf(parts=parts):
                return every([self.value(part, at) for part in parts])
            case tree.AnyOf(parts=parts):
                return some([self.value(part, at) for part in parts])
            case tree.Not(of=inner):
                return denied(self.value(inner, at))
            case tree.Comparison(relation=relation, left=left, right=right):
                hold = {
                    tree.Relation.AT_MOST: lambda a, b: a <= b,
                    tree.Relation.AT_LEAST: lambda a, b: a >= b,
                    tree.Relation.BELOW: lambda a, b: a < b,
                    tree.Relation.ABOVE: lambda a, b: a > b,
                }[relation]
                return calculated(hold, self.value(left, at), self.value(right, at))
            case tree.Between(subject=subject, low=low, high=high):
                value = self.value(subject, at)
                ends = (self.value(low, at), self.value(high, at))
                return every(
                    [
                        calculated(lambda a, b: a >= b, value, ends[0]),
                        calculated(lambda a, b: a <= b, value, ends[1]),
                    ]
                )
            case tree.Inside(across=across, against=against, envelope=tree.Reference(name=name)):
                corners = self._corners(name.text)
                point = (self.value(across, at), self.value(against, at))
                return calculated(lambda *known: covers(corners, known), *point)
            case tree.Is(subject=subject, state=state, negated=negated):
                truth = self._is(self.value(subject, at), state, at)
                return denied(truth) if negated else truth
            case _:
                raise TypeError(type(node))

    def _is(self, value: Value, state: tree.Expression | tree.Word, at: Moment) -> Value:
        if not isinstance(state, tree.Word):
            return calculated(lambda a, b: a == b, value, self.value(state, at))
        if state.text in ("yes", "no"):
            return calculated(lambda word: word == state.text, value)
        return calculated(lambda mass: (mass > 0) == (state.text == "occupied"), value)

    def _corners(self, name: str) -> list[Point]:
        printed = self.sheet.envelopes[name]
        across, against = printed.across.unit.text, printed.against.unit.text
        return [
            (figure(row.cells[0], across), figure(row.cells[1], against))
            for row in printed.rows
            if not isinstance(row.cells[0], tree.Word | None)
        ]


def _interpolated(line: list[tuple[Fraction, Fraction | None]], at: Fraction) -> Fraction | None:
    """The value of a printed line at a point, straight between the printed points, None beyond them."""
    for (x1, y1), (x2, y2) in zip(line, line[1:], strict=False):
        if x1 <= at <= x2:
            return None if y1 is None or y2 is None else y1 + (at - x1) * (y2 - y1) / (x2 - x1)
    return None


def _envelope_margins(corners: list[Point], point: Point) -> dict[str, Fraction]:
    """The room in the four directions, for a point that is inside."""
    if not covers(corners, point):
        return {}
    forward, aft = room_along(corners, point)
    lighter, heavier = room_along(turned(corners), (point[1], point[0]))
    return {"forward": forward, "aft": aft, "lighter": lighter, "heavier": heavier}


def _rank(outcome: Outcome) -> tuple[int, Fraction]:
    """Outside before open before within; among equals the one with the least room."""
    order = {"outside": 0, "undetermined": 1, "within": 2}
    return order[outcome.verdict], min(outcome.margins.values(), default=Fraction(0))
