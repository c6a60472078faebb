"""Garages in which everything happens at once: random ones with every rule of the plan mixed in.

`garage` makes cars that look like cars; here likeness does not matter, only that no rule is left
out: sessions that follow on one another's heels, that nobody knows the warmth of, that are shorter
than their set-up; parts that several jobs share; gates that ask for proofs and stand behind gates;
work that takes something off the body and work that puts it back. `met` says which of all this a
walk really met, so that a test can show that none is only written down.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

from bareshell.plan.policy import Fate
from bareshell.plan.problem import Gate, Link, PlanJob, PlanProblem
from bareshell.plan.ready import ready
from bareshell.plan.schedule import Block
from bareshell.plan.sessions import WEEK_MINUTES, SessionSlot, SessionSource
from bareshell.plan.steps import Walked
from tests.plan.garages import DAY, Shape, garage, hours

FEATURES = (
    "a way chosen for two where one would do",
    "a way chosen for one where two would be quicker",
    "work for two",
    "a helper at work of their own",
    "the car moved by two",
    "the car moved by one",
    "the car left as the next session wants it",
    "a body state that work begins",
    "a body state that work ends",
    "work that wants a body state",
    "work that bars a body state",
    "a job in pieces",
    "a piece as short as it may be",
    "a job carried over",
    "a job finished past the end",
    "begun work taken up again",
    "a wait that stretches with cold",
    "a wait that does not",
    "a cure that stretches with cold",
    "a cure that does not",
    "work that waited for warmth",
    "work in a session of unknown warmth",
    "a part to start that came late",
    "a part to finish that came late",
    "a part that several jobs want",
    "a proof before a cover",
    "a proof made by several jobs",
    "a proof that is held",
    "a gate that asks for a job",
    "a gate that asks for a proof",
    "a gate behind a gate",
    "a gate that a job names",
    "a date before which nothing begins",
    "a goal that is not everything",
    "a session that is lost",
    "a helper who did not come",
    "two sessions with no time between",
    "a session shorter than its set-up",
    "more sessions than were written out",
)
"""Everything that some walk through these garages has to meet."""


def wild(seed: int) -> PlanProblem:
    """The same as `loose`, without what cannot be planned."""
    return ready(loose(seed), seed=seed).problem


def loose(seed: int) -> PlanProblem:
    """A garage with every rule mixed in; the same seed gives the same one."""
    dice = random.Random(10_000 + seed)
    shape = Shape(
        jobs=dice.randint(10, 45), supports=0.6, helper=0.3, parts=0.35, cold=0.25, waits=0.25,
        gates=3, proofs=0.35, begun=0.12, roots=0.2, marked=0.4, body=seed % 2 == 0,
    )  # fmt: skip
    problem = garage(seed, shape)
    jobs = [_wilder(job, dice, problem) for job in problem.jobs]
    if shape.body:
        jobs = _doors_off_and_on(jobs, dice)
    for gate in problem.gates:
        if dice.random() < 0.5:
            at = next(at for at, job in enumerate(jobs) if job.id == gate.blocks[0])
            jobs[at] = replace(jobs[at], gates_before=(*jobs[at].gates_before, gate.id))
    proofs = tuple(
        replace(
            proof,
            held=dice.random() < 0.2,
            proven_by=proof.proven_by if dice.random() < 0.5 else (*proof.proven_by, jobs[0].id),
        )
        for proof in problem.proofs
    )
    problem = replace(
        problem,
        jobs=tuple(jobs),
        proofs=proofs,
        gates=_gates(problem, dice),
        sessions=_sessions(dice),
        set_up_minutes=dice.choice((0, 5, 15, 20)),
        clear_up_minutes=dice.choice((0, 10, 20)),
        stay_up_minutes=dice.choice((0, 30, 90)),
    )
    return problem


def _wilder(job: PlanJob, dice: random.Random, problem: PlanProblem) -> PlanJob:
    parts = [arrival.id for arrival in problem.arrivals]
    likely = job.ways[0].likely_minutes / 60
    ways = job.ways
    if dice.random() < 0.3:
        ways = (hours(likely), hours(likely * dice.choice((0.4, 0.6, 0.9)), people=2))
    return replace(
        job,
        ways=ways,
        splittable=job.splittable or dice.random() < 0.2,
        least_piece_minutes=dice.choice((1, 15, 45, 90)),
        parts_to_start=job.parts_to_start or _some(parts, dice),
        parts_to_finish=job.parts_to_finish or _some(parts, dice),
        after=tuple(
            replace(link, wait_minutes=dice.choice((0, 90, DAY, 5 * DAY)))
            if dice.random() < 0.3
            else link
            for link in job.after
        ),
    )


def _some(parts: list[str], dice: random.Random) -> tuple[str, ...]:
    return (dice.choice(parts),) if parts and dice.random() < 0.2 else ()


def _doors_off_and_on(jobs: list[PlanJob], dice: random.Random) -> list[PlanJob]:
    """Take the doors off half way and put them on again at the end; some work wants them off."""
    off, on = len(jobs) // 4, len(jobs) - 1
    state = frozenset({"doors off"})
    jobs[off] = replace(jobs[off], body_begins=state)
    jobs[on] = replace(jobs[on], body_ends=state, after=(*jobs[on].after, Link(jobs[off].id)))
    for at in range(off + 1, on):
        if dice.random() < 0.2:
            jobs[at] = replace(jobs[at], body_needs=jobs[at].body_needs | state)
    for at in range(off):
        if dice.random() < 0.2:
            jobs[at] = replace(jobs[at], body_bars=jobs[at].body_bars | state)
    return jobs


def _gates(problem: PlanProblem, dice: random.Random) -> tuple[Gate, ...]:
    """Gates that also ask for proofs of the work before them, one behind another."""
    place = {job.id: at for at, job in enumerate(problem.jobs)}
    gates: list[Gate] = []
    for gate in problem.gates:
        first = min(place[job] for job in gate.blocks)
        proofs = [p.id for p in problem.proofs if all(place[j] < first for j in p.proven_by)]
        gates.append(replace(gate, needs_proofs=tuple(proofs[: dice.randint(0, 2)])))
    return tuple(gates)


def _sessions(dice: random.Random) -> SessionSource:
    """Eight weeks of evenings as they come: in pairs, unheated, unknown, too short, with help."""
    slots: list[SessionSlot] = []
    at = 2 * 60
    while at < 8 * WEEK_MINUTES - 2 * DAY:
        length = dice.choice((10, 60, 120, 150, 300))
        known = dice.random() < 0.8
        warmth = float(dice.randint(2, 20))
        people = 2 if dice.random() < 0.4 else 1
        slots.append(
            SessionSlot(
                at,
                length,
                people,
                warmth if known else None,
                warmth - dice.randint(0, 6) if known and dice.random() < 0.7 else None,
                dice.choice(("evening", "weekend")),
                beside=dice.choice(("", "marked", "any")),
            )
        )
        at += length + dice.choice((0, 10, DAY, 3 * DAY))
    return SessionSource.repeating(slots, weeks=8)


def met(problem: PlanProblem, walked: Walked, fate: Fate) -> set[str]:
    """Say which of `FEATURES` a walk through a fate met, read off the plan that came of it."""
    seen = _Seen(problem, walked, fate)
    return {
        name
        for names in (seen.hands(), seen.car(), seen.pieces(), seen.waits(), seen.order(),
                      seen.sessions())
        for name, there in names.items()
        if there
    }  # fmt: skip


class _Seen:
    def __init__(self, problem: PlanProblem, walked: Walked, fate: Fate) -> None:
        self.problem, self.fate = problem, fate
        self.blocks = walked.schedule.blocks
        self.jobs = {job.id: job for job in problem.jobs}
        self.work: dict[str, list[Block]] = {}
        for block in self.blocks:
            if block.kind == "work" and block.job_id:
                self.work.setdefault(block.job_id, []).append(block)
        self.slots = problem.sessions.first(len(fate.people))
        self.causes = {cause.kind for cause in walked.chain}
        self.came = {a.id: fate.arrives[at] for at, a in enumerate(problem.arrivals)}

    def _worked(self) -> list[tuple[PlanJob, list[Block]]]:
        return [(self.jobs[key], blocks) for key, blocks in self.work.items()]

    def _any(self, holds: Callable[[PlanJob, list[Block]], object]) -> bool:
        return any(holds(job, blocks) for job, blocks in self._worked())

    def hands(self) -> dict[str, bool]:
        def chose(job: PlanJob, blocks: list[Block], people: int) -> bool:
            both = {way.people: way.likely_minutes for way in job.ways}
            helped = self.fate.people[blocks[0].session] > 1
            return len(both) == 2 and helped and blocks[0].people == people and both[2] < both[1]

        return {
            "a way chosen for two where one would do": self._any(lambda j, b: chose(j, b, 2)),
            "a way chosen for one where two would be quicker": self._any(
                lambda j, b: chose(j, b, 1) and not b[0].by_helper
            ),
            "work for two": self._any(lambda _, b: b[0].people == 2),
            "a helper at work of their own": any(block.by_helper for block in self.blocks),
        }

    def car(self) -> dict[str, bool]:
        moves = [block for block in self.blocks if block.kind == "change"]
        last = {block.session: block for block in self.blocks}
        return {
            "the car moved by two": any(block.people == 2 for block in moves),
            "the car moved by one": any(block.people == 1 for block in moves),
            "the car left as the next session wants it": any(
                block.kind == "change" for block in last.values()
            ),
            "a body state that work begins": self._any(lambda j, _: j.body_begins),
            "a body state that work ends": self._any(lambda j, _: j.body_ends),
            "work that wants a body state": self._any(lambda j, _: j.body_needs),
            "work that bars a body state": self._any(lambda j, _: j.body_bars),
        }

    def pieces(self) -> dict[str, bool]:
        end = {at: slot.end_minute for at, slot in enumerate(self.slots)}
        clear = self.problem.clear_up_minutes
        return {
            "a job in pieces": self._any(lambda j, b: j.splittable and len(b) > 1),
            "a piece as short as it may be": self._any(
                lambda j, b: any(one.minutes == j.least_piece_minutes for one in b[:-1])
            ),
            "a job carried over": self._any(lambda j, b: not j.splittable and len(b) > 1),
            "a job finished past the end": any(
                block.end_minute > end[block.session] - clear for block in self.blocks
            ),
            "begun work taken up again": self._any(lambda j, _: j.started or j.minutes_done),
        }

    def waits(self) -> dict[str, bool]:
        links = [link for job, _ in self._worked() for link in job.after if link.wait_minutes]
        cures = [job for job, _ in self._worked() if job.cure_minutes and job.min_temperature_c]
        shared: list[str] = []
        for job, _ in self._worked():
            shared += {*job.parts_to_start, *job.parts_to_finish}

        def late(parts: tuple[str, ...], block: Block) -> bool:
            first = self.slots[0].start_minute
            return any(first < self.came[part] <= block.end_minute for part in parts)

        return {
            "a wait that stretches with cold": any(link.stretch_with_cold for link in links),
            "a wait that does not": any(not link.stretch_with_cold for link in links),
            "a cure that stretches with cold": any(job.cure_stretches for job in cures),
            "a cure that does not": any(not job.cure_stretches for job in cures),
            "work that waited for warmth": "cold" in self.causes,
            "work in a session of unknown warmth": self._any(
                lambda j, b: (
                    j.min_temperature_c is not None
                    and any(self.slots[one.session].temperature_c is None for one in b)
                )
            ),
            "a part to start that came late": self._any(lambda j, b: late(j.parts_to_start, b[0])),
            "a part to finish that came late": self._any(
                lambda j, b: late(j.parts_to_finish, b[-1])
            ),
            "a part that several jobs want": len(set(shared)) < len(shared),
        }

    def order(self) -> dict[str, bool]:
        proofs = {proof.id: proof for proof in self.problem.proofs}
        owed = {key for job, _ in self._worked() for key in job.proofs_before}
        asked = {key for gate in self.problem.gates for key in gate.needs_proofs}
        through = {job for gate in self.problem.gates for job in gate.blocks}
        gates = self.problem.gates
        return {
            "a proof before a cover": any(not proofs[key].held for key in owed),
            "a proof made by several jobs": any(
                len(proofs[key].proven_by) > 1 for key in owed | asked
            ),
            "a proof that is held": any(proofs[key].held for key in owed | asked),
            "a gate that asks for a job": any(gate.needs_jobs and gate.blocks for gate in gates),
            "a gate that asks for a proof": any(
                gate.blocks and any(not proofs[key].held for key in gate.needs_proofs)
                for gate in gates
            ),
            "a gate behind a gate": any(
                through & set(gate.needs_jobs) and gate.blocks for gate in gates
            ),
            "a gate that a job names": self._any(lambda j, _: j.gates_before),
            "a date before which nothing begins": self._any(lambda j, _: j.earliest_minute),
            "a goal that is not everything": bool(self.problem.goal),
        }

    def sessions(self) -> dict[str, bool]:
        until = max((block.session for block in self.blocks), default=0)
        there = self.slots[: until + 1]
        set_up = self.problem.set_up_minutes
        people = list(self.fate.people)[: until + 1]
        return {
            "a session that is lost": 0 in people,
            "a helper who did not come": any(
                slot.people > came > 0 for slot, came in zip(there, people, strict=True)
            ),
            "two sessions with no time between": any(
                a.end_minute + set_up >= b.start_minute for a, b in pairwise(there)
            ),
            "a session shorter than its set-up": any(slot.minutes <= set_up for slot in there),
            "more sessions than were written out": until >= len(self.problem.sessions.slots),
        }
