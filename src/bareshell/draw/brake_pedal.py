"""What the foot gets for its force: deceleration and travel over the push, to one rule below."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bareshell.draw.brake_chart import Axis, Curve, Frame, Room, axis, frame
from bareshell.draw.brake_sheet import NARROW, Box, Point, figure, sheet
from bareshell.draw.svg import Svg, joined, number, path


@dataclass(frozen=True, slots=True)
class Asked:
    """What a yardstick asks: at least so much for no more than this push.

    Parameters
    ----------
    words : str
        What the yardstick is called.
    force_n : float
        The most that the foot may push. [N]
    value : float
        The least that it must get, in the unit of the panel.
    """

    words: str
    force_n: float
    value: float


@dataclass(frozen=True, slots=True)
class Level:
    """A height that ends something: the floor, a stroke, the pressure of a knee."""

    words: str
    value: float
    heavy: bool = True


@dataclass(frozen=True, slots=True)
class Panel:
    """One thing over the push of the foot.

    Parameters
    ----------
    words : str
        What it is, with its unit: ``deceleration, m/s2``.
    curves : tuple of Curve
        Push in newtons, and the thing.
    asked : tuple of Asked
        Corners that a yardstick asks the curve to go above.
    levels : tuple of Level
        Lines across.
    """

    words: str
    curves: tuple[Curve, ...]
    asked: tuple[Asked, ...] = ()
    levels: tuple[Level, ...] = ()


@dataclass(frozen=True, slots=True)
class PedalCurve:
    """Panels over one rule of pedal force.

    Parameters
    ----------
    panels : tuple of Panel
        From top to bottom.
    most_n : float
        The push at the right end. [N]
    knees : tuple of (float, str)
        Pushes at which something changes, with its words: the servo gives all it has. [N]
    result : str
        What it comes to, in a sentence.
    """

    panels: tuple[Panel, ...]
    most_n: float
    knees: tuple[tuple[float, str], ...] = ()
    result: str = ""


def pedal_curve(plate: PedalCurve, *, width: float = NARROW) -> Svg:
    """Panels above each other over the same push, so that one looks straight down.

    Parameters
    ----------
    plate : PedalCurve
        The curves.
    width : float
        ``NARROW`` or ``WIDE``. [px]

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    push = axis("push of the foot, N", 0, plate.most_n, most=5)
    uprights = [_upright(panel) for panel in plate.panels]
    boxes = [frame(push, up, width=width, top=0, height=1).box for up in uprights]
    left, right = max(box.left for box in boxes), min(box.right for box in boxes)
    grounds = []
    top = 30.0
    for index, up in enumerate(uprights):
        height = min(0.5 if index == 0 else 0.4, 260 / width) * width
        grounds.append(Frame(push, up, Box(left, top, right, top + height)))
        top += height + 44
    drawn = [
        _panel(panel, ground, plate.knees if index == 0 else (), last=index == len(grounds) - 1)
        for index, (panel, ground) in enumerate(zip(plate.panels, grounds, strict=True))
    ]
    return sheet(
        width,
        grounds[-1].box.bottom + 44,
        sentence(plate),
        _knee_lines(plate, grounds),
        *drawn,
    )


def sentence(plate: PedalCurve) -> str:
    """What the panels show, for those who cannot see them."""
    said = ["Over the push of the foot:"]
    for panel in plate.panels:
        for curve in panel.curves:
            finite = [point for point in curve.points if math.isfinite(point[1])]
            if curve.style == "standard" or not finite:
                continue
            push, value = finite[-1]
            name = f" {curve.words}" if curve.words else ""
            said.append(f"{panel.words}{name}, {figure(value, 1)} at {figure(push)} N;")
    said[-1] = said[-1].rstrip(";") + "."
    if plate.result:
        said.append(plate.result)
    return " ".join(said)


def _upright(panel: Panel) -> Axis:
    values = [y for curve in panel.curves for _, y in curve.points if math.isfinite(y)]
    values += [level.value for level in panel.levels] + [each.value for each in panel.asked]
    return axis(panel.words, 0, 1.04 * max(values, default=1.0), most=5)


def _panel(panel: Panel, ground: Frame, knees: tuple[tuple[float, str], ...], *, last: bool) -> Svg:
    room = Room(ground)
    for curve in panel.curves:
        room.keep(curve.points)
    for level in panel.levels:
        room.keep(((0, level.value), (ground.x.high, level.value)))
    for each in panel.asked:
        room.keep(_corner(each, ground))
    names = [room.name(curve, slab=curve.style != "standard") for curve in panel.curves]
    return joined(
        *(_asked(each, ground) for each in panel.asked),
        ground.ground(x_words=last),
        *(ground.drawn(curve) for curve in reversed(panel.curves)),
        *(_level(level, ground) for level in panel.levels),
        *names,
        *(_asked_words(each, ground, room) for each in panel.asked),
        *(_level_words(level, ground, room) for level in panel.levels),
        *(_knee_words(knee, ground, room) for knee in knees),
    )


def _corner(asked: Asked, ground: Frame) -> tuple[Point, ...]:
    """Below and beyond this corner is what the yardstick rules out."""
    return (
        (asked.force_n, asked.value),
        (ground.x.high, asked.value),
    )


def _asked(asked: Asked, ground: Frame) -> Svg:
    """From the allowed push on, whatever is less than asked is hatched."""
    x, y = ground.at((asked.force_n, asked.value))
    box = ground.box
    left = min(max(x, box.left), box.right - 14)  # a strip is left to see at the far end
    d = f"M{number(left)} {number(y)}H{number(box.right)}V{number(box.bottom)}H{number(left)}Z"
    edge = f"M{number(left)} {number(box.bottom)}V{number(y)}H{number(box.right)}"
    return joined(path(d, "bk-hatched", fill="url(#h-lost)"), path(edge, "bk-c bk-c-yard"))


def _asked_words(asked: Asked, ground: Frame, room: Room) -> Svg:
    x, y = ground.at((min(asked.force_n, ground.x.high), asked.value))
    spots = [(x - back, y + down) for down in (14, 34, 54, -14) for back in (6, 30, 60)]
    return room.word(asked.words, spots, "halo", slab=False)


def _level(level: Level, ground: Frame) -> Svg:
    _, y = ground.at((0, level.value))
    box = ground.box
    d = f"M{number(box.left)} {number(y)}H{number(box.right)}"
    return path(d, "l-thick" if level.heavy else "l l-2 l-short")


def _level_words(level: Level, ground: Frame, room: Room) -> Svg:
    _, y = ground.at((0, level.value))
    box = ground.box
    spots = [(box.left + share * (box.right - box.left), y) for share in (0.02, 0.25, 0.5, 0.7)]
    return room.word(level.words, spots, "t-name halo" if level.heavy else "halo", slab=level.heavy)


def _knee_lines(plate: PedalCurve, grounds: list[Frame]) -> Svg:
    d = ""
    for push, _ in plate.knees:
        x, _y = grounds[0].at((push, 0))
        d += f"M{number(x)} {number(grounds[0].box.top)}V{number(grounds[-1].box.bottom)}"
    return path(d, "l l-dot") if d else Svg()


def _knee_words(knee: tuple[float, str], ground: Frame, room: Room) -> Svg:
    """Say what changes at a push, low down where the curves are not."""
    x, _ = ground.at((knee[0], 0))
    box = ground.box
    spots = [(x, box.bottom - up) for up in (14, 34, 54)] + [(x, box.top + 16)]
    return room.word(knee[1], spots, "t-soft halo", slab=False)
