"""The moment of the burn in words, for the encoder: a frame for each way it can read, made when first met."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from engine.evaluation.result import FuelState
from engine.explanation.encoding_frames import MARK, sentence_pieces
from engine.explanation.encoding_runtime import Filled, Hole, Sentence
from engine.explanation.fuel import fuel_state_in_words
from grammar.sheet import Sheet
from grammar.units import PURE

_FIRST_NUMBER: Final = 4_000_001


@dataclass(slots=True)
class Moments:
    """The frames for a sheet, by whether nothing is burned yet and which tanks hold anything."""

    sheet: Sheet
    _written: dict[tuple[bool, ...], Filled] = field(default_factory=dict)

    def sentence(self, bits: tuple[bool, ...], texts: tuple[str, ...]) -> str:
        """The moment in words, as it stands in JSON; ``texts`` are the fuel burned and what each tank holds."""
        return (self._written.get(bits) or self._learned(bits))((), (), texts)

    def _learned(self, bits: tuple[bool, ...]) -> Filled:
        is_begin, *holds = bits
        left = tuple(self._level(at) if held else Fraction(0) for at, held in enumerate(holds))
        text = fuel_state_in_words(self.sheet, FuelState(Fraction(not is_begin), left))
        tanks = tuple(at + 1 for at, held in enumerate(holds) if held)
        for at in tanks:
            text = text.replace(str(_FIRST_NUMBER + at - 1), MARK, 1)
        holes = tuple(Hole("left", at) for at in tanks)
        found = self._written[bits] = Sentence(sentence_pieces(text), holes).written(())
        return found

    def _level(self, at: int) -> Fraction:
        return (self.sheet.tanks[at].input.unit or PURE).to_base(Fraction(_FIRST_NUMBER + at))
