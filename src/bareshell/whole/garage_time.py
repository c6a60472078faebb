"""The owner's garage time written out: sessions with people and expected temperature."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from math import ceil
from typing import Final
from zoneinfo import ZoneInfo

from bareshell.errors import BadInput
from bareshell.model import Build
from bareshell.model.session import HelperWork, SessionException, SessionPattern
from bareshell.plan.sessions import Beside, SessionSlot, SessionSource
from bareshell.whole.season import Season, season_of

_BESIDE: Final[dict[HelperWork, Beside]] = {
    HelperWork.NOTHING: "",
    HelperWork.MARKED: "marked",
    HelperWork.ANY: "any",
}

AFTER_THE_LAST = timedelta(days=3)
"""How long the last session that is written out is taken to be followed by none."""

WEEKS_WRITTEN_OUT = 54
"""A year and a little, so that every season is there once before the plan repeats it."""


def zone_of(build: Build) -> ZoneInfo:
    """Return the time zone that the owner's clock shows; UTC while there is no car yet."""
    return ZoneInfo(build.car.zone if build.car else "UTC")


def monday_of(day: date) -> date:
    """Return the Monday of a day's week.

    Examples
    --------
    >>> monday_of(date(2026, 11, 25))
    datetime.date(2026, 11, 23)
    """
    return day - timedelta(days=day.weekday())


def beside_of(helper: HelperWork) -> Beside:
    """Say to the plan what a helper may do alone.

    Examples
    --------
    >>> beside_of(HelperWork.MARKED)
    'marked'
    """
    return _BESIDE[helper]


def sessions_between(build: Build, start: datetime, end: datetime) -> tuple[SessionSlot, ...]:
    """Write out every session that ends after ``start`` and begins before ``end``.

    A day that an exception speaks of is as the exception says. Sessions of two patterns that
    meet on a day become one: the helper who comes every second Saturday joins that Saturday.

    Parameters
    ----------
    build : Build
        The build with its patterns and exceptions.
    start, end : datetime
        Aware; minutes are counted from ``start``.

    Raises
    ------
    BadInput
        When a pattern's rule cannot be read.
    """
    zone = zone_of(build)
    spans: list[tuple[datetime, datetime, int, str]] = []
    first, last = start.astimezone(zone).date(), end.astimezone(zone).date()
    changed = build.exceptions
    for pattern in build.patterns.values():
        for day in _days(pattern, first - timedelta(days=1), last):
            span = _on_day(pattern, day, changed.get(day), zone)
            if span is not None:
                spans.append(span)
    patterned = {span[0].astimezone(zone).date() for span in spans}
    for day, exception in changed.items():
        if exception.minutes and exception.starts and day not in patterned:
            begins = datetime.combine(day, exception.starts, zone).astimezone(UTC)
            ends = begins + timedelta(minutes=exception.minutes)
            spans.append((begins, ends, exception.people or 1, exception.words))
    kept = [s for s in _joined(sorted(spans)) if s[1] > start and s[0] < end]
    season = season_of(build, zone)
    following = [*(span[0] for span in kept[1:]), *(span[1] + AFTER_THE_LAST for span in kept[-1:])]
    return tuple(
        _slot(season, span, then, start, zone) for span, then in zip(kept, following, strict=True)
    )


def session_source(build: Build, now: datetime) -> SessionSource:
    """Write the owner's garage time out for a year and let it repeat from there.

    Where nothing that repeats goes on beyond that, neither does what is handed out: single days
    and evenings that end in spring are no promise of more, and the plan says what it makes of it.
    """
    end = now + timedelta(weeks=WEEKS_WRITTEN_OUT)
    slots = sessions_between(build, now, end)
    last = end.astimezone(zone_of(build)).date()
    year = last + timedelta(weeks=52)
    goes_on = any(any(_days(pattern, last, year)) for pattern in build.patterns.values())
    return SessionSource.repeating(slots) if goes_on else SessionSource(slots)


def _days(pattern: SessionPattern, first: date, last: date) -> Iterator[date]:
    from dateutil.rrule import rrulestr

    anchor = datetime.combine(pattern.first_day, time())
    try:
        rule = rrulestr(pattern.rule, dtstart=anchor)
    except (ValueError, TypeError) as error:
        raise BadInput(
            f"session '{pattern.title}', rule",
            f"'{pattern.rule}' cannot be read ({error})",
            "write it as a recurrence rule such as FREQ=WEEKLY;BYDAY=MO,WE",
        ) from error
    found = rule.between(datetime.combine(first, time()), datetime.combine(last, time()), inc=True)
    return (moment.date() for moment in found)


def _on_day(
    pattern: SessionPattern, day: date, exception: SessionException | None, zone: ZoneInfo
) -> tuple[datetime, datetime, int, str] | None:
    minutes, people, starts = pattern.minutes, pattern.people, pattern.starts
    if exception is not None:
        minutes = exception.minutes
        people = exception.people or people
        starts = exception.starts or starts
    if not minutes:
        return None
    # Local clock time becomes UTC before anything is added: an evening lasts as long as it
    # lasts also on the night the clocks change.
    begins = datetime.combine(day, starts, zone).astimezone(UTC)
    return begins, begins + timedelta(minutes=minutes), people, pattern.title


def _joined(
    spans: list[tuple[datetime, datetime, int, str]],
) -> list[tuple[datetime, datetime, int, str]]:
    merged: list[tuple[datetime, datetime, int, str]] = []
    for span in spans:
        if merged and span[0] < merged[-1][1]:
            old = merged[-1]
            merged[-1] = (old[0], max(old[1], span[1]), max(old[2], span[2]), old[3])
        else:
            merged.append(span)
    return merged


def _slot(
    season: Season,
    span: tuple[datetime, datetime, int, str],
    following: datetime,
    origin: datetime,
    zone: ZoneInfo,
) -> SessionSlot:
    begins, ends, people, title = span
    # Upwards, so that a clock read in the middle of a minute never makes 18:59 of 19:00.
    start = ceil((begins - origin).total_seconds() / 60)
    length = round((ends - begins).total_seconds() / 60)
    if start < 0:  # it has begun: only what is left of it counts
        length, start = length + start, 0
    garage, day = season.garage, begins.astimezone(zone).date()
    return SessionSlot(
        start_minute=start,
        minutes=max(length, 1),
        people=people,
        temperature_c=season.working_c(day),
        lowest_until_next_c=season.lowest_c(day, following.astimezone(zone).date()),
        kind=title,
        beside=beside_of(garage.helper),
    )
