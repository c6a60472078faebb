"""What is off or out of the car decides what can be done, and how it can be moved."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.errors import BadInput
from bareshell.plan.body import bodies_to_come, reached
from bareshell.plan.checker import check
from bareshell.plan.network import network
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.problem import Change, PlanProblem
from bareshell.plan.ready import ready
from bareshell.plan.schedule import Schedule
from bareshell.plan.validate import prepare, validate
from bareshell.plan.walk import walk
from tests.plan.garages import Shape, bare, evenings, garage, job

ENGINE_OUT = frozenset({"engine out"})
WHEELS_OFF = frozenset({"wheels off"})
ROLLING = (
    Change("stands", "wheels", 40, body_bars=WHEELS_OFF),
    Change("wheels", "stands", 40, body_bars=WHEELS_OFF),
)


def plan(problem: PlanProblem) -> Schedule:
    plannable = prepare(problem).problem
    schedule = walk(plannable, Policy(tails(plannable))).schedule
    assert check(plannable, schedule, complete=True) == []
    return schedule


def order(problem: PlanProblem) -> list[str]:
    return [b.job_id or "" for b in plan(problem).blocks if b.kind == "work"]


def test_what_wants_the_engine_out_comes_before_it_goes_in() -> None:
    problem = bare(
        job("engine", 0.5, body_ends=ENGINE_OUT),
        job("more", 9.0, "engine", splittable=True),
        job("bulkhead", 0.5, body_needs=ENGINE_OUT),
        body=ENGINE_OUT,
    )
    found = order(problem)
    assert found.index("bulkhead") < found.index("engine")


def test_what_is_not_done_with_the_engine_out_comes_after() -> None:
    problem = bare(
        job("hoses", 0.5, body_bars=ENGINE_OUT),
        job("more", 9.0, "hoses", splittable=True),
        job("engine", 0.5, body_ends=ENGINE_OUT),
        body=ENGINE_OUT,
    )
    found = order(problem)
    assert found.index("engine") < found.index("hoses")


def test_a_state_that_comes_and_goes_is_used_while_it_lasts() -> None:
    """Seats out, in for the belts, out again for the carpets: each has its own stretch."""
    out = frozenset({"seats out"})
    problem = bare(
        job("in", 0.5, body_ends=out),
        job("belts", 0.5, "in", body_bars=out),
        job("out", 0.5, "belts", body_begins=out),
        job("carpet", 0.5, "belts", body_needs=out),
        job("back", 0.5, "out", body_ends=out),
        body=out,
    )
    found = order(problem)
    assert found.index("out") < found.index("carpet") < found.index("back")


def test_a_state_that_nothing_brings_about_is_named() -> None:
    problem = bare(job("a", body_needs=ENGINE_OUT), job("b"))
    (snag,) = [s for s in validate(problem) if s.rule == "body"]
    assert "asks for 'engine out' to be otherwise" in snag.sentence
    assert [one.id for one in prepare(problem).problem.jobs] == ["b"]


def test_what_the_state_rules_out_for_ever_stands_in_a_circle() -> None:
    problem = bare(
        job("engine", 0.5, body_ends=ENGINE_OUT),
        job("late", 0.5, "engine", body_needs=ENGINE_OUT),
        body=ENGINE_OUT,
    )
    assert "circle" in {snag.rule for snag in validate(problem)}


def test_a_car_without_wheels_does_not_roll() -> None:
    problem = bare(
        job("align", 0.5, supports=frozenset({"wheels"})),
        job("more", 9.0, "align", splittable=True),
        job("mount", 1.0, body_ends=WHEELS_OFF, supports=frozenset({"stands"})),
        changes=ROLLING,
        body=WHEELS_OFF,
    )
    schedule = plan(problem)
    mounted = next(b.end_minute for b in schedule.blocks if b.job_id == "mount")
    move = next(b for b in schedule.blocks if b.kind == "change")
    assert move.start_minute >= mounted


def test_a_way_of_moving_that_will_never_be_is_no_way() -> None:
    problem = bare(
        job("align", 0.5, supports=frozenset({"wheels"})),
        changes=ROLLING,
        body=WHEELS_OFF,
    )
    (snag,) = [s for s in validate(problem) if s.rule == "support"]
    assert snag.job_ids == ("align",)


def test_what_can_be_reached_in_one_state_only_is_done_in_it() -> None:
    """The rotisserie takes a shell, not a car with an engine in it."""
    problem = bare(
        job("sill", 1.0, supports=frozenset({"spit"})),
        job("engine", 0.5, body_ends=ENGINE_OUT, supports=frozenset({"stands"})),
        job("more", 20.0, "engine", splittable=True),
        changes=(
            Change("stands", "spit", 30, body_needs=ENGINE_OUT),
            Change("spit", "stands", 30),
        ),
        body=ENGINE_OUT,
    )
    plannable = prepare(problem).problem
    assert plannable.job("sill").body_needs == ENGINE_OUT
    ties = [(e.before, e.after) for e in network(plannable).edges if e.kind == "body"]
    assert ties == [(0, 1)]
    assert order(problem)[0] == "sill"


def test_bodies_to_come_are_those_that_the_jobs_left_can_bring_about() -> None:
    problem = bare(job("mount", 1.0, body_ends=WHEELS_OFF), changes=ROLLING, body=WHEELS_OFF)
    assert bodies_to_come(problem) == [frozenset(), WHEELS_OFF]
    done = replace(problem, jobs=())
    assert bodies_to_come(done) == [WHEELS_OFF]
    assert reached(done, WHEELS_OFF) == {"stands"}


def test_no_more_states_than_the_tables_can_hold() -> None:
    many = tuple(
        Change("stands", "wheels", 40, body_bars=frozenset({f"state {n}"})) for n in range(6)
    )
    with pytest.raises(BadInput, match="at most 5"):
        bare(job("a"), changes=many)


def test_a_job_that_cannot_want_a_state_both_ways() -> None:
    with pytest.raises(BadInput, match="both ways"):
        job("a", body_needs=ENGINE_OUT, body_bars=ENGINE_OUT)


@pytest.mark.parametrize("seed", range(16))
def test_no_random_garage_with_a_body_runs_into_a_car_that_nothing_can_be_done_on(
    seed: int,
) -> None:
    shape = Shape(jobs=30 + seed, body=True, helper=0.2, helper_every=1 + seed % 2)
    made = ready(garage(seed, shape), seed=1)
    assert "no session suits" not in {snag.rule for snag in made.prepared.snags}
    dice = tuple((index * 7919) % 997 for index in range(len(made.problem.jobs)))
    assert made.engine.run(Policy(dice), seed=seed, samples=64).finish.min() > 0


def test_a_long_job_that_the_move_leaves_no_room_for_is_planned_in_pieces() -> None:
    """Only on a helper's Saturday is the car put on the lift, and then the day is too short."""
    problem = bare(
        job("a", 4.5, supports=frozenset({"lift"})),
        sessions=evenings(temperatures=False, helper_every=1),
        changes=(Change("stands", "lift", 75, people=2), Change("lift", "stands", 75, people=2)),
    )
    (snag,) = [s for s in validate(problem) if s.rule == "too long"]
    assert "when the car has to be moved for it first" in snag.sentence
    assert prepare(problem).problem.job("a").splittable
    assert ready(problem, seed=1, engine="plain").prepared.set_aside == frozenset()
