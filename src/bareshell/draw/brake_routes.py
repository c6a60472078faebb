"""Pipes and hoses as paths: rounded corners, waves, where a mark may stand, and ways by habit."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from bareshell.draw.brake_sheet import Box, Point
from bareshell.draw.svg import number

_WAVE: Final = 7.0  # half a wave of a hose along its way
_SWING: Final = 4.5
_CORNER: Final = 5.0
_LANES: Final = (-10.0, 10.0, -22.0, 22.0, -34.0, 34.0, -46.0, 46.0)


def along(points: Sequence[Point]) -> tuple[Point, ...]:
    """The points without those that repeat the one before."""
    kept: list[Point] = []
    for point in points:
        if not kept or math.dist(kept[-1], point) > 0.01:
            kept.append(point)
    return tuple(kept)


def length_of(points: Sequence[Point]) -> float:
    """Length of a way.

    Examples
    --------
    >>> length_of([(0, 0), (3, 4), (3, 10)])
    11.0
    """
    return sum(math.dist(one, two) for one, two in pairs(points))


def pairs(points: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    """Each stretch of a way from corner to corner."""
    return pairwise(points)


def at_share(points: Sequence[Point], share: float) -> tuple[Point, Point]:
    """A point on a way and the direction there.

    Parameters
    ----------
    points : sequence of Point
        The way; at least one point. [px]
    share : float
        How far along, 0 to 1. [-]

    Returns
    -------
    point, direction : Point
        The direction has length 1, or is (0, -1) where there is none.

    Examples
    --------
    >>> at_share([(0, 0), (10, 0), (10, 10)], 0.75)
    ((10.0, 5.0), (0.0, 1.0))
    """
    left = length_of(points) * share
    for one, two in pairs(points):
        step = math.dist(one, two)
        if step > 0 and left <= step:
            dx, dy = (two[0] - one[0]) / step, (two[1] - one[1]) / step
            return (one[0] + dx * left, one[1] + dy * left), (dx, dy)
        left -= step
    return points[-1], (0.0, -1.0)


def rounded(points: Sequence[Point], corner: float = _CORNER) -> str:
    """A path along straight stretches with bent corners.

    Examples
    --------
    >>> rounded([(0, 0), (20, 0), (20, 20)])
    'M0 0L15 0Q20 0 20 5L20 20'
    """
    way = along(points)
    d = f"M{_at(way[0])}"
    for before, here, after in zip(way, way[1:], way[2:], strict=False):
        reach = min(corner, math.dist(before, here) / 2, math.dist(here, after) / 2)
        d += f"L{_at(_toward(here, before, reach))}Q{_at(here)} {_at(_toward(here, after, reach))}"
    return d + (f"L{_at(way[-1])}" if len(way) > 1 else "")


def wavy(points: Sequence[Point]) -> str:
    """A path that winds about a way, as a hose is drawn.

    Examples
    --------
    >>> wavy([(0, 0), (14, 0)]).count("Q")
    2
    """
    way = along(points)
    count = max(2, 2 * round(length_of(way) / (2 * _WAVE)))
    d = f"M{_at(way[0])}"
    for index in range(count):
        middle, (dx, dy) = at_share(way, (index + 0.5) / count)
        end, _ = at_share(way, (index + 1) / count)
        side = 2 * _SWING * (1 if index % 2 else -1)
        d += f"Q{_at((middle[0] - dy * side, middle[1] + dx * side))} {_at(end)}"
    return d


def arrow(points: Sequence[Point], share: float, *, back: bool = False) -> str:
    """A filled arrow head on a way, pointing along it or back."""
    (x, y), (dx, dy) = at_share(points, share)
    if back:
        dx, dy = -dx, -dy
    tip = (x + 7 * dx, y + 7 * dy)
    left = (x - 5 * dx - 6 * dy, y - 5 * dy + 6 * dx)
    right = (x - 5 * dx + 6 * dy, y - 5 * dy - 6 * dx)
    return f"M{_at(tip)}L{_at(left)}L{_at(right)}Z"


def by_habit(
    start: Point, end: Point, taken: Sequence[Sequence[Point]], boxes: Sequence[Box]
) -> tuple[Point, ...]:
    """A way from one point to another for a pipe whose route nobody wrote down.

    Along and across the car, with one or two corners; of all such ways the one that runs least
    along other pipes and least through other parts.

    Parameters
    ----------
    start, end : Point
        Its ends. [px]
    taken : sequence of ways
        Pipes that are already drawn.
    boxes : sequence of Box
        Parts that it should keep clear of.
    """
    there = [_stretch(one, two) for way in taken for one, two in pairs(way)]
    return min(_ways(start, end), key=lambda way: _burden(way, there, boxes))


def _ways(start: Point, end: Point) -> Iterator[tuple[Point, ...]]:
    (x0, y0), (x1, y1) = start, end
    if math.dist(start, end) < 1 or abs(x0 - x1) < 1 or abs(y0 - y1) < 1:
        yield start, end
    yield start, (x1, y0), end
    yield start, (x0, y1), end
    for x in ((x0 + x1) / 2, *(x0 + lane for lane in _LANES), *(x1 + lane for lane in _LANES)):
        yield start, (x, y0), (x, y1), end
    for y in ((y0 + y1) / 2, *(y0 + lane for lane in _LANES), *(y1 + lane for lane in _LANES)):
        yield start, (x0, y), (x1, y), end


_Stretch = tuple[Box, bool]
"""The box about a stretch, and whether it runs along the car."""


def _stretch(one: Point, two: Point) -> _Stretch:
    (x0, x1), (y0, y1) = sorted((one[0], two[0])), sorted((one[1], two[1]))
    return Box(x0, y0, x1, y1), x1 - x0 < 1


def _burden(
    way: Sequence[Point], there: Sequence[_Stretch], boxes: Sequence[Box]
) -> tuple[float, float]:
    """How bad a way is; the longer of two equal ones is worse."""
    bad = 0.0
    for one, two in pairs(way):
        stretch = _stretch(one, two)
        bad += sum(_beside(stretch, other) for other in there)
        bad += sum(25.0 for box in boxes if box.meets(stretch[0], 2.0))
    long = length_of(way)
    return bad + 0.3 * long + 4.0 * len(way), long


def _beside(one: _Stretch, two: _Stretch) -> float:
    """How far two level or upright stretches run on each other; a crossing counts a little."""
    a, b = one[0], two[0]
    if not a.meets(b, 6.0):
        return 0.0
    if one[1] != two[1]:
        return 12.0
    wide = min(a.right, b.right) - max(a.left, b.left)
    high = min(a.bottom, b.bottom) - max(a.top, b.top)
    return 3.0 * max(wide, high, 4.0)


def _toward(here: Point, there: Point, reach: float) -> Point:
    far = math.dist(here, there)
    share = reach / far if far else 0.0
    return here[0] + (there[0] - here[0]) * share, here[1] + (there[1] - here[1]) * share


def _at(point: Point) -> str:
    return f"{number(point[0])} {number(point[1])}"
