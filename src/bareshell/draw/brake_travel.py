"""Where the pedal's travel goes: the pieces end to end in millimetres, against the floor."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bareshell.draw.brake_chart import axis
from bareshell.draw.brake_sheet import LETTERS, NARROW, figure, listed, sheet, spread
from bareshell.draw.measure import text_width
from bareshell.draw.svg import Svg, joined, number, path, rect, text

_HATCHES: Final = ("p2", "p3", "running", "inside", "body", "electrics", "p1", "desk", "fuel")
_ALPHABET: Final = "abcdefghijklmnopqrstuvwxyz"
_BAR: Final = 32.0
_LETTER_ROOM: Final = 17.0


@dataclass(frozen=True, slots=True)
class TravelPiece:
    """One piece of the travel.

    Parameters
    ----------
    key : str
        The same in every row, so that its letter and hatch are the same.
    words : str
        What it is.
    length_mm : float
        At the pedal pad. [mm]
    lost : bool
        Whether it is the run of a piston that nothing holds; it has a brass ground.
    """

    key: str
    words: str
    length_mm: float
    lost: bool = False


@dataclass(frozen=True, slots=True)
class TravelRow:
    """The travel of one state of the car.

    Parameters
    ----------
    title : str
        The state: ``both circuits``, ``circuit 2 lost``.
    pieces : tuple of TravelPiece
        From the foot to the wheels.
    low_mm, high_mm : float or None
        Range of the whole; None when it has none. [mm]
    on_floor : bool
        Whether the pedal stands on the floor.
    """

    title: str
    pieces: tuple[TravelPiece, ...]
    low_mm: float | None = None
    high_mm: float | None = None
    on_floor: bool = False

    @property
    def total_mm(self) -> float:
        """The whole travel, in millimetres."""
        return sum(piece.length_mm for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class PedalTravel:
    """Rows of travel against the floor and the cylinder's stroke.

    Parameters
    ----------
    rows : tuple of TravelRow
        Usually all whole first, then the failures worth comparing.
    floor_mm : float or None
        Travel to the floor; None when nobody measured it. [mm]
    stroke_mm : float or None
        Travel at which the cylinder ends; None when it is not known. [mm]
    push_n : float
        The push of the foot. [N]
    """

    rows: tuple[TravelRow, ...]
    floor_mm: float | None = None
    stroke_mm: float | None = None
    push_n: float = 500.0


def travel_letters(rows: Sequence[TravelRow]) -> Mapping[str, str]:
    """The letter of each piece, for the table beside the picture.

    Examples
    --------
    >>> row = TravelRow(
    ...     "all", (TravelPiece("play", "free play", 5), TravelPiece("pads", "pads", 9))
    ... )
    >>> dict(travel_letters([row]))
    {'play': 'a', 'pads': 'b'}
    """
    keys = dict.fromkeys(piece.key for row in rows for piece in row.pieces if piece.length_mm > 0)
    return {key: _ALPHABET[index % len(_ALPHABET)] for index, key in enumerate(keys)}


def pedal_travel(plate: PedalTravel, *, width: float = NARROW) -> Svg:
    """One bar for each row, true to length on the rule at the foot.

    Parameters
    ----------
    plate : PedalTravel
        The rows.
    width : float
        ``NARROW`` or ``WIDE``. [px]

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    ends = [row.high_mm or row.total_mm for row in plate.rows]
    ends += [row.total_mm for row in plate.rows]
    ends += [post for post in (plate.floor_mm, plate.stroke_mm) if post is not None]
    rule = axis("mm", 0, max(ends, default=100.0), most=4 if width <= NARROW else 8)
    small = rule.step / 5
    longest = math.ceil(1.01 * max(ends, default=100.0) / small) * small
    px = (width - 20.0) / longest
    letters = travel_letters(plate.rows)
    posts = _posts(plate, px, width)
    y, drawn = (42.0 if len(posts) == 2 and posts[1].second else 24.0) if posts else 0.0, []
    head = y
    for row in plate.rows:
        piece, y = _row(row, y, px, width, letters, posts)
        drawn.append(piece)
    return sheet(
        width,
        y + 44,
        sentence(plate),
        *(post.drawn(head, y) for post in posts),
        *drawn,
        _rule(longest, rule.step, px, y + 8),
    )


def sentence(plate: PedalTravel) -> str:
    """What the bars show, for those who cannot see them."""
    said = [f"Pedal travel at {figure(plate.push_n)} N, piece by piece."]
    for row in plate.rows:
        biggest = sorted(row.pieces, key=lambda piece: -piece.length_mm)[:2]
        most = listed([f"{piece.words} {figure(piece.length_mm)}" for piece in biggest])
        floor = "; the pedal stands on the floor" if row.on_floor else ""
        said.append(f"{row.title}: {figure(row.total_mm)} mm, most of it {most}{floor}.")
    if plate.floor_mm is not None:
        said.append(f"The floor is at {figure(plate.floor_mm)} mm.")
    else:
        said.append("How far the floor is, nobody entered.")
    return " ".join(said)


@dataclass(frozen=True, slots=True)
class _Post:
    """An upright at the floor or at the end of the stroke, and where its words stand."""

    x: float
    words: str
    look: str
    at: float
    anchor: str | None
    second: bool = False

    def drawn(self, top: float, foot: float) -> Svg:
        """The post between the words and the rule."""
        slab = "t-name" if "thick" in self.look else None
        return joined(
            path(f"M{number(self.x)} {number(top - 4)}V{number(foot)}", self.look),
            text(self.at, 32 if self.second else 14, self.words, slab, self.anchor),
        )


def _row(
    row: TravelRow,
    y: float,
    px: float,
    width: float,
    letters: Mapping[str, str],
    posts: Sequence[_Post],
) -> tuple[Svg, float]:
    total = f"{row.title}: {figure(row.total_mm)} mm"
    if row.on_floor:
        total += ", on the floor"
    top = y + 22
    bars, spots = [], []
    x = 10.0
    hatches = {key: _HATCHES[index % len(_HATCHES)] for index, key in enumerate(letters)}
    for piece in row.pieces:
        long = piece.length_mm * px
        if long <= 0:
            continue
        bars.append(rect(x, top, long, _BAR, "bk-lost-run" if piece.lost else "box"))
        if not piece.lost:
            bars.append(rect(x, top, long, _BAR, fill=f"url(#h-{hatches[piece.key]})"))
        spots.append((x + long / 2, long, letters[piece.key]))
        x += long
    below = top + _BAR
    named, deep = _letters(spots, top, width)
    ranged, deeper = _range(row, below + deep, px, posts)
    head = text(10, y + 14, total, "t-name halo")
    return joined(head, *bars, named, ranged), below + deep + deeper + 14


def _letters(spots: list[tuple[float, float, str]], top: float, width: float) -> tuple[Svg, float]:
    """Letters on pieces that have room; the others hang below with a thread."""
    drawn = []
    small = [spot for spot in spots if spot[1] < _LETTER_ROOM]
    for x, long, letter in spots:
        if long >= _LETTER_ROOM:
            ground = rect(x - 6.5, top + 7, 13, 18, "f-sheet")
            drawn += [ground, text(x, top + 21, letter, "t-name", "middle")]
    if not small:
        return joined(*drawn), 0.0
    middles = spread([x for x, _, _ in small], [14.0] * len(small), 2, width - 2)
    foot = top + _BAR
    for (x, _, letter), at in zip(small, middles, strict=True):
        d = f"M{number(x)} {number(foot)}v4L{number(at)} {number(foot + 9)}"
        drawn += [path(d, "l-thin"), text(at, foot + 21, letter, "t-name halo", "middle")]
    return joined(*drawn), 24.0


def _range(row: TravelRow, y: float, px: float, posts: Sequence[_Post]) -> tuple[Svg, float]:
    """The range of the whole, its words on the side where no post stands."""
    if row.low_mm is None or row.high_mm is None:
        return Svg(), 0.0
    left, right = 10 + row.low_mm * px, 10 + row.high_mm * px
    d = f"M{number(left)} {number(y + 5)}v10m0 -5H{number(right)}m0 -5v10"
    words = f"{figure(row.low_mm)} to {figure(row.high_mm)} likely"
    long = text_width(words, LETTERS)
    free = left - 8 - long < 2 and not any(right < post.x < right + 8 + long for post in posts)
    if free or left - 8 - long < 2:
        said = text(right + 8, y + 15, words, "t-soft halo")
    else:
        said = text(left - 8, y + 15, words, "t-soft halo", "end")
    return joined(path(d, "l l-2"), said), 18.0


def _posts(plate: PedalTravel, px: float, width: float) -> tuple[_Post, ...]:
    """The floor and the stroke: the nearer one's words end at its post, the other's go beyond."""
    known = [
        (10 + value * px, f"{word} {figure(value)}", look)
        for value, word, look in (
            (plate.floor_mm, "floor", "l-thick"),
            (plate.stroke_mm, "stroke", "l l-2 l-short"),
        )
        if value is not None
    ]
    known.sort(key=lambda post: post[0])
    found: list[_Post] = []
    for index, (x, words, look) in enumerate(known):
        long = text_width(words, LETTERS, slab=True)
        if index == 0:
            found.append(_Post(x, words, look, max(x + 3, long + 2), "end"))
            continue
        start = max(known[0][0] + 10, min(x - long / 2, width - 2 - long))
        if start + long <= width - 1:
            found.append(_Post(x, words, look, start, None))
        else:
            found.append(_Post(x, words, look, width - 2, "end", second=True))
    return tuple(found)


def _rule(longest: float, step: float, px: float, y: float) -> Svg:
    """The rule at the foot: five short marks to a long one."""
    small = step / 5
    count = round(longest / small)
    d = "".join(
        f"M{number(10 + index * small * px)} {number(y)}v{10 if index % 5 == 0 else 6}"
        for index in range(count + 1)
    )
    figures = [text(10, y + 26, "0 mm", "t-soft")]
    for index in range(1, int(longest / step + 1e-9) + 1):
        x = 10 + index * step * px
        near_end = x > 10 + longest * px - 12
        shown = figure(index * step)
        figures.append(
            text(
                x + (8 if near_end else 0), y + 26, shown, "t-soft", "end" if near_end else "middle"
            )
        )
    return joined(path(f"{d}M10 {number(y)}H{number(10 + longest * px)}", "l-thin"), *figures)
