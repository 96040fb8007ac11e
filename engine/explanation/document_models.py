"""The published shape of an explanation: what a program gets, as JSON.

Every object has the same keys in the same order whatever its values, so that a sheet's explanation is a fixed
frame with values put in. The schema made of these models is published as docs/explanation.schema.json.
Importing this module imports pydantic; the rest of the room does not.
"""

from __future__ import annotations

from typing import Final, Literal

from pydantic import BaseModel, ConfigDict, Field

from engine.explanation.operations import Operation
from grammar.sheet import Ground, LayerKind, Stage, Verdict, Weight

FORMAT: Final = "burthen explanation 1"
"""The name and number of this shape; the number changes when a key does."""

SideName = Literal["to_most", "to_least", "forward", "aft", "lighter", "heavier"]
Why = Literal["not stated", "out of range", "out of table", "division by zero", "burn not followed"]
ValueKind = Literal["amount", "date", "option", "condition"]
ValueState = Literal["known", "cannot be told", "not needed"]


class _Model(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Quantity(_Model):
    """An amount with its unit, or a day. The text is exact, or rounded so that it never flatters."""

    amount: str = Field(
        description="A decimal as text, such as 487.2, never a binary number; of a day year-month-day."
    )
    unit: str = Field(description="The unit, such as kg; empty for a plain number; date for a day.")
    is_exact: bool = Field(description="Whether the text says the value exactly.")
    exact: str | None = Field(
        description="The value in the unit as a fraction, such as 21517/18, where the text is rounded."
    )


class SourceParagraph(_Model):
    """The paragraph of a document that something was taken from."""

    document: str = Field(description="The document's name in the sheet.")
    title: str = Field(description="The document's full title.")
    paragraph: str = Field(description="The paragraph.")


class SheetIdentity(_Model):
    """Which sheet the answer was worked out with."""

    name: str = Field(description="The sheet's name.")
    revision: int = Field(description="The sheet's revision.")
    title: str = Field(description="The sheet's title.")


class LayerShown(_Model):
    """One of the files that the sheet was resolved from."""

    kind: LayerKind = Field(description="Sheet, supplement, order or permit.")
    name: str = Field(description="Its name.")
    revision: int = Field(description="Its revision.")
    title: str = Field(description="Its title.")
    file: str = Field(description="The file it was read from.")
    effective: str | None = Field(description="The first day on which it holds, year-month-day.")
    until: str | None = Field(description="The last day on which it holds.")
    airframe: str | None = Field(description="The one airframe that it is for.")
    issued_by: str | None = Field(description="Who issued it.")


class PermitShown(_Model):
    """A permit that the answer is given under. It is to be shown before everything else."""

    sentence: str = Field(description="The permit in words, with what it loosens.")
    permit: LayerShown = Field(description="The permit.")
    loosens: tuple[str, ...] = Field(description="The names of the limits that it loosens.")


class DisplacedShown(_Model):
    """A statement that another took the place of."""

    layer: str = Field(description="The name of the layer that it stood in.")
    revision: int = Field(description="The layer's revision.")
    file: str = Field(description="The file.")
    line: int = Field(description="The line.")
    source: str = Field(description="The document and the paragraph that it named.")


class Assumed(_Model):
    """Something that the answer takes for granted because nobody states it."""

    input: str = Field(description="The name of the input that is not stated.")
    label: str = Field(description="Its label.")
    taken: Quantity | None = Field(description="The value taken; null where no single value is.")
    sentence: str = Field(description="The assumption in a sentence.")
    source: SourceParagraph | None = Field(description="The paragraph that allows it, where there is one.")


class ShownMargin(_Model):
    """The room between a value and a bound of one claim of a limit."""

    claim: int = Field(description="The number of the claim among the values.")
    side: SideName = Field(
        description="Which way the room is measured: up to the most or down to the least allowed; for an "
        "envelope towards its lesser (forward) or greater (aft) side across, its lower or upper edge against."
    )
    subject: Quantity = Field(description="The value held against the bound.")
    bound: Quantity = Field(description="The bound; for an envelope, where its edge lies.")
    room: Quantity = Field(description="What is left; below zero by as much as the bound is passed.")
    share: str | None = Field(
        description="The room as a share of the bound in per cent, such as 13.125, rounded down to three "
        "decimals; null for a day, a point on a scale or a bound of zero."
    )


class MissingValue(_Model):
    """Something that an undetermined verdict waits for."""

    why: Why = Field(description="What is wrong with it.")
    name: str | None = Field(description="The input or the table; null where it is neither.")
    axis: str | None = Field(description="The axis of the table, where a table is read beyond its end.")
    asked: Quantity | None = Field(description="The value that was stated or asked for, where there is one.")
    nearest: Quantity | None = Field(description="The nearest value that is covered, where there is one.")
    sentence: str = Field(description="The cause in words.")


class TankLeft(_Model):
    """What one tank holds at a moment of the burn."""

    tank: str = Field(description="The tank's name.")
    label: str = Field(description="The tank's label.")
    left: Quantity = Field(description="What it holds.")


class TightestMoment(_Model):
    """The moment of the burn at which a limit that holds throughout is tightest."""

    burned: Quantity = Field(description="The fuel burned since take-off.")
    tanks: tuple[TankLeft, ...] = Field(description="What each tank holds, in the order of the sheet.")
    sentence: str = Field(description="The moment in words.")


class LimitExplained(_Model):
    """How one limit came out, and why."""

    name: str = Field(description="The limit's name in the sheet.")
    label: str = Field(description="Its label.")
    verdict: Verdict = Field(description="How it came out. Undetermined never clears a load.")
    weight: Weight = Field(
        description="Whether it refuses the load when broken (limit) or is only shown (caution)."
    )
    ground: Ground = Field(
        description="Stated as such, the range of a load or a tank, or plain arithmetic of the burn."
    )
    stage: Stage | None = Field(description="The stage that it speaks of, where it names one.")
    source: SourceParagraph | None = Field(description="The paragraph that it rests on.")
    note: str | None = Field(description="The officer's note.")
    file: str = Field(description="The file that it stands in.")
    line: int = Field(description="The line that it begins on.")
    layer: str | None = Field(description="The layer that brought it; null for the sheet itself.")
    displaced: tuple[DisplacedShown, ...] = Field(description="What it took the place of, the latest first.")
    sentence: str = Field(description="The finding in one sentence.")
    margins: tuple[ShownMargin, ...] = Field(description="Every margin that can be told, the tightest first.")
    missing: tuple[MissingValue, ...] = Field(description="What an undetermined verdict waits for.")
    tightest: TightestMoment | None = Field(description="For a limit that holds throughout: where it is tightest.")
    claim: int = Field(description="The number of the claim among the values.")
    applies_when: int | None = Field(description="The number of its condition among the values.")


class ValueExplained(_Model):
    """One value on the way to the answer, and the numbers of the values that it was made from."""

    number: int = Field(description="The value's number, the same in every answer of this sheet.")
    operation: Operation = Field(description="How it came about, such as sum or read from a table.")
    name: str | None = Field(description="The name it has in the sheet or the language, where it has one.")
    label: str | None = Field(description="The label that goes with the name.")
    kind: ValueKind = Field(description="What sort of value it is.")
    state: ValueState = Field(
        description="Whether it is known; not needed marks what the answer could be given without."
    )
    text: str | None = Field(description="A known option, or whether a condition holds; else null.")
    quantity: Quantity | None = Field(description="A known amount or day; else null.")
    is_assumed: bool = Field(description="Whether it was taken for granted because nobody states it.")
    statement: str | None = Field(description="The statement that it stands in.")
    file: str | None = Field(description="The file of that statement.")
    line: int | None = Field(description="The line that it stands on.")
    source: SourceParagraph | None = Field(description="The paragraph that it was taken from.")
    made_from: tuple[int, ...] = Field(description="The numbers of the values it was made from, in order.")
    joined_by: tuple[str, ...] = Field(description="The word before each of those: less, times, at most, or none.")


class ExplanationDocument(_Model):
    """A whole answer with its reasons."""

    format: Literal["burthen explanation 1"] = Field(description="The name and number of this shape.")
    caution: str = Field(description="What every surface says: this is an aid, and who decides.")
    permits: tuple[PermitShown, ...] = Field(
        description="The permits that the answer is given under, to be shown first and unmistakably."
    )
    sheet: SheetIdentity = Field(description="The sheet that the answer was worked out with.")
    layers: tuple[LayerShown, ...] = Field(
        description="The files it was resolved from, the sheet first; empty for a sheet checked by itself."
    )
    verdict: Verdict = Field(
        description="The verdict of the whole sheet: within only if every limit that applies is within."
    )
    assumptions: tuple[Assumed, ...] = Field(description="What was taken for granted.")
    limits: tuple[LimitExplained, ...] = Field(description="Every limit, in the order of the sheet.")
    values: tuple[ValueExplained, ...] = Field(
        description="Every value that a limit rests on, in the order of their numbers."
    )
