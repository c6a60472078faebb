"""The walk where people and tools are counted: the classic form of the problem, for comparison.

A project is activities with durations, an order, and so many units each of some resources that
are there all the time. The walk is the garage's own: whenever something is free, take the best by
priority of what can begin now, and never stand idle for what is nearly ready. Sessions, supports,
parts and weather are left out; in their place several resources bind at once. Published instances
of this form have known optima, which no garage has.

The library's own files are read by `read_sm`; none of them is kept here.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from types import FunctionType
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Project:
    """Activities by position; the order is given by what comes after each."""

    durations: tuple[int, ...]
    after: tuple[tuple[int, ...], ...]
    needs: tuple[tuple[int, ...], ...]
    """For each activity, how many units of each resource it takes while it lasts."""
    there: tuple[int, ...]
    """How many units of each resource there are."""

    def turned_round(self) -> Project:
        """The same project with time running backwards."""
        before: list[list[int]] = [[] for _ in self.durations]
        for first, later in enumerate(self.after):
            for then in later:
                before[then].append(first)
        return Project(self.durations, tuple(map(tuple, before)), self.needs, self.there)

    def tails(self) -> tuple[int, ...]:
        """The longest chain from the beginning of each activity to the end."""
        found: dict[int, int] = {}

        def tail(node: int) -> int:
            if node not in found:
                found[node] = self.durations[node] + max(map(tail, self.after[node]), default=0)
            return found[node]

        return tuple(tail(node) for node in range(len(self.durations)))


def broken_rules(project: Project, starts: Sequence[int]) -> list[str]:
    """Everything that is wrong with a schedule, read off the definition alone."""
    found = []
    ends = [start + length for start, length in zip(starts, project.durations, strict=True)]
    if min(starts, default=0) < 0:
        found.append("something begins before the beginning")
    for first, later in enumerate(project.after):
        found += [
            f"{then} begins before {first} is over" for then in later if starts[then] < ends[first]
        ]
    for moment in sorted(set(starts)):
        for resource, units in enumerate(project.there):
            used = sum(
                needs[resource]
                for needs, start, end in zip(project.needs, starts, ends, strict=True)
                if start <= moment < end
            )
            if used > units:
                found.append(f"{used} of {units} units of resource {resource} at {moment}")
    return found


def read_sm(text: str) -> Project:
    """Read one instance in the library's single-mode form."""
    lines = text.splitlines()

    def after_heading(words: str, skip: int) -> list[list[int]]:
        at = next(i for i, line in enumerate(lines) if line.startswith(words)) + skip
        rows = []
        while at < len(lines) and lines[at].strip() and lines[at].strip()[0].isdigit():
            rows.append([int(word) for word in lines[at].split()])
            at += 1
        return rows

    order = after_heading("PRECEDENCE RELATIONS", 2)
    asks = after_heading("REQUESTS/DURATIONS", 3)
    units = after_heading("RESOURCEAVAILABILITIES", 2)
    return Project(
        tuple(row[2] for row in asks),
        tuple(tuple(node - 1 for node in row[3:]) for row in order),
        tuple(tuple(row[3:]) for row in asks),
        tuple(units[0]),
    )


# The walk, in the subset of Python that the compiler takes ----------------------------------------


def best_now(before: Ints, starts: Ints, needs: Ints, free: Ints, priority: Ints) -> int:
    """The best by priority of what can begin now; -1 when nothing can."""
    best = -1
    for node in range(len(before)):
        if starts[node] < 0 and before[node] == 0:
            wanted = best < 0 or priority[node] > priority[best]
            for resource in range(len(free)):
                wanted = wanted and needs[node, resource] <= free[resource]
            if wanted:
                best = node
    return best


def next_end(before: Ints, starts: Ints, ends: Ints) -> int:
    """When the next thing is over that is going on."""
    soonest = -1
    for node in range(len(before)):
        if starts[node] >= 0 and before[node] == 0 and (soonest < 0 or ends[node] < soonest):
            soonest = ends[node]
    return soonest


def walk(
    durations: Ints,
    edges: Ints,
    edge_from: Ints,
    needs: Ints,
    there: Ints,
    priority: Ints,
    starts: Ints,
    ends: Ints,
    before: Ints,
    free: Ints,
) -> int:
    """Go from moment to moment; give when the last activity is over.

    `before` counts what each still waits for: 0 for what can begin or goes on, -1 for what is over.
    """
    free[:] = there
    before[:] = 0
    starts[:] = -1
    for edge in edges:
        before[edge] += 1
    now, left, last = 0, len(before), 0
    while left > 0:
        best = best_now(before, starts, needs, free, priority)
        if best >= 0:
            starts[best], ends[best] = now, now + durations[best]
            last = max(last, ends[best])
            free -= needs[best]
            continue
        now = next_end(before, starts, ends)
        for node in range(len(before)):
            if starts[node] >= 0 and before[node] == 0 and ends[node] <= now:
                before[node] = -1
                left -= 1
                free += needs[node]
                for at in range(edge_from[node], edge_from[node + 1]):
                    before[edges[at]] -= 1
    return last


def _tables(project: Project) -> tuple[Ints, Ints, Ints, Ints, Ints]:
    """The project as the walk reads it."""
    edges = [then for later in project.after for then in later]
    lengths = np.cumsum([0, *(len(later) for later in project.after)])
    count = len(project.durations)
    return (
        np.array(project.durations, dtype=np.int64),
        np.array(edges, dtype=np.int64),
        np.array(lengths, dtype=np.int64),
        np.array(project.needs, dtype=np.int64).reshape(count, len(project.there)),
        np.array(project.there, dtype=np.int64),
    )


@cache
def compiled() -> Callable[..., int]:
    """The walk, compiled."""
    from numba import njit

    names = dict(globals())
    for plain in (best_now, next_end, walk):
        names[plain.__name__] = njit(nogil=True)(FunctionType(plain.__code__, names))
    made: Callable[..., int] = names["walk"]
    return made


class Walker:
    """Walks through one project again and again."""

    def __init__(self, project: Project, run: Callable[..., int] = walk) -> None:
        count = len(project.durations)
        self.project = project
        self.run = run
        self.tables = _tables(project)
        self.starts = np.zeros(count, dtype=np.int64)
        self.ends = np.zeros(count, dtype=np.int64)
        self._rest = (np.zeros(count, dtype=np.int64), np.zeros(len(project.there), dtype=np.int64))

    def __call__(self, priority: Ints) -> int:
        """When it is over, by these priorities; `starts` and `ends` then hold the schedule."""
        return self.run(*self.tables, priority, self.starts, self.ends, *self._rest)


def there_and_back(
    forwards: Walker, backwards: Walker, priority: Ints
) -> tuple[int, tuple[int, ...]]:
    """Walk forwards, back from the end in the order of the finishes, and forwards again.

    What ends last is taken first on the way back, and what begins first there on the way forth:
    forward-backward improvement (Li and Willis 1992, from memory), here with the one walk.
    """
    best = forwards(priority)
    starts = tuple(forwards.starts.tolist())
    over = backwards(forwards.ends.copy())
    if over < best:
        best, starts = over, tuple((over - backwards.ends).tolist())
    over = forwards(backwards.ends.copy())
    if over < best:
        best, starts = over, tuple(forwards.starts.tolist())
    return best, starts
