"""Small moves: after an entry the next two weeks change as little as the finish allows.

Of several rules that lead to the road as soon, as far as anybody can tell, the one is gone by that
has the fewest jobs on another day than the plan that was last given out. What did change all the
same is said by `bareshell.plan.changed`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from bareshell.plan.arrays import DAY_MINUTES
from bareshell.plan.changed import WINDOW_DAYS, Intended, day_of, first_blocks, last_day
from bareshell.plan.known import known
from bareshell.plan.policy import Policy
from bareshell.plan.priority import paired_days
from bareshell.plan.problem import PlanProblem
from bareshell.plan.ready import Ready
from bareshell.plan.sampling import as_planned
from bareshell.plan.schedule import Schedule
from bareshell.plan.walk import walk

__all__ = ["Intended", "Steady", "fortnight", "steady"]

CLEAR_DAYS = 0.5
"""Leaving the plan must bring the road nearer by more than this, and beyond doubt. [days]"""

MOST_LIFTS = 5
"""So many jobs at most are lifted one by one to leave fewer that moved."""

MOST_COMPARED = 4
"""So many rules at most are held against the free one by their finish."""

SAMPLES = 400
"""On how many fates keeping to the plan is compared with leaving it."""


@dataclass(frozen=True, slots=True)
class Steady:
    """By which rule to go on.

    Parameters
    ----------
    policy : Policy
        The rule.
    moves : int
        How many jobs of the two weeks it has on another day than the plan that was given out,
        those that come in and fall out included.
    free_moves : int
        How many the rule that is gone by freely would have.
    cost_days, standard_error_days : float
        How much later the road is reached on average than by the free rule, and how far that
        may be off. [days]
    """

    policy: Policy
    moves: int
    free_moves: int
    cost_days: float = 0.0
    standard_error_days: float = 0.0


def fortnight(
    problem: PlanProblem, schedule: Schedule, days: int = WINDOW_DAYS
) -> tuple[Intended, ...]:
    """List the jobs of the next two weeks in the order in which they are begun.

    Parameters
    ----------
    problem : PlanProblem
        For the days.
    schedule : Schedule
        The plan, with everything as estimated.
    days : int
        How far ahead. [days]

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> from bareshell.plan.walk import walk
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings)
    >>> fortnight(plan, walk(plan, Policy((60,))).schedule)
    (Intended(job_id='wax', day=datetime.date(2031, 3, 4)),)
    """
    begun = {
        job: block
        for job, block in first_blocks(schedule).items()
        if block.start_minute < days * DAY_MINUTES
    }
    return tuple(Intended(job, day_of(problem, b.start_minute)) for job, b in begun.items())


def steady(
    made: Ready,
    intended: Sequence[Intended],
    *,
    until: date | None = None,
    samples: int = SAMPLES,
) -> Steady:
    """Find the rule that moves the fewest jobs of the next two weeks and costs nothing clear.

    Parameters
    ----------
    made : Ready
        The problem as it is now, with the rule that would be gone by freely.
    intended : sequence of Intended
        What was given out, in order.
    until : date, optional
        The last day that it spoke of; two weeks from now when left out.
    samples : int
        On how many fates the finish is compared.

    Returns
    -------
    Steady
        Another rule only where it moves fewer jobs; else the free one.
    """
    here = {job.id for job in made.problem.jobs}
    open_jobs = [one for one in intended if one.job_id in here]
    near = _Near(made.problem, open_jobs, until)
    free_moves = near.moves(made.policy) if open_jobs else 0
    if not free_moves:
        return Steady(made.policy, free_moves, free_moves)
    rules = _rules(made.policy, [one.job_id for one in open_jobs], made.problem)
    best = sorted(((near.moves(rule), at) for at, rule in enumerate(rules)), key=lambda one: one)
    tried = [(moves, rules[at]) for moves, at in best if moves < free_moves]
    if tried:
        tried.insert(0, near.fewer(*tried[0]))
    # Without a compiler there is no time to compare finishes: what was given out stands.
    if made.engine.name == "plain":
        return Steady(tried[0][1], tried[0][0], free_moves) if tried else _free(made, free_moves)
    finish = made.engine.run(made.policy, seed=made.seed, samples=samples).finish
    for moves, rule in tried[:MOST_COMPARED]:
        after = made.engine.run(rule, seed=made.seed, samples=samples).finish
        cost, error = paired_days(after, finish)
        if cost <= max(2 * error, CLEAR_DAYS):
            return Steady(rule, moves, free_moves, cost, error)
    return _free(made, free_moves)


def _free(made: Ready, moves: int) -> Steady:
    return Steady(made.policy, moves, moves)


class _Near:
    """Walks through the next two weeks alone, and counts what moved."""

    def __init__(
        self, problem: PlanProblem, intended: Sequence[Intended], until: date | None
    ) -> None:
        self.problem, self.known = problem, known(problem)
        self.was = {one.job_id: one.day for one in reversed(intended)}
        end = WINDOW_DAYS * DAY_MINUTES
        if intended:
            end = max(end, (max(self.was.values()) - day_of(problem, 0)).days * DAY_MINUTES)
        slots = problem.sessions.first(len(problem.sessions.kinds))
        # One session more, so that the car is left as it will want it.
        count = sum(slot.start_minute < end for slot in slots) + 1
        self.fate = as_planned(problem, count).one(0)
        self.last = until or last_day(problem)

    def days(self, policy: Policy) -> dict[str, date]:
        """Say on which day each job of the two weeks is begun."""
        schedule = walk(self.problem, policy, self.fate, known=self.known).schedule
        blocks = first_blocks(schedule)
        return {job: day_of(self.problem, block.start_minute) for job, block in blocks.items()}

    def moves(self, policy: Policy) -> int:
        """Count the jobs that are on another day, came in or fell out."""
        now = self.days(policy)
        moved = sum(now.get(job) != day for job, day in self.was.items())
        return moved + sum(day <= self.last for job, day in now.items() if job not in self.was)

    def fewer(self, moves: int, policy: Policy) -> tuple[int, Policy]:
        """Lift one job that moved at a time as long as that leaves fewer that did."""
        for _ in range(MOST_LIFTS):
            now = self.days(policy)
            moved = [job for job, day in self.was.items() if now.get(job) != day]
            tried = [_lifted(policy, [job], self.problem) for job in moved[:MOST_LIFTS]]
            counted = [(self.moves(rule), at) for at, rule in enumerate(tried)]
            if not counted or min(counted)[0] >= moves:
                break
            moves, at = min(counted)
            policy = tried[at]
        return moves, policy


def _rules(policy: Policy, intended: Sequence[str], problem: PlanProblem) -> list[Policy]:
    """List rules that may follow the plan: its jobs first, in its order, or with other knobs."""
    knobs = (
        policy,
        *(replace(policy, stickiness=value) for value in (20, 60, 5, 0)),
        *(replace(policy, helper_first=value) for value in (2400, 600, 0)),
        *(replace(policy, finish_first=value) for value in (240, 0)),
    )
    lifted = [_lifted(rule, intended, problem) for rule in knobs]
    ordered = _lifted(policy, intended, problem, in_order=True)
    return [*knobs[1:], *lifted, ordered]


def _lifted(
    policy: Policy, jobs: Sequence[str], problem: PlanProblem, *, in_order: bool = False
) -> Policy:
    """Put some jobs above all others, as they are among themselves or in this very order."""
    longest = max((change.minutes for change in problem.changes), default=0)
    step = 1 + policy.finish_first + policy.helper_first + policy.stickiness * longest
    above = max(policy.priority) - min(policy.priority) + step
    ids = tuple(job.id for job in problem.jobs)
    place = {job: step * (len(jobs) - at) if in_order else 0 for at, job in enumerate(jobs)}
    priority = tuple(
        weight + above + place[job] if job in place else weight
        for job, weight in zip(ids, policy.priority, strict=True)
    )
    return replace(policy, priority=priority, job_ids=ids)
