"""When the plan wants each part: the day its job begins, or the day it would end."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from bareshell.model import Build
from bareshell.model.part import NeededTo
from bareshell.plan.problem import PlanProblem
from bareshell.plan.schedule import Schedule
from bareshell.whole.garage_time import zone_of
from bareshell.whole.road_parts import RoadOverview

__all__ = ["WantedDays", "wanted_days", "wanted_in"]


@dataclass(frozen=True, slots=True)
class WantedDays:
    """The plan's days, by job and by need.

    Parameters
    ----------
    begins, ends : mapping of str to date
        For each job in the plan, the days of its first and last session.
    needs : mapping of str to date
        For each need of such a job, the day it is wanted.
    gates : mapping of str to date
        The day on which the plan comes to each gate.
    """

    begins: Mapping[str, date]
    ends: Mapping[str, date]
    needs: Mapping[str, date]
    gates: Mapping[str, date]


def wanted_days(build: Build, road: RoadOverview) -> WantedDays:
    """Read off the road ahead when each part is wanted.

    Parameters
    ----------
    build : Build
        The build that the road was planned for.
    road : RoadOverview
        Every session to the road.
    """
    zone = zone_of(build)
    begins: dict[str, date] = {}
    ends: dict[str, date] = {}
    for session in road.sessions:
        for job in session.jobs:
            day = job.starts_at.astimezone(zone).date()
            begins.setdefault(job.id, day)
            ends[job.id] = day
    return WantedDays(
        begins, ends, _needs(build, begins, ends), {gate.id: gate.day for gate in road.gates}
    )


def wanted_in(build: Build, problem: PlanProblem, schedule: Schedule) -> WantedDays:
    """Read off a bare schedule when each part is wanted; it says no days of gates.

    Parameters
    ----------
    build : Build
        The build that was planned.
    problem : PlanProblem
        What was planned.
    schedule : Schedule
        Every move of it.
    """
    zone = zone_of(build)
    begins: dict[str, date] = {}
    ends: dict[str, date] = {}
    for block in schedule.blocks:
        if block.kind == "work" and block.job_id:
            day = problem.when(block.start_minute).astimezone(zone).date()
            begins.setdefault(block.job_id, day)
            ends[block.job_id] = day
    return WantedDays(begins, ends, _needs(build, begins, ends), {})


def _needs(build: Build, begins: Mapping[str, date], ends: Mapping[str, date]) -> dict[str, date]:
    return {
        key: (begins if need.needed_to is NeededTo.START else ends)[need.job]
        for key, need in build.needs.items()
        if need.job in begins
    }
