"""The road ahead: sessions, dates with their spread, orders, and what binds."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy import stats

from bareshell.plan.engine import Binding, Outcome
from bareshell.plan.forecast import binds, forecast
from bareshell.plan.problem import Arrival, Link, Luck, PlanProblem
from bareshell.plan.road import Road, road
from bareshell.plan.sessions import SessionSource
from tests.plan.garages import DAY, Shape, bare, evenings, garage, hours, job


def ahead(problem: PlanProblem, samples: int = 200) -> Road:
    answer = road(problem, seed=1, samples=samples)
    assert answer.violations == ()
    return answer


def p50(problem: PlanProblem) -> int:
    answer = ahead(problem)
    assert answer.forecast is not None
    return answer.forecast.p50.minute


def test_every_session_to_the_road_is_there_with_its_moves_and_supports() -> None:
    answer = ahead(garage(3, Shape(jobs=40)))
    support = answer.problem.support
    for index, session in enumerate(answer.sessions):
        assert session.index == index
        assert session.support_before == support
        support = session.support_after
        usable = session.slot.minutes - 30
        assert session.worked_minutes + session.change_minutes + session.idle_minutes == usable
    assert answer.sessions[-1].blocks
    worked = {block.job_id for session in answer.sessions for block in session.blocks}
    assert worked >= {one.id for one in answer.problem.jobs}


def test_what_a_session_needs_of_the_helper() -> None:
    answer = ahead(bare(job("a", ways=(hours(1.0, people=2),)), job("b")))
    needing = [session for session in answer.sessions if session.helper_for]
    assert [session.helper_for for session in needing] == [("Job a",)]
    assert needing[0].slot.people == 2


def test_the_forecast_lies_after_the_bound_and_spreads() -> None:
    answer = ahead(garage(5, Shape(jobs=50)))
    found = answer.forecast
    assert found is not None
    assert answer.bound.finish_minute is not None
    assert answer.gap_share is not None
    assert answer.gap_share >= 0
    assert answer.bound.finish_minute <= (answer.schedule.finish_minute or 0)
    assert found.p50.minute < found.p80.minute < found.p95.minute
    assert found.p80.standard_error_minutes > 0


def test_nothing_left_to_luck_gives_one_date() -> None:
    """With hours, arrivals and sessions certain, each fate is the plan itself."""
    hour = hours(1.0, spread=1.0)
    answer = ahead(bare(job("a", ways=(hour,)), job("b", 1.0, "a", ways=(hour,))))
    assert answer.forecast is not None
    assert answer.forecast.p50.minute == answer.forecast.p95.minute
    assert answer.forecast.p50.minute == answer.schedule.finish_minute


def test_more_bad_luck_is_a_later_date() -> None:
    quiet = garage(6, Shape(jobs=50))
    unlucky = replace(
        quiet, luck=Luck(lost_week_share=0.4, lost_session_share=0.3, no_show_share=0.5)
    )
    assert p50(unlucky) > p50(quiet)


def test_a_late_part_and_a_helper_who_stays_away_move_the_forecast() -> None:
    def garage_with(due: int, helper_every: int) -> PlanProblem:
        return bare(
            job("a", parts_to_start=("x",)),
            job("b", 1.0, "a", ways=(hours(1.0, people=2),)),
            job("c", 8.0, "b", splittable=True),
            arrivals=(Arrival("x", "x", due),),
            sessions=evenings(helper_every=helper_every, temperatures=False),
        )

    base = p50(garage_with(1, 2))
    assert p50(garage_with(40 * DAY, 2)) > base + 30 * DAY
    assert p50(garage_with(8 * DAY, 12)) > p50(garage_with(8 * DAY, 2)) + 30 * DAY


def test_quantiles_and_their_errors_are_those_of_the_textbook() -> None:
    """Against scipy.stats: quantiles of a normal, and the usual error of a sample quantile."""
    dice = np.random.default_rng(1)
    finish = np.rint(dice.normal(1e6, 1e5, 10_000)).astype(np.int64)
    plan = bare(job("a"))
    found = forecast(plan, Outcome(finish, Binding((), (), (), (), ()), "compiled"))
    for quantile in (found.p50, found.p80, found.p95):
        z = stats.norm.ppf(quantile.share)
        error = np.sqrt(quantile.share * (1 - quantile.share) / 10_000) / stats.norm.pdf(z) * 1e5
        assert quantile.minute == pytest.approx(1e6 + z * 1e5, abs=4 * error)
        assert quantile.standard_error_minutes == pytest.approx(error, rel=0.25)


def test_a_quantile_of_few_fates_is_one_of_them() -> None:
    plan = bare(job("a"))
    few = Outcome(np.array([10, 20, 30, 40, 50]), Binding((), (), (), (), ()), "plain")
    found = forecast(plan, few)
    assert (found.p50.minute, found.p80.minute, found.p95.minute) == (30, 40, 50)


def test_truths_fall_under_the_eight_in_ten_date_eight_times_in_ten() -> None:
    """Fates of another seed play the truth."""
    problem = garage(9, Shape(jobs=40))
    given = road(problem, seed=1, samples=2000).forecast
    truth = road(problem, seed=2, samples=2000).forecast
    assert given is not None
    assert truth is not None
    tolerance = 3 * (given.p80.standard_error_minutes + truth.p80.standard_error_minutes)
    assert given.p80.minute == pytest.approx(truth.p80.minute, abs=tolerance)


def test_parts_are_ordered_in_time_for_the_job_that_wants_them() -> None:
    problem = bare(
        job("long", 60.0, splittable=True),
        job("fit", 1.0, "long", parts_to_start=("x",)),
        job("now", 0.5, parts_to_start=("y",)),
        job("rest", 90.0, "now", splittable=True),
        arrivals=(
            Arrival("x", "seat foam", lead_minutes=20 * DAY, late_share=0.0),
            Arrival("y", "brake hoses", lead_minutes=20 * DAY, late_share=0.3),
            Arrival("z", "badges", 3 * DAY),
        ),
    )
    orders = {order.arrival_id: order for order in ahead(problem).order_by}
    assert set(orders) == {"x", "y"}
    assert orders["x"].order_by_minute == orders["x"].wanted_minute - 20 * DAY
    assert orders["x"].sentence.startswith("seat foam: order it by ")
    assert orders["y"].sentence.startswith("brake hoses: order it now; ")
    assert [order.arrival_id for order in ahead(problem).order_by] == ["y", "x"]


def test_a_part_that_is_often_late_is_ordered_sooner() -> None:
    def order_by(share: float) -> int:
        problem = bare(
            job("long", 60.0, splittable=True),
            job("fit", 1.0, "long", parts_to_start=("x",)),
            arrivals=(Arrival("x", "x", lead_minutes=DAY, late_share=share, late_mean_days=10.0),),
        )
        found = ahead(problem).order_by[0].order_by_minute
        assert found is not None
        return found

    # One in ten stays late beyond mean * ln(share / 0.1): 10 days * ln 5 = 16.1 days.
    assert (order_by(0.1) - order_by(0.5)) / DAY == pytest.approx(10 * np.log(5), abs=0.01)


def test_what_binds_names_the_cause_that_loses_the_days() -> None:
    part = bare(
        job("a", parts_to_start=("x",)),
        job("b", 1.0, "a"),
        arrivals=(Arrival("x", "tank straps", 50 * DAY),),
    )
    found = ahead(part).binds
    assert (found[0].kind, found[0].ref, found[0].share) == ("cause", "part", 1.0)
    assert found[0].days > 48
    assert any(one.kind == "part" and one.title == "tank straps" for one in found)
    wait = bare(job("a"), job("b", 1.0, Link("a", 40 * DAY)))
    assert ahead(wait).binds[0].ref == "wait"
    two = bare(
        job("a"),
        job("b", 1.0, "a", ways=(hours(1.0, people=2),)),
        sessions=SessionSource.repeating(evenings(helper_every=10).slots[3:]),
    )
    assert ahead(two).binds[0].ref == "helper"
    assert binds(two, Binding((), (), (), (), ()), 0) == ()


def test_a_goal_set_aside_is_said() -> None:
    assert ahead(bare(job("a"), job("b", 1.0, "a"), goal=("b",))).reaches_road
    assert not ahead(bare(job("a"), job("b", 1.0, "ghost"), goal=("b",))).reaches_road


def test_a_finished_car_has_an_empty_road() -> None:
    answer = ahead(bare())
    assert answer.sessions == ()
    assert answer.forecast is None
    assert answer.reaches_road


def test_the_road_repeats_whatever_the_number_of_threads() -> None:
    problem = garage(11, Shape(jobs=50))
    one = road(problem, seed=4, samples=300, threads=1)
    two = road(problem, seed=4, samples=300, threads=2)
    assert (one.sessions, one.forecast, one.binds, one.order_by) == (
        two.sessions,
        two.forecast,
        two.binds,
        two.order_by,
    )
