"""Trying changes one after another and keeping those that do no harm.

What is searched and what a change costs is the caller's; how many are tried is a count, never a
time, so that the answer repeats.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["changed_weights", "climb"]

S = TypeVar("S")

LEAST_KICK = 60
"""The least by which a weight is moved, about. [min]"""


def climb(
    start: S, cost: Callable[[S], float], change: Callable[[S], S], moves: int
) -> Iterator[tuple[S, float]]:
    """Try changes; yield after each what is kept by then, and what it costs.

    Parameters
    ----------
    start : object
        Where to begin.
    cost : callable
        What one costs; the less the better.
    change : callable
        Makes another from one.
    moves : int
        How many changes are tried.

    Examples
    --------
    >>> steps = iter([9, 4, 8, 1])
    >>> list(climb(5, float, lambda kept: next(steps), 4))
    [(5, 5.0), (4, 4.0), (4, 4.0), (1, 1.0)]
    """
    kept, least = start, cost(start)
    for _ in range(moves):
        tried = change(kept)
        costs = cost(tried)
        if costs <= least:
            kept, least = tried, costs
        yield kept, least


def changed_weights(
    weights: NDArray[np.int64], dice: np.random.Generator, often: NDArray[np.float64]
) -> NDArray[np.int64]:
    """Change the weight of one job, or of two against each other.

    Parameters
    ----------
    weights : array of int64
        One for each job.
    dice : numpy.random.Generator
        For what is changed, and by how much.
    often : array of float64
        How often each job is picked, together 1.
    """
    tried = weights.copy()
    job = int(dice.choice(len(weights), p=often))
    roll = dice.random()
    if roll < 0.45:
        tried[job] = weights[dice.integers(len(weights))] + dice.integers(-LEAST_KICK, 61)
    elif roll < 0.85:
        low, high = int(weights.min()), int(weights.max())
        moved = int(weights[job] + dice.normal(0.0, max(LEAST_KICK, 0.1 * (high - low))))
        # Kept within what the weights span, so that no run of changes carries one away.
        tried[job] = max(low - LEAST_KICK, min(high + LEAST_KICK, moved))
    else:
        other = int(dice.integers(len(weights)))
        tried[job], tried[other] = weights[other], weights[job]
    return tried
