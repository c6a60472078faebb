"""The network of jobs as it applies now: what is left out joins what was before to after."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from bareshell.model.build import Build
from bareshell.model.job import JobStatus


def predecessors(build: Build) -> dict[str, tuple[str, ...]]:
    """Return for each job that is part of the build the jobs that come straight before it.

    A job that is left out, and any id that no job has, is replaced by its own
    predecessors, so that leaving a job out never frees what came after it too early.
    """
    after = {key: record.job.after for key, record in build.jobs.items()}
    gone = {k for k, r in build.jobs.items() if r.state.status is JobStatus.LEFT_OUT}
    return joined(after, gone)


def joined(after: Mapping[str, tuple[str, ...]], gone: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """Drop jobs from a network, joining their predecessors to their successors.

    Examples
    --------
    >>> joined({"a": (), "b": ("a",), "c": ("b",)}, {"b"})
    {'a': (), 'c': ('a',)}
    """
    out = set(gone)
    memo: dict[str, tuple[str, ...]] = {}

    def through(job: str, path: frozenset[str]) -> tuple[str, ...]:
        if job in memo:
            return memo[job]
        found: dict[str, None] = {}
        for before in after.get(job, ()):
            if before not in after or before in path:
                continue
            if before in out:
                found.update(dict.fromkeys(through(before, path | {before})))
            else:
                found[before] = None
        result = tuple(found)
        if not path - {job}:
            memo[job] = result
        return result

    return {job: through(job, frozenset({job})) for job in after if job not in out}


def find_cycle(after: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Return the jobs of one cycle, in order, or an empty tuple when there is none.

    Examples
    --------
    >>> find_cycle({"a": ("b",), "b": ("a",)})
    ('a', 'b')
    >>> find_cycle({"a": (), "b": ("a",)})
    ()
    """
    state: dict[str, int] = {}
    for root in after:
        if root in state:
            continue
        stack: list[tuple[str, int]] = [(root, 0)]
        path: list[str] = []
        while stack:
            job, index = stack.pop()
            if index == 0:
                state[job] = 1
                path.append(job)
            before = [b for b in after.get(job, ()) if b in after]
            if index < len(before):
                stack.append((job, index + 1))
                nxt = before[index]
                if state.get(nxt) == 1:
                    return tuple(path[path.index(nxt) :])
                if nxt not in state:
                    stack.append((nxt, 0))
            else:
                state[job] = 2
                path.pop()
    return ()


def in_order(after: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Return the jobs so that each comes after its predecessors; ties keep the given order.

    Raises
    ------
    ValueError
        When the network has a cycle; the cycle is named.
    """
    cycle = find_cycle(after)
    if cycle:
        raise ValueError("these jobs wait for each other: " + " -> ".join((*cycle, cycle[0])))
    placed: dict[str, None] = {}
    for root in after:
        stack = [(root, False)]
        while stack:
            job, ready = stack.pop()
            if job in placed:
                continue
            if ready:
                placed[job] = None
                continue
            stack.append((job, True))
            before = [b for b in after.get(job, ()) if b in after and b not in placed]
            stack.extend((b, False) for b in reversed(before))
    return tuple(placed)
