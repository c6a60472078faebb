"""Work that waits for the season: which jobs the cold keeps, until when, and when they are planned.

A job that wants warmth, while it is worked on or through its cure, has a time of year in an
unheated garage. It is no rule of its own: the plan keeps the temperatures session by session, and
this only reads off what that comes to.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bareshell.plan.arrays import cold_stretch_thousandths
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.schedule import Schedule
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.supports import warm_enough

__all__ = ["Season", "seasons"]

LOOKED_AHEAD = 400
"""In so many sessions to come the first warm one is looked for: a year and more of evenings."""


@dataclass(frozen=True, slots=True)
class Season:
    """A job that the cold keeps from the next session.

    Parameters
    ----------
    job_id, title : str
        The job.
    least_c : float
        What it wants. [degC]
    cure_minutes : int
        For how long after it; 0 while it is worked on only. [min]
    people : int
        The fewest it takes.
    opens_minute : int, optional
        When the first session begins that is expected to be warm enough and has the people;
        None when none is. [minutes from the origin]
    closes_minute : int, optional
        When the first session after that begins which is too cold again. [minutes from the
        origin]
    planned_minute : int, optional
        When the plan begins with it. [minutes from the origin]
    """

    job_id: str
    title: str
    least_c: float
    cure_minutes: int
    people: int
    opens_minute: int | None
    closes_minute: int | None
    planned_minute: int | None


def seasons(problem: PlanProblem, schedule: Schedule) -> tuple[Season, ...]:
    """List the jobs that the next session is too cold for, by when they are planned.

    Parameters
    ----------
    problem : PlanProblem
        What was planned.
    schedule : Schedule
        The plan.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.jobs import Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),), min_temperature_c=12)
    >>> slots = [SessionSlot(60, 150, temperature_c=5), SessionSlot(9_000, 150, temperature_c=14)]
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), SessionSource(tuple(slots)))
    >>> [season.opens_minute for season in seasons(plan, Schedule())]
    [9000]
    """
    slots = problem.sessions.first(LOOKED_AHEAD)
    begins: dict[str, int] = {}
    for block in schedule.blocks:
        if block.kind == "work" and block.job_id:
            begins.setdefault(block.job_id, block.start_minute)
    found = []
    for job in problem.jobs:
        if job.min_temperature_c is None or not slots or _suits(slots, 0, job):
            continue
        people = min(way.people for way in job.ways)
        open_at = _next(slots, 0, job, people, warm=True)
        shut_at = None if open_at is None else _next(slots, open_at, job, 1, warm=False)
        found.append(
            Season(
                job.id,
                job.title,
                job.min_temperature_c,
                job.cure_minutes,
                people,
                None if open_at is None else slots[open_at].start_minute,
                None if shut_at is None else slots[shut_at].start_minute,
                begins.get(job.id),
            )
        )
    return tuple(sorted(found, key=_when))


def _when(season: Season) -> tuple[bool, int, str]:
    at = season.planned_minute
    return at is None, at or 0, season.job_id


def _next(
    slots: Sequence[SessionSlot], start: int, job: PlanJob, people: int, *, warm: bool
) -> int | None:
    suited = (
        at
        for at in range(start, len(slots))
        if slots[at].people >= people and _suits(slots, at, job) is warm
    )
    return next(suited, None)


def _suits(slots: Sequence[SessionSlot], at: int, job: PlanJob) -> bool:
    """Whether a job finished at the end of a session keeps its warmth, through its cure too."""
    slot = slots[at]
    if not warm_enough(slot.temperature_c, job.min_temperature_c):
        return False
    cure = job.cure_minutes
    for later in slots[at:]:
        if not cure or later.start_minute >= slot.end_minute + cure:
            break
        if not warm_enough(later.coldest_c, job.min_temperature_c):
            return False
        if job.cure_stretches:
            stretched = job.cure_minutes * cold_stretch_thousandths(later) // 1000
            cure = max(cure, stretched)
    return True
