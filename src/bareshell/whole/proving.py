"""Proofs that are owed, as work for the plan: what proves each one, and what it would free.

A proof is usually held in a job of the network. When that job is done and the proof is not
held (nobody wrote it down, it failed, it was spent), proving is work of its own, and the plan
must be able to give it a place; else everything above it would wait for ever.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from bareshell.model import Build
from bareshell.model.proof import Proof as ModelProof
from bareshell.model.proof import ProofStanding, ProofState
from bareshell.model.standing import is_asked_for, proof_standings
from bareshell.plan.problem import Link, PlanJob, Proof, Way

PROVE = "prove:"
READ = "read:"

PROVING_MINUTES = (10, 20, 45)
READING_MINUTES = (5, 10, 20)
"""Optimistic, likely and pessimistic minutes to prove one thing again, and to read a hold
(common practice, no source)."""


@dataclass(frozen=True, slots=True)
class ExtraJob:
    """Proving as a job of its own; ``like`` is the job whose place on the car it shares."""

    plan_job: PlanJob
    like: str | None
    proof: str


@dataclass(frozen=True, slots=True)
class OwedProofs:
    """The proofs that open jobs or gates wait for, and the proving that is not yet a job."""

    proofs: tuple[Proof, ...] = ()
    extra_jobs: tuple[ExtraJob, ...] = ()
    beneath: dict[str, tuple[str, ...]] = field(default_factory=dict)


def owed_proofs(build: Build, now: datetime) -> OwedProofs:
    """Return what must be proved before something open may hide it or pass a gate.

    A thing that is *covered, unproven* holds up no job: it is buried already. It is named at
    its gates.
    """
    proofs: list[Proof] = []
    extra: list[ExtraJob] = []
    beneath: dict[str, tuple[str, ...]] = {}
    standings = proof_standings(build, now)
    read_in: dict[str, str] = {}
    for key, standing in standings.items():
        proof = build.proofs[key].proof
        covers = [j for j in proof.covered_by if j in build.jobs and build.jobs[j].state.is_open]
        if standing.state.is_good or standing.state is ProofState.COVERED or standing.hidden:
            continue
        failed = standing.state is ProofState.FAILED  # which stands at every gate
        if not covers and not proof.gates and not failed:
            continue
        if not is_asked_for(build, build.proofs[key]):
            continue
        by = tuple(j for j in _proving_jobs(proof) if _is_open(build, j))
        if key in read_in:
            by = (read_in[key],)
        elif not by or standing.state is ProofState.BEGUN:
            made = _extra_jobs(build, proof, standing, now)
            extra += made
            by = (made[-1].plan_job.id,)
            read_in.update(dict.fromkeys(held_together(build, standings, key), by[0]))
        proofs.append(Proof(key, proof.title, by))
        for cover in covers:
            beneath[cover] = (*beneath.get(cover, ()), key)
    return OwedProofs(tuple(proofs), tuple(extra), beneath)


def held_together(
    build: Build, standings: Mapping[str, ProofStanding], key: str
) -> tuple[str, ...]:
    """Return the proofs that one reading settles together with this one.

    One pressure hold proves many joints: what was begun at the same moment, to be proved by the
    same job, is read in one go.

    Parameters
    ----------
    build : Build
        The build.
    standings : mapping
        How every proof stands.
    key : str
        One of them; alone in the answer when it is no running hold.
    """
    by, since = build.proofs[key].proof.proven_by, standings[key].since
    if by is None or standings[key].state is not ProofState.BEGUN:
        return (key,)
    return tuple(
        other
        for other, standing in standings.items()
        if standing.state is ProofState.BEGUN
        and standing.since == since
        and build.proofs[other].proof.proven_by == by
    )


def _proving_jobs(proof: ModelProof) -> tuple[str, ...]:
    return (proof.proven_by,) if proof.proven_by else proof.made_by


def _is_open(build: Build, job: str) -> bool:
    return job in build.jobs and build.jobs[job].state.is_open


def _extra_jobs(
    build: Build, proof: ModelProof, standing: ProofStanding, now: datetime
) -> list[ExtraJob]:
    like = next((j for j in (*_proving_jobs(proof), *proof.made_by) if j in build.jobs), None)
    system = build.jobs[like].job.system if like else "commissioning"
    if standing.state is ProofState.BEGUN and standing.since is not None:
        ends = standing.since + timedelta(hours=proof.hold_hours or 0.0)
        left = max(0, round((ends - now).total_seconds() / 60))
        title = f"Read: {proof.title}"
        reading = PlanJob(
            READ + proof.id, title, system, (Way(1, *READING_MINUTES),), earliest_minute=left
        )
        return [ExtraJob(reading, like, proof.id)]
    makers = tuple(Link(j) for j in proof.made_by if _is_open(build, j))
    prove = PlanJob(
        PROVE + proof.id,
        f"Prove: {proof.title}",
        system,
        (Way(1, *PROVING_MINUTES),),
        after=makers,
    )
    if not proof.hold_hours:
        return [ExtraJob(prove, like, proof.id)]
    wait = Link(prove.id, round(proof.hold_hours * 60))
    reading = PlanJob(
        READ + proof.id,
        f"Read: {proof.title}",
        system,
        (Way(1, *READING_MINUTES),),
        after=(wait,),
    )
    return [ExtraJob(prove, like, proof.id), ExtraJob(reading, like, proof.id)]
