"""The rule that weighs jobs, and its tuning."""

from __future__ import annotations

import numpy as np

from bareshell.plan.engine import Engine
from bareshell.plan.policy import Policy
from bareshell.plan.priority import (
    FINISH_FIRST,
    HELPER_FIRST,
    STICKINESS,
    fitted,
    paired_days,
    plain_rule,
    tails,
)
from bareshell.plan.problem import Link
from bareshell.plan.tonight import tonight
from bareshell.plan.tuning import Changes, tuned_rule
from bareshell.plan.validate import prepare
from tests.plan.garages import DAY, Shape, bare, evenings, garage, hours, job


def weights(*jobs: object, **settings: object) -> dict[str, int]:
    problem = prepare(bare(*jobs, **settings)).problem  # type: ignore[arg-type]
    return dict(zip((one.id for one in problem.jobs), tails(problem), strict=True))


def test_a_job_weighs_more_than_all_that_follows_it() -> None:
    found = weights(job("a"), job("b", 1.0, "a"), job("c", 1.0, "b"))
    assert found["a"] > found["b"] > found["c"]


def test_a_wait_weighs_too() -> None:
    found = weights(job("a"), job("b"), job("x", 1.0, Link("a", 20 * DAY)), job("y", 1.0, "b"))
    assert found["a"] > found["b"]


def test_work_that_leads_to_a_rare_session_weighs_more() -> None:
    found = weights(
        job("a"), job("b"), job("x", 1.0, "a", ways=(hours(1.0, people=2),)), job("y", 1.0, "b")
    )
    assert found["a"] > found["b"]


def test_what_leads_to_no_job_of_the_goal_weighs_less_than_what_does() -> None:
    found = weights(job("polish", 90.0, splittable=True), job("road", 0.5), goal=("road",))
    assert found["road"] > found["polish"]


def test_the_plain_rule_is_no_worse_than_its_first_settings() -> None:
    engine = Engine(prepare(garage(2, Shape(jobs=60))).problem)
    rule = plain_rule(engine, seed=3, samples=64)
    first = Policy(tails(engine.problem), STICKINESS[0], FINISH_FIRST[0], HELPER_FIRST[0])
    before = engine.run(first, seed=3, samples=64).finish
    after = engine.run(rule, seed=3, samples=64).finish
    assert after.mean() <= before.mean()


def test_tuning_repeats_and_is_kept_only_when_it_helps_on_fresh_fates() -> None:
    engine = Engine(prepare(garage(4, Shape(jobs=40))).problem)
    start = Policy(tuple(reversed(range(len(engine.problem.jobs)))))
    tuned = tuned_rule(engine, start, seed=5, moves=120)
    assert tuned == tuned_rule(engine, start, seed=5, moves=120)
    assert tuned.kept == (tuned.gain_days > 2 * tuned.standard_error_days)
    assert tuned.kept
    before = engine.run(start, seed=77, samples=400).finish
    after = engine.run(tuned.policy, seed=77, samples=400).finish
    gain, error = paired_days(before, after)
    assert gain > -2 * error


def test_weights_stay_within_what_the_knobs_are_made_for_however_long_one_tunes() -> None:
    engine = Engine(prepare(garage(4, Shape(jobs=12))).problem)
    start = Policy(tails(engine.problem))
    changes = Changes(engine.problem, start, np.random.default_rng(1))
    policy = start
    for _ in range(3000):
        policy = changes(policy)
    span = max(start.priority) - min(start.priority)
    assert min(policy.priority) >= min(start.priority) - span
    assert max(policy.priority) <= max(start.priority) + span


def test_tuning_that_changes_nothing_leaves_the_rule_alone() -> None:
    engine = Engine(prepare(bare(job("a"), sessions=evenings(temperatures=False))).problem)
    start = Policy((60,))
    assert tuned_rule(engine, start, seed=1, moves=10, fresh=20).policy is start


def test_a_rule_that_was_kept_fits_when_jobs_are_finished_and_added() -> None:
    """The order of what is left stays as it was: a plan changes as little as it can."""
    before = bare(job("a"), job("b"), job("c"))
    kept = Policy((10, 30, 20), job_ids=("a", "b", "c"))
    assert fitted(kept, before) is kept
    after = prepare(bare(job("new", 9.0, splittable=True), job("c"), job("b"))).problem
    weights = dict(zip(("new", "c", "b"), fitted(kept, after).priority, strict=True))
    assert (weights["b"], weights["c"]) == (30, 20)
    assert weights["new"] > 500
    assert tonight(after, seed=1, policy=kept, samples=20).policy == fitted(kept, after)
