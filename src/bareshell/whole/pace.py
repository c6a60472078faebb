"""How this owner's hours run against the estimates, learned from finished jobs."""

from __future__ import annotations

from math import exp, log

from bareshell.model import Build
from bareshell.model.job import JobStatus
from bareshell.plan.problem import Pace

PRIOR_JOBS = 4.0
"""The estimates weigh as much as so many finished jobs (our own choice: shrinks a pace that
rests on one or two jobs towards the common one)."""


def paces_of(build: Build) -> tuple[Pace, ...]:
    """Return the common pace and the pace of each system.

    The mean logarithm of hours taken over hours estimated, drawn towards 1 for the common
    pace and towards the common pace for a system.

    Examples
    --------
    >>> paces_of(Build())
    (Pace(system='', factor=1.0),)
    """
    logs: dict[str, list[float]] = {}
    for record in build.jobs.values():
        estimate = record.job.ways[0].hours.likely_hours
        if record.state.status is JobStatus.DONE and record.state.hours_done > 0 and estimate > 0:
            ratio = log(record.state.hours_done / estimate)
            logs.setdefault(record.job.system, []).append(max(-1.5, min(1.5, ratio)))
    everything = [ratio for ratios in logs.values() for ratio in ratios]
    common = sum(everything) / (len(everything) + PRIOR_JOBS)
    paces = [Pace("", _rounded(common))]
    for system, ratios in logs.items():
        mean = (sum(ratios) + PRIOR_JOBS * common) / (len(ratios) + PRIOR_JOBS)
        paces.append(Pace(system, _rounded(mean)))
    return tuple(paces)


def _rounded(mean: float) -> float:
    return round(exp(mean), 3)
