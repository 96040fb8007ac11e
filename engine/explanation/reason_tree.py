"""The tree of reasons: a closed family, down from a limit to the figures that the sheet prints."""

from __future__ import annotations

from dataclasses import dataclass

from engine.evaluation.result import Cause, FuelState, Margin
from engine.explanation.amounts import Shown
from engine.explanation.citing import Citation
from engine.explanation.operations import Operation
from grammar.sheet import (
    Input,
    Limit,
    Stage,
    Tank,
    Verdict,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Explained:
    """What every reason carries: its slot, its value as shown, and where it stands in the sheet."""

    slot: int
    shown: Shown
    cited: Citation | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed(Explained):
    """A figure, a date or an option that the sheet prints."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FromInput(Explained):
    """What the weighing, the airframe's record or the request states, or what is taken where nobody does."""

    input: Input
    is_assumed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FuelLeft(Explained):
    """What the burn has left in a tank, and the amounts that say so (None where nobody states one)."""

    tank: Tank
    stage: Stage
    held: Shown | None
    taxi: Shown | None
    trip: Shown | None


@dataclass(frozen=True, slots=True, kw_only=True)
class UnderName(Explained):
    """A value that has a name, with the reason for it; the label is as it stands inside a sentence."""

    name: str
    label: str
    because: Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class ExplainedAbove(Explained):
    """A value under a name whose reason was given before."""

    name: str
    label: str


@dataclass(frozen=True, slots=True)
class Step:
    """A part of a calculation and the word that joins it: "less", "times", "at most", or none."""

    word: str
    reason: Reason


@dataclass(frozen=True, slots=True)
class Chart:
    """A printed table or envelope, and where it stands."""

    label: str
    cited: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedOut(Explained):
    """A value worked out of others; ``chart`` is the table or envelope that was read, if any.

    ``how`` says what was done, to stand before the parts ("the sum of"); ``said`` puts a condition whose
    outcome is known into words: what is so ("the engine is standard").
    """

    operation: Operation
    how: str
    said: str | None
    steps: tuple[Step, ...]
    chart: Chart | None


Reason = Printed | FromInput | FuelLeft | UnderName | ExplainedAbove | WorkedOut


@dataclass(frozen=True, slots=True)
class LimitReason:
    """Why a limit came out as it did.

    ``applies`` is the reason for its condition (None where it has none); ``missing`` is what an undetermined
    verdict waits for; ``tightest`` is the fuel state at which a limit that holds throughout is tightest.
    """

    limit: Limit
    verdict: Verdict
    cited: Citation
    margins: tuple[Margin, ...]
    missing: tuple[Cause, ...]
    tightest: FuelState | None
    applies: Reason | None
    claim: Reason
