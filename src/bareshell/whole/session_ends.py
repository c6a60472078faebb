"""What each session loses at both ends, learned from the sessions that were held.

Setting up lasts from the start of a session until work is begun, clearing up from the last work
until its end. Only what was told as it happened shows either: what was written down afterwards, all
at one moment, says nothing of them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from bareshell.model import Build
from bareshell.model.job import JobEvent, JobEventKind

__all__ = ["SessionEnds", "session_ends"]

SESSIONS_TO_BELIEVE = 4.0
"""The garage's own figures weigh as much as so many sessions (our own choice). [-]"""

LONGEST_MINUTES = 90.0
"""A longer gap was something else: tea, a delivery, a telephone. [min]"""

_WORK = frozenset({JobEventKind.WORKED, JobEventKind.FINISHED})


@dataclass(frozen=True, slots=True)
class SessionEnds:
    """What each session loses at both ends.

    Parameters
    ----------
    set_up_minutes, clear_up_minutes : int
        As they are believed to be. [min]
    set_up_seen, clear_up_seen : int
        In how many sessions each could be seen.
    """

    set_up_minutes: int
    clear_up_minutes: int
    set_up_seen: int = 0
    clear_up_seen: int = 0


def session_ends(build: Build) -> SessionEnds:
    """Return what a session is believed to lose at both ends.

    Parameters
    ----------
    build : Build
        The build with its garage, its held sessions and what was done in its jobs.

    Examples
    --------
    >>> session_ends(Build())
    SessionEnds(set_up_minutes=15, clear_up_minutes=15, set_up_seen=0, clear_up_seen=0)
    """
    events = sorted(event for record in build.jobs.values() for event in record.events)
    before: list[float] = []
    after: list[float] = []
    for held in build.sessions.values():
        mine = [event for event in events if held.started_at <= event.at <= held.ended_at]
        before += _between(held.started_at, min(_begins(mine), default=None))
        after += _between(max(_ends(mine), default=None), held.ended_at)
    garage = build.garage
    return SessionEnds(
        _believed(garage.set_up_minutes, before),
        _believed(garage.clear_up_minutes, after),
        len(before),
        len(after),
    )


def _begins(events: list[JobEvent]) -> Iterator[datetime]:
    """Yield when work was begun, said so or reckoned back from its hours."""
    for event in events:
        if event.kind is JobEventKind.STARTED:
            yield event.at
        elif event.kind in _WORK and event.hours:
            yield event.at - timedelta(hours=event.hours)


def _ends(events: list[JobEvent]) -> Iterator[datetime]:
    return (event.at for event in events if event.kind in _WORK)


def _between(earlier: datetime | None, later: datetime | None) -> list[float]:
    """Give the gap in minutes, if it tells anything: nothing is done in no time."""
    if earlier is None or later is None:
        return []
    minutes = (later - earlier).total_seconds() / 60
    return [minutes] if 1.0 <= minutes <= LONGEST_MINUTES else []


def _believed(minutes: int, seen: list[float]) -> int:
    """Weigh the garage's own figure with what was seen, the one or two odd ones cut to the rest."""
    if not seen:
        return minutes
    middle = sorted(seen)[len(seen) // 2]
    fair = [min(gap, 2 * middle) for gap in seen]
    return round((SESSIONS_TO_BELIEVE * minutes + sum(fair)) / (SESSIONS_TO_BELIEVE + len(fair)))
