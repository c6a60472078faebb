"""Every rule at once: twin, compiled walk and checker over garages in which nothing is left out."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from bareshell.plan.checker import check
from bareshell.plan.engine import Engine
from bareshell.plan.policy import Policy
from bareshell.plan.problem import PlanProblem
from bareshell.plan.sampling import draw
from bareshell.plan.walk import walk
from tests.plan.wild import FEATURES, met, wild

SEEDS = range(20)
SAMPLES = 8


@cache
def _asked(seed: int) -> tuple[PlanProblem, Policy, tuple[int, ...]]:
    """A garage, weights as they fall, and at times jobs to be taken first."""
    problem = wild(seed)
    dice = np.random.default_rng(seed)
    jobs = len(problem.jobs)
    policy = Policy(
        tuple(int(weight) for weight in dice.integers(0, 5000, jobs)),
        stickiness=int(dice.integers(0, 60)),
        finish_first=int(dice.integers(0, 500)),
        helper_first=int(dice.integers(0, 3000)),
        together=int(dice.integers(80, 220)),
    )
    forced = tuple(int(index) for index in dice.integers(0, jobs, 3)) if seed % 4 > 1 else ()
    return problem, policy, forced


@pytest.mark.parametrize("seed", SEEDS)
def test_the_plan_keeps_every_rule(seed: int) -> None:
    problem, policy, forced = _asked(seed)
    schedule = walk(problem, policy, forced=forced).schedule
    assert schedule.blocks
    assert check(problem, schedule, complete=not schedule.left_over) == []


@pytest.mark.parametrize("seed", SEEDS)
def test_twin_and_compiled_walk_agree_sample_by_sample(seed: int) -> None:
    problem, policy, forced = _asked(seed)
    compiled, plain = (
        Engine(problem, engine=name).run(policy, seed=seed, samples=SAMPLES, forced=forced)
        for name in ("compiled", "plain")
    )
    assert compiled.finish.tolist() == plain.finish.tolist()
    assert compiled.binding == plain.binding


def test_no_rule_is_only_written_down() -> None:
    """Each of them was met by a walk through one of the very garages that are compared above."""
    found: set[str] = set()
    for seed in SEEDS:
        problem, policy, forced = _asked(seed)
        fates = draw(problem, 200, seed=seed, samples=2)
        for row in range(fates.samples):
            fate = fates.one(row)
            found |= met(problem, walk(problem, policy, fate, forced=forced), fate)
    assert sorted(set(FEATURES) - found) == []
    assert found <= set(FEATURES)
