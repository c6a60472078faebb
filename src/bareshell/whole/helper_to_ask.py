"""Work for two where nobody is said to come: planned as if somebody came now and then.

A restorer who works alone finds a friend for the day the engine goes in. Until the days are
named, one session in four weeks is taken to have two people, and that is said.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.sessions import WEEK_MINUTES, SessionSlot

__all__ = ["WEEKS_BETWEEN", "as_if_helped"]

WEEKS_BETWEEN = 4
"""How often somebody is taken to come where nobody said (our own choice). [weeks]"""

FIRST_AFTER_WEEKS = 2
"""Nobody comes unasked in the next two weeks, which are to be acted on. [weeks]"""


def as_if_helped(problem: PlanProblem) -> tuple[PlanProblem, tuple[str, ...]]:
    """Let somebody come once in four weeks where work takes two and no session has a helper.

    Parameters
    ----------
    problem : PlanProblem
        As it is asked.

    Returns
    -------
    PlanProblem
        With two people in the longest session of every fourth week; the same one where nothing
        takes two, or somebody does come.
    tuple of str
        What was taken for granted, in a sentence or none.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> screen = PlanJob("screen", "Screen", "glass", (Way(2, 45, 60, 90),))
    >>> alone = SessionSource.repeating([SessionSlot(week * 10080, 150) for week in range(8)])
    >>> asked = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (screen,), alone)
    >>> planned, said = as_if_helped(asked)
    >>> [slot.people for slot in planned.sessions.slots]
    [1, 1, 2, 1, 1, 1, 2, 1]
    >>> said[0][:50]
    "No session has a helper, and 'Screen' takes two pe"
    """
    source = problem.sessions
    jobs = [job for job in problem.jobs if all(way.people > 1 for way in job.ways)]
    if not jobs or not source.template or any(slot.people > 1 for slot in source.template):
        return problem, ()
    sessions = replace(
        source,
        slots=_helped(source.slots, 0),
        template=_helped(source.template, source.template_start_minute),
    )
    return replace(problem, sessions=sessions), (_words(jobs),)


def _helped(slots: tuple[SessionSlot, ...], start_minute: int) -> tuple[SessionSlot, ...]:
    weeks: dict[int, list[SessionSlot]] = {}
    for slot in slots:
        weeks.setdefault((start_minute + slot.start_minute) // WEEK_MINUTES, []).append(slot)
    chosen = {
        max(of_week, key=lambda slot: slot.minutes).start_minute
        for week, of_week in weeks.items()
        if week >= FIRST_AFTER_WEEKS and week % WEEKS_BETWEEN == FIRST_AFTER_WEEKS
    }
    return tuple(_two(slot) if slot.start_minute in chosen else slot for slot in slots)


def _two(slot: SessionSlot) -> SessionSlot:
    return replace(slot, people=2, beside="")


def _words(jobs: Iterable[PlanJob]) -> str:
    titles = [f"'{job.title}'" for job in jobs]
    one = len(titles) == 1
    shown = titles[0] if one else f"{len(titles)} jobs take two people ({titles[0]}, {titles[1]}"
    if one:
        shown += " takes two people"
    else:
        shown += f" and {len(titles) - 2} more)" if len(titles) > 2 else ")"
    return (
        f"No session has a helper, and {shown}: planned as if somebody came once in "
        f"{WEEKS_BETWEEN} weeks, to the longest session of the week. Ask somebody, and say to "
        "which session they come."
    )
