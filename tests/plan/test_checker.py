"""The checker: plans of the walk keep every rule, and each rule broken once is caught."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import pytest

from bareshell.plan.checker import RULES, check
from bareshell.plan.policy import Policy
from bareshell.plan.problem import Arrival, Change, Gate, Link, PlanProblem, Proof
from bareshell.plan.schedule import Block, Schedule
from bareshell.plan.sessions import SessionSource
from bareshell.plan.validate import prepare
from bareshell.plan.walk import walk
from tests.plan.garages import DAY, Shape, bare, evenings, garage, hours, job


def _flat(problem: PlanProblem) -> Policy:
    return Policy(tuple(60 for _ in problem.jobs))


@pytest.mark.parametrize("seed", range(60))
def test_what_the_walk_plans_keeps_every_rule(seed: int) -> None:
    shape = Shape() if seed % 3 else Shape(
        jobs=20 + seed, helper=0.25, helper_every=1 + seed % 2, marked=0.4, body=seed % 2 == 1,
        beside="any" if seed % 4 else "marked",
    )  # fmt: skip
    problem = prepare(garage(seed, shape)).problem
    schedule = walk(problem, _flat(problem)).schedule
    assert check(problem, schedule, complete=not schedule.left_over) == []


def _good() -> tuple[PlanProblem, Schedule]:
    """A small garage in which every rule has something to say, and a plan that keeps them."""
    problem = bare(
        job("pipe", 1.0, supports=frozenset({"stands"})),
        job("hold", 0.5, "pipe"),
        job("tank", 1.5, Link("hold", 12 * 60), ways=(hours(1.5, people=2),),
            supports=frozenset({"lift"}), proofs_before=("dry",)),
        job("seam", 1.0, min_temperature_c=10.0, cure_minutes=24 * 60),
        job("coat", 1.0, Link("seam", 24 * 60, stretch_with_cold=True)),
        job("loom", 6.0, splittable=True, least_piece_minutes=30),
        job("hose", 0.5, parts_to_start=("hose",), parts_to_finish=("clips",)),
        job("late", 0.5, earliest_minute=9 * DAY),
        job("exhaust", 1.0, supports=frozenset({"lift", "stands"})),
        job("bulkhead", 0.5, body_needs=frozenset({"engine out"})),
        job("sort", 0.5, helper_alone=True),
        sessions=_warm_then_cold(),
        body=frozenset({"engine out"}),
        arrivals=(Arrival("hose", "hose", 2 * DAY), Arrival("clips", "clips", 4 * DAY)),
        proofs=(Proof("dry", "rear joint dry", ("hold",)),),
        gates=(Gate("under", "under-car", ("hold",), ("dry",), ("exhaust",)),),
    )  # fmt: skip
    schedule = walk(problem, _flat(problem)).schedule
    assert check(problem, schedule, complete=True) == []
    assert any(block.by_helper for block in schedule.blocks)
    return problem, schedule


def _warm_then_cold() -> SessionSource:
    source = evenings(temperatures=False, beside="marked")
    warm = tuple(
        replace(slot, temperature_c=15.0, lowest_until_next_c=12.0) for slot in source.slots
    )
    return replace(source, slots=warm, template=warm)


def _work(schedule: Schedule, job_id: str) -> int:
    """The place of a job's first piece of work."""
    return next(i for i, b in enumerate(schedule.blocks) if b.kind == "work" and b.job_id == job_id)


def _changed(schedule: Schedule, at: int, **fields: object) -> Schedule:
    blocks = list(schedule.blocks)
    blocks[at] = replace(blocks[at], **fields)  # type: ignore[arg-type]
    return replace(schedule, blocks=tuple(blocks))


Broken = tuple[PlanProblem, Schedule]
Breaker = Callable[[PlanProblem, Schedule], Broken]
BREAKS: dict[str, Breaker] = {}


def _breaks(rule: str) -> Callable[[Breaker], Breaker]:
    def put(breaker: Breaker) -> Breaker:
        BREAKS[rule] = breaker
        return breaker

    return put


def _job_changed(problem: PlanProblem, job_id: str, **fields: object) -> PlanProblem:
    jobs = tuple(
        replace(j, **fields) if j.id == job_id else j  # type: ignore[arg-type]
        for j in problem.jobs
    )
    return replace(problem, jobs=jobs)


@_breaks("session")
def _past_the_end(problem: PlanProblem, schedule: Schedule) -> Broken:
    last = len(schedule.blocks) - 1
    end = schedule.blocks[last].end_minute + 600
    return problem, _changed(schedule, last, end_minute=end)


@_breaks("set-up")
def _before_set_up(problem: PlanProblem, schedule: Schedule) -> Broken:
    start = problem.sessions.first(1)[0].start_minute
    return problem, _changed(schedule, 0, start_minute=start)


@_breaks("clear-up")
def _into_clear_up(problem: PlanProblem, schedule: Schedule) -> Broken:
    last = len(schedule.blocks) - 1
    slot = problem.sessions.first(200)[schedule.blocks[last].session]
    return problem, _changed(schedule, last, end_minute=slot.end_minute)


@_breaks("one pair of hands")
def _two_at_once(problem: PlanProblem, schedule: Schedule) -> Broken:
    at = next(
        i
        for i, (a, b) in enumerate(pairwise(schedule.blocks), 1)
        if a.session == b.session and a.minutes > 1
    )
    start = schedule.blocks[at].start_minute - 1
    return problem, _changed(schedule, at, start_minute=start)


@_breaks("helper")
def _nobody_there(problem: PlanProblem, schedule: Schedule) -> Broken:
    alone = evenings(helper_every=0, temperatures=False)
    warm = tuple(replace(s, temperature_c=15.0, lowest_until_next_c=12.0) for s in alone.slots)
    return replace(problem, sessions=replace(alone, slots=warm, template=warm)), schedule


@_breaks("the helper's hands")
def _in_two_places(problem: PlanProblem, schedule: Schedule) -> Broken:
    at = _work(schedule, "sort")
    tank = schedule.blocks[_work(schedule, "tank")]
    start, end = tank.start_minute, tank.start_minute + schedule.blocks[at].minutes
    return problem, _changed(
        schedule, at, start_minute=start, end_minute=end, session=tank.session, by_helper=True
    )


@_breaks("the helper's own work")
def _not_for_them(problem: PlanProblem, schedule: Schedule) -> Broken:
    return _job_changed(problem, "sort", helper_alone=False), schedule


@_breaks("one piece at a time")
def _four_hands_on_one_job(problem: PlanProblem, schedule: Schedule) -> Broken:
    at = _work(schedule, "loom")
    again = next(
        i
        for i, b in enumerate(schedule.blocks)
        if i > at and b.kind == "work" and b.job_id == "loom"
    )
    first = schedule.blocks[at]
    return problem, _changed(
        schedule, again, start_minute=first.start_minute + 1, session=first.session
    )


@_breaks("the car at rest")
def _moved_from_under_them(problem: PlanProblem, schedule: Schedule) -> Broken:
    move = next(b for b in schedule.blocks if b.kind == "change")
    under = _job_changed(problem, "sort", supports=frozenset({"lift", "stands"}))
    at = _work(schedule, "sort")
    end = move.start_minute + schedule.blocks[at].minutes
    return under, _changed(
        schedule, at, start_minute=move.start_minute, end_minute=end, session=move.session
    )


@_breaks("body")
def _engine_in_the_way(problem: PlanProblem, schedule: Schedule) -> Broken:
    return replace(problem, body=frozenset()), schedule


@_breaks("way")
def _no_such_way(problem: PlanProblem, schedule: Schedule) -> Broken:
    return problem, _changed(schedule, _work(schedule, "tank"), people=1)


@_breaks("whole time")
def _too_quick(problem: PlanProblem, schedule: Schedule) -> Broken:
    at = _work(schedule, "pipe")
    end = schedule.blocks[at].end_minute - 20
    return problem, _changed(schedule, at, end_minute=end)


@_breaks("in one piece")
def _half_done(problem: PlanProblem, schedule: Schedule) -> Broken:
    return _job_changed(problem, "loom", splittable=False), schedule


@_breaks("least piece")
def _crumbs(problem: PlanProblem, schedule: Schedule) -> Broken:
    return _job_changed(problem, "loom", least_piece_minutes=400), schedule


@_breaks("once")
def _again(problem: PlanProblem, schedule: Schedule) -> Broken:
    return problem, _changed(schedule, _work(schedule, "pipe"), job_id="wings")


@_breaks("after")
def _too_early(problem: PlanProblem, schedule: Schedule) -> Broken:
    return _job_changed(problem, "pipe", after=(Link("tank"),)), schedule


@_breaks("wait")
def _still_wet(problem: PlanProblem, schedule: Schedule) -> Broken:
    return _job_changed(problem, "coat", after=(Link("seam", 300 * DAY),)), schedule


@_breaks("date")
def _not_yet(problem: PlanProblem, schedule: Schedule) -> Broken:
    return _job_changed(problem, "late", earliest_minute=300 * DAY), schedule


@_breaks("proof before cover")
def _buried(problem: PlanProblem, schedule: Schedule) -> Broken:
    return replace(problem, proofs=(Proof("dry", "rear joint dry"),)), schedule


@_breaks("gate")
def _shut(problem: PlanProblem, schedule: Schedule) -> Broken:
    gate = Gate("under", "under-car", ("late",), (), ("pipe",))
    return replace(problem, gates=(gate,)), schedule


@_breaks("part to start")
def _in_the_post(problem: PlanProblem, schedule: Schedule) -> Broken:
    late = (Arrival("hose", "hose", 300 * DAY), Arrival("clips", "clips", 4 * DAY))
    return replace(problem, arrivals=late), schedule


@_breaks("part to finish")
def _clips_in_the_post(problem: PlanProblem, schedule: Schedule) -> Broken:
    late = (Arrival("hose", "hose", 2 * DAY), Arrival("clips", "clips", 300 * DAY))
    return replace(problem, arrivals=late), schedule


@_breaks("temperature")
def _frozen(problem: PlanProblem, schedule: Schedule) -> Broken:
    return _job_changed(problem, "seam", min_temperature_c=16.0), schedule


@_breaks("cure")
def _frosty_night(problem: PlanProblem, schedule: Schedule) -> Broken:
    return _job_changed(problem, "seam", min_temperature_c=13.0), schedule


@_breaks("support")
def _out_of_reach(problem: PlanProblem, schedule: Schedule) -> Broken:
    return _job_changed(problem, "pipe", supports=frozenset({"wheels"})), schedule


@_breaks("one place")
def _by_magic(problem: PlanProblem, schedule: Schedule) -> Broken:
    blocks = tuple(b for b in schedule.blocks if b.kind != "change")
    return problem, replace(schedule, blocks=blocks)


@_breaks("moving the car")
def _in_no_time(problem: PlanProblem, schedule: Schedule) -> Broken:
    slow = tuple(Change(c.before, c.after, c.minutes * 10, c.people) for c in problem.changes)
    return replace(problem, changes=slow), schedule


@_breaks("everything")
def _forgotten(problem: PlanProblem, schedule: Schedule) -> Broken:
    blocks = tuple(b for b in schedule.blocks if b.job_id != "late")
    return problem, replace(schedule, blocks=blocks)


@pytest.mark.parametrize("rule", RULES)
def test_each_rule_broken_once_is_caught_by_its_name(rule: str) -> None:
    problem, schedule = BREAKS[rule](*_good())
    assert rule in {broken.rule for broken in check(problem, schedule, complete=True)}


def test_a_cold_wait_is_longer_than_it_is_written() -> None:
    problem = bare(
        job("seam", 1.0),
        job("coat", 1.0, Link("seam", 24 * 60, stretch_with_cold=True)),
        sessions=_warm_then_cold(),
    )
    seam = Block("work", 0, 1575, 1635, "stands", "stands", 1, "seam", finishes=True)
    slots = problem.sessions.first(3)
    # 24 hours at 12 degrees are 24 x 2^(6/9) = 38.1 hours; the next session lies 48 hours on.
    after = slots[1].start_minute + 15
    coat = Block("work", 1, after, after + 60, "stands", "stands", 1, "coat", finishes=True)
    seam = replace(seam, start_minute=slots[0].start_minute + 15,
                   end_minute=slots[0].start_minute + 75)  # fmt: skip
    assert check(problem, Schedule((seam, coat))) == []
    frost = tuple(replace(s, lowest_until_next_c=0.0) for s in problem.sessions.slots)
    cold = replace(problem, sessions=replace(problem.sessions, slots=frost))
    # At 0 degrees they are 96.
    assert [broken.rule for broken in check(cold, Schedule((seam, coat)))] == ["wait"]


def test_a_part_nobody_recorded_blocks_nothing() -> None:
    problem = bare(
        job("hose", 0.5, parts_to_start=("hose",)),
        arrivals=(Arrival("hose", "hose", known=False),),
    )
    assert check(problem, walk(problem, _flat(problem)).schedule, complete=True) == []
