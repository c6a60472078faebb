"""How long it takes to put the car from one support onto another, by the shortest way there is.

Which ways there are may hang on what is off or out: a car without wheels does not roll. So there
is one table for each combination of the body states that some way depends on.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from bareshell.plan.hours import planned_minutes
from bareshell.plan.problem import Change, PlanProblem

__all__ = [
    "NO_WAY",
    "ChangeTimes",
    "Table",
    "bodies",
    "change_times",
    "possible",
    "tight_jobs",
    "warm_enough",
]

NO_WAY = -1
"""Stands for "cannot be done" in a table of minutes."""

Table = tuple[tuple[int, ...], ...]
"""Minutes from each support to each, by position."""


@dataclass(frozen=True, slots=True)
class ChangeTimes:
    """Minutes from each support to each other one.

    Parameters
    ----------
    names : tuple of str
        The supports, in the order of the tables.
    states : tuple of str
        The body states that some change depends on; the first is the lowest bit of `row`.
    alone, helped : tuple of tables
        Minutes without and with the helper, a table for each combination of the states;
        `NO_WAY` when it cannot be done. [min]
    now : frozenset of str
        The body as it is now.
    """

    names: tuple[str, ...]
    states: tuple[str, ...]
    alone: tuple[Table, ...]
    helped: tuple[Table, ...]
    now: frozenset[str] = frozenset()

    def row(self, body: frozenset[str] | None = None) -> int:
        """Say which table is for a body; the one for the body as it is now when left out."""
        have = self.now if body is None else body
        return sum(1 << bit for bit, state in enumerate(self.states) if state in have)

    def minutes(
        self, before: str, after: str, people: int, body: frozenset[str] | None = None
    ) -> int:
        """Look one change up; `NO_WAY` when it cannot be done."""
        tables = self.helped if people > 1 else self.alone
        return tables[self.row(body)][self.names.index(before)][self.names.index(after)]

    def bodies(self) -> list[frozenset[str]]:
        """List the bodies, in the order of the tables."""
        return bodies(self.states)

    def quickest(self, before: int, after: int, *, helped: bool = True) -> int:
        """Give the least that a change takes with any body; `NO_WAY` when with none."""
        found = [table[before][after] for table in (self.helped if helped else self.alone)]
        return min((minutes for minutes in found if minutes != NO_WAY), default=NO_WAY)


def possible(change: Change, body: frozenset[str]) -> bool:
    """Whether a change can be made with such a body.

    Examples
    --------
    >>> roll = Change("stands", "wheels", 20, body_bars=frozenset({"wheels off"}))
    >>> possible(roll, frozenset()), possible(roll, frozenset({"wheels off"}))
    (True, False)
    """
    return change.body_needs <= body and not change.body_bars & body


def bodies(states: tuple[str, ...]) -> list[frozenset[str]]:
    """List every combination of some body states, in the order of the tables."""
    return [
        frozenset(state for bit, state in enumerate(states) if row >> bit & 1)
        for row in range(1 << len(states))
    ]


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
    states = tuple(sorted({s for c in problem.changes for s in c.body_needs | c.body_bars}))
    alone: list[Table] = []
    helped: list[Table] = []
    for body in bodies(states):
        open_ways = [change for change in problem.changes if possible(change, body)]
        alone.append(_shortest(order, (c for c in open_ways if c.people == 1)))
        helped.append(_shortest(order, open_ways))
    return ChangeTimes(order, states, tuple(alone), tuple(helped), problem.body)


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

    @cache
    def longest_session(people: int, least_c: float | None) -> int | None:
        rooms = (
            room for there, room, now_c in kinds if there >= people and warm_enough(now_c, least_c)
        )
        return max(rooms, default=None)

    @cache
    def quickest_onto(supports: frozenset[str]) -> int:
        return max(_quickest_onto(times, supports, table) for table in times.helped)

    tight: set[int] = set()
    for index, job in enumerate(problem.jobs):
        if job.supports is None or job.splittable:
            continue
        rooms = [
            room - need
            for people, need in planned_minutes(problem, job).items()
            if (room := longest_session(people, job.min_temperature_c)) is not None
        ]
        if quickest_onto(job.supports) > max(rooms, default=0):
            tight.add(index)
    return frozenset(tight)


def _quickest_onto(times: ChangeTimes, supports: frozenset[str], table: Table) -> int:
    """Say how long it takes at least to move the car onto one of some supports."""
    moves = [
        table[a][b]
        for a, before in enumerate(times.names)
        for b, after in enumerate(times.names)
        if before not in supports and after in supports
    ]
    return min((minutes for minutes in moves if minutes != NO_WAY), default=0)


def warm_enough(now_c: float | None, least_c: float | None) -> bool:
    """Whether a session is warm enough for a job; what nobody knows blocks nothing."""
    return now_c is None or least_c is None or now_c >= least_c


def _shortest(names: tuple[str, ...], changes: Iterable[Change]) -> Table:
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
