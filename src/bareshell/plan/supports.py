"""How long it takes to put the car from one support onto another, by the shortest way there is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from bareshell.plan.hours import planned_minutes
from bareshell.plan.problem import Change, PlanProblem

__all__ = ["NO_WAY", "ChangeTimes", "change_times", "tight_jobs"]

NO_WAY = -1
"""Stands for "cannot be done" in a table of minutes."""


@dataclass(frozen=True, slots=True)
class ChangeTimes:
    """Minutes from each support to each other one.

    Parameters
    ----------
    names : tuple of str
        The supports, in the order of the tables.
    alone, helped : tuple of tuple of int
        Minutes without and with the helper; `NO_WAY` when it cannot be done. [min]
    """

    names: tuple[str, ...]
    alone: tuple[tuple[int, ...], ...]
    helped: tuple[tuple[int, ...], ...]

    def minutes(self, before: str, after: str, people: int) -> int:
        """Look one change up; `NO_WAY` when it cannot be done."""
        table = self.helped if people > 1 else self.alone
        return table[self.names.index(before)][self.names.index(after)]


def change_times(problem: PlanProblem) -> ChangeTimes:
    """Work out the shortest way between any two supports, over others where that is quicker.

    Parameters
    ----------
    problem : PlanProblem
        Its changes, its jobs' supports and how the car stands now.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.sessions import SessionSource
    >>> changes = (Change("wheels", "stands", 40), Change("stands", "lift", 30, people=2))
    >>> origin = datetime(2031, 3, 4, tzinfo=UTC)
    >>> plan = PlanProblem(origin, (), SessionSource(), changes=changes, support="wheels")
    >>> times = change_times(plan)
    >>> times.minutes("wheels", "lift", people=2), times.minutes("wheels", "lift", people=1)
    (70, -1)
    """
    names = {problem.support}
    names.update(*((change.before, change.after) for change in problem.changes))
    names.update(*(job.supports for job in problem.jobs if job.supports))
    order = tuple(sorted(names))
    single = [change for change in problem.changes if change.people == 1]
    return ChangeTimes(order, _shortest(order, single), _shortest(order, problem.changes))


def tight_jobs(problem: PlanProblem) -> frozenset[int]:
    """Find the jobs that fit no session in which the car has to be moved first.

    For these the car has to be put so at the end of the session before.

    Parameters
    ----------
    problem : PlanProblem
        With repeating sessions.

    Returns
    -------
    jobs : frozenset of int
        By position.
    """
    times = change_times(problem)
    taken = problem.set_up_minutes + problem.clear_up_minutes
    kinds = {(s.people, s.minutes - taken, s.temperature_c) for s in problem.sessions.template}
    tight: set[int] = set()
    for index, job in enumerate(problem.jobs):
        if job.supports is None or job.splittable:
            continue
        moves = [
            times.helped[a][b]
            for a, before in enumerate(times.names)
            for b, after in enumerate(times.names)
            if before not in job.supports and after in job.supports
        ]
        quickest = min((minutes for minutes in moves if minutes != NO_WAY), default=0)
        needs = planned_minutes(problem, job).items()
        longest = max(
            (
                room - need
                for people, room, now_c in kinds
                if warm_enough(now_c, job.min_temperature_c)
                for needed, need in needs
                if needed <= people
            ),
            default=0,
        )
        if quickest > longest:
            tight.add(index)
    return frozenset(tight)


def warm_enough(now_c: float | None, least_c: float | None) -> bool:
    """Whether a session is warm enough for a job; what nobody knows blocks nothing."""
    return now_c is None or least_c is None or now_c >= least_c


def _shortest(names: tuple[str, ...], changes: Iterable[Change]) -> tuple[tuple[int, ...], ...]:
    """Shortest sums over every pair (Floyd 1962, Warshall 1962)."""
    far = 1 << 40
    at = {name: index for index, name in enumerate(names)}
    span = range(len(names))
    best = [[0 if a == b else far for b in span] for a in span]
    for change in changes:
        a, b = at[change.before], at[change.after]
        best[a][b] = min(best[a][b], change.minutes)
    for over in span:
        for a in span:
            for b in span:
                best[a][b] = min(best[a][b], best[a][over] + best[over][b])
    return tuple(tuple(NO_WAY if m >= far else m for m in row) for row in best)
