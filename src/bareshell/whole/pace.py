"""How this owner's hours run against the estimates, read off the finished jobs."""

from __future__ import annotations

from datetime import UTC, datetime
from math import log

from bareshell.model import Build
from bareshell.model.job import Job, JobStatus
from bareshell.plan.hours import TENTH_QUANTILE
from bareshell.plan.pace_model import Finished, PaceBelief, learn_pace

_LONG_AGO = datetime(1, 1, 1, tzinfo=UTC)


def pace_belief(build: Build) -> PaceBelief:
    """Return what the finished jobs tell of the owner's pace.

    Examples
    --------
    >>> pace_belief(Build()).common.sentence
    'Hours are planned as estimated, 0.7 to 1.5 times, until jobs are finished.'
    """
    return learn_pace(finished_jobs(build))


def finished_jobs(build: Build) -> tuple[Finished, ...]:
    """List the jobs that were estimated, done and timed, in the order they were finished.

    A job that was done before the record, or finished with no hours told, says nothing of the
    pace.
    """
    timed = [
        record
        for record in build.jobs.values()
        if record.state.status is JobStatus.DONE and record.state.hours_done > 0
    ]
    timed.sort(key=lambda record: (record.state.finished_at or _LONG_AGO, record.job.id))
    return tuple(_finished(record.job, record.state.hours_done) for record in timed)


def _finished(job: Job, hours: float) -> Finished:
    three = job.ways[0].hours
    low, likely, high = (
        max(1.0, value * 60)
        for value in (three.optimistic_hours, three.likely_hours, three.pessimistic_hours)
    )
    return Finished(
        job.id,
        job.title,
        job.system,
        likely,
        max(1.0, hours * 60),
        log(likely / low) / TENTH_QUANTILE,
        log(high / likely) / TENTH_QUANTILE,
    )
