"""The forecasts that were kept, side by side: whether the date drifts, and whether it narrows."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from typing import Final

from bareshell.draw.days import full_day, month, short_day
from bareshell.draw.measure import text_width
from bareshell.draw.svg import Svg, circle, joined, path, picture, text

_WIDTH: Final = 380.0
_LEFT: Final = 76.0  # room for a month and its year
_RIGHT: Final = 366.0
_TOP: Final = 20.0
_TALL: Final = 210.0
_LINES: Final = 5  # at most so many months are written along the side
_CAP: Final = 5.0  # half the width of the cap at the far end
_POST: Final = 7.0


@dataclass(frozen=True, slots=True)
class FanIssue:
    """One forecast: the day it was said, and the days it named.

    Raises
    ------
    ValueError
        When the days named are not in order.
    """

    day: date
    p50: date
    p80: date
    p95: date

    def __post_init__(self) -> None:
        """Half, eight in ten and nineteen in twenty rise."""
        if not self.p50 <= self.p80 <= self.p95:
            raise ValueError(
                f"A forecast rises; this one says {self.p50}, {self.p80} and {self.p95}."
            )


@dataclass(frozen=True, slots=True)
class Fan:
    """Forecasts in the order they were said, and the day that came, once it has.

    Raises
    ------
    ValueError
        When there is none to draw.
    """

    issues: tuple[FanIssue, ...]
    reached: date | None = None

    def __post_init__(self) -> None:
        """There is nothing to draw without a forecast."""
        if not self.issues:
            raise ValueError("A fan needs at least one forecast to draw.")

    @property
    def sentence(self) -> str:
        """What the fan shows, for those who cannot see it."""
        first, last = self.issues[0], self.issues[-1]
        told = (
            f"Said on {full_day(last.day)}: on the road by {full_day(last.p50)} in half of "
            f"futures, by {full_day(last.p80)} in eight of ten, by {full_day(last.p95)} in "
            "nineteen of twenty."
        )
        if len(self.issues) > 1:
            told = (
                f"{len(self.issues)} forecasts. Said on {full_day(first.day)}: by "
                f"{full_day(first.p50)} in half of futures. {told}"
            )
        if self.reached is None:
            return told
        return f"{told} It came on {full_day(self.reached)}."


def fan(shown: Fan) -> Svg:
    """Each forecast as a post from half to nineteen in twenty, thick up to eight in ten.

    Parameters
    ----------
    shown : Fan
        The forecasts. Time goes to the right for the day they were said, upwards for the days
        they named.

    Returns
    -------
    drawing : Svg
        Made for a phone; needs no definitions.
    """
    axis = _axis(shown)
    floor = _TOP + _TALL
    middles = [(axis.x(one.day), axis.y(one.p50)) for one in shown.issues]
    line = joined(*(path(f"M{a:g} {b:g}L{c:g} {d:g}", "l l-2") for (a, b), (c, d)
                    in pairwise(middles)))  # fmt: skip
    came = Svg()
    if shown.reached is not None:
        y = axis.y(shown.reached)
        came = joined(
            path(f"M{_LEFT:g} {y:g}H{_RIGHT:g}", "l l-dash"),
            text(_RIGHT, y - 6, f"came {short_day(shown.reached)}", "t-name halo", "end"),
        )
    return picture(
        _WIDTH,
        floor + 38,
        shown.sentence,
        _months(axis),
        path(f"M{_LEFT:g} {floor:g}H{_RIGHT + 6:g}", "l"),
        *(_post(axis, one) for one in shown.issues),
        line,
        came,
        _days(axis, shown, floor),
        class_="narrow",
    )


@dataclass(frozen=True, slots=True)
class _Axis:
    """The days along the bottom and up the side."""

    first: date
    days: int
    low: date
    high: date

    def x(self, day: date) -> float:
        room = _RIGHT - _LEFT - 2 * _POST
        return _LEFT + _POST + room * ((day - self.first).days / self.days if self.days else 1.0)

    def y(self, day: date) -> float:
        share = (day - self.low).days / (self.high - self.low).days
        return _TOP + _TALL * (1 - share)


def _axis(shown: Fan) -> _Axis:
    said = [one.day for one in shown.issues]
    named = [day for one in shown.issues for day in (one.p50, one.p95)]
    if shown.reached is not None:
        named.append(shown.reached)
    margin = timedelta(days=max(7, (max(named) - min(named)).days // 12))
    return _Axis(said[0], (said[-1] - said[0]).days, min(named) - margin, max(named) + margin)


def _post(axis: _Axis, one: FanIssue) -> Svg:
    x = axis.x(one.day)
    half, eight, most = axis.y(one.p50), axis.y(one.p80), axis.y(one.p95)
    return joined(
        path(f"M{x:g} {eight:g}V{most:g}", "l"),
        path(f"M{x - _CAP:g} {most:g}H{x + _CAP:g}", "l"),
        path(f"M{x:g} {half:g}V{eight:g}", "l-thick"),
        path(f"M{x - _POST:g} {eight:g}H{x + _POST:g}", "l-thick"),
        circle(x, half, 5, "f-ink"),
    )


def _months(axis: _Axis) -> Svg:
    """Lines at the first of months, as many as can be read."""
    firsts = []
    year, at = axis.low.year, axis.low.month
    while (day := date(year, at, 1)) <= axis.high:
        if day >= axis.low:
            firsts.append(day)
        year, at = (year, at + 1) if at < 12 else (year + 1, 1)
    step = next(k for k in (1, 2, 3, 6, 12, 24, 60, 240) if len(firsts) <= _LINES * k)
    kept = [day for day in firsts if (day.month - 1 + 12 * day.year) % step == 0] or firsts[:1]
    return joined(
        *(
            joined(
                path(f"M{_LEFT:g} {axis.y(day):g}H{_RIGHT + 6:g}", "l-rule"),
                text(_LEFT - 8, axis.y(day) + 5, f"{month(day)} {day.year}", "t-soft", "end"),
            )
            for day in kept
        )
    )


def _days(axis: _Axis, shown: Fan, floor: float) -> Svg:
    """Write the day of the first and of the last forecast, and of those between with room."""
    drawn: list[Svg] = []
    last = shown.issues[-1].day
    end = axis.x(last) - text_width(short_day(last), 14.5) - 16
    written = -1.0
    for one in shown.issues:
        x, words = axis.x(one.day), short_day(one.day)
        drawn.append(path(f"M{x:g} {floor:g}V{floor + 7:g}", "l-thin"))
        half = text_width(words, 14.5) / 2
        final = one is shown.issues[-1]
        if final:
            drawn.append(text(min(_WIDTH - 2, x + half), floor + 26, words, "t-soft", "end"))
        elif x - half > written and x + half < end:
            drawn.append(text(x, floor + 26, words, "t-soft", "middle"))
            written = x + half + 12
    return joined(*drawn)
