"""Two problems under one rule: what a single entry did to the next session and to the finish.

Nothing is tuned anew. The rule of the plan that is followed goes on, fitted to the jobs there are
now, and both are walked through the same futures, so that what differs is what the entry did.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bareshell.plan.asitis import AsItIs, expected_slot, laid_over
from bareshell.plan.checker import Violation, check
from bareshell.plan.engine import EngineName, Outcome
from bareshell.plan.forecast import Forecast, forecast
from bareshell.plan.known import known
from bareshell.plan.policy import Policy
from bareshell.plan.priority import paired_days
from bareshell.plan.problem import PlanProblem
from bareshell.plan.ready import Ready, ready
from bareshell.plan.schedule import Schedule
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.walk import choices, walk

__all__ = ["SAMPLES", "OneSide", "SideBySide", "gains", "side_by_side"]

SAMPLES = 1000
"""How many futures the two are compared on: a tenth of a second's worth each."""


@dataclass(frozen=True, slots=True)
class OneSide:
    """One of the two.

    Parameters
    ----------
    problem : PlanProblem
        What can be planned of it.
    schedule : Schedule
        Every move with everything as estimated.
    may_begin : frozenset of str
        Jobs that could be taken up first in the next session.
    forecast : Forecast or None
        When the goal is reached; None where it never is, or nothing is left to do.
    violations : tuple of Violation
        Rules that the checker found broken: then nothing of it is to be shown.
    """

    problem: PlanProblem
    schedule: Schedule
    may_begin: frozenset[str]
    forecast: Forecast | None
    violations: tuple[Violation, ...] = ()


@dataclass(frozen=True, slots=True)
class SideBySide:
    """Two problems under one rule.

    Parameters
    ----------
    session : SessionSlot or None
        The next session; None when there is none.
    before, after : OneSide
        The two.
    gain_days, standard_error_days : float or None
        How much sooner the goal is reached after on average, future by future, and how far that
        may be off; None when one of them never reaches it. [days]
    """

    session: SessionSlot | None
    before: OneSide
    after: OneSide
    gain_days: float | None
    standard_error_days: float | None


def side_by_side(
    before: PlanProblem,
    after: PlanProblem,
    as_it_is: AsItIs | None = None,
    *,
    seed: int,
    samples: int = SAMPLES,
    policy: Policy | None = None,
    engine: EngineName | None = None,
) -> SideBySide:
    """Hold two problems against each other under one rule.

    Parameters
    ----------
    before, after : PlanProblem
        Of one moment, without and with what is looked at.
    as_it_is : AsItIs, optional
        How the first session really is.
    seed, samples : int
        Which futures, and how many.
    policy : Policy, optional
        The rule that is followed; the plain one when left out.
    engine : {"compiled", "plain"}, optional
        Which walk to use.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import Arrival, PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> fit = PlanJob(
    ...     "fit", "Fit the hose", "brakes", (Way(1, 30, 60, 90),), parts_to_start=("hose",)
    ... )
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> hose = Arrival("hose", "Hose", 9 * 24 * 60)
    >>> without = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (fit,), evenings, (hose,))
    >>> here = replace(without, jobs=(replace(fit, parts_to_start=()),), arrivals=())
    >>> both = side_by_side(without, here, seed=1, engine="plain")
    >>> sorted(both.after.may_begin - both.before.may_begin), round(both.gain_days) >= 7
    (['fit'], True)
    """
    as_it_is = as_it_is or AsItIs()
    slot = expected_slot(before)
    if slot is not None or as_it_is.minutes is not None:
        before, after = laid_over(before, as_it_is), laid_over(after, as_it_is)
    first = ready(before, seed=seed, policy=policy, engine=engine)
    second = ready(after, seed=seed, policy=policy or first.policy, engine=engine)
    was, now = (_finishes(made, seed, samples) for made in (first, second))
    gain = error = None
    if was is not None and now is not None:
        both = min(len(was.finish), len(now.finish))
        gain, error = paired_days(was.finish[:both], now.finish[:both])
    return SideBySide(slot, _side(first, slot, was), _side(second, slot, now), gain, error)


def gains(
    problem: PlanProblem,
    others: Sequence[PlanProblem],
    *,
    seed: int,
    samples: int = SAMPLES,
    policy: Policy | None = None,
    engine: EngineName | None = None,
) -> tuple[tuple[float, float] | None, ...]:
    """Say for each of several changed problems how much sooner the goal is reached in it.

    Parameters
    ----------
    problem : PlanProblem
        As it is.
    others : sequence of PlanProblem
        Of the same moment, each with something changed.
    seed, samples, policy, engine
        As for `side_by_side`.

    Returns
    -------
    tuple
        For each the days gained on average, below 0 when it is later, and their standard error;
        None where the goal is not reached. [days]
    """
    first = ready(problem, seed=seed, policy=policy, engine=engine)
    was = _finishes(first, seed, samples)
    found: list[tuple[float, float] | None] = []
    for other in others:
        made = ready(other, seed=seed, policy=policy or first.policy, engine=engine)
        now = _finishes(made, seed, samples)
        if was is None or now is None:
            found.append(None)
            continue
        both = min(len(was.finish), len(now.finish))
        found.append(paired_days(was.finish[:both], now.finish[:both]))
    return tuple(found)


def _finishes(made: Ready, seed: int, samples: int) -> Outcome | None:
    """Walk to the goal in every future; None where it is never reached or nothing is left."""
    if not made.problem.jobs or not made.reaches_goal:
        return None
    return made.engine.run(made.policy, seed=seed, samples=samples)


def _side(made: Ready, slot: SessionSlot | None, outcome: Outcome | None) -> OneSide:
    problem = made.problem
    if not problem.jobs:
        return OneSide(problem, Schedule((), None, ()), frozenset(), None)
    read = known(problem)
    begin = choices(problem, made.policy, known=read) if slot is not None else ()
    schedule = walk(problem, made.policy, known=read).schedule
    return OneSide(
        problem,
        schedule,
        frozenset(problem.jobs[one.job].id for one in begin),
        None if outcome is None else forecast(problem, outcome),
        tuple(check(problem, schedule, complete=not schedule.left_over)),
    )
