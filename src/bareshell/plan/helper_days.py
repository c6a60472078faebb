"""For which days to ask the helper: the fewest that cost nothing clear.

A helper who comes every second Saturday need not come to all of them. Of the days on which the
plan has work for two, those with the most of it are kept, one more at a time, until the road is
reached as soon, as far as anybody can tell, as with every one of them; all on the same fates.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from bareshell.plan.arrays import DAY_MINUTES
from bareshell.plan.checker import Violation, check
from bareshell.plan.engine import Engine
from bareshell.plan.priority import paired_days
from bareshell.plan.problem import PlanProblem
from bareshell.plan.ready import Ready
from bareshell.plan.schedule import Block, Schedule
from bareshell.plan.walk import walk

__all__ = ["HelperDay", "HelperDays", "helper_days"]

LOOK_AHEAD_DAYS = 84
"""For so long ahead one asks: some twelve weeks. [days]"""

MOST_DAYS = 6
"""More days than this are not asked for in one go."""

SAMPLES = 400
"""On how many fates fewer days are compared with all of them."""

NO_ODDS_DAYS = 0.5
"""A difference in the road date that makes no odds. [days]"""


@dataclass(frozen=True, slots=True)
class HelperDay:
    """A day on which the helper is wanted.

    Parameters
    ----------
    session : int
        Which session, counted from the first.
    start_minute : int
        When it begins. [minutes from the origin]
    minutes : int
        How long the helper is wanted in it. [min]
    job_ids : tuple of str
        For what: work for two, work of their own, and what the car is moved for.
    """

    session: int
    start_minute: int
    minutes: int
    job_ids: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HelperDays:
    """For which days to ask.

    Parameters
    ----------
    ask : tuple of HelperDay
        These, in order of time.
    spared : tuple of int
        When the other sessions begin to which the helper would come and need not. [minutes from
        the origin]
    cost_days, standard_error_days : float
        How much later the road is reached on average without the spared ones, and how far that
        may be off. [days]
    until_minute : int
        How far ahead was looked. [minutes from the origin]
    samples : int
        On how many fates; 0 when there was nothing to spare.
    violations : tuple of Violation
        What the checker holds against the plan behind them; none, or it is not shown.
    """

    ask: tuple[HelperDay, ...]
    spared: tuple[int, ...] = ()
    cost_days: float = 0.0
    standard_error_days: float = 0.0
    until_minute: int = 0
    samples: int = 0
    violations: tuple[Violation, ...] = ()


def helper_days(
    made: Ready, schedule: Schedule, *, samples: int = SAMPLES, forced: Sequence[int] = ()
) -> HelperDays:
    """Find the fewest days to ask the helper for.

    Parameters
    ----------
    made : Ready
        The problem, its engine and its policy.
    schedule : Schedule
        The plan, with everything as estimated.
    samples : int
        On how many fates fewer days are compared.
    forced : sequence of int
        Jobs to take first in the first session, by position.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.jobs import PlanJob, Way
    >>> from bareshell.plan.ready import ready
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> from bareshell.plan.walk import walk
    >>> lift = PlanJob("lift", "Lift the engine in", "engine", (Way(2, 45, 60, 90),))
    >>> saturdays = SessionSource.repeating(
    ...     [SessionSlot(week * 10_080 + 60, 300, people=1 + (week > 0)) for week in range(4)]
    ... )
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (lift,), saturdays)
    >>> made = ready(plan, seed=1, engine="plain")
    >>> found = helper_days(made, walk(plan, made.policy).schedule, samples=4)
    >>> [day.start_minute for day in found.ask], len(found.spared)
    ([10140], 2)
    """
    problem = made.problem
    until = LOOK_AHEAD_DAYS * DAY_MINUTES
    slots = problem.sessions.slots
    # Whoever comes to the first session, which is the next one, has been asked already.
    ahead = list(enumerate(slots))[1:]
    there = [at for at, slot in ahead if slot.people > 1 and slot.start_minute < until]
    wanted = {at: sum(b.minutes for b in _for_two(schedule, at)) for at in there}
    used = sorted((at for at in there if wanted[at]), key=lambda at: (-wanted[at], at))
    if len(used) < 2 or made.engine.name == "plain":
        return _told(problem, schedule, used, there, until)
    base = made.engine.run(made.policy, seed=made.seed, samples=samples, forced=forced).finish
    for count in range(1, min(len(used), MOST_DAYS)):
        kept = used[:count]
        fewer = _only(problem, set(there) - set(kept))
        engine = Engine(fewer, threads=made.engine.threads, engine=made.engine.name)
        after = engine.run(made.policy, seed=made.seed, samples=samples, forced=forced).finish
        if (after < 0).any():
            continue
        cost, error = paired_days(after, base)
        if cost <= max(2 * error, NO_ODDS_DAYS):
            walked = walk(fewer, made.policy, forced=forced).schedule
            told = _told(fewer, walked, kept, there, until)
            return replace(told, cost_days=cost, standard_error_days=error, samples=samples)
    return _told(problem, schedule, used, there, until)


def _for_two(schedule: Schedule, session: int) -> list[Block]:
    return [b for b in schedule.in_session(session) if b.people > 1 or b.by_helper]


def _only(problem: PlanProblem, alone: Collection[int]) -> PlanProblem:
    """Leave the helper at home in some of the sessions."""
    source = problem.sessions
    slots = tuple(
        replace(slot, people=1) if at in alone else slot for at, slot in enumerate(source.slots)
    )
    return replace(problem, sessions=replace(source, slots=slots))


def _told(
    problem: PlanProblem,
    schedule: Schedule,
    kept: Sequence[int],
    there: Sequence[int],
    until: int,
) -> HelperDays:
    slots = problem.sessions.slots
    days = []
    for at in sorted(kept):
        blocks = _for_two(schedule, at)
        jobs = dict.fromkeys(block.job_id for block in blocks if block.job_id)
        minutes = sum(block.minutes for block in blocks)
        days.append(HelperDay(at, slots[at].start_minute, minutes, tuple(jobs)))
    spared = tuple(slots[at].start_minute for at in there if at not in kept)
    violations = tuple(check(problem, schedule, complete=not schedule.left_over))
    return HelperDays(tuple(days), spared, until_minute=until, violations=violations)
