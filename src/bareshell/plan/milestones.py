"""When the points on the way are reached: each gate as a goal of its own, on the same fates."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from bareshell.plan.engine import Engine
from bareshell.plan.forecast import Forecast, forecast
from bareshell.plan.network import network
from bareshell.plan.ready import Ready

__all__ = ["goals_of_gates", "reached"]

MILESTONE_SAMPLES = 500
"""From how many fates a point on the way is foretold."""


def goals_of_gates(made: Ready) -> dict[str, tuple[str, ...]]:
    """List for each gate that is shut the jobs that must be done for it.

    Parameters
    ----------
    made : Ready
        The problem; a gate for which nothing is left to do is not in the list.
    """
    graph = network(made.problem)
    into = graph.leading_in()
    first = len(graph.jobs)
    found: dict[str, tuple[str, ...]] = {}
    for at, gate in enumerate(graph.gates):
        jobs = dict.fromkeys(
            graph.jobs[edge.before].id for edge in into[first + at] if edge.before < first
        )
        if jobs:
            found[gate.id] = tuple(jobs)
    return found


def reached(
    made: Ready,
    goals: Mapping[str, Sequence[str]],
    *,
    samples: int = MILESTONE_SAMPLES,
    forced: Sequence[int] = (),
) -> dict[str, Forecast]:
    """Foretell when each of some goals is reached on the way to the road.

    Parameters
    ----------
    made : Ready
        The problem, its engine and its policy.
    goals : mapping of str to sequence of str
        For each point, the jobs that must be done for it.
    samples : int
        From how many fates, the first of those that the road is foretold from.
    forced : sequence of int
        Jobs to take first in the first session, by position.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import Link, PlanJob, PlanProblem, Way
    >>> from bareshell.plan.ready import ready
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> hour = (Way(1, 60, 60, 60),)
    >>> wax = PlanJob("wax", "Wax", "underbody", hour)
    >>> tank = PlanJob("tank", "Tank", "fuel", hour, after=(Link("wax", 20_000),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax, tank), evenings)
    >>> made = ready(plan, seed=1, engine="plain")
    >>> found = reached(made, {"waxed": ["wax"], "hung": ["tank"]}, samples=20)
    >>> found["waxed"].p80.minute < found["hung"].p80.minute
    True
    """
    found: dict[str, Forecast] = {}
    for key, jobs in goals.items():
        problem = replace(made.problem, goal=tuple(jobs))
        engine = Engine(problem, threads=made.engine.threads, engine=made.engine.name)
        outcome = engine.run(made.policy, seed=made.seed, samples=samples, forced=forced)
        found[key] = forecast(problem, outcome)
    return found
