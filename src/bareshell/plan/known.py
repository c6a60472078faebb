"""What a problem says to every walk through it, worked out once and walked through many times."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bareshell.plan.hours import planned_minutes, total_minutes
from bareshell.plan.network import Edge, network
from bareshell.plan.problem import PlanProblem
from bareshell.plan.supports import ChangeTimes, change_times, tight_jobs

__all__ = ["Known", "known"]


@dataclass(frozen=True, slots=True)
class Known:
    """A problem read through, for the walk told in plain words.

    Parameters
    ----------
    totals, plans : tuple of mapping of int to int
        For each job, people to minutes: of the whole of it, and of what is left. [min]
    times : ChangeTimes
        How long it takes to move the car.
    tight : frozenset of int
        The jobs that fit no session in which the car has to be moved first.
    part_at : mapping of str to int
        Where each part stands.
    after : tuple of tuple of Edge
        What comes after each job and each gate.
    before : tuple of int
        How much comes before each of them.
    """

    totals: tuple[Mapping[int, int], ...]
    plans: tuple[Mapping[int, int], ...]
    times: ChangeTimes
    tight: frozenset[int]
    part_at: Mapping[str, int]
    after: tuple[tuple[Edge, ...], ...]
    before: tuple[int, ...]


def known(problem: PlanProblem) -> Known:
    """Read a problem through.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> read = known(PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings))
    >>> read.plans, read.before
    (({1: 60},), (0,))
    """
    graph = network(problem)
    return Known(
        tuple(total_minutes(problem, job) for job in problem.jobs),
        tuple(planned_minutes(problem, job) for job in problem.jobs),
        change_times(problem),
        tight_jobs(problem),
        {arrival.id: index for index, arrival in enumerate(problem.arrivals)},
        tuple(tuple(edges) for edges in graph.leading_out()),
        tuple(len(edges) for edges in graph.leading_in()),
    )
