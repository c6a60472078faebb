"""Proofs, gates and temps as one reading: what is owed, what stands before each gate."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from bareshell.model import Build
from bareshell.model.job import JobStatus
from bareshell.model.network import in_order
from bareshell.model.proof import ProofRecord, ProofStanding, ProofState, Reading
from bareshell.model.standing import (
    GateStanding,
    gate_standings,
    is_asked_for,
    need_standings,
    open_temps,
    proof_standings,
)
from bareshell.model.temp import Temp
from bareshell.whole.tickets import limit_words


@dataclass(frozen=True, slots=True)
class ProofView:
    """One proof as a page shows it."""

    id: str
    title: str
    state: str
    kind: str
    about: str
    system: str
    limit: str = ""
    hold_hours: float | None = None
    since: datetime | None = None
    hidden: bool = False
    hidden_by: tuple[str, ...] = ()
    readings: tuple[Reading, ...] = ()
    words: str = ""
    made_by: tuple[str, ...] = ()
    proven_by: str = ""
    gates: tuple[str, ...] = ()
    due: bool = False
    version: int | None = None


@dataclass(frozen=True, slots=True)
class TempView:
    """One temporary fix that is on the car."""

    id: str
    title: str
    replaced_by: str
    gate: str
    gate_title: str
    raised_by: str = ""
    version: int | None = None
    cleared_by: str = ""
    need: str = ""
    need_title: str = ""
    need_state: str = ""


@dataclass(frozen=True, slots=True)
class GateView:
    """One gate with what stands between, by name."""

    id: str
    title: str
    sentence: str
    state: str
    after: tuple[str, ...]
    passed_at: datetime | None = None
    passed_by: str = ""
    jobs: tuple[str, ...] = ()
    proofs: tuple[str, ...] = ()
    covered: tuple[str, ...] = ()
    temps: tuple[str, ...] = ()
    waiting_for: tuple[str, ...] = ()
    blocks: tuple[str, ...] = ()
    proof_states: tuple[tuple[str, int], ...] = ()

    @property
    def stands_between(self) -> int:
        """How many things stand between the car and this gate."""
        proofs = len(self.proofs) + len(self.covered)
        return len(self.jobs) + proofs + len(self.temps) + len(self.waiting_for)


@dataclass(frozen=True, slots=True)
class ProofsOverview:
    """Every proof by state, the temps on the car and the ladder of gates.

    ``not_asked`` lists those whose work was left out: no gate waits for them.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    owed: tuple[ProofView, ...] = ()
    begun: tuple[ProofView, ...] = ()
    held: tuple[ProofView, ...] = ()
    failed: tuple[ProofView, ...] = ()
    spent: tuple[ProofView, ...] = ()
    covered_unproven: tuple[ProofView, ...] = ()
    substituted: tuple[ProofView, ...] = ()
    temps: tuple[TempView, ...] = ()
    gates: tuple[GateView, ...] = ()
    next_gate: str = ""
    not_asked: tuple[ProofView, ...] = ()


_GROUPS = {
    ProofState.OWED: "owed",
    ProofState.BEGUN: "begun",
    ProofState.HELD: "held",
    ProofState.FAILED: "failed",
    ProofState.SPENT: "spent",
    ProofState.COVERED: "covered_unproven",
    ProofState.SUBSTITUTED: "substituted",
}
_NOT_ASKED = "not_asked"


def proofs_overview(build: Build, now: datetime) -> ProofsOverview:
    """Read every proof, temp and gate of a build at a moment.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware; proofs that are valid for so many days age against it.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> proofs_overview(Build(), datetime(2026, 1, 1, tzinfo=UTC)).owed
    ()
    """
    standings = proof_standings(build, now)
    groups: dict[str, list[ProofView]] = {name: [] for name in (*_GROUPS.values(), _NOT_ASKED)}
    for key, record in build.proofs.items():
        asked = is_asked_for(build, record)
        group = _GROUPS[standings[key].state] if asked else _NOT_ASKED
        groups[group].append(_proof(build, record, standings[key]))
    # What can be proved now comes first; the rest waits for work.
    groups["owed"].sort(key=lambda view: not view.due)
    ordered = in_order({k: r.gate.after for k, r in build.gates.items()})
    gates = gate_standings(build, now)
    views = tuple(_gate(build, gates[key], standings) for key in ordered)
    upcoming = [view.id for view in views if view.state == "next"]
    return ProofsOverview(
        made_at=now,
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        temps=tuple(_temp(build, key) for key in open_temps(build)),
        gates=views,
        next_gate=upcoming[0] if upcoming else "",
        **{name: tuple(views_) for name, views_ in groups.items()},
    )


def _proof(build: Build, record: ProofRecord, standing: ProofStanding) -> ProofView:
    proof = record.proof
    made = tuple(_title(build, j) for j in proof.made_by)
    system = next((build.jobs[j].job.system for j in proof.made_by if j in build.jobs), "")
    made_done = all(build.jobs[j].state.is_done for j in proof.made_by if j in build.jobs)
    hidden_by = tuple(
        _title(build, j)
        for j in proof.covered_by
        if j in build.jobs and build.jobs[j].state.is_done
    )
    return ProofView(
        id=proof.id,
        title=proof.title,
        state=str(standing.state),
        kind=str(proof.kind),
        about=f"{proof.about_kind}: {proof.about}" if proof.about else str(proof.about_kind),
        system=system,
        limit="; ".join(limit_words(limit) for limit in proof.limits),
        hold_hours=proof.hold_hours,
        since=standing.since,
        hidden=standing.hidden,
        hidden_by=hidden_by if standing.hidden else (),
        readings=standing.readings,
        words=standing.words,
        made_by=made,
        proven_by=_title(build, proof.proven_by) if proof.proven_by else "",
        gates=tuple(build.gates[g].gate.title for g in proof.gates if g in build.gates),
        due=made_done and bool(proof.made_by),
        version=build.versions.get(f"proof:{proof.id}"),
    )


def _temp(build: Build, key: str) -> TempView:
    temp = build.temps[key].temp
    gate = build.gates.get(temp.gate)
    need, need_title, need_state = replacing(build, temp)
    return TempView(
        id=key,
        title=temp.title,
        replaced_by=temp.replaced_by,
        gate=temp.gate,
        gate_title=gate.gate.title if gate else temp.gate,
        raised_by=_title(build, temp.raised_by) if temp.raised_by else "",
        version=build.versions.get(f"temp:{key}"),
        cleared_by=_title(build, temp.cleared_by) if temp.cleared_by else "",
        need=need,
        need_title=need_title,
        need_state=need_state,
    )


def replacing(build: Build, temp: Temp) -> tuple[str, str, str]:
    """Return the need that replaces a temp: its id, what it is called, how it stands.

    Three empty words when nothing on the parts desk does.

    Examples
    --------
    >>> replacing(Build(), Temp("rag", "Rag in the carburettor"))
    ('', '', '')
    """
    if temp.need is None or temp.need not in build.needs:
        return "", "", ""
    return temp.need, build.needs[temp.need].title, str(need_standings(build)[temp.need].state)


def _gate(build: Build, standing: GateStanding, proofs: dict[str, ProofStanding]) -> GateView:
    gate = standing.gate
    passed = build.gates[gate.id].passed
    covered = tuple(p for p in standing.proofs if proofs[p].state is ProofState.COVERED)
    counts: dict[str, int] = {}
    for key, record in build.proofs.items():
        if gate.id in record.proof.gates:
            word = str(proofs[key].state)
            counts[word] = counts.get(word, 0) + 1
    if passed is not None:
        state = "passed"
    elif standing.gates:
        state = "later"
    else:
        state = "next"
    return GateView(
        id=gate.id,
        title=gate.title,
        sentence=gate.sentence,
        state=state,
        after=gate.after,
        passed_at=passed.at if passed else None,
        passed_by=passed.by if passed else "",
        jobs=tuple(_title(build, j) for j in standing.jobs),
        proofs=tuple(build.proofs[p].proof.called for p in standing.proofs if p not in covered),
        covered=tuple(build.proofs[p].proof.called for p in covered),
        temps=tuple(build.temps[t].temp.title for t in standing.temps),
        waiting_for=tuple(build.gates[g].gate.title for g in standing.gates),
        blocks=tuple(
            _title(build, j)
            for j in gate.blocks
            if j in build.jobs and build.jobs[j].state.status is not JobStatus.LEFT_OUT
        ),
        proof_states=tuple(counts.items()),
    )


def _title(build: Build, job: str) -> str:
    return build.jobs[job].job.title if job in build.jobs else job
