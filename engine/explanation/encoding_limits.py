"""The limits in an encoder's code: their margins from whole numbers, their sentences from those learned.

A limit's sentence is looked up by its turn of events: the verdict, the order and the signs of its margins,
which of two rooms is less, the conditions and options that it hangs on, and which figures are exact.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from engine.evaluation.compiling.layout import Known, MovingLayout, SideLayout
from engine.evaluation.compiling.writer import BeyondCompiling
from engine.evaluation.result import Margin, Side
from engine.evaluation.workings import in_working_order
from engine.explanation.document_models import LimitExplained, Quantity, ShownMargin, SideName, TightestMoment
from engine.explanation.encoding_amounts import WholeAmount
from engine.explanation.encoding_code import EncodingCode, Node
from engine.explanation.encoding_frames import MARK, MARKED, PLACE, form_of, frame_of
from engine.explanation.encoding_moments import Moments
from engine.explanation.encoding_runtime import (
    NO_SENTENCE,
    SideFrame,
    arranged,
    compare_rooms,
    order_of,
    quantity_frames,
    share_json,
    told,
    told_in_decimals,
)
from engine.explanation.headlines import UPWARD, bound_unit
from grammar.figures import difference_word, unit_word
from grammar.sheet import (
    AllOf,
    AnyOf,
    AtLeast,
    AtMost,
    Between,
    Claim,
    Condition,
    ConditionChoice,
    Expression,
    FuelAmount,
    Inside,
    Limit,
    Measure,
    NamedCondition,
    Numeric,
    Option,
    Read,
    Sheet,
    Verdict,
)
from grammar.units import PURE, Unit


@dataclass(frozen=True, slots=True)
class ClaimSide:
    """One side of a claim: what is held against what, the unit it is shown in, and its number in the limit."""

    claim: Claim
    side: Side
    subject: Expression
    bound: Expression
    number: int

    @property
    def unit(self) -> Unit:
        """The unit in which the margin is shown."""
        nothing = Fraction(0)
        return bound_unit(Margin(self.claim, self.side, nothing, nothing, nothing), self.subject, self.bound)

    @property
    def is_up(self) -> bool:
        """Whether more is worse."""
        return self.side in UPWARD


def sides_of(claims: tuple[Claim, ...]) -> tuple[ClaimSide, ...]:
    """Every side of the claims, in the order in which margins are found."""
    found = [(claim, *pair) for claim in claims for pair in _pairs(claim)]
    return tuple(
        ClaimSide(claim, side, subject, bound, at) for at, (claim, side, subject, bound) in enumerate(found)
    )


def _pairs(claim: Claim) -> tuple[tuple[Side, Expression, Expression], ...]:
    match claim:
        case AtMost():
            return ((Side.TO_MOST, claim.subject, claim.bound),)
        case AtLeast():
            return ((Side.TO_LEAST, claim.subject, claim.bound),)
        case Between():
            return (
                (Side.TO_LEAST, claim.subject, claim.low),
                (Side.TO_MOST, claim.subject, claim.high),
            )
        case Inside():
            across = tuple((side, claim.across, claim.across) for side in (Side.FORWARD, Side.AFT))
            return (*across, *((side, claim.against, claim.against) for side in (Side.LIGHTER, Side.HEAVIER)))


def claims_always_reached(condition: Condition, code: EncodingCode) -> tuple[Claim, ...] | None:
    """The claims that a limit rests on whatever its values; None where that hangs on the values."""
    match condition:
        case AtMost() | AtLeast() | Between() | Inside():
            return (condition,)
        case NamedCondition():
            return claims_always_reached(condition.body, code)
        case AllOf():
            return _of_all(condition.parts, code)
        case AnyOf():
            open_ones = tuple(part for part in condition.parts if not _is_never(part, code))
            return claims_always_reached(open_ones[0], code) if len(open_ones) == 1 else _none_in(condition)
        case ConditionChoice():
            return _none_in(condition)
        case _:
            return ()


def _of_all(parts: tuple[Condition, ...], code: EncodingCode) -> tuple[Claim, ...] | None:
    found: list[Claim] = []
    for part in parts:
        claims = claims_always_reached(part, code)
        if claims is None:
            return None
        found += claims
    return tuple(found) if len({claim.slot for claim in found}) == len(found) else None


def _is_never(condition: Condition, code: EncodingCode) -> bool:
    return code.layout.slots[condition.slot] == Known(False)


def _none_in(condition: Condition) -> tuple[Claim, ...] | None:
    """No claims where there are none at all; else it cannot be told beforehand."""
    claims = (AtMost, AtLeast, Between, Inside)
    return None if any(isinstance(node, claims) for node in in_working_order((condition,))) else ()


# ---- one limit


@dataclass(slots=True)
class LimitWriter:
    """Writes one limit.

    ``verdict`` is the code of its verdict; ``moving`` is what is known of it where it holds throughout the
    burn. ``sides`` is None where its claims are not for generated code: it is then remembered as a whole.
    """

    at: int
    sheet: Sheet
    explained: LimitExplained
    verdict: str
    moving: MovingLayout | None
    code: EncodingCode
    sides: tuple[ClaimSide, ...] | None = None
    order: str = ""

    def __post_init__(self) -> None:
        for name, of in (("share", share_json), ("told", told), ("arranged", arranged), ("order_of", order_of)):
            self.code.data[name] = of
        self.code.data |= {
            "told_in_decimals": told_in_decimals,
            "compare_rooms": compare_rooms,
            "NO_SENTENCE": NO_SENTENCE,
        }
        self.sides = self._sides()

    @property
    def limit(self) -> Limit:
        """The limit."""
        return self.sheet.limits[self.at]

    @property
    def cone(self) -> tuple[Node, ...]:
        """Every value that the limit rests on."""
        limit = self.limit
        return in_working_order(
            (limit.claim,) if limit.applies_when is None else (limit.claim, limit.applies_when)
        )

    def _sides(self) -> tuple[ClaimSide, ...] | None:
        claims = claims_always_reached(self.limit.claim, self.code)
        if claims is None or (self.moving is None and any(isinstance(claim, Inside) for claim in claims)):
            return None
        sides = sides_of(claims)
        return sides if all(isinstance(side.subject.kind, Measure) for side in sides) else None

    def write(self) -> list[str]:
        """The limit in pieces: code for each piece of text."""
        if self.sides is None:
            return [self._remembered()]
        return self._written(self.sides)

    def _remembered(self) -> str:
        """A limit that is kept as a whole for the values that it rests on."""
        code = self.code
        key = ", ".join(dict.fromkeys([self.verdict, *_numbers_of(self.cone, code)]))
        name = code.fresh()
        code.line(f"k = ({key},)")
        code.line(f"{name} = sentences[{self.at}].get(k)")
        code.line(f"if {name} is None: missed.append(({self.at}, k)); {name} = ''")
        return name

    # ---- the frame

    def _frame(self) -> str:
        marked = self.explained.model_copy(
            update={
                "verdict": Verdict.WITHIN,
                "sentence": MARK,
                "margins": (),
                "tightest": None if self.moving is None else self._tightest_frame(),
            }
        )
        frame = frame_of(marked)
        frame = frame.replace('"verdict":"within"', f'"verdict":"{PLACE}"', 1)
        return frame.replace('"margins":[]', f'"margins":[{PLACE}]', 1)

    def _tightest_frame(self) -> TightestMoment:
        moment = self.explained.tightest
        if moment is None:
            raise BeyondCompiling("a limit throughout the burn without its tightest moment")
        tanks = tuple(tank.model_copy(update={"left": _marked(tank.left)}) for tank in moment.tanks)
        return moment.model_copy(update={"burned": _marked(moment.burned), "tanks": tanks, "sentence": MARK})

    def _written(self, sides: tuple[ClaimSide, ...]) -> list[str]:
        code, name = self.code, self.code.fresh()
        order, texts = code.fresh(), code.fresh()
        self.order = order
        code.line(f"{name} = ''; {order} = {texts} = ()")
        if sides and self.limit.applies_when is not None:
            with code.block(f"if {self.verdict} is not None:"):
                self._write_margins(sides, (name, order, texts))
        elif sides:
            self._write_margins(sides, (name, order, texts))
        moment = None if self.moving is None else self._write_moment(self.moving)
        bits = (self.verdict, order, *self._bits(), *(() if moment is None else (f"{moment}[1]",)))
        left = "()" if moment is None else f"{moment}[0][1:]"
        sentence = self._lookup(f"({', '.join(bits)},)", texts, left)
        word = f"'within' if {self.verdict} else 'not applicable' if {self.verdict} is None else 'outside'"
        places = [word, sentence, name]
        if moment is not None:
            places += [f"{moment}[0][{at}]" for at in range(len(self.sheet.tanks) + 1)]
            places.append(f"{moment}[2]")
        return code.pieces(self._frame(), places)

    def _lookup(self, bits: str, texts: str, left: str) -> str:
        """The name of the sentence for a turn of events."""
        code, name = self.code, self.code.fresh()
        code.line(f"k = {bits}")
        code.line(f"z = sentences[{self.at}].get(k)")
        code.line(f"if z is None: missed.append(({self.at}, k)); z = NO_SENTENCE")
        code.line(f"{name} = z.filled(figures, {texts}, {left})")
        return name

    # ---- the turn of events

    def _bits(self) -> Iterator[str]:
        """Code for what a sentence may hang on besides the margins."""
        code, claim = self.code, self.limit.claim
        for node in self.cone:
            layout = code.layout.slots[node.slot]
            if isinstance(layout, Known) or node.slot == claim.slot:
                continue
            if not isinstance(node, Numeric):
                yield code.truth(node.slot)
            elif isinstance(node.kind, Option):
                yield code.option(node.slot)
            elif node.slot in code.leaning:
                pair = code.figure(node.slot)
                yield code.let(f"{pair}[0] * 1000000000 % {pair}[1] == 0")
                yield code.let(f"{pair}[0] < 0")

    # ---- margins

    def _write_margins(self, sides: tuple[ClaimSide, ...], names: tuple[str, str, str]) -> None:
        if self.moving is None and len(sides) == 1 and self._decimals(sides[0]) is not None:
            self._write_alone(sides[0], names)
        elif self.moving is None and self._is_range_from_zero(sides):
            self._write_range(sides, names)
        else:
            self._write_any(sides, names)

    def _amounts(self, side: ClaimSide) -> tuple[WholeAmount, WholeAmount]:
        """What is held against what, in the unit of the margin."""
        code, unit = self.code, side.unit
        return code.amount(side.subject.slot).in_unit(unit), code.amount(side.bound.slot).in_unit(unit)

    def _decimals(self, side: ClaimSide) -> int | None:
        """How many decimals say both values of a side, where that is known beforehand."""
        subject, bound = (amount.decimals for amount in self._amounts(side))
        return None if subject is None or bound is None else max(subject, bound)

    def _frame_of_side(self, side: ClaimSide, *, is_decimal: bool) -> str:
        """The JSON of a margin, with places for its three figures (or quantities) and its share."""
        words = (unit_word(side.unit), unit_word(side.unit), difference_word(side.unit))
        parts = [MARKED if not is_decimal else _exact(word) for word in words]
        marked = ShownMargin(
            claim=side.claim.slot,
            side=shape_name(side.side),
            subject=parts[0],
            bound=parts[1],
            room=parts[2],
            share=MARKED,
        )
        return form_of(frame_of(marked))

    def _write_alone(self, side: ClaimSide, names: tuple[str, str, str]) -> None:
        """One side whose values are decimals beforehand."""
        joined, order, texts = names
        code, decimals = self.code, self._decimals(side) or 0
        subject, bound, room = self._exact_texts(side, decimals)
        frame = code.add(self._frame_of_side(side, is_decimal=True))
        share = self._share(room, self._amounts(side)[1], decimals)
        shown = code.text(room, decimals)
        code.line(f"{joined} = {frame} % ({subject}, {bound}, {shown}, {share})")
        code.line(f"{order} = ({room} > 0) - ({room} < 0)")
        code.line(f"{texts} = ({subject}, {bound}, {shown} if {room} >= 0 else {shown}[1:])")

    def _exact_texts(self, side: ClaimSide, decimals: int) -> tuple[str, str, str]:
        """The texts of subject and bound, and the room as a whole number of the last decimal."""
        code, (subject, bound) = self.code, self._amounts(side)
        texts = tuple(code.decimal(amount, amount.decimals or 0) for amount in (subject, bound))
        high, low = (bound, subject) if side.is_up else (subject, bound)
        return texts[0], texts[1], code.let(f"{high.scaled(decimals)} - ({low.scaled(decimals)})")

    @staticmethod
    def _share(room: str, bound: WholeAmount, decimals: int) -> str:
        """Code for a room as a share of its bound; what is known of the bound beforehand is cancelled."""
        whole = bound.factor * 10**decimals
        if bound.above != "1" or whole <= 0:
            return f"share(100 * {room}, {bound.scaled(decimals)})"
        part = 100 / (whole + bound.zero * 10**decimals)
        return f"share({_product(room, '1', part.numerator)}, {part.denominator})"

    def _is_range_from_zero(self, sides: tuple[ClaimSide, ...]) -> bool:
        """Whether the limit is a range from zero to something more, in decimals known beforehand."""
        if len(sides) != 2 or any(self._decimals(side) is None for side in sides):
            return False
        layouts = self.code.layout.slots
        low, high = (layouts[side.bound.slot] for side in sides)
        return low == Known(Fraction(0)) and isinstance(high, Known) and _is_positive(high)

    def _write_range(self, sides: tuple[ClaimSide, ...], names: tuple[str, str, str]) -> None:
        """A range from zero: the room above zero is the amount itself, and comes first only at zero."""
        joined, order, texts = names
        code, high = self.code, sides[1]
        decimals = self._decimals(high) or 0
        subject, most, room = self._exact_texts(high, decimals)
        whole = code.let(self._amounts(high)[0].scaled(decimals))
        lower, upper = (code.add(self._frame_of_side(side, is_decimal=True)) for side in sides)
        nothing, null = code.add("0"), code.add("null")
        shown = code.text(room, decimals)
        share = self._share(room, self._amounts(high)[1], decimals)
        low_json = f"{lower} % ({subject}, {nothing}, {subject}, {null})"
        high_json = f"{upper} % ({subject}, {most}, {shown}, {share})"
        code.line(f"{joined} = {high_json} + ',' + {low_json}")
        code.line(f"if not {whole}: {joined} = {low_json} + ',' + {high_json}")
        code.line(f"{order} = ({whole} > 0, ({room} > 0) - ({room} < 0))")
        code.line(
            f"{texts} = ({subject}, {nothing}, {subject}, {subject}, {most}, {shown} if {room} >= 0 else {shown}[1:])"
        )

    def _write_any(self, sides: tuple[ClaimSide, ...], names: tuple[str, str, str]) -> None:
        joined, order, texts = names
        code, found = self.code, self.code.fresh()
        dimensions = [side.subject.kind for side in sides]
        code.line(f"{found} = []")
        for side in sides:
            frame = code.add(self._side_frame(side, dimensions.index(side.subject.kind)))
            code.line(f"{found}.append({self._told(side, frame)})")
        code.line(f"{texts} = tuple([x for m in {found} for x in m.texts])")
        pairs = [
            (a.number, b.number) for a, b in pairwise(sides) if a.claim is b.claim and isinstance(a.claim, Between)
        ]
        less = ", ".join(f"compare_rooms({found}[{a}], {found}[{b}])" for a, b in pairs)
        same = ", ".join(self._is_at_the_point(side) for side in sides if isinstance(side.claim, Inside))
        code.line(f"{order} = ({less})")
        code.line(f"{found} = arranged({found})")
        code.line(f"{joined} = ','.join([m.json for m in {found}])")
        code.line(f"{order} = (order_of({found}), {order}, ({same}))")

    def _told(self, side: ClaimSide, frame: str) -> str:
        """Code for one side of several."""
        decimals = None if self.moving is not None else self._decimals(side)
        if decimals is None:
            values = self._record(side) if self.moving is not None else self._standing(side)
            return f"told({frame}, {', '.join(values)})"
        subject, bound, room = self._exact_texts(side, decimals)
        wholes = (amount.scaled(decimals) for amount in self._amounts(side))
        shown = self.code.text(room, decimals)
        return (
            f"told_in_decimals({frame}, ({', '.join(wholes)}, {room}), ({subject}, {bound}, {shown}), {decimals})"
        )

    def _side_frame(self, side: ClaimSide, dimension: int) -> SideFrame:
        unit = side.unit
        return SideFrame(
            side.number,
            self._frame_of_side(side, is_decimal=False),
            self._frame_of_side(side, is_decimal=True),
            side.is_up,
            quantity_frames(unit_word(unit)),
            quantity_frames(difference_word(unit)),
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
        """Code for the three values of a side where it is tightest during the burn, and the room over the bound."""
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

    # ---- the moment of the burn

    def _write_moment(self, moving: MovingLayout) -> str:
        """The texts of the fuel burned and left, what a sentence may hang on, and the moment in words."""
        code, layout = self.code, self.code.layout
        units = [tank.input.unit or PURE for tank in self.sheet.tanks]
        levels = [f"p{moving.levels}[{at}]" for at in range(len(units))]
        burned = code.let(f"sum(p{layout.takeoff}) - sum(p{moving.levels})")
        amounts = [WholeAmount(burned, "1", layout.fuel_step).in_unit(units[0])]
        amounts += [
            WholeAmount(at, "1", layout.fuel_step).in_unit(unit) for at, unit in zip(levels, units, strict=True)
        ]
        if any(amount.decimals is None for amount in amounts):
            raise BeyondCompiling("an amount of fuel that is no decimal beforehand")
        texts = ", ".join(code.decimal(amount, amount.decimals or 0) for amount in amounts)
        bits = ", ".join([f"{burned} == 0", *(f"{level} > 0" for level in levels)])
        texts_name, bits_name = code.let(f"({texts})"), code.let(f"({bits})")
        moments = code.add(Moments(self.sheet))
        return code.let(f"({texts_name}, {bits_name}, {moments}.sentence({bits_name}, {texts_name}))")


def _product(one: str, other: str, factor: int) -> str:
    """Code for a product, without factors of one."""
    factors = [each for each in (one, other, str(factor)) if each != "1"]
    return " * ".join(factors) or "1"


def shape_name(side: Side) -> SideName:
    """A side by its published name."""
    names: dict[Side, SideName] = {
        Side.TO_MOST: "to_most",
        Side.TO_LEAST: "to_least",
        Side.FORWARD: "forward",
        Side.AFT: "aft",
        Side.LIGHTER: "lighter",
        Side.HEAVIER: "heavier",
    }
    return names[side]


def _exact(word: str) -> Quantity:
    return Quantity(amount=MARK, unit=word, is_exact=True, exact=None)


def _is_positive(layout: Known) -> bool:
    return isinstance(layout.value, Fraction) and layout.value > 0


def _marked(quantity: Quantity) -> Quantity:
    if not quantity.is_exact:
        raise BeyondCompiling("an amount of fuel that is not exact")
    return quantity.model_copy(update={"amount": MARK})


def _numbers_of(cone: tuple[Node, ...], code: EncodingCode) -> Iterator[str]:
    """Code for every number that the values of a cone are made of."""
    for node in cone:
        match code.layout.slots[node.slot]:
            case Known():
                continue
            case layout:
                yield from (
                    f"p{at}"
                    for at in (getattr(layout, "at", None), getattr(layout, "below", None))
                    if at is not None
                )
