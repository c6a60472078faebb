"""Builds with the starter network, and one of an owner's own, to hang brakes on."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import cache

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.brake import BrakeSystem
from bareshell.model.car import Layout
from bareshell.model.network import in_order, predecessors
from bareshell.model.proof import Proof, ProofState
from bareshell.model.standing import proof_standings, proofs_beneath
from bareshell.model.temp import Gate
from bareshell.trade.network import starter as network
from bareshell.whole.brake_owed import differences, to_write
from tests.stories import NOW, build_of, job, later


@cache
def network_build(layout: Layout = Layout.REAR) -> Build:
    """A build as it begins: the whole starter network, nothing done."""
    begun = network(layout)
    return build_of(
        [
            *(c.JobSet(each) for each in begun.jobs),
            *(c.GateSet(each) for each in begun.gates),
            *(c.ProofSet(each) for each in begun.proofs),
            *(c.TempSet(each) for each in begun.temps),
            *(c.NeedSet(each) for each in begun.needs),
        ]
    )


@cache
def own_build() -> Build:
    """A build whose owner wrote his own few jobs, in his own words."""
    return build_of(
        [
            c.JobSet(job("b1", title="Bend and fit every brake pipe")),
            c.JobSet(job("b2", "b1", title="Hang the flexible hoses")),
            c.JobSet(job("b3", "b2", title="Fill and bleed")),
            c.JobSet(job("b4", "b3", title="Leave it under pressure for a night")),
            c.JobSet(job("b5", "b4", title="Bleed a second time")),
            c.JobSet(job("b6", "b5", title="Measure the pedal")),
            c.GateSet(Gate("first-move", "First move", needs_jobs=("b6",))),
        ]
    )


def with_brakes(build: Build, system: BrakeSystem) -> Build:
    """Describe the brakes in a build and owe their proofs."""
    build = later(build, c.BrakeSystemSet(system))
    return later(build, *to_write(system, build, differences(system, build)))


def walked(
    build: Build,
    system: BrakeSystem,
    *,
    early: tuple[str, ...] = (),
    after_hold: str = "",
    until: str | None = None,
) -> Build:
    """Do every job in order, a day each, and prove each thing in the job in which it is proved.

    ``early`` is proved at once in the job ``after_hold``, long before its own. The walk ends
    before the job ``until``.
    """
    at = NOW
    order = order_through_gates(build)
    proving: dict[str, list[str]] = {}
    for key, record in build.proofs.items():
        proving.setdefault(proved_in(record.proof, order), []).append(key)
    for name in order:
        if name == until:
            break
        at += timedelta(days=1)
        standings = proof_standings(build)
        buried = [key for key in proofs_beneath(build, name) if not standings[key].state.is_good]
        assert not buried, f"{name} would hide {buried}"
        for gate in [key for key in build.gates if name in build.gates[key].gate.blocks]:
            build = _through(build, gate, at)
        build = later(build, c.JobFinished(name), at=at)
        shown = [*proving.get(name, ()), *(early if name == after_hold else ())]
        build = _proved(build, shown, at + timedelta(hours=1))
    if until is None:
        for key in build.gates:
            build = _through(build, key, at)
    return build


def order_through_gates(build: Build) -> tuple[str, ...]:
    """Put the jobs in an order in which each gate is clear before what it blocks."""
    after = {key: list(before) for key, before in predecessors(build).items()}
    plain = in_order(predecessors(build))
    asked: dict[str, set[str]] = {key: set(build.gates[key].gate.needs_jobs) for key in build.gates}
    for record in build.proofs.values():
        for gate in record.proof.gates:
            asked[gate].add(proved_in(record.proof, plain))
    for temp in build.temps.values():
        if temp.temp.cleared_by:
            asked[temp.temp.gate].add(temp.temp.cleared_by)
    for key in in_order({key: each.gate.after for key, each in build.gates.items()}):
        asked[key] |= {job for before in build.gates[key].gate.after for job in asked[before]}
        for blocked in build.gates[key].gate.blocks:
            after[blocked] += [each for each in asked[key] if each != blocked]
    return in_order({key: tuple(dict.fromkeys(each)) for key, each in after.items()})


def _through(build: Build, gate: str, at: datetime) -> Build:
    """Go through a gate, and through those before it; the door refuses one that is not clear."""
    for before in build.gates[gate].gate.after:
        build = _through(build, before, at)
    return build if build.gates[gate].passed else later(build, c.GatePassed(gate, "owner"), at=at)


def proved_in(proof: Proof, order: tuple[str, ...]) -> str:
    if proof.proven_by is not None:
        return proof.proven_by
    return max(proof.made_by, key=order.index) if proof.made_by else order[-1]


def _proved(build: Build, proofs: list[str], at: datetime) -> Build:
    holds = [key for key in proofs if build.proofs[key].proof.hold_hours]
    build = later(build, *(c.ProofBegun(key) for key in holds), at=at)
    return later(build, *(c.ProofHeld(key) for key in proofs), at=at + timedelta(hours=13))


def state_of(build: Build, proof: str) -> ProofState:
    """How a proof stands."""
    return proof_standings(build)[proof].state
