"""What every expression and condition of a sheet comes to at a moment of the flight, worked out afresh."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import ceil, floor

from grammar import tree
from tests.reference.burn_order import draw, first_needing
from tests.reference.dates import months_later
from tests.reference.polygon import Point, covers
from tests.reference.stated import (
    BUILT_IN_INPUTS,
    Statements,
    clause,
    figure,
    is_by_volume,
    tank_is_by_volume,
    unit_of,
    value_of,
)
from tests.reference.three_valued import (
    Unknown,
    Value,
    all_causes,
    calculated,
    denied,
    every,
    some,
    times,
    unknown,
)


@dataclass(frozen=True)
class Moment:
    """A stage of the flight, or an amount of fuel burned since take-off."""

    stage: str | None
    burned: Fraction | Unknown = Fraction(0)


class Values:
    """One sheet and one request, and every value that follows from them."""

    def __init__(self, file: tree.File, request: Mapping[str, str]) -> None:
        self.sheet = Statements(file)
        self.request = request
        self.found: dict[tuple[str, Moment], Value] = {}

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
        if name not in self.sheet.tanks and name not in ("taxi_fuel", "trip_fuel"):
            return value
        tank = self.sheet.tanks.get(name) or next(iter(self.sheet.tanks.values()))
        stated_by_volume = is_by_volume(unit)
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
        drawing = [at for at, step in enumerate(steps) if name in step.tanks]
        if first is not None and drawing[-1] >= first:
            needed = [tank for step in steps[first : drawing[-1] + 1] for tank in step.tanks]
            return all_causes([*used, *(stated[tank] for tank in needed)]) or stated[name]
        if name not in known:
            return stated[name]
        return draw(known, steps[:first], sum(used) if wanted is None else Fraction(0))[0][name]

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
                return calculated(lambda value: way(value / figure(step)) * figure(step), self.value(inner, at))
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
                assert isinstance(arguments[0], tree.Reference)
                return self._tank_volume(arguments[0].name.text, at)
            case "floor_loading":
                assert isinstance(arguments[0], tree.Reference)
                area = clause(self.sheet.loads[arguments[0].name.text], tree.FloorArea)
                assert isinstance(area, tree.FloorArea)
                return calculated(lambda mass: mass / figure(area.area), self.value(arguments[0], at))
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
    for (x1, y1), (x2, y2) in itertools.pairwise(line):
        if x1 <= at <= x2:
            return None if y1 is None or y2 is None else y1 + (at - x1) * (y2 - y1) / (x2 - x1)
    return None
