"""What to take first: the rule that weighs jobs.

The rule is the longest work that still follows a job, and longer where it leads to work that few
sessions take: what wants the helper, or a warm day, or a whole Saturday. Among other things that
is what places the season's work: what leads to work that only the summer takes weighs as much
more as one waits for a summer. (Measured: weighing by the latest dates on the calendar instead,
or more urgently as a season runs out, came out weeks later on most of 32 invented cars.)

`bareshell.plan.tuning` fits it to one build.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise
from math import sqrt
from typing import TYPE_CHECKING

from bareshell.plan.arrays import DAY_MINUTES
from bareshell.plan.engine import Engine, NeverEnds
from bareshell.plan.hours import planned_minutes
from bareshell.plan.network import Network, network
from bareshell.plan.policy import Policy
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.sessions import SessionSlot

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["fitted", "paired_days", "plain_rule", "tails"]

SCARCITY = (2.0, 3.0, 4.0, 1.0)
STICKINESS = (10, 20, 5, 40)
HELPER_FIRST = (2400, 600, 0)
FINISH_FIRST = (120, 0)
TOGETHER = (150, 100, 200)
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
    knobs = [_scarcities(weighing), _stickiness, _helper_first, _finish_first]
    if any(slot.beside for slot in engine.problem.sessions.kinds):
        knobs.append(_together)
    for settings in knobs:
        for tried in settings(best):
            try:
                other = engine.run(tried, seed=seed, samples=samples).finish
            except NeverEnds:
                continue
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


def _together(policy: Policy) -> list[Policy]:
    return [replace(policy, together=value) for value in TOGETHER[1:]]


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
