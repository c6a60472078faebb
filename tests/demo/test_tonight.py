"""The demo's next evening is a rich one: brake work to do, and every kind of thing in the way."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, time
from zoneinfo import ZoneInfo

import pytest

from bareshell.model.job import Job
from bareshell.model.network import predecessors
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.problem import PlanProblem
from bareshell.plan.schedule import Block
from bareshell.plan.validate import Prepared, prepare
from bareshell.plan.walk import walk
from bareshell.whole.plan_problem import plan_question
from tests.demo.conftest import Played

WEEK = 7 * 24 * 60


@dataclass(frozen=True)
class Evening:
    """The plan's question an hour before the next session, and the walk through the sessions."""

    demo: Played
    prepared: Prepared
    blocks: tuple[Block, ...]

    @property
    def problem(self) -> PlanProblem:
        return self.prepared.problem

    def ready(self) -> list[Job]:
        """Open jobs with nothing before them left to do."""
        jobs = self.demo.build.jobs
        before = predecessors(self.demo.build)
        return [
            record.job
            for key, record in jobs.items()
            if record.state.is_open and all(jobs[b].state.is_done for b in before[key])
        ]


@pytest.fixture(scope="session")
def evening(demo: Played) -> Evening:
    hour = 9 if demo.today.weekday() == 5 else 18
    now = datetime.combine(demo.today, time(hour), ZoneInfo("Europe/London"))
    prepared = prepare(plan_question(demo.build, now).problem)
    walked = walk(prepared.problem, Policy(tails(prepared.problem)))
    return Evening(demo, prepared, tuple(walked.schedule.blocks))


def test_the_session_is_within_a_day(evening: Evening) -> None:
    (slot,) = evening.problem.sessions.first(1)
    assert 0 <= slot.start_minute <= 24 * 60
    assert slot.minutes in (150, 300)


def test_tonight_holds_two_to_four_things_brakes_among_them(evening: Evening) -> None:
    tonight = [b for b in evening.blocks if b.session == 0 and b.kind == "work"]
    finished = [b.job_id for b in tonight if b.finishes and b.job_id]
    assert 2 <= len(tonight) <= 8
    assert len(finished) >= 2
    systems = {evening.problem.job(key).system for key in finished}
    assert "brakes" in systems


def test_the_whole_road_can_be_planned(evening: Evening) -> None:
    assert not evening.prepared.set_aside
    assert {snag.effect for snag in evening.prepared.snags} <= {"note"}
    assert set(evening.problem.goal) <= {b.job_id for b in evening.blocks if b.finishes}


def test_a_job_waits_for_a_part_that_is_due_soon(evening: Evening) -> None:
    due = {
        arrival.id
        for arrival in evening.problem.arrivals
        if arrival.expected_minute is not None and 0 < arrival.expected_minute < WEEK
    }
    waiting = [
        job.id for job in evening.ready() if due & set(evening.problem.job(job.id).parts_to_start)
    ]
    assert len(waiting) >= 2


def test_a_job_waits_for_the_helper(evening: Evening) -> None:
    assert any(all(way.people == 2 for way in job.ways) for job in evening.ready())


def test_a_job_waits_for_warmth_outside_the_warm_months(evening: Evening) -> None:
    (slot,) = evening.problem.sessions.first(1)
    assert slot.temperature_c is not None
    cold = [
        job.id for job in evening.ready() if (job.lowest_temperature_c or -30) > slot.temperature_c
    ]
    assert cold or slot.temperature_c >= 18


def test_a_job_waits_for_a_proof_and_a_job_for_a_gate(evening: Evening) -> None:
    proofs = {proof.id for proof in evening.problem.proofs if not proof.held}
    hidden = [job.id for job in evening.problem.jobs if proofs & set(job.proofs_before)]
    assert hidden
    shut = {job for gate in evening.problem.gates for job in gate.blocks}
    assert shut
    assert shut & set(hidden)
