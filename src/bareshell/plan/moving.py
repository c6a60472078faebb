"""What moves the date: levers, what binds, and the published indices, from one set of fates."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from bareshell.plan.arrays import DAY_MINUTES
from bareshell.plan.asitis import AsItIs, expected_slot, laid_over
from bareshell.plan.choosing import FIRST_MOVE_SAMPLES, choose_moves
from bareshell.plan.engine import EngineName
from bareshell.plan.forecast import Binds, binds
from bareshell.plan.helper_days import HelperDays, helper_days
from bareshell.plan.indices import JobIndex, job_indices
from bareshell.plan.lever_choice import MOST_LEVERS, usual_levers
from bareshell.plan.levers import LEVER_SAMPLES, Effect, measured
from bareshell.plan.policy import Policy
from bareshell.plan.problem import PlanProblem
from bareshell.plan.ready import ready
from bareshell.plan.walk import walk

__all__ = ["Moving", "moving"]

MOST_JOBS = 12
"""So many jobs and parts are listed among what binds, and so many with their indices."""


PLAIN_LEVERS, PLAIN_LEVER_SAMPLES = 5, 12
"""Levers and fates when the twin has to walk: some seconds' worth."""


@dataclass(frozen=True, slots=True)
class Moving:
    """What moves the date.

    Parameters
    ----------
    problem : PlanProblem
        What was planned.
    effects : tuple of Effect
        The levers, the one that gains most first.
    binds : tuple of Binds
        What set the date in which share of fates, and for how long.
    indices : tuple of JobIndex
        The jobs most often critical.
    mean_days, work_days : float
        How far off the goal is on average, and how much of that no cause takes: work, and the
        usual days between sessions. [days]
    samples, lever_samples : int
        On how many fates.
    engine : {"compiled", "plain"}
        Which walk answered.
    seed : int
        Which fates.
    helper : HelperDays, optional
        For which days to ask the helper; None when there is nothing to plan.
    """

    problem: PlanProblem
    effects: tuple[Effect, ...]
    binds: tuple[Binds, ...]
    indices: tuple[JobIndex, ...]
    mean_days: float
    work_days: float
    samples: int
    lever_samples: int
    engine: EngineName
    seed: int
    helper: HelperDays | None = None


def moving(
    problem: PlanProblem,
    as_it_is: AsItIs | None = None,
    *,
    seed: int,
    samples: int = 2000,
    lever_samples: int = LEVER_SAMPLES,
    policy: Policy | None = None,
    may_be_left_out: Iterable[str] = (),
    may_be_lent: Iterable[str] = (),
    threads: int = 2,
    engine: EngineName | None = None,
) -> Moving:
    """Measure what moves the date.

    Parameters
    ----------
    problem, as_it_is, seed, policy, threads, engine
        As for `bareshell.plan.road.road`, so that both speak of one plan.
    samples, lever_samples : int
        On how many fates what binds is counted, and each lever measured.
    may_be_left_out, may_be_lent : iterable of str
        As for `bareshell.plan.lever_choice.usual_levers`.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150, kind="Tuesday")])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings)
    >>> found = moving(plan, seed=1, engine="plain")
    >>> len(found.effects), found.indices[0].criticality
    (3, 1.0)
    """
    if expected_slot(problem) is not None or (as_it_is and as_it_is.minutes is not None):
        problem = laid_over(problem, as_it_is or AsItIs())
    made = ready(problem, seed=seed, policy=policy, threads=threads, engine=engine)
    if not made.problem.jobs:
        return Moving(made.problem, (), (), (), 0.0, 0.0, 0, 0, made.engine.name, seed)
    forced = choose_moves(made, samples=FIRST_MOVE_SAMPLES).forced
    outcome = made.engine.run(made.policy, seed=seed, samples=samples, forced=forced)
    count = len(outcome.finish)
    most = MOST_LEVERS
    if made.engine.name == "plain":
        # Without a compiler a few are measured, roughly, rather than all after a minute.
        most, lever_samples = PLAIN_LEVERS, PLAIN_LEVER_SAMPLES
    levers = usual_levers(
        made.problem,
        outcome,
        may_be_left_out=may_be_left_out,
        may_be_lent=may_be_lent,
        most=most,
    )
    effects = measured(
        made, levers, samples=lever_samples, forced=forced, threads=threads, base=outcome.finish
    )
    found = binds(made.problem, outcome.binding, count, MOST_JOBS)
    mean_days = float(outcome.finish.mean()) / DAY_MINUTES
    lost = sum(one.days for one in found if one.kind == "cause")
    return Moving(
        made.problem,
        effects,
        found,
        job_indices(made.problem, outcome, seed=seed)[:MOST_JOBS],
        mean_days,
        max(0.0, mean_days - lost),
        count,
        effects[0].samples if effects else 0,
        made.engine.name,
        seed,
        helper_days(made, walk(made.problem, made.policy, forced=forced).schedule, forced=forced),
    )
