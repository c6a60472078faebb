"""What is left when one thing fails: a ladder of rungs as long as the deceleration that is left.

Under each rung lies a rule from the pedal at rest to the floor, with a pointer at the pedal's
travel. The whole car is the top rung. A rung that reaches its yardstick has a square end; one
that is short of it is broken off.
"""

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
)
from bareshell.draw.marks import mark_key
from bareshell.draw.measure import text_width, wrapped
from bareshell.draw.svg import Svg, element, joined, number, path, rect, text

_RAIL: Final = 9.0
_LEFT: Final = 24.0
_RUNG: Final = 16.0


@dataclass(frozen=True, slots=True)
class FailureRung:
    """One failure, or several that leave the same, and what is left.

    Parameters
    ----------
    id : str
        For the link to the car shown with it.
    names : tuple of str
        What fails; more than one when they all leave the same.
    left : str
        What still brakes, in words.
    deceleration_m_s2 : float or None
        At the push asked about; None when it was not worked out. [m/s2]
    low_m_s2, high_m_s2 : float or None
        Its range. [m/s2]
    asked_m_s2 : float or None
        What the yardstick asks; None when no yardstick speaks of this failure. [m/s2]
    travel_mm : float or None
        Pedal travel. [mm]
    on_floor : bool
        Whether the pedal stands on the floor.
    shown : bool
        Whether the car plan shows this one now.
    """

    id: str
    names: tuple[str, ...]
    left: str
    deceleration_m_s2: float | None
    low_m_s2: float | None = None
    high_m_s2: float | None = None
    asked_m_s2: float | None = None
    travel_mm: float | None = None
    on_floor: bool = False
    shown: bool = False

    @property
    def verdict(self) -> str:
        """How it stands to its yardstick, in the words of all yardsticks."""
        if self.deceleration_m_s2 is None:
            return "not worked out"
        if self.asked_m_s2 is None:
            return ""
        asked = figure(self.asked_m_s2, 2).rstrip("0").rstrip(".")
        return f"{'meets' if self.meets else 'short of'} {asked}"

    @property
    def meets(self) -> bool:
        """Whether what is left reaches what is asked."""
        left, asked = self.deceleration_m_s2, self.asked_m_s2
        return left is not None and (asked is None or left >= asked)


@dataclass(frozen=True, slots=True)
class FailureLadder:
    """Every failure with the whole car above them.

    Parameters
    ----------
    rungs : tuple of FailureRung
        From the top down: usually the whole car, then from the most left to the least.
    push_n : float
        The push of the foot. [N]
    floor_mm : float or None
        Travel to the floor. [mm]
    load : str
        How the car is loaded.
    """

    rungs: tuple[FailureRung, ...]
    push_n: float = 500.0
    floor_mm: float | None = None
    load: str = "laden"


def failure_ladder(plate: FailureLadder, *, href: Href | None = None, width: float = NARROW) -> Svg:
    """The ladder; with ``href`` each rung leads to the car shown with that failure.

    Parameters
    ----------
    plate : FailureLadder
        The failures.
    href : callable, optional
        The address for a rung's id.
    width : float
        ``NARROW`` or ``WIDE``. [px]

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    best = [rung.high_m_s2 or rung.deceleration_m_s2 or 0.0 for rung in plate.rungs]
    best += [rung.asked_m_s2 or 0.0 for rung in plate.rungs]
    side = 0.0 if width <= NARROW else 290.0  # a wide ladder has its words beside the rungs
    room = width - _LEFT - side - 8.0
    px = (room - 84.0) / max(*best, 1.0)
    y = 8.0
    drawn = []
    for rung in plate.rungs:
        piece, height = _rung(rung, plate, y, px, room, side, href)
        drawn.append(piece)
        y += height
    rails = f"M{number(_RAIL + side)} 4V{number(y)}"
    said, foot = lines_of((_legend(plate),), 2, y + 20, width - 4)
    return sheet(
        width,
        foot,
        sentence(plate),
        path(rails, "rail"),
        path(rails, "rail-in"),
        *drawn,
        said,
        linked=href is not None,
    )


def sentence(plate: FailureLadder) -> str:
    """What the ladder shows, for those who cannot see it."""
    said = [f"What is left at {figure(plate.push_n)} N on the pedal, {plate.load}."]
    for rung in plate.rungs:
        left = rung.deceleration_m_s2
        told = "not worked out" if left is None else f"{figure(left, 1)} m/s2"
        verdict = f", {rung.verdict}" if rung.asked_m_s2 is not None and left is not None else ""
        floor = ", the pedal on the floor" if rung.on_floor else ""
        said.append(f"{rung.names[0]}{_more(rung)}: {told}{verdict}{floor}.")
    return " ".join(said)


def _more(rung: FailureRung) -> str:
    others = len(rung.names) - 1
    return f" and {others} more" if others else ""


def _legend(plate: FailureLadder) -> str:
    floor = (
        f"the floor at {figure(plate.floor_mm)} mm" if plate.floor_mm is not None else "the floor"
    )
    return (
        f"Rung: deceleration left at {figure(plate.push_n)} N, {plate.load}; post: what the "
        f"yardstick asks. Rule beneath: pedal travel, its right end {floor}."
    )


def _rung(
    rung: FailureRung,
    plate: FailureLadder,
    y: float,
    px: float,
    room: float,
    side: float,
    href: Href | None,
) -> tuple[Svg, float]:
    """One rung with its words; returns how high it is as well."""
    words_x, words_room = (_LEFT, room) if not side else (2.0, side - 12.0)
    words, words_height = _words(rung, words_x, y, words_room)
    x = _LEFT + side
    bar_y = y + 10.0 if side else y + words_height + 6.0
    bar = _bar(rung, x, bar_y, px)
    verdict = _verdict(rung, x, bar_y + _RUNG + 19.0, room, plate)
    rule, rule_height = _rule(rung, plate, x, bar_y + _RUNG + 30.0, room)
    bottom = max(bar_y + _RUNG + 26.0 + rule_height, y + words_height) + 12.0
    place = (_LEFT + side - 6, y - 3, room + 10, bottom - y - 4)
    hit = rect(*place, "bk-hit")
    ground = rect(*place, "f-brass") if rung.shown else Svg()
    called = f"{rung.names[0]}{_more(rung)}, {rung.left}"
    drawn = link(
        href(rung.id) if href else None,
        called,
        hit if href else Svg(),
        words,
        bar,
        verdict,
        rule,
    )
    return joined(ground, drawn), bottom - y


def _words(rung: FailureRung, x: float, y: float, room: float) -> tuple[Svg, float]:
    names = ", ".join(rung.names[:3])
    if len(rung.names) > 3:
        names += f" and {len(rung.names) - 3} more"
    drawn, at = [], y + 13.0
    for line in wrapped(names, room, LETTERS, slab=True):
        drawn.append(text(x, at, line, "t-name"))
        at += LEADING
    for line in wrapped(rung.left, room, LETTERS):
        drawn.append(text(x, at, line, "t-soft"))
        at += LEADING
    return joined(*drawn), at - y - 10.0


def _bar(rung: FailureRung, x: float, y: float, px: float) -> Svg:
    """The rung itself: square where it is enough, broken off where it is not."""
    left = rung.deceleration_m_s2
    if left is None:
        return joined(rect(x, y, 60, _RUNG, "rung-later"), text(x + 68, y + 13, "?", "t-name"))
    end = x + left * px
    middle, foot = number(y + _RUNG / 2), number(y + _RUNG)
    if rung.meets:
        tip = f"L{number(end)} {number(y)}V{foot}"
    else:
        tip = (
            f"L{number(end + 3)} {number(y)}L{number(end - 3)} {number(y + 5)}"
            f"L{number(end + 4)} {middle}"
            f"L{number(end - 3)} {number(y + 11)}L{number(end + 2)} {foot}"
        )
    d = f"M{number(x - 6)} {number(y)}{tip}H{number(x - 6)}Z"
    post = Svg()
    edge = end
    if rung.asked_m_s2 is not None:
        at = x + rung.asked_m_s2 * px
        post = joined(
            path(f"M{number(at)} {number(y - 5)}v{number(_RUNG + 10)}", "bk-post-under"),
            path(f"M{number(at)} {number(y - 5)}v{number(_RUNG + 10)}", "bk-post"),
        )
        edge = max(edge, at)
    ranged = Svg()
    if rung.low_m_s2 is not None and rung.high_m_s2 is not None:
        low, high = x + rung.low_m_s2 * px, x + rung.high_m_s2 * px
        d_range = f"M{number(low)} {middle}H{number(high)}M{number(high)} {number(y + 3)}v10"
        inside = (
            f"M{number(low)} {middle}H{number(min(high, end))}M{number(low)} {number(y + 3)}v10"
        )
        ranged = joined(path(d_range, "l l-2"), path(inside, "mk-sheet-thin"))
        edge = max(edge, high)
    shown = text(edge + 9, y + 13, f"{figure(left, 1)} m/s²", "t-name")
    return joined(path(d, "f-ink"), ranged, post, shown)


def _verdict(rung: FailureRung, x: float, y: float, room: float, plate: FailureLadder) -> Svg:
    """The word for it, after its mark, and the pedal's travel in words at the right."""
    drawn = []
    if rung.verdict:
        key = (
            "not-known"
            if rung.deceleration_m_s2 is None
            else mark_key("meets" if rung.meets else "short of")
        )
        mark = element("use", href=f"#m-{key}", x=x, y=y - 12, width=15, height=15)
        drawn.append(joined(mark, text(x + 21, y, rung.verdict, "t-name")))
    pedal = _pedal_words(rung, plate)
    free = room - (text_width(rung.verdict, LETTERS, slab=True) + 30 if rung.verdict else 0)
    if pedal and text_width(pedal, LETTERS, slab=rung.on_floor) <= free:
        class_ = "t-ox" if rung.on_floor else "t-soft"
        drawn.append(text(x + room - 2, y, pedal, class_, "end"))
    return joined(*drawn)


def _pedal_words(rung: FailureRung, plate: FailureLadder) -> str:
    if rung.on_floor:
        return "pedal on the floor"
    if rung.travel_mm is None:
        return "travel not worked out"
    if plate.floor_mm is None:
        return f"pedal {figure(rung.travel_mm)} mm"
    return f"pedal {figure(rung.travel_mm)}, {figure(plate.floor_mm - rung.travel_mm)} mm left"


def _rule(
    rung: FailureRung, plate: FailureLadder, x: float, y: float, room: float
) -> tuple[Svg, float]:
    """A rule from the pedal at rest to the floor, with a pointer at the travel."""
    if plate.floor_mm is None or rung.travel_mm is None:
        return Svg(), 4.0
    px = (room - 6.0) / plate.floor_mm
    marks = "".join(
        f"M{number(x + mm * px)} {number(y + 6)}v{8 if mm % 50 == 0 else 5}"
        for mm in range(0, int(plate.floor_mm) + 1, 10)
    )
    floor = number(x + room - 6.0)
    at = x + min(rung.travel_mm, plate.floor_mm) * px
    pointer = f"M{number(at)} {number(y + 6)}l-6 -9h12Z"
    line = f"M{number(x)} {number(y + 6)}H{floor}"
    return joined(
        path(marks + line, "l-thin"),
        path(f"M{floor} {number(y - 4)}v20", "l-thick"),
        path(pointer, "f-ox" if rung.on_floor else "f-ink"),
    ), 20.0
