"""When the plan wants each part: the day its job begins, or the day it would end."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from bareshell.model import Build
from bareshell.model.part import NeededTo
from bareshell.whole.garage_time import zone_of
from bareshell.whole.road_parts import RoadOverview

__all__ = ["WantedDays", "wanted_days"]


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
    needs = {
        key: (begins if need.needed_to is NeededTo.START else ends)[need.job]
        for key, need in build.needs.items()
        if need.job in begins
    }
    return WantedDays(begins, ends, needs, {gate.id: gate.day for gate in road.gates})
