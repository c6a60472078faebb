"""A plan, move by move: what is done when, on which support, by how many, and why not sooner."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["CAUSES", "Block", "Cause", "CauseKind", "Schedule"]

CauseKind = Literal["start", "owner", "job", "wait", "part", "helper", "cold", "session", "date"]

CAUSES: tuple[CauseKind, ...] = (
    "start",
    "owner",
    "job",
    "wait",
    "part",
    "helper",
    "cold",
    "session",
    "date",
)
"""What a job may have waited for; the compiled walk counts them by position.

*start*: nothing; *owner*: busy with another job; *job*: the one before it; *wait*: after the one
before it; *part*; *helper*; *cold*: too cold; *session*: none, or none with room enough; *date*:
not before a day that was named.
"""


@dataclass(frozen=True, slots=True)
class Cause:
    """Why a job did not begin sooner.

    Parameters
    ----------
    kind : str
        One of `CAUSES`.
    job : int
        The job, by position, that comes next on the way back; -1 when there is none.
    part : int
        The part, by position, that was waited for; -1 when none was.
    lost_minutes : int
        Clock time for which nothing but this held the job up. [min]
    of : int
        The job, by position, that was held up.
    """

    kind: CauseKind = "start"
    job: int = -1
    part: int = -1
    lost_minutes: int = 0
    of: int = -1


@dataclass(frozen=True, slots=True)
class Block:
    """One move: a piece of work, or the car put on another support.

    Parameters
    ----------
    kind : {"work", "change"}
        Which.
    session : int
        Which session, counted from the first one written out.
    start_minute, end_minute : int
        From when to when. [minutes from the origin]
    support_before, support_after : str
        How the car stands; the same for work.
    people : int
        How many it takes.
    job_id : str, optional
        The job worked on, or for whose sake the car is moved.
    finishes : bool
        Whether the job is finished with it.
    cause : Cause, optional
        For the first piece of a job: why it did not begin sooner.
    by_helper : bool
        Whether the helper does it alone, beside the owner.
    """

    kind: Literal["work", "change"]
    session: int
    start_minute: int
    end_minute: int
    support_before: str
    support_after: str
    people: int = 1
    job_id: str | None = None
    finishes: bool = False
    cause: Cause | None = None
    by_helper: bool = False

    @property
    def minutes(self) -> int:
        """How long it takes."""
        return self.end_minute - self.start_minute


@dataclass(frozen=True, slots=True)
class Schedule:
    """Every move of a plan, in order of time.

    Parameters
    ----------
    blocks : tuple of Block
        The moves.
    finish_minute : int, optional
        When the last job of the goal is finished; None when it never is.
    left_over : tuple of str
        Jobs that found no session.
    """

    blocks: tuple[Block, ...] = ()
    finish_minute: int | None = None
    left_over: tuple[str, ...] = ()

    def in_session(self, session: int) -> tuple[Block, ...]:
        """Take the moves of one session."""
        return tuple(block for block in self.blocks if block.session == session)
