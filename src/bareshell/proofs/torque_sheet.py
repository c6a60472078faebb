"""The torque sheet: what was tightened, to which figure, with what, by whom, and marked or not.

A fixing is *fitted* when its job is done, *nipped* when it is rightly left for a later job (a
rubber-bushed pivot waits for ride height), and *torqued and marked* only when its own proof holds,
or that of the later job. Only the last counts.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from bareshell.model import Build
from bareshell.model.duty import Seat
from bareshell.model.job import JobStatus
from bareshell.model.part import Need
from bareshell.model.proof import (
    Limit,
    Proof,
    ProofEventKind,
    ProofKind,
    ProofRecord,
    ProofStanding,
    ProofState,
)
from bareshell.model.spec import BoltSpec, UnionSpec
from bareshell.model.standing import is_asked_for, proof_standings
from bareshell.proofs.rechecks import Due, RecheckState, rechecks


class FixingState(StrEnum):
    """How far a fixing has come."""

    NOT_FITTED = "not fitted"
    FITTED = "fitted"
    NIPPED = "nipped"
    TORQUED = "torqued and marked"
    SPENT = "undone since"


@dataclass(frozen=True, slots=True)
class TorqueRow:
    """One line of the sheet.

    Parameters
    ----------
    proof : str
        Id of the proof that holds it; empty for a figure that no proof keeps.
    what, job, system : str
        The fixing, the job that fits it, the system.
    figures : tuple of Limit
        What it must be brought to; empty when nobody gave a figure.
    state : FixingState
        How far it has come.
    at : datetime or None
        When it came there.
    by, wrench, words : str
        Who tightened it, with what, and what was said.
    readings : tuple of str
        Figures read, each with its unit.
    mark : str
        Where the figure comes from.
    lines : tuple of str
        What the job's ticket says of its figures and threads.
    fixings : tuple of str
        Needs whose bolts it is about.
    nipped_until : str
        The job that gives the final torque; empty where it is tightened at once.
    owed_again : tuple of Due
        Re-torques that its job causes, due or still to come.
    """

    proof: str
    what: str
    job: str
    system: str
    figures: tuple[Limit, ...]
    state: FixingState
    at: datetime | None = None
    by: str = ""
    wrench: str = ""
    words: str = ""
    readings: tuple[str, ...] = ()
    mark: str = ""
    lines: tuple[str, ...] = ()
    fixings: tuple[str, ...] = ()
    nipped_until: str = ""
    owed_again: tuple[Due, ...] = ()


def torque_sheet(build: Build, now: datetime) -> tuple[TorqueRow, ...]:
    """Read the torque sheet of a build, in the order of its jobs.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware; proofs age against it.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> torque_sheet(Build(), datetime(2026, 1, 1, tzinfo=UTC))
    ()
    """
    standings = proof_standings(build, now)
    place = {job: index for index, job in enumerate(build.jobs)}
    again = _owed_again(build, now)
    rows: list[tuple[int, TorqueRow]] = []
    proved: set[str] = set()
    for record in build.proofs.values():
        proof = record.proof
        if not is_tightened(proof) or not is_asked_for(build, record):
            continue
        job = next(iter(proof.made_by), proof.proven_by or "")
        proved.update((*proof.made_by, *filter(None, (proof.proven_by,))))
        row = _row(build, record, standings, again, job)
        rows.append((place.get(job, len(place)), row))
    rows += [(place[row.job], row) for row in _without_proof(build, proved)]
    return tuple(row for _, row in sorted(rows, key=lambda pair: pair[0]))


def is_tightened(proof: Proof) -> bool:
    """Whether a proof is about a figure to tighten to, now or in a later job.

    Examples
    --------
    >>> is_tightened(Proof("dry", "Dry")), is_tightened(Proof("p", "Nipped", nipped_until="bush"))
    (False, True)
    """
    return proof.kind is ProofKind.TORQUE or proof.nipped_until is not None


def _owed_again(build: Build, now: datetime) -> Mapping[str, tuple[Due, ...]]:
    found: dict[str, tuple[Due, ...]] = {}
    for due in rechecks(build, now):
        if due.state is not RecheckState.AGAIN:
            found[due.job] = (*found.get(due.job, ()), due)
    return found


def _row(
    build: Build,
    record: ProofRecord,
    standings: Mapping[str, ProofStanding],
    again: Mapping[str, tuple[Due, ...]],
    job: str,
) -> TorqueRow:
    proof = record.proof
    last = next((e for e in reversed(record.events) if e.kind is ProofEventKind.HELD), None)
    begun = next((e for e in reversed(record.events) if e.kind is ProofEventKind.BEGUN), None)
    said = last or begun
    readings = said.readings if said else ()
    final = _final_torque(build, proof, standings)
    standing = final or standings[proof.id]
    return TorqueRow(
        proof.id,
        proof.title,
        job,
        build.jobs[job].job.system if job in build.jobs else "",
        proof.limits,
        _fixing_state(build, proof, standing.state, job, left=not final),
        standing.since,
        said.by if said else "",
        ", ".join(dict.fromkeys(r.instrument for r in readings if r.instrument)),
        said.words if said else "",
        tuple(f"{reading.value:g} {reading.unit}" for reading in readings),
        proof.mark,
        build.jobs[job].job.tightens if job in build.jobs else (),
        _fixings(build, proof),
        "" if final else proof.nipped_until or "",
        tuple(due for made in _jobs_of(proof) for due in again.get(made, ())),
    )


def _jobs_of(proof: Proof) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*proof.made_by, *filter(None, (proof.proven_by,)))))


def _final_torque(
    build: Build, proof: Proof, standings: Mapping[str, ProofStanding]
) -> ProofStanding | None:
    """Find the torque of the later job that holds for what this one only nipped."""
    if proof.nipped_until is None or not standings[proof.id].state.is_good:
        return None
    for key, other in build.proofs.items():
        gives = other.proof.kind is ProofKind.TORQUE and key != proof.id
        if gives and proof.nipped_until in _jobs_of(other.proof) and standings[key].state.is_good:
            return standings[key]
    return None


def _fixings(build: Build, proof: Proof) -> tuple[str, ...]:
    """Name the needs whose bolts a proof is about: its own, or those left for its job."""
    if proof.fixings:
        return tuple(key for key in proof.fixings if key in build.needs)
    own = _jobs_of(proof)
    left = {
        job
        for other in build.proofs.values()
        if other.proof.nipped_until in own
        for job in other.proof.made_by
    }
    nipped = (key for key in _bolts_of(build, left) if _may_be_left(build.needs[key]))
    return tuple(dict.fromkeys((*_bolts_of(build, own), *nipped)))


def _bolts_of(build: Build, jobs: Collection[str]) -> tuple[str, ...]:
    return tuple(
        key
        for key, need in build.needs.items()
        if need.job in jobs and need.fixing and isinstance(need.spec, BoltSpec | UnionSpec)
    )


def _may_be_left(need: Need) -> bool:
    """Whether a bolt of a job that only nips is one of those it left: a rubber-bushed pivot."""
    return need.duty is None or need.duty.seat in (None, Seat.RUBBER)


def _fixing_state(
    build: Build, proof: Proof, state: ProofState, job: str, *, left: bool
) -> FixingState:
    if state.is_good:
        # What was rightly left for later is not tight; its own proof comes with the later job.
        nipped = left and proof.nipped_until is not None
        return FixingState.NIPPED if nipped else FixingState.TORQUED
    if state in (ProofState.SPENT, ProofState.FAILED):
        return FixingState.SPENT
    if state is ProofState.BEGUN:
        return FixingState.NIPPED
    if job in build.jobs and build.jobs[job].state.is_done:
        return FixingState.FITTED
    return FixingState.NOT_FITTED


def _without_proof(build: Build, proved: set[str]) -> Iterator[TorqueRow]:
    """Say what jobs tighten without any proof of it: a figure, and nobody to vouch for it."""
    for key, record in build.jobs.items():
        if key in proved or record.state.status is JobStatus.LEFT_OUT:
            continue
        state = FixingState.FITTED if record.state.is_done else FixingState.NOT_FITTED
        bolts = _bolts_of(build, {key})
        for number, line in enumerate(record.job.tightens):
            yield TorqueRow(
                "",
                line,
                key,
                record.job.system,
                (),
                state,
                record.state.finished_at,
                mark=record.job.mark,
                lines=(line,),
                fixings=bolts if number == 0 else (),
            )
