"""The published indices: by their definitions, against SciPy and a network done by hand.

Criticality: Van Slyke 1963. Significance and cruciality: Williams 1992. Schedule sensitivity:
Vanhoucke 2010. Definitions from memory.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from bareshell.plan.engine import Engine, Outcome
from bareshell.plan.hours import planned_minutes
from bareshell.plan.indices import JobIndex, job_indices, worked_share
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.problem import Link, Luck, PlanProblem
from bareshell.plan.sampling import draw
from tests.plan.garages import DAY, Shape, bare, garage, hours, job


def walked(problem: PlanProblem, samples: int = 400) -> tuple[Outcome, dict[str, JobIndex]]:
    outcome = Engine(problem).run(Policy(tails(problem)), seed=1, samples=samples)
    return outcome, {one.job_id: one for one in job_indices(problem, outcome, seed=1)}


def three(**more: object) -> PlanProblem:
    """A long chain of two and a short job beside it."""
    return bare(
        job("long", 30.0, splittable=True, ways=(hours(30.0, spread=2.0),)),
        job("last", 1.0, "long"),
        job("short", 1.0),
        **more,
    )


def test_criticality_is_the_share_of_chains() -> None:
    outcome, found = walked(three())
    for at, key in enumerate(("long", "last", "short")):
        assert found[key].criticality == outcome.binding.job_samples[at] / 400
    assert found["last"].criticality == 1.0


def test_plain_cruciality_is_scipys_rank_correlation() -> None:
    problem = garage(3, Shape(jobs=25))
    outcome, found = walked(problem)
    factor = draw(problem, 1, seed=1, samples=400).factor
    for at, one in enumerate(problem.jobs):
        rho = stats.spearmanr(factor[:, at], outcome.finish).statistic
        assert found[one.id].plain_cruciality == pytest.approx(abs(rho), abs=1e-6)


def test_the_common_pace_ties_every_job_to_the_finish_and_is_taken_out() -> None:
    """Ten equal jobs and one pace: each looks crucial, and after the pace hardly any does."""
    jobs = [job(f"j{n}", 3.0, splittable=True) for n in range(10)]
    _, found = walked(bare(*jobs, luck=Luck(0.6, 0.0, 0.0, 0.0, 0.0)), samples=1500)
    plain = np.mean([one.plain_cruciality for one in found.values()])
    after = np.mean([one.cruciality for one in found.values()])
    assert plain > 0.7
    assert 0.1 < after < 0.5


def test_a_job_that_sways_the_finish_is_clear_and_one_that_does_not_is_not() -> None:
    _, found = walked(three(), samples=1500)
    assert found["long"].clear
    assert found["long"].cruciality > 0.9
    assert found["short"].cruciality < 0.1


def test_significance_is_the_published_mean_on_a_network_by_hand() -> None:
    problem = three()
    _, found = walked(problem)
    planned = [min(planned_minutes(problem, one).values()) for one in problem.jobs]
    long, last, short = (
        draw(problem, 1, seed=1, samples=400).factor.astype(float).T * np.array(planned)[:, None]
    )
    whole = np.maximum(long + last, short)
    for key, own, slack in (
        ("long", long, whole - long - last),
        ("last", last, whole - long - last),
        ("short", short, whole - short),
    ):
        expected = np.mean(own / (own + slack) * whole / whole.mean())
        assert found[key].significance == pytest.approx(expected)


def test_waits_count_on_the_network_as_the_work_that_fits_in_them() -> None:
    problem = bare(job("a"), job("b", 1.0, Link("a", 28 * DAY)), job("c", 3.0))
    _, found = walked(problem)
    assert worked_share(problem) == pytest.approx((120 + 120 + 330) / (7 * DAY))
    assert found["c"].significance < 0.2 < found["a"].significance


def test_sensitivity_is_criticality_times_the_share_of_the_spread() -> None:
    problem = three()
    outcome, found = walked(problem)
    planned = min(planned_minutes(problem, problem.jobs[0]).values())
    own = draw(problem, 1, seed=1, samples=400).factor[:, 0].astype(float) * planned
    expected = (
        found["long"].criticality * own.std() / (outcome.finish.std() * worked_share(problem))
    )
    assert found["long"].sensitivity == pytest.approx(expected)


def test_the_most_often_critical_comes_first_and_few_fates_say_nothing() -> None:
    problem = garage(5, Shape(jobs=25))
    outcome = Engine(problem).run(Policy(tails(problem)), seed=1, samples=200)
    shares = [one.criticality for one in job_indices(problem, outcome, seed=1)]
    assert shares == sorted(shares, reverse=True)
    few = Engine(problem).run(Policy(tails(problem)), seed=1, samples=2)
    assert job_indices(problem, few, seed=1) == ()
