"""Small measures that stand in a row beside a word: what a choice costs, when a part comes.

Each is drawn to a scale the caller gives once for all rows, so rows can be compared. The word
beside the drawing says the same, so the drawing is hidden from screen readers.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from typing import Final

from bareshell.draw.measure import shortened, text_width
from bareshell.draw.svg import Svg, decoration, joined, path, picture, rect, text

_COST_WIDTH: Final = 190.0
_LEVER_WIDTH: Final = 300.0
_SHARE_WIDTH: Final = 300.0
_BINDS_WIDTH: Final = 380.0
_BINDS_HATCHES: Final = ("p1", "p2", "p3", "lost")


@dataclass(frozen=True, slots=True)
class Span:
    """A likely value with its range.

    Raises
    ------
    ValueError
        When they are not in order.
    """

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        """Low, likely, high stand in that order."""
        if not self.low <= self.likely <= self.high:
            raise ValueError(
                f"A range runs upwards; this one is {self.low}, {self.likely}, {self.high}."
            )


def whole_scale(spans: tuple[Span, ...], least: float = 5.0) -> float:
    """A round length that holds every span, to be given to each row.

    Parameters
    ----------
    spans : tuple of Span
        All the rows that will be compared. [d]
    least : float
        The scale is never shorter than this. [d]

    Examples
    --------
    >>> whole_scale((Span(0, 0, 0.4), Span(1.6, 2.4, 3.3)))
    5.0
    >>> whole_scale((Span(-2, 31, 64),))
    70.0
    """
    furthest = max((max(abs(span.low), abs(span.high)) for span in spans), default=least)
    furthest = max(furthest, least)
    step = 10 ** math.floor(math.log10(furthest))
    return float(math.ceil(round(furthest / step, 9)) * step)


def regret_mark(cost: Span, scale_days: float) -> Svg:
    """What a first move costs the day on the road, from none at the left.

    Parameters
    ----------
    cost : Span
        Days later than with the best first move, nine times in ten within the range. [d]
    scale_days : float
        The whole length of the rule, the same for all moves. [d]
    """
    return _span(cost, _COST_WIDTH, 0, scale_days)


def lever_mark(sooner: Span, scale_days: float) -> Svg:
    """How many days sooner a change brings the road; left of the long tick is later.

    Parameters
    ----------
    sooner : Span
        Days sooner, with twice the standard error each way. [d]
    scale_days : float
        The whole length to the right of no change, the same for all levers. [d]
    """
    return _span(sooner, _LEVER_WIDTH, -scale_days / 5, scale_days)


def _span(span: Span, width: float, first: float, last: float) -> Svg:
    left, right = 8.0, width - 8.0

    def at(days: float) -> float:
        return left + (right - left) * (min(max(days, first), last) - first) / (last - first)

    tick = _tick(last - first)
    ticks = [
        path(f"M{at(k * tick):g} 18V25", "l-thin")
        for k in range(math.ceil(first / tick), math.floor(last / tick) + 1)
    ]
    zero = path(f"M{at(0):g} 14V28", "l") if first < 0 else Svg()
    likely = at(span.likely)
    return decoration(
        width,
        30,
        path(f"M{left:g} 22H{right:g}", "l-thin"),
        joined(*ticks),
        zero,
        path(f"M{at(span.low):g} 11H{at(span.high):g}", "l-thick"),
        path(f"M{likely - 7:g} 2H{likely + 7:g}L{likely:g} 19Z", "f-ink"),
    )


def _tick(length: float) -> float:
    """A day, a week, four weeks or a multiple: at most ten ticks along a rule."""
    for tick in (1.0, 7.0, 28.0):
        if length / tick <= 12:
            return tick
    return 28.0 * math.ceil(length / 28.0 / 12)


@dataclass(frozen=True, slots=True)
class Arrival:
    """When a part is due, within what, and when it is needed; None is not known."""

    due: date
    earliest: date
    latest: date
    needed: date | None = None

    def __post_init__(self) -> None:
        """Earliest, due, latest stand in that order."""
        if not self.earliest <= self.due <= self.latest:
            raise ValueError(
                f"A delivery runs from {self.earliest} by {self.due} to {self.latest}; "
                "these do not follow each other."
            )


def arrival_mark(arrival: Arrival, first: date, days: int) -> Svg:
    """A pin where the part is due, a bar for nine in ten, a dashed post where it is needed.

    Parameters
    ----------
    arrival : Arrival
        The delivery.
    first : date
        The day at the left end, the same for all rows.
    days : int
        The whole length, the same for all rows. [d]
    """

    def at(day: date) -> float:
        return 8 + 284 * min(max((day - first).days, 0), days) / days

    tick = _tick(days) if days > 14 else 1.0
    ticks = [
        path(f"M{8 + 284 * k * tick / days:g} 25V32", "l-thin")
        for k in range(int(days // tick) + 1)
    ]
    due = at(arrival.due)
    needed = (
        path(f"M{at(arrival.needed):g} 2V36", "l l-2 l-short")
        if arrival.needed is not None
        else Svg()
    )
    return decoration(
        _LEVER_WIDTH,
        38,
        path("M8 25H292", "l-thin"),
        joined(*ticks),
        path(f"M{at(arrival.earliest):g} 25H{at(arrival.latest):g}", "l-thick"),
        path(f"M{due:g} 13V25", "l"),
        Svg(f'<circle cx="{due:g}" cy="13" r="5.5" class="f-ink"/>'),
        needed,
    )


def share_bar(share: float) -> Svg:
    """How large a share of the combinations a statement holds for.

    Parameters
    ----------
    share : float
        Between 0 and 1. [-]
    """
    if not 0.0 <= share <= 1.0:
        raise ValueError(f"A share lies between 0 and 1; this one is {share}.")
    inner = _SHARE_WIDTH - 2
    return decoration(
        _SHARE_WIDTH,
        22,
        rect(1, 1, inner, 20, "box"),
        rect(1, 1, inner * share, 20, fill="url(#h-p1)"),
        path(f"M{1 + inner * share:g} 1V21", "l-thick") if 0 < share < 1 else Svg(),
        class_="share",
    )


@dataclass(frozen=True, slots=True)
class Bind:
    """Something that holds the road up, and in how many of a hundred futures."""

    word: str
    of_hundred: int


def binds_bar(binds: tuple[Bind, ...]) -> Svg:
    """What the last delayed job was waiting for, as parts of one bar.

    Parameters
    ----------
    binds : tuple of Bind
        Largest first; each width is its share, and short ones are named further down.
    """
    total = sum(bind.of_hundred for bind in binds)
    if total <= 0:
        raise ValueError("A bar of what binds needs at least one future.")
    bars, leads, names = [], [], []
    filled: list[float] = []  # how far each line of names is written
    x = 2.0
    for index, bind in enumerate(binds):
        width = (_BINDS_WIDTH - 4) * bind.of_hundred / total
        hatch = _BINDS_HATCHES[min(index, len(_BINDS_HATCHES) - 1)]
        bars += [rect(x, 4, width, 34, "box"), rect(x, 4, width, 34, fill=f"url(#h-{hatch})")]
        words = shortened(f"{bind.of_hundred} {bind.word}", _BINDS_WIDTH - 8, 14.5, slab=True)
        long = text_width(words, 14.5, slab=True)
        start = min(x, _BINDS_WIDTH - long - 4)
        line = next((k for k, end in enumerate(filled) if end <= start), len(filled))
        filled[line : line + 1] = [start + long + 12]
        leads.append(path(f"M{x + 1:g} 38V{48 + 21 * line:g}", "l-thin"))
        names.append(text(start + 3, 60 + 21 * line, words, "t-name halo"))
        x += width
    listed = ", ".join(f"{bind.word} in {bind.of_hundred}" for bind in binds)
    return picture(
        _BINDS_WIDTH,
        48 + 21 * len(filled),
        f"Of {total} futures, what the last delayed job waited for: {listed}.",
        joined(*bars, *leads, *names),
        class_="narrow",
    )
