"""Limits that hold throughout the burn, in generated code.

A claim's room over the amount burned is, between two turns of the burn, a quotient of two straight lines;
such a quotient only grows or only shrinks, so its least value is at a turn. An edge of a convex envelope
gives a straight line too, or a parabola: one that opens downward is least at a turn, of one that opens
upward the lowest point is looked at as well. Whatever is none of these the plain sweep decides.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from fractions import Fraction

from engine.evaluation.compiling.burning import tuple_of
from engine.evaluation.compiling.comparing import joined, sign_test
from engine.evaluation.compiling.envelopes import edges, is_convex
from engine.evaluation.compiling.forms import Form, common_scale, named
from engine.evaluation.compiling.layout import ASK_THE_SWEEP
from engine.evaluation.compiling.least_rooms import (
    EnvelopeRooms,
    Sided,
    Weighting,
    leaning,
    may_turn,
    tightest,
    write_best,
)
from engine.evaluation.compiling.nodes import translate
from engine.evaluation.compiling.translation import KNOWN, Test, Translation
from engine.evaluation.compiling.writer import BENT, BeyondCompiling, Writer
from engine.evaluation.result import Side
from engine.evaluation.workings import Node
from grammar.sheet import (
    AtLeast,
    AtMost,
    Between,
    Claim,
    Condition,
    Expression,
    Inside,
    Limit,
    NamedCondition,
    Stage,
    Tank,
)


@dataclass(frozen=True, slots=True)
class Moving:
    """A limit that holds throughout the burn and its nodes that move, in working order."""

    limit: Limit
    claim: Claim
    nodes: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Written:
    """The names under which generated code holds a limit's verdict, levels where tightest, and sides."""

    verdict: str
    levels: str
    sides: tuple[tuple[Sided, str], ...]


def moving_limit(limit: Limit, nodes: tuple[Node, ...]) -> Moving:
    """A limit for the compiled way. Errors: BeyondCompiling where its claim or condition is not for it."""
    if limit.applies_when is not None and limit.applies_when.slot in {node.slot for node in nodes}:
        raise BeyondCompiling("a condition that moves with the burn")
    return Moving(limit, _claim(limit.claim), nodes)


def _claim(condition: Condition) -> Claim:
    while isinstance(condition, NamedCondition):
        condition = condition.body
    if isinstance(condition, (AtMost, AtLeast, Between, Inside)):
        return condition
    raise BeyondCompiling("several claims at once throughout the burn")


@dataclass(slots=True)
class MovingWriter:
    """Writes limits that hold throughout the burn.

    ``turns`` is the list of the tanks' levels at the turns of the burn, take-off first; ``step`` is what one
    whole number of fuel is worth.
    """

    tanks: tuple[Tank, ...]
    turns: str
    step: Fraction
    standing: Translation

    def write_verdict(self, moving: Moving) -> str:
        """Code for the verdict; the name that holds it."""
        writer = self.standing.writer
        verdict = writer.fresh()
        with self._where_it_applies(moving.limit, verdict):
            levels = self._levels()
            with writer.loop(f"for {', '.join(levels)}, in {self.turns}:"):
                so_far = self._translated(moving, levels)
                if isinstance(moving.claim, Inside):
                    self._write_edges(moving.claim, so_far, f"{verdict} = False")
                else:
                    tests = tuple(sign_test(side.room, ">=", so_far) for side in room_forms(moving.claim, so_far))
                    self._leave_unless(joined(tests, "and"), f"{verdict} = False")
        return verdict

    def write_values(self, moving: Moving) -> Written:
        """Code for the verdict, the least room of each side, and the levels where the limit is tightest."""
        writer = self.standing.writer
        verdict, tight = writer.fresh(), writer.fresh()
        bests = tuple(writer.fresh() for _ in range(_sides_of(moving.claim)))
        writer.line(f"{tight} = {self.turns}[0]")
        writer.line(" = ".join((*bests, "None")))
        with self._where_it_applies(moving.limit, verdict):
            levels = self._levels()
            writer.keeps_all = False
            with writer.loop(f"for {', '.join(levels)}, in {self.turns}:"):
                there = self._translated(_without_its_truth(moving), levels)
                sides, may_turn_between = self._write_rooms(moving.claim, there, verdict)
                for side, best in zip(sides, bests, strict=True):
                    write_best(side, best, levels, writer)
            writer.keeps_all = True
            self._ask_where_it_may_turn(verdict, may_turn_between)
            self._find_tightest(sides, bests, (verdict, tight))
        return Written(verdict, tight, tuple(zip(sides, bests, strict=True)))

    # ---- the frame

    @contextmanager
    def _where_it_applies(self, limit: Limit, verdict: str) -> Iterator[None]:
        writer = self.standing.writer
        test = KNOWN[True] if limit.applies_when is None else self.standing.test(limit.applies_when)
        if test.known is True:
            writer.line(f"{verdict} = True")
            yield
            return
        writer.line(f"{verdict} = None")
        with writer.block(f"if {test.text}:"):
            writer.line(f"{verdict} = True")
            yield

    def _levels(self) -> tuple[str, ...]:
        levels = tuple(self.standing.writer.fresh(1, is_late=True) for _ in self.tanks)
        self.standing.writer.leasts |= dict.fromkeys(levels, 0)
        return levels

    def _translated(self, moving: Moving, levels: tuple[str, ...]) -> Translation:
        so_far = self.standing.at(self.fuel(levels))
        translate(moving.nodes, so_far)
        return so_far

    def fuel(self, levels: tuple[str, ...]) -> dict[tuple[str, Stage], Form]:
        """The amounts of fuel at a moment of the burn."""
        pairs = zip(self.tanks, levels, strict=True)
        return {(tank.input.name, Stage.THROUGHOUT): named(level, self.step) for tank, level in pairs}

    def _leave_unless(self, test: Test, verdict: str) -> None:
        writer = self.standing.writer
        if test.known is not True:
            with writer.block(f"if not ({test.text}):"):
                writer.line(verdict)
                writer.line("break")

    # ---- edges of an envelope

    def _write_edges(self, claim: Inside, so_far: Translation, outside: str) -> None:
        """Leave the loop where the path leaves a convex envelope at a turn, or between it and the one before."""
        if not is_convex(claim.envelope.corners):
            raise BeyondCompiling("an envelope that is not convex, throughout the burn")
        found = edges(claim.envelope, so_far.form(claim.across), so_far.form(claim.against), so_far)
        tests = tuple(sign_test(edge, ">=", so_far) for edge in found)
        self._leave_unless(joined(tuple(dict.fromkeys(tests)), "and"), outside)
        for edge in found:
            self._write_lowest_point(edge, outside)

    def _write_lowest_point(self, edge: Form, outside: str) -> None:
        """Between two turns: a parabola that opens upward may dip below zero.

        With values f at the last turn and g at this one and a leading coefficient c over the unit interval,
        its lowest point lies between them where ``|g - f| < c``, and is ``f - (f + c - g)^2 / 4 c``.
        """
        writer = self.standing.writer
        square = square_above(edge, writer)
        if square is None:
            return
        root, k = square
        value = writer.name_of(edge.over(None))
        times = k * int(edge.scale / writer.single(edge.over(None)).scale)
        before, root_before, bend = writer.fresh(), writer.fresh(), writer.fresh()
        writer.before_block(f"{before} = None")
        with writer.block(f"if {before} is not None:"):
            writer.line(f"{bend} = {times} * ({root} - {root_before}) ** 2")
            dips = f"4 * {bend} * {before} < ({before} + {bend} - {value}) ** 2"
            with writer.block(f"if abs({value} - {before}) < {bend} and {dips}:"):
                writer.line(outside)
                writer.line("break")
        writer.line(f"{before}, {root_before} = {value}, {root}")

    # ---- rooms

    def _write_rooms(
        self, claim: Claim, so_far: Translation, verdict: str
    ) -> tuple[tuple[Sided, ...], str | None]:
        """The sides of a claim at the present turn, and a question for after the loop where one is needed."""
        if not isinstance(claim, Inside):
            return tuple(_sided(side, so_far.writer) for side in room_forms(claim, so_far)), None
        rooms = envelope_rooms(claim, so_far)
        sides, path = rooms.sides(), None
        self._leave_unless(Test(rooms.inside(sides), BENT, True), f"{verdict} = {ASK_THE_SWEEP}")
        if rooms.across.below is not None and leaning(rooms.corners, rooms.across.scale, rooms.against.scale):
            path = so_far.writer.fresh()
            so_far.writer.before_block(f"{path} = []")
            lean = so_far.data.add(leaning(rooms.corners, rooms.across.scale, rooms.against.scale))
            so_far.writer.line(f"{path}.append(({rooms.across.terms[0][0]}, {rooms.across.below}))")
            path = f"{so_far.data.function('may_turn', may_turn)}({lean}, {path})"
        return sides, path

    def _ask_where_it_may_turn(self, verdict: str, may_turn_between: str | None) -> None:
        writer = self.standing.writer
        if may_turn_between is not None:
            with writer.block(f"if {verdict} is True and {may_turn_between}:"):
                writer.line(f"{verdict} = {ASK_THE_SWEEP}")

    def _find_tightest(self, sides: tuple[Sided, ...], bests: tuple[str, ...], names: tuple[str, str]) -> None:
        writer, data = self.standing.writer, self.standing.data
        verdict, tight = names
        if sides[0].side not in (Side.FORWARD, Side.AFT):
            writer.line(f"{verdict} = {' and '.join(f'{best}[0] >= 0' for best in bests)}")
        if len(bests) == 1:
            writer.line(f"{tight} = {bests[0]}[6:]")
            return
        call = f"{data.function('tightest', tightest)}({tuple_of(bests)}, {data.add(_weightings(sides))})"
        with writer.block(f"if {verdict} != {ASK_THE_SWEEP}:"):
            writer.line(f"{tight} = {tuple_of(bests)}[{call}][6:]")


def _without_its_truth(moving: Moving) -> Moving:
    """The nodes that a claim is made of, without the claim itself."""
    claims, condition = {moving.claim.slot}, moving.limit.claim
    while isinstance(condition, NamedCondition):
        claims.add(condition.slot)
        condition = condition.body
    return replace(moving, nodes=tuple(node for node in moving.nodes if node.slot not in claims))


def _sides_of(claim: Claim) -> int:
    match claim:
        case Inside():
            return 4
        case Between():
            return 2
        case AtMost() | AtLeast():
            return 1


# ---- the sides of a claim


@dataclass(frozen=True, slots=True)
class RoomForm:
    """One side of a claim: what is held against what, and the room between them."""

    side: Side
    subject: Form
    bound: Form
    room: Form


def room_forms(claim: AtMost | AtLeast | Between, so_far: Translation) -> tuple[RoomForm, ...]:
    """The sides of a claim, each with a room that is least at a turn of the burn."""
    match claim:
        case AtMost():
            sides: tuple[tuple[Side, Expression], ...] = ((Side.TO_MOST, claim.bound),)
        case AtLeast():
            sides = ((Side.TO_LEAST, claim.bound),)
        case Between():
            sides = ((Side.TO_LEAST, claim.low), (Side.TO_MOST, claim.high))
    subject = so_far.form(claim.subject)
    return tuple(_room_form(side, subject, so_far.form(bound), so_far) for side, bound in sides)


def _room_form(side: Side, subject: Form, bound: Form, so_far: Translation) -> RoomForm:
    writer = so_far.writer
    room = writer.sum((subject, -bound) if side is Side.TO_LEAST else (bound, -subject))
    if writer.degree(room) > 1 or writer.degree_below(room) > 1:
        raise BeyondCompiling("a room that may be least between two turns")
    return RoomForm(side, subject, bound, room)


def _sided(of: RoomForm, writer: Writer) -> Sided:
    room, subject, bound = (writer.single(form) for form in (of.room, of.subject, of.bound))
    pieces = tuple((_above(form), form.below or "1") for form in (room, subject, bound))
    return Sided(of.side, pieces[0], pieces[1], pieces[2], (room.scale, subject.scale, bound.scale))


def _above(form: Form) -> str:
    return form.single or str(form.constant)


def _weightings(sides: tuple[Sided, ...]) -> tuple[Weighting, ...]:
    """Rooms and bounds of one dimension at one scale: across and against an envelope are two dimensions."""
    return tuple(
        _weighting(side, [each for each in sides if _dimension(each) == _dimension(side)]) for side in sides
    )


def _weighting(side: Sided, alike: list[Sided]) -> Weighting:
    scale = common_scale(part for each in alike for part in (each.scales[0], each.scales[2]))
    return int(side.scales[0] / scale), int(side.scales[2] / scale), _dimension(side)


def _dimension(side: Sided) -> int:
    return 1 if side.side in (Side.LIGHTER, Side.HEAVIER) else 0


def envelope_rooms(claim: Inside, so_far: Translation) -> EnvelopeRooms:
    """The rooms of a point in an envelope whose position is straight, or straight over its level."""
    writer = so_far.writer
    across, against = writer.single(so_far.form(claim.across)), writer.single(so_far.form(claim.against))
    straight = max(writer.degree(across), writer.degree_below(across), writer.degree(against)) <= 1
    if not straight or against.below is not None or across.below not in (None, against.single):
        raise BeyondCompiling("a path that is no straight line in moment and mass")
    if not is_convex(claim.envelope.corners):
        raise BeyondCompiling("an envelope that is not convex, throughout the burn")
    if across.single is None or against.single is None:
        raise BeyondCompiling("a path that does not move")
    return EnvelopeRooms(claim.envelope.corners, across, against, writer, so_far.data)


def square_above(edge: Form, writer: Writer) -> tuple[str, int] | None:
    """The name whose square makes the edge a parabola that opens upward, and its coefficient; else None.

    Errors: BeyondCompiling where the edge is neither straight nor such a parabola in any direction.
    """
    bent = [(name, k) for name, k in edge.terms if writer.degrees[name] > 1]
    if not bent:
        return None
    if len(bent) > 1 or bent[0][0] not in writer.squares:
        raise BeyondCompiling("an edge that is no parabola over the burn")
    name, k = bent[0]
    return (writer.squares[name], k) if k > 0 else None
