"""The evening on a steel rule: minutes are read like millimetres.

Positions are per cent of the rule, so that lengths stay true and letters keep their size on a
phone and on a wide page alike.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from bareshell.draw.svg import Svg, element, joined, number, rect, text
from bareshell.draw.systems import fill_of

_BAR: Final = 40.0
_LANE: Final = 20.0
_SCALE: Final = 46.0
_NARROW_SHARE: Final = 0.09  # a badge needs about this share of the narrowest page
_LABELS_MOST: Final = 6


@dataclass(frozen=True, slots=True)
class Stretch:
    """One piece of work on the rule.

    Parameters
    ----------
    number : str
        The number of its ticket.
    name : str
        What it is.
    system : str
        Decides the hatch.
    from_min, to_min : float
        Where it begins and ends after the start of the session. [min]
    """

    number: str
    name: str
    system: str
    from_min: float
    to_min: float


@dataclass(frozen=True, slots=True)
class SessionRule:
    """A session with its stretches in order.

    Parameters
    ----------
    starts : datetime
        Local time of the start.
    minutes : float
        How long it lasts. [min]
    stretches : tuple of Stretch
        What is done when; they may leave gaps and may not overlap.
    """

    starts: datetime
    minutes: float
    stretches: tuple[Stretch, ...]

    def __post_init__(self) -> None:
        """Stretches lie inside the session, one after the other."""
        end = 0.0
        for piece in self.stretches:
            if not end - 1e-6 <= piece.from_min < piece.to_min <= self.minutes + 1e-6:
                raise ValueError(
                    f"{piece.name!r} runs from minute {piece.from_min:g} to {piece.to_min:g}; "
                    f"it must lie after minute {end:g} and end by minute {self.minutes:g}."
                )
            end = piece.to_min

    def clock(self, minute: float) -> str:
        """The time of day at a minute of the session."""
        return f"{self.starts + timedelta(minutes=round(minute)):%H:%M}"

    @property
    def sentence(self) -> str:
        """What the rule shows, for those who cannot see it."""
        pieces = [
            f"{self.clock(piece.from_min)} to {self.clock(piece.to_min)} "
            f"number {piece.number}, {piece.name}"
            for piece in self.stretches
        ]
        return f"{self.clock(0)} to {self.clock(self.minutes)}. " + "; ".join(pieces) + "."


def session_rule(rule: SessionRule) -> Svg:
    """The rule with its stretches in the hatch of their system.

    Parameters
    ----------
    rule : SessionRule
        The session.

    Returns
    -------
    drawing : Svg
        As wide as its place on the page; needs the page's `definitions`.
    """
    lanes = _lanes(rule)
    bar_top = _LANE * (1 + max(lanes.values(), default=-1))
    height = bar_top + _BAR + _SCALE
    return element(
        "svg",
        rect("0", bar_top, "100%", _BAR + _SCALE, "f-sheet"),
        *(_stretch(rule, piece, bar_top) for piece in rule.stretches),
        _ticks(rule, height),
        _clock(rule, bar_top + _BAR + 17),
        rect("0", bar_top, "100%", _BAR + _SCALE, "l-thin"),
        *(_number(rule, piece, lanes.get(piece.number), bar_top) for piece in rule.stretches),
        class_="rulebar",
        width="100%",
        height=height,
        role="img",
        aria_label=rule.sentence,
    )


def _share(rule: SessionRule, minute: float) -> str:
    return f"{number(100 * minute / rule.minutes)}%"


def _lanes(rule: SessionRule) -> dict[str, int]:
    """Lift the numbers of short stretches above the bar, each clear of the one before."""
    lanes: dict[str, int] = {}
    ends: list[float] = []
    for piece in rule.stretches:
        if (piece.to_min - piece.from_min) / rule.minutes >= _NARROW_SHARE:
            continue
        middle = (piece.from_min + piece.to_min) / 2 / rule.minutes
        lane = next((k for k, end in enumerate(ends) if middle - end >= _NARROW_SHARE), len(ends))
        if lane == len(ends):
            ends.append(middle)
        ends[lane] = middle
        lanes[piece.number] = lane
    return lanes


def _stretch(rule: SessionRule, piece: Stretch, top: float) -> Svg:
    x = _share(rule, piece.from_min)
    width = _share(rule, piece.to_min - piece.from_min)
    return joined(
        rect(x, top, width, _BAR, fill=fill_of(piece.system)), rect(x, top, width, _BAR, "l-2 l")
    )


def _number(rule: SessionRule, piece: Stretch, lane: int | None, bar_top: float) -> Svg:
    """The ticket's number: on the bar, or over it with a line when the stretch is short."""
    middle = _share(rule, (piece.from_min + piece.to_min) / 2)
    if lane is not None:
        y = bar_top - _LANE * (lane + 1)
        lead = element("line", x1=middle, x2=middle, y1=y + 16, y2=bar_top + 6, class_="l")
        return joined(lead, text(middle, y + 13, piece.number, "t-name halo-paper", "middle"))
    wide = 28 + 8 * max(0, len(piece.number) - 2)
    y = bar_top + _BAR / 2
    patch = rect(middle, y - 13, wide, 26, "box", transform=f"translate({number(-wide / 2)} 0)")
    return joined(patch, text(middle, y + 5, piece.number, "t-name", "middle"))


def _ticks(rule: SessionRule, foot: float) -> Svg:
    """Short marks every five minutes (more for a long day), tall ones every half hour."""
    step = 5 if rule.minutes <= 240 else 10 if rule.minutes <= 480 else 30
    marks = []
    for minute in range(0, int(rule.minutes) + 1, step):
        tall = minute % 30 == 0
        marks.append(
            element(
                "line",
                x1=_share(rule, minute),
                x2=_share(rule, minute),
                y1=foot - (18 if tall else 9),
                y2=foot,
                class_="l" if tall else "l-thin",
            )
        )
    return joined(*marks)


def _clock(rule: SessionRule, y: float) -> Svg:
    """Times of day, as many as a phone has room for."""
    step = next(
        every for every in (30, 60, 120, 240, 480, 960) if rule.minutes / every <= _LABELS_MOST
    )
    return joined(
        *(
            text(_share(rule, minute), y, rule.clock(minute), dx=3)
            for minute in range(0, int(rule.minutes), step)
            if (rule.minutes - minute) / rule.minutes > 0.11
        )
    )
