"""How often the car must be moved, whatever the order: what the order of the jobs forces.

Leave everything out but the order of the jobs and the supports they need: the car stands
somewhere, everything that can then be done is done at once, and it is moved on. The cheapest such
series of moves after which a job is done is a bound on the moving that any real plan has done by
then, since doing more on the way never does harm. It is found by going outwards from where the
car stands now, always on from the cheapest (Dijkstra 1959); a state that has done no more than
another at no less cost is dropped.

For the bound this is work of the owner with a tail of its own: the moves before a job that has
much work behind it must be over that much before the end. The same holds from any later moment on
for the jobs that cannot begin before it, the car standing wherever it may by then.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from heapq import heappop, heappush

from bareshell.plan.network import Network
from bareshell.plan.problem import PlanProblem
from bareshell.plan.supports import NO_WAY, ChangeTimes, change_times

__all__ = ["Forced", "forced_moves"]

MOST_STATES = 600
"""How many states are looked at; the cheapest not looked at is still a bound."""


@dataclass(frozen=True, slots=True)
class Forced:
    """The moving that is forced before jobs can be done.

    Parameters
    ----------
    before : dict of int to int
        For each job, by position: minutes of moving the car without which it cannot be done.
    total : int
        Minutes without which not all of them can be. [min]
    since_minute : int
        From when this moving is counted. [minutes from the origin]
    """

    before: dict[int, int] = field(default_factory=dict)
    total: int = 0
    since_minute: int = 0

    def work(self, head: int, tails: dict[int, int]) -> list[tuple[int, int, int]]:
        """Turn it to work with heads and tails, for one machine.

        Parameters
        ----------
        head : int
            What lies before `since_minute`. [min of the machine]
        tails : dict of int to int
            What must follow each job. [min of the machine]

        Returns
        -------
        list of (head, length, tail)
            So much moving as the jobs with the longest tails need has theirs, and so on down.
        """
        out: list[tuple[int, int, int]] = []
        counted = 0
        for node in sorted(self.before, key=lambda node: -tails[node]):
            more = self.before[node] - counted
            if more > 0:
                out.append((head, more, tails[node]))
                counted += more
        if self.total > counted:
            out.append((head, self.total - counted, min(tails[n] for n in self.before)))
        return out


def forced_moves(
    problem: PlanProblem,
    graph: Network,
    wanted: set[int],
    *,
    done: set[int] | None = None,
    since_minute: int = 0,
) -> Forced:
    """Work out how much moving the order of the jobs forces.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    graph : Network
        What comes before what.
    wanted : set of int
        The jobs that lead to the goal, by position.
    done : set of int, optional
        Those taken to be done already, the car standing anywhere; None begins with the car as
        it stands now and nothing done.
    since_minute : int
        From when it is counted; none of the others begins sooner. [minutes from the origin]
    """
    moving = _Moving(problem, graph, wanted - (done or set()))
    before, total = moving.cheapest(anywhere=done is not None)
    return Forced(before, total, since_minute)


class _Moving:
    def __init__(self, problem: PlanProblem, graph: Network, wanted: set[int]) -> None:
        times = change_times(problem)
        self.span = len(times.names)
        self.at = times.names.index(problem.support)
        self.minutes = _over_any(times)
        into = graph.leading_in()
        jobs = len(graph.jobs)
        self.order = [node for node in graph.in_order() if node in wanted or node >= jobs]
        kept = set(self.order)
        self.before = {node: _bits({e.before for e in into[node]} & kept) for node in self.order}
        place = {name: index for index, name in enumerate(times.names)}
        self.supports = {
            node: None
            if node >= len(graph.jobs) or graph.jobs[node].supports is None
            else frozenset(place[name] for name in graph.jobs[node].supports or ())
            for node in self.order
        }
        self.jobs = sorted(wanted)
        self.all = _bits(wanted)

    def cheapest(self, *, anywhere: bool) -> tuple[dict[int, int], int]:
        """Go outwards from where the car stands, the cheapest first."""
        before: dict[int, int] = {}
        todo: list[tuple[int, int, int, int]] = []
        looked: dict[int, list[int]] = {}
        starts = range(self.span) if anywhere else (self.at,)
        for start in starts:
            heappush(todo, (0, start, start, self._done(0, start)))
        count, states = self.span, 0
        while todo:
            cost, _, here, done = heappop(todo)
            if states == MOST_STATES:
                # Whatever is not reached yet costs at least as much.
                before |= {node: cost for node in self.jobs if node not in before}
                return before, cost
            if any(done | other == other for other in looked.get(here, ())):
                continue
            looked.setdefault(here, []).append(done)
            states += 1
            before |= {n: cost for n in self.jobs if n not in before and done >> n & 1}
            if done & self.all == self.all:
                return before, cost
            for there in range(self.span):
                minutes = self.minutes[here][there]
                then = done if minutes == NO_WAY else self._done(done, there)
                if then != done:
                    count += 1
                    heappush(todo, (cost + minutes, count, there, then))
        return before, max(before.values(), default=0)

    def _done(self, done: int, support: int) -> int:
        """Do everything that can be done while the car stands so."""
        for node in self.order:
            bit = 1 << node
            if done & bit or self.before[node] & ~done:
                continue
            supports = self.supports[node]
            if supports is None or support in supports:
                done |= bit
        return done


def _over_any(times: ChangeTimes) -> list[list[int]]:
    """The least that each move takes, over any other supports and whatever the body is."""
    span = range(len(times.names))
    best = [[times.quickest(a, b) for b in span] for a in span]
    for over in span:
        for a in span:
            for b in span:
                if best[a][over] != NO_WAY and best[over][b] != NO_WAY:
                    longer = best[a][over] + best[over][b]
                    if best[a][b] == NO_WAY or longer < best[a][b]:
                        best[a][b] = longer
    return best


def _bits(nodes: set[int]) -> int:
    """Write a set of nodes as one number, a bit for each."""
    return sum(1 << node for node in nodes)
