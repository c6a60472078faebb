"""How long planning takes: a walk, tonight's list, the forecast, the checker and the bound.

Beside the compiled walk stand its twin in plain Python and, for an evening, the solver.
`benchmarks/plan/quality.py` shows how good the plans are; this shows only how long they take.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

# The invented garages live with the tests.
sys.path.insert(0, str(Path(__file__).parent.parent))

from bareshell.plan.bound import bound
from bareshell.plan.checker import check
from bareshell.plan.engine import Engine, warm_up
from bareshell.plan.exact import pack
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.ready import ready
from bareshell.plan.reasons import most_wanted
from bareshell.plan.road import road
from bareshell.plan.tonight import tonight
from bareshell.plan.tuning import tuned_rule
from bareshell.plan.walk import walk
from tests.plan.garages import Shape, garage

SEED = 1


def cases(case: Callable[..., Any]) -> Iterable[Any]:
    """Cars of 150, 300 and 400 jobs; the answers a person waits for are on the largest."""
    warm_up()
    for jobs in (150, 300, 400):
        made = ready(garage(3, Shape(jobs=jobs, parts=0.12, gates=5)), seed=SEED)
        one = Engine(made.problem, threads=1)
        one.run(made.policy, seed=SEED, samples=1000)
        yield case(
            f"1,000 walks through {jobs} jobs, one thread, fates drawn",
            lambda one=one, made=made: one.run(made.policy, seed=SEED, samples=1000),
            0.2,
        )
        twin = Engine(made.problem, engine="plain")
        twin.run(made.policy, seed=SEED, samples=1)
        yield case(
            f"1 walk through {jobs} jobs by the twin",
            lambda twin=twin, made=made: twin.run(made.policy, seed=SEED, samples=1),
            0.1,
        )
    large = garage(3, Shape(jobs=400, parts=0.12, gates=5))
    middle = garage(3, Shape(jobs=300, parts=0.12, gates=5))
    made = ready(middle, seed=SEED)
    yield case(
        "forecast: 10,000 fates drawn and walked, 300 jobs",
        lambda: Engine(made.problem).run(made.policy, seed=SEED, samples=10_000),
        1.0,
    )
    twin = Engine(made.problem, engine="plain")
    yield case(
        f"the same by the twin, {twin.samples(10_000)} of the 10,000",
        lambda: twin.run(made.policy, seed=SEED, samples=10_000),
    )
    beginnings = len(tonight(middle, seed=SEED).alternatives)
    yield case(
        f"tonight's list, {beginnings} beginnings compared, 300 jobs",
        lambda: tonight(middle, seed=SEED),
        1.0,
    )
    yield case("the same by the twin, roughly", lambda: tonight(middle, seed=SEED, engine="plain"))
    yield case("tonight's list, 400 jobs", lambda: tonight(large, seed=SEED), 1.0)
    yield case("road ahead with 2,000 fates, 400 jobs", lambda: road(large, seed=SEED), 2.0)
    answer = tonight(large, seed=SEED)
    yield case("why not, for every job of 400", lambda: most_wanted(answer, 400), 0.5)
    plan = answer.problem
    yield case("the checker, 400 jobs", lambda: check(plan, answer.schedule, complete=True), 0.05)
    yield case("the bound, 400 jobs", lambda: bound(plan), 0.3)
    policy = Policy(tails(plan))
    yield case("the plan drawn up move by move, 400 jobs", lambda: walk(plan, policy), 0.1)
    yield case("tonight packed exactly, 400 jobs", lambda: pack(plan, policy.priority), 1.0)
    small = Engine(ready(garage(3, Shape(jobs=150, parts=0.12, gates=5)), seed=SEED).problem)
    rule = Policy(tails(small.problem))
    yield case(
        "tuning the rule, 100 moves, 150 jobs",
        lambda: tuned_rule(small, rule, seed=SEED, moves=100),
        1.0,
    )
