"""One proof, gate, order or need opened up: how it stands, what it hangs on, what can hurt."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from bareshell.model import Build
from bareshell.model.job import Caution
from bareshell.model.part import Need, OrderLine, OrderRecord
from bareshell.model.proof import Limit, Proof, ProofKind, ProofState
from bareshell.model.standing import gate_standings, proof_standings
from bareshell.parts import FitLine, check_fit
from bareshell.trade import cautions as known
from bareshell.whole.proofs_overview import GateView, ProofsOverview, ProofView, TempView
from bareshell.whole.spec_words import unknown_fields
from bareshell.whole.tickets import TicketDesk, limit_words

_WET_UNDER_PRESSURE = frozenset({"brakes", "gearbox and clutch"})


@dataclass(frozen=True, slots=True)
class NamedState:
    """Something by name, with the word for how it stands."""

    id: str
    title: str
    state: str


@dataclass(frozen=True, slots=True)
class LimitLine:
    """A limit: its figures, its words, and where they come from."""

    quantity: str
    unit: str
    low: float | None
    high: float | None
    words: str
    mark: str


@dataclass(frozen=True, slots=True)
class ProofPage:
    """A proof with everything that it hangs on."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    proof: ProofView
    limits: tuple[LimitLine, ...]
    valid_days: int | None
    mark: str
    made_by: tuple[NamedState, ...]
    proven_by: tuple[NamedState, ...]
    covered_by: tuple[NamedState, ...]
    gates: tuple[NamedState, ...]
    cautions: tuple[Caution, ...]
    readable_at: datetime | None = None
    spent_by: tuple[NamedState, ...] = ()
    nipped_until: tuple[NamedState, ...] = ()
    fixings: tuple[NamedState, ...] = ()
    asked_for: bool = True


@dataclass(frozen=True, slots=True)
class GatePage:
    """A gate with what stands between, by name, and what it holds up."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    gate: GateView
    waiting_for: tuple[NamedState, ...]
    jobs: tuple[NamedState, ...]
    proofs: tuple[ProofView, ...]
    temps: tuple[TempView, ...]
    good: tuple[ProofView, ...]
    blocks: tuple[NamedState, ...]
    clear: bool
    cautions: tuple[Caution, ...]
    version: int | None = None


@dataclass(frozen=True, slots=True)
class OrderPage:
    """An order line with its deliveries."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    order: OrderLine
    state: str
    outstanding: int
    record: OrderRecord
    overdue_days: int
    need_title: str
    job: NamedState | None
    unknown: tuple[str, ...]
    version: int | None = None
    against: tuple[FitLine, ...] = ()


def proof_page(build: Build, overview: ProofsOverview, proof_id: str) -> ProofPage:
    """Open a proof up.

    Parameters
    ----------
    build : Build
        The build, which has the proof.
    overview : ProofsOverview
        Of the same build and moment.
    proof_id : str
        The proof.
    """
    proof = build.proofs[proof_id].proof
    known = (*every_proof(overview), *overview.not_asked)
    view = next(one for one in known if one.id == proof_id)
    begun = view.state == ProofState.BEGUN and view.since is not None and proof.hold_hours
    return ProofPage(
        made_at=overview.made_at,
        seq=overview.seq,
        car=overview.car,
        invented=overview.invented,
        proof=view,
        limits=tuple(_limit(limit) for limit in proof.limits),
        valid_days=proof.valid_days,
        mark=proof.mark,
        made_by=_jobs(build, proof.made_by),
        proven_by=_jobs(build, (proof.proven_by,) if proof.proven_by else ()),
        covered_by=_jobs(build, proof.covered_by),
        gates=tuple(
            NamedState(gate.id, gate.title, gate.state)
            for gate in overview.gates
            if gate.id in proof.gates
        ),
        cautions=_cautions(build, proof, overview.made_at),
        readable_at=view.since + timedelta(hours=proof.hold_hours)
        if begun and view.since and proof.hold_hours
        else None,
        spent_by=_jobs(build, proof.spent_by),
        nipped_until=_jobs(build, (proof.nipped_until,) if proof.nipped_until else ()),
        fixings=tuple(
            NamedState(key, build.needs[key].title, "")
            for key in proof.fixings
            if key in build.needs
        ),
        asked_for=view not in overview.not_asked,
    )


def gate_page(build: Build, overview: ProofsOverview, gate_id: str) -> GatePage:
    """Open a gate up: everything that stands between, with its id.

    Parameters
    ----------
    build : Build
        The build, which has the gate.
    overview : ProofsOverview
        Of the same build and moment.
    gate_id : str
        The gate.
    """
    standing = gate_standings(build, overview.made_at)[gate_id]
    states = {gate.id: gate for gate in overview.gates}
    views = {view.id: view for view in (*every_proof(overview), *overview.not_asked)}
    good = (
        key
        for key, one in proof_standings(build, overview.made_at).items()
        if one.state.is_good and gate_id in build.proofs[key].proof.gates
    )
    blocks = _jobs(build, standing.gate.blocks)
    return GatePage(
        made_at=overview.made_at,
        seq=overview.seq,
        car=overview.car,
        invented=overview.invented,
        gate=states[gate_id],
        waiting_for=tuple(NamedState(g, states[g].title, states[g].state) for g in standing.gates),
        jobs=_jobs(build, standing.jobs),
        proofs=tuple(views[key] for key in standing.proofs),
        temps=tuple(temp for temp in overview.temps if temp.id in standing.temps),
        good=tuple(views[key] for key in good),
        blocks=tuple(job for job in blocks if job.state != "left out"),
        clear=standing.is_clear,
        cautions=_gate_cautions(build, standing.gate.blocks, overview.made_at),
        version=build.versions.get(f"gate:{gate_id}"),
    )


def order_page(build: Build, now: datetime, overdue_days: int, order_id: str) -> OrderPage:
    """Open an order line up.

    Parameters
    ----------
    build : Build
        The build, which has the order.
    now : datetime
        Aware.
    overdue_days : int
        How late it is by the owner's day. [day]
    order_id : str
        The order.
    """
    record = build.orders[order_id]
    line = record.line
    need = build.needs.get(line.need) if line.need else None
    jobs = _jobs(build, (need.job,)) if need else ()
    return OrderPage(
        made_at=now,
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        order=line,
        state=_order_word(record, overdue_days),
        outstanding=record.outstanding,
        record=record,
        overdue_days=overdue_days,
        need_title=need.title if need else "",
        job=jobs[0] if jobs else None,
        unknown=unknown_fields(line.spec),
        version=build.versions.get(f"order:{order_id}"),
        against=_against(need, line),
    )


def _against(need: Need | None, line: OrderLine) -> tuple[FitLine, ...]:
    """What was ordered against what is wanted, where the two do not agree."""
    if need is None or line.spec.kind == "plain":
        return ()
    return tuple(one for one in check_fit(need.spec, line.spec).lines if one.state == "differs")


def _order_word(record: OrderRecord, overdue_days: int) -> str:
    if record.cancelled:
        return "cancelled"
    if record.gone_wrong:
        return "came wrong"
    if record.outstanding:
        return "late" if overdue_days else "coming"
    return "here"


def every_proof(overview: ProofsOverview) -> Iterable[ProofView]:
    """List every proof that is asked for, what wants something done first."""
    return (
        *overview.failed,
        *overview.covered_unproven,
        *overview.spent,
        *overview.begun,
        *overview.owed,
        *overview.substituted,
        *overview.held,
    )


def _limit(limit: Limit) -> LimitLine:
    return LimitLine(
        limit.quantity, limit.unit, limit.low, limit.high, limit_words(limit), limit.mark
    )


def _jobs(build: Build, keys: Iterable[str]) -> tuple[NamedState, ...]:
    return tuple(
        NamedState(key, build.jobs[key].job.title, str(build.jobs[key].state.status))
        for key in keys
        if key in build.jobs
    )


def _cautions(build: Build, proof: Proof, now: datetime) -> tuple[Caution, ...]:
    """What can hurt while proving: that of the job it is proved in, and of the way it is shown."""
    keys = [key for key in (proof.proven_by, *proof.made_by) if key in build.jobs]
    record = build.jobs[keys[0]] if keys and keys[0] else None
    found = list(TicketDesk(build, now).cautions(record.job)) if record else []
    if proof.kind is ProofKind.HELD_PRESSURE:
        wet = record is None or record.job.system in _WET_UNDER_PRESSURE
        _add(found, known.HYDRAULIC if wet else known.LOW_AIR)
    if proof.kind is ProofKind.ROAD:
        _add(found, known.ON_THE_ROAD)
    return tuple(found)


def _gate_cautions(build: Build, blocks: Iterable[str], now: datetime) -> tuple[Caution, ...]:
    """What can hurt in what comes straight behind a gate, each harm once."""
    desk = TicketDesk(build, now)
    found: list[Caution] = []
    for key in blocks:
        if key in build.jobs and build.jobs[key].state.is_open:
            for caution in desk.cautions(build.jobs[key].job):
                _add(found, caution)
    return tuple(found)


def _add(found: list[Caution], caution: Caution) -> None:
    if all(one.harm != caution.harm for one in found):
        found.append(caution)
