"""How things stand, worked out from a build: proofs under their covers, needs, temps, gates.

Nothing here is stored; each is a reading of the one model, so no two pages can disagree.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from bareshell.model.build import Build
from bareshell.model.job import JobEvent, JobEventKind, JobStatus
from bareshell.model.part import NeedState, OrderRecord
from bareshell.model.proof import (
    ProofEvent,
    ProofEventKind,
    ProofRecord,
    ProofStanding,
    ProofState,
    proof_standing,
)
from bareshell.model.temp import Gate, TempRecord

_COVERS = {
    JobEventKind.FINISHED: ProofEventKind.COVERED,
    JobEventKind.DONE_BEFORE: ProofEventKind.COVERED,
    JobEventKind.TAKEN_OFF: ProofEventKind.UNCOVERED,
    JobEventKind.NOT_DONE: ProofEventKind.UNCOVERED,
}

_UNDONE = {
    JobEventKind.TAKEN_OFF: "taken off again",
    JobEventKind.NOT_DONE: "was not done after all",
}
_WORKED_ON = {JobEventKind.WORKED: "done since", JobEventKind.FINISHED: "done since"}


def standing_of_proof(
    build: Build, record: ProofRecord, now: datetime | None = None
) -> ProofStanding:
    """Return how one proof stands, its covers and the jobs that made it read from the jobs.

    A cover is a job of ``covered_by`` that is finished; the thing lies hidden while any one
    is. Taking off a job that made the thing spends the proof, and so does saying that it was not
    done after all, and work on a job of ``spent_by``. With ``now`` a proof that is older than
    it stays good is spent.
    """
    proof = record.proof
    events = list(record.events)
    covers = {j: build.jobs[j].events for j in proof.covered_by if j in build.jobs}
    events += _cover_events(covers)
    makers = {*proof.made_by, *((proof.proven_by,) if proof.proven_by else ())}
    events += _spending(build, makers, _UNDONE)
    events += _spending(build, {*proof.spent_by}, _WORKED_ON)
    standing = proof_standing(tuple(sorted(events)))
    return _aged(standing, proof.valid_days, now)


def _spending(build: Build, jobs: set[str], kinds: Mapping[JobEventKind, str]) -> list[ProofEvent]:
    """Return the spending of a proof that events of jobs are."""
    return [
        ProofEvent(
            event.at,
            event.seq,
            ProofEventKind.SPENT,
            by=job,
            words=f"{build.jobs[job].job.title} {kinds[event.kind]}",
        )
        for job in sorted(jobs & build.jobs.keys())
        for event in build.jobs[job].events
        if event.kind in kinds
    ]


def _cover_events(covers: dict[str, tuple[JobEvent, ...]]) -> list[ProofEvent]:
    """Merge the covers' own events: hidden from the first on, seen when the last is off."""
    merged = sorted(
        ((event, job) for job, events in covers.items() for event in events),
        key=lambda pair: (pair[0].at, pair[0].seq),
    )
    over: set[str] = set()
    found = []
    for event, job in merged:
        kind = _COVERS.get(event.kind)
        if kind is ProofEventKind.COVERED:
            # Each finish hides it again: somebody may have uncovered it by hand meanwhile.
            found.append(ProofEvent(event.at, event.seq, kind, by=job))
            over.add(job)
        elif kind is ProofEventKind.UNCOVERED and job in over:
            over.discard(job)
            if not over:
                found.append(ProofEvent(event.at, event.seq, kind, by=job))
    return found


def _aged(standing: ProofStanding, valid_days: int | None, now: datetime | None) -> ProofStanding:
    if valid_days is None or now is None or standing.since is None:
        return standing
    if standing.state is not ProofState.HELD or now - standing.since <= timedelta(days=valid_days):
        return standing
    state = ProofState.COVERED if standing.hidden else ProofState.SPENT
    return replace(standing, state=state, words=f"older than {valid_days} days")


def proof_standings(build: Build, now: datetime | None = None) -> dict[str, ProofStanding]:
    """Return how every proof of the build stands."""
    return {key: standing_of_proof(build, record, now) for key, record in build.proofs.items()}


def is_asked_for(build: Build, record: ProofRecord) -> bool:
    """Whether there is, or will be, a thing for a proof to be about.

    There is none when every job that would make it is left out and was never begun; what was
    begun before it was left out may well be on the car.
    """
    makers = [build.jobs[j].state for j in record.proof.made_by if j in build.jobs]
    return not makers or any(
        s.status is not JobStatus.LEFT_OUT or s.started_at or s.finished_at for s in makers
    )


def proofs_beneath(build: Build, job: str) -> tuple[str, ...]:
    """Return the proofs that a job would hide."""
    return tuple(
        k for k, r in build.proofs.items() if job in r.proof.covered_by and is_asked_for(build, r)
    )


def temp_is_open(build: Build, record: TempRecord) -> bool:
    """Whether a temporary fix is on the car: the latest of its jobs' and its own events."""
    temp = record.temp
    moments: list[tuple[datetime, int, bool]] = [(e.at, e.seq, e.raised) for e in record.events]
    for job, raised in ((temp.raised_by, True), (temp.cleared_by, False)):
        if job is None or job not in build.jobs:
            continue
        state = build.jobs[job].state
        if state.is_done and state.finished_at is not None:
            seq = build.jobs[job].events[-1].seq
            moments.append((state.finished_at, seq, raised))
    return max(moments)[2] if moments else False


def open_temps(build: Build) -> tuple[str, ...]:
    """Return the ids of the temporary fixes that are on the car now."""
    return tuple(k for k, r in build.temps.items() if temp_is_open(build, r))


@dataclass(frozen=True, slots=True)
class NeedStanding:
    """How a need stands: what is here, what is coming and when."""

    state: NeedState
    here: int = 0
    coming: int = 0
    orders: tuple[str, ...] = ()
    holdings: tuple[str, ...] = ()


def need_standings(build: Build) -> dict[str, NeedStanding]:
    """Return how every need of the build stands.

    A need that nobody recorded anything about is *not known*: look for it. It is *not here*
    only when somebody looked, and nothing was put on the shelf for it since.
    """
    holdings: dict[str, list[str]] = {}
    for key, holding in build.holdings.items():
        if holding.need is not None:
            holdings.setdefault(holding.need, []).append(key)
    orders: dict[str, list[OrderRecord]] = {}
    for record in build.orders.values():
        if record.line.need is not None:
            orders.setdefault(record.line.need, []).append(record)
    return {
        key: _need_standing(build, key, holdings.get(key, []), orders.get(key, []))
        for key in build.needs
    }


def _need_standing(
    build: Build, key: str, holdings: list[str], orders: list[OrderRecord]
) -> NeedStanding:
    need = build.needs[key]
    looked = build.not_here.get(key)
    fresh = [
        h
        for h in holdings
        if not build.holdings[h].away and (looked is None or build.holding_times[h] > looked)
    ]
    here = sum(build.holdings[h].quantity for h in fresh)
    coming = [r for r in orders if r.outstanding]
    count = sum(r.outstanding for r in coming)
    job = build.jobs.get(need.job)
    if job is not None and job.state.is_done:
        state = NeedState.USED
    elif here >= need.quantity:
        state = NeedState.HERE
    elif any(r.gone_wrong for r in coming):
        state = NeedState.WRONG
    elif here:
        state = NeedState.SOME_HERE
    elif coming:
        state = NeedState.COMING
    elif looked is not None or any(build.holdings[h].away for h in holdings):
        state = NeedState.NOT_HERE
    else:
        state = NeedState.NOT_KNOWN
    return NeedStanding(state, here, count, tuple(r.line.id for r in coming), tuple(fresh))


@dataclass(frozen=True, slots=True)
class GateStanding:
    """What stands between the car and a gate."""

    gate: Gate
    passed: bool
    gates: tuple[str, ...] = ()
    jobs: tuple[str, ...] = ()
    proofs: tuple[str, ...] = ()
    temps: tuple[str, ...] = ()

    @property
    def is_clear(self) -> bool:
        """Whether nothing stands between."""
        return not (self.gates or self.jobs or self.proofs or self.temps)


def gate_standings(build: Build, now: datetime | None = None) -> dict[str, GateStanding]:
    """Return for each gate what stands between: gates, jobs, proofs and temps.

    A joint that is *covered, unproven* stands at its own gate and at every gate after it,
    also when that gate was passed meanwhile. So does anything that is not good though its own
    gate was passed.
    """
    proofs = proof_standings(build, now)
    temps = open_temps(build)
    found: dict[str, GateStanding] = {}
    for key, record in build.gates.items():
        gate = record.gate
        before = gates_before(build, key)
        jobs = tuple(
            j
            for j in gate.needs_jobs
            if j in build.jobs
            and not build.jobs[j].state.is_done
            and build.jobs[j].state.status is not JobStatus.LEFT_OUT
        )
        here = before | {key}
        owed = tuple(
            p
            for p, standing in proofs.items()
            if not standing.state.is_good
            and is_asked_for(build, build.proofs[p])
            and _stands_at(build, p, here, key, standing.state)
        )
        mine = tuple(t for t in temps if build.temps[t].temp.gate in here)
        waiting = tuple(g for g in gate.after if g in build.gates and not build.gates[g].passed)
        found[key] = GateStanding(gate, record.passed is not None, waiting, jobs, owed, mine)
    return found


def gates_before(build: Build, key: str) -> set[str]:
    """Return every gate that comes before a gate, however far back."""
    seen: set[str] = set()
    stack = list(build.gates[key].gate.after)
    while stack:
        gate = stack.pop()
        if gate in seen or gate not in build.gates:
            continue
        seen.add(gate)
        stack.extend(build.gates[gate].gate.after)
    return seen


def _stands_at(build: Build, proof: str, here: set[str], key: str, state: ProofState) -> bool:
    gates = build.proofs[proof].proof.gates
    if state in (ProofState.COVERED, ProofState.FAILED):
        # Hidden and never shown to be right: named at its own gate and at every later one.
        return not gates or any(g in here for g in gates)
    # What was spent, or first asked for, once its own gate lay behind: nobody comes back there.
    return key in gates or any(build.gates[g].passed for g in gates if g in here)
