"""The torque sheet: what was tightened, to which figure, with what, by whom, and marked or not.

A fixing is *fitted* when its job is done, *nipped* when somebody said so (rubber-bushed pivots
stay so until ride height), and *torqued and marked* only when its own proof holds. Only the last
counts.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from bareshell.model import Build
from bareshell.model.job import JobStatus
from bareshell.model.proof import (
    Limit,
    Proof,
    ProofEventKind,
    ProofKind,
    ProofRecord,
    ProofState,
)
from bareshell.model.standing import is_asked_for, proof_standings

_LEFT_FOR_LATER = "left for ride height"


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
    rows: list[tuple[int, TorqueRow]] = []
    proved: set[str] = set()
    for key, record in build.proofs.items():
        if record.proof.kind is not ProofKind.TORQUE or not is_asked_for(build, record):
            continue
        job = next(iter(record.proof.made_by), record.proof.proven_by or "")
        proved.update((*record.proof.made_by, *filter(None, (record.proof.proven_by,))))
        row = _row(build, record, standings[key].state, standings[key].since, job)
        rows.append((place.get(job, len(place)), row))
    rows += [(place[row.job], row) for row in _without_proof(build, proved)]
    return tuple(row for _, row in sorted(rows, key=lambda pair: pair[0]))


def _row(
    build: Build, record: ProofRecord, state: ProofState, since: datetime | None, job: str
) -> TorqueRow:
    proof = record.proof
    last = next((e for e in reversed(record.events) if e.kind is ProofEventKind.HELD), None)
    begun = next((e for e in reversed(record.events) if e.kind is ProofEventKind.BEGUN), None)
    said = last or begun
    readings = said.readings if said else ()
    return TorqueRow(
        proof.id,
        proof.title,
        job,
        build.jobs[job].job.system if job in build.jobs else "",
        proof.limits,
        _fixing_state(build, proof, state, job),
        since,
        said.by if said else "",
        ", ".join(dict.fromkeys(r.instrument for r in readings if r.instrument)),
        said.words if said else "",
        tuple(f"{reading.value:g} {reading.unit}" for reading in readings),
        proof.mark,
        build.jobs[job].job.tightens if job in build.jobs else (),
    )


def _fixing_state(build: Build, proof: Proof, state: ProofState, job: str) -> FixingState:
    if state.is_good:
        # What was rightly left for later is not tight; its own proof comes at ride height.
        left = _LEFT_FOR_LATER in proof.title.lower()
        return FixingState.NIPPED if left else FixingState.TORQUED
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
        for line in record.job.tightens:
            yield TorqueRow(
                "",
                line,
                key,
                record.job.system,
                (),
                state,
                record.state.finished_at,
                mark=record.job.mark,
            )
