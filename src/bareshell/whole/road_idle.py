"""Weeks in which the plan has nothing to do, and what the next work waits for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from bareshell.whole.road_parts import RoadSession

__all__ = ["idle_words"]

LEAST_DAYS = 21
"""A shorter stretch without work is told by its empty sessions alone. [days]"""

MOST = 3
"""So many stretches are told, the longest first."""


def idle_words(sessions: Sequence[RoadSession]) -> tuple[str, ...]:
    """Say in which weeks every session stays empty although work is left, and why.

    Parameters
    ----------
    sessions : sequence of RoadSession
        Every session to the road, in order; on the owner's clock.

    Returns
    -------
    tuple of str
        A sentence or two each, in the order of the calendar.
    """
    found = [
        (empty[0].starts_at.date(), empty[-1].starts_at.date(), len(empty), why)
        for empty, after in _runs(sessions)
        # Where nothing kept it the work could have been done: then nothing is claimed.
        if (why := next((job.why for job in after.jobs if job.why), ""))
    ]
    long = [one for one in found if (one[1] - one[0]).days >= LEAST_DAYS]
    longest = sorted(long, key=lambda one: one[0] - one[1])[:MOST]
    return tuple(_words(*one) for one in sorted(longest, key=lambda one: one[0]))


def _runs(
    sessions: Sequence[RoadSession],
) -> Iterable[tuple[list[RoadSession], RoadSession]]:
    """Each run of empty sessions, with the session that has work again."""
    empty: list[RoadSession] = []
    for session in sessions:
        if session.jobs:
            if empty:
                yield empty, session
            empty = []
        else:
            empty.append(session)


def _words(first: date, last: date, count: int, why: str) -> str:
    year = f" {first.year}" if first.year != last.year else ""
    return (
        f"From {first.day} {first:%B}{year} to {last.day} {last:%B %Y} nothing can be done in "
        f"{count} sessions. {why}"
    )
