"""The room that each claim of a limit leaves, on each of its sides."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from engine.evaluation.envelope import reaches, turned
from engine.evaluation.ratio import Amount, Ratio
from engine.evaluation.result import Gap, Margin, Side
from engine.evaluation.workings import Workings
from grammar.sheet import (
    Above,
    AllOf,
    AnyOf,
    AtLeast,
    AtMost,
    Below,
    Between,
    Claim,
    Condition,
    ConditionChoice,
    Expression,
    Inside,
    Measure,
    NamedCondition,
    Not,
    Numeric,
    Occupied,
    Same,
    Stated,
)
from grammar.units import Unit


@dataclass(frozen=True, slots=True)
class Room:
    """A margin whose values may still move with the burn."""

    claim: Claim
    side: Side
    subject: Amount
    bound: Amount
    room: Amount

    def standing(self) -> Margin:
        """The margin where nothing moves. Errors: TypeError where something does."""
        return Margin(self.claim, self.side, _fraction(self.subject), _fraction(self.bound), _fraction(self.room))

    def at(self, burned: Fraction) -> Margin:
        """The margin once so much is burned."""
        subject, bound, room = (
            amount(burned) if isinstance(amount, Ratio) else amount
            for amount in (self.subject, self.bound, self.room)
        )
        return Margin(self.claim, self.side, subject, bound, room)


def _fraction(amount: Amount) -> Fraction:
    if isinstance(amount, Ratio):
        raise TypeError("a moving value where nothing moves")
    return amount


def rooms(condition: Condition, known: Workings) -> tuple[Room, ...]:
    """The room of every claim that the condition rests on, as far as it can be told, in the order written."""
    return tuple(room for claim in claims_reached(condition, known) for room in _rooms_of(claim, known))


def claims_reached(condition: Condition, known: Workings) -> Iterator[Claim]:
    """The claims that a condition rests on: not those denied, nor those of cases that are not chosen.

    Where one of several alternatives holds, those that do not hold are left out: no one rests on them.
    """
    waiting: list[Condition] = [condition]
    seen: set[int] = set()
    while waiting:
        node = waiting.pop()
        if node.slot in seen:
            continue
        seen.add(node.slot)
        match node:
            case AtMost() | AtLeast() | Between() | Inside():
                yield node
            case AllOf():
                waiting += reversed(node.parts)
            case AnyOf():
                holding = [part for part in node.parts if known.truth(part) is True]
                waiting += reversed(holding or node.parts)
            case NamedCondition():
                waiting.append(node.body)
            case ConditionChoice():
                waiting += _chosen(node, known)
            case Below() | Above() | Same() | Occupied() | Stated() | Not():
                continue


def _chosen(node: ConditionChoice, known: Workings) -> list[Condition]:
    """The case that is chosen, or nothing where that cannot be told."""
    for case in node.cases:
        guard = known.truth(case.guard)
        if guard is not False:
            return [case.value] if guard is True else []
    return [] if node.otherwise is None else [node.otherwise]


def _rooms_of(claim: Claim, known: Workings) -> Iterator[Room]:
    match claim:
        case AtMost():
            yield from _up_to(claim, claim.subject, claim.bound, known)
        case AtLeast():
            yield from _down_to(claim, claim.subject, claim.bound, known)
        case Between():
            yield from _down_to(claim, claim.subject, claim.low, known)
            yield from _up_to(claim, claim.subject, claim.high, known)
        case Inside():
            yield from _within(claim, known)


def _up_to(claim: Claim, subject: Expression, bound: Expression, known: Workings) -> Iterator[Room]:
    value, most = known.amount(subject), known.amount(bound)
    if not (isinstance(value, Gap) or isinstance(most, Gap)):
        yield Room(claim, Side.TO_MOST, value, most, most - value)


def _down_to(claim: Claim, subject: Expression, bound: Expression, known: Workings) -> Iterator[Room]:
    value, least = known.amount(subject), known.amount(bound)
    if not (isinstance(value, Gap) or isinstance(least, Gap)):
        yield Room(claim, Side.TO_LEAST, value, least, value - least)


def _within(claim: Inside, known: Workings) -> Iterator[Room]:
    across, against = known.amount(claim.across), known.amount(claim.against)
    if isinstance(across, Gap) or isinstance(against, Gap):
        return
    corners = claim.envelope.corners
    for reach in reaches(corners, across, against, known.place):
        side = Side.FORWARD if reach.is_low else Side.AFT
        yield Room(claim, side, across, reach.bound, reach.room)
    for reach in reaches(turned(corners), against, across, known.place):
        side = Side.LIGHTER if reach.is_low else Side.HEAVIER
        yield Room(claim, side, against, reach.bound, reach.room)


# ---- which is tightest


def tightest_first(margins: Iterable[Margin]) -> tuple[Margin, ...]:
    """The margins by their share of the bound, the least first.

    Shares are pure numbers and so can be compared across units. A bound of zero has no share, nor has a date
    or a temperature: passed, it comes before everything else, kept with room after everything else, met
    exactly it counts as none. Where shares are equal, margins of one dimension stand together and are
    ordered by their room.
    """
    gathered = tuple(margins)
    dimensions = [_dimension(margin) for margin in gathered]
    ranked = sorted(
        range(len(gathered)),
        key=lambda at: (*tightness(gathered[at]), dimensions.index(dimensions[at]), gathered[at].room),
    )
    return tuple(gathered[at] for at in ranked)


def tightness(margin: Margin) -> tuple[int, Fraction]:
    """What margins of any unit are ordered by."""
    if margin.share is not None:
        return 0, margin.share
    return (margin.room > 0) - (margin.room < 0), Fraction(0)


def _dimension(margin: Margin) -> object:
    kind = _measured(margin).kind
    return kind.dimension if isinstance(kind, Measure) else type(kind)


def unit_of(margin: Margin) -> Unit | None:
    """The unit to show a margin in; None for a count of days."""
    return _measured(margin).unit


def _measured(margin: Margin) -> Numeric:
    """What the margin is measured on."""
    match margin.claim:
        case AtMost() | AtLeast() | Between():
            return margin.claim.subject
        case Inside():
            is_across = margin.side in (Side.FORWARD, Side.AFT)
            return margin.claim.across if is_across else margin.claim.against
