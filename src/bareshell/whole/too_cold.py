"""Work that wants more warmth than any session is expected to have: planned as if heated for.

A garage without heating in a cool country never reaches what some glues and cures want. Nobody
leaves a headlining out for that: a heater is borrowed for a day. So that there is a road to look
at, such work is put into the warmest sessions there are, and said to be.
"""

from __future__ import annotations

from dataclasses import replace

from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.validate import validate

__all__ = ["as_if_heated"]

WARMEST_HEATED_C = 25.0
"""Warmer than this no garage is taken to be heated for a job (our own choice). [degC]"""

_RULES = frozenset({"temperature", "helper"})
"""What planning calls it when no session is warm enough, or none with the helper."""


def as_if_heated(problem: PlanProblem) -> tuple[PlanProblem, tuple[str, ...]]:
    """Plan what no session is warm enough for in the warmest ones, and say so.

    Parameters
    ----------
    problem : PlanProblem
        As it is asked.

    Returns
    -------
    PlanProblem
        With those jobs content with the warmest sessions; the same one when there are none.
    tuple of str
        What was taken for granted, in a sentence or none.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),), min_temperature_c=18)
    >>> cool = SessionSource.repeating([SessionSlot(60, 150, temperature_c=15.0)])
    >>> asked = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), cool)
    >>> planned, said = as_if_heated(asked)
    >>> planned.jobs[0].min_temperature_c, said[0][:59]
    (15.0, "No session is expected to be warm enough for 'Wax' (18 °C);")
    """
    warmest = _warmest(problem)
    if all(_met(job, warmest) for job in problem.jobs):
        return problem, ()
    cold = {
        job
        for snag in validate(problem)
        if snag.effect == "set aside" and snag.rule in _RULES
        for job in snag.job_ids
    }
    lent: list[PlanJob] = []
    jobs = []
    for job in problem.jobs:
        reach = _reach(job, warmest)
        if job.id in cold and _could_be_heated(job) and reach is not None:
            lent.append(job)
            least = min(job.min_temperature_c or reach, reach)
            jobs.append(replace(job, min_temperature_c=least, cure_minutes=0))
        else:
            jobs.append(job)
    if not lent:
        return problem, ()
    return replace(problem, jobs=tuple(jobs)), (_words(lent),)


def _met(job: PlanJob, warmest: tuple[SessionSlot, ...]) -> bool:
    """Whether nothing needs to be looked at: no warmth is wanted that could be missing."""
    if job.min_temperature_c is None or not warmest:
        return True
    reach = _reach(job, warmest)
    return reach is not None and not job.cure_minutes and job.min_temperature_c <= reach


def _could_be_heated(job: PlanJob) -> bool:
    return job.min_temperature_c is not None and job.min_temperature_c <= WARMEST_HEATED_C


def _warmest(problem: PlanProblem) -> tuple[SessionSlot, ...]:
    """The sessions that come again and whose warmth is known, the warmest first."""
    again = problem.sessions.template or problem.sessions.slots  # what ends is taken to go on
    known = [slot for slot in again if slot.temperature_c is not None]
    return tuple(sorted(known, key=lambda slot: -(slot.temperature_c or 0.0)))


def _reach(job: PlanJob, warmest: tuple[SessionSlot, ...]) -> float | None:
    """The warmth of the warmest session that has the people for it. [degC]."""
    least = min(way.people for way in job.ways)
    return next((slot.temperature_c for slot in warmest if slot.people >= least), None)


def _words(jobs: list[PlanJob]) -> str:
    named = [f"'{job.title}' ({job.min_temperature_c:g} °C{_through(job)})" for job in jobs]
    shown = " and ".join(named) if len(named) < 3 else f"{', '.join(named[:-1])} and {named[-1]}"
    one = len(named) == 1
    return (
        f"No session is expected to be warm enough for {shown}; "
        f"{'it is' if one else 'they are'} planned for the warmest there are, as if the garage was "
        f"heated for {'it' if one else 'them'}. Heat it on the day, or use a product that cures "
        "colder."
    )


def _through(job: PlanJob) -> str:
    return f", {job.cure_minutes / 60:g} h long after it" if job.cure_minutes else ""
