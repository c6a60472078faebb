"""What an entry did to the next two weeks: since a forecast was kept, or since one last looked."""

from __future__ import annotations

from datetime import date, timedelta

from bareshell.model import Build
from bareshell.plan.changed import (
    WINDOW_DAYS,
    Changed,
    Intended,
    PlannedDay,
    changed_between,
    what_changed,
)
from bareshell.plan.problem import PlanProblem
from bareshell.plan.schedule import Schedule
from bareshell.whole.garage_time import zone_of
from bareshell.whole.issued import given_out
from bareshell.whole.road_parts import RoadJob, RoadOverview

__all__ = ["changed_since", "first_days", "moved_since"]


def changed_since(build: Build, problem: PlanProblem, schedule: Schedule) -> Changed | None:
    """Say what changed since a forecast was last kept, where its two weeks still run.

    Parameters
    ----------
    build : Build
        With the forecasts that were kept.
    problem : PlanProblem
        What was planned.
    schedule : Schedule
        The plan as it is now.
    """
    plan = given_out(build, problem.origin)
    if plan is None:
        return None
    planned = {one.job_id for one in plan.intended}
    # Proving that nobody wrote down as a job is gone once it is proved.
    proved = planned - build.jobs.keys() - {job.id for job in problem.jobs}
    titles = {key: record.job.title for key, record in build.jobs.items()}
    return what_changed(
        plan.intended, problem, schedule, plan.taken_up | proved, plan.until, titles
    )


def first_days(build: Build, road: RoadOverview) -> dict[str, tuple[date, RoadJob]]:
    """Return the day on which the plan begins with each job, and its first piece.

    Parameters
    ----------
    build : Build
        For the owner's days.
    road : RoadOverview
        Every session to the road.
    """
    zone = zone_of(build)
    found: dict[str, tuple[date, RoadJob]] = {}
    for session in road.sessions:
        for job in session.jobs:
            found.setdefault(job.id, (job.starts_at.astimezone(zone).date(), job))
    return found


def moved_since(build: Build, before: RoadOverview, now: RoadOverview) -> Changed:
    """Say what changed in the next two weeks between two readings of the road.

    Parameters
    ----------
    build : Build
        As it is now.
    before, now : RoadOverview
        The road as it was last looked at, and as it is.
    """
    zone = zone_of(build)
    last = before.made_at.astimezone(zone).date() + timedelta(days=WINDOW_DAYS - 1)
    was, is_now = first_days(build, before), first_days(build, now)
    titles = {key: job.title for key, (_, job) in (was | is_now).items()}
    earlier = [Intended(key, day) for key, (day, _) in was.items() if day <= last]
    done = {
        one.job_id
        for one in earlier
        if one.job_id not in is_now
        and (one.job_id not in build.jobs or build.jobs[one.job_id].state.is_done)
    }
    # What was begun meanwhile is where it was to be.
    done |= {key for key in was if key in build.jobs and _begun(build, key, before)}
    days = {key: PlannedDay(day, job.cause, job.why) for key, (day, job) in is_now.items()}
    today = now.made_at.astimezone(zone).date()
    return changed_between(earlier, days, titles, today, last, done)


def _begun(build: Build, job: str, before: RoadOverview) -> bool:
    started = build.jobs[job].state.started_at
    return started is not None and started >= before.made_at
