"""What may happen: each thing has its own luck, and the spreads are those that were asked for."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy import stats

from bareshell.plan.problem import Arrival, Luck, PlanJob, Way
from bareshell.plan.sampling import as_planned, draw
from tests.plan.garages import DAY, bare, evenings, garage, job

QUIET = Luck(0.0, 0.0, 0.0, 0.0, 0.0)


def test_the_three_hours_are_the_tenth_fiftieth_and_ninetieth_hundredth() -> None:
    plan = bare(PlanJob("w", "Wax", "underbody", (Way(1, 60, 100, 250),)))
    factor = draw(plan, 5, seed=1, samples=20_000).factor[:, 0]
    found = np.quantile(factor, [0.1, 0.5, 0.9])
    assert found == pytest.approx([0.6, 1.0, 2.5], rel=0.03)


def test_each_half_is_the_log_normal_of_the_textbook() -> None:
    """Against scipy.stats.lognorm (an independent library), by a Kolmogorov-Smirnov test."""
    plan = bare(PlanJob("w", "Wax", "underbody", (Way(1, 50, 100, 200),)))
    factor = draw(plan, 5, seed=2, samples=4000).factor[:, 0]
    sigma = np.log(2.0) / stats.norm.ppf(0.9)
    assert stats.kstest(factor, stats.lognorm(sigma).cdf).pvalue > 0.001


def test_one_pace_moves_all_jobs_together() -> None:
    jobs = (job("a"), job("b", system="brakes"))
    steady = draw(bare(*jobs), 5, seed=1, samples=3000).factor
    moody = draw(bare(*jobs, luck=replace(QUIET, pace_spread=0.6)), 5, seed=1, samples=3000).factor
    assert abs(np.corrcoef(np.log(steady.T))[0, 1]) < 0.1
    assert np.corrcoef(np.log(moody.T))[0, 1] > 0.5


def test_a_finished_job_leaves_the_luck_of_the_others_alone() -> None:
    both = draw(bare(job("a"), job("b")), 9, seed=1, samples=20)
    one = draw(bare(job("b")), 9, seed=1, samples=20)
    assert both.factor[:, 1].tolist() == one.factor[:, 0].tolist()
    assert both.people.tolist() == one.people.tolist()


def test_parts_are_late_as_often_and_by_as_much_as_was_said() -> None:
    arrival = Arrival("x", "x", 10 * DAY, late_share=0.3, late_mean_days=7.0)
    arrives = draw(bare(job("a"), arrivals=(arrival,)), 5, seed=1, samples=20_000).arrives[:, 0]
    late = arrives[arrives > 10 * DAY] - 10 * DAY
    assert len(late) / 20_000 == pytest.approx(0.3, abs=0.015)
    assert late.mean() / DAY == pytest.approx(7.0, rel=0.06)
    assert arrives.min() == 10 * DAY


def test_an_overdue_part_is_still_to_come_in_every_fate() -> None:
    arrival = Arrival("x", "x", -3 * DAY, late_share=0.0, late_mean_days=4.0)
    plan = bare(job("a"), arrivals=(arrival,))
    assert draw(plan, 5, seed=1, samples=500).arrives.min() > 0
    assert as_planned(plan, 5).arrives.tolist() == [[4 * DAY]]


def test_sessions_and_helpers_fail_as_often_as_was_said_and_tonight_never() -> None:
    luck = Luck(0.0, 0.0, lost_week_share=0.0, lost_session_share=0.2, no_show_share=0.4)
    source = evenings(helper_every=1)
    sure = replace(source.slots[0], certain=True)
    plan = bare(job("a"), sessions=source.with_first(sure), luck=luck)
    slots = plan.sessions.first(120)
    people = draw(plan, 120, seed=1, samples=400).people
    assert (people[:, 0] == slots[0].people).all()
    assert (people[:, 1:] == 0).mean() == pytest.approx(0.2, abs=0.01)
    helped = [index for index, slot in enumerate(slots) if slot.people == 2]
    assert (people[:, helped] == 2).mean() == pytest.approx(0.8 * 0.6, abs=0.02)


def test_lost_weeks_are_lost_whole() -> None:
    plan = bare(job("a"), luck=replace(QUIET, lost_week_share=0.3))
    people = draw(plan, 60, seed=1, samples=200).people
    weeks = people.reshape(200, 20, 3)
    assert ((weeks == 0).all(axis=2) | (weeks > 0).all(axis=2)).all()
    assert (weeks == 0).all(axis=2).mean() == pytest.approx(0.3, abs=0.03)


def test_more_fates_begin_with_the_same_ones() -> None:
    plan = garage(3)
    few, many = draw(plan, 30, seed=5, samples=10), draw(plan, 60, seed=5, samples=40)
    assert (many.factor[:10] == few.factor).all()
    assert (many.arrives[:10] == few.arrives).all()
    assert (many.people[:10, :30] == few.people).all()
