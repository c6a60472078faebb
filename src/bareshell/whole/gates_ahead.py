"""Gates as the plan meets them: what is done for each, the going-through of it, what waits behind.

A gate is not open because what it asks for is done: somebody lets the car through by name. So
going through is work in the plan, the gate's own job where it has one, and nothing behind a gate is
offered before it. What a gate asks for and no job would bring is work too: what lies hidden and
unproven is uncovered and proved (or given a named substitute), and a temp that no job takes off is
taken off.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from bareshell.model import Build
from bareshell.model.network import predecessors
from bareshell.model.proof import ProofState
from bareshell.model.standing import (
    gate_standings,
    gates_before,
    is_asked_for,
    proof_standings,
    temp_is_open,
)
from bareshell.model.temp import ROAD_GATE
from bareshell.plan.jobs import Link, PlanJob, Way
from bareshell.plan.problem import Gate, Proof
from bareshell.whole.proving import PROVING_MINUTES, ExtraJob, OwedProofs

__all__ = ["CLEAR", "THROUGH", "UNCOVER", "GatesAhead", "covers_over", "gates_ahead", "own_jobs"]

THROUGH, CLEAR, UNCOVER = "pass:", "clear:", "uncover:"
"""What stands before the id of a gate, a temp or a proof in the key of such work."""

PASSING_MINUTES = (5, 10, 20)
CLEARING_MINUTES = (10, 20, 60)
SUBSTITUTE_MINUTES = 20
"""Optimistic, likely and pessimistic minutes to let the car through a gate and to take a temp off,
and minutes to write a substitute proof down (common practice, no source)."""

OFF_AND_ON_AGAIN = 1.5
"""Taking a cover off and putting it back, as a multiple of putting it on (common practice, no
source). [-]"""

ASKED = ":asked"
"""Ends the key of the plan's gate before a going-through; the gate's own key is behind it."""


@dataclass(frozen=True, slots=True)
class GatesAhead:
    """The gates of the plan, and the work that only they ask for.

    Parameters
    ----------
    gates : tuple of Gate
        For each gate what must be done before the car goes through it, and what waits for that.
    extra_jobs : tuple of ExtraJob
        Work that no job of the build is.
    proofs : tuple of Proof
        Proofs of what lies hidden, proven by that work.
    beneath : mapping of str to tuple of str
        For open jobs that would hide them once more, the proofs that forbid it.
    goal : tuple of str
        What must be done for the road; empty when every job counts.
    """

    gates: tuple[Gate, ...] = ()
    extra_jobs: tuple[ExtraJob, ...] = ()
    proofs: tuple[Proof, ...] = ()
    beneath: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    goal: tuple[str, ...] = ()


def gates_ahead(build: Build, owed: OwedProofs, now: datetime) -> GatesAhead:
    """Turn the gates that are not passed into what the plan does about them.

    Parameters
    ----------
    build : Build
        The build.
    owed : OwedProofs
        The proofs that can be seen, with what proves each.
    now : datetime
        Aware.
    """
    return _Ladder(build, owed, now).ahead()


def own_jobs(build: Build, gate: str) -> tuple[str, ...]:
    """Return the open jobs that are the going-through of a gate."""
    return tuple(k for k, r in build.jobs.items() if r.job.gate == gate and r.state.is_open)


def covers_over(build: Build, proof: str) -> tuple[str, ...]:
    """Return the finished jobs that hide what a proof is about."""
    covers = build.proofs[proof].proof.covered_by
    return tuple(j for j in covers if j in build.jobs and build.jobs[j].state.is_done)


class _Ladder:
    """Reads each standing once, and collects the work that gates ask for."""

    def __init__(self, build: Build, owed: OwedProofs, now: datetime) -> None:
        self.build = build
        self.seen = {proof.id: proof for proof in owed.proofs}
        self.states = proof_standings(build, now)
        self.standings = gate_standings(build, now)
        self.extra: dict[str, ExtraJob] = {}
        self.after = self._after()

    def ahead(self) -> GatesAhead:
        """Read the whole ladder."""
        build = self.build
        gates: list[Gate] = []
        wanted = self._rungs(ROAD_GATE).union(
            *(self._rungs(key) for key in build.gates if self._blocked(key))
        )
        for key in build.gates:
            if key in wanted:
                gates += self._gate(key)
        goal = self._goal(gates)
        beneath = self._beneath()
        hidden = [key for key in build.proofs if f"{UNCOVER}{key}" in self.extra]
        return GatesAhead(
            tuple(gates),
            tuple(self.extra.values()),
            tuple(Proof(k, build.proofs[k].proof.title, self._proving(k)) for k in hidden),
            beneath,
            goal,
        )

    def _rungs(self, key: str) -> set[str]:
        """Return a gate and every one under it, those that are passed left out."""
        if key not in self.build.gates:
            return set()
        rungs = {key, *gates_before(self.build, key)}
        return {gate for gate in rungs if self.build.gates[gate].passed is None}

    def _blocked(self, key: str) -> tuple[str, ...]:
        record = self.build.gates[key]
        return tuple(j for j in record.gate.blocks if self._is_open(j)) if not record.passed else ()

    def _is_open(self, job: str | None) -> bool:
        record = self.build.jobs.get(job or "")
        return record is not None and record.state.is_open

    # --- one gate ----------------------------------------------------------------------------

    def _gate(self, key: str) -> Iterator[Gate]:
        """Say what comes before the going-through of a gate, and what comes after it."""
        title = self.build.gates[key].gate.title
        own = own_jobs(self.build, key)
        jobs = dict.fromkeys(self._jobs_for(key))
        proofs = dict.fromkeys(self._proofs_for(key))
        behind = self._behind(own)
        late_jobs = [job for job in jobs if job in behind]
        late_proofs = [p for p in proofs if behind.intersection(self._proving(p))]
        through = own
        if not own or late_jobs or late_proofs:
            through = (self._pass(key, own),)
        before = [
            (through, tuple(jobs), tuple(proofs)) if through != own else ((), (), ()),
            (own, tuple(j for j in jobs if j not in behind),
             tuple(p for p in proofs if p not in late_proofs)),
        ]  # fmt: skip
        for number, (waits, needs, proven) in enumerate(before):
            if waits and (needs or proven):
                yield Gate(f"{key}{ASKED}{number}", title, needs, proven, waits)
        yield Gate(key, title, through, (), self._blocked(key))

    def _jobs_for(self, key: str) -> Iterator[str]:
        """List the work a gate asks for: its jobs, its temps off, the gates under it passed."""
        build = self.build
        for needed in build.gates[key].gate.needs_jobs:
            if self._is_open(needed):
                yield needed
        here = {key, *gates_before(build, key)}
        for temp, record in build.temps.items():
            if record.temp.gate in here:
                yield from self._clearing(temp, key)
        for gate in build.gates[key].gate.after:
            if gate in build.gates and build.gates[gate].passed is None:
                own = own_jobs(build, gate)
                yield from own or (self._pass(gate, own),)

    def _clearing(self, temp: str, gate: str) -> Iterator[str]:
        record = self.build.temps[temp]
        raised_by, cleared_by = record.temp.raised_by, record.temp.cleared_by
        if cleared_by is not None and self._is_open(cleared_by):
            yield cleared_by
            return
        to_come = self._is_open(raised_by) and raised_by not in self._behind(self._blocked(gate))
        if not to_come and not temp_is_open(self.build, record):
            return
        after = (Link(raised_by),) if to_come and raised_by else ()
        title = f"Take the temp off: {record.temp.title}"
        like = raised_by if raised_by in self.build.jobs else None
        job = PlanJob(
            f"{CLEAR}{temp}", title, self._system(like), (Way(1, *CLEARING_MINUTES),), after
        )
        self.extra.setdefault(job.id, ExtraJob(job, like, ""))
        yield job.id

    def _proofs_for(self, key: str) -> Iterator[str]:
        """List the proofs a gate asks for; what lies hidden gets the work of uncovering it."""
        for proof in self.standings[key].proofs:
            if proof not in self.seen:
                self._uncover(proof)
            yield proof

    def _proving(self, proof: str) -> tuple[str, ...]:
        if proof in self.seen:
            return self.seen[proof].proven_by
        return (f"{UNCOVER}{proof}",)

    def _pass(self, key: str, own: tuple[str, ...]) -> str:
        title = self.build.gates[key].gate.title
        job = PlanJob(
            f"{THROUGH}{key}",
            f"Through the gate: {title}",
            "commissioning",
            (Way(1, *PASSING_MINUTES),),
            tuple(Link(job) for job in own),
        )
        self.extra.setdefault(job.id, ExtraJob(job, None, ""))
        return job.id

    def _uncover(self, key: str) -> None:
        """Make work of proving what lies hidden: a substitute at best, all covers off at worst."""
        if f"{UNCOVER}{key}" in self.extra:
            return
        proof = self.build.proofs[key].proof
        covers = [self.build.jobs[j].job for j in covers_over(self.build, key)]
        ways = [min(job.ways, key=lambda way: way.hours.likely_hours) for job in covers]
        low = PROVING_MINUTES[1] + round(60 * sum(way.hours.optimistic_hours for way in ways))
        high = PROVING_MINUTES[2] + round(
            60 * OFF_AND_ON_AGAIN * sum(way.hours.likely_hours for way in ways)
        )
        people = max((min(w.people for w in job.ways) for job in covers), default=1)
        like = covers[0].id if covers else None
        job = PlanJob(
            f"{UNCOVER}{key}",
            f"Uncover and prove: {proof.title}",
            self._system(like),
            (Way(people, min(SUBSTITUTE_MINUTES, low), low, max(low, high)),),
            tuple(Link(job) for job in proof.made_by if self._is_open(job)),
            splittable=True,
        )
        self.extra[job.id] = ExtraJob(job, like, key)

    def _system(self, like: str | None) -> str:
        record = self.build.jobs.get(like or "")
        return record.job.system if record is not None else "commissioning"

    # --- what follows what -------------------------------------------------------------------

    def _after(self) -> dict[str, set[str]]:
        """Say which open jobs come straight after which, through gates and proofs too."""
        build = self.build
        found: dict[str, set[str]] = {}

        def link(befores: Iterable[str | None], afters: Iterable[str]) -> None:
            for before in befores:
                if before is not None and self._is_open(before):
                    found.setdefault(before, set()).update(j for j in afters if self._is_open(j))

        for job, before in predecessors(build).items():
            link(before, (job,))
        for key, record in build.gates.items():
            if record.passed is None:
                link((*record.gate.needs_jobs, *own_jobs(build, key)), record.gate.blocks)
        for proof in (record.proof for record in build.proofs.values()):
            link((proof.proven_by,) if proof.proven_by else proof.made_by, proof.covered_by)
        return found

    def _behind(self, jobs: Iterable[str]) -> frozenset[str]:
        """Return some jobs and all that come after them."""
        seen: set[str] = set()
        stack = list(jobs)
        while stack:
            job = stack.pop()
            if job not in seen:
                seen.add(job)
                stack += self.after.get(job, ())
        return frozenset(seen)

    # --- the whole ---------------------------------------------------------------------------

    def _beneath(self) -> dict[str, tuple[str, ...]]:
        """Keep from being hidden once more what failed while it lay hidden; the rules refuse it."""
        beneath: dict[str, tuple[str, ...]] = {}
        for key, standing in self.states.items():
            proof = self.build.proofs[key].proof
            covers = [j for j in proof.covered_by if self._is_open(j)]
            failed = standing.hidden and standing.state is ProofState.FAILED
            if covers and failed and is_asked_for(self.build, self.build.proofs[key]):
                self._uncover(key)
                for cover in covers:
                    beneath[cover] = (*beneath.get(cover, ()), key)
        return beneath

    def _goal(self, gates: Iterable[Gate]) -> tuple[str, ...]:
        """List what must be done for the road: what its gate and those under it ask for."""
        rungs = self._rungs(ROAD_GATE)
        wanted: dict[str, None] = {}
        for gate in gates:
            if gate.id.split(ASKED)[0] in rungs:
                wanted |= dict.fromkeys(gate.needs_jobs)
                for proof in gate.needs_proofs:
                    wanted |= dict.fromkeys(self._proving(proof))
        return tuple(wanted)
