"""A problem made ready to answer questions: what can be planned, by which rule, on which engine."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace

from bareshell.plan import wording
from bareshell.plan.engine import Engine, EngineName, NeverEnds
from bareshell.plan.network import network
from bareshell.plan.policy import Policy
from bareshell.plan.priority import fitted, plain_rule, tails
from bareshell.plan.problem import PlanProblem
from bareshell.plan.validate import Prepared, Snag, prepare, without
from bareshell.plan.walk import walk

__all__ = ["Ready", "ready"]

HELD_AGAINST = 96
"""On so many futures a rule that was made before is looked at, as the plain one is."""


@dataclass(frozen=True, slots=True)
class Ready:
    """What every answer is made from.

    Parameters
    ----------
    prepared : Prepared
        What is planned, what was asked, and what stood in the way.
    engine : Engine
        Walks through it.
    policy : Policy
        What the owner goes by.
    seed : int
        For the fates.
    """

    prepared: Prepared
    engine: Engine
    policy: Policy
    seed: int

    @property
    def problem(self) -> PlanProblem:
        """What is planned."""
        return self.prepared.problem

    @property
    def reaches_goal(self) -> bool:
        """Whether every job of the goal can be planned; nothing of it was set aside."""
        asked = self.prepared.asked
        goal = set(asked.goal) or {job.id for job in asked.jobs}
        return not goal & self.prepared.set_aside


def ready(
    problem: PlanProblem,
    *,
    seed: int,
    policy: Policy | None = None,
    threads: int = 2,
    engine: EngineName | None = None,
) -> Ready:
    """Make a problem ready to answer questions.

    Parameters
    ----------
    problem : PlanProblem
        Any problem.
    seed : int
        For the fates; 0 or more.
    policy : Policy, optional
        A rule made before, fitted to the jobs there are now; the plain one when left out.
    threads : int
        How many threads may walk at once; no answer depends on it.
    engine : {"compiled", "plain"}, optional
        Which walk to use; the compiled one where there is one.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings)
    >>> ready(plan, seed=1, engine="plain").problem.jobs[0].title
    'Wax'
    """
    prepared = prepare(problem)
    walker = Engine(prepared.problem, threads=threads, engine=engine)
    if prepared.problem.jobs and walker.planned_finish(Policy(tails(prepared.problem))) is None:
        left = walk(prepared.problem, Policy(tails(prepared.problem))).schedule.left_over
        prepared = _without(prepared, left) if left else prepared
        walker = Engine(prepared.problem, threads=threads, engine=engine)
    while True:
        try:
            rule = _rule(walker, policy, seed)
        except NeverEnds as stuck:
            # With better luck it could be done; but a road that some futures never reach is none.
            prepared = _without(prepared, stuck.job_ids)
            walker = Engine(prepared.problem, threads=threads, engine=engine)
        else:
            return Ready(prepared, walker, rule, seed)


def _rule(walker: Engine, policy: Policy | None, seed: int) -> Policy:
    """Fit the rule that was made before, or make the plain one; hold it against some futures."""
    if not walker.problem.jobs:
        return Policy(())
    if policy is None:
        return plain_rule(walker, seed=seed)
    rule = fitted(policy, walker.problem)
    if walker.name == "compiled":
        walker.run(rule, seed=seed, samples=HELD_AGAINST)
    return rule


def _without(prepared: Prepared, left_over: Collection[str]) -> Prepared:
    """Set aside what finds no session although no single rule forbids it."""
    problem = prepared.problem
    left = set(left_over)
    graph = network(problem)
    nodes = {node for node, job in enumerate(problem.jobs) if job.id in left}
    held = graph.downstream(nodes) & nodes
    first = sorted(nodes - held)
    snag = Snag(
        "no session suits",
        f"{wording.listed(graph.title(node) for node in first)} found no session with the time, "
        "the people and the warmth together.",
        "Look at how long it takes, who is needed and how warm it must be.",
        "set aside",
        tuple(problem.jobs[node].id for node in first),
        tuple(problem.jobs[node].id for node in sorted(held)),
    )
    plannable, _ = without(problem, left)
    return replace(
        prepared,
        problem=plannable,
        snags=(*prepared.snags, snag),
        set_aside=prepared.set_aside | left,
    )
