"""The sides of a limit's claims, for the encoder: every margin that the limit may have."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engine.evaluation.compiling.layout import Known
from engine.evaluation.result import Margin, Side
from engine.evaluation.workings import in_working_order
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
