"""Sentences for the encoder, learned from the room's own writer.

For one turn of events (which verdict, which margin is tightest, which conditions hold, what is exact) a
limit's sentence is always the same but for its figures. So the writer is given an answer with the same turn
of events in which every figure is a number that occurs nowhere else; where such a number comes out, the
sentence has a place for that figure. Whatever is learned is checked against the true sentence before use.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction
from itertools import count
from typing import Final

from engine.evaluation.result import CheckResult, FuelState, LimitResult, Margin, Side, SlotValue
from engine.explanation.amounts import FEWEST_DECIMALS, Amount, amount
from engine.explanation.encoding_frames import MARK, sentence_pieces
from engine.explanation.encoding_runtime import Hole, Sentence
from engine.explanation.headlines import UPWARD, bound_unit, figures, sides
from engine.explanation.sentences import sentences
from grammar.figures import ABOUT, Rounding
from grammar.sheet import CalendarDate, Condition, Constant, Expression, Inside, Numeric
from grammar.units import PURE, Unit

_FIRST_NUMBER: Final = 4_000_001
_FIRST_DAY: Final = 1_500_000
_THIRDS: Final = (Fraction(1, 3), Fraction(2, 3))
"""What is added to a figure that is not exact: seen with both, a rounding gives its direction away."""

_LEANS: Final = {
    ("333", "666"): Rounding.DOWN,
    ("334", "667"): Rounding.UP,
    ("333", "667"): Rounding.NEAREST,
}
_TINY: Final = Fraction(1, 10**5)
"""How far a point is held from an envelope's edge, so that a margin's figure has more decimals than a slot's."""


@dataclass(slots=True)
class Staged:
    """An answer with the same turn of events in which each figure is a number of its own."""

    result: CheckResult
    limit: LimitResult
    holes: dict[str, Hole]


@dataclass(slots=True)
class Learner:
    """Learns the sentences of one limit.

    ``at`` is the limit's number; ``nodes`` are the values that any sentence of the answer can speak of;
    ``sides`` has the number of each side of its claims.
    """

    at: int
    nodes: tuple[Expression | Condition, ...]
    sides: Mapping[tuple[int, Side], int]

    def learned(self, result: CheckResult) -> Sentence | None:
        """The sentence for the turn of events of a true answer; None where it cannot be told apart."""
        one, other = (_seen(Stage(self, result, third).staged()) for third in _THIRDS)
        if one.text != other.text or one.holes != other.holes:
            return None
        pairs = zip(one.holes, one.decimals, other.decimals, strict=True)
        return Sentence(sentence_pieces(one.text), tuple(_leaning(hole, (a, b)) for hole, a, b in pairs))


def _leaning(hole: Hole, decimals: tuple[str, str]) -> Hole:
    """The hole of a slot with the direction that its two roundings give away; they mirror below zero."""
    if hole.kind != "slot":
        return hole
    one, other = decimals
    lean = _LEANS.get((one.removeprefix("-"), other.removeprefix("-")))
    return replace(hole, lean=lean.opposite if lean is not None and one.startswith("-") else lean)


@dataclass(frozen=True, slots=True)
class Seen:
    """A sentence with marks for its figures, the figures' holes, and the decimals that each came with."""

    text: str
    holes: tuple[Hole, ...]
    decimals: tuple[str, ...]


_FIGURE: Final = re.compile(rf"(?:{ABOUT})?(-?)(\d{{7}}|\d{{4}}-\d\d-\d\d)(\.\d+)?(?!\d)")


def _seen(staged: Staged) -> Seen:
    sentence = sentences(staged.result).sentence(staged.limit)
    holes: list[Hole] = []
    decimals: list[str] = []

    def mark(found: re.Match[str]) -> str:
        sign, number, after = found[1], found[2], (found[3] or "").removeprefix(".")
        of_margin = staged.holes.get(_of_margin(number, is_up=_is_rounded_up(after, sign)))
        hole = of_margin if len(after) > FEWEST_DECIMALS else staged.holes.get(number) or of_margin
        if hole is None:
            return found[0]
        holes.append(hole)
        decimals.append(sign + after if after else "")
        return MARK

    marked = _FIGURE.sub(mark, sentence)
    return Seen(marked, tuple(holes), tuple(decimals))


def _of_margin(number: object, *, is_up: bool) -> str:
    """How a figure of a margin is told from the same number in a slot, and from the opposite side's."""
    return f"{number} of a margin, rounded {'up' if is_up else 'down'}"


def _is_rounded_up(decimals: str, sign: str) -> bool:
    """Whether a figure with a third or two more was rounded up; below zero a greater size is less."""
    return decimals.endswith(("4", "7")) is not bool(sign)


@dataclass(slots=True)
class Stage:
    """An answer being staged: every figure gets a number of its own, with the sign and exactness of the true."""

    learner: Learner
    result: CheckResult
    third: Fraction
    numbers: Iterator[int] = field(default_factory=lambda: count(_FIRST_NUMBER))
    holes: dict[str, Hole] = field(default_factory=dict)

    def staged(self) -> Staged:
        """The answer staged."""
        values = self._values()
        limit = self.result.limits[self.learner.at]
        rooms = self._rooms(limit.margins)
        margins = tuple(self._margin(one, rooms[one.claim.slot, one.room], values) for one in limit.margins)
        staged = replace(limit, margins=margins, tightest=self._tightest(limit.tightest))
        return Staged(replace(self.result, values=tuple(values)), staged, self.holes)

    def _values(self) -> list[SlotValue]:
        values = list(self.result.values)
        for node in self.learner.nodes:
            value = values[node.slot]
            if isinstance(node, Numeric) and not isinstance(node, Constant) and isinstance(value, Fraction):
                values[node.slot] = self._value(node, value)
        return values

    def _value(self, node: Numeric, value: Fraction) -> Fraction:
        hole = Hole("slot", node.slot)
        if isinstance(node.kind, CalendarDate):
            day = _FIRST_DAY + node.slot
            self.holes[date.fromordinal(day).isoformat()] = hole
            return Fraction(day)
        unit = node.unit or PURE
        return self._marked(hole, unit, unit.from_base(value), amount(value, unit, Rounding.NEAREST))

    def _marked(self, hole: Hole, unit: Unit, true: Fraction, shown: Amount) -> Fraction:
        """A number of its own with the sign and the exactness of a true one, in base units."""
        number = next(self.numbers)
        self.holes[str(number)] = hole
        size = Fraction(number) if shown.figure.is_exact else number + self.third
        return unit.to_base(-size if true < 0 else size)

    # ---- margins

    def _rooms(self, margins: tuple[Margin, ...]) -> dict[tuple[int, Fraction], Fraction]:
        """Rooms of their own, in the order of the true ones on each side of zero."""
        staged: dict[tuple[int, Fraction], Fraction] = {}
        for margin in sorted(margins, key=lambda one: abs(one.room)):
            key = (margin.claim.slot, margin.room)
            if key not in staged:
                staged[key] = self._room(margin)
        return staged

    def _room(self, margin: Margin) -> Fraction:
        told = figures(margin)
        if not margin.room or not isinstance(told.room, Amount):
            return Fraction(0)
        unit, hole = _unit_of(margin), self._hole(margin, 2)
        number = next(self.numbers)
        self._note(number, hole)
        size = Fraction(number) if told.room.figure.is_exact else number + self.third
        return unit.factor * (-size if margin.room < 0 else size)

    def _note(self, number: int, hole: Hole) -> None:
        """A number of a margin's own, whichever way it is rounded."""
        for is_up in (True, False):
            self.holes[_of_margin(number, is_up=is_up)] = hole

    def _hole(self, margin: Margin, part: int) -> Hole:
        return Hole("margin", 3 * self.learner.sides[margin.claim.slot, margin.side] + part)

    def _margin(self, margin: Margin, room: Fraction, values: list[SlotValue]) -> Margin:
        told, unit = figures(margin), _unit_of(margin)
        if not isinstance(told.subject, Amount) or not isinstance(told.bound, Amount):
            return margin
        if isinstance(margin.claim, Inside):
            subject = self._of_point(margin, told.subject, values)
            return replace(margin, subject=subject, bound=subject + _TINY * unit.factor, room=room)
        subject = self._part(margin, 0, margin.subject, told.subject)
        _, node = sides(margin)
        is_printed = isinstance(node, Constant) and not margin.bound
        bound = margin.bound if is_printed else self._part(margin, 1, margin.bound, told.bound)
        return replace(margin, subject=subject, bound=bound, room=room)

    def _of_point(self, margin: Margin, shown: Amount, values: list[SlotValue]) -> Fraction:
        """A point's value; where the margin was taken at the slots' moment, the slot's own."""
        node, _ = sides(margin)
        if self.result.values[node.slot] != margin.subject:
            return self._part(margin, 0, margin.subject, shown)
        unit, staged = _unit_of(margin), values[node.slot]
        if unit != node.unit or not isinstance(staged, Fraction):
            staged = values[node.slot] = self._part(margin, 0, margin.subject, shown)
        self.holes[_of_margin(self._number(staged, unit), is_up=margin.side in UPWARD)] = self._hole(margin, 0)
        return staged

    @staticmethod
    def _number(value: Fraction, unit: Unit) -> int:
        return int(abs(unit.from_base(value)))

    def _part(self, margin: Margin, part: int, true: Fraction, shown: Amount) -> Fraction:
        hole = self._hole(margin, part)
        value = self._marked(hole, _unit_of(margin), _unit_of(margin).from_base(true), shown)
        self._note(self._number(value, _unit_of(margin)), hole)
        return value

    # ---- fuel

    def _tightest(self, state: FuelState | None) -> FuelState | None:
        if state is None:
            return None
        left = tuple(self._left(at, amount) for at, amount in enumerate(state.left))
        return FuelState(min(state.burned, Fraction(1)), left)

    def _left(self, at: int, left: Fraction) -> Fraction:
        if not left:
            return left
        unit = self.result.sheet.tanks[at].input.unit or PURE
        return self._marked(Hole("left", at), unit, left, amount(left, unit, Rounding.NEAREST))


def _unit_of(margin: Margin) -> Unit:
    return bound_unit(margin, *sides(margin))
