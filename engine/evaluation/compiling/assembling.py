"""A whole sheet into code: one function for the verdicts and one for every value on the way."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, field

from engine.evaluation.compiling.burning import Drawing, tuple_of
from engine.evaluation.compiling.data import Data
from engine.evaluation.compiling.forms import ONE, Form, named
from engine.evaluation.compiling.layout import (
    ASK_THE_SWEEP,
    Chosen,
    Divided,
    Known,
    Layout,
    MovingLayout,
    Scaled,
    Settled,
    SideLayout,
    SlotLayout,
    Unused,
)
from engine.evaluation.compiling.moving import Moving, MovingWriter, Written
from engine.evaluation.compiling.nodes import translate
from engine.evaluation.compiling.parts import Parts, SweptVerdict
from engine.evaluation.compiling.translation import Test, Translation
from engine.evaluation.compiling.writer import BeyondCompiling, Writer
from engine.evaluation.workings import Node
from grammar.sheet import Input, Limit, Numeric, Option, Role, Stage


@dataclass(frozen=True, slots=True)
class Code:
    """The text of a function and the data that it refers to."""

    source: str
    data: Data


TURNS = "turns"


def verdict_code(parts: Parts) -> Code:
    """The function from a sheet's numbers to the verdict on each limit."""
    assembly = _begin(parts, keeps_all=False)
    translate(parts.plan.still, assembly.standing)
    names = [assembly.verdict(at, limit) for at, limit in enumerate(parts.sheet.limits)]
    return assembly.finished("verdicts", tuple(names))


def value_code(parts: Parts) -> tuple[Code, Layout]:
    """The function from a sheet's numbers to every value on the way, and where each stands."""
    assembly = _begin(parts, keeps_all=True)
    translate(parts.plan.still, assembly.standing)
    slots = _Slots(parts)
    verdicts: list[int] = []
    moving: dict[int, MovingLayout] = {}
    for at, limit in enumerate(parts.sheet.limits):
        if at in parts.moving:
            verdicts.append(slots.place(assembly.moving_values(at, moving, slots)))
        else:
            verdicts.append(slots.place(assembly.standing_verdict(limit)))
    slots.fill(parts.plan.still, assembly.standing)
    takeoff = slots.place(f"{TURNS}[0]") if parts.moving else None
    layout = Layout(tuple(slots.found), tuple(verdicts), moving, takeoff, parts.fuel_step)
    return assembly.finished("values", tuple(slots.names)), layout


# ---- the beginning


def _begin(parts: Parts, *, keeps_all: bool) -> _Assembly:
    """A function's head: its numbers by name, and the fuel at each stage."""
    writer, data = Writer(keeps_all), Data()
    data.function("bisect_left", bisect_left)
    data.function("bisect_right", bisect_right)
    names = {item.name: f"v{at}" for at, item in enumerate(parts.needed)}
    flags = {item.name: f"f{at}" for at, item in enumerate(parts.flagged)}
    for name in (*names.values(), *flags.values()):
        writer.degrees[name] = 0
    for item in parts.needed:
        least = parts.statement.least(item.name)
        if least is not None:
            writer.leasts[names[item.name]] = least
        if item.role is Role.TANK:
            writer.late.add(names[item.name])
    if names:
        writer.line(f"{tuple_of((*names.values(), *flags.values()))} = numbers")
    standing = Translation(
        writer,
        data,
        {item.name: _input_form(item, names[item.name], parts) for item in parts.needed},
        {name: Test(f"{flag} == 1", 0, False) for name, flag in flags.items()},
        parts.number_of(),
        parts.shared,
    )
    _write_fuel(parts, standing, names)
    return _Assembly(parts, standing)


def _input_form(item: Input, name: str, parts: Parts) -> Form:
    return named(name, ONE if isinstance(item.kind, Option) else parts.steps[item.name])


def _write_fuel(parts: Parts, standing: Translation, names: dict[str, str]) -> None:
    """What the tanks hold at take-off, at every turn of the burn and at landing."""
    writer, burn = standing.writer, parts.sheet.burn
    if not parts.stages:
        return
    takeoff = tuple(f"t{at}" for at in range(len(parts.sheet.tanks)))
    for level, tank in zip(takeoff, parts.sheet.tanks, strict=True):
        writer.line(f"{level} = {names[tank.input.name]}")
    drawing = Drawing(parts.sheet, takeoff, parts.fuel_step, None, writer, standing.data)
    if burn is not None:
        drawing.write(burn, names[burn.taxi.name])
    _enter(parts, standing, Stage.TAKEOFF, takeoff)
    if parts.stages & {Stage.LANDING, Stage.THROUGHOUT}:
        landing = tuple(f"l{at}" for at in range(len(parts.sheet.tanks)))
        writer.line(f"{', '.join(landing)}, = {tuple_of(takeoff)}")
        turns = TURNS if parts.moving else None
        if turns is not None:
            writer.line(f"{turns} = [{tuple_of(takeoff)}]")
        if burn is not None:
            flight = Drawing(parts.sheet, landing, parts.fuel_step, turns, writer, standing.data)
            flight.write(burn, names[burn.trip.name])
        _enter(parts, standing, Stage.LANDING, landing)


def _enter(parts: Parts, standing: Translation, stage: Stage, levels: tuple[str, ...]) -> None:
    for tank, level in zip(parts.sheet.tanks, levels, strict=True):
        standing.writer.degrees[level] = 0
        standing.writer.late.add(level)
        standing.writer.leasts[level] = 0
        standing.fuel[tank.input.name, stage] = named(level, parts.fuel_step)


# ---- the middle


@dataclass(slots=True)
class _Assembly:
    """A function with everything that stands still translated."""

    parts: Parts
    standing: Translation

    def finished(self, name: str, returned: tuple[str, ...]) -> Code:
        """The whole function."""
        lines = [f"def {name}(numbers):", *self.standing.writer.lines, f"    return {tuple_of(returned)}"]
        return Code("\n".join(lines) + "\n", self.standing.data)

    def verdict(self, at: int, limit: Limit) -> str:
        """Code for the verdict on a limit."""
        if at not in self.parts.moving:
            return self.standing_verdict(limit)
        moving = self.parts.moving[at]
        if moving is None:
            return self._swept(at)
        try:
            with self.standing.writer.attempt():
                return self._moving_writer().write_verdict(moving)
        except BeyondCompiling:
            return self._swept(at)

    def standing_verdict(self, limit: Limit) -> str:
        """Code for the verdict on a limit that stands still."""
        claim = self.standing.test(limit.claim)
        if limit.applies_when is None:
            return claim.text
        applies = self.standing.test(limit.applies_when)
        if applies.known is not None:
            return claim.text if applies.known else "None"
        return f"({claim.text}) if ({applies.text}) else None"

    def _moving_writer(self) -> MovingWriter:
        return MovingWriter(self.parts.sheet.tanks, TURNS, self.parts.fuel_step, self.standing)

    def _swept(self, at: int) -> str:
        """Code that asks the plain sweep for a verdict."""
        writer, name = self.standing.writer, self.standing.writer.fresh()
        sweep = self.standing.data.function(f"sweep{at}", SweptVerdict(self.parts, at))
        writer.line(f"{name} = {sweep}(numbers)")
        writer.line(f"if {name} == {ASK_THE_SWEEP}: return None")
        return name

    def moving_values(self, at: int, layouts: dict[int, MovingLayout], slots: _Slots) -> str:
        """Code for a moving limit's verdict, margins and values where it is tightest."""
        moving = self.parts.moving[at]
        if moving is None:
            return str(ASK_THE_SWEEP)
        try:
            with self.standing.writer.attempt():
                return self._settled_values(moving, at, layouts, slots)
        except BeyondCompiling:
            return str(ASK_THE_SWEEP)

    def _settled_values(self, moving: Moving, at: int, layouts: dict[int, MovingLayout], slots: _Slots) -> str:
        writer = self._moving_writer()
        written = writer.write_values(moving)
        levels = tuple(self.standing.writer.fresh(is_late=True) for _ in self.parts.sheet.tanks)
        self.standing.writer.leasts |= dict.fromkeys(levels, 0)
        self.standing.writer.line(f"{', '.join(levels)}, = {written.levels}")
        there = self.standing.at(writer.fuel(levels))
        translate(moving.nodes, there)
        slots.fill(moving.nodes, there)
        layouts[at] = MovingLayout(moving.claim, tuple(_sides(written, slots)), slots.place(written.levels))
        return written.verdict


def _sides(written: Written, slots: _Slots) -> Iterator[SideLayout]:
    for sided, best in written.sides:
        yield SideLayout(sided.side, slots.place(best), sided.scales)


# ---- where values stand


@dataclass(slots=True)
class _Slots:
    """The names that a function gives back, and what each slot is made of."""

    parts: Parts
    names: list[str] = field(default_factory=list)
    found: list[SlotLayout] = field(init=False)
    _places: dict[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.found = [Unused()] * self.parts.sheet.slots

    def place(self, name: str) -> int:
        """Where a name or a piece of code stands among what is given back."""
        if name not in self._places:
            self._places[name] = len(self.names)
            self.names.append(name)
        return self._places[name]

    def fill(self, nodes: tuple[Node, ...], so_far: Translation) -> None:
        """Note what the slots of the nodes are made of."""
        for node in nodes:
            if isinstance(node, Numeric):
                self.found[node.slot] = self._of_form(so_far.form(node), isinstance(node.kind, Option))
            else:
                test = so_far.test(node)
                self.found[node.slot] = Settled(self.place(test.text)) if test.known is None else Known(test.known)

    def _of_form(self, form: Form, is_word: bool) -> SlotLayout:
        if form.is_constant:
            return Known(self.parts.words[int(form.value)] if is_word else form.value)
        if form.single is None:
            raise BeyondCompiling("a value without a name")
        at = self.place(form.single)
        if is_word:
            return Chosen(at, self.parts.words)
        return Scaled(at, form.scale) if form.below is None else Divided(at, self.place(form.below), form.scale)
