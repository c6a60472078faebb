"""What the record says of the sessions that were to be: held, lost, and without their helper."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import date, datetime, time, timedelta

from bareshell.model import Build
from bareshell.model.job import JobEventKind
from bareshell.plan.attendance import Attended
from bareshell.whole.garage_time import monday_of, sessions_between, zone_of

_WORK = frozenset({JobEventKind.WORKED, JobEventKind.FINISHED})
_WEEK = timedelta(days=7)


def attended(build: Build, now: datetime) -> Attended:
    """Count what became of the garage's usual sessions, week by week.

    Weeks are compared as wholes, so that a session held on another day is not lost. Counted are
    whole weeks from the first to the last in which anything was written down as done: silence
    since then says nothing.

    Parameters
    ----------
    build : Build
        The build with its patterns, held sessions and jobs.
    now : datetime
        Aware.

    Examples
    --------
    >>> from datetime import UTC
    >>> attended(Build(), datetime(2031, 3, 4, tzinfo=UTC)).weeks
    0
    """
    held = _days_worked(build)
    today = now.astimezone(zone_of(build)).date()
    weeks = sorted({monday_of(day) for day in held if monday_of(day) < monday_of(today)})
    if not weeks:
        return Attended()
    planned = _planned_days(build, weeks[0], weeks[-1] + _WEEK)
    expected = Counter(monday_of(day) for day in planned)
    worked = Counter(monday_of(day) for day in held)
    lost_weeks = sum(1 for monday in expected if not worked[monday])
    others = [monday for monday in expected if worked[monday]]
    helped = [s for day, s in _held_on(build) if planned.get(day, 1) > 1 and day < today]
    return Attended(
        len(expected),
        lost_weeks,
        sum(expected[monday] for monday in others),
        sum(max(0, expected[monday] - worked[monday]) for monday in others),
        len(helped),
        sum(people < 2 for people in helped),
    )


def _held_on(build: Build) -> list[tuple[date, int]]:
    zone = zone_of(build)
    return [(one.started_at.astimezone(zone).date(), one.people) for one in build.sessions.values()]


def _days_worked(build: Build) -> set[date]:
    """List the days on which there was a session, or hours were told of."""
    zone = zone_of(build)
    days = {day for day, _ in _held_on(build)}
    for record in build.jobs.values():
        days |= {
            event.at.astimezone(zone).date()
            for event in record.events
            if event.kind in _WORK and event.hours
        }
    return days


def _planned_days(build: Build, first: date, end: date) -> dict[date, int]:
    """Write out the usual sessions of the past, whatever became of them: day to people."""
    zone = zone_of(build)
    start = datetime.combine(first, time(), zone)
    usual = replace(build, exceptions={})
    slots = sessions_between(usual, start, datetime.combine(end, time(), zone))
    days: dict[date, int] = {}
    for slot in slots:
        day = (start + timedelta(minutes=slot.start_minute)).date()
        days[day] = max(slot.people, days.get(day, 1))
    return days
