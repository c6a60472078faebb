"""Whether a job fits the sessions there are, the car having to be moved for it included.

A job that no session can hold in one go would hold up the road for ever. So it is planned in
pieces as long as a session allows, and that is said.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from bareshell.plan import wording
from bareshell.plan.hours import planned_minutes
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.supports import NO_WAY, ChangeTimes, Table, warm_enough

__all__ = ["Assumption", "Kinds", "fitted_in", "takes", "usable"]


NO_ROOM = 1 << 40
"""More minutes than any session has."""


@dataclass(frozen=True, slots=True)
class Assumption:
    """One thing that is planned as if it were so.

    Parameters
    ----------
    rule, sentence, remedy : str
        As in a snag.
    job_ids : tuple of str
        The jobs it touches.
    """

    rule: str
    sentence: str
    remedy: str
    job_ids: tuple[str, ...] = ()


def usable(problem: PlanProblem, slot: SessionSlot) -> int:
    """Say how many minutes of work a session holds."""
    return slot.minutes - problem.set_up_minutes - problem.clear_up_minutes


def takes(slot: SessionSlot, job: PlanJob) -> bool:
    """Whether a session has the people and the warmth for a job, whatever its length."""
    warm = warm_enough(slot.temperature_c, job.min_temperature_c)
    return warm and any(way.people <= slot.people for way in job.ways)


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of session: who is there, for how long, and the same of the one before it."""

    people: int
    room: int
    people_before: int
    room_before: int
    temperature_c: float | None


class Kinds:
    """The kinds of session there are, each with the one before it: there are far fewer of them.

    Parameters
    ----------
    problem : PlanProblem
        With its sessions mended.
    """

    def __init__(self, problem: PlanProblem) -> None:
        slots = problem.sessions.template
        rooms = [usable(problem, slot) for slot in slots]
        pairs = ((at, at - 1) for at in range(len(slots)))
        self._exact = {
            Kind(slots[b].people, rooms[b], slots[a].people, rooms[a], slots[b].temperature_c)
            for b, a in pairs
        }
        self._any = {replace(kind, temperature_c=None) for kind in self._exact}

    def taking(self, job: PlanJob) -> list[Kind]:
        """List those with the people and the warmth for a job."""
        kinds = self._any if job.min_temperature_c is None else self._exact
        least = min(way.people for way in job.ways)
        return [
            kind
            for kind in kinds
            if kind.people >= least and warm_enough(kind.temperature_c, job.min_temperature_c)
        ]


def fitted_in(
    problem: PlanProblem, job: PlanJob, times: ChangeTimes, kinds: Kinds
) -> tuple[PlanJob, Assumption | None]:
    """Let a job that no session can hold in one go be done in pieces.

    Parameters
    ----------
    problem : PlanProblem
        With its sessions mended.
    job : PlanJob
        Any job that some session can take.
    times : ChangeTimes
        What moving the car takes.
    kinds : Kinds
        The sessions there are.
    """
    minutes = planned_minutes(problem, job)
    suiting = kinds.taking(job)
    longest = max((kind.room for kind in suiting), default=0)
    if longest < 1:
        return job, None
    if job.splittable:
        least = min(job.least_piece_minutes, longest)
        for piece in (least, max(1, least // 2), max(1, least // 4), 1):
            if _fits(suiting, job, dict.fromkeys(minutes, piece), times):
                return replace(job, least_piece_minutes=piece), None
        return replace(job, least_piece_minutes=least), None
    if _fits(suiting, job, minutes, times):
        return job, None
    in_pieces, shortest = replace(job, splittable=True), min(minutes.values())
    if shortest <= longest:
        # It is the moving that leaves no room: half of it at a time, or less.
        in_pieces = replace(in_pieces, least_piece_minutes=max(1, shortest // 2))
        sentence = (
            f"{wording.quoted(job.title)} takes {wording.stretch(shortest)} in one go, and no "
            "session has room for that when the car has to be moved for it first"
        )
    else:
        in_pieces = replace(in_pieces, least_piece_minutes=longest)
        sentence = (
            f"{wording.quoted(job.title)} takes {wording.stretch(shortest)} in one go and no "
            f"session that suits it has more than {wording.stretch(longest)} of work in it"
        )
    return fitted_in(problem, in_pieces, times, kinds)[0], Assumption(
        "too long",
        f"{sentence}; planned as if it could be left overnight.",
        "Plan one longer session for it, or say that it may be split.",
        (job.id,),
    )


def _fits(suiting: list[Kind], job: PlanJob, minutes: dict[int, int], times: ChangeTimes) -> bool:
    """Whether some session can hold it, however the car stands before."""
    least = {
        people: min((need for asked, need in minutes.items() if asked <= people), default=NO_ROOM)
        for people in (1, 2)
    }
    holding = [kind for kind in suiting if least[kind.people] <= kind.room]
    if not holding or job.supports is None:
        return bool(holding)
    return all(
        any(
            0 <= onto[kind.people] <= kind.room - least[kind.people]
            # Else the car is put so at the end of the session before.
            or 0 <= onto[kind.people_before] <= kind.room_before
            for kind in holding
        )
        for onto in _ways_onto(times, job)
    )


def _ways_onto(times: ChangeTimes, job: PlanJob) -> set[tuple[int, int, int]]:
    """List what it may take to get the car where a job wants it: nothing, alone, with help."""
    supports = job.supports or frozenset()
    onto = [index for index, name in enumerate(times.names) if name in supports]
    found: set[tuple[int, int, int]] = set()
    for row, body in enumerate(times.bodies()):
        states = frozenset(times.states)
        if not (job.body_needs & states <= body and job.body_bars.isdisjoint(body)):
            continue
        for start in range(len(times.names)):
            if start not in onto:
                alone = _least(times.alone[row], start, onto)
                helped = _least(times.helped[row], start, onto)
                if helped != NO_WAY:
                    found.add((0, alone, helped))
    return found


def _least(table: Table, start: int, onto: list[int]) -> int:
    minutes = [table[start][goal] for goal in onto if table[start][goal] != NO_WAY]
    return min(minutes, default=NO_WAY)
