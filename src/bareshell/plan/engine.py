"""One door to the walk: many fates at once, on two threads, or by the twin without a compiler.

An `Engine` never loses a fate: where the sessions written out are used up, it writes out twice as
many and walks again. Its answers depend on the problem, the policy and the seed, never on the
number of threads.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from typing import TYPE_CHECKING, Literal

from bareshell.errors import BareshellError
from bareshell.plan import columns
from bareshell.plan.arrays import Arrays, arrays, horizon
from bareshell.plan.compiled import compiled_run
from bareshell.plan.known import known
from bareshell.plan.policy import Policy
from bareshell.plan.problem import PlanJob, PlanProblem, Way
from bareshell.plan.sampling import Fates, as_planned, draw
from bareshell.plan.schedule import CAUSES, Cause
from bareshell.plan.sessions import SessionSlot, SessionSource
from bareshell.plan.walk import walk

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["PLAIN_SAMPLES", "Binding", "Engine", "EngineName", "NeverEnds", "Outcome", "warm_up"]

EngineName = Literal["compiled", "plain"]
"""Which of the two walks answered."""

PLAIN_SAMPLES = 60
"""How many fates the twin walks through at most: some seconds' worth."""

LEAST_DRAWN = 512
"""How many fates are drawn at once at least."""

MOST_SESSIONS = 60_000
"""Where a walk that never ends is given up: some centuries of evenings.

A helper who hardly ever comes makes decades of a warm day's work for two; decades are an answer.
"""


class NeverEnds(BareshellError):
    """A walk in which some jobs find no session, however long it goes on.

    Parameters
    ----------
    job_ids : tuple of str
        The jobs that were left in it.
    """

    kind = "never ends"

    def __init__(self, job_ids: tuple[str, ...]) -> None:
        super().__init__(
            "the plan does not come to an end", "look at the jobs that never find a session"
        )
        self.job_ids = job_ids


@dataclass(frozen=True, slots=True)
class Binding:
    """What bound the finish, counted over all fates.

    Parameters
    ----------
    kind_samples, kind_minutes : tuple of int
        For each of `bareshell.plan.schedule.CAUSES`: in how many fates it was on the chain that
        bound the finish, and for how much clock time in all.
    job_samples : tuple of int
        For each job: in how many fates it was on that chain.
    part_samples, part_minutes : tuple of int
        The same for each part.
    """

    kind_samples: tuple[int, ...]
    kind_minutes: tuple[int, ...]
    job_samples: tuple[int, ...]
    part_samples: tuple[int, ...]
    part_minutes: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Outcome:
    """How many walks went.

    Parameters
    ----------
    finish : array of int64, shape (samples,)
        When the goal was reached in each. [minutes from the origin]
    binding : Binding
        What bound it.
    engine : {"compiled", "plain"}
        Which walk answered.
    """

    finish: NDArray[np.int64]
    binding: Binding
    engine: EngineName


class Engine:
    """Walks through one plannable problem again and again.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    threads : int
        How many threads may walk at once.
    engine : {"compiled", "plain"}, optional
        Which walk to use; the compiled one where there is one.

    Examples
    --------
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings)
    >>> Engine(plan, engine="plain").run(Policy((60,)), seed=1, samples=5).finish.shape
    (5,)
    """

    def __init__(
        self, problem: PlanProblem, *, threads: int = 2, engine: EngineName | None = None
    ) -> None:
        self.problem = problem
        self.threads = max(1, threads)
        self._run = None if engine == "plain" else compiled_run()
        self.name: EngineName = "plain" if self._run is None else "compiled"
        self._sessions = horizon(problem)
        self._arrays: Arrays | None = None
        self._planned: tuple[Arrays, Fates] | None = None
        self._fates: dict[int, Fates] = {}

    def samples(self, wanted: int) -> int:
        """Say how many fates are walked through when so many are wanted."""
        return wanted if self._run is not None else min(wanted, PLAIN_SAMPLES)

    def run(
        self,
        policy: Policy,
        *,
        seed: int,
        samples: int,
        skip: int = 0,
        forced: Sequence[int] = (),
    ) -> Outcome:
        """Walk through drawn fates.

        Parameters
        ----------
        policy : Policy
            What to go by.
        seed, samples, skip : int
            Which fates: as many as `samples` says, after the first `skip`.
        forced : sequence of int
            Jobs to take first in the first session.
        """
        samples = self.samples(samples)
        while True:
            fates = self._drawn(seed, skip + samples).some(skip, skip + samples)
            outcome = self._go(policy, fates, forced)
            if outcome.finish.min(initial=0) >= 0:
                return outcome
            if 2 * self._sessions > MOST_SESSIONS:
                raise NeverEnds(self._left_in(policy, fates, int(outcome.finish.argmin()), forced))
            self._write_out_more()

    def planned_finish(self, policy: Policy) -> int | None:
        """Say when the goal is reached if all goes exactly as estimated; None for never."""
        if self._planned is None:
            sessions = 4 * self._sessions
            self._planned = arrays(self.problem, sessions), as_planned(self.problem, sessions)
        flat, fates = self._planned
        if self._run is None:
            finish = _plain(self.problem, policy, fates, ()).finish
        else:
            finish = _compiled(self._run, flat, policy, fates, ())[0]
        return int(finish[0]) if finish[0] >= 0 else None

    def _drawn(self, seed: int, samples: int) -> Fates:
        fates = self._fates.get(seed)
        if fates is None or fates.samples < samples:
            # A few too many are cheaper than drawing anew when a little more is asked for.
            count = max(samples, LEAST_DRAWN)
            fates = draw(self.problem, self._sessions, seed=seed, samples=count)
            self._fates[seed] = fates
        return fates

    def _write_out_more(self) -> None:
        self._sessions *= 2
        self._arrays = None
        self._fates.clear()

    def _left_in(
        self, policy: Policy, fates: Fates, row: int, forced: Sequence[int]
    ) -> tuple[str, ...]:
        """Say which jobs a fate never gets done."""
        walked = walk(self.problem, policy, fates.one(row), forced=forced, whole=False)
        return walked.schedule.left_over

    def _go(self, policy: Policy, fates: Fates, forced: Sequence[int]) -> Outcome:
        if self._run is None:
            return _plain(self.problem, policy, fates, forced)
        if self._arrays is None:
            self._arrays = arrays(self.problem, self._sessions)
        chunks = _chunks(fates, self.threads)
        compiled, flat = self._run, self._arrays

        def one(chunk: Fates) -> tuple[NDArray[np.int64], tuple[NDArray[np.int64], ...]]:
            return _compiled(compiled, flat, policy, chunk, forced)

        walks = map if len(chunks) == 1 else _pool(self.threads).map
        parts = list(walks(one, chunks))
        return _joined(parts)


@cache
def _pool(threads: int) -> ThreadPoolExecutor:
    """Keep some threads: to start them anew took as long as a hundred walks (measured)."""
    return ThreadPoolExecutor(threads, thread_name_prefix="walk")


def _chunks(fates: Fates, threads: int) -> list[Fates]:
    if threads == 1 or fates.samples < 2 * threads:
        return [fates]
    edges = [fates.samples * index // threads for index in range(threads + 1)]
    return [fates.some(edges[index], edges[index + 1]) for index in range(threads)]


def _compiled(
    run: Callable[..., None], flat: Arrays, policy: Policy, fates: Fates, forced: Sequence[int]
) -> tuple[NDArray[np.int64], tuple[NDArray[np.int64], ...]]:
    """Walk through some fates on this thread, with tables of its own."""
    import numpy as np

    def table(*shape: int) -> NDArray[np.int64]:
        return np.zeros(shape, dtype=np.int64)

    nodes, jobs, parts = len(flat.nodes), flat.jobs, len(flat.arrives)
    # A piece of work ends with its session, with its job, or once for each job before its finish.
    pieces = 4 * nodes + 4 * len(flat.sessions) + 64
    finish = table(fates.samples)
    counts = (table(len(CAUSES)), table(len(CAUSES)), table(jobs), table(parts), table(parts))
    run(
        flat.nodes,
        flat.edges,
        flat.wanted,
        flat.sessions,
        flat.change,
        flat.given,
        np.array(policy.priority, dtype=np.int64),
        np.array(
            [policy.stickiness, policy.finish_first, policy.helper_first, policy.together],
            dtype=np.int64,
        ),
        np.array(forced, dtype=np.int64),
        np.ascontiguousarray(fates.factor),
        np.ascontiguousarray(fates.arrives),
        np.ascontiguousarray(fates.people),
        finish,
        table(nodes, columns.STATE_COLUMNS),
        table(pieces, columns.PIECE_COLUMNS),
        table(columns.SCALARS),
        table(jobs),
        table(nodes),
        *counts,
    )
    return finish, counts


def _joined(
    parts: Sequence[tuple[NDArray[np.int64], tuple[NDArray[np.int64], ...]]],
) -> Outcome:
    import numpy as np

    kind_minutes, kind_samples, job_samples, part_samples, part_minutes = (
        tuple(int(value) for value in np.sum(column, axis=0))
        for column in zip(*(counts for _, counts in parts), strict=True)
    )
    return Outcome(
        np.concatenate([finish for finish, _ in parts]),
        Binding(kind_samples, kind_minutes, job_samples, part_samples, part_minutes),
        "compiled",
    )


def _plain(problem: PlanProblem, policy: Policy, fates: Fates, forced: Sequence[int]) -> Outcome:
    """Walk through some fates with the twin."""
    import numpy as np

    finish = np.full(fates.samples, -1, dtype=np.int64)
    chains: list[tuple[Cause, ...]] = []
    read = known(problem)
    for row in range(fates.samples):
        walked = walk(problem, policy, fates.one(row), forced=forced, whole=False, known=read)
        if walked.finish_minute is not None:
            finish[row] = walked.finish_minute
            chains.append(walked.chain)
    return Outcome(finish, _counted(problem, chains), "plain")


def _counted(problem: PlanProblem, chains: Sequence[tuple[Cause, ...]]) -> Binding:
    kind_samples, kind_minutes = [0] * len(CAUSES), [0] * len(CAUSES)
    job_samples = [0] * len(problem.jobs)
    part_samples, part_minutes = [0] * len(problem.arrivals), [0] * len(problem.arrivals)
    for chain in chains:
        for kind in {cause.kind for cause in chain}:
            kind_samples[CAUSES.index(kind)] += 1
        for job in {cause.of for cause in chain}:
            job_samples[job] += 1
        for cause in chain:
            kind_minutes[CAUSES.index(cause.kind)] += cause.lost_minutes
            if cause.part >= 0:
                part_samples[cause.part] += 1
                part_minutes[cause.part] += cause.lost_minutes
    return Binding(
        tuple(kind_samples),
        tuple(kind_minutes),
        tuple(job_samples),
        tuple(part_samples),
        tuple(part_minutes),
    )


@cache
def warm_up() -> EngineName:
    """Compile the walk, or load it from where it was kept, and say which walk will answer.

    The first time on a machine this takes some seconds: say so before calling it.

    Returns
    -------
    engine : {"compiled", "plain"}
        What every answer of this process will be made with.
    """
    job = PlanJob("first", "First", "any", (Way(1, 60, 60, 60),))
    slot = SessionSlot(60, 150)
    problem = PlanProblem(datetime(2001, 1, 1, tzinfo=UTC), (job,), SessionSource.repeating([slot]))
    return Engine(problem).run(Policy((60,)), seed=0, samples=1).engine
