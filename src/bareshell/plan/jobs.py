"""One job as planning sees it: its ways, what comes before it, and what it asks of the day.

Whoever makes a problem leaves out what is done and turns a wait that is still running into
`PlanJob.earliest_minute`.
"""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.errors import BadInput

__all__ = ["Link", "PlanJob", "Way"]


@dataclass(frozen=True, slots=True)
class Way:
    """One way of doing a job: alone with a pressure kit, or two people.

    Parameters
    ----------
    people : int
        1 or 2.
    optimistic_minutes, likely_minutes, pessimistic_minutes : int
        Shorter one time in ten; as often shorter as longer; longer one time in ten. [min]
    kit : str
        What this way wants to hand: ``"pressure kit"``.
    """

    people: int
    optimistic_minutes: int
    likely_minutes: int
    pessimistic_minutes: int
    kit: str = ""

    def __post_init__(self) -> None:
        if self.people not in (1, 2):
            raise BadInput("people of a way", f"is {self.people}", "write 1 or 2")
        if not 0 < self.optimistic_minutes <= self.likely_minutes <= self.pessimistic_minutes:
            raise BadInput(
                "hours of a way",
                f"{self.optimistic_minutes}, {self.likely_minutes} and "
                f"{self.pessimistic_minutes} minutes are not in rising order above 0",
                "give optimistic, likely and pessimistic hours, each at least as long",
            )


@dataclass(frozen=True, slots=True)
class Link:
    """A job that comes before, and how long to wait after it.

    Parameters
    ----------
    job_id : str
        The job before.
    wait_minutes : int
        Clock time from its finish. [min]
    stretch_with_cold : bool
        Whether the cold makes the wait longer (cure of sealer, wax, adhesive).
    """

    job_id: str
    wait_minutes: int = 0
    stretch_with_cold: bool = False

    def __post_init__(self) -> None:
        if self.wait_minutes < 0:
            raise BadInput("wait", f"is {self.wait_minutes} minutes", "give 0 or more")


@dataclass(frozen=True, slots=True)
class PlanJob:
    """One job that is not finished.

    Parameters
    ----------
    id, title, system : str
        Its key, what the restorer reads, and the part of the car it belongs to.
    ways : tuple of Way
        At least one; the quicker one that tonight's people allow is taken.
    after : tuple of Link
        Jobs that come before it.
    minutes_done : int
        Already worked on it. [min]
    started : bool
        Begun and not finished. One that may not be split comes first, whatever else could be
        begun; one that may has a start on the others.
    supports : frozenset of str, optional
        How the car may stand for it; None when it is done off the car, whether that is moved
        meanwhile or not.
    splittable : bool
        Whether it may be done in pieces over several sessions.
    least_piece_minutes : int
        No piece but the last is shorter. [min]
    min_temperature_c : float, optional
        Lowest temperature for the work, and through its cure. [degC]
    cure_minutes : int
        How long after its finish `min_temperature_c` must hold. [min]
    cure_stretches : bool
        Whether the cold makes that longer.
    parts_to_start, parts_to_finish : tuple of str
        Arrivals without which it cannot begin, or cannot be finished.
    proofs_before : tuple of str
        Proofs that it would cover.
    gates_before : tuple of str
        Gates it may not pass while they are shut (also named by `Gate.blocks`).
    dirty, dangerous_alone : bool
        What tonight's mood may leave out.
    helper_alone : bool
        Whether it is marked as work for a helper on their own.
    body_needs, body_bars : frozenset of str
        What must be off or out for it, and what must not: ``"engine out"``.
    body_begins, body_ends : frozenset of str
        What is off or out once it is finished, and what is no longer.
    earliest_minute : int
        Not before; a wait after a finished job that is still running. [minutes from the origin]

    Examples
    --------
    >>> PlanJob("tank", "Hang the fuel tank", "fuel", (Way(1, 60, 90, 150),)).ways[0].likely_minutes
    90
    """

    id: str
    title: str
    system: str
    ways: tuple[Way, ...]
    after: tuple[Link, ...] = ()
    minutes_done: int = 0
    started: bool = False
    supports: frozenset[str] | None = None
    splittable: bool = False
    least_piece_minutes: int = 30
    min_temperature_c: float | None = None
    cure_minutes: int = 0
    parts_to_start: tuple[str, ...] = ()
    parts_to_finish: tuple[str, ...] = ()
    proofs_before: tuple[str, ...] = ()
    gates_before: tuple[str, ...] = ()
    dirty: bool = False
    dangerous_alone: bool = False
    earliest_minute: int = 0
    cure_stretches: bool = False
    helper_alone: bool = False
    body_needs: frozenset[str] = frozenset()
    body_bars: frozenset[str] = frozenset()
    body_begins: frozenset[str] = frozenset()
    body_ends: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        name = f"job '{self.title}'"
        if not self.ways:
            raise BadInput(name, "has no way of doing it", "give it hours for one or two people")
        if self.supports is not None and not self.supports:
            raise BadInput(
                name, "names no support that would do", "name one, or none when it is off the car"
            )
        for what, value in (
            ("minutes done", self.minutes_done),
            ("cure", self.cure_minutes),
            ("least piece less one", self.least_piece_minutes - 1),
        ):
            if value < 0:
                raise BadInput(f"{what} of {name}", f"is {value}", "give 0 or more")
        for one, other in ((self.body_needs, self.body_bars), (self.body_begins, self.body_ends)):
            if one & other:
                raise BadInput(
                    name, f"wants '{min(one & other)}' both ways", "take out the one that is wrong"
                )
