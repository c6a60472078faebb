"""What to take first: the rule that weighs jobs, and its tuning against what may happen.

The rule is the longest work that still follows a job, and longer where it leads to work that few
sessions take. It is tuned on drawn fates, never on the
estimates alone: a plan fitted to exact hours looks weeks earlier on paper and comes out weeks
later (measured). A tuned rule is kept only when it does better on fates it has never seen.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import sqrt
from typing import TYPE_CHECKING

from bareshell.plan.arrays import DAY_MINUTES
from bareshell.plan.engine import Engine
from bareshell.plan.hours import planned_minutes
from bareshell.plan.network import Network, network
from bareshell.plan.policy import Policy
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.sessions import SessionSlot

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Tuned", "fitted", "paired_days", "plain_rule", "tails", "tuned_rule"]

SCARCITY = (2.0, 1.0, 4.0)
STICKINESS = (20, 60, 5, 0)
HELPER_FIRST = (2400, 600, 0)
FINISH_FIRST = (240, 0)
"""The settings that `plain_rule` tries, one knob after the other, from the first of each."""


def tails(problem: PlanProblem, scarcity: float = SCARCITY[0]) -> tuple[int, ...]:
    """Weigh each job by the longest work from its beginning to the goal, waits included.

    A job that few sessions take - it wants the helper, or warmth, or a whole Saturday - also
    weighs by how long one usually waits for such a session: work that leads to it should not be
    what makes it miss one.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    scarcity : float
        How many such waits to allow for. [-]

    Returns
    -------
    weights : tuple of int
        One for each job. Clock time counts for as much as is usually worked in it. A job that
        leads to no job of the goal weighs less than any that does. [min]

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import Link, PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> hour = (Way(1, 60, 60, 60),)
    >>> wax = PlanJob("wax", "Wax", "underbody", hour)
    >>> tank = PlanJob("tank", "Tank", "fuel", hour, after=(Link("wax"),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax, tank), evenings)
    >>> weights = tails(plan)
    >>> weights[0] - weights[1]
    60
    """
    return _weighing(problem)(scarcity)


def _weighing(problem: PlanProblem) -> Callable[[float], tuple[int, ...]]:
    """Gather what weights are made of, to make them for more than one scarcity."""
    graph = network(problem)
    share = _worked_share(problem)
    waits = _waits(problem)
    work = [min(planned_minutes(problem, job).values()) for job in problem.jobs]
    leads = _leads_to_goal(problem, graph)
    order, out = graph.in_order(), graph.leading_out()

    def weights(scarcity: float) -> tuple[int, ...]:
        own = [
            minutes + int(scarcity * share * wait)
            for minutes, wait in zip(work, waits, strict=True)
        ]
        own += [0] * len(problem.gates)
        tail = [0] * graph.size
        for node in reversed(order):
            after = max((tail[e.after] + int(e.wait_minutes * share) for e in out[node]), default=0)
            tail[node] = own[node] + after
        above = sum(own) + 1
        return tuple(tail[node] + above * leads[node] for node in range(len(problem.jobs)))

    return weights


def _waits(problem: PlanProblem) -> list[float]:
    """Say for each job how long one waits for a session that takes it, beyond the usual wait."""
    known: dict[tuple[object, ...], float] = {}
    usual = _mean_wait(problem, problem.sessions.template)
    waits: list[float] = []
    for job in problem.jobs:
        minutes = planned_minutes(problem, job)
        if job.splittable:
            minutes = dict.fromkeys(minutes, job.least_piece_minutes)
        key = (*sorted(minutes.items()), job.min_temperature_c)
        if key not in known:
            taken = [s for s in problem.sessions.template if _takes(problem, s, job, minutes)]
            known[key] = max(0.0, _mean_wait(problem, taken) - usual)
        waits.append(known[key])
    return waits


def _takes(problem: PlanProblem, slot: SessionSlot, job: PlanJob, minutes: dict[int, int]) -> bool:
    least, now = job.min_temperature_c, slot.temperature_c
    if least is not None and now is not None and now < least:
        return False
    room = slot.minutes - problem.set_up_minutes - problem.clear_up_minutes
    return any(people <= slot.people and need <= room for people, need in minutes.items())


def _mean_wait(problem: PlanProblem, slots: Sequence[SessionSlot]) -> float:
    """Say how long it is on average from any moment to the next of these sessions."""
    period = problem.sessions.template_minutes
    starts = [slot.start_minute for slot in slots]
    if not starts:
        return float(period)
    gaps = [later - now for now, later in pairwise([*starts, starts[0] + period])]
    return sum(gap * gap for gap in gaps) / (2 * period)


def _worked_share(problem: PlanProblem) -> float:
    """Say how much of all clock time is worked in."""
    slots = problem.sessions.template
    if not slots:
        return 0.0
    taken = problem.set_up_minutes + problem.clear_up_minutes
    return sum(max(0, s.minutes - taken) for s in slots) / problem.sessions.template_minutes


def _leads_to_goal(problem: PlanProblem, graph: Network) -> list[bool]:
    if not problem.goal:
        return [True] * graph.size
    goal = set(problem.goal)
    into = graph.leading_in()
    leads = [node < len(graph.jobs) and graph.jobs[node].id in goal for node in range(graph.size)]
    open_nodes = [node for node in range(graph.size) if leads[node]]
    while open_nodes:
        for edge in into[open_nodes.pop()]:
            if not leads[edge.before]:
                leads[edge.before] = True
                open_nodes.append(edge.before)
    return leads


def plain_rule(engine: Engine, *, seed: int, samples: int = 96) -> Policy:
    """Make the rule, with other settings where they clearly bring the goal nearer.

    Parameters
    ----------
    engine : Engine
        On a plannable problem.
    seed, samples : int
        Which fates, and how many.
    """
    weighing = _weighing(engine.problem)
    ids = tuple(job.id for job in engine.problem.jobs)
    best = Policy(weighing(SCARCITY[0]), STICKINESS[0], FINISH_FIRST[0], HELPER_FIRST[0], ids)
    if engine.name == "plain":
        # Without a compiler there is no time to try them.
        return best
    finish = engine.run(best, seed=seed, samples=samples).finish
    for settings in (_scarcities(weighing), _stickiness, _helper_first, _finish_first):
        for tried in settings(best):
            other = engine.run(tried, seed=seed, samples=samples).finish
            gain, error = paired_days(finish, other)
            if gain > 2 * error:
                best, finish = tried, other
    return best


def _scarcities(
    weighing: Callable[[float], tuple[int, ...]],
) -> Callable[[Policy], list[Policy]]:
    return lambda policy: [replace(policy, priority=weighing(value)) for value in SCARCITY[1:]]


def _stickiness(policy: Policy) -> list[Policy]:
    return [replace(policy, stickiness=value) for value in STICKINESS[1:]]


def _helper_first(policy: Policy) -> list[Policy]:
    return [replace(policy, helper_first=value) for value in HELPER_FIRST[1:]]


def _finish_first(policy: Policy) -> list[Policy]:
    return [replace(policy, finish_first=value) for value in FINISH_FIRST[1:]]


def fitted(policy: Policy, problem: PlanProblem) -> Policy:
    """Fit a rule that was kept to the jobs there are now.

    Parameters
    ----------
    policy : Policy
        Made before, for jobs of which some may be finished and to which some may be added.
    problem : PlanProblem
        A plannable problem.

    Returns
    -------
    policy : Policy
        With the weights that were kept; a new job has the weight that the plain rule gives it.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings)
    >>> fitted(Policy((7, 9), job_ids=("tank", "wax")), plan).priority
    (9,)
    """
    ids = tuple(job.id for job in problem.jobs)
    unnamed = not policy.job_ids and len(policy.priority) == len(ids)
    if policy.job_ids == ids or unnamed:
        return policy
    kept = dict(zip(policy.job_ids, policy.priority, strict=False))
    weights = zip(ids, tails(problem), strict=True)
    priority = tuple(kept.get(job_id, weight) for job_id, weight in weights)
    return replace(policy, priority=priority, job_ids=ids)


def paired_days(before: NDArray[np.int64], after: NDArray[np.int64]) -> tuple[float, float]:
    """Say how many days sooner the same fates end, and the standard error of that.

    Examples
    --------
    >>> import numpy as np
    >>> paired_days(np.array([2880, 4320]), np.array([1440, 2880]))
    (1.0, 0.0)
    """
    gain = (before - after) / DAY_MINUTES
    spread = float(gain.std(ddof=1)) if len(gain) > 1 else 0.0
    return float(gain.mean()), spread / sqrt(len(gain))


@dataclass(frozen=True, slots=True)
class Tuned:
    """A tuned rule, or the plain one when tuning did not help.

    Parameters
    ----------
    policy : Policy
        What to go by.
    kept : bool
        Whether it is the tuned one.
    gain_days, standard_error_days : float
        How much sooner the tuned one reaches the goal on fates it was not tuned on, and how
        far that may be off. [days]
    moves : int
        How many changes were tried.
    """

    policy: Policy
    kept: bool
    gain_days: float
    standard_error_days: float
    moves: int


def tuned_rule(
    engine: Engine,
    start: Policy,
    *,
    seed: int,
    moves: int = 400,
    scenarios: int = 24,
    fresh: int = 400,
) -> Tuned:
    """Tune the rule by trying changes on a few fates; keep it if it does better on fresh ones.

    Parameters
    ----------
    engine : Engine
        On a plannable problem.
    start : Policy
        The rule to begin from.
    seed : int
        For the fates and the changes.
    moves : int
        How many changes are tried: a count, never a time, so that the answer repeats.
    scenarios, fresh : int
        Fates to tune on, and others to judge by.
    """
    import numpy as np

    dice = np.random.default_rng([seed, 1])
    best = start
    run = engine.run(start, seed=seed, samples=scenarios)
    best_mean = run.finish.mean()
    # A job is changed the more often, the more often it bound the finish.
    often = np.array(run.binding.job_samples, dtype=float) + 0.2
    often /= often.sum()
    for _ in range(moves if engine.problem.jobs else 0):
        tried = _changed(best, dice, often)
        mean = engine.run(tried, seed=seed, samples=scenarios).finish.mean()
        if mean <= best_mean:
            best, best_mean = tried, mean
    plain = engine.run(start, seed=seed, samples=fresh, skip=scenarios).finish
    tuned = engine.run(best, seed=seed, samples=fresh, skip=scenarios).finish
    gain, error = paired_days(plain, tuned)
    kept = gain > 2 * error
    return Tuned(best if kept else start, kept, gain, error, moves)


def _changed(policy: Policy, dice: np.random.Generator, often: np.ndarray) -> Policy:
    """Change one thing: a job's weight, two jobs' weights against each other, or a knob."""
    weights = list(policy.priority)
    job = int(dice.choice(len(weights), p=often))
    roll = dice.random()
    if roll < 0.4:
        weights[job] = weights[int(dice.integers(len(weights)))] + int(dice.integers(-60, 61))
    elif roll < 0.75:
        spread = max(60.0, 0.1 * (max(weights) - min(weights)))
        moved = weights[job] + int(dice.normal(0.0, spread))
        # Kept within what the weights span, so that no run of changes carries one away.
        weights[job] = max(min(weights) - 60, min(max(weights) + 60, moved))
    elif roll < 0.9:
        other = int(dice.integers(len(weights)))
        weights[job], weights[other] = weights[other], weights[job]
    else:
        factor = float(dice.uniform(0.5, 2.0))
        return replace(
            policy,
            stickiness=min(1000, int(policy.stickiness * factor + 0.5)),
            helper_first=min(100_000, int(policy.helper_first * factor + 0.5)),
        )
    return replace(policy, priority=tuple(weights))
