"""A finish that no order of jobs can beat, hours and arrivals being exactly as estimated.

One person does one job at a time, so the working minutes of the sessions are a single machine.
Each job has a head (the working time that must have gone by before it can begin), a length and a
tail (the work that must still follow it). Jackson's rule, always to work on the job with the
longest tail, interrupting where need be, gives the shortest possible schedule of that relaxed
problem [S:jackson-1955] [S:carlier-1982] (from memory), and so a bound on every real plan.

The same holds for any part of the jobs on the sessions that alone can take them: what needs two
people on the helper's sessions, what needs warmth on the warm ones, what takes a long stretch on
the long ones. The highest of these bounds counts. Moving the car is left out, which only makes it
lower.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
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

    def finish(self, minute: int, length: int, *, split: bool) -> int | None:
        """Say when work that begins no sooner than a moment is finished at the earliest."""
        if split:
            return self.when(self.worked_by(minute) + length)
        for index in range(max(0, bisect_right(self.starts, minute) - 1), len(self.starts)):
            start = max(minute, self.starts[index])
            if start + length <= self.ends[index]:
                return start + length
        return None

    def begin(self, minute: int, length: int, *, split: bool) -> int:
        """Say when work that is finished by a moment begins at the latest; -1 for never."""
        if split:
            before = self.worked_by(minute) - length
            at = bisect_right(self.before, before) - 1
            return self.starts[at] + before - self.before[at] if before >= 0 else -1
        for index in range(bisect_right(self.starts, minute) - 1, -1, -1):
            start = min(minute, self.ends[index]) - length
            if start >= self.starts[index]:
                return start
        return -1


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
    best = _Search(problem, graph, wanted, lengths).soonest()
    if best is None:
        return Bound(None, "With the sessions there are, the road is never reached.")
    return Bound(
        best,
        "With hours and arrivals exactly as estimated, no order of jobs gets this car on the "
        f"road before {date(problem, best)}.",
    )


class _Search:
    """Looks for the soonest date that is not ruled out.

    A date is ruled out when the heads, worked forwards from now, and the latest finishes, worked
    backwards from that date, leave too few working minutes between them.
    """

    def __init__(
        self, problem: PlanProblem, graph: Network, wanted: list[int], lengths: dict[int, int]
    ) -> None:
        self.problem = problem
        self.graph = graph
        self.lengths = lengths
        self.wanted = set(wanted)
        slots = _enough_sessions(problem, sum(lengths.values()))
        self.owner = _Axis(problem, slots)
        self.axes = tuple(_axes(problem, wanted, lengths, slots))
        self.own_axis = _axis_of_each(problem, slots)
        self.order = graph.in_order()
        self.into = graph.leading_in()
        self.out = graph.leading_out()
        self.heads, self.finishes = self._forwards()

    def soonest(self) -> int | None:
        """Halve the sessions, then the minutes of one session."""
        if any(finish is None for finish in self.finishes.values()):
            return None
        first = max(finish for finish in self.finishes.values() if finish is not None)
        low = bisect_left(self.owner.ends, first)
        high = len(self.owner.ends)
        while low < high:
            middle = (low + high) // 2
            if self._ruled_out(self.owner.ends[middle]):
                low = middle + 1
            else:
                high = middle
        if low == len(self.owner.ends):
            return None
        least, most = max(first, self.owner.starts[low]), self.owner.ends[low]
        while least < most:
            middle = (least + most) // 2
            if self._ruled_out(middle):
                least = middle + 1
            else:
                most = middle
        return least

    def _forwards(self) -> tuple[dict[int, int], dict[int, int | None]]:
        """Say when each job could begin and be finished if it were the only one."""
        arrives = {arrival.id: expected_arrival(arrival) for arrival in self.problem.arrivals}
        ready = [0] * self.graph.size
        heads: dict[int, int] = {}
        finishes: dict[int, int | None] = {}
        for node in self.order:
            begin = max((ready[e.before] + e.wait_minutes for e in self.into[node]), default=0)
            ready[node] = begin
            if node not in self.wanted:
                continue
            job, axis = self.problem.jobs[node], self.own_axis[node]
            begin = max(
                begin, job.earliest_minute, *(arrives.get(p, 0) for p in job.parts_to_start)
            )
            finish = axis.finish(begin, self.lengths[node], split=job.splittable)
            if finish is not None:
                finish = max(finish, *(arrives.get(part, 0) for part in job.parts_to_finish), 0)
                ready[node] = finish
            heads[node], finishes[node] = begin, finish
        return heads, finishes

    def _ruled_out(self, goal: int) -> bool:
        """Whether the goal cannot be reached by this minute."""
        latest = self._backwards(goal)
        if latest is None:
            return True
        for axis, some in self.axes:
            worked = axis.worked_by(goal)
            work = [
                (
                    axis.worked_by(self.heads[i]),
                    self.lengths[i],
                    worked - axis.worked_by(latest[i]),
                )
                for i in some
            ]
            if jackson(work) > worked:
                return True
        return False

    def _backwards(self, goal: int) -> dict[int, int] | None:
        """Say by when each job must be finished; None when some could not be."""
        begins = [goal] * self.graph.size
        latest: dict[int, int] = {}
        for node in reversed(self.order):
            end = min((begins[e.after] - e.wait_minutes for e in self.out[node]), default=goal)
            begins[node] = end
            if node not in self.wanted:
                continue
            finish = self.finishes[node]
            if finish is None or finish > end:
                return None
            latest[node] = end
            axis, split = self.own_axis[node], self.problem.jobs[node].splittable
            begins[node] = axis.begin(end, self.lengths[node], split=split)
        return latest


def _axis_of_each(problem: PlanProblem, slots: tuple[SessionSlot, ...]) -> list[_Axis]:
    """Give each job the sessions that can take it."""
    axes: dict[tuple[bool, float | None], _Axis] = {}
    out: list[_Axis] = []
    for job in problem.jobs:
        helped = all(way.people > 1 for way in job.ways)
        least_c = job.min_temperature_c
        if (helped, least_c) not in axes:
            those = tuple(s for s in slots if _takes(s, least_c, helped=helped))
            axes[helped, least_c] = _Axis(problem, those)
        out.append(axes[helped, least_c])
    return out


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


def _takes(slot: SessionSlot, least_c: float | None, *, helped: bool) -> bool:
    if helped and slot.people == 1:
        return False
    return least_c is None or slot.temperature_c is None or slot.temperature_c >= least_c


def _axes(
    problem: PlanProblem,
    wanted: list[int],
    lengths: dict[int, int],
    slots: tuple[SessionSlot, ...],
) -> Iterator[tuple[_Axis, list[int]]]:
    """Pair the sessions that alone can take some of the jobs with those jobs."""
    taken = problem.set_up_minutes + problem.clear_up_minutes
    rooms = sorted({slot.minutes - taken for slot in slots})
    # A job longer than one length of session fits only the sessions of the next length or more.
    longer_than = [0, *(room for room in rooms if room > 0)]
    warmths = {problem.jobs[index].min_temperature_c for index in wanted} | {None}
    for helped in (False, True):
        for least_c in sorted(warmths, key=lambda c: -300.0 if c is None else c):
            for room in longer_than:
                some = [
                    i
                    for i in wanted
                    if _only_there(problem.jobs[i], lengths[i], least_c, room, helped=helped)
                ]
                if some:
                    usable = (s for s in slots if s.minutes - taken > room)
                    those = tuple(s for s in usable if _takes(s, least_c, helped=helped))
                    yield _Axis(problem, those), some


def _only_there(
    job: PlanJob, length: int, least_c: float | None, room: int, *, helped: bool
) -> bool:
    """Whether a job can be worked only in such sessions."""
    if helped and any(way.people == 1 for way in job.ways):
        return False
    if room and (job.splittable or length <= room):
        return False
    return least_c is None or (
        job.min_temperature_c is not None and job.min_temperature_c >= least_c
    )
