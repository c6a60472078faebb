"""A finish that no order of jobs can beat, hours and arrivals being exactly as estimated.

One person does one job at a time, so the working minutes of the sessions are a single machine.
Each job has a head (the working time that must have gone by before it can begin), a length and a
tail (the work that must still follow it). Jackson's rule, always to work on the job with the
longest tail, interrupting where need be, gives the shortest possible schedule of that relaxed
problem [S:jackson-1955] [S:carlier-1982] (from memory), and so a bound on every real plan.

The same holds for any part of the jobs on the sessions that alone can take them: what needs two
people on the helper's sessions, what needs warmth on the warm ones, what takes a long stretch on
the long ones. The highest of these bounds counts.

Where a helper works beside the owner, a session holds twice its minutes for what the helper may
do: two jobs at a time, each at its own pace, are taken as one machine that shares its time between
them, which loses nothing and gains only that one job could go at double speed. Moving the car is
work of the owner that the order of the jobs forces: see `bareshell.plan.moves_forced`.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from heapq import heappop, heappush

from bareshell.plan.arrays import DAY_MINUTES
from bareshell.plan.calendar import Axis, Calendar, enough_sessions
from bareshell.plan.moves_forced import Forced, forced_moves
from bareshell.plan.network import Network
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.wording import date

__all__ = ["Bound", "Gap", "bound", "gap", "jackson"]


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


def bound(problem: PlanProblem, *, moves: bool = True) -> Bound:
    """Work out before when no order of jobs can reach the goal.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    moves : bool
        Whether the moves of the car that the order forces count as work.

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
    search = _Search(problem, moves=moves)
    if not search.wanted:
        return Bound(0, "Nothing is left to do.")
    best = search.soonest()
    if best is None:
        return Bound(None, "With the sessions there are, the road is never reached.")
    return Bound(
        best,
        "With hours and arrivals exactly as estimated, no order of jobs gets this car on the "
        f"road before {date(problem, best)}.",
    )


@dataclass(frozen=True, slots=True)
class Gap:
    """How much any other order of the jobs could still gain, at the very most.

    Parameters
    ----------
    days : float
        From the bound to the plan. [days]
    share : float
        The same as a share of the bound. [-]
    sentence : str
        The same in plain words.
    """

    days: float
    share: float
    sentence: str


def gap(problem: PlanProblem, least: Bound, finish_minute: int) -> Gap | None:
    """Hold a plan against the bound.

    Parameters
    ----------
    problem : PlanProblem
        For reading dates out.
    least : Bound
        Of the same problem.
    finish_minute : int
        When the plan reaches the goal. [minutes from the origin]

    Returns
    -------
    gap : Gap, optional
        None when there is no bound to hold it against.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.sessions import SessionSource
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (), SessionSource())
    >>> gap(plan, Bound(100 * 1440, ""), 103 * 1440).sentence
    'The plan gets there on Sun 15 Jun, hours and arrivals being as estimated: no other order of
    jobs could bring that forward by more than 3 days (3.0%).'
    """
    if not least.finish_minute:
        return None
    later = (finish_minute - least.finish_minute) / DAY_MINUTES
    share = finish_minute / least.finish_minute - 1.0
    there = f"The plan gets there on {date(problem, finish_minute)}, hours and arrivals being as "
    if later < 1.0:
        return Gap(later, share, f"{there}estimated: no other order of jobs is a day better.")
    return Gap(
        later,
        share,
        f"{there}estimated: no other order of jobs could bring that forward by more than "
        f"{later:.0f} days ({share:.1%}).",
    )


class _Search:
    """Looks for the soonest date that is not ruled out.

    A date is ruled out when the heads, worked forwards from now, and the latest finishes, worked
    backwards from that date, leave too few working minutes between them.
    """

    def __init__(self, problem: PlanProblem, *, moves: bool) -> None:
        self.problem = problem
        plain = Calendar(problem, ())
        self.wanted = _leading_to_the_goal(problem, plain.graph)
        if not self.wanted:
            return
        slots = enough_sessions(problem, sum(plain.lengths[i] for i in self.wanted))
        self.calendar = Calendar(problem, slots)
        self.some = set(self.wanted)
        self.heads, self.finishes = self.calendar.heads(self.some)
        self.machines = tuple(_machines(self.calendar, self.wanted))
        self.forced: tuple[Forced, ...] = ()
        self.moves = moves

    def soonest(self) -> int | None:
        """Find the soonest date without the moves, then the soonest with those it forces."""
        best = self._soonest()
        if best is None or not self.moves:
            return best
        graph, axis = self.calendar.graph, self.machines[0].axis
        self.forced = (forced_moves(self.problem, graph, self.some),)
        since = self._busy_since(best)
        if since:
            done = {i for i in self.some if axis.worked_by(self.heads[i]) < since}
            begins = min(self.heads[i] for i in self.some - done)
            more = forced_moves(self.problem, graph, self.some, done=done, since_minute=begins)
            self.forced = (*self.forced, more)
        return self._soonest(best)

    def _busy_since(self, goal: int) -> int:
        """Say since when the owner is never idle before the work that sets a date; 0 for ever."""
        found = self.calendar.tails(self.some, self.finishes, goal)
        return 0 if found is None else _preemptive(self._work(self.machines[0], goal, found[0]))[1]

    def _soonest(self, since: int = 0) -> int | None:
        """Find the soonest date, no sooner than one, that is not ruled out."""
        if any(finish is None for finish in self.finishes.values()):
            return None
        begins, ends = self.calendar.begins, self.calendar.ends
        first = max(since, *(f for f in self.finishes.values() if f is not None))
        low = bisect_left(ends, first)
        # Ahead by ever longer steps, then halving the last of them: first sessions, then minutes.
        step, high = 1, low
        while high < len(ends) and self._ruled_out(ends[high]):
            low, high, step = high + 1, high + step, 2 * step
        high = min(high, len(ends))
        while low < high:
            middle = (low + high) // 2
            if self._ruled_out(ends[middle]):
                low = middle + 1
            else:
                high = middle
        if low == len(ends):
            return None
        least, most = max(first, begins[low]), ends[low]
        while least < most:
            middle = (least + most) // 2
            if self._ruled_out(middle):
                least = middle + 1
            else:
                most = middle
        return least

    def _ruled_out(self, goal: int) -> bool:
        """Whether the goal cannot be reached by this minute."""
        found = self.calendar.tails(self.some, self.finishes, goal)
        if found is None:
            return True
        for machine in self.machines:
            worked = machine.axis.worked_by(goal)
            work = self._work(machine, goal, found[0])
            if jackson(work) > worked:
                return True
            if machine.moves_too and self._too_many_moves(machine, goal, found[0], work):
                return True
        return False

    def _too_many_moves(
        self,
        machine: _Machine,
        goal: int,
        latest: dict[int, int],
        work: list[tuple[int, int, int]],
    ) -> bool:
        """Whether the moves that are forced leave too little time for the work."""
        axis = machine.axis
        worked = axis.worked_by(goal)
        tails = {i: worked - axis.worked_by(latest[i]) for i in self.some}
        return any(
            jackson(work + forced.work(axis.worked_by(forced.since_minute), tails)) > worked
            for forced in self.forced
        )

    def _work(
        self, machine: _Machine, goal: int, latest: dict[int, int]
    ) -> list[tuple[int, int, int]]:
        """Give each job of a machine its head, length and tail there."""
        axis = machine.axis
        worked = axis.worked_by(goal)
        return [
            (axis.worked_by(self.heads[i]), demand, worked - axis.worked_by(latest[i]))
            for i, demand in machine.demands
        ]


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
    return _preemptive(work)[0]


def _preemptive(work: list[tuple[int, int, int]]) -> tuple[int, int]:
    """Give Jackson's bound, and since when the machine was not idle before what sets it."""
    released = sorted(work)
    waiting: list[tuple[int, int]] = []
    now, latest, at = 0, 0, 0
    since, busy_since = 0, 0
    while at < len(released) or waiting:
        if not waiting and released[at][0] > now:
            now = busy_since = released[at][0]
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
            if now - tail >= latest:
                latest, since = now - tail, busy_since
    return latest, since


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


# The machines ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Machine:
    """Some jobs, and the working minutes of the sessions that alone can take them."""

    axis: Axis
    demands: tuple[tuple[int, int], ...]
    """Jobs, and how many minutes each takes of it at least."""
    moves_too: bool = False
    """Whether moving the car takes from the same minutes."""


def _machines(calendar: Calendar, wanted: list[int]) -> Iterator[_Machine]:
    """Pair the sessions that alone can take some of the jobs with those jobs."""
    problem, slots = calendar.problem, calendar.slots
    beside = any(slot.beside for slot in problem.sessions.kinds)
    yield _owner_and_helper(calendar, wanted)
    own = [i for i in wanted if not _helper_may(problem.jobs[i], problem)]
    if beside and own:
        spans = [(b, e, 1) for b, e in zip(calendar.begins, calendar.ends, strict=True)]
        yield _Machine(Axis(spans), tuple((i, calendar.lengths[i]) for i in own), moves_too=True)
    seen: set[tuple[int, ...]] = {tuple(wanted)}
    for asks in _asks(calendar, wanted):
        some = tuple(i for i in wanted if asks.only_there(calendar, i))
        if some and some not in seen:
            seen.add(some)
            spans = [
                (calendar.begins[at], calendar.ends[at], _hands(slots[at], some, problem))
                for at in range(len(slots))
                if asks.held_by(calendar, at)
            ]
            yield _Machine(Axis(spans), tuple((i, calendar.lengths[i]) for i in some))


def _owner_and_helper(calendar: Calendar, wanted: list[int]) -> _Machine:
    """All jobs on all sessions, which hold two at a time where the helper works beside."""
    problem = calendar.problem
    spans = [
        (calendar.begins[at], calendar.ends[at], 2 if slot.beside else 1)
        for at, slot in enumerate(calendar.slots)
    ]
    # Together they take the minutes of both, where the helper never only lends a hand.
    pairs = all(slot.beside for slot in problem.sessions.kinds if slot.people > 1)
    demands = []
    for i in wanted:
        kind = calendar.kinds[i]
        alone = calendar.lengths[i]
        if pairs and any(slot.beside for slot in problem.sessions.kinds):
            both = 2 * alone
            alone = both if kind.alone is None else min(kind.alone, both)
        demands.append((i, alone))
    return _Machine(Axis(spans), tuple(demands), moves_too=True)


def _helper_may(job: PlanJob, problem: PlanProblem) -> bool:
    """Whether a helper may ever do a job alone."""
    if all(way.people > 1 for way in job.ways):
        return False
    modes = {slot.beside for slot in problem.sessions.kinds}
    return ("marked" in modes or "any" in modes) and (
        job.helper_alone or ("any" in modes and not job.dangerous_alone)
    )


def _hands(slot: SessionSlot, some: tuple[int, ...], problem: PlanProblem) -> int:
    """Say how many of some jobs can be done at a time in a session."""
    if not slot.beside:
        return 1
    return 2 if any(_helper_may(problem.jobs[i], problem) for i in some) else 1


@dataclass(frozen=True, slots=True)
class _Ask:
    """What some jobs ask of a session at least."""

    helped: bool
    least_c: float | None
    cure: int
    room: int

    def only_there(self, calendar: Calendar, node: int) -> bool:
        """Whether a job can be worked only in sessions that hold this."""
        kind = calendar.kinds[node]
        if self.helped and kind.alone is not None:
            return False
        if self.room and (kind.split or calendar.lengths[node] <= self.room):
            return False
        if self.cure and (kind.split or kind.cure < self.cure):
            return False
        return self.least_c is None or (kind.least_c is not None and kind.least_c >= self.least_c)

    def held_by(self, calendar: Calendar, at: int) -> bool:
        """Whether a session has the people, the warmth and the length."""
        slot = calendar.slots[at]
        if self.helped and slot.people == 1:
            return False
        if calendar.ends[at] - calendar.begins[at] <= self.room:
            return False
        if self.least_c is None:
            return True
        if slot.temperature_c is not None and slot.temperature_c < self.least_c:
            return False
        cold = calendar.cold_from(self.least_c)[at]
        return not self.cure or cold - self.cure > calendar.begins[at]


def _asks(calendar: Calendar, wanted: list[int]) -> Iterator[_Ask]:
    """List what may be asked of a session: help, warmth, a warm cure, length."""
    rooms = sorted({end - begin for begin, end in zip(calendar.begins, calendar.ends, strict=True)})
    # A job longer than one length of session fits only the sessions of the next length or more.
    longer_than = [0, *(room for room in rooms if room > 0)]
    warmths = {calendar.kinds[i].least_c for i in wanted} | {None}
    for helped in (False, True):
        for least_c in sorted(warmths, key=lambda c: -300.0 if c is None else c):
            cures = {0}
            if least_c is not None:
                cures |= {calendar.kinds[i].cure for i in wanted}
            for cure in sorted(cures):
                for room in longer_than:
                    yield _Ask(helped, least_c, cure, room)
