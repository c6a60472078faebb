"""Small moves: a plan given out is followed, unless leaving it gets there clearly sooner."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from bareshell.plan.changed import (
    WINDOW_DAYS,
    Changed,
    Intended,
    PlannedDay,
    changed_between,
    what_changed,
)
from bareshell.plan.checker import check
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.problem import Arrival, Link, PlanProblem
from bareshell.plan.ready import Ready, ready
from bareshell.plan.schedule import Schedule
from bareshell.plan.stability import fortnight, steady
from bareshell.plan.walk import walk
from tests.plan.garages import DAY, ORIGIN, Shape, bare, evenings, garage, job

TODAY = ORIGIN.date()


def plan_of(made: Ready, policy: Policy | None = None) -> Schedule:
    return walk(made.problem, policy or made.policy).schedule


def given(problem: PlanProblem, policy: Policy | None = None) -> tuple[Intended, ...]:
    """The two weeks that are given out for a problem."""
    made = ready(problem, seed=1, policy=policy)
    return fortnight(made.problem, plan_of(made))


def changed(earlier: tuple[Intended, ...], problem: PlanProblem, *done: str) -> Changed:
    """What has changed, by the steady rule."""
    made = ready(problem, seed=1)
    rule = steady(made, earlier, samples=100)
    return what_changed(earlier, made.problem, plan_of(made, rule.policy), done)


# --- keeping to it -------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(8))
def test_a_plan_given_out_by_another_rule_is_followed_closer_at_no_clear_cost(seed: int) -> None:
    problem = garage(seed, Shape(jobs=40))
    other = replace(Policy(tails(problem, 4.0)), stickiness=60, finish_first=0)
    earlier = given(problem, other)
    now = ready(problem, seed=1)
    rule = steady(now, earlier, samples=100)
    assert rule.moves <= rule.free_moves
    assert rule.cost_days <= max(0.5, 2 * rule.standard_error_days)
    moved = what_changed(earlier, now.problem, plan_of(now, rule.policy)).moved
    assert len(moved) == rule.moves


@pytest.mark.parametrize("seed", range(6))
def test_a_kept_plan_keeps_every_rule(seed: int) -> None:
    problem = garage(seed, Shape(jobs=40))
    made = ready(problem, seed=1)
    days = [one.day for one in given(problem)]
    turned = [one.job_id for one in given(problem)][::-1]
    earlier = tuple(Intended(j, d) for j, d in zip(turned, days, strict=True))
    rule = steady(made, earlier, samples=60)
    assert check(made.problem, plan_of(made, rule.policy), complete=True) == []


def test_what_still_fits_is_kept_as_it_is() -> None:
    problem = garage(3, Shape(jobs=40))
    made = ready(problem, seed=1)
    rule = steady(made, given(problem), samples=20)
    assert (rule.moves, rule.policy) == (0, made.policy)


def test_an_entry_moves_fewer_jobs_than_planning_anew_would() -> None:
    """Over twelve garages whose plan was given out and whose knobs have since been set anew."""
    kept = free = 0
    for seed in range(12):
        problem = garage(seed, Shape(jobs=40))
        earlier = given(problem, replace(Policy(tails(problem, 1.0)), stickiness=5))
        made = ready(replace(problem, jobs=problem.jobs[:-2], goal=()), seed=1)
        rule = steady(made, earlier, samples=100)
        kept, free = kept + rule.moves, free + rule.free_moves
    assert kept < 0.7 * free


def test_a_plan_that_costs_the_road_weeks_is_left() -> None:
    """Given out: thirty hours of trim first; the part that all waits for must go away now."""
    problem = bare(
        job("trim", 30.0, splittable=True),
        job("strip", 1.0),
        job("fit", 1.0, Link("strip", 60 * DAY)),
        sessions=evenings(temperatures=False),
    )
    earlier = (Intended("trim", TODAY + timedelta(1)), Intended("strip", TODAY + timedelta(13)))
    made = ready(problem, seed=1)
    rule = steady(made, earlier, samples=60)
    assert rule.policy is made.policy
    assert plan_of(made, rule.policy).blocks[0].job_id == "strip"


def test_what_is_done_or_gone_is_no_plan_to_keep() -> None:
    made = ready(bare(job("a"), job("b")), seed=1)
    assert steady(made, (Intended("ghost", TODAY),), samples=20).policy is made.policy
    assert steady(made, (), samples=20).policy is made.policy


def test_without_a_compiler_what_was_given_out_stands() -> None:
    made = ready(bare(job("a", 1.9), job("b", 1.9)), seed=1, engine="plain")
    earlier = (Intended("b", TODAY + timedelta(1)), Intended("a", TODAY + timedelta(3)))
    rule = steady(made, earlier, samples=20)
    assert (rule.moves, rule.free_moves) == (0, 2)
    assert plan_of(made, rule.policy).blocks[0].job_id == "b"


def test_the_two_weeks_are_two_weeks() -> None:
    found = given(bare(job("a"), job("b", 1.0, Link("a", 20 * DAY))))
    assert [one.job_id for one in found] == ["a"]
    assert found[0].day < TODAY + timedelta(days=WINDOW_DAYS)


# --- saying what changed -------------------------------------------------------------------


def test_nothing_changed_is_said_to_be_nothing() -> None:
    problem = bare(job("a"), job("b", 1.0, "a"))
    found = changed(given(problem), problem)
    assert found.what == "Nothing in the next two weeks has moved."
    assert found.why == "What was written down since fits the plan."
    assert found.stayed == 2


def test_a_late_part_moves_its_job_and_is_named() -> None:
    def due(day: int) -> PlanProblem:
        parts = (Arrival("x", "tank straps", day * DAY, late_share=0.0),)
        return bare(job("a", parts_to_start=("x",)), job("b", 2.0), arrivals=parts)

    earlier = given(due(1))
    found = changed(earlier, due(9))
    assert [(one.job_id, one.before, one.after) for one in found.moved] == [
        ("a", date(2031, 3, 6), date(2031, 3, 13))
    ]
    assert found.what == "'Job a' from Thu 6 Mar to Thu 13 Mar; 1 job stays where planned."
    assert found.why == "'Job a' waits for tank straps."


def test_an_evening_that_came_to_nothing_is_said() -> None:
    earlier = (Intended("a", TODAY - timedelta(days=2)), Intended("b", TODAY + timedelta(days=1)))
    found = changed(earlier, bare(job("a"), job("b", 2.0, "a")))
    assert found.why == "'Job a' was to be begun on Sat 1 Mar and was not."


def test_work_that_came_in_and_work_that_is_off_are_told() -> None:
    earlier = (
        Intended("gone", TODAY + timedelta(days=1)),
        Intended("b", TODAY + timedelta(days=1)),
    )
    found = changed(earlier, bare(job("b"), job("new")))
    assert found.what == "'gone' is off the list; 'Job new' comes in; 1 job stays where planned."
    assert found.why == "'gone' is no longer to be done, or cannot be planned."


def test_more_done_than_planned_brings_things_forward() -> None:
    earlier = (Intended("a", TODAY + timedelta(days=1)), Intended("b", TODAY + timedelta(days=5)))
    found = changed(earlier, bare(job("b")), "a")
    assert found.done == ("a",)
    assert found.why == "More was done than planned, so what follows comes forward."


@pytest.mark.parametrize("seed", range(8))
def test_every_change_has_two_sentences(seed: int) -> None:
    problem = garage(seed, Shape(jobs=40))
    earlier = given(problem)
    fewer = replace(problem, jobs=problem.jobs[:-3], goal=())
    late = replace(
        fewer,
        arrivals=tuple(
            replace(one, expected_minute=one.expected_minute + 9 * DAY)
            if one.expected_minute and one.expected_minute > 0
            else one
            for one in fewer.arrivals
        ),
    )
    found = changed(earlier, late)
    for sentence in (found.what, found.why):
        assert sentence.endswith(".")
        assert ". " not in sentence
        assert sentence[0].isupper() or sentence[0] == "'"
    assert found.stayed + sum(one.before is not None for one in found.moved) == len(earlier)


def test_what_was_on_tonights_list_and_was_left_is_named_once_the_evening_is_over() -> None:
    tonight, thursday = date(2031, 3, 4), date(2031, 3, 6)
    was = [Intended("wax", tonight), Intended("pipe", tonight)]
    titles = {"wax": "Wax", "pipe": "Pipe", "bench": "Bench"}
    now = {"pipe": PlannedDay(thursday)}
    over = changed_between(was, now, titles, tonight, date(2031, 3, 17), done=["wax"])
    assert over.why == "'Pipe' was to be begun on Tue 4 Mar and was not."
    # While the evening lies ahead nothing was missed; nor was more done where a job is later.
    now["bench"] = PlannedDay(tonight)
    ahead = changed_between(was, now, titles, tonight, date(2031, 3, 17), done=["wax"])
    assert "was not" not in ahead.why
    assert "More was done" not in ahead.why
