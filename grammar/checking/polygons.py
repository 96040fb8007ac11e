"""Whether a polygon is simple, by exact geometry."""

from __future__ import annotations

from fractions import Fraction

Corner = tuple[Fraction, Fraction]


def turn(a: Corner, b: Corner, c: Corner) -> Fraction:
    """Twice the area of the triangle a, b, c: positive for a left turn at b, zero on one line."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def are_on_one_line(corners: tuple[Corner, ...]) -> bool:
    """Whether all corners lie on one straight line. The first two must differ."""
    return all(turn(corners[0], corners[1], corner) == 0 for corner in corners[2:])


def _within_box(a: Corner, b: Corner, c: Corner) -> bool:
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])


def _sign(value: Fraction) -> int:
    return (value > 0) - (value < 0)


def edges_meet(a: Corner, b: Corner, c: Corner, d: Corner) -> bool:
    """Whether the edge a-b and the edge c-d have a point in common."""
    one, two = _sign(turn(a, b, c)), _sign(turn(a, b, d))
    three, four = _sign(turn(c, d, a)), _sign(turn(c, d, b))
    if one * two < 0 and three * four < 0:
        return True
    return (
        (one == 0 and _within_box(a, b, c))
        or (two == 0 and _within_box(a, b, d))
        or (three == 0 and _within_box(c, d, a))
        or (four == 0 and _within_box(c, d, b))
    )


def first_crossing(corners: tuple[Corner, ...]) -> tuple[int, int] | None:
    """The first two edges (by the number of their first corner) that meet other than at a shared corner.

    Neighbours that double back on one another count as meeting. Edges are compared in the order of their
    lesser first coordinate, so that edges far apart are not compared at all.
    """
    count = len(corners)
    ends = [(corners[i], corners[(i + 1) % count]) for i in range(count)]
    by_start = sorted(range(count), key=lambda i: min(ends[i][0][0], ends[i][1][0]))
    found: list[tuple[int, int]] = []
    for place, i in enumerate(by_start):
        right_end = max(ends[i][0][0], ends[i][1][0])
        for j in by_start[place + 1 :]:
            if min(ends[j][0][0], ends[j][1][0]) > right_end:
                break
            one, other = min(i, j), max(i, j)
            if _crossing(corners, one, other, count):
                found.append((one, other))
    return min(found, default=None)


def _crossing(corners: tuple[Corner, ...], one: int, other: int, count: int) -> bool:
    a, b = corners[one], corners[(one + 1) % count]
    c, d = corners[other], corners[(other + 1) % count]
    if other == one + 1:
        return _doubles_back(a, b, d)
    if (other + 1) % count == one:
        return _doubles_back(c, a, b)
    return edges_meet(a, b, c, d)


def _doubles_back(before: Corner, shared: Corner, after: Corner) -> bool:
    """Whether two neighbouring edges lie on one another."""
    if turn(before, shared, after) != 0:
        return False
    along = (before[0] - shared[0]) * (after[0] - shared[0]) + (before[1] - shared[1]) * (after[1] - shared[1])
    return along > 0
