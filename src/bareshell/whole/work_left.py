"""How much work is left, as the plan counts it."""

from __future__ import annotations

from bareshell.plan.hours import planned_minutes
from bareshell.plan.problem import PlanProblem

__all__ = ["hours_left"]


def hours_left(problem: PlanProblem, *, helper: bool = False) -> float:
    """Add up the likely work left, or only what takes two people.

    Parameters
    ----------
    problem : PlanProblem
        What is planned.
    helper : bool
        Whether only what cannot be done alone counts.

    Returns
    -------
    float
        [h]
    """
    minutes = 0
    for job in problem.jobs:
        planned = planned_minutes(problem, job)
        if not helper or 1 not in planned:
            minutes += min(planned.values())
    return round(minutes / 60, 1)
