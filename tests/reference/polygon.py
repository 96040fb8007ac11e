"""Points and closed polygons in exact arithmetic, by the plainest methods there are."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

Point = tuple[Fraction, Fraction]


def edges(corners: list[Point]) -> Iterator[tuple[Point, Point]]:
    """Each side of the polygon, the last corner joined to the first."""
    yield from zip(corners, corners[1:] + corners[:1], strict=True)


def on_side(point: Point, start: Point, end: Point) -> bool:
    """Whether the point lies on the straight line between two corners, the corners included."""
    (x, y), (x1, y1), (x2, y2) = point, start, end
    turned = (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)
    return turned == 0 and min(x1, x2) <= x <= max(x1, x2) and min(y1, y2) <= y <= max(y1, y2)


def covers(corners: list[Point], point: Point) -> bool:
    """Whether the point is inside or on the boundary: count the sides that a line to the right crosses."""
    if any(on_side(point, start, end) for start, end in edges(corners)):
        return True
    x, y = point
    crossings = 0
    for (x1, y1), (x2, y2) in edges(corners):
        if (y1 > y) != (y2 > y) and x1 + (y - y1) * (x2 - x1) / (y2 - y1) > x:
            crossings += 1
    return crossings % 2 == 1


def boundary_along(corners: list[Point], height: Fraction) -> list[Fraction]:
    """Where the boundary lies on the level line at ``height``: crossings, touched corners, ends of level sides."""
    found: set[Fraction] = set()
    for (x1, y1), (x2, y2) in edges(corners):
        if y1 == y2 == height:
            found |= {x1, x2}
        elif min(y1, y2) <= height <= max(y1, y2):
            found.add(x1 + (height - y1) * (x2 - x1) / (y2 - y1))
    return sorted(found)


def room_along(corners: list[Point], point: Point) -> tuple[Fraction, Fraction]:
    """How far a point that is inside can move to the left and to the right and stay inside."""
    x, y = point
    stops = [at for at in boundary_along(corners, y) if at != x]
    low = _furthest(corners, point, sorted((at for at in stops if at < x), reverse=True))
    high = _furthest(corners, point, [at for at in stops if at > x])
    return x - low, high - x


def _furthest(corners: list[Point], point: Point, stops: list[Fraction]) -> Fraction:
    """Go from stop to stop for as long as the point half way to the next is still inside."""
    here, level = point
    for stop in stops:
        if not covers(corners, ((here + stop) / 2, level)):
            break
        here = stop
    return here


def turned(corners: list[Point]) -> list[Point]:
    """The polygon with its two axes exchanged."""
    return [(y, x) for x, y in corners]
