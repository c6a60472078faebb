"""What planning assumes where the given sessions and supports leave a hole, said each time.

A forecast must not run into a wall: sessions that stop, a car that can be put somewhere and never
brought back, a helper promised once and never again. Each is mended by the mildest assumption,
and the assumption is named so that the owner can put the truth in its place.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from bareshell.plan import wording
from bareshell.plan.hours import planned_minutes
from bareshell.plan.problem import Change, PlanJob, PlanProblem
from bareshell.plan.sessions import WEEK_MINUTES, SessionSlot, SessionSource
from bareshell.plan.supports import NO_WAY, change_times

__all__ = ["Assumption", "mended", "too_long"]

UNKNOWN_SUPPORT = ""


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


def mended(problem: PlanProblem) -> tuple[PlanProblem, list[Assumption]]:
    """Fill the holes in sessions and supports, naming each assumption.

    Parameters
    ----------
    problem : PlanProblem
        With at least one session.
    """
    said: list[Assumption] = []
    out = _endless(problem, said)
    out = _rare_sessions(out, said)
    out = _known_start(out, said)
    out = _possible_changes(out)
    return _in_one_session(_way_back(out, said), said), said


def too_long(problem: PlanProblem, job: PlanJob) -> tuple[PlanJob, Assumption | None]:
    """Let a job that no session can hold in one go be done in pieces as long as a session.

    Parameters
    ----------
    problem : PlanProblem
        With its sessions mended.
    job : PlanJob
        Any job that some session can take.
    """
    minutes = planned_minutes(problem, job)
    suiting = [slot for slot in problem.sessions.template if _takes(slot, job)]
    longest = max((_usable(problem, slot) for slot in suiting), default=0)
    if longest < 1:
        return job, None
    if job.splittable:
        return replace(job, least_piece_minutes=min(job.least_piece_minutes, longest)), None
    if any(
        minutes[people] <= _usable(problem, slot)
        for slot in suiting
        for people in minutes
        if people <= slot.people
    ):
        return job, None
    return (
        replace(job, splittable=True, least_piece_minutes=longest),
        Assumption(
            "too long",
            f"{wording.quoted(job.title)} takes {wording.stretch(min(minutes.values()))} in one "
            f"go and no session that suits it has more than {wording.stretch(longest)} of work in "
            "it; planned as if it could be left overnight.",
            "Plan one longer session for it, or say that it may be split.",
            (job.id,),
        ),
    )


def _usable(problem: PlanProblem, slot: SessionSlot) -> int:
    return slot.minutes - problem.set_up_minutes - problem.clear_up_minutes


def _takes(slot: SessionSlot, job: PlanJob) -> bool:
    warm = (
        job.min_temperature_c is None
        or slot.temperature_c is None
        or slot.temperature_c >= job.min_temperature_c
    )
    return warm and any(way.people <= slot.people for way in job.ways)


def _endless(problem: PlanProblem, said: list[Assumption]) -> PlanProblem:
    if problem.sessions.endless:
        return problem
    slots = problem.sessions.slots
    said.append(
        Assumption(
            "sessions end",
            f"The sessions are written out only until {wording.date(problem, slots[-1].end_minute)}"
            "; planned as if they went on as before.",
            "Say how the sessions repeat.",
        )
    )
    return replace(problem, sessions=SessionSource.repeating(slots))


def _rare_sessions(problem: PlanProblem, said: list[Assumption]) -> PlanProblem:
    """Repeat a written-out session that some job needs and that never comes again."""
    for job in problem.jobs:
        if any(_takes(slot, job) for slot in problem.sessions.template):
            continue
        model = next((slot for slot in problem.sessions.slots if _takes(slot, job)), None)
        if model is None:
            continue
        said.append(
            Assumption(
                "rare session",
                f"After {wording.date(problem, model.start_minute)} no session is promised with "
                f"the help and the warmth that {wording.quoted(job.title)} needs; planned as if "
                "one came every four weeks.",
                "Say when the helper comes, or when the garage is heated.",
                (job.id,),
            )
        )
        problem = replace(problem, sessions=_every_four_weeks(problem.sessions, model))
    return problem


def _every_four_weeks(source: SessionSource, model: SessionSlot) -> SessionSource:
    best: dict[int, int] = {}
    for index, slot in enumerate(source.template):
        block = slot.start_minute // (4 * WEEK_MINUTES)
        if block not in best or slot.minutes > source.template[best[block]].minutes:
            best[block] = index
    raised = list(source.template)
    for index in best.values():
        slot = raised[index]
        raised[index] = replace(
            slot,
            people=max(slot.people, model.people),
            temperature_c=_warmer(slot.temperature_c, model.temperature_c),
        )
    return replace(source, template=tuple(raised))


def _warmer(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else max(one, other)


def _known_start(problem: PlanProblem, said: list[Assumption]) -> PlanProblem:
    if problem.support != UNKNOWN_SUPPORT:
        return problem
    needed = sorted({name for job in problem.jobs for name in job.supports or ()})
    if not needed:
        return problem
    said.append(
        Assumption(
            "support not known",
            "Nobody said how the car stands now; planned as if the first change took as long as "
            "the longest.",
            "Say how the car stands.",
        )
    )
    longest = max((change.minutes for change in problem.changes), default=0)
    first = tuple(Change(UNKNOWN_SUPPORT, name, longest) for name in needed)
    return replace(problem, changes=problem.changes + first)


def _longest(problem: PlanProblem) -> dict[int, int]:
    """Say how much work the longest repeating session holds, for one person and for two."""
    return {
        # A session shorter than its own setting up and clearing up holds none.
        people: max(
            (0, *(_usable(problem, s) for s in problem.sessions.template if s.people >= people))
        )
        for people in (1, 2)
    }


def _possible_changes(problem: PlanProblem) -> PlanProblem:
    """Leave out a change that no session is long enough for."""
    longest = _longest(problem)
    changes = tuple(c for c in problem.changes if c.minutes <= longest[c.people])
    return replace(problem, changes=changes)


def _way_back(problem: PlanProblem, said: list[Assumption]) -> PlanProblem:
    """Add a way back where the car could be put and never brought back, so nothing is a trap."""
    times = change_times(problem)
    start = times.names.index(problem.support)
    reached = [b for b in range(len(times.names)) if times.helped[start][b] != NO_WAY]
    added: list[Change] = []
    for there in reached:
        for back in reached:
            out, home = times.helped[back][there], times.helped[there][back]
            if home != NO_WAY or out == NO_WAY or times.names[back] == UNKNOWN_SUPPORT:
                continue
            people = 1 if times.alone[back][there] != NO_WAY else 2
            added.append(Change(times.names[there], times.names[back], out, people))
    if added:
        said.append(
            Assumption(
                "no way back",
                "No way is given to bring the car "
                + wording.listed(f"from {c.before} to {c.after}" for c in added)
                + "; planned as if it took as long as the other way round.",
                "Say how long the way back takes.",
            )
        )
    return replace(problem, changes=problem.changes + tuple(added))


def _in_one_session(problem: PlanProblem, said: list[Assumption]) -> PlanProblem:
    """Let a change over several supports, longer than any session, be done in the longest."""
    longest = _longest(problem)
    times = change_times(problem)
    added: list[Change] = []
    for a, before in enumerate(times.names):
        for b, after in enumerate(times.names):
            alone, helped = times.alone[a][b], times.helped[a][b]
            people = 1 if alone != NO_WAY else 2
            if (alone if people == 1 else helped) > longest[people]:
                added.append(Change(before, after, longest[people], people))
    if added:
        said.append(
            Assumption(
                "long change",
                "No session is long enough to bring the car "
                + wording.listed(f"from {c.before} to {c.after}" for c in added)
                + "; planned as if it could be done in the longest.",
                "Plan one longer session, or say how it is done more quickly.",
            )
        )
    return replace(problem, changes=problem.changes + tuple(added))
