"""Lessons: what was learned on one side heads the ticket of the other."""

from __future__ import annotations

from bareshell.model import Build
from bareshell.model.note import Lesson


def ticket_lessons(build: Build, job_id: str) -> tuple[Lesson, ...]:
    """Return what heads a job's ticket: its twin's lessons first, then its own, oldest first.

    Two jobs are twins when either names the other.

    Parameters
    ----------
    build : Build
        The build.
    job_id : str
        The job whose ticket it is. One that the build does not have has no lessons.

    Examples
    --------
    >>> ticket_lessons(Build(), "hose-left")
    ()
    """
    record = build.jobs.get(job_id)
    named = {record.job.twin} if record is not None else set()
    twins = (named | {k for k, r in build.jobs.items() if r.job.twin == job_id}) - {job_id, None}
    listed = sorted(build.lessons.values(), key=lambda lesson: (lesson.at, lesson.id))
    return (
        *(lesson for lesson in listed if lesson.job in twins),
        *(lesson for lesson in listed if lesson.job == job_id),
    )
