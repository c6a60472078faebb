"""What a walk through the sessions keeps in mind, and what it tells at the end."""

from __future__ import annotations

from dataclasses import dataclass, field

from bareshell.plan.schedule import Cause, CauseKind, Schedule

__all__ = ["NEVER", "Choice", "Look", "Offer", "Person", "Piece", "State", "Walked"]

NEVER = 1 << 50
"""Later than any session. [minutes from the origin]"""


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
        What bound the finish, one for each piece of work on the way, from the last back to the
        beginning.
    """

    finish_minute: int | None
    schedule: Schedule
    chain: tuple[Cause, ...]


@dataclass(slots=True)
class Piece:
    """One piece of work, and what it waited for."""

    job: int
    kind: CauseKind
    after: Piece | None
    """The piece that comes next on the way back."""
    part: int
    lost: int
    ends: int

    def cause(self) -> Cause:
        """Tell it as a cause."""
        return Cause(
            self.kind, self.after.job if self.after else -1, self.part, self.lost, self.job
        )


@dataclass(slots=True)
class Person:
    """The owner or the helper in the session that is on."""

    busy: int = 0
    """At work until then."""
    wakes: int = 0
    """Looks for work again then."""
    piece: Piece | None = None
    """The last piece of work in this session."""


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
class Look:
    """A moment at which somebody looks for work."""

    session: int
    now: int
    end: int
    hands: int
    """How many are free."""
    helper: bool = False
    """Whether it is the helper, for a job of their own."""
    movers: int = 0
    """How many can put the car as is wanted before that moment; 0 when nobody did."""
    joined: int = -1
    """From when both are free, when only one is now; -1 when that is not in this session."""


@dataclass(slots=True)
class State:
    """One job in the course of a walk."""

    before: int
    """How many jobs and gates before it are still to come."""
    released: int = 0
    released_by: tuple[CauseKind, int] = ("start", -1)
    ready: int = 0
    ready_by: Cause = field(default_factory=Cause)
    finish_ready: int = 0
    finish_part: int = -1
    people: int = 0
    """The way it was last worked in; 0 when it has not been begun."""
    planned: int = 0
    real: int = 0
    carried: bool = False
    finish: int = -1
    piece: Piece | None = None
    """Its last piece of work."""
    cut_by: CauseKind = "owner"
    """Why that piece did not finish it."""


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
