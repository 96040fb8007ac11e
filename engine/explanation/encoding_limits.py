"""The limits in an encoder's code: their margins from whole numbers, their sentences from those learned.

A limit's sentence is looked up by its turn of events: the verdict, the order and the signs of its margins,
which of two rooms is less, the conditions and options that it hangs on, and which figures are exact.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from engine.evaluation.compiling.layout import Chosen, Divided, Known, MovingLayout, Scaled, Settled
from engine.evaluation.compiling.writer import BeyondCompiling
from engine.evaluation.workings import in_working_order
from engine.explanation.document_models import LimitExplained, Quantity, TightestMoment
from engine.explanation.encoding_amounts import WholeAmount
from engine.explanation.encoding_code import EncodingCode, Node
from engine.explanation.encoding_frames import MARK, PLACE, frame_of
from engine.explanation.encoding_margins import MarginNames, MarginWriter
from engine.explanation.encoding_moments import Moments
from engine.explanation.encoding_runtime import NO_SENTENCE
from engine.explanation.encoding_sides import ClaimSide, sides_of
from grammar.sheet import Limit, Measure, Numeric, Option, Sheet, Verdict
from grammar.units import PURE


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
        self.code.data["NO_SENTENCE"] = NO_SENTENCE
        self.sides = self._sides()
        if self.sides is None and self.moving is not None:
            raise BeyondCompiling("a limit throughout the burn that has to be remembered")

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
        sides = sides_of(self.limit.claim, self.code)
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
        code.line(f"{name} = S{self.at}(k)")
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
        code, names = self.code, MarginNames(*(self.code.fresh() for _ in range(3)))
        self.order = names.order
        margins = self._margins(sides, names)
        moment = None if self.moving is None else self._write_moment(self.moving)
        bits = (self.verdict, names.order, *self._bits(), *(() if moment is None else (f"{moment}[1]",)))
        left = "()" if moment is None else f"{moment}[0][1:]"
        sentence = self._lookup(f"({', '.join(bits)},)", names.texts, left)
        word = f"'within' if {self.verdict} else 'not applicable' if {self.verdict} is None else 'outside'"
        places = [[word], [sentence], margins]
        if moment is not None:
            places += [[f"{moment}[0][{at}]"] for at in range(len(self.sheet.tanks) + 1)]
            places.append([f"{moment}[2]"])
        return code.pieces(self._frame(), places)

    def _margins(self, sides: tuple[ClaimSide, ...], names: MarginNames) -> list[str]:
        """The margins in pieces."""
        code, writer = self.code, MarginWriter(self.moving, self.code)
        if sides and self.limit.applies_when is None:
            return writer.write(sides, names)
        code.line(f"{names.joined} = ''; {names.order} = {names.texts} = ()")
        if sides:
            with code.block(f"if {self.verdict} is not None:"):
                pieces = writer.write(sides, names)
                if pieces != [names.joined]:
                    code.line(f"{names.joined} = {code.together(pieces)}")
        return [names.joined]

    def _lookup(self, bits: str, texts: str, left: str) -> str:
        """The name of the sentence for a turn of events."""
        code, name = self.code, self.code.fresh()
        code.line(f"k = {bits}")
        code.line(f"z = S{self.at}(k)")
        code.line(f"if z is None: missed.append(({self.at}, k)); z = NO_SENTENCE")
        code.line(f"{name} = z(figures, {texts}, {left})")
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


def _marked(quantity: Quantity) -> Quantity:
    if not quantity.is_exact:
        raise BeyondCompiling("an amount of fuel that is not exact")
    return quantity.model_copy(update={"amount": MARK})


def _numbers_of(cone: tuple[Node, ...], code: EncodingCode) -> Iterator[str]:
    """Code for every number that the values of a cone are made of."""
    for node in cone:
        layout = code.layout.slots[node.slot]
        if isinstance(layout, Scaled | Divided | Chosen | Settled):
            yield f"p{layout.at}"
        if isinstance(layout, Divided):
            yield f"p{layout.below}"
