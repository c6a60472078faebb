"""A helper in the garage: who lends a hand, who works beside the owner, what neither does."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.errors import BadInput
from bareshell.plan.checker import check
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.problem import Change, PlanJob, PlanProblem
from bareshell.plan.schedule import Block, Schedule
from bareshell.plan.sessions import Beside, SessionSlot, SessionSource
from bareshell.plan.validate import prepare
from bareshell.plan.walk import choices, walk
from tests.plan.garages import DAY, bare, hours, job

BEGIN = DAY + 15


def saturday(
    *jobs: PlanJob, beside: Beside = "any", minutes: int = 270, **more: object
) -> PlanProblem:
    """Jobs for sessions of four hours' work, each with a helper."""
    slot = SessionSlot(DAY, minutes, people=2, beside=beside)
    return bare(*jobs, sessions=SessionSource.repeating([slot]), **more)


def plan(problem: PlanProblem, *, flat: bool = False) -> Schedule:
    plannable = prepare(problem).problem
    weights = tuple(60 for _ in plannable.jobs) if flat else tails(plannable)
    schedule = walk(plannable, Policy(weights)).schedule
    assert check(plannable, schedule, complete=True) == []
    return schedule


def of(schedule: Schedule, job_id: str) -> Block:
    return next(b for b in schedule.blocks if b.job_id == job_id and b.kind == "work")


def test_a_helper_who_only_lends_a_hand_does_nothing_alone() -> None:
    schedule = plan(saturday(job("a", 2.0), job("b", 2.0), beside=""))
    assert of(schedule, "b").start_minute >= of(schedule, "a").end_minute


def test_a_helper_beside_the_owner_does_a_job_of_their_own_at_the_same_time() -> None:
    schedule = plan(saturday(job("a", 2.0), job("b", 2.0)))
    assert of(schedule, "a").start_minute == of(schedule, "b").start_minute == BEGIN
    assert {of(schedule, "a").by_helper, of(schedule, "b").by_helper} == {True, False}
    assert schedule.finish_minute == BEGIN + 120


def test_two_take_what_one_could_do_only_in_a_longer_session_than_there_is() -> None:
    """Hardly quicker for two, so each would rather work alone; but alone it never fits."""
    long = job("a", ways=(hours(4.5), hours(3.8, people=2)))
    schedule = plan(saturday(long, job("b", 1.0)))
    assert (of(schedule, "a").people, of(schedule, "a").minutes) == (2, 228)
    assert schedule.left_over == ()


def test_what_the_helper_can_do_is_left_to_them() -> None:
    """The owner can do anything else, so the weightiest job goes to the helper if it may."""
    heavy = job("sort", 2.0, helper_alone=True)
    after = job("after", 9.0, "sort", splittable=True)
    schedule = plan(saturday(heavy, after, job("b", 2.0), beside="marked"))
    assert of(schedule, "sort").by_helper
    assert not of(schedule, "b").by_helper
    assert of(schedule, "b").start_minute == of(schedule, "sort").start_minute


def test_where_only_marked_jobs_are_for_the_helper_the_rest_waits_for_the_owner() -> None:
    marked = job("sort", 2.0, helper_alone=True)
    schedule = plan(saturday(job("a", 2.0), job("b", 2.0), marked, beside="marked"))
    assert of(schedule, "sort").by_helper
    assert not of(schedule, "a").by_helper
    assert not of(schedule, "b").by_helper


def test_what_is_not_done_alone_is_no_helpers_job_unless_it_is_marked() -> None:
    dangerous = job("springs", 2.0, dangerous_alone=True)
    schedule = plan(saturday(job("a", 3.0), dangerous))
    assert not of(schedule, "springs").by_helper
    told = plan(saturday(job("a", 3.0), replace(dangerous, helper_alone=True), beside="marked"))
    assert of(told, "springs").by_helper


def test_work_for_two_keeps_both_and_neither_is_anywhere_else() -> None:
    schedule = plan(saturday(job("a", 1.0), job("two", 2.0, ways=(hours(2.0, people=2),))))
    two, a = of(schedule, "two"), of(schedule, "a")
    assert two.people == 2
    assert a.end_minute <= two.start_minute or two.end_minute <= a.start_minute


def test_whoever_is_free_first_keeps_free_for_what_takes_two() -> None:
    """Nothing else is over by the time the owner is free, so the helper waits for the work of two.

    Then the helper has a job of their own while the owner goes on with what follows.
    """
    first = job("first", 0.5)
    pair = job("pair", 1.0, "first", ways=(hours(1.0, people=2),))
    after = job("after", 20.0, "pair", splittable=True)
    other = job("other", 1.0, helper_alone=True)
    long = job("long", 3.0)
    schedule = plan(saturday(first, pair, after, other, long, beside="marked"))
    assert of(schedule, "other").by_helper
    assert of(schedule, "pair").session == 0
    assert of(schedule, "pair").start_minute == BEGIN + 30
    assert of(schedule, "other").start_minute == BEGIN + 90


def test_two_take_what_one_could_do_only_if_that_saves_enough() -> None:
    """Two hours alone or 80 minutes together: worth it only while the helper could do no more."""
    either = job("bleed", ways=(hours(2.0), hours(4 / 3, people=2)))
    helping = plan(saturday(either, job("b", 1.0), beside=""))
    assert of(helping, "bleed").people == 2
    beside = prepare(saturday(either, job("b", 1.0))).problem
    patient = walk(beside, Policy(tails(beside), together=160)).schedule
    assert of(patient, "bleed").people == 1
    eager = walk(beside, Policy(tails(beside), together=140)).schedule
    assert of(eager, "bleed").people == 2


def test_a_car_that_is_worked_on_is_not_moved_and_one_that_is_moved_is_not_worked_on() -> None:
    jobs = (
        job("under", 2.0, supports=frozenset({"stands"})),
        job("top", 1.0, supports=frozenset({"wheels"})),
        job("after", 9.0, "top", splittable=True),
    )
    schedule = plan(saturday(*jobs))
    move = next(b for b in schedule.blocks if b.kind == "change")
    under = of(schedule, "under")
    assert move.end_minute <= under.start_minute or under.end_minute <= move.start_minute


def test_off_the_car_the_helper_works_on_while_it_is_moved() -> None:
    jobs = (
        job("bench", 2.0, helper_alone=True),
        job("top", 1.5, supports=frozenset({"wheels"})),
        job("after", 9.0, "top", splittable=True),
    )
    schedule = plan(saturday(*jobs, beside="marked"))
    move = next(b for b in schedule.blocks if b.kind == "change")
    bench = of(schedule, "bench")
    assert bench.by_helper
    assert bench.start_minute < move.end_minute
    assert move.start_minute < bench.end_minute


def test_a_move_that_takes_two_takes_the_helper_too() -> None:
    two = (Change("stands", "lift", 60, people=2), Change("lift", "stands", 60, people=2))
    jobs = (job("top", 1.0, supports=frozenset({"lift"})), job("bench", 1.0))
    schedule = plan(saturday(*jobs, changes=two), flat=True)
    move = next(b for b in schedule.blocks if b.kind == "change")
    assert move.people == 2
    bench = of(schedule, "bench")
    assert bench.end_minute <= move.start_minute or move.end_minute <= bench.start_minute


def test_the_helper_who_does_not_come_does_nothing() -> None:
    from bareshell.plan.policy import Fate

    problem = prepare(saturday(job("a", 2.0), job("b", 2.0))).problem
    alone = walk(problem, Policy((60, 60)), Fate([1.0, 1.0], [], [1] * 40))
    assert not any(block.by_helper for block in alone.schedule.blocks)


def test_nobody_takes_up_what_the_other_is_at() -> None:
    schedule = plan(saturday(job("strip", 7.0, splittable=True)))
    assert [block.start_minute for block in schedule.blocks][:2] == [BEGIN, BEGIN + 7 * DAY]


def test_what_could_come_first_is_the_owners_choice() -> None:
    problem = prepare(saturday(job("a", 2.0), job("b", 1.0), job("c", 1.0))).problem
    policy = Policy((90, 60, 30))
    assert [choice.job for choice in choices(problem, policy)] == [0, 1, 2]
    # The helper does it, and the owner chooses from the rest.
    then = choices(problem, policy, forced=(0,))
    assert [choice.job for choice in then] == [1, 2]


def test_what_a_helper_may_do_is_one_of_three_words_and_says_nothing_without_one() -> None:
    with pytest.raises(BadInput, match="may do alone"):
        SessionSlot(0, 60, people=2, beside="everything")  # type: ignore[arg-type]
    assert SessionSlot(0, 60, beside="any").beside == ""
