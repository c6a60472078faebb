"""What planning assumes where the given sessions and supports leave a hole, said each time.

A forecast must not run into a wall: sessions that stop, a car that can be put somewhere and never
brought back, a helper promised once and never again. Each is mended by the mildest assumption,
and the assumption is named so that the owner can put the truth in its place.
"""

from __future__ import annotations

from dataclasses import replace

from bareshell.plan import wording
from bareshell.plan.body import bodies_to_come, supports_by_body
from bareshell.plan.fitting import Assumption, takes, usable
from bareshell.plan.problem import Change, PlanProblem
from bareshell.plan.sessions import WEEK_MINUTES, SessionSlot, SessionSource
from bareshell.plan.supports import NO_WAY, ChangeTimes, change_times

__all__ = ["mended"]

UNKNOWN_SUPPORT = ""


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
        if any(takes(slot, job) for slot in problem.sessions.template):
            continue
        model = next((slot for slot in problem.sessions.slots if takes(slot, job)), None)
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
            (0, *(usable(problem, s) for s in problem.sessions.template if s.people >= people))
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
    where = supports_by_body(problem)
    anywhere = set().union(*where.values())
    added: list[Change] = []
    for body, there in where.items():
        row = times.row(body)
        for start in sorted(anywhere):
            for goal in sorted(there - {UNKNOWN_SUPPORT}):
                a, b = times.names.index(start), times.names.index(goal)
                out = times.quickest(b, a)
                if times.helped[row][a][b] == NO_WAY and out != NO_WAY:
                    people = 1 if times.quickest(b, a, helped=False) != NO_WAY else 2
                    added.append(_while(times, body, Change(start, goal, out, people)))
    if added:
        said.append(
            Assumption(
                "no way back",
                "No way is given to bring the car "
                + _named(problem, added)
                + "; planned as if it took as long as the other way round.",
                "Say how long the way back takes.",
            )
        )
    return replace(problem, changes=problem.changes + tuple(added))


def _named(problem: PlanProblem, changes: list[Change]) -> str:
    """Read out from where to where some changes go."""
    return wording.listed(
        dict.fromkeys(
            f"from {wording.support(problem, c.before)} to {wording.support(problem, c.after)}"
            for c in changes
        )
    )


def _while(times: ChangeTimes, body: frozenset[str], change: Change) -> Change:
    """Let a change be possible with just such a body."""
    needs = frozenset(times.states) & body
    return replace(change, body_needs=needs, body_bars=frozenset(times.states) - body)


def _in_one_session(problem: PlanProblem, said: list[Assumption]) -> PlanProblem:
    """Let a change over several supports, longer than any session, be done in the longest."""
    longest = _longest(problem)
    times = change_times(problem)
    added: list[Change] = []
    for body in bodies_to_come(problem):
        row = times.row(body)
        for a, before in enumerate(times.names):
            for b, after in enumerate(times.names):
                alone, helped = times.alone[row][a][b], times.helped[row][a][b]
                people = 1 if alone != NO_WAY else 2
                if (alone if people == 1 else helped) > longest[people]:
                    change = Change(before, after, longest[people], people)
                    added.append(_while(times, body, change))
    if added:
        said.append(
            Assumption(
                "long change",
                "No session is long enough to bring the car "
                + _named(problem, added)
                + "; planned as if it could be done in the longest.",
                "Plan one longer session, or say how it is done more quickly.",
            )
        )
    return replace(problem, changes=problem.changes + tuple(added))
