"""The stretch of work that is under way: when a job was begun, and the hours since."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Final

from bareshell.model import Build
from bareshell.model.job import JobEventKind, JobStatus

__all__ = ["begun_at", "stretch_hours"]

_LONGEST: Final = timedelta(hours=14)
"""Somebody who began longer ago than this forgot to stop."""


def begun_at(build: Build, job_id: str, now: datetime) -> datetime | None:
    """When the stretch of work on a job began that is still under way; None when there is none.

    A stretch ends with the next thing written down about the job. One that began longer ago
    than a long day was never stopped, and nobody knows its hours.

    Parameters
    ----------
    build : Build
        The build.
    job_id : str
        The job.
    now : datetime
        Aware.

    Examples
    --------
    >>> from datetime import UTC
    >>> begun_at(Build(), "no-such", datetime(2026, 3, 4, tzinfo=UTC)) is None
    True
    """
    record = build.jobs.get(job_id)
    if record is None or not record.events or record.state.status is not JobStatus.STARTED:
        return None
    last = record.events[-1]
    if last.kind is not JobEventKind.STARTED or not timedelta() <= now - last.at <= _LONGEST:
        return None
    return last.at


def stretch_hours(build: Build, job_id: str, now: datetime) -> float | None:
    """Return the hours to offer when a job is stopped: since it was begun, to five minutes.

    Parameters
    ----------
    build, job_id, now
        As for `begun_at`.

    Returns
    -------
    float or None
        None when no stretch is under way. [h]
    """
    begun = begun_at(build, job_id, now)
    if begun is None:
        return None
    return round(round((now - begun) / timedelta(minutes=5)) / 12, 2)
