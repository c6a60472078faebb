"""What the owner goes by when choosing the next job, and one way it may really go."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["COMES_FIRST", "SESSIONS_AHEAD", "Fate", "Policy"]

COMES_FIRST = 1 << 40
"""Weight of a job that was begun and may not be left, above every other."""

SESSIONS_AHEAD = 4
"""So many sessions on are looked through for the first that could use the car put otherwise."""


@dataclass(frozen=True, slots=True)
class Policy:
    """What the owner goes by when choosing the next job.

    Parameters
    ----------
    priority : tuple of int
        Weight of each job, in the problem's order (`bareshell.plan.priority.tails`). [min]
    stickiness : int
        Weight lost for each minute of moving the car. [-]
    finish_first : int
        Weight won by a job that was begun. [min]
    helper_first : int
        Weight won by a job that takes two, while the helper is there. [min]
    job_ids : tuple of str
        Which jobs the weights are for, so that a rule that was kept still fits when jobs have
        been finished or added since; empty when it is not to be kept.
    together : int
        While the helper could do a job of their own: how many minutes of working alone a hundred
        minutes of working together must save for two to take what one could do.
    """

    priority: tuple[int, ...]
    stickiness: int = 20
    finish_first: int = 240
    helper_first: int = 2400
    job_ids: tuple[str, ...] = ()
    together: int = 150


@dataclass(frozen=True, slots=True)
class Fate:
    """One way it may go.

    Parameters
    ----------
    factor : sequence of float
        Real over planned hours, for each job.
    arrives : sequence of int
        When each part comes.
    people : sequence of int
        Who is there in each session; 0 when it is lost.
    """

    factor: Sequence[float]
    arrives: Sequence[int]
    people: Sequence[int]
