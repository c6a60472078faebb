"""Curves against a ruled ground: axes with round figures, lines told apart by how they are drawn.

A curve is named where it ends or where there is room, never by a colour. What may not be is
hatched on its side of the line.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

from bareshell.draw.brake_sheet import LETTERS, Box, Point, figure, words_box
from bareshell.draw.measure import text_width
from bareshell.draw.svg import Svg, joined, number, path, text

STYLES: Final = ("front", "rear", "standard", "third", "thin", "line")
"""How a curve may be drawn: heavy, long dashes, dots, dash and dot, thin, plain."""

_STEPS: Final = (1.0, 2.0, 2.5, 5.0, 10.0)
_STEP_PX: Final = 9.0


@dataclass(frozen=True, slots=True)
class Axis:
    """One axis with round figures.

    Parameters
    ----------
    words : str
        What it measures, with its unit.
    low, high : float
        Its ends.
    step : float
        From one figure to the next.
    """

    words: str
    low: float
    high: float
    step: float

    @property
    def places(self) -> int:
        """Decimals that its figures need."""
        if self.step >= 1 and math.isclose(self.step, round(self.step)):
            return 0
        return max(0, -math.floor(math.log10(self.step) + 1e-9)) + (
            0 if math.isclose(self.step * 10 ** -math.floor(math.log10(self.step)) % 1, 0) else 1
        )

    @property
    def ticks(self) -> tuple[float, ...]:
        """The round figures along it."""
        first, last = (
            math.ceil(self.low / self.step - 1e-9),
            math.floor(self.high / self.step + 1e-9),
        )
        return tuple(index * self.step for index in range(first, last + 1))


def axis(words: str, low: float, high: float, *, most: int = 6, exact: bool = False) -> Axis:
    """An axis that holds a range and has round figures.

    Parameters
    ----------
    words : str
        What it measures, with its unit.
    low, high : float
        What it must hold; it may reach a little further.
    most : int
        No more figures than this, the first one not counted.
    exact : bool
        Whether it ends where it was told to, rather than at a round figure.

    Examples
    --------
    >>> wide = axis("m/s2", 0, 9.3)
    >>> wide.high, wide.ticks
    (10.0, (0.0, 2.0, 4.0, 6.0, 8.0, 10.0))
    >>> axis("share", 0, 0.83).ticks[-1], axis("share", 0, 0.83).places
    (1.0, 1)
    """
    high = high if high - low > 1e-9 * max(1.0, abs(low)) else low + 1.0
    span = high - low
    power = 10.0 ** math.floor(math.log10(span / most))
    step = next(s * power for s in _STEPS if span / (s * power) <= most + 1e-9)
    return Axis(
        words,
        math.floor(low / step + 1e-9) * step,
        high if exact else math.ceil(high / step - 1e-9) * step,
        step,
    )


@dataclass(frozen=True, slots=True)
class Curve:
    """A line through points.

    Parameters
    ----------
    words : str
        What stands beside it; empty for none.
    points : tuple of Point
        In the units of the axes, from one end to the other.
    style : str
        One of `STYLES`.
    """

    words: str
    points: tuple[Point, ...]
    style: str = "front"

    def __post_init__(self) -> None:
        """Refuse a style nobody could tell from the others."""
        if self.style not in STYLES:
            raise ValueError(f"No line is drawn as {self.style!r}. Known are: {', '.join(STYLES)}.")


@dataclass(frozen=True, slots=True)
class Forbidden:
    """The side of a line that a yardstick rules out.

    Parameters
    ----------
    words : str
        What the yardstick is called.
    boundary : tuple of Point
        Its line, from left to right.
    above : bool
        Whether what lies above the line is ruled out, or what lies below.
    """

    words: str
    boundary: tuple[Point, ...]
    above: bool = True


@dataclass(frozen=True, slots=True)
class Frame:
    """A ruled ground between two axes.

    Parameters
    ----------
    x, y : Axis
        What is along it and what is up.
    box : Box
        Where it lies in the picture. [px]
    """

    x: Axis
    y: Axis
    box: Box

    def at(self, point: Point) -> Point:
        """A point of the axes on the picture, in pixels."""
        across = (point[0] - self.x.low) / (self.x.high - self.x.low)
        up = (point[1] - self.y.low) / (self.y.high - self.y.low)
        box = self.box
        return (
            box.left + across * (box.right - box.left),
            box.bottom - up * (box.bottom - box.top),
        )

    def ground(self, *, x_words: bool = True, lift: float = 12.0) -> Svg:
        """Rules, figures and what the axes are called; ``lift`` is how high above it that is."""
        box = self.box
        rules, figures = [], []
        for value in self.x.ticks:
            x, _ = self.at((value, self.y.low))
            rules.append(f"M{number(x)} {number(box.bottom)}V{number(box.top)}")
            if x_words:
                shown = figure(value, self.x.places)
                figures.append(text(x, box.bottom + 18, shown, "t-soft", "middle"))
        for value in self.y.ticks:
            _, y = self.at((self.x.low, value))
            rules.append(f"M{number(box.left)} {number(y)}H{number(box.right)}")
            figures.append(text(box.left - 6, y + 5, figure(value, self.y.places), "t-soft", "end"))
        sides = f"M{number(box.left)} {number(box.top)}V{number(box.bottom)}H{number(box.right)}"
        named = [text(2, box.top - lift, self.y.words, "t-soft")]
        if x_words:
            named.append(text(box.right, box.bottom + 36, self.x.words, "t-soft", "end"))
        return joined(path("".join(rules), "l-rule"), path(sides, "l"), *figures, *named)

    def drawn(self, curve: Curve) -> Svg:
        """A curve, as far as it lies on the ground."""
        return joined(
            *(path(_d(piece), f"bk-c bk-c-{curve.style}") for piece in self.pieces(curve.points))
        )

    def pieces(self, points: Sequence[Point]) -> list[list[Point]]:
        """The parts of a line that lie on the ground, in pixels."""
        found: list[list[Point]] = []
        for one, two in pairwise([self.at(p) for p in points if _finite(p)]):
            cut = clipped(one, two, self.box)
            if cut is None:
                continue
            if found and math.dist(found[-1][-1], cut[0]) < 0.01:
                found[-1].append(cut[1])
            else:
                found.append([cut[0], cut[1]])
        return found

    def forbidden(self, region: Forbidden) -> Svg:
        """The hatched side of a yardstick and its line."""
        edge = self.y.high if region.above else self.y.low
        first, last = region.boundary[0], region.boundary[-1]
        held = [
            self.at((self._in_x(x), self._in_y(y)))
            for x, y in ((first[0], edge), *region.boundary, (last[0], edge))
        ]
        return joined(
            path(f"{_d(held)}Z", "bk-hatched", fill="url(#h-lost)"),
            *(path(_d(piece), "bk-c bk-c-yard") for piece in self.pieces(region.boundary)),
        )

    def band(self, low: Sequence[Point], high: Sequence[Point], *, fill: str = "p3") -> Svg:
        """The ground between two lines: the range of something that is not known better."""
        held = [
            self.at((self._in_x(x), self._in_y(y)))
            for x, y in (*low, *reversed(high))
            if _finite((x, y))
        ]
        return path(f"{_d(held)}Z", "bk-band-edge", fill=f"url(#h-{fill})")

    def _in_x(self, value: float) -> float:
        return min(max(value, self.x.low), self.x.high)

    def _in_y(self, value: float) -> float:
        return min(max(value, self.y.low), self.y.high)


def frame(
    x: Axis, y: Axis, *, width: float, top: float, height: float, right: float = 12.0
) -> Frame:
    """A ruled ground as wide as a picture, its left side as far in as its figures need.

    Parameters
    ----------
    x, y : Axis
        Its axes.
    width : float
        Width of the picture. [px]
    top, height : float
        Where the ground begins and how high it is. [px]
    right : float
        Kept free at its right. [px]
    """
    widest = max(text_width(figure(value, y.places), LETTERS) for value in y.ticks)
    last = text_width(figure(x.ticks[-1], x.places), LETTERS) / 2
    over = (x.high - x.ticks[-1]) / (x.high - x.low) * (width - widest - right)
    right = max(right, last + 2.0 - over)
    return Frame(x, y, Box(widest + 9.0, top, width - right, top + height))


@dataclass(slots=True)
class Room:
    """What is taken on a ground already, so that words find a place.

    Parameters
    ----------
    frame : Frame
        The ground.
    boxes : list of Box
        Words that stand.
    lines : list of pieces of line
        What words should not lie on, in pixels.
    """

    frame: Frame
    boxes: list[Box] = field(default_factory=list)
    lines: list[list[Point]] = field(default_factory=list)

    def keep(self, points: Sequence[Point]) -> None:
        """Keep words off a line given in the units of the axes."""
        self.lines += [_simpler(piece) for piece in self.frame.pieces(points)]

    def word(
        self,
        words: str,
        spots: Iterable[Point],
        class_: str = "t-name halo",
        *,
        slab: bool = True,
        own: Sequence[Sequence[Point]] = (),
        on: bool = False,
        must: bool = True,
    ) -> Svg:
        """Write words beside one of some spots, in pixels, where they disturb least.

        Parameters
        ----------
        words : str
            What to write.
        spots : iterable of Point
            The best first.
        class_ : str
            Class of the style sheet.
        slab : bool
            Whether that class sets them in the bold slab.
        own : sequence of pieces of line
            The line that they name: no other may be nearer.
        on : bool
            Whether they stand on the spot itself rather than beside it.
        must : bool
            Whether they are written even where they lie on other words.
        """
        best: tuple[float, float, float, str | None, Box] | None = None
        for rank, (x, y) in enumerate(spots):
            if best is not None and best[0] <= 3.0 * rank:
                break  # no later spot can be better
            for turn, (dx, dy, anchor) in enumerate(_ON if on else _BESIDE):
                box = words_box(x + dx, y + dy, words, anchor, slab=slab)
                cost = self._taken(box) + 3.0 * rank + 0.5 * turn
                if best is not None and cost >= best[0]:
                    continue
                cost += self._crossed(box) + self._strange(box, own)
                if best is None or cost < best[0]:
                    best = (cost, x + dx, y + dy, anchor, box)
        if best is None or (best[0] >= 300.0 and not must):
            return Svg()
        self.boxes.append(best[4])
        return text(best[1], best[2], words, class_, best[3])

    def name(self, curve: Curve, *, slab: bool = True) -> Svg:
        """Write a curve's words beside it, near its far end if there is room."""
        pieces = self.frame.pieces(curve.points)
        if not curve.words or not pieces:
            return Svg()
        longest = max(pieces, key=lambda piece: sum(math.dist(a, b) for a, b in pairwise(piece)))
        spots = (_on(longest, share) for share in (0.97, 0.88, 0.78, 0.66, 0.54, 0.42, 0.3, 0.18))
        class_ = "t-name halo" if slab else "halo"
        own = [_simpler(piece) for piece in pieces]
        return self.word(curve.words, spots, class_, slab=slab, own=own)

    def _strange(self, box: Box, own: Sequence[Sequence[Point]]) -> float:
        """What it costs that another line is nearer to words than their own."""
        if not own:
            return 0.0
        middle = ((box.left + box.right) / 2, (box.top + box.bottom) / 2)
        nearest = min(_distance(middle, line) for line in own)
        return 30.0 * sum(
            _distance(middle, line) < nearest - 1.0 for line in self.lines if line not in own
        )

    def _taken(self, box: Box) -> float:
        """What it costs that words leave the ground or lie on other words."""
        ground = self.frame.box
        inside = Box(ground.left + 2, ground.top + 1, ground.right + 10, ground.bottom - 2)
        cost = 0.0 if inside.holds(box) else 400.0
        return cost + 300.0 * sum(box.meets(other, 1.0) for other in self.boxes)

    def _crossed(self, box: Box) -> float:
        """What it costs that lines run through words."""
        slim = Box(box.left, box.top + 1, box.right, box.bottom - 1)
        return 12.0 * sum(
            clipped(a, b, slim) is not None for line in self.lines for a, b in pairwise(line)
        )


_ON: Final = ((0.0, 5.0, "middle"),)
_BESIDE: Final = (
    (7.0, 5.0, None),
    (-7.0, 5.0, "end"),
    (0.0, -9.0, "middle"),
    (0.0, 19.0, "middle"),
    (7.0, 18.0, None),
    (-7.0, -8.0, "end"),
    (7.0, -8.0, None),
    (-7.0, 18.0, "end"),
    (12.0, 30.0, None),
    (-12.0, -24.0, "end"),
)


def clipped(one: Point, two: Point, box: Box) -> tuple[Point, Point] | None:
    """The part of a stretch that lies in a box (Liang and Barsky 1984; from memory).

    Examples
    --------
    >>> clipped((-5, 5), (15, 5), Box(0, 0, 10, 10))
    ((0.0, 5.0), (10.0, 5.0))
    >>> clipped((-5, 15), (15, 15), Box(0, 0, 10, 10)) is None
    True
    """
    dx, dy = two[0] - one[0], two[1] - one[1]
    if max(one[0], two[0]) < box.left or min(one[0], two[0]) > box.right:
        return None
    start, end = 0.0, 1.0
    for run, room in (
        (-dx, one[0] - box.left),
        (dx, box.right - one[0]),
        (-dy, one[1] - box.top),
        (dy, box.bottom - one[1]),
    ):
        if run == 0:
            if room < 0:
                return None
            continue
        share = room / run
        if run < 0:
            start = max(start, share)
        else:
            end = min(end, share)
    if start > end:
        return None
    return (
        (one[0] + start * dx, one[1] + start * dy),
        (one[0] + end * dx, one[1] + end * dy),
    )


def _simpler(piece: Sequence[Point]) -> list[Point]:
    """A line with steps of some pixels, close enough to keep words off it."""
    kept = [piece[0]]
    for point in piece[1:-1]:
        if abs(point[0] - kept[-1][0]) + abs(point[1] - kept[-1][1]) >= _STEP_PX:
            kept.append(point)
    return [*kept, piece[-1]]


def _distance(point: Point, line: Sequence[Point]) -> float:
    """How far a point is from a line."""
    return min(_to_stretch(point, one, two) for one, two in pairwise(line))


def _to_stretch(point: Point, one: Point, two: Point) -> float:
    dx, dy = two[0] - one[0], two[1] - one[1]
    long = dx * dx + dy * dy
    along = ((point[0] - one[0]) * dx + (point[1] - one[1]) * dy) / long if long else 0.0
    share = min(max(along, 0.0), 1.0)
    return math.dist(point, (one[0] + share * dx, one[1] + share * dy))


def value_at(points: Sequence[Point], x: float) -> float | None:
    """The height of a line at a place, straight between its points; None beyond its ends.

    Examples
    --------
    >>> value_at(((0, 0), (100, 2)), 50), value_at(((0, 0), (100, 2)), 101)
    (1.0, None)
    """
    for (x0, y0), (x1, y1) in pairwise(points):
        if x0 <= x <= x1 and x1 > x0:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return None


def _finite(point: Point) -> bool:
    return math.isfinite(point[0]) and math.isfinite(point[1])


def _on(piece: Sequence[Point], share: float) -> Point:
    left = share * sum(math.dist(a, b) for a, b in pairwise(piece))
    for a, b in pairwise(piece):
        step = math.dist(a, b)
        if step and left <= step:
            return a[0] + (b[0] - a[0]) * left / step, a[1] + (b[1] - a[1]) * left / step
        left -= step
    return piece[-1]


def _d(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)
