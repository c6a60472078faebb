"""The forecast as twenty dots: each is one future in twenty."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from bareshell.draw.days import full_day, short_day
from bareshell.draw.measure import text_width
from bareshell.draw.road import Landing
from bareshell.draw.svg import Svg, circle, joined, path, picture, text
from bareshell.draw.weeks import week_of

_WIDTH: Final = 380.0
_LEFT: Final = 20.0
_ROOM: Final = 340.0
_DOT: Final = 9.5
_PITCH: Final = 22.0


@dataclass(frozen=True, slots=True)
class ForecastDots:
    """Twenty futures and the landings read from all of them.

    Parameters
    ----------
    futures : tuple of date
        The day on the road in each future shown, any order; usually twenty.
    landings : tuple of Landing
        P50, P80 and P95 as weeks.
    runs : int
        How many futures were worked out in all.
    reach : tuple of date
        Days that the axis reaches over besides, so that two pictures have one scale.
    """

    futures: tuple[date, ...]
    landings: tuple[Landing, ...]
    runs: int
    reach: tuple[date, ...] = ()

    def __post_init__(self) -> None:
        """There is nothing to draw without a future."""
        if not self.futures:
            raise ValueError("A forecast needs at least one future to draw.")

    @property
    def sentence(self) -> str:
        """What the dots show, for those who cannot see it."""
        words = (
            f"{len(self.futures)} dots, each one in {len(self.futures)} futures, "
            f"from {full_day(min(self.futures))} to {full_day(max(self.futures))}."
        )
        listed = ", ".join(
            f"{landing.word} the week of {full_day(landing.monday)}" for landing in self.landings
        )
        return f"{words} {listed}." if listed else words


def forecast_dots(forecast: ForecastDots) -> Svg:
    """Dots stacked over the weeks in which those futures end.

    Parameters
    ----------
    forecast : ForecastDots
        The futures. When they spread so far that dots of neighbouring weeks would touch, a
        stack gathers two, three or more weeks.

    Returns
    -------
    drawing : Svg
        Made for a phone; needs no definitions.
    """
    axis = _axis(forecast)
    stacks = Counter(axis.stack(day) for day in forecast.futures)
    height = max(stacks.values()) * _PITCH
    top = 38.0 * len(forecast.landings) + 8
    floor = top + height + 10
    dots = [
        circle(axis.centre(stack), floor - _DOT - 2 - _PITCH * level, _DOT, "f-ink")
        for stack, count in sorted(stacks.items())
        for level in range(count)
    ]
    return picture(
        _WIDTH,
        floor + 40,
        forecast.sentence,
        *dots,
        path(f"M0 {floor:g}H{_WIDTH:g}", "l"),
        _weeks(axis, floor),
        _landing_posts(forecast, axis, floor),
        class_="narrow",
    )


@dataclass(frozen=True, slots=True)
class _Axis:
    """The weeks along the bottom, gathered into stacks."""

    first: date
    gathered: int
    stacks: int
    px: float

    def stack(self, day: date) -> int:
        return (week_of(day) - self.first).days // 7 // self.gathered

    def centre(self, stack: int) -> float:
        return _LEFT + (stack + 0.5) * self.px

    def end_of(self, monday: date) -> float:
        """The right edge of a week: all of it counts."""
        weeks = (week_of(monday) - self.first).days // 7 + 1
        return _LEFT + weeks / self.gathered * self.px


def _axis(forecast: ForecastDots) -> _Axis:
    days = [*forecast.futures, *(landing.monday for landing in forecast.landings)]
    days += forecast.reach
    first = week_of(min(days)) - timedelta(days=7)
    weeks = (week_of(max(days)) - first).days // 7 + 2
    most = int(_ROOM // _PITCH)
    gathered = max(1, -(-weeks // most))
    stacks = -(-weeks // gathered)
    return _Axis(first, gathered, stacks, min(_ROOM / stacks, 2 * _PITCH))


def _weeks(axis: _Axis, floor: float) -> Svg:
    """Mark every stack, and write as many dates as have room."""
    every = max(1, -(-int(text_width("30 Nov") + 34) // int(axis.px)))
    drawn = []
    for stack in range(axis.stacks):
        named = stack % every == every // 2
        x = axis.centre(stack)
        drawn.append(path(f"M{x:g} {floor:g}V{floor + (13 if named else 7):g}", "l-thin"))
        if named:
            day = axis.first + timedelta(days=7 * stack * axis.gathered)
            drawn.append(text(x, floor + 30, short_day(day), "t-soft", "middle"))
    return joined(*drawn)


def _landing_posts(forecast: ForecastDots, axis: _Axis, floor: float) -> Svg:
    """A post after each landing's week, each shorter than the one before."""
    drawn = []
    for index, landing in enumerate(forecast.landings):
        x = axis.end_of(landing.monday)
        y = 8 + 38.0 * index
        day = short_day(landing.monday)
        flip = x + 8 + text_width(day, 14.5) > _WIDTH
        anchor, at = ("end", x - 5) if flip else (None, x + 5)
        drawn.append(path(f"M{x:g} {y:g}V{floor:g}", "l"))
        drawn.append(text(at, y + 12, landing.word, "t-name halo", anchor))
        drawn.append(text(at, y + 29, day, "halo", anchor))
    return joined(*drawn)
