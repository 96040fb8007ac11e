"""A claim with its margins as a clause: what it is, what is allowed, by how much, and how the bound came about."""

from __future__ import annotations

from engine.evaluation.result import Margin, Side
from engine.explanation.amounts import Day
from engine.explanation.headlines import Figures, figures, sides
from engine.explanation.naming import declared_mass
from engine.explanation.phrases import Phrases
from grammar.figures import Rounding
from grammar.sheet import (
    AtLeast,
    AtMost,
    Between,
    Constant,
    Count,
    Expression,
    FuelAmount,
    Ground,
    Inside,
    Limit,
    Named,
    Read,
    Stage,
)
from grammar.units import MASS

_ACROSS = (Side.FORWARD, Side.AFT)
_AGAINST = (Side.LIGHTER, Side.HEAVIER)


def claim_in_words(
    claim: AtMost | AtLeast | Between | Inside,
    margins: tuple[Margin, ...],
    limit: Limit,
    holds: bool,
    phrases: Phrases,
) -> str:
    """What the margins of a claim say, the tightest first."""
    match claim:
        case Inside():
            return _point(claim, margins, holds, phrases)
        case AtMost() | AtLeast():
            return _against_one(margins[0], holds, phrases)
        case Between():
            words = _against_one(_telling(margins, limit, holds), holds, phrases)
            return words if limit.ground is Ground.RANGE else f"{words}{_allowed(claim, phrases)}"


def _telling(margins: tuple[Margin, ...], limit: Limit, holds: bool) -> Margin:
    """The end to speak of: the nearer, or under ``throughout`` that of the moment spoken of."""
    if limit.stage is Stage.THROUGHOUT:
        return margins[0]
    if limit.ground is Ground.RANGE and holds:
        return _upper_of_a_range(margins)
    return min(margins, key=lambda margin: margin.room)


def _upper_of_a_range(margins: tuple[Margin, ...]) -> Margin:
    """The margin to speak of when a load is in its range: an empty place is not "just on its least"."""
    upward = [margin for margin in margins if margin.side is Side.TO_MOST]
    lowest = [margin for margin in margins if margin.side is Side.TO_LEAST and margin.bound > 0]
    return min([*upward, *lowest] or list(margins), key=lambda margin: margin.room)


def _allowed(claim: Between, phrases: Phrases) -> str:
    low, high = phrases.figure(claim.low, Rounding.UP), phrases.figure(claim.high, Rounding.DOWN)
    return f" (allowed from {low} to {high})"


# ---- one value against one bound


def _against_one(margin: Margin, holds: bool, phrases: Phrases) -> str:
    shown = figures(margin)
    subject, bound = sides(margin)
    return f"{_subject(subject, shown, phrases)}, {_relation(shown, holds)}{_how(bound, shown, phrases)}"


def _subject(subject: Expression, shown: Figures, phrases: Phrases) -> str:
    """ "front seat 98 kg", or what is worked out and what it comes to."""
    match subject:
        case Named() if declared_mass(subject) is not None:
            return f"{phrases.name(subject)} {shown.subject}{_manner(subject, phrases)}"
        case Read() | Named() | FuelAmount():
            return f"{phrases.name(subject)} {shown.subject}"
        case Count():
            return phrases.count(subject)
        case Constant():
            return str(shown.subject)
        case _:
            lean = Rounding.UP if shown.margin.side is Side.TO_MOST else Rounding.DOWN
            return f"{phrases.phrase(subject, lean)} comes to {shown.subject}"


def _manner(subject: Expression, phrases: Phrases) -> str:
    """How a mass is known: " (98 kg declared plus 4 kg)", " weighed"."""
    mass = declared_mass(subject)
    manner = "" if mass is None else phrases.manner(mass)
    return f" ({manner})" if " " in manner else f" {manner}".rstrip()


def relation_in_words(shown: Figures) -> str:
    """How a value stands to its bound: "over 91 kg by 7 kg"."""
    return _relation(shown, holds=not shown.is_passed)


def _relation(shown: Figures, holds: bool) -> str:
    is_upper, bound = shown.margin.side is Side.TO_MOST, shown.bound
    if isinstance(bound, Day):
        return _date_relation(shown, is_upper)
    if shown.margin.room == 0 and shown.margin.is_exact:
        return f"exactly on the {'most' if is_upper else 'least'} allowed, {bound}, and so within"
    if holds:
        return f"{'within' if is_upper else 'above'} {bound} by {_not_below_zero(shown)}"
    return f"{'over' if is_upper else 'short of'} {bound} by {shown.size}"


def _not_below_zero(shown: Figures) -> str:
    """The room of a claim that holds; a lower bound of it may lie a shade below zero."""
    return "next to nothing" if shown.is_passed else str(shown.size)


def _date_relation(shown: Figures, is_upper: bool) -> str:
    if shown.margin.room == 0:
        return f"the {'last' if is_upper else 'first'} day allowed"
    is_before = is_upper is not shown.is_passed
    return f"{'before' if is_before else 'after'} {shown.bound} by {shown.size}"


def _how(bound: Expression, shown: Figures, phrases: Phrases) -> str:
    """How the bound came about, where the sheet does not simply print it."""
    lean = Rounding.DOWN if shown.margin.side is Side.TO_MOST else Rounding.UP
    match bound:
        case Constant():
            return ""
        case Named(is_built_in=False):
            return f": {phrases.name(bound)}, {phrases.phrase(bound.body, lean)}"
        case _:
            return f": {phrases.phrase(bound, lean)}"


# ---- a point and an envelope


def _point(claim: Inside, margins: tuple[Margin, ...], holds: bool, phrases: Phrases) -> str:
    now = _at_one_moment(claim, margins, phrases)
    across = _coordinate(claim.across, now, _ACROSS, phrases)
    against = _coordinate(claim.against, now, _AGAINST, phrases)
    subject = f"{phrases.name(claim.across)} {across} at {against}"
    if holds:
        return f"{subject}: {_room_inside(claim, now[0])}"
    passed = sorted((margin for margin in now if margin.room < 0), key=lambda one: one.side not in _ACROSS)
    beyond = [beyond_in_words(claim, margin) for margin in passed]
    return f"{subject}: {beyond[0]} the envelope{_or_else(beyond[1:])}"


def _or_else(beyond: list[str]) -> str:
    """The other ways back inside, each of which is enough."""
    return "".join(f", or {each} it" for each in beyond)


def _at_one_moment(claim: Inside, margins: tuple[Margin, ...], phrases: Phrases) -> tuple[Margin, ...]:
    """The tightest margin, and of the others those of the same moment of the burn.

    Each side of an envelope may be tightest at a moment of its own; a sentence speaks of one moment only.
    """
    values = phrases.values
    point = {claim.across.slot: values[claim.across.slot], claim.against.slot: values[claim.against.slot]}
    first, *others = margins
    same = [one for one in others if one.subject == point[sides(one)[0].slot]]
    return (first, *same)


def _coordinate(node: Expression, margins: tuple[Margin, ...], along: tuple[Side, Side], phrases: Phrases) -> str:
    """A coordinate of the point, leaning towards the nearer edge on its axis."""
    nearest = next((margin for margin in margins if margin.side in along), None)
    return phrases.figure(node, Rounding.NEAREST) if nearest is None else str(figures(nearest).subject)


def _room_inside(claim: Inside, margin: Margin) -> str:
    edge = _edge(claim, margin.side)
    if margin.room == 0 and margin.is_exact:
        return f"on the {edge} of the envelope, and so inside"
    return f"inside the envelope, {_not_below_zero(figures(margin))} short of its {edge}"


def _edge(claim: Inside, side: Side) -> str:
    match side:
        case Side.FORWARD:
            return "forward edge" if _is_along(claim) else "edge on the lesser side"
        case Side.AFT:
            return "aft edge" if _is_along(claim) else "edge on the greater side"
        case Side.LIGHTER:
            return "lower edge"
        case _:
            return "upper edge"


def side_in_words(margin: Margin) -> str:
    """Which bound a margin is measured to: "the most allowed", "aft edge"."""
    if isinstance(margin.claim, Inside):
        return f"{_edge(margin.claim, margin.side)} of the envelope"
    return "the most allowed" if margin.side is Side.TO_MOST else "the least allowed"


def beyond_in_words(claim: Inside, margin: Margin) -> str:
    """How far past the envelope: "22 mm aft of", "12 kg too heavy for"."""
    by, is_mass = figures(margin).size, claim.envelope.against.unit.dimension == MASS
    match margin.side:
        case Side.FORWARD:
            return f"{by} forward of" if _is_along(claim) else f"{by} past the lesser side of"
        case Side.AFT:
            return f"{by} aft of" if _is_along(claim) else f"{by} past the greater side of"
        case Side.LIGHTER:
            return f"{by} too light for" if is_mass else f"{by} below"
        case _:
            return f"{by} too heavy for" if is_mass else f"{by} above"


def _is_along(claim: Inside) -> bool:
    """Whether the envelope is printed along the aircraft, so that "forward" and "aft" are the words for it."""
    return claim.envelope.across.name in ("cg", "cg_percent_mac", "moment")
