"""Whoever follows the plan to the road is refused nothing on the way."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from bareshell.model import Build, Entry, decide
from bareshell.model import changes as c
from bareshell.model.fold import Draft, play
from bareshell.model.standing import gate_standings
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.schedule import Block
from bareshell.plan.validate import prepare
from bareshell.plan.walk import walk
from bareshell.whole.plan_problem import plan_question
from tests.demo.conftest import Played


@dataclass
class Follower:
    """Does what the plan says when it says so, and writes each thing down."""

    draft: Draft
    number: int

    @property
    def build(self) -> Build:
        return self.draft.freeze()

    def write(self, at: datetime, change: c.Change) -> None:
        decide(self.build, change)
        self.number += 1
        self.draft.seq = self.number
        entry = Entry(self.number, f"f{self.number}", at, at, "owner", change)
        play(self.draft, entry, self.number)

    def follow(self, block: Block, start: datetime, end: datetime) -> None:
        key = block.job_id or ""
        kind, colon, what = key.partition(":")
        if not colon:
            if self.build.jobs[key].state.started_at is None:
                self.write(start, c.JobStarted(key))
            if block.finishes:
                self.finish(key, end)
        elif not block.finishes:
            return
        elif kind in ("prove", "read"):
            self.prove(what, end)
        elif kind == "clear":
            self.write(end, c.TempCleared(what))
        elif kind == "uncover":
            self.write(end, c.ProofSubstituted(what, "a substitute that is named"))
        else:
            self.write(end, c.GatePassed(what, "owner"))

    def prove(self, proof: str, at: datetime) -> None:
        since = [p for p, r in self.build.proofs.items() if p == proof or _begun_with(self, p, r)]
        for one in since:
            self.write(at, c.ProofHeld(one))

    def finish(self, job: str, at: datetime) -> None:
        for key, record in self.build.proofs.items():
            proof = record.proof
            if job in ((proof.proven_by,) if proof.proven_by else proof.made_by[-1:]):
                self.write(at - timedelta(seconds=2), c.ProofHeld(key))
        self.write(at, c.JobFinished(job, 1.0))
        gate = self.build.jobs[job].job.gate
        if gate is not None and gate_standings(self.build)[gate].is_clear:
            self.write(at, c.GatePassed(gate, "owner"))


def _begun_with(follower: Follower, proof: str, record: object) -> bool:
    """Whether a hold is running: one reading settles all that were begun together."""
    del record
    events = follower.build.proofs[proof].events
    return bool(events) and events[-1].kind == "begun"


def test_nothing_that_the_plan_offers_is_refused(demo: Played) -> None:
    zone = ZoneInfo("Europe/London")
    now = datetime.combine(demo.today, time(9), zone)
    problem = prepare(plan_question(demo.build, now).problem).problem
    schedule = walk(problem, Policy(tails(problem))).schedule
    follower = Follower(Draft.of(demo.build), demo.build.seq)
    for block in sorted(schedule.blocks, key=lambda one: (one.end_minute, one.start_minute)):
        if block.kind == "work":
            start, end = problem.when(block.start_minute), problem.when(block.end_minute)
            follower.follow(block, start, end)
    shut = [key for key, record in follower.build.gates.items() if record.passed is None]
    assert shut == []
