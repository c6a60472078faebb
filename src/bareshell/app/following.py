"""Following the plan that was last given out, so that an entry moves as little as it can."""

from __future__ import annotations

from datetime import datetime

from bareshell.model import Build
from bareshell.plan.policy import Policy
from bareshell.plan.problem import PlanProblem
from bareshell.plan.ready import ready
from bareshell.plan.stability import steady
from bareshell.whole.issued import given_out


def rule_to_follow(
    build: Build, problem: PlanProblem, now: datetime, *, seed: int
) -> Policy | None:
    """Return the rule that follows the plan last given out; None when none is so recent.

    Tonight and the road ahead go by the same rule, so the one is the beginning of the other.

    Parameters
    ----------
    build : Build
        With its kept forecasts.
    problem : PlanProblem
        What is asked, as it is expected.
    now : datetime
        Aware.
    seed : int
        For the futures on which rules are compared.
    """
    plan = given_out(build, now)
    if plan is None:
        return None
    made = ready(problem, seed=seed)
    if not made.problem.jobs:
        return None
    to_come = [one for one in plan.intended if one.job_id not in plan.taken_up]
    return steady(made, to_come, until=plan.until).policy
