"""What a walk through the sessions keeps in mind, and what it tells at the end."""

from __future__ import annotations

from dataclasses import dataclass, field

from bareshell.plan.schedule import Cause, Schedule

__all__ = ["At", "Choice", "Offer", "State", "Walked"]


@dataclass(frozen=True, slots=True)
class Walked:
    """How a walk went.

    Parameters
    ----------
    finish_minute : int, optional
        When the last job of the goal was finished; None when the sessions ran out.
    schedule : Schedule
        Every move.
    chain : tuple of Cause
        What bound the finish, from the last job back to the beginning.
    """

    finish_minute: int | None
    schedule: Schedule
    chain: tuple[Cause, ...]


@dataclass(slots=True)
class Offer:
    """What could be done of one job from now on."""

    job: int
    people: int
    target: str
    change: int
    minutes: int
    """Planned work of this piece."""
    whole: bool
    """Whether the piece is planned to finish the job."""


@dataclass(frozen=True, slots=True)
class At:
    """The session looked at: the one that is on, or the next with the car already moved."""

    session: int
    people: int
    end: int
    moved: bool = False


@dataclass(slots=True)
class State:
    """One job in the course of a walk."""

    before: int
    """How many jobs and gates before it are still to come."""
    released: int = 0
    released_by: Cause = field(default_factory=Cause)
    ready: int = 0
    ready_by: Cause = field(default_factory=Cause)
    finish_ready: int = 0
    finish_part: int = -1
    people: int = 0
    """The way it was last worked in; 0 when it has not been begun."""
    planned: int = 0
    real: int = 0
    carried: bool = False
    start: int = -1
    finish: int = -1
    bound_by: Cause = field(default_factory=Cause)


@dataclass(frozen=True, slots=True)
class Choice:
    """A job that could be taken up at some moment of the first session.

    Parameters
    ----------
    job : int
        The job, by position.
    minute : int
        The moment.
    change : int
        How long it takes to put the car so. [min]
    score : int
        How much the policy wants it; it takes the highest.
    closes : bool
        Whether the session sees the end of it.
    """

    job: int
    minute: int
    change: int
    score: int
    closes: bool = True
