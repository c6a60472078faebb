"""The shortest way through a gate: only the work that must be done before it, in an order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from bareshell.errors import NotFound
from bareshell.model import Build
from bareshell.model.job import Job, JobStatus, Way
from bareshell.model.network import find_cycle, in_order, predecessors
from bareshell.model.standing import gate_standings, gates_before


@dataclass(frozen=True, slots=True)
class Step:
    """One job on the way, with the reason why it cannot be left for later.

    Parameters
    ----------
    job, title, system : str
        The job.
    why : str
        What asks for it.
    hours : float
        What is left of it by its likely estimate, in the way that takes fewest people. [h]
    people : int
        The fewest people it takes.
    wait_hours : float
        Clock hours that must pass after it. [h]
    """

    job: str
    title: str
    system: str
    why: str
    hours: float
    people: int
    wait_hours: float = 0.0


@dataclass(frozen=True, slots=True)
class WayThrough:
    """What must be done, proved and cleared before a gate, and nothing else.

    Parameters
    ----------
    gate, title : str
        The gate.
    gates : tuple of str
        Gates on the way that are not passed yet, in their order, this one last.
    steps : tuple of Step
        The jobs, in an order that can be worked.
    prove_again : tuple of str
        Ids of proofs that no job left to do would prove: they are proved by hand.
    uncover : tuple of str
        Ids of proofs that lie hidden and unproven: uncover, or give a named substitute.
    temps : tuple of str
        Ids of temporary fixes that no job on the way clears.
    hours : float
        Sum of the steps. [h]
    two_person_hours : float
        The part of it that takes two people. [h]
    """

    gate: str
    title: str
    gates: tuple[str, ...] = ()
    steps: tuple[Step, ...] = ()
    prove_again: tuple[str, ...] = ()
    uncover: tuple[str, ...] = ()
    temps: tuple[str, ...] = ()
    hours: float = 0.0
    two_person_hours: float = 0.0


def way_through(build: Build, gate_id: str, now: datetime) -> WayThrough:
    """Find the shortest way through a gate.

    A job is on the way when the gate or an earlier gate that is not passed asks for it, when it
    makes or proves what is owed there, when it clears a temporary fix, or when one of these
    comes after it. Work that only happens to be open is not.

    Parameters
    ----------
    build : Build
        The build.
    gate_id : str
        The gate.
    now : datetime
        Aware; proofs age against it.

    Raises
    ------
    NotFound
        When there is no such gate.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> way_through(Build(), "road", datetime(2026, 1, 1, tzinfo=UTC))
    Traceback (most recent call last):
    bareshell.errors.NotFound: there is no gate 'road' in this build. Gates here: none.
    """
    if gate_id not in build.gates:
        known = ", ".join(build.gates) or "none"
        raise NotFound(f"there is no gate '{gate_id}' in this build", f"gates here: {known}")
    way = _Way(build, gate_id, now)
    for key in (*sorted(gates_before(build, gate_id)), gate_id):
        way.take_gate(key)
    way.take_what_comes_before()
    steps = tuple(_step(build, job, way.why[job]) for job in way.in_order())
    order = in_order({k: r.gate.after for k, r in build.gates.items()})
    return WayThrough(
        gate_id,
        build.gates[gate_id].gate.title,
        tuple(key for key in order if key in way.gates),
        steps,
        tuple(way.by_hand),
        tuple(way.hidden),
        tuple(way.temps),
        sum(step.hours for step in steps),
        sum(step.hours for step in steps if step.people > 1),
    )


class _Way:
    """What has been found necessary so far, each job with its first reason."""

    def __init__(self, build: Build, goal: str, now: datetime) -> None:
        self.build = build
        self.goal = goal
        self.standings = gate_standings(build, now)
        self.before = predecessors(build)
        self.blocked_by = _blocked_by(build)
        self.why: dict[str, str] = {}
        self.gates: set[str] = set()
        self.by_hand: dict[str, None] = {}
        self.hidden: dict[str, None] = {}
        self.temps: dict[str, None] = {}
        self._waiting: list[str] = []

    def ask(self, job: str, why: str) -> None:
        """Take a job in, unless it is in already."""
        if job not in self.why:
            self.why[job] = why
            self._waiting.append(job)

    def take_gate(self, key: str) -> None:
        """Take in what stands between the car and a gate that is not passed."""
        passed = self.build.gates[key].passed is not None
        if key in self.gates or (passed and key != self.goal):
            return
        self.gates.add(key)
        standing = self.standings[key]
        for job in standing.jobs:
            self.ask(job, f"the gate “{standing.gate.title}” asks for it")
        for proof in standing.proofs:
            self._take_proof(proof)
        for temp in standing.temps:
            self._take_temp(temp)

    def take_what_comes_before(self) -> None:
        """Take in all that comes before a job on the way, gates that hold it up included."""
        while self._waiting:
            job = self._waiting.pop()
            title = self.build.jobs[job].job.title
            for earlier in self.before.get(job, ()):
                if _is_open(self.build, earlier):
                    self.ask(earlier, f"it comes before “{title}”")
            for gate in self.blocked_by.get(job, ()):
                self.take_gate(gate)

    def in_order(self) -> tuple[str, ...]:
        """Return the jobs so that each can be worked when its turn comes.

        What a gate asks for comes before what the gate holds up; where that would go round in a
        circle, the jobs' own order decides.
        """
        after = {job: self.before.get(job, ()) for job in self.before}
        for job, gates in self.blocked_by.items():
            asked = [need for gate in gates for need in self.standings[gate].jobs if need != job]
            if job in after:
                after[job] = (*after[job], *asked)
        order = in_order(self.before if find_cycle(after) else after)
        return tuple(job for job in order if job in self.why)

    def _take_proof(self, proof_id: str) -> None:
        """Take in what makes and proves an owed thing; what no job does is for the hand."""
        proof = self.build.proofs[proof_id].proof
        makers = [job for job in proof.made_by if _is_open(self.build, job)]
        for job in makers:
            self.ask(job, f"it makes what “{proof.called}” is about")
        prover = proof.proven_by
        jobs = self.build.jobs
        if prover is not None and _is_open(self.build, prover):
            self.ask(prover, f"“{proof.called}” is proved in it")
        elif any(job in jobs and jobs[job].state.is_done for job in proof.covered_by):
            self.hidden[proof_id] = None
        elif prover is not None or not makers:
            self.by_hand[proof_id] = None

    def _take_temp(self, temp_id: str) -> None:
        temp = self.build.temps[temp_id].temp
        if temp.cleared_by is not None and _is_open(self.build, temp.cleared_by):
            self.ask(temp.cleared_by, f"it clears the temporary fix “{temp.title}”")
        else:
            self.temps[temp_id] = None


def _blocked_by(build: Build) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for key, record in build.gates.items():
        if record.passed is None:
            for job in record.gate.blocks:
                found[job] = (*found.get(job, ()), key)
    return found


def _is_open(build: Build, job: str | None) -> bool:
    if job is None or job not in build.jobs:
        return False
    return build.jobs[job].state.is_open


def _step(build: Build, job_id: str, why: str) -> Step:
    record = build.jobs[job_id]
    job = record.job
    way = fewest_people(job)
    hours = way.hours.likely_hours
    if record.state.status is JobStatus.STARTED:
        left = record.state.hours_left
        hours = left if left is not None else max(hours - record.state.hours_done, 0.0)
    wait = job.wait.hours if job.wait else 0.0
    return Step(job_id, job.title, job.system, why, hours, way.people, wait)


def fewest_people(job: Job) -> Way:
    """Return the way of doing a job that takes fewest people, then fewest hours.

    Examples
    --------
    >>> from bareshell.model.trust import ThreePoint
    >>> pair, alone = Way(2, ThreePoint(1, 1, 1)), Way(1, ThreePoint(2, 2, 2), "pressure kit")
    >>> fewest_people(Job("bleed", "Bleed", "brakes", ways=(pair, alone))).kit
    'pressure kit'
    """
    return min(job.ways, key=lambda way: (way.people, way.hours.likely_hours))
