"""The compiled walk and its twin: the same answers, whatever the engine and the threads."""

from __future__ import annotations

import sys
from typing import Any

import numpy as np
import pytest

from bareshell.plan import columns, engine, kernel, kernel_work
from bareshell.plan.arrays import horizon
from bareshell.plan.compiled import _fingerprint, compiled_run
from bareshell.plan.engine import PLAIN_SAMPLES, Engine, warm_up
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.ready import ready
from bareshell.plan.validate import prepare
from tests.plan.garages import Shape, bare, garage, job


def test_the_compiler_is_to_be_had_here() -> None:
    assert warm_up() == "compiled"
    assert compiled_run() is not None


def shape_of(seed: int) -> Shape:
    """Garages of every kind: alone, with a helper who lends a hand, with one who works beside."""
    if seed % 2:
        return Shape(jobs=(seed * 7) % 50 + 8)
    return Shape(
        jobs=(seed * 7) % 50 + 8,
        helper=0.25,
        helper_every=1 + seed % 4 // 2,
        beside=("", "marked", "any")[seed % 3],
        marked=0.4,
        body=seed % 8 == 2,
    )


@pytest.mark.parametrize("seed", range(48))
def test_twin_and_compiled_walk_agree_sample_by_sample(seed: int) -> None:
    """Finishes and what bound them, for any weights, with jobs forced first and without."""
    problem = prepare(garage(seed, shape_of(seed))).problem
    dice = np.random.default_rng(seed)
    jobs = len(problem.jobs)
    policy = Policy(
        tuple(int(weight) for weight in dice.integers(0, 5000, jobs)),
        stickiness=int(dice.integers(0, 60)),
        finish_first=int(dice.integers(0, 500)),
        helper_first=int(dice.integers(0, 3000)),
        together=int(dice.integers(80, 220)),
    )
    forced = [int(index) for index in dice.integers(0, jobs, 3)] if seed % 4 > 1 else []
    fast = Engine(problem, engine="compiled")
    slow = Engine(problem, engine="plain")
    compiled = fast.run(policy, seed=seed, samples=16, forced=forced)
    plain = slow.run(policy, seed=seed, samples=16, forced=forced)
    assert compiled.finish.tolist() == plain.finish.tolist()
    assert compiled.binding == plain.binding
    assert (compiled.engine, plain.engine) == ("compiled", "plain")
    assert fast.planned_finish(policy) == slow.planned_finish(policy)


def test_the_compiler_can_still_be_asked_for_linear_algebra_by_others() -> None:
    """The walk keeps it from looking as it loads, and puts back what it took."""
    from numba.np import linalg

    assert compiled_run() is not None
    ask: Any = linalg.ensure_blas
    ask()


def test_it_is_compiled_once_whatever_it_is_asked() -> None:
    compiled: Any = compiled_run
    problem = prepare(garage(3)).problem
    Engine(problem).run(Policy(tails(problem)), seed=1, samples=9, forced=(1,))
    Engine(prepare(bare(job("a"))).problem).run(Policy((1,)), seed=1, samples=3)
    assert compiled.cache_info().currsize == 1


def test_the_number_of_threads_changes_nothing() -> None:
    problem = prepare(garage(5, Shape(jobs=80))).problem
    policy = Policy(tails(problem))
    one = Engine(problem, threads=1).run(policy, seed=3, samples=301)
    two = Engine(problem, threads=2).run(policy, seed=3, samples=301)
    assert one.finish.tolist() == two.finish.tolist()
    assert one.binding == two.binding


def test_the_same_seed_repeats_and_another_does_not() -> None:
    problem = prepare(garage(6)).problem
    policy = Policy(tails(problem))
    first = Engine(problem).run(policy, seed=3, samples=50).finish
    again = Engine(problem).run(policy, seed=3, samples=50).finish
    other = Engine(problem).run(policy, seed=4, samples=50).finish
    assert first.tolist() == again.tolist()
    assert first.tolist() != other.tolist()


def test_fates_skipped_are_those_that_would_have_come_first() -> None:
    problem = prepare(garage(7)).problem
    policy = Policy(tails(problem))
    whole = Engine(problem).run(policy, seed=3, samples=60).finish
    rest = Engine(problem).run(policy, seed=3, samples=20, skip=40).finish
    assert whole[40:].tolist() == rest.tolist()


def test_no_fate_is_lost_when_the_sessions_written_out_run_out() -> None:
    """A job a hundred times as long as the guess allows for: more sessions are written out."""
    long = bare(job("sand", 900.0, splittable=True))
    short = Engine(prepare(long).problem)
    short._sessions = 40
    finish = short.run(Policy((1,)), seed=1, samples=10).finish
    assert finish.min() > 0
    assert short._sessions > 40
    fresh = Engine(prepare(long).problem)
    assert horizon(fresh.problem) > 40
    assert fresh.run(Policy((1,)), seed=1, samples=10).finish.tolist() == finish.tolist()


def test_a_job_that_some_futures_never_get_done_is_named_and_the_rest_is_planned(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """As planned it finds its sessions; with worse luck it does not, however long one waits."""
    monkeypatch.setattr(engine, "horizon", lambda _: 40)
    monkeypatch.setattr(engine, "MOST_SESSIONS", 40)
    problem = bare(
        job("sand", 300.0, splittable=True), job("shut", 1.0, "sand"), job("wax", 2.0, started=True)
    )
    made = ready(problem, seed=1)
    assert [one.id for one in made.problem.jobs] == ["wax"]
    snag = next(one for one in made.prepared.snags if one.rule == "no session suits")
    assert (snag.job_ids, snag.held_up_ids) == (("sand",), ("shut",))
    assert "'Job sand' found no session" in snag.sentence
    assert made.engine.run(made.policy, seed=2, samples=20).finish.min() > 0
    assert not made.reaches_goal


def test_where_there_is_no_compiler_the_twin_answers(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "numba", None)
    compiled_run.cache_clear()
    try:
        assert compiled_run() is None
        walker = Engine(prepare(bare(job("a"))).problem)
        assert walker.name == "plain"
        assert walker.run(Policy((1,)), seed=1, samples=5).finish.min() > 0
    finally:
        compiled_run.cache_clear()


def test_the_compiled_walk_knows_itself_by_its_code_and_numbers() -> None:
    """What was kept from an older walk must never answer for a newer one."""
    names = dict(vars(columns)) | dict(vars(kernel)) | dict(vars(kernel_work))
    assert _fingerprint(names) == _fingerprint(dict(names))
    assert _fingerprint(names) != _fingerprint(names | {"READY": 99})


def test_without_a_compiler_fewer_fates_are_walked_and_it_is_said() -> None:
    walker = Engine(prepare(bare(job("a"))).problem, engine="plain")
    outcome = walker.run(Policy((1,)), seed=1, samples=2000)
    assert outcome.engine == "plain"
    assert len(outcome.finish) == PLAIN_SAMPLES == walker.samples(2000)
