"""A finish that no order of jobs can beat, hours and arrivals being exactly as estimated.

One person does one job at a time, so the working minutes of the sessions are a single machine.
Each job has a head (the working time that must have gone by before it can begin), a length and a
tail (the work that must still follow it). Jackson's rule, always to work on the job with the
longest tail, interrupting where need be, gives the shortest possible schedule of that relaxed
problem (Jackson 1955, Carlier 1982; from memory), and so a bound on every real plan. Moving the
car, jobs that cannot be interrupted and gates are left out of it, which only makes it lower.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass
from heapq import heappop, heappush

from bareshell.plan.arrays import expected_arrival
from bareshell.plan.hours import planned_minutes
from bareshell.plan.network import Network, network
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.wording import date

__all__ = ["Bound", "bound", "jackson"]


@dataclass(frozen=True, slots=True)
class Bound:
    """Before when no order of jobs can reach the goal.

    Parameters
    ----------
    finish_minute : int, optional
        The bound; None when the sessions never suffice. [minutes from the origin]
    sentence : str
        The same in plain words.
    """

    finish_minute: int | None
    sentence: str


class _Axis:
    """Working minutes of some of the sessions, against the clock."""

    def __init__(self, problem: PlanProblem, slots: tuple[SessionSlot, ...]) -> None:
        self.starts: list[int] = []
        self.ends: list[int] = []
        self.before: list[int] = []
        worked = 0
        for slot in slots:
            start = slot.start_minute + problem.set_up_minutes
            end = slot.end_minute - problem.clear_up_minutes
            if end > start:
                self.starts.append(start)
                self.ends.append(end)
                self.before.append(worked)
                worked += end - start
        self.total = worked

    def worked_by(self, minute: int) -> int:
        """Say how many working minutes lie before a moment."""
        at = bisect_right(self.starts, minute) - 1
        if at < 0:
            return 0
        return self.before[at] + min(minute, self.ends[at]) - self.starts[at]

    def when(self, worked: int) -> int | None:
        """Say when so many minutes have been worked; None when they never are."""
        if worked <= 0:
            return self.starts[0] if self.starts else None
        at = bisect_right(self.before, worked - 1) - 1
        if at < 0 or self.before[at] + self.ends[at] - self.starts[at] < worked:
            return None
        return self.starts[at] + worked - self.before[at]

    def in_one(self, minute: int, length: int) -> int | None:
        """Say when a job that cannot be split is finished at the earliest."""
        at = max(0, bisect_right(self.starts, minute) - 1)
        for index in range(at, len(self.starts)):
            start = max(minute, self.starts[index])
            if start + length <= self.ends[index]:
                return start + length
        return None


def bound(problem: PlanProblem) -> Bound:
    """Work out before when no order of jobs can reach the goal.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> jobs = tuple(PlanJob(n, n, "fuel", (Way(1, 60, 90, 120),)) for n in ("tank", "pump"))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), jobs, evenings)
    >>> bound(plan).finish_minute == 10140 + 15 + 60
    True
    """
    graph = network(problem)
    wanted = _leading_to_the_goal(problem, graph)
    lengths = {
        index: min(planned_minutes(problem, problem.jobs[index]).values()) for index in wanted
    }
    if not lengths:
        return Bound(0, "Nothing is left to do.")
    slots = _enough_sessions(problem, sum(lengths.values()))
    owner = _Axis(problem, slots)
    heads, finishes = _heads(problem, graph, wanted, slots)
    tails = _tails(graph, wanted, lengths)
    if any(finish is None for finish in finishes.values()):
        return Bound(None, "With the sessions there are, the road is never reached.")
    alone = max(finish for finish in finishes.values() if finish is not None)
    work = [(owner.worked_by(heads[i]), lengths[i], tails[i]) for i in wanted]
    together = owner.when(jackson(work))
    if together is None:
        return Bound(None, "With the sessions there are, the road is never reached.")
    best = max(alone, together)
    return Bound(
        best,
        "With hours and arrivals exactly as estimated, no order of jobs gets this car on the "
        f"road before {date(problem, best)}.",
    )


def jackson(work: list[tuple[int, int, int]]) -> int:
    """Schedule one machine with interruptions, the longest tail first (Jackson 1955).

    Parameters
    ----------
    work : list of (head, length, tail)
        Each job's release, length and what must follow it. [min]

    Returns
    -------
    int
        The latest completion plus tail: no schedule of these has a smaller one. [min]

    Examples
    --------
    >>> jackson([(0, 4, 0), (1, 2, 10)])
    13
    """
    released = sorted(work)
    waiting: list[tuple[int, int]] = []
    now, latest, at = 0, 0, 0
    while at < len(released) or waiting:
        if not waiting:
            now = max(now, released[at][0])
        while at < len(released) and released[at][0] <= now:
            _, length, tail = released[at]
            heappush(waiting, (-tail, length))
            at += 1
        tail, length = heappop(waiting)
        free = released[at][0] - now if at < len(released) else length
        if length > free:
            heappush(waiting, (tail, length - free))
            now += free
        else:
            now += length
            latest = max(latest, now - tail)
    return latest


def _leading_to_the_goal(problem: PlanProblem, graph: Network) -> list[int]:
    """List the jobs without which the goal is not reached, each after those before it."""
    jobs = len(problem.jobs)
    goal = set(problem.goal)
    into = graph.leading_in()
    needed: set[int] = set()
    stack = [i for i, job in enumerate(problem.jobs) if not goal or job.id in goal]
    while stack:
        node = stack.pop()
        if node not in needed:
            needed.add(node)
            stack.extend(edge.before for edge in into[node])
    return [node for node in graph.in_order() if node in needed and node < jobs]


def _enough_sessions(problem: PlanProblem, minutes: int) -> tuple[SessionSlot, ...]:
    """Write out sessions for the work itself three times over and for every date there is."""
    dates = [expected_arrival(arrival) for arrival in problem.arrivals]
    dates += [job.earliest_minute for job in problem.jobs]
    latest = max(dates, default=0)
    lost = problem.set_up_minutes + problem.clear_up_minutes
    slots: list[SessionSlot] = []
    worked = 0
    for slot in problem.sessions:
        slots.append(slot)
        if slot.start_minute > latest:
            worked += max(0, slot.minutes - lost)
        if worked > 3 * minutes + 100_000 or len(slots) > 20_000:
            break
    return tuple(slots)


def _heads(
    problem: PlanProblem, graph: Network, wanted: list[int], slots: tuple[SessionSlot, ...]
) -> tuple[dict[int, int], dict[int, int | None]]:
    """Work forwards: when each job could begin and be finished if it were the only one."""
    arrives = {arrival.id: expected_arrival(arrival) for arrival in problem.arrivals}
    axes: dict[tuple[bool, float | None], _Axis] = {}

    def axis(job: PlanJob) -> _Axis:
        helped = all(way.people > 1 for way in job.ways)
        key = (helped, job.min_temperature_c)
        if key not in axes:
            axes[key] = _Axis(problem, tuple(s for s in slots if _takes(s, *key)))
        return axes[key]

    ready: dict[int, int] = {}
    heads: dict[int, int] = {}
    finishes: dict[int, int | None] = {}
    into, jobs, inside = graph.leading_in(), len(problem.jobs), set(wanted)
    for node in graph.in_order():
        begin = 0
        for edge in into[node]:
            begin = max(begin, ready.get(edge.before, 0) + edge.wait_minutes)
        if node >= jobs:
            ready[node] = begin
            continue
        job = problem.jobs[node]
        parts = [arrives.get(part, 0) for part in job.parts_to_start]
        begin = max(begin, job.earliest_minute, *parts, 0)
        finish = _finish(job, min(planned_minutes(problem, job).values()), begin, axis(job))
        if finish is not None:
            finish = max(finish, *(arrives.get(part, 0) for part in job.parts_to_finish), 0)
        ready[node] = finish if finish is not None else begin
        if node in inside:
            heads[node], finishes[node] = begin, finish
    return heads, finishes


def _takes(slot: SessionSlot, helped: bool, least_c: float | None) -> bool:  # noqa: FBT001
    if helped and slot.people == 1:
        return False
    return least_c is None or slot.temperature_c is None or slot.temperature_c >= least_c


def _finish(job: PlanJob, length: int, begin: int, axis: _Axis) -> int | None:
    if job.splittable:
        return axis.when(axis.worked_by(begin) + length)
    return axis.in_one(begin, length)


def _tails(graph: Network, wanted: list[int], lengths: dict[int, int]) -> dict[int, int]:
    """Work backwards: the longest chain of work that must follow each job."""
    out = graph.leading_out()
    tail: dict[int, int] = {}
    longest: Callable[[int], int] = lambda node: lengths.get(node, 0) + tail.get(node, 0)  # noqa: E731
    for node in reversed(graph.in_order()):
        tail[node] = max((longest(edge.after) for edge in out[node]), default=0)
    return {node: tail[node] for node in wanted}
