"""The least room of each side of a limit over the turns of a burn, in generated code.

Where a path stays inside a convex envelope each of the four rooms is least at a turn of the burn, but for
one case: the point's position over the mass is a hyperbola, and with an edge that leans the other way the
room may have a lowest point between two turns. Where that is possible the plain sweep is asked.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor, lcm

from engine.evaluation.compiling.data import Data
from engine.evaluation.compiling.forms import Form
from engine.evaluation.compiling.writer import Writer
from engine.evaluation.envelope import Corner, Line, slices, turned
from engine.evaluation.result import Side

Record = tuple[int, ...]
"""A room, a subject and a bound, each as two whole numbers, one over the other."""


@dataclass(frozen=True, slots=True)
class Sided:
    """A side of a claim in generated code: the six pieces of its record, and what each of the three is worth."""

    side: Side
    room: tuple[str, str]
    subject: tuple[str, str]
    bound: tuple[str, str]
    scales: tuple[Fraction, Fraction, Fraction]


def write_best(sided: Sided, best: str, levels: tuple[str, ...], writer: Writer) -> None:
    """Keep the record of a side, and the levels of the tanks, where its room is least, under a name."""
    (above, under), pieces = sided.room, (*sided.room, *sided.subject, *sided.bound, *levels)
    is_less = f"{above} < {best}[0]" if under == "1" else f"{above} * {best}[1] < {best}[0] * {under}"
    writer.line(f"if {best} is None or {is_less}: {best} = ({', '.join(pieces)})")


# ---- convex envelopes


@dataclass(frozen=True, slots=True)
class WholeBands:
    """The lower and upper boundary of a convex polygon over its bands: ``(a + b level) / times`` each.

    ``inner`` are the levels between two bands, as (numerator, denominator) at the level's scale.
    """

    inner: tuple[tuple[int, int], ...]
    lines: tuple[tuple[int, int, int, int], ...]
    times: int


def whole_bands(corners: tuple[Corner, ...], position: Fraction, level: Fraction) -> WholeBands:
    """The bands of a convex polygon for positions and levels at two scales."""
    exact = slices(corners)
    pairs = [(_scaled(low, position, level), _scaled(high, position, level)) for ((low, high),) in exact.bands]
    times = lcm(*(k.denominator for low, high in pairs for k in (*low, *high)))
    lines = tuple((*_whole(low, times), *_whole(high, times)) for low, high in pairs)
    inner = tuple((each / level).as_integer_ratio() for each in exact.levels[1:-1])
    return WholeBands(inner, lines, times)


def _scaled(line: Line, position: Fraction, level: Fraction) -> tuple[Fraction, Fraction]:
    return line.at_zero / position, line.slope * level / position


def _whole(line: tuple[Fraction, Fraction], times: int) -> tuple[int, int]:
    return int(line[0] * times), int(line[1] * times)


@dataclass(frozen=True, slots=True)
class EnvelopeRooms:
    """Writes the four rooms of a point in a convex envelope."""

    corners: tuple[Corner, ...]
    across: Form
    against: Form
    writer: Writer
    data: Data

    def sides(self) -> tuple[Sided, ...]:
        """The four sides at the present turn."""
        return (*self._across(), *self._against())

    def inside(self, sides: tuple[Sided, ...]) -> str:
        """Code for whether the point is inside: between the ends of the levels, and between both edges."""
        level, levels = self.writer.name_of(self.against), [level for _, level in self.corners]
        low, high = ceil(min(levels) / self.against.scale), floor(max(levels) / self.against.scale)
        return f"{low} <= {level} <= {high} and {sides[0].room[0]} >= 0 and {sides[1].room[0]} >= 0"

    def _names(self) -> tuple[str, str, str]:
        """The position's two whole numbers and the level's."""
        return (
            self.writer.name_of(self.across.over(None)),
            self.across.below or "1",
            self.writer.name_of(self.against),
        )

    def _across(self) -> tuple[Sided, Sided]:
        n, d, m = self._names()
        bands = whole_bands(self.corners, self.across.scale, self.against.scale)
        a, b, a2, b2 = self._lines(bands, self._standing_band(bands, m))
        low, high = self._let(f"{a} + {b} * {m}"), self._let(f"{a2} + {b2} * {m}")
        by = "" if d == "1" else f" * {d}"
        scale, part = self.across.scale, self.across.scale / bands.times
        whole = f"{_factor(bands.times)}{n}"
        rooms = self._let(f"{whole} - {low}{by}"), self._let(f"{high}{by} - {whole}")
        scales = (part, scale, part)
        return (
            Sided(Side.FORWARD, (rooms[0], d), (n, d), (low, "1"), scales),
            Sided(Side.AFT, (rooms[1], d), (n, d), (high, "1"), scales),
        )

    def _against(self) -> tuple[Sided, Sided]:
        n, d, m = self._names()
        bands = whole_bands(turned(self.corners), self.against.scale, self.across.scale)
        a, b, a2, b2 = self._lines(bands, self._divided_band(bands, n, d))
        by = "" if d == "1" else f" * {d}"
        low, high = self._let(f"{a}{by} + {b} * {n}"), self._let(f"{a2}{by} + {b2} * {n}")
        whole = self._let(f"{_factor(bands.times)}{m}{by}")
        scale, part = self.against.scale, self.against.scale / bands.times
        rooms = self._let(f"{whole} - {low}"), self._let(f"{high} - {whole}")
        scales = (part, scale, part)
        return (
            Sided(Side.LIGHTER, (rooms[0], d), (m, "1"), (low, d), scales),
            Sided(Side.HEAVIER, (rooms[1], d), (m, "1"), (high, d), scales),
        )

    def _let(self, text: str) -> str:
        return self.writer.let(text, 2, is_late=True)

    def _lines(self, bands: WholeBands, which: str) -> tuple[str, str, str, str]:
        a, b, a2, b2 = (self.writer.fresh(1, is_late=True) for _ in range(4))
        self.writer.line(f"{a}, {b}, {a2}, {b2} = {self.data.add(bands.lines)}[{which}]")
        return a, b, a2, b2

    def _standing_band(self, bands: WholeBands, level: str) -> str:
        if not bands.inner:
            return "0"
        self.data.function("bisect_right", bisect_right)
        points = self.data.add(tuple(ceil(Fraction(*each)) for each in bands.inner))
        return f"bisect_right({points}, {level})"

    def _divided_band(self, bands: WholeBands, n: str, d: str) -> str:
        if d == "1":
            return self._standing_band(bands, n)
        tests = (f"({n}{_times(under)} >= {above} * {d})" for above, under in bands.inner)
        return " + ".join(tests) or "0"


def _factor(factor: int) -> str:
    return "" if factor == 1 else f"{factor} * "


def _times(factor: int) -> str:
    return "" if factor == 1 else f" * {factor}"


@dataclass(frozen=True, slots=True)
class Leaning:
    """Which edges of a convex envelope lean so that a room may be least between two turns of the burn.

    The position is p / level + q. ``forward`` is the steepest fall of the lower boundary, ``aft`` the
    steepest rise of the upper, ``lighter`` the steepest fall and rise of the lower boundary of the levels;
    zero where there is none. Each is a slope as scaled whole numbers would have it.
    """

    forward: Fraction
    aft: Fraction
    falls: Fraction
    rises: Fraction

    def __bool__(self) -> bool:
        return any((self.forward, self.aft, self.falls, self.rises))


def leaning(corners: tuple[Corner, ...], position: Fraction, level: Fraction) -> Leaning:
    """How the edges lean, at two scales."""
    across = [pair for band in slices(corners).bands for pair in band]
    against = [pair for band in slices(turned(corners)).bands for pair in band]
    ratio = level / position
    return Leaning(
        _steepest(-low.slope * ratio for low, _ in across),
        _steepest(high.slope * ratio for _, high in across),
        _steepest(-low.slope / ratio for low, _ in against),
        _steepest(low.slope / ratio for low, _ in against),
    )


def _steepest(slopes: Iterable[Fraction]) -> Fraction:
    return max((slope for slope in slopes if slope > 0), default=Fraction(0))


def may_turn(lean: Leaning, turns: list[tuple[int, int]]) -> bool:
    """Whether a room may be least between two turns of the burn, each given as (position times level, level).

    The rooms' rates of change over the level are ``-p/m2 - slope`` forward, ``slope + p/m2`` aft and
    ``1 + slope p/m2`` to the lighter side; there is a least between only where the sign can change upward.
    """
    for (n0, m0), (n1, m1) in pairwise(turns):
        if m0 == m1:
            continue
        p = Fraction(n0 * m1 - n1 * m0, m1 - m0)
        low, high = sorted((m0 * m0, m1 * m1))
        if p > 0 and (lean.forward * high > p or lean.falls * p > low):
            return True
        if p < 0 and (lean.aft * high > -p or lean.rises * -p > low):
            return True
    return False


Weighting = tuple[int, int, int]
"""What brings the rooms and the bounds of one dimension to one scale, and which dimension that is."""


def tightest(records: tuple[Record, ...], weightings: tuple[Weighting, ...]) -> int:
    """Which record is tightest: by its room as a share of its bound, as margins are ordered."""
    best, least, least_below = 0, 1, 0  # more than any share
    for at, record in enumerate(records):
        times, times_bound, _ = weightings[at]
        share, share_below = record[0] * record[5] * times, abs(record[4]) * record[1] * times_bound
        if not share_below:
            return _tightest_of_all(records, weightings)
        one, other = share * least_below, least * share_below
        if one < other:
            best, least, least_below = at, share, share_below
        elif one == other:
            return _tightest_of_all(records, weightings)
    return best


def _tightest_of_all(records: tuple[Record, ...], weightings: tuple[Weighting, ...]) -> int:
    """The same where a bound is zero or two shares are equal."""
    keys = [_key(record, weighting) for record, weighting in zip(records, weightings, strict=True)]
    best = 0
    for at in range(1, len(keys)):
        if _is_tighter(keys[at], keys[best]):
            best = at
    return best


_Key = tuple[int, int, int, int, int, int]


def _key(record: Record, weighting: Weighting) -> _Key:
    """The sign for a bound of zero, the share as two whole numbers, the dimension, the room as two."""
    above, under, _, _, bound, below, *_ = record
    times, times_bound, dimension = weighting
    room = above * times
    if not bound:
        return (room > 0) - (room < 0), 0, 1, dimension, room, under
    return 0, room * below, abs(bound * times_bound) * under, dimension, room, under


def _is_tighter(a: _Key, b: _Key) -> bool:
    if a[0] != b[0]:
        return a[0] < b[0]
    one, other = a[1] * b[2], b[1] * a[2]
    if one != other:
        return one < other
    if a[3] != b[3]:
        return a[3] < b[3]
    return a[4] * b[5] < b[4] * a[5]
