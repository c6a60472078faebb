"""What happened, as a build file states it: how a job stands, what came, what was proved.

Facts stand in the same table as the thing they are about. A fact that is not written says
nothing, unlike a key of the definition, whose absence means the default: a file that was typed
on Monday must not undo what was recorded on Tuesday.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from bareshell.model.build import Build
from bareshell.model.job import JobEventKind, JobRecord, JobStatus
from bareshell.model.part import GoodsIn
from bareshell.model.proof import ProofEventKind, ProofState, Reading
from bareshell.model.standing import standing_of_proof, temp_is_open

__all__ = [
    "DeliveryFact",
    "GateFacts",
    "HoldingFacts",
    "JobFacts",
    "NeedFacts",
    "OrderFacts",
    "PassingFact",
    "PlacementFacts",
    "ProofFacts",
    "TempFacts",
    "facts_of_gate",
    "facts_of_holding",
    "facts_of_job",
    "facts_of_need",
    "facts_of_order",
    "facts_of_placement",
    "facts_of_proof",
    "facts_of_temp",
]


@dataclass(frozen=True, slots=True)
class PlacementFacts:
    """Since when the car stands so."""

    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class JobFacts:
    """How a job stands."""

    status: JobStatus | None = None
    since: datetime | None = None
    hours_done: float | None = None
    hours_left: float | None = None
    taken_off: bool | None = None


@dataclass(frozen=True, slots=True)
class NeedFacts:
    """When it was looked for and not found."""

    not_here: datetime | None = None


@dataclass(frozen=True, slots=True)
class HoldingFacts:
    """When it was last seen on the shelf."""

    seen: datetime | None = None


@dataclass(frozen=True, slots=True)
class DeliveryFact:
    """One delivery as it was checked, and the holding it became."""

    at: datetime
    outcome: GoodsIn
    quantity: int
    words: str = ""
    holding: str = ""
    used_up: bool = False


@dataclass(frozen=True, slots=True)
class OrderFacts:
    """What came of an order."""

    cancelled: bool | None = None
    deliveries: tuple[DeliveryFact, ...] | None = None


@dataclass(frozen=True, slots=True)
class ProofFacts:
    """How a proof stands."""

    state: ProofState | None = None
    since: datetime | None = None
    readings: tuple[Reading, ...] | None = None
    words: str | None = None
    uncovered: datetime | None = None


@dataclass(frozen=True, slots=True)
class TempFacts:
    """Whether a temporary fix is on the car."""

    on_car: bool | None = None


@dataclass(frozen=True, slots=True)
class PassingFact:
    """Who let the car through a gate, and when."""

    at: datetime
    by: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class GateFacts:
    """Whether a gate was passed."""

    passed: PassingFact | None = None


def facts_of_placement(build: Build, _key: str) -> PlacementFacts:
    """Return since when the car stands as it does."""
    return PlacementFacts(build.placements[-1][0])


def facts_of_job(build: Build, key: str) -> JobFacts:
    """Return how a job stands; one that is simply to do says nothing."""
    record = build.jobs[key]
    state = record.state
    if state.status is JobStatus.TO_DO and not state.taken_off:
        return JobFacts()
    started = state.status is JobStatus.STARTED
    return JobFacts(
        state.status,
        _since(record),
        state.hours_done or None,
        state.hours_left if started else None,
        True if state.taken_off and state.is_open else None,
    )


def _since(record: JobRecord) -> datetime | None:
    state = record.state
    if state.status is JobStatus.STARTED:
        return state.started_at
    if state.is_done:
        return state.finished_at
    kind = JobEventKind.LEFT_OUT if state.status is JobStatus.LEFT_OUT else JobEventKind.TAKEN_OFF
    return next((event.at for event in reversed(record.events) if event.kind is kind), None)


def facts_of_need(build: Build, key: str) -> NeedFacts:
    """Return when a need was looked for in vain."""
    return NeedFacts(build.not_here.get(key))


def facts_of_holding(build: Build, key: str) -> HoldingFacts:
    """Return when a holding was last seen."""
    return HoldingFacts(build.holding_times.get(key))


def facts_of_order(build: Build, key: str) -> OrderFacts:
    """Return what came of an order."""
    record = build.orders[key]
    deliveries = tuple(
        DeliveryFact(
            each.at,
            each.outcome,
            each.quantity,
            each.words,
            each.holding if each.usable else "",
            used_up=bool(each.usable) and each.holding not in build.holdings,
        )
        for each in record.deliveries
    )
    return OrderFacts(True if record.cancelled else None, deliveries or None)


def facts_of_proof(build: Build, key: str) -> ProofFacts:
    """Return how a proof stands; one that is simply owed says nothing."""
    record = build.proofs[key]
    standing = standing_of_proof(build, record)
    uncovered = None
    if standing_of_proof(build, replace(record, events=())).hidden:
        by_hand = [each.at for each in record.events if each.kind is ProofEventKind.UNCOVERED]
        uncovered = by_hand[-1] if by_hand else None
    if standing.state is ProofState.OWED:
        return ProofFacts(uncovered=uncovered)
    return ProofFacts(
        standing.state,
        standing.since,
        standing.readings or None,
        standing.words or None,
        uncovered,
    )


def facts_of_temp(build: Build, key: str) -> TempFacts:
    """Return whether a temporary fix is on the car.

    One that is not, and that no job has put there, says nothing.
    """
    record = build.temps[key]
    is_open = temp_is_open(build, record)
    by_jobs = temp_is_open(build, replace(record, events=()))
    return TempFacts(on_car=is_open if is_open or by_jobs else None)


def facts_of_gate(build: Build, key: str) -> GateFacts:
    """Return who let the car through a gate."""
    passed = build.gates[key].passed
    return GateFacts(PassingFact(passed.at, passed.by, passed.words) if passed else None)
