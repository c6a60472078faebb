"""How long a job takes: what is planned, and how far the truth may lie from it.

The three hours of a way are read as these shares of all such jobs: one in ten is done sooner than
the optimistic, half are done sooner than the likely, nine in ten sooner than the pessimistic
(from memory: the usual reading where estimates are tested against what happened).
"""

from __future__ import annotations

from math import log

from bareshell.plan.problem import Pace, PlanJob, PlanProblem, Way

__all__ = ["least_left", "paced_minutes", "planned_minutes", "quickest", "spreads", "total_minutes"]

TENTH_QUANTILE = 1.2815515655446004
"""How many standard deviations the ninth tenth of a normal distribution lies above its middle."""


def quickest(job: PlanJob) -> dict[int, Way]:
    """Pick the quickest way for each number of people.

    Examples
    --------
    >>> bleed = PlanJob("b", "Bleed", "brakes", (Way(1, 60, 90, 150), Way(2, 40, 60, 90)))
    >>> {people: way.likely_minutes for people, way in quickest(bleed).items()}
    {1: 90, 2: 60}
    """
    out: dict[int, Way] = {}
    for way in job.ways:
        if way.people not in out or way.likely_minutes < out[way.people].likely_minutes:
            out[way.people] = way
    return out


def total_minutes(problem: PlanProblem, job: PlanJob) -> dict[int, int]:
    """Say how long the whole job is planned for, by people: likely hours at the owner's pace."""
    return paced_minutes(problem.paces, job)


def paced_minutes(paces: tuple[Pace, ...], job: PlanJob) -> dict[int, int]:
    """Say the same where only the paces are at hand.

    Examples
    --------
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 60, 90, 200),))
    >>> paced_minutes((Pace("", 1.2), Pace("underbody", 2.0)), wax)
    {1: 180}
    """
    known = {pace.system: pace.factor for pace in paces}
    factor = known.get(job.system, known.get("", 1.0))
    return {
        people: max(1, int(way.likely_minutes * factor + 0.5))
        for people, way in quickest(job).items()
    }


def least_left(total: int) -> int:
    """Say how much of a begun job is taken to be left, however long it has been worked on."""
    return -(-total // 10)


def planned_minutes(problem: PlanProblem, job: PlanJob) -> dict[int, int]:
    """Say how long a job is planned for, by people: likely hours at the owner's pace, less done.

    Parameters
    ----------
    problem : PlanProblem
        For the paces.
    job : PlanJob
        The job.

    Returns
    -------
    minutes : dict of int to int
        People to minutes left; the quickest way where several take as many people. [min]

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import Pace
    >>> from bareshell.plan.sessions import SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 60, 90, 200),), minutes_done=30)
    >>> origin = datetime(2031, 3, 4, tzinfo=UTC)
    >>> planned_minutes(PlanProblem(origin, (wax,), SessionSource(), paces=(Pace("", 1.2),)), wax)
    {1: 78}
    """
    return {
        people: max(total - job.minutes_done, least_left(total)) if job.minutes_done else total
        for people, total in total_minutes(problem, job).items()
    }


def spreads(job: PlanJob) -> tuple[float, float]:
    """Say how far the hours spread below and above the likely ones, as logarithms.

    Parameters
    ----------
    job : PlanJob
        Its first way counts.

    Returns
    -------
    below, above : float
        Standard deviations of the two halves of a log-normal distribution whose tenth, fiftieth
        and ninetieth hundredth are the three hours. [-]

    Examples
    --------
    >>> below, above = spreads(PlanJob("w", "Wax", "underbody", (Way(1, 60, 60, 120),)))
    >>> below, round(above, 3)
    (0.0, 0.541)
    """
    way = job.ways[0]
    return (
        log(way.likely_minutes / way.optimistic_minutes) / TENTH_QUANTILE,
        log(way.pessimistic_minutes / way.likely_minutes) / TENTH_QUANTILE,
    )
