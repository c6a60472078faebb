"""How long what moves the date takes to measure: levers, what binds, indices, following a plan.

The aim on two cores is a second for ten levers on a car of 300 jobs, and for its forecast of
10,000 fates with the drawing of their luck.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any

# The invented garages live with the tests.
sys.path.insert(0, str(Path(__file__).parent.parent))

from bareshell.plan.engine import Engine, warm_up
from bareshell.plan.foretold import score_hours
from bareshell.plan.indices import job_indices
from bareshell.plan.lever_choice import usual_levers
from bareshell.plan.levers import measured
from bareshell.plan.pace_model import Finished, learn_pace
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.ready import ready
from bareshell.plan.sampling import draw
from bareshell.plan.stability import fortnight, steady
from bareshell.plan.walk import walk
from tests.plan.garages import Shape, garage

SEED = 1
SYSTEMS = ("brakes", "fuel", "electrics", "interior", "underbody")


def cases(case: Callable[..., Any]) -> Iterable[Any]:
    """Cars of 150, 300 and 400 jobs."""
    warm_up()
    for jobs in (150, 300, 400):
        made = ready(garage(3, Shape(jobs=jobs, parts=0.12, gates=5)), seed=SEED)
        outcome = made.engine.run(made.policy, seed=SEED, samples=2000)
        ids = [job.id for job in made.problem.jobs]
        levers = usual_levers(made.problem, outcome, may_be_left_out=ids, may_be_lent=ids)
        yield case(
            f"{len(levers)} levers, {jobs} jobs, 800 paired fates each",
            lambda made=made, levers=levers: measured(made, levers),
            1.0,
        )
        yield case(
            f"the published indices, {jobs} jobs, 2,000 fates",
            lambda made=made, outcome=outcome: job_indices(made.problem, outcome, seed=SEED),
            0.5,
        )
    made = ready(garage(3, Shape(jobs=300, parts=0.12, gates=5)), seed=SEED)
    yield case(
        "10,000 fates drawn, 300 jobs",
        lambda: draw(made.problem, 753, seed=SEED, samples=10_000),
        0.5,
    )
    yield case(
        "forecast: 10,000 fates drawn and walked, 300 jobs",
        lambda: Engine(made.problem).run(made.policy, seed=SEED, samples=10_000),
        1.0,
    )
    problem = garage(4, Shape(jobs=300, parts=0.12, gates=5))
    other = replace(Policy(tails(problem, 0.0)), stickiness=0, finish_first=0)
    given = ready(problem, seed=SEED, policy=other)
    earlier = fortnight(given.problem, walk(given.problem, given.policy).schedule)
    now = ready(problem, seed=SEED)
    yield case("following a plan that was given out, 300 jobs", lambda: steady(now, earlier), 0.5)
    finished = [
        Finished(f"j{n}", "", SYSTEMS[n % 5], 120.0, 120.0 * (0.7 + 0.1 * (n % 9)), 0.4, 0.4)
        for n in range(300)
    ]
    yield case("the pace of 300 finished jobs", lambda: learn_pace(finished), 0.05)
    yield case("the last 60 of 300 jobs scored", lambda: score_hours(finished), 0.5)
