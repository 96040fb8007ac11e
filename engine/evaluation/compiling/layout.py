"""Where the values of a sheet stand among the whole numbers of compiled code, and what they are worth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from engine.evaluation.result import Margin, Side, SlotValue
from grammar.sheet import Claim

Piece = int | bool | None | tuple[int, ...]
"""What compiled code gives for one of its names: a number, a truth, or a row of numbers."""

Pieces = Sequence[Piece]


def whole(piece: Piece) -> int:
    """A piece that is a whole number. Errors: TypeError."""
    if isinstance(piece, int):
        return piece
    raise TypeError(f"no whole number: {piece!r}")


def row(piece: Piece) -> tuple[int, ...]:
    """A piece that is a row of whole numbers. Errors: TypeError."""
    if isinstance(piece, tuple):
        return piece
    raise TypeError(f"no row of numbers: {piece!r}")


# ---- slots


@dataclass(frozen=True, slots=True)
class Known:
    """A value known beforehand."""

    value: Fraction | str | bool

    def read(self, _: Pieces) -> SlotValue:
        """The value."""
        return self.value


@dataclass(frozen=True, slots=True)
class Scaled:
    """A whole number times a scale."""

    at: int
    scale: Fraction

    def read(self, pieces: Pieces) -> SlotValue:
        """The value."""
        return self.scale * whole(pieces[self.at])


@dataclass(frozen=True, slots=True)
class Divided:
    """A whole number times a scale, over another whole number."""

    at: int
    below: int
    scale: Fraction

    def read(self, pieces: Pieces) -> SlotValue:
        """The value."""
        return self.scale * Fraction(whole(pieces[self.at]), whole(pieces[self.below]))


@dataclass(frozen=True, slots=True)
class Chosen:
    """An option, by its number among the words of the sheet."""

    at: int
    words: tuple[str, ...]

    def read(self, pieces: Pieces) -> SlotValue:
        """The option's word."""
        return self.words[whole(pieces[self.at])]


@dataclass(frozen=True, slots=True)
class Settled:
    """The truth of a condition."""

    at: int

    def read(self, pieces: Pieces) -> SlotValue:
        """The truth."""
        return bool(pieces[self.at])


@dataclass(frozen=True, slots=True)
class Unused:
    """A slot that nobody works out."""

    def read(self, _: Pieces) -> SlotValue:
        """Nothing."""
        return None


SlotLayout = Known | Scaled | Divided | Chosen | Settled | Unused


# ---- limits

WITHIN = True
OUTSIDE = False
NOT_APPLICABLE = None
ASK_THE_SWEEP = 2
"""What compiled code says of a limit: that it holds, does not hold, does not apply, or is not for it to say."""


@dataclass(frozen=True, slots=True)
class SideLayout:
    """One side of a claim throughout the burn: where its record stands, and what its three values are worth."""

    side: Side
    at: int
    scales: tuple[Fraction, Fraction, Fraction]

    def margin(self, claim: Claim, pieces: Pieces) -> Margin:
        """The least margin of the side."""
        record = row(pieces[self.at])
        room, subject, bound = (
            scale * Fraction(record[2 * at], record[2 * at + 1]) for at, scale in enumerate(self.scales)
        )
        return Margin(claim, self.side, subject, bound, room)


@dataclass(frozen=True, slots=True)
class MovingLayout:
    """A limit that holds throughout the burn: its sides, and the levels of the tanks where it is tightest."""

    claim: Claim
    sides: tuple[SideLayout, ...]
    levels: int


@dataclass(frozen=True, slots=True)
class Layout:
    """Everything that compiled code gives for a sheet.

    ``verdicts`` has a place for each limit, ``moving`` what is known of those that hold throughout the burn,
    by the limit's number; ``takeoff`` is where the levels of the tanks at take-off stand.
    """

    slots: tuple[SlotLayout, ...]
    verdicts: tuple[int, ...]
    moving: dict[int, MovingLayout]
    takeoff: int | None
    fuel_step: Fraction
