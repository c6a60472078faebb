"""What is off or out of the car, and what comes before what because of it.

A job that wants the engine out comes before the one that puts it in; one that needs the car on
its wheels comes after the one that puts them on. All of that is order, so it is tied as order,
and a walk can never run into a car that nothing can be done on.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from itertools import pairwise

from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.supports import bodies, possible

__all__ = ["bodies_to_come", "body_ties", "reach", "reached", "settled", "supports_by_body"]

Tie = tuple[int, int, str]
"""A job before, a job after, and the body state that asks for it."""


def reached(problem: PlanProblem, body: frozenset[str]) -> set[str]:
    """Find the supports that the car can be put on, by and by, while the body is so.

    Parameters
    ----------
    problem : PlanProblem
        With its sessions; two-person changes count when a helper ever comes.
    body : frozenset of str
        What is off or out.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import Change
    >>> from bareshell.plan.sessions import SessionSource
    >>> roll = Change("stands", "wheels", 20, body_bars=frozenset({"wheels off"}))
    >>> plan = PlanProblem(
    ...     datetime(2031, 3, 4, tzinfo=UTC), (), SessionSource(), changes=(roll,), support="stands"
    ... )
    >>> sorted(reached(plan, frozenset())), sorted(reached(plan, frozenset({"wheels off"})))
    (['stands', 'wheels'], ['stands'])
    """
    helper = any(slot.people > 1 for slot in problem.sessions.template)
    found = {problem.support}
    open_names = [problem.support]
    while open_names:
        here = open_names.pop()
        for change in problem.changes:
            usable = (change.people == 1 or helper) and possible(change, body)
            if change.before == here and usable and change.after not in found:
                found.add(change.after)
                open_names.append(change.after)
    return found


def bodies_to_come(
    problem: PlanProblem, edges: Sequence[tuple[int, int]] = ()
) -> list[frozenset[str]]:
    """List the combinations of those states that moving the car depends on which may yet be.

    Parameters
    ----------
    problem : PlanProblem
        Its jobs, changes and body.
    edges : sequence of (int, int)
        What comes before what, as far as it is known: no state ends before what must come first.
    """
    states = tuple(sorted({s for c in problem.changes for s in c.body_needs | c.body_bars}))
    begun = {s for job in problem.jobs for s in job.body_begins} | problem.body
    ended = {s for job in problem.jobs for s in job.body_ends}
    stays = {s for s in states if s in problem.body and s not in ended}
    found = [body for body in bodies(states) if body <= begun and stays <= body]
    if not edges or not states:
        return found
    into = _leading_in(edges)
    turns = {state: _turning(problem, state) for state in states}
    return [body for body in found if not _too_soon(problem, body, turns, into)]


def _turning(problem: PlanProblem, state: str) -> list[int]:
    """List the jobs that make a state otherwise than it is now."""
    now = state in problem.body
    return [
        node
        for node, job in enumerate(problem.jobs)
        if state in (job.body_ends if now else job.body_begins)
    ]


def _too_soon(
    problem: PlanProblem,
    body: frozenset[str],
    turns: dict[str, list[int]],
    into: dict[int, list[int]],
) -> bool:
    """Whether a body would need a state turned before another that must be turned first."""
    turned = [state for state in turns if (state in body) is not (state in problem.body)]
    still = [state for state in turns if state not in turned and len(turns[state]) == 1]
    return any(
        turns[late] and all(turns[early][0] in _behind(node, into) for node in turns[late])
        for late in turned
        for early in still
    )


def _leading_in(edges: Sequence[tuple[int, int]]) -> dict[int, list[int]]:
    into: dict[int, list[int]] = {}
    for first, then in edges:
        into.setdefault(then, []).append(first)
    return into


def _behind(node: int, into: dict[int, list[int]]) -> set[int]:
    """Say which jobs come before one, near and far."""
    seen: set[int] = set()
    todo = [node]
    while todo:
        for other in into.get(todo.pop(), ()):
            if other not in seen:
                seen.add(other)
                todo.append(other)
    return seen


def settled(problem: PlanProblem, edges: Sequence[tuple[int, int]] = ()) -> PlanProblem:
    """Write down with each job in which bodies alone the supports it needs can be reached.

    Parameters
    ----------
    problem : PlanProblem
        With its changes mended.
    edges : sequence of (int, int)
        What comes before what, as far as it is known.

    Returns
    -------
    problem : PlanProblem
        The same, some of its jobs with more `body_needs` and `body_bars`.
    """
    if not any(change.body_needs or change.body_bars for change in problem.changes):
        return problem
    where = supports_by_body(problem, edges)
    into = _leading_in(edges)
    jobs = list(problem.jobs)
    # First what allows but one answer, then what must make do with the order that leaves.
    for simple in (True, False):
        for node, job in enumerate(jobs):
            held = _held_simply(job, where) if simple else _held_to_one(problem, node, where, into)
            if held is not None:
                jobs[node] = replace(
                    job, body_needs=job.body_needs | held[0], body_bars=job.body_bars | held[1]
                )
                _tie(problem, node, held, into)
    return replace(problem, jobs=tuple(jobs))


def supports_by_body(
    problem: PlanProblem, edges: Sequence[tuple[int, int]] = ()
) -> dict[frozenset[str], set[str]]:
    """Say for each body to come on which supports the car can be put."""
    return {body: reached(problem, body) for body in bodies_to_come(problem, edges)}


def reach(job: PlanJob, where: dict[frozenset[str], set[str]]) -> list[frozenset[str]]:
    """List the bodies to come in which a job can be reached; any will do off the car."""
    states = frozenset().union(*where)
    asked = [
        body for body in where if job.body_needs & states <= body and job.body_bars.isdisjoint(body)
    ]
    if job.supports is None:
        return asked
    return [body for body in asked if not where[body].isdisjoint(job.supports)]


Held = tuple[frozenset[str], frozenset[str]]
"""Which states a job needs, and which it bars."""


def _held_simply(job: PlanJob, where: dict[frozenset[str], set[str]]) -> Held | None:
    """Say what a job asks of the body where single states decide whether it can be reached."""
    good = reach(job, where)
    if job.supports is None or not good or len(good) == len(where):
        return None
    states = frozenset().union(*where)
    needs = frozenset(s for s in states if all(s in body for body in good))
    bars = frozenset(s for s in states if all(s not in body for body in good))
    allowed = [body for body in where if needs <= body and not bars & body]
    return (needs, bars) if len(allowed) == len(good) else None


def _held_to_one(
    problem: PlanProblem,
    node: int,
    where: dict[frozenset[str], set[str]],
    into: dict[int, list[int]],
) -> Held | None:
    """Hold a job to one body of those that would do: one that its place in the order allows."""
    job = problem.jobs[node]
    good = reach(job, where)
    if job.supports is None or not good or len(good) == len(where):
        return None
    if _held_simply(job, where) is not None:
        return None
    states = frozenset().union(*where)
    fits = [body for body in good if _fits(problem, node, body, states, into)]
    now = problem.body & states
    best = now if now in fits else (fits or good)[0]
    return best, states - best


def _tie(problem: PlanProblem, node: int, held: Held, into: dict[int, list[int]]) -> None:
    """Keep in mind the order that a job is held to."""
    for states, wanted in ((held[0], True), (held[1], False)):
        for state in states:
            for turn in _turning(problem, state):
                first, then = (node, turn) if (state in problem.body) is wanted else (turn, node)
                into.setdefault(then, []).append(first)


def _fits(
    problem: PlanProblem,
    node: int,
    body: frozenset[str],
    states: frozenset[str],
    into: dict[int, list[int]],
) -> bool:
    """Whether a job may come after all that makes the body so, and before what makes it not so."""
    behind = _behind(node, into)
    for state in states:
        turned = (state in body) is not (state in problem.body)
        for turn in _turning(problem, state):
            if (node in _behind(turn, into)) if turned else (turn in behind):
                return False
    return True


def body_ties(problem: PlanProblem, edges: Sequence[tuple[int, int]], nodes: int) -> _Ties:
    """Tie the order that body states ask for.

    Parameters
    ----------
    problem : PlanProblem
        Its jobs and the body as it is now.
    edges : sequence of (int, int)
        What comes before what without it.
    nodes : int
        How many nodes there are, the jobs first.

    Returns
    -------
    ties : object
        `tied`, a list of (before, after, state), and `missing`, a list of (job, state) for what
        can never be.
    """
    ties = _Ties(problem, edges, nodes)
    ties.find()
    return ties


class _Ties:
    """Finds for each job and state the stretch of the work in which the body is as it asks."""

    def __init__(self, problem: PlanProblem, edges: Sequence[tuple[int, int]], nodes: int) -> None:
        self.problem = problem
        self.tied: list[Tie] = []
        self.missing: list[tuple[int, str]] = []
        self.before: list[list[int]] = [[] for _ in range(nodes)]
        self.after: list[list[int]] = [[] for _ in range(nodes)]
        for before, after in edges:
            self.before[after].append(before)
            self.after[before].append(after)

    def find(self) -> None:
        jobs = self.problem.jobs
        states = {s for job in jobs for s in job.body_needs | job.body_bars}
        for state in sorted(states):
            flips = [
                node for node, job in enumerate(jobs) if state in job.body_begins | job.body_ends
            ]
            mixed = len({state in jobs[node].body_begins for node in flips}) > 1
            if mixed:
                flips = self._in_line(flips, state)
            for node, job in enumerate(jobs):
                for wanted, asks in ((True, job.body_needs), (False, job.body_bars)):
                    if state in asks:
                        others = [flip for flip in flips if flip != node]
                        self._place(node, state, others, wanted=wanted, mixed=mixed)

    def _place(self, node: int, state: str, flips: list[int], *, wanted: bool, mixed: bool) -> None:
        """Tie one job into a stretch in which a state is as it wants."""
        now = state in self.problem.body
        begins = [state in self.problem.jobs[flip].body_begins for flip in flips]
        if not mixed:
            turns = [flip for flip, begin in zip(flips, begins, strict=True) if begin is not now]
            if now is wanted:
                self.tied += [(node, flip, state) for flip in turns]
            elif turns:
                # Any one of them brings it about; the first that does not itself wait for it.
                later = self._reaching(node, self.after)
                free = [flip for flip in turns if flip not in later]
                self.tied.append(((free or turns)[0], node, state))
            else:
                self.missing.append((node, state))
            return
        earlier, later = self._reaching(node, self.before), self._reaching(node, self.after)
        stretches = [(None, now), *zip(flips, begins, strict=True)]
        for at, (opens, holds) in enumerate(stretches):
            shuts = flips[at] if at < len(flips) else None
            if holds is wanted and opens not in later and shuts not in earlier:
                self.tied += [(opens, node, state)] if opens is not None else []
                self.tied += [(node, shuts, state)] if shuts is not None else []
                return
        self.missing.append((node, state))

    def _in_line(self, flips: list[int], state: str) -> list[int]:
        """Put the jobs that begin and end a state into the one order they are taken to have."""
        behind = {flip: self._reaching(flip, self.before) for flip in flips}
        line = sorted(flips, key=lambda flip: (len(behind[flip]), flip))
        for before, after in pairwise(line):
            self.tied.append((before, after, state))
            self.after[before].append(after)
            self.before[after].append(before)
        return line

    @staticmethod
    def _reaching(node: int, step: list[list[int]]) -> Collection[int | None]:
        found: set[int | None] = set()
        todo = [node]
        while todo:
            for other in step[todo.pop()]:
                if other not in found:
                    found.add(other)
                    todo.append(other)
        return found
