"""What is off the car or out of it now, and what of it a job can count on."""

from __future__ import annotations

from datetime import UTC, datetime

from bareshell.model import Build
from bareshell.model.job import Job

__all__ = ["body_now", "can_be_off", "necessary"]

_LONG_AGO = datetime.min.replace(tzinfo=UTC)


def body_now(build: Build) -> frozenset[str]:
    """Return what is off or out: as it was last written down, and as jobs done since left it.

    Parameters
    ----------
    build : Build
        The build.

    Examples
    --------
    >>> body_now(Build())
    frozenset()
    """
    said = build.placements[-1] if build.placements else None
    off = set(said[2].off) if said else set()
    since = said[0] if said else _LONG_AGO
    done = [
        (record.state.finished_at, key)
        for key, record in build.jobs.items()
        if record.state.is_done and record.state.finished_at and record.state.finished_at > since
    ]
    for _, key in sorted(done):
        job = build.jobs[key].job
        off = (off | job.takes_off) - job.puts_back
    return frozenset(off)


def can_be_off(build: Build) -> frozenset[str]:
    """Return what is off now, or will be once some open job is done."""
    found = set(body_now(build))
    for record in build.jobs.values():
        if record.state.is_open:
            found |= record.job.takes_off
    return frozenset(found)


def necessary(job: Job, can_be: frozenset[str]) -> frozenset[str]:
    """Return what must be off for a job and can be; a wish is none, and what nobody does is none.

    Parameters
    ----------
    job : Job
        The job.
    can_be : frozenset of str
        As `can_be_off` has it.
    """
    return job.off & can_be if job.off_is_necessary else frozenset()
