"""Pipes as they are cut: straight, to scale, with flares, nuts and the marks for bends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bareshell.draw.brake_sheet import (
    LEADING,
    LETTERS,
    NARROW,
    Href,
    figure,
    lines_of,
    link,
    sheet,
    spread,
)
from bareshell.draw.measure import text_width, wrapped
from bareshell.draw.svg import Svg, joined, number, path, rect, text

_SIDE: Final = 26.0  # room for a nut and a flare beyond the pipe's end
_ROWS: Final = 3
_PIPE: Final = 34.0  # from one row of a long pipe to the next
_SEEN: Final = (
    "Bends in millimetres along the pipe as drawn from above; rises are not in them. "
    "Bend to a wire that was laid on the shell."
)
_DONE: Final = ("cut", "nuts on", "flared", "blown out")


@dataclass(frozen=True, slots=True)
class DrawnEnd:
    """One end of a pipe.

    Parameters
    ----------
    at : str
        Where it goes.
    nut : str
        Thread and sex of its nut; empty when nobody knows.
    flare : str
        Form of its flare; empty when nobody knows.
    """

    at: str
    nut: str = ""
    flare: str = ""

    @property
    def words(self) -> str:
        """What to make at this end."""
        return f"{self.nut or 'nut not known'}, {self.flare or 'flare not known'}"


@dataclass(frozen=True, slots=True)
class DrawnBend:
    """A bend: where along the pipe, by how much and which way, seen from above."""

    at_mm: float
    angle_deg: float
    turns: str = ""

    @property
    def words(self) -> str:
        """Where and by how much, for beside its mark."""
        way = f" {self.turns}" if self.turns else ""
        return f"{figure(self.at_mm)}: {figure(self.angle_deg)}°{way}"


@dataclass(frozen=True, slots=True)
class DrawnPipe:
    """One pipe to be made.

    Parameters
    ----------
    id, title : str
        Short name, and what its owner calls it.
    cut_mm : float or None
        Length to cut, allowances included; None when nobody knows. [mm]
    ends : tuple of two DrawnEnd
        Left and right in the picture.
    stock : str
        The pipe: ``4.75 mm, copper-nickel``.
    bends : tuple of DrawnBend
        From the left end on.
    circuit : int
        Number of its circuit; 0 when none reaches it.
    """

    id: str
    title: str
    cut_mm: float | None
    ends: tuple[DrawnEnd, DrawnEnd]
    stock: str = ""
    bends: tuple[DrawnBend, ...] = ()
    circuit: int = 0


def pipe_sheet(
    pipes: tuple[DrawnPipe, ...],
    *,
    href: Href | None = None,
    width: float = NARROW,
    first: int = 1,
) -> Svg:
    """Every pipe in turn to one scale, long ones on several rows, with boxes to tick on paper.

    Parameters
    ----------
    pipes : tuple of DrawnPipe
        In the order they are to be made.
    href : callable, optional
        The address of a pipe by its id.
    width : float
        ``NARROW`` or ``WIDE``. [px]
    first : int
        The number of the first of them, where a sheet goes on from another.

    Returns
    -------
    drawing : Svg
        Needs no definitions.
    """
    room = width - 2 * _SIDE
    longest = max([400.0, *(pipe.cut_mm or 0.0 for pipe in pipes)])
    px = min(_ROWS * room / longest, room / 400.0)
    y, drawn = 4.0, []
    for index, pipe in enumerate(pipes, first):
        piece, height = _pipe(index, pipe, y, px, width, href)
        drawn.append(piece)
        y += height
    scale = 100.0 if px > 0.4 else 200.0
    bar = f"M{number(_SIDE)} {number(y + 8)}h{number(scale * px)}m0 -5v10"
    bar += f"M{number(_SIDE)} {number(y + 3)}v10"
    label = text(_SIDE + scale * px + 8, y + 13, f"{figure(scale)} mm, all pipes", "t-soft")
    told = [] if not any(pipe.bends for pipe in pipes) else [_SEEN]
    said, foot = lines_of(told, 2, y + 36, width - 4)
    drawn += [path(bar, "l"), label, said]
    return sheet(width, foot if told else y + 24, sentence(pipes), *drawn, linked=href is not None)


def sentence(pipes: tuple[DrawnPipe, ...]) -> str:
    """What there is to make, for those who cannot see it."""
    known = [pipe.cut_mm for pipe in pipes if pipe.cut_mm is not None]
    said = [f"{len(pipes)} pipes to make, {figure(sum(known) / 1000, 2)} m in all."]
    missing = len(pipes) - len(known)
    if missing:
        said.append(f"The length of {missing} is not known.")
    for pipe in pipes:
        long = "length not known" if pipe.cut_mm is None else f"{figure(pipe.cut_mm)} mm"
        said.append(f"{pipe.title}: {long}; {pipe.ends[0].words}; {pipe.ends[1].words}.")
    return " ".join(said)


def _pipe(
    index: int, pipe: DrawnPipe, y: float, px: float, width: float, href: Href | None
) -> tuple[Svg, float]:
    words, at = [], y + 14.0
    for line in wrapped(f"{index}. {pipe.title}", width - 4, LETTERS, slab=True):
        words.append(text(2, at, line, "t-name"))
        at += LEADING
    long = "length not known" if pipe.cut_mm is None else f"cut {figure(pipe.cut_mm)} mm"
    circuit = f", circuit {pipe.circuit}" if pipe.circuit else ""
    stock = f", {pipe.stock}" if pipe.stock else ""
    for line in wrapped(f"{long}{stock}{circuit}", width - 4, LETTERS):
        words.append(text(2, at, line, "t-soft"))
        at += LEADING
    body, foot = _body(pipe, at, px, width)
    ends, foot = _end_words(pipe, foot, width)
    boxes, foot = _boxes(foot + 2)
    hit = rect(0, y - 1, width, foot - y, "bk-hit")
    rule = path(f"M0 {number(foot + 6)}H{number(width)}", "l-rule")
    drawn = link(
        href(pipe.id) if href else None,
        f"{pipe.title}, {long}",
        hit if href else Svg(),
        *words,
        body,
        ends,
    )
    return joined(drawn, boxes, rule), foot - y + 14


def _body(pipe: DrawnPipe, y: float, px: float, width: float) -> tuple[Svg, float]:
    """The pipe itself on as many rows as it needs, its bends marked above."""
    room = width - 2 * _SIDE
    total = (pipe.cut_mm or 300.0) * px
    unknown = pipe.cut_mm is None
    drawn: list[Svg] = []
    start = 0.0
    while start < total - 0.01 or not drawn:
        part = min(room, total - start)
        first, last = start == 0.0, start + part >= total - 0.01
        bends = [bend for bend in pipe.bends if start <= bend.at_mm * px < start + part + 0.01]
        at_y = y + (26.0 if bends else 12.0)
        x = _SIDE
        d = f"M{number(x)} {number(at_y)}h{number(part)}"
        if unknown:
            drawn.append(path(d, "bk-line bk-none"))
        else:
            drawn += [path(d, "bk-case"), path(d, "bk-core")]
        drawn.append(_flare(x, at_y, -1) if first else _break(x, at_y))
        drawn.append(_flare(x + part, at_y, 1) if last else _break(x + part, at_y))
        drawn.append(_bends(bends, x - start, at_y, px, width))
        start += part
        y = at_y + (_PIPE - 16.0)
    return joined(*drawn), y


def _bends(bends: list[DrawnBend], x: float, y: float, px: float, width: float) -> Svg:
    """A mark across the pipe at each bend; its place and angle above, set clear of the others."""
    if not bends:
        return Svg()
    words = [bend.words for bend in bends]
    rooms = [text_width(word, LETTERS) + 8 for word in words]
    places = [x + bend.at_mm * px for bend in bends]
    middles = spread(places, rooms, 2, width - 2)
    drawn = []
    crowded = sum(rooms) > width - 4  # then the angles alone, and the places in the table
    for place, middle, word in zip(places, middles, words, strict=True):
        mark = f"M{number(place)} {number(y - 7)}v14"
        if not crowded:
            mark += f"M{number(place)} {number(y - 7)}L{number(middle)} {number(y - 11)}"
            drawn.append(text(middle, y - 14, word, None, "middle"))
        drawn.append(path(mark, "l l-2"))
    return joined(*drawn)


def _flare(x: float, y: float, side: int) -> Svg:
    """A nut slid on behind a flare; ``side`` is -1 at the left end."""

    def at(dx: float, dy: float) -> str:
        return f"{number(x + side * dx)} {number(y + dy)}"

    bell = f"M{at(0, -3)}L{at(7, -7)}V{number(y + 7)}L{at(0, 3)}Z"
    nut = f"M{at(-16, -7)}L{at(-4, -7)}L{at(-4, 7)}L{at(-16, 7)}Z"
    nut += f"M{at(-16, -2.5)}L{at(-4, -2.5)}M{at(-16, 2.5)}L{at(-4, 2.5)}"
    return joined(path(bell, "f-ink"), path(nut, "box"))


def _break(x: float, y: float) -> Svg:
    """The pipe goes on: on the next row, or from the one before."""
    d = f"M{number(x + 2)} {number(y - 8)}l-4 5l5 5l-5 5"
    return path(d, "l l-2")


def _end_words(pipe: DrawnPipe, y: float, width: float) -> tuple[Svg, float]:
    """What is made at each end, at its own side."""
    drawn = []
    half = width / 2 - 10
    lowest = y
    for end, x, anchor in ((pipe.ends[0], 2.0, None), (pipe.ends[1], width - 2, "end")):
        at = y + 10
        lines = [*wrapped(end.at, half, LETTERS), *wrapped(end.words, half, LETTERS)]
        named = len(wrapped(end.at, half, LETTERS))
        for row, line in enumerate(lines):
            drawn.append(text(x, at, line, None if row < named else "t-soft", anchor))
            at += LEADING
        lowest = max(lowest, at)
    return joined(*drawn), lowest - 4


def _boxes(y: float) -> tuple[Svg, float]:
    """Boxes for the pencil, in the order of the work: the nuts go on before the flare."""
    drawn = []
    x = 2.0
    for word in _DONE:
        drawn += [rect(x, y, 14, 14, "box"), text(x + 20, y + 12, word, "t-soft")]
        x += 20 + text_width(word, LETTERS) + 14
    return joined(*drawn), y + 20
