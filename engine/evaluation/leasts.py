"""The least margin over a burn: where each claim's room is smallest, exactly wherever that is rational.

Between two cuts a room only grows or only shrinks, so it is smallest towards one end of each stretch. At an
irrational end, and at an end where the room jumps and its least value is approached but not reached, the
margin is that of a rational moment close by, with a room no greater than the true one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from engine.evaluation.margins import Room
from engine.evaluation.places import Moment, Stretch
from engine.evaluation.ratio import Amount, Ratio
from engine.evaluation.result import Margin, Side
from engine.evaluation.roots import Root, bounds, halfway, is_before, sign, sign_at
from grammar.sheet import Verdict

TOLERANCE: Final = Fraction(1, 10**10)
"""How far, in base units, a stated room may lie below the true one where that is irrational."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A room at or towards a moment of the burn that may be the least, and the verdict on the limit there.

    ``least`` is a lower bound of the room. ``stretch`` is the stretch along which the moment is approached,
    None where the room is had at the moment itself.
    """

    room: Room
    at: Fraction | Root
    least: Fraction
    verdict: Verdict
    stretch: Stretch | None


def candidates(room: Room, place: Moment | Stretch, verdict: Verdict) -> Iterator[Candidate]:
    """The candidate that a room at a place gives; none where it falls without end."""
    if isinstance(place, Moment):
        least = _value(room.room, place.at)
        if least is not None:
            yield Candidate(room, place.at, least, verdict, None)
        return
    grows = isinstance(room.room, Ratio) and sign(room.room.turning()(place.middle)) > 0
    end = place.start if grows or not isinstance(room.room, Ratio) else place.end
    least = _value(room.room, end)
    if least is None:
        yield Candidate(room, place.middle, room.at(place.middle).room, verdict, None)
    else:
        yield Candidate(room, end, least, verdict, place)


def least_margins(found: Iterable[Candidate]) -> tuple[tuple[Margin, Fraction], ...]:
    """The least margin of each claim on each of its sides, and the amount burned where it occurs."""
    least: dict[tuple[int, Side], Candidate] = {}
    for candidate in found:
        key = (candidate.room.claim.slot, candidate.room.side)
        known = least.get(key)
        if known is None or _rank(candidate) < _rank(known):
            least[key] = candidate
    return tuple(_margin(candidate) for candidate in least.values())


def _rank(candidate: Candidate) -> tuple[Fraction, bool, bool]:
    """Smaller room first; of equal ones that which is had at a moment, and at a rational one."""
    return candidate.least, candidate.stretch is not None, isinstance(candidate.at, Root)


def _margin(candidate: Candidate) -> tuple[Margin, Fraction]:
    """The margin and its moment; a rational moment close by where there is none with that very room."""
    at, stretch = candidate.at, candidate.stretch
    if stretch is None and isinstance(at, Fraction):
        return candidate.room.at(at), at
    burned = _close_by(candidate)
    return replace(candidate.room.at(burned), room=candidate.least, is_exact=False), burned


def _close_by(candidate: Candidate) -> Fraction:
    """A rational moment, within the stretch if there is one, with a room close to the least."""
    at, stretch = candidate.at, candidate.stretch
    if stretch is None:
        return _low(_narrow(at, candidate.room.room))
    is_start = not is_before(stretch.start, at)
    burned = stretch.middle
    while candidate.room.at(burned).room - candidate.least > 2 * TOLERANCE:
        at = at.narrowed() if isinstance(at, Root) else at
        burned = halfway(at, burned) if is_start else halfway(burned, at)
    return burned


def _low(at: Fraction | Root) -> Fraction:
    return at.low if isinstance(at, Root) else at


def _value(amount: Amount, at: Fraction | Root) -> Fraction | None:
    """The amount at a moment, or a number just below it at an irrational one; None where it has no value."""
    if isinstance(amount, Fraction):
        return amount
    if isinstance(at, Fraction):
        return amount(at) if amount.bottom(at) else None
    direction = sign_at(amount.top, at) * sign_at(amount.bottom, at)
    if direction == 0:
        return Fraction(0) if sign_at(amount.bottom, at) else None
    low, high = _bounds(amount, at)
    while high - low > TOLERANCE or sign(low) * direction < 0:
        at = at.narrowed()
        low, high = _bounds(amount, at)
    return low


def _narrow(at: Fraction | Root, amount: Amount) -> Fraction | Root:
    """The moment known so closely that the amount is known within the tolerance."""
    if isinstance(at, Fraction) or isinstance(amount, Fraction):
        return at
    low, high = _bounds(amount, at)
    while high - low > TOLERANCE:
        at = at.narrowed()
        low, high = _bounds(amount, at)
    return at


_FAR: Final = Fraction(10**30)


def _bounds(amount: Ratio, at: Root) -> tuple[Fraction, Fraction]:
    """Two numbers between which the amount lies near a root; far apart while the divisor may be zero."""
    top, bottom = bounds(amount.top, at.low, at.high), bounds(amount.bottom, at.low, at.high)
    if bottom[0] <= 0 <= bottom[1]:
        return -_FAR, _FAR
    ends = tuple(a / b for a in top for b in bottom)
    return min(ends), max(ends)
