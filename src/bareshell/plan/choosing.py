"""Which job first: each candidate is forced first on the same fates, and the finishes compared."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bareshell.plan.known import Known, known
from bareshell.plan.priority import paired_days
from bareshell.plan.ready import Ready
from bareshell.plan.walk import choices

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["FIRST_MOVE_SAMPLES", "Candidate", "Chosen", "choose_moves"]

FIRST_MOVE_SAMPLES = 400
"""On how many fates the first move is compared, so that tonight and the road ahead agree."""

MOST_CANDIDATES = 15
"""How many candidates for a move are compared; the rest want it least."""

LATER_CANDIDATES = 8
"""The same for the moves after the first."""

MOST_MOVES = 6
"""How many moves of the evening are chosen by comparison; the rest follow the policy."""

PLAIN_CANDIDATES = 4
PLAIN_FATES = 20
"""Candidates and fates when the twin has to walk: a few seconds' worth."""

NO_ODDS_DAYS = 0.1
"""A difference in the road date that makes no odds. [days]"""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A job that could be taken up first.

    Parameters
    ----------
    job : int
        The job, by position.
    regret_days, standard_error_days : float
        How much later the goal is reached on average when it comes first instead of the chosen
        one, and how far that may be off. [days]
    samples : int
        On how many fates it was compared; fewer when it was soon clear.
    as_good : bool
        Whether the difference is within twice its standard error, or too small to matter.
    """

    job: int
    regret_days: float
    standard_error_days: float
    samples: int
    as_good: bool


@dataclass(frozen=True, slots=True)
class Chosen:
    """The moves chosen for the first session.

    Parameters
    ----------
    forced : tuple of int
        The jobs to take up, by position, in order; what comes after them follows the policy.
    candidates : tuple of Candidate
        What could have come first instead, the least regret first.
    samples : int
        On how many fates they were compared.
    """

    forced: tuple[int, ...]
    candidates: tuple[Candidate, ...]
    samples: int


def choose_moves(ready: Ready, *, samples: int = FIRST_MOVE_SAMPLES) -> Chosen:
    """Choose the first session's moves by what they do to the finish.

    The policy's own choice stands unless another is clearly better, so that a plan does not
    change for the sake of noise; but neither is the car moved for the sake of noise, nor a job
    begun that cannot be finished tonight while one as good can be.

    Parameters
    ----------
    ready : Ready
        With tonight as its first session.
    samples : int
        How many fates the first move is compared on; later moves are compared on a quarter.
    """
    most, moves = MOST_CANDIDATES, MOST_MOVES
    if ready.engine.name == "plain":
        # Without a compiler only the first move is compared, roughly.
        most, moves, samples = PLAIN_CANDIDATES, 1, min(samples, PLAIN_FATES)
    read = known(ready.problem)
    first = _compare(ready, read, (), samples, most)
    if first is None:
        return Chosen((), (), 0)
    best, candidates = first
    forced = [best]
    later = max(2, samples // 4)
    while len(forced) < moves:
        following = _compare(ready, read, tuple(forced), later, LATER_CANDIDATES)
        if following is None:
            break
        forced.append(following[0])
    return Chosen(tuple(forced), candidates, samples)


def _compare(
    ready: Ready, read: Known, forced: tuple[int, ...], samples: int, most: int
) -> tuple[int, tuple[Candidate, ...]] | None:
    """Pick the next move; None when nothing more can be begun in this session."""
    found = choices(ready.problem, ready.policy, forced, known=read)[:most]
    if not found:
        return None
    jobs = [choice.job for choice in found]
    if len(jobs) == 1:
        return jobs[0], (Candidate(jobs[0], 0.0, 0.0, 0, as_good=True),)
    finishes = _race(ready, forced, jobs, samples)
    best = _clearly_best(jobs, finishes)
    candidates = _candidates(best, finishes)
    # Among what is as good, the car is moved as little as may be, and what can be finished in
    # this session comes before what would only be begun.
    at = {choice.job: (choice.change, not choice.closes) for choice in found}
    good = [best, *(c.job for c in candidates if c.as_good)]
    kindest = min(good, key=lambda job: (*at[job], jobs.index(job)))
    if at[kindest] < at[best]:
        best, candidates = kindest, _candidates(kindest, finishes)
    return best, candidates


def _race(
    ready: Ready, forced: tuple[int, ...], jobs: Sequence[int], samples: int
) -> dict[int, NDArray[np.int64]]:
    """Run each candidate on a quarter of the fates, then those still in question on the rest."""
    import numpy as np

    quarter = max(2, samples // 4)

    def run(job: int, count: int, skip: int) -> NDArray[np.int64]:
        return ready.engine.run(
            ready.policy, seed=ready.seed, samples=count, skip=skip, forced=(*forced, job)
        ).finish

    finishes = {job: run(job, quarter, 0) for job in jobs}
    leader = min(jobs, key=lambda job: (finishes[job].mean(), jobs.index(job)))
    open_jobs = {jobs[0], leader}
    for job in jobs:
        later, error = paired_days(finishes[job], finishes[leader])
        if later <= max(3 * error, NO_ODDS_DAYS):
            open_jobs.add(job)
    if len(open_jobs) > 1 and samples > quarter:
        for job in sorted(open_jobs):
            more = run(job, samples - quarter, quarter)
            finishes[job] = np.concatenate([finishes[job], more])
    return finishes


def _clearly_best(jobs: Sequence[int], finishes: dict[int, NDArray[np.int64]]) -> int:
    """Stay with the policy's own choice unless another is better by twice the standard error."""
    best = jobs[0]
    for job in jobs[1:]:
        both = min(len(finishes[job]), len(finishes[best]))
        gain, error = paired_days(finishes[best][:both], finishes[job][:both])
        if gain > max(2 * error, NO_ODDS_DAYS):
            best = job
    return best


def _candidates(best: int, finishes: dict[int, NDArray[np.int64]]) -> tuple[Candidate, ...]:
    out: list[Candidate] = []
    for job, finish in finishes.items():
        both = min(len(finish), len(finishes[best]))
        regret, error = paired_days(finish[:both], finishes[best][:both])
        as_good = regret <= max(2 * error, NO_ODDS_DAYS)
        out.append(Candidate(job, regret, error, both, as_good))
    return tuple(sorted(out, key=lambda c: (c.job != best, c.regret_days, c.job)))
