"""What may happen: each thing has its own luck, and the spreads are those that were asked for."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy import stats

from bareshell.plan.lateness import Delay, Share, SourceBelief, late_by
from bareshell.plan.problem import Arrival, Luck, Pace, PlanJob, Way
from bareshell.plan.sampling import as_planned, draw, draw_paces
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


# --- what is not surely known ---------------------------------------------------------------------


def test_hours_spread_as_a_students_t_when_their_spread_is_not_sure() -> None:
    """Against scipy.stats.t: a normal of inverse gamma variance (Student 1908, from memory)."""
    luck = replace(QUIET, spread_shape=4.0, spread_scale=4.0)
    plan = bare(PlanJob("w", "Wax", "underbody", (Way(1, 50, 100, 200),)), luck=luck)
    factor = draw(plan, 5, seed=2, samples=8000).factor[:, 0]
    sigma = np.log(2.0) / stats.norm.ppf(0.9)
    assert stats.kstest(np.log(factor) / sigma, stats.t(8).cdf).pvalue > 0.001


def test_a_system_with_a_record_follows_the_common_pace_less() -> None:
    jobs = (job("a"), job("b", system="brakes"), job("c", system="interior"))
    paces = (Pace("", 1.0, 0.5), Pace("brakes", 1.2, 0.05, 0.1))
    luck = replace(QUIET, system_spread=0.1)
    drawn = draw_paces(bare(*jobs, paces=paces, luck=luck), seed=1, samples=20_000)
    assert drawn.common.std() == pytest.approx(0.5, rel=0.03)
    assert drawn.of_system["brakes"].std() == pytest.approx(np.hypot(0.05, 0.05), rel=0.03)
    assert drawn.of_system["interior"].std() == pytest.approx(np.hypot(0.5, 0.1), rel=0.03)
    fates = draw(bare(*jobs, paces=paces, luck=luck), 5, seed=1, samples=20_000)
    assert np.log(fates.factor[:, 2]).std() > np.log(fates.factor[:, 1]).std()


def test_a_begun_job_is_not_over_yet_in_any_fate() -> None:
    """Against scipy.stats.truncnorm: what is left is what is left of such jobs."""
    begun = PlanJob("w", "Wax", "underbody", (Way(1, 50, 100, 200),), minutes_done=150)
    factor = draw(bare(begun), 5, seed=1, samples=8000).factor[:, 0]
    assert factor.min() >= 1.5 * (1 - 1e-6)
    sigma = np.log(2.0) / stats.norm.ppf(0.9)
    least = np.log(1.5) / sigma
    assert stats.kstest(np.log(factor) / sigma, stats.truncnorm(least, np.inf).cdf).pvalue > 0.001


def test_a_job_worked_on_beyond_all_reason_is_still_drawn() -> None:
    begun = PlanJob("w", "Wax", "underbody", (Way(1, 90, 100, 110),), minutes_done=4000)
    factor = draw(bare(begun), 5, seed=1, samples=300).factor[:, 0]
    assert (factor >= 40 * (1 - 1e-5)).all()
    assert np.isfinite(factor).all()


def _belief(
    late: tuple[float, float] = (3, 7),
    wrong: tuple[float, float] = (1, 9),
    again: float = 0.0,
    name: str = "an invented shop",
) -> SourceBelief:
    return SourceBelief(name, Share(*late), Delay(5, 40), Share(*wrong), again)


def _of(source: SourceBelief, *names: str) -> tuple[Arrival, ...]:
    return tuple(Arrival(name, name, 100 * DAY, belief=source) for name in names)


def test_delays_are_scipys_lomax_when_their_rate_is_not_sure() -> None:
    plan = bare(job("a"), arrivals=_of(_belief(), "x"))
    arrives = draw(plan, 5, seed=1, samples=40_000).arrives[:, 0] / DAY - 100
    late = arrives[arrives > 0]
    assert len(late) / 40_000 == pytest.approx(0.3, abs=0.01)
    assert stats.kstest(late, stats.lomax(5, scale=40).cdf).pvalue > 0.001


def test_what_comes_from_one_source_is_late_together() -> None:
    """How often both are late is the beta's second moment (Gelman et al., section 2.4)."""
    plan = bare(job("a"), arrivals=_of(_belief(late=(1, 1)), "x", "y"))
    late = draw(plan, 5, seed=1, samples=40_000).arrives > 100 * DAY
    assert (late[:, 0] & late[:, 1]).mean() == pytest.approx(1 / 3, abs=0.01)
    apart = (*_of(_belief(late=(1, 1)), "x"),
             *_of(_belief(late=(1, 1), name="another"), "y"))  # fmt: skip
    late = draw(bare(job("a"), arrivals=apart), 5, seed=1, samples=40_000).arrives > 100 * DAY
    assert (late[:, 0] & late[:, 1]).mean() == pytest.approx(1 / 4, abs=0.01)


def test_a_part_that_comes_wrong_takes_as_long_again() -> None:
    source = _belief(late=(1e-9, 1), wrong=(3000, 7000), again=10.0)
    plan = bare(job("a"), arrivals=_of(source, "x"))
    times = (draw(plan, 5, seed=1, samples=20_000).arrives[:, 0] / DAY - 100) / 10
    for wrong in range(3):
        # Wrong so many times in a row and then right: geometric.
        share = (times.round() == wrong).mean()
        assert share == pytest.approx(0.3**wrong * 0.7, abs=0.012)


def test_an_overdue_part_of_a_slow_source_is_still_to_come() -> None:
    arrival = Arrival("x", "x", -3 * DAY, belief=_belief())
    arrives = draw(bare(job("a"), arrivals=(arrival,)), 5, seed=1, samples=20_000).arrives[:, 0]
    assert arrives.min() > 0
    assert np.median(arrives) / DAY == pytest.approx(stats.lomax(5, scale=40).median(), rel=0.05)


def test_lost_sessions_are_beta_binomial_when_the_share_is_not_sure() -> None:
    """Against scipy.stats.betabinom."""
    luck = replace(QUIET, lost_session_share=0.3, lost_session_weight=5.0)
    people = draw(bare(job("a"), luck=luck), 40, seed=1, samples=4000).people
    lost = (people == 0).sum(axis=1)
    told = stats.betabinom(40, 1.5, 3.5)
    assert lost.mean() == pytest.approx(told.mean(), rel=0.05)
    assert lost.std() == pytest.approx(told.std(), rel=0.05)


def test_what_is_not_sure_still_begins_the_same_and_keeps_its_luck() -> None:
    luck = Luck(0.2, 0.1, 0.1, 0.1, 0.1, 10.0, 10.0, 10.0, 5.0, 4.0)
    begun = replace(job("b"), minutes_done=90)
    both = bare(job("a"), begun, luck=luck, arrivals=_of(_belief(again=9.0), "x", "y"))
    one = bare(begun, luck=luck, arrivals=_of(_belief(again=9.0), "y"))
    few, many = (draw(both, 40, seed=5, samples=n) for n in (10, 400))
    assert (many.factor[:10] == few.factor).all()
    assert (many.arrives[:10] == few.arrives).all()
    assert (many.people[:10] == few.people).all()
    alone = draw(one, 40, seed=5, samples=10)
    assert (alone.factor[:, 0] == few.factor[:, 1]).all()
    assert (alone.arrives[:, 0] == few.arrives[:, 1]).all()


@pytest.mark.parametrize("late", [(3, 7), (1, 30)])
@pytest.mark.parametrize("share", [0.5, 0.8, 0.9, 0.95])
def test_so_many_parts_are_here_and_right_by_the_day_that_is_named(
    late: tuple[float, float], share: float
) -> None:
    source = _belief(late=late, wrong=(1, 7), again=12.0)
    plan = bare(job("a"), arrivals=_of(source, "x"))
    days = draw(plan, 5, seed=1, samples=40_000).arrives[:, 0] / DAY - 100
    named = late_by(source, share)
    assert (days <= named + 1e-3).mean() >= share - 0.01
    if named > 0:
        # Parts that come wrong come right in a lump, so many days later.
        assert (days < named - 1e-3).mean() <= share + 0.01
