"""The margins of a limit in an encoder's code, from whole numbers to the published JSON."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import cast

from engine.evaluation.compiling.envelopes import whole_slices
from engine.evaluation.compiling.layout import Known, MovingLayout, SideLayout
from engine.evaluation.envelope import turned
from engine.evaluation.result import Side
from engine.explanation.amounts import FEWEST_DECIMALS
from engine.explanation.document_models import Quantity, ShownMargin
from engine.explanation.encoding_amounts import WholeAmount
from engine.explanation.encoding_code import EncodingCode
from engine.explanation.encoding_frames import EXACTLY, MARK, PLACE, frame_of, pieces_of
from engine.explanation.encoding_runtime import (
    SHARE_STEPS,
    DecimalPieces,
    Pieces,
    PointAxis,
    SideFrame,
    gathered,
    rooms_compared,
    share_of,
    told,
    told_in_decimals,
    told_of_point,
)
from engine.explanation.encoding_sides import ClaimSide, shape_name
from grammar.figures import Rounding, difference_word, unit_word
from grammar.sheet import Between, Inside, Read, Role


@dataclass(frozen=True, slots=True)
class MarginNames:
    """The names that hold a limit's margins as JSON, what a sentence hangs on of them, and their figures."""

    joined: str
    order: str
    texts: str


@dataclass(frozen=True, slots=True)
class RoomNames:
    """The names that hold the sign of a room, its figure with and without the sign, and its share in pieces."""

    sign: str
    shown: str
    size: str
    share: list[str]


@dataclass(slots=True)
class MarginWriter:
    """Writes the margins of one limit; ``moving`` is what is known of it where it holds throughout the burn."""

    moving: MovingLayout | None
    code: EncodingCode

    def __post_init__(self) -> None:
        for of in (told, told_in_decimals, told_of_point, share_of, gathered, rooms_compared):
            self.code.data[of.__name__] = of

    def write(self, sides: tuple[ClaimSide, ...], names: MarginNames) -> list[str]:
        """The margins of the sides in pieces, where the limit applies; their order and figures by name."""
        is_plain = self.moving is None and all(side.only_if is None for side in sides) and not _is_of_points(sides)
        if is_plain and len(sides) == 1 and self._decimals(sides[0]) is not None:
            return self._write_alone(sides[0], names)
        if is_plain and self._is_range_from_zero(sides):
            return self._write_range(sides, names)
        return self._write_any(sides, names)

    def _amounts(self, side: ClaimSide) -> tuple[WholeAmount, WholeAmount]:
        """What is held against what, in the unit of the margin."""
        code, unit = self.code, side.unit
        return code.amount(side.subject.slot).in_unit(unit), code.amount(side.bound.slot).in_unit(unit)

    def _decimals(self, side: ClaimSide) -> int | None:
        """How many decimals say both values of a side, where that is known beforehand."""
        subject, bound = (amount.decimals for amount in self._amounts(side))
        return None if subject is None or bound is None else max(subject, bound)

    def _frame_of_side(self, side: ClaimSide, *, share: str | None = MARK) -> str:
        """The JSON of a margin, with places for its three figures and its share."""
        unit, difference = unit_word(side.unit), difference_word(side.unit)
        return frame_of(
            ShownMargin(
                claim=side.claim.slot,
                side=shape_name(side.side),
                subject=_exact(unit),
                bound=_exact(unit),
                room=_exact(difference),
                share=share,
            )
        ).replace(f'"{PLACE}"}}', f"{PLACE}}}")

    def _write_alone(self, side: ClaimSide, names: MarginNames) -> list[str]:
        """One side whose values are decimals beforehand."""
        code, decimals = self.code, self._decimals(side) or 0
        subject, bound, room = self._exact_texts(side, decimals)
        of = self._write_room(room, self._amounts(side)[1], decimals)
        code.line(f"{names.order} = {of.sign}")
        code.line(f"{names.texts} = ({subject}, {bound}, {of.size})")
        return code.pieces(self._frame_of_side(side), [[subject], [bound], [of.shown], of.share])

    def _write_room(self, room: str, bound: WholeAmount, decimals: int) -> RoomNames:
        """Code for what is told of a room; what is known of its bound beforehand is cancelled."""
        code, whole = self.code, (bound.factor + bound.zero) * 10**decimals
        names = RoomNames(code.fresh(), code.fresh(), code.fresh(), [code.fresh()])
        above, below = f"{names.shown} = {names.size} = {code.positive(room, decimals)}", f"{names.sign} = -1"
        above += f"; {names.sign} = {room} > 0"
        below += f"; {names.shown} = text({room}, {decimals}); {names.size} = {names.shown}[1:]"
        if bound.above != "1" or whole <= 0:
            code.line(f"{names.share[0]} = share_of({room}, {bound.scaled(decimals)})")
        else:
            part, steps, quote = SHARE_STEPS / whole, code.fresh(), code.add('"')
            code.line(f"{steps} = {_product(room, '1', part.numerator)} // {part.denominator}")
            above += f"; {names.share[0]} = {code.positive(steps, FEWEST_DECIMALS)}"
            below += f"; {names.share[0]} = text({steps}, {FEWEST_DECIMALS})"
            names = replace(names, share=[quote, *names.share, quote])
        code.line(f"if {room} >= 0: {above}")
        code.line(f"else: {below}")
        return names

    def _exact_texts(self, side: ClaimSide, decimals: int) -> tuple[str, str, str]:
        """The texts of subject and bound, and the room as a whole number of the last decimal."""
        code, (subject, bound) = self.code, self._amounts(side)
        texts = tuple(code.decimal(amount, amount.decimals or 0) for amount in (subject, bound))
        high, low = (bound, subject) if side.is_up else (subject, bound)
        return texts[0], texts[1], code.let(f"{high.scaled(decimals)} - ({low.scaled(decimals)})")

    def _is_range_from_zero(self, sides: tuple[ClaimSide, ...]) -> bool:
        """Whether the limit is a load's range from zero to something more, in decimals known beforehand."""
        if len(sides) != 2 or any(self._decimals(side) is None for side in sides):
            return False
        subject = sides[0].subject
        if not isinstance(subject, Read) or subject.input.role not in (Role.LOAD, Role.TANK):
            return False
        layouts = self.code.layout.slots
        low, high = (layouts[side.bound.slot] for side in sides)
        return low == Known(Fraction(0)) and isinstance(high, Known) and _is_positive(high)

    def _write_range(self, sides: tuple[ClaimSide, ...], names: MarginNames) -> list[str]:
        """A range from zero: the room above zero is the amount itself, and comes first only at zero."""
        (low, high), code = sides, self.code
        decimals = self._decimals(high) or 0
        subject, most, room = self._exact_texts(high, decimals)
        whole = code.let(self._amounts(high)[0].scaled(decimals))
        nothing, comma = code.add("0"), code.add(",")
        of = self._write_room(room, self._amounts(high)[1], decimals)
        lower = code.pieces(self._frame_of_side(low, share=None), [[subject], [nothing], [subject]])
        upper = code.pieces(self._frame_of_side(high), [[subject], [most], [of.shown], of.share])
        code.line(f"if {whole}: {names.joined} = {code.together([*upper, comma, *lower])}")
        code.line(f"else: {names.joined} = {code.together([*lower, comma, *upper])}")
        code.line(f"{names.order} = ({whole} > 0, {of.sign})")
        code.line(f"{names.texts} = ({subject}, {nothing}, {subject}, {subject}, {most}, {of.size})")
        return [names.joined]

    def _write_any(self, sides: tuple[ClaimSide, ...], names: MarginNames) -> list[str]:
        joined, order, texts = names.joined, names.order, names.texts
        code, found = self.code, self.code.fresh()
        dimensions = [side.subject.kind for side in sides]
        code.line(f"{found} = []")
        for side in sides:
            dimension = dimensions.index(side.subject.kind)
            if self.moving is not None or not isinstance(side.claim, Inside):
                told = self._told(side, code.add(self._side_frame(side, dimension)))
                code.line(_only_if(side, f"{found}.append({told})"))
            elif side.side is Side.FORWARD:
                several = self._told_of_point(sides[side.number : side.number + 4], dimension)
                code.line(_only_if(side, f"{found} += {several}"))
        pairs = [
            (a.number, b.number) for a, b in pairwise(sides) if a.claim is b.claim and isinstance(a.claim, Between)
        ]
        less = "".join(f"rooms_compared({found}, {a}, {b}), " for a, b in pairs)
        is_moving = self.moving is not None
        points = (side for side in sides if isinstance(side.claim, Inside) and is_moving)
        same = "".join(f"{self._is_at_the_point(side)}, " for side in points)
        code.line(f"{texts}, {joined}, {order} = gathered({found}, {len(sides)})")
        code.line(f"{order} = ({order}, ({less}), ({same}))")
        return [joined]

    def _told_of_point(self, sides: tuple[ClaimSide, ...], dimension: int) -> str:
        """Code for the margins of a point that stands still: where the envelope begins and ends on each axis."""
        code, claim = self.code, sides[0].claim
        across, against = (code.amount(sides[at].subject.slot) for at in (0, 2))
        corners = claim.envelope.corners if isinstance(claim, Inside) else ()
        axes = tuple(
            PointAxis(
                whole_slices(each, here.factor, there.factor),
                (self._side_frame(low, dimension + turn), self._side_frame(high, dimension + turn)),
                (here.factor / low.unit.factor).as_integer_ratio(),
            )
            for turn, each, here, there, low, high in (
                (0, corners, across, against, sides[0], sides[1]),
                (1, turned(corners), against, across, sides[2], sides[3]),
            )
        )
        point = f"({across.above}, {across.below}), ({against.above}, {against.below})"
        return f"told_of_point({code.add(axes)}, {point})"

    def _told(self, side: ClaimSide, frame: str) -> str:
        """Code for one side of several."""
        decimals = None if self.moving is not None else self._decimals(side)
        if decimals is None:
            values = self._record(side) if self.moving is not None else self._standing(side)
            return f"told({frame}, {', '.join(values)})"
        subject, bound, room = self._exact_texts(side, decimals)
        wholes = (amount.scaled(decimals) for amount in self._amounts(side))
        texts = f"({subject}, {bound}, {self.code.text(room, decimals)})"
        return f"told_in_decimals({frame}, ({', '.join(wholes)}, {room}), {texts}, {10**decimals})"

    def _side_frame(self, side: ClaimSide, dimension: int) -> SideFrame:
        unit = side.unit
        return SideFrame(
            side.number,
            cast("Pieces", pieces_of(self._frame_of_side(side).replace(EXACTLY, PLACE))),
            cast("DecimalPieces", pieces_of(self._frame_of_side(side))),
            (Rounding.UP, Rounding.DOWN) if side.is_up else (Rounding.DOWN, Rounding.UP),
            dimension,
            unit.factor.as_integer_ratio(),
        )

    def _standing(self, side: ClaimSide) -> tuple[str, str, str, str]:
        """Code for the three values of a side that stands still, and for the room over the bound."""
        code, (subject, bound) = self.code, self._amounts(side)
        s, b = code.pair(subject), code.pair(bound)
        high, low = (b, s) if side.is_up else (s, b)
        room = code.let(f"{high}[0] * {low}[1] - {low}[0] * {high}[1]")
        return s, b, f"({room}, {high}[1] * {low}[1])", f"({room}, {b}[0] * {s}[1])"

    def _record(self, side: ClaimSide) -> tuple[str, str, str, str]:
        """Code for the three values of a side where it is tightest, and for the room over the bound."""
        layout, unit = self._side_layout(side), side.unit
        record = f"p{layout.at}"
        room, subject, bound = (
            WholeAmount(f"{record}[{2 * at}]", f"{record}[{2 * at + 1}]", scale).in_unit(
                unit, is_difference=not at
            )
            for at, scale in enumerate(layout.scales)
        )
        ratio = layout.scales[0] / layout.scales[2]
        above = _product(f"{record}[0]", f"{record}[5]", ratio.numerator)
        below = _product(f"{record}[4]", f"{record}[1]", ratio.denominator)
        return self.code.pair(subject), self.code.pair(bound), self.code.pair(room), f"({above}, {below})"

    def _side_layout(self, side: ClaimSide) -> SideLayout:
        if self.moving is None:
            raise TypeError("a side that does not move")
        return next(layout for layout in self.moving.sides if layout.side is side.side)

    def _is_at_the_point(self, side: ClaimSide) -> str:
        """Code for whether a margin was taken at the very values that the slots hold."""
        layout = self._side_layout(side)
        record = f"p{layout.at}"
        slot = self.code.amount(side.subject.slot)
        ratio = layout.scales[1] / slot.factor
        one = _product(f"{record}[2]", slot.below, ratio.numerator)
        return f"{one} == {_product(slot.above, f'{record}[3]', ratio.denominator)}"


def _only_if(side: ClaimSide, line: str) -> str:
    """A line of code for a side, where the limit rests on its claim."""
    return line if side.only_if is None else f"if {side.only_if}: {line}"


def _is_of_points(sides: tuple[ClaimSide, ...]) -> bool:
    return any(isinstance(side.claim, Inside) for side in sides)


def _product(one: str, other: str, factor: int) -> str:
    """Code for a product, without factors of one."""
    factors = [each for each in (one, other, str(factor)) if each != "1"]
    return " * ".join(factors) or "1"


def _exact(word: str) -> Quantity:
    return Quantity(amount=MARK, unit=word, is_exact=True, exact=None)


def _is_positive(layout: Known) -> bool:
    return isinstance(layout.value, Fraction) and layout.value > 0
