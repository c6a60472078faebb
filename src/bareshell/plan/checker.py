"""The rules of the garage read a second time, from the problem alone.

Shares no code with the walk that makes plans: it looks at a finished plan, block by block, and
says which rule each block breaks. Nothing reaches a person before it went through here. The rules
themselves stand in `rules_garage` and `rules_jobs`, one function for each.
"""

from __future__ import annotations

from collections.abc import Iterator

from bareshell.plan.problem import PlanProblem
from bareshell.plan.reading import Reading, Violation
from bareshell.plan.rules_garage import GARAGE_RULES
from bareshell.plan.rules_jobs import JOB_RULES
from bareshell.plan.schedule import Schedule

__all__ = ["RULES", "Violation", "check"]

_READ = {**GARAGE_RULES, **JOB_RULES}


def check(problem: PlanProblem, schedule: Schedule, *, complete: bool = False) -> list[Violation]:
    """Say every rule that a plan breaks, everything going exactly as estimated.

    Parameters
    ----------
    problem : PlanProblem
        What was asked.
    schedule : Schedule
        The plan; the blocks of a single session are enough.
    complete : bool
        Whether every job must be finished in it.

    Returns
    -------
    list of Violation
        Empty when the plan keeps every rule.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.schedule import Block
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings, support="lift")
    >>> early = Block("work", 0, 60, 120, "lift", "lift", 1, "wax", finishes=True)
    >>> [broken.rule for broken in check(plan, Schedule((early,)))]
    ['set-up']
    """
    reading = Reading(problem, schedule)
    found = [broken for rule in _READ.values() for broken in rule(reading)]
    if complete:
        found += _everything_once(reading)
    return found


def _everything_once(r: Reading) -> Iterator[Violation]:
    for key in r.jobs:
        if key not in r.finish:
            yield Violation("everything", key, f"{r.title(key)} is not in the plan")


RULES = (*_READ, "everything")
"""The name of every rule; "everything" is asked only of a whole plan."""
