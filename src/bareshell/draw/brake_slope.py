"""The slope that the parking brake holds, both ways, at its true angle."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from bareshell.draw.brake_sheet import LEADING, LETTERS, NARROW, figure, sheet, spread
from bareshell.draw.measure import text_width, wrapped
from bareshell.draw.svg import Svg, element, joined, number, path, text

_BODY: Final = (
    "M-62 -13V-19Q-61 -23 -54 -24.5L-36 -27L-24 -39Q-22 -41 -18 -41H10Q15 -41 18 -38L29 -27"
    "L54 -24Q62 -23 62 -17V-13Z"
)
_GLASS: Final = "M-30 -27L-21 -36.5H-8V-27ZM-3 -27V-36.5H10L20 -27Z"
_WHEELS: Final = (-39.0, 39.0)
_WHEEL: Final = 12.0


@dataclass(frozen=True, slots=True)
class SlopeHeld:
    """What is held one way.

    Parameters
    ----------
    nose_up : bool
        Whether the car points up the slope.
    slope : float or None
        Rise over run that is held; None when it was not worked out. [-]
    because : str
        What ends it: ``the pull of the hand``, ``the tyres``.
    low, high : float or None
        Its range. [-]
    """

    nose_up: bool
    slope: float | None
    because: str = ""
    low: float | None = None
    high: float | None = None

    @property
    def way(self) -> str:
        """Which way, in words."""
        return "nose up" if self.nose_up else "nose down"


@dataclass(frozen=True, slots=True)
class ParkingSlope:
    """Both ways against what a yardstick asks.

    Parameters
    ----------
    held : tuple of SlopeHeld
        Nose up and nose down.
    asked : float or None
        Slope of the yardstick; None when none was picked. [-]
    asked_words : str
        What the yardstick is called.
    hand_n : float
        Pull of the hand, or push of the foot. [N]
    braked : str
        ``rear``, ``front`` or ``all``: the wheels that it holds.
    """

    held: tuple[SlopeHeld, ...]
    asked: float | None = None
    asked_words: str = ""
    hand_n: float = 400.0
    braked: str = "rear"


def parking_slope(plate: ParkingSlope, *, width: float = NARROW) -> Svg:
    """A car on the steepest slope it is held on, and the slope that is asked, for each way.

    Parameters
    ----------
    plate : ParkingSlope
        Both ways.
    width : float
        ``NARROW`` or ``WIDE``. [px]

    Returns
    -------
    drawing : Svg
        Needs no definitions.
    """
    columns = 1 if width <= NARROW else 2
    room = width / columns
    drawn, y, foot = [], 0.0, 0.0
    for index, held in enumerate(plate.held):
        x = (index % columns) * room
        piece, height = _way(held, plate, x, y, room - (4.0 if columns == 1 else 30.0))
        drawn.append(piece)
        foot = max(foot, y + height)
        if index % columns == columns - 1:
            y = foot
    return sheet(width, foot + 4, sentence(plate), *drawn)


def verdict(held: SlopeHeld, asked: float | None) -> str:
    """How a slope stands to what is asked, in the words of all yardsticks.

    Examples
    --------
    >>> verdict(SlopeHeld(True, 0.24), 0.18), verdict(SlopeHeld(True, 0.1), 0.18)
    ('meets 18 per cent', 'short of 18 per cent')
    """
    if held.slope is None:
        return "not worked out"
    if asked is None:
        return ""
    return f"{'meets' if held.slope >= asked else 'short of'} {_percent(asked)}"


def sentence(plate: ParkingSlope) -> str:
    """What is held, for those who cannot see it."""
    said = [f"Slope that the parking brake holds at {figure(plate.hand_n)} N."]
    for held in plate.held:
        if held.slope is None:
            said.append(f"{held.way.capitalize()}: not worked out.")
            continue
        word = verdict(held, plate.asked)
        said.append(
            f"{held.way.capitalize()}: {_percent(held.slope)}"
            f"{f', ended by {held.because}' if held.because else ''}{f', {word}' if word else ''}."
        )
    return " ".join(said)


def _percent(slope: float) -> str:
    return f"{figure(100 * slope, 1).removesuffix('.0')} per cent"


def _way(
    held: SlopeHeld, plate: ParkingSlope, x: float, y: float, room: float
) -> tuple[Svg, float]:
    """One way: words, then the ground at its angle with the car on it."""
    words, at = [], y + 14.0
    head = f"{held.way}: {_percent(held.slope) if held.slope is not None else 'not worked out'}"
    words.append(text(x + 2, at, head, "t-name"))
    told = verdict(held, plate.asked) if held.slope is not None else ""
    notes = [told, f"ended by {held.because}" if held.because else "", _range(held)]
    for line in wrapped("; ".join(note for note in notes if note), room, LETTERS):
        at += LEADING
        words.append(text(x + 2, at, line, "t-soft"))
    if held.slope is None:
        return joined(*words), at - y + 20
    lines = [(held.slope, _percent(held.slope).removesuffix(" per cent"), "l-thick", "t-name")]
    if plate.asked is not None:
        asked = figure(100 * plate.asked, 1).removesuffix(".0")
        lines.append((plate.asked, f"{asked} asked", "l l-2 l-short", ""))
    named = max(text_width(words, LETTERS, slab=bool(slab)) for _, words, _, slab in lines)
    long = min(room - named - 18.0, 300.0)
    steepest = max(held.slope, plate.asked or 0.0)
    top = at + 62.0
    base = top + long * math.sin(math.atan(steepest))
    foot_x = x + 6.0
    drawn = [_ground(slope, look, foot_x, base, long) for slope, _, look, _ in lines]
    drawn += _ends(lines, foot_x, base, long)
    drawn.append(path(f"M{number(foot_x)} {number(base)}h{number(long)}", "l-thin"))
    drawn.append(_car(held, plate.braked, foot_x, base, long))
    return joined(*words, *drawn), base - y + 20.0


def _range(held: SlopeHeld) -> str:
    if held.low is None or held.high is None:
        return ""
    low = figure(100 * held.low).removesuffix(".0")
    return f"{low} to {_percent(held.high)} likely"


def _ground(slope: float, look: str, x: float, y: float, long: float) -> Svg:
    angle = math.atan(slope)
    to_x, to_y = x + long * math.cos(angle), y - long * math.sin(angle)
    return path(f"M{number(x)} {number(y)}L{number(to_x)} {number(to_y)}", look)


def _ends(lines: list[tuple[float, str, str, str]], x: float, y: float, long: float) -> list[Svg]:
    """Name each slope where its line ends, one above the other."""
    steep_first = sorted(lines, key=lambda line: -line[0])
    wanted = [y - long * math.sin(math.atan(line[0])) for line in steep_first]
    heights = spread(wanted, [LEADING] * len(wanted), min(wanted) - 20, y + 10)
    drawn = []
    for (slope, words, _, class_), at in zip(steep_first, heights, strict=True):
        end = x + long * math.cos(math.atan(slope))
        drawn.append(text(end + 7, at + 5, words, class_ or None))
    return drawn


def _car(held: SlopeHeld, braked: str, x: float, y: float, long: float) -> Svg:
    """The car on its slope; the wheels that the brake holds are filled."""
    assert held.slope is not None  # noqa: S101  the caller asked first
    angle = math.atan(held.slope)
    middle = 0.55 * long
    cx, cy = x + middle * math.cos(angle), y - middle * math.sin(angle)
    nose = 1 if held.nose_up else -1  # drawn with its nose to the right
    wheels = []
    for at in _WHEELS:
        front = at > 0
        holds = braked == "all" or (braked == "front") == front
        ring = element("circle", cx=at, cy=-_WHEEL, r=_WHEEL - 1, class_="box bk-2")
        core = element("circle", cx=at, cy=-_WHEEL, r=_WHEEL - 4, class_="f-ink")
        wheels.append(joined(ring, core) if holds else ring)
    turned = number(-math.degrees(angle))
    to = f"translate({number(cx)} {number(cy)}) rotate({turned})"
    if nose < 0:
        to += " scale(-1 1)"
    return element("g", path(_BODY, "box bk-2"), path(_GLASS, "l-thin"), *wheels, transform=to)
