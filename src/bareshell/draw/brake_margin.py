"""Words in the margins of the car plan: stacked without touching, each led to its place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bareshell.draw.brake_sheet import LEADING, LETTERS, Box, Point, spread, words_box
from bareshell.draw.measure import shortened, text_width, wrapped
from bareshell.draw.svg import Svg, joined, number, path, text

_GAP: Final = 7.0
_NEAR: Final = 110.0
_BREVITIES: Final = 4
_OUT: Final = 9.0  # from the wheels to the words


@dataclass(frozen=True, slots=True)
class Words:
    """One line of words: what it says, how it is set, and whose it is."""

    says: str
    class_: str
    of: str


@dataclass(frozen=True, slots=True)
class Note:
    """Some words of the margin that belong to one place.

    Parameters
    ----------
    at : Point
        The place. [px]
    lines : tuple of Words
        Not yet cut to the margin's width.
    reach : Box
        What the leader stops at.
    dotted : bool
        Whether the leader is dotted, as for a place that nobody entered.
    side : {-1, 0, 1}
        The margin it has to stand in: left, either, right.
    ox : bool
        Whether the leader is that of a failed element.
    """

    at: Point
    lines: tuple[Words, ...]
    reach: Box
    dotted: bool = False
    side: int = 0
    ox: bool = False


@dataclass(frozen=True, slots=True)
class Placed:
    """A note with its lines cut and its place in a margin."""

    note: Note
    lines: tuple[Words, ...]
    left: bool
    x: float
    top: float

    @property
    def height(self) -> float:
        """How much of the margin its lines take, in pixels."""
        return LEADING * len(self.lines)

    @property
    def start(self) -> Point:
        """Where the leader leaves the words."""
        return (self.x + (3.0 if self.left else -3.0), self.top + 8.0)

    def baseline(self, index: int) -> float:
        """Where a line of it stands, in pixels."""
        return self.top + 13.0 + LEADING * index

    def boxes(self) -> tuple[Box, ...]:
        """The room each line takes."""
        anchor = "end" if self.left else None
        return tuple(
            words_box(self.x, self.baseline(index), line.says, anchor, slab=_slab(line))
            for index, line in enumerate(self.lines)
        )

    def drawn(self, of: str) -> Svg:
        """The lines that belong to one part or line of the circuit."""
        return joined(
            *(
                text(
                    self.x,
                    self.baseline(index),
                    line.says,
                    line.class_,
                    "end" if self.left else None,
                )
                for index, line in enumerate(self.lines)
                if line.of == of
            )
        )

    def leader(self) -> Svg:
        """The line from the words to the place."""
        sx, sy = self.start
        bend = sx + (7.0 if self.left else -7.0)
        ex, ey = _edge((bend, sy), self.note.at, self.note.reach)
        look = "bk-lead"
        if self.note.ox:
            look += " bk-ox"
        elif self.note.dotted:
            look += " l-dot"
        return path(f"M{number(sx)} {number(sy)}H{number(bend)}L{number(ex)} {number(ey)}", look)


def placed_notes(
    notes: Sequence[Note], width: float, sides: tuple[float, float], top: float, foot: float
) -> tuple[tuple[Placed, ...], float]:
    """Stack the notes in the two margins.

    Parameters
    ----------
    notes : sequence of Note
        In any order.
    width : float
        Width of the picture. [px]
    sides : tuple of float
        Where the left margin ends and the right one begins. [px]
    top, foot : float
        The height that the car takes; when the words need more, they run on below. [px]

    Returns
    -------
    placed : tuple of Placed
        From top to bottom, left margin first.
    foot : float
        Where the lowest words end. [px]
    """
    room = sides[0] - _OUT - 2.0
    for brevity in range(_BREVITIES):
        cut = {id(note): _cut(note.lines, room, brevity) for note in notes}
        heights = {id(note): LEADING * len(cut[id(note)]) + _GAP for note in notes}
        left, right = _shared_out(notes, heights, width / 2, foot - top)
        if max(_height(left, heights), _height(right, heights)) <= foot - top:
            break
    placed: list[Placed] = []
    lowest = foot
    for unordered, is_left in ((left, True), (right, False)):
        x = sides[0] - _OUT if is_left else sides[1] + _OUT
        column = _uncrossed(unordered, heights, x, top, foot)
        middles = _middles(column, heights, top, foot)
        for note, middle in zip(column, middles, strict=True):
            height = heights[id(note)]
            placed.append(Placed(note, cut[id(note)], is_left, x, middle - height / 2))
            lowest = max(lowest, middle + height / 2)
    return tuple(placed), lowest


def _slab(line: Words) -> bool:
    return "t-name" in line.class_ or "t-ox" in line.class_


def _cut(lines: Sequence[Words], room: float, brevity: int) -> tuple[Words, ...]:
    """Lines cut to the margin; the briefer, the fewer: no soft ones, then shorter names."""
    kept = [line for line in lines if brevity == 0 or line.class_ != "t-soft"]
    most = {2: 2, 3: 1}.get(brevity, 99)
    found: list[Words] = []
    for line in kept:
        slab = _slab(line)
        pieces = wrapped(_parted(line.says, room, slab=slab), room, LETTERS, slab=slab)
        if len(pieces) > most:
            rest = " ".join(pieces[most - 1 :])
            pieces = (*pieces[: most - 1], shortened(rest, room, LETTERS, slab=slab, least=1))
        found += [Words(piece, line.class_, line.of) for piece in pieces]
    return tuple(found)


def _parted(words: str, room: float, *, slab: bool) -> str:
    """Part a word that is longer than the margin with a hyphen, near its middle.

    Examples
    --------
    >>> _parted("rear proportioning valve", 90, slab=True)
    'rear proport- ioning valve'
    """
    pieces = []
    for word in words.split():
        if text_width(word, LETTERS, slab=slab) <= room:
            pieces.append(word)
            continue
        before, hyphen, after = word.partition("-")
        if hyphen and after:  # it has a hyphen of its own
            pieces += [
                _parted(f"{before}-", room, slab=slab),
                _parted(after, room, slab=slab),
            ]
            continue
        half = -(-len(word) // 2)
        while half > 2 and text_width(f"{word[:half]}-", LETTERS, slab=slab) > room:
            half -= 1
        pieces += [f"{word[:half]}-", _parted(word[half:], room, slab=slab)]
    return " ".join(pieces)


def _shared_out(
    notes: Sequence[Note], heights: dict[int, float], middle: float, room: float
) -> tuple[list[Note], list[Note]]:
    """Give each note to a margin: those of a side to it, the rest where there is more room."""
    left = [note for note in notes if note.side < 0]
    right = [note for note in notes if note.side > 0]
    free = sorted(
        (note for note in notes if note.side == 0),
        key=lambda note: (not note.ox, -abs(note.at[0] - middle)),
    )
    for note in free:
        near, far = (left, right) if note.at[0] < middle else (right, left)
        crowd = _crowd(note, near, heights, room) - _crowd(note, far, heights, room)
        # A place near the middle goes where there is room; one far out only when it must.
        if crowd > 0.9 * abs(note.at[0] - middle) + 12.0:
            far.append(note)
        else:
            near.append(note)
    return left, right


def _height(column: Sequence[Note], heights: dict[int, float]) -> float:
    return sum(heights[id(note)] for note in column)


def _crowd(note: Note, column: Sequence[Note], heights: dict[int, float], room: float) -> float:
    """How much of a margin near a note is asked for already, and how far it would overflow."""
    near = [other for other in column if abs(other.at[1] - note.at[1]) < _NEAR]
    over = _height(column, heights) + heights[id(note)] - room
    return _height(near, heights) + 4.0 * max(0.0, over)


def _middles(
    column: Sequence[Note], heights: dict[int, float], top: float, foot: float
) -> tuple[float, ...]:
    wanted = [note.at[1] + heights[id(note)] / 2 - 10.0 for note in column]
    return spread(wanted, [heights[id(note)] for note in column], top, foot)


def _uncrossed(
    column: list[Note], heights: dict[int, float], x: float, top: float, foot: float
) -> list[Note]:
    """Order the notes of a margin from top to bottom so that few leaders cross."""
    order = sorted(column, key=lambda note: (note.at[1], note.at[0]))
    for _ in range(len(order)):
        swapped = False
        for index in range(len(order) - 1):
            middles = _middles(order, heights, top, foot)
            one, two = order[index], order[index + 1]
            upper = (x, middles[index] - heights[id(one)] / 2 + 8)
            lower = (x, middles[index + 1] - heights[id(two)] / 2 + 8)
            if _cross(upper, one.at, lower, two.at):
                order[index], order[index + 1] = two, one
                swapped = True
        if not swapped:
            break
    return order


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def _edge(start: Point, middle: Point, box: Box) -> Point:
    """Where a line from outside meets a box about its middle."""
    dx, dy = start[0] - middle[0], start[1] - middle[1]
    shares = [1.0]
    if dx:
        shares.append(((box.right if dx > 0 else box.left) - middle[0]) / dx)
    if dy:
        shares.append(((box.bottom if dy > 0 else box.top) - middle[1]) / dy)
    share = max(0.0, min(shares))
    return middle[0] + dx * share, middle[1] + dy * share
