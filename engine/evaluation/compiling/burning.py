"""The burn in generated code: what each tank holds at take-off, at every turn of the burn and at landing.

A turn is a moment at which a tank runs dry or is switched; between two turns everything that the tanks
hold changes evenly.
"""

from __future__ import annotations

from contextlib import nullcontext
from dataclasses import dataclass
from fractions import Fraction

from engine.evaluation.compiling.data import Data
from engine.evaluation.compiling.writer import Writer
from grammar.sheet import Burn, Sheet, Tank


@dataclass(frozen=True, slots=True)
class Drawing:
    """Code that draws fuel from the tanks, in the order of the sheet's burn.

    ``levels`` are the variables that hold what each tank holds; drawing changes them in place. ``step`` is
    what one whole number of fuel is worth. ``turns`` is the list to which the levels are added at every
    turn, none where nobody asks for them.
    """

    sheet: Sheet
    levels: tuple[str, ...]
    step: Fraction
    turns: str | None
    writer: Writer
    data: Data

    def write(self, burn: Burn, amount: str) -> None:
        """Draw an amount; no tank is drawn below the level of its step."""
        left = self.writer.fresh()
        self.writer.line(f"{left} = {amount}")
        with self.writer.block(f"if {left}:"):
            self._steps(burn, left)

    def _steps(self, burn: Burn, left: str) -> None:
        for at, each in enumerate(burn.steps):
            members = tuple(dict.fromkeys(self._index(tank) for tank in each.tanks))
            lowest = int(each.down_to / self.step)
            with self.writer.block(f"if {left}:") if at else nullcontext():
                if len(members) == 1:
                    self._alone(self.levels[members[0]], lowest, left)
                else:
                    self._together(members, lowest, left)

    def _index(self, tank: Tank) -> int:
        return [each.input.name for each in self.sheet.tanks].index(tank.input.name)

    def _alone(self, level: str, lowest: int, left: str) -> None:
        writer, room = self.writer, self.writer.fresh()
        writer.line(f"{room} = {level} - {lowest}")
        with writer.block(f"if {room} > 0:"):
            with writer.block(f"if {left} <= {room}:"):
                writer.line(f"{level} -= {left}")
                writer.line(f"{left} = 0")
            with writer.block("else:"):
                writer.line(f"{level} = {lowest}")
                writer.line(f"{left} -= {room}")
            if self.turns is not None:
                writer.line(f"{self.turns}.append({tuple_of(self.levels)})")

    def _together(self, members: tuple[int, ...], lowest: int, left: str) -> None:
        draw = self.data.function("draw_together", draw_together)
        turns = self.turns or "[]"
        which = self.data.add(members)
        levels = tuple_of(self.levels)
        self.writer.line(
            f"{', '.join(self.levels)}, {left} = {draw}({levels}, {which}, {lowest}, {left}, {turns})"
        )


def tuple_of(names: tuple[str, ...]) -> str:
    """The code of a tuple."""
    return f"({', '.join(names)},)"


def draw_together(
    levels: tuple[int, ...], members: tuple[int, ...], lowest: int, left: int, turns: list[tuple[int, ...]]
) -> tuple[int, ...]:
    """Draw from several tanks equally, each down to its lowest; the levels afterwards and what is still to draw.

    The step of the fuel is fine enough that every share is a whole number.
    """
    held = list(levels)
    while left:
        drawn = [at for at in members if held[at] > lowest]
        if not drawn:
            break
        burned = min((min(held[at] for at in drawn) - lowest) * len(drawn), left)
        for at in drawn:
            held[at] -= burned // len(drawn)
        left -= burned
        turns.append(tuple(held))
    return (*held, left)
