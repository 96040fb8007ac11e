"""The moment of the burn in words, for the encoder: a frame for each way it can read, made when first met."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from engine.evaluation.result import FuelState
from engine.explanation.encoding_frames import MARK, sentence_frame
from engine.explanation.fuel import fuel_state_in_words
from grammar.sheet import Sheet
from grammar.units import PURE

_FIRST_NUMBER: Final = 4_000_001


@dataclass(slots=True)
class Moments:
    """The frames for a sheet, by whether nothing is burned yet and which tanks hold anything."""

    sheet: Sheet
    _frames: dict[tuple[bool, ...], tuple[str, tuple[int, ...]]] = field(default_factory=dict)

    def sentence(self, bits: tuple[bool, ...], texts: tuple[str, ...]) -> str:
        """The moment in words, as it stands in JSON; ``texts`` are the fuel burned and what each tank holds."""
        frame, tanks = self._frames.get(bits) or self._learned(bits)
        return frame % tuple([texts[at] for at in tanks])

    def _learned(self, bits: tuple[bool, ...]) -> tuple[str, tuple[int, ...]]:
        is_begin, *holds = bits
        left = tuple(self._level(at) if held else Fraction(0) for at, held in enumerate(holds))
        text = fuel_state_in_words(self.sheet, FuelState(Fraction(not is_begin), left))
        tanks = tuple(at + 1 for at, held in enumerate(holds) if held)
        for at in tanks:
            text = text.replace(str(_FIRST_NUMBER + at - 1), MARK, 1)
        found = (sentence_frame(text), tanks)
        self._frames[bits] = found
        return found

    def _level(self, at: int) -> Fraction:
        return (self.sheet.tanks[at].input.unit or PURE).to_base(Fraction(_FIRST_NUMBER + at))
