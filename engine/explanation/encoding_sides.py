"""The sides of a limit's claims, for the encoder: every margin that the limit may have."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from engine.evaluation.compiling.layout import Known
from engine.evaluation.result import Margin, Side
from engine.explanation.document_models import SideName
from engine.explanation.encoding_code import EncodingCode
from engine.explanation.headlines import UPWARD, bound_unit
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
    Inside,
    NamedCondition,
)
from grammar.units import Unit


@dataclass(frozen=True, slots=True)
class ClaimSide:
    """One side of a claim: what is held against what, and its number in the limit.

    ``only_if`` is the code of the condition under which the limit rests on the claim, None where it always does.
    """

    claim: Claim
    side: Side
    subject: Expression
    bound: Expression
    number: int
    only_if: str | None

    @property
    def unit(self) -> Unit:
        """The unit in which the margin is shown."""
        nothing = Fraction(0)
        return bound_unit(Margin(self.claim, self.side, nothing, nothing, nothing), self.subject, self.bound)

    @property
    def is_up(self) -> bool:
        """Whether more is worse."""
        return self.side in UPWARD


def sides_of(condition: Condition, code: EncodingCode) -> tuple[ClaimSide, ...]:
    """Every side of the claims that a limit may rest on, in the order in which margins are found."""
    found = _reached(condition, code, None)
    reached: dict[int, tuple[Claim, str | None]] = {}
    for claim, only_if in found:
        _, before = reached.get(claim.slot, (claim, "False"))
        either = None if only_if is None or before is None else f"({before} or {only_if})"
        reached[claim.slot] = (claim, either)
    sides = [(claim, *pair, only_if) for claim, only_if in reached.values() for pair in _pairs(claim)]
    return tuple(
        ClaimSide(claim, side, subject, bound, at, only_if)
        for at, (claim, side, subject, bound, only_if) in enumerate(sides)
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


def _reached(condition: Condition, code: EncodingCode, only_if: str | None) -> Iterator[tuple[Claim, str | None]]:
    """The claims that a condition may rest on, each with the code of when it does, as margins go by them."""
    match condition:
        case AtMost() | AtLeast() | Between() | Inside():
            yield condition, only_if
        case NamedCondition():
            yield from _reached(condition.body, code, only_if)
        case AllOf():
            for part in condition.parts:
                yield from _reached(part, code, only_if)
        case AnyOf():
            yield from _of_any(condition, code, only_if)
        case ConditionChoice():
            yield from _of_choice(condition, code, only_if)
        case _:
            return


def _of_any(condition: AnyOf, code: EncodingCode, only_if: str | None) -> Iterator[tuple[Claim, str | None]]:
    """The alternatives that hold; where none does, all of them."""
    open_ones = [part for part in condition.parts if code.layout.slots[part.slot] != Known(False)]
    if len(open_ones) == 1:
        yield from _reached(open_ones[0], code, only_if)
        return
    holds = " or ".join(code.truth(part.slot) for part in condition.parts)
    for part in condition.parts:
        rests = f"({code.truth(part.slot)} or not ({holds}))"
        yield from _reached(part, code, _both(only_if, rests))


def _of_choice(
    condition: ConditionChoice, code: EncodingCode, only_if: str | None
) -> Iterator[tuple[Claim, str | None]]:
    passed: list[str] = []
    for case in condition.cases:
        guard = code.truth(case.guard.slot)
        chosen = " and ".join((f"({guard})", *(f"not ({each})" for each in passed)))
        yield from _reached(case.value, code, _both(only_if, f"({chosen})"))
        passed.append(guard)
    if condition.otherwise is not None:
        none = " or ".join(passed)
        yield from _reached(condition.otherwise, code, _both(only_if, f"(not ({none}))"))


def _both(one: str | None, other: str) -> str:
    return other if one is None else f"({one} and {other})"


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
