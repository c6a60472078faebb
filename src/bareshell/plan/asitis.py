"""Tonight's session as it really is, laid over the one that was expected."""

from __future__ import annotations

from dataclasses import dataclass, replace

from bareshell.errors import BadInput
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.sessions import Beside, SessionSlot

__all__ = ["AsItIs", "expected_slot", "laid_over"]


@dataclass(frozen=True, slots=True)
class AsItIs:
    """What is known of tonight; None wherever it is as expected.

    Parameters
    ----------
    start_minute, minutes : int, optional
        When it begins and how long it lasts. [min]
    people : int, optional
        1 alone, 2 with the helper.
    temperature_c, lowest_until_next_c : float, optional
        How warm the garage is, and the coldest it will be until the next session. [degC]
    support : str, optional
        How the car stands.
    already_set_up : bool
        Whether the bay is set up, as in the middle of a session.
    nothing_dirty, nothing_dangerous_alone : bool
        What the owner is not in the mood for.
    leave_out : frozenset of str
        Jobs not wanted tonight.
    beside : {"", "marked", "any"}, optional
        What the helper may do alone tonight.

    Examples
    --------
    >>> AsItIs(minutes=60, people=2).people
    2
    """

    start_minute: int | None = None
    minutes: int | None = None
    people: int | None = None
    temperature_c: float | None = None
    lowest_until_next_c: float | None = None
    support: str | None = None
    already_set_up: bool = False
    nothing_dirty: bool = False
    nothing_dangerous_alone: bool = False
    leave_out: frozenset[str] = frozenset()
    beside: Beside | None = None

    def unwanted(self, job: PlanJob, people: int) -> str:
        """Say why a job is not wanted tonight; empty when it is."""
        if job.id in self.leave_out:
            return "It was put off for tonight."
        if self.nothing_dirty and job.dirty:
            return "It is dirty work, and tonight is to be nothing dirty."
        if self.nothing_dangerous_alone and job.dangerous_alone and people == 1:
            return "It is not done alone tonight: nobody else would be there if it went wrong."
        return ""


def expected_slot(problem: PlanProblem) -> SessionSlot | None:
    """Find the session that is on now or comes next."""
    return next((slot for slot in problem.sessions if slot.end_minute > 0), None)


def laid_over(problem: PlanProblem, as_it_is: AsItIs) -> PlanProblem:
    """Lay tonight as it is over what was expected.

    Parameters
    ----------
    problem : PlanProblem
        As expected.
    as_it_is : AsItIs
        What is known of tonight.

    Returns
    -------
    problem : PlanProblem
        With tonight as its first session, certain to take place, and with whatever is unwanted
        tonight not before its end.

    Raises
    ------
    BadInput
        When no session is expected and tonight's hours are not given.
    """
    slot = _tonight(problem, as_it_is)
    jobs = tuple(
        replace(job, earliest_minute=max(job.earliest_minute, slot.end_minute))
        if as_it_is.unwanted(job, slot.people)
        else job
        for job in problem.jobs
    )
    return replace(
        problem,
        jobs=jobs,
        sessions=problem.sessions.with_first(slot),
        support=problem.support if as_it_is.support is None else as_it_is.support,
    )


def _tonight(problem: PlanProblem, as_it_is: AsItIs) -> SessionSlot:
    slot = expected_slot(problem)
    if slot is None:
        if as_it_is.minutes is None:
            raise BadInput(
                "tonight's session",
                "no session is expected and its hours are not given",
                "say how long there is tonight",
            )
        slot = SessionSlot(0, as_it_is.minutes)
    # Of a session that has begun, only what is left counts.
    start = max(0, slot.start_minute)
    minutes = slot.end_minute - start
    if as_it_is.start_minute is not None:
        start = as_it_is.start_minute
        minutes = slot.minutes
    minutes = minutes if as_it_is.minutes is None else as_it_is.minutes
    if as_it_is.already_set_up:
        # The set-up that every session begins with is already over.
        start, minutes = start - problem.set_up_minutes, minutes + problem.set_up_minutes
    warmth, coldest = slot.temperature_c, slot.lowest_until_next_c
    if as_it_is.temperature_c is not None:
        warmth = as_it_is.temperature_c
    if as_it_is.lowest_until_next_c is not None:
        coldest = as_it_is.lowest_until_next_c
    return replace(
        slot,
        start_minute=start,
        minutes=minutes,
        people=slot.people if as_it_is.people is None else as_it_is.people,
        beside=slot.beside if as_it_is.beside is None else as_it_is.beside,
        temperature_c=warmth,
        lowest_until_next_c=coldest,
        certain=True,
    )
