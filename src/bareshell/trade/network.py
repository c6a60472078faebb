"""The starter network: rows turned into jobs, proofs, temps, gates and needs for one car.

A system that a car, or the work on it, is without is left out as the model leaves jobs out: what
came before it leads to what came after, so nothing is freed too early and nothing dangles. Jobs of
the other drive layout, or of an option the car has not, were never part of it and simply go.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache

from bareshell.model.car import OPTIONAL_SYSTEMS, Layout
from bareshell.model.job import Job, Way
from bareshell.model.network import in_order, joined
from bareshell.model.part import Need
from bareshell.model.proof import Proof
from bareshell.model.temp import Gate, Temp
from bareshell.model.trust import COMMON_PRACTICE, ThreePoint
from bareshell.trade.data import ROWS
from bareshell.trade.data.gates import GATES
from bareshell.trade.duties import duty_of
from bareshell.trade.row import ALONE_TAKES, FORCED_INDUCTION, Owed, Row

START_JOB = "rec-open"
"""The one job that every other comes after."""

ROAD_JOB = "road-gate"
"""The job with which the car may meet the public road."""

END_JOB = "rec-close"
"""The one job that comes after every other: the record is closed."""

WHEELS_JOB = "on-wheels"
"""Before this job nothing can stand on, or be rolled by, its own wheels."""

OPTIONS = (FORCED_INDUCTION,)
"""The options that add jobs."""

LIVES_BEFORE_MOVE = frozenset({"brakes", "steering", "suspension", "wheels"})
"""Systems whose safety proofs are asked for before the first move under own power too."""

_SWEEP, _SWEEP_GATE = "temp-sweep", "first-move"


@dataclass(frozen=True, slots=True)
class Starter:
    """What a new build begins with; jobs stand so that each comes after its predecessors."""

    jobs: tuple[Job, ...]
    proofs: tuple[Proof, ...]
    temps: tuple[Temp, ...]
    gates: tuple[Gate, ...]
    needs: tuple[Need, ...]


@cache
def rows() -> Mapping[str, Row]:
    """Return every row of the network by its job's id, in the order they are written."""
    return {row.id: row for row in ROWS}


@cache
def full_after() -> Mapping[str, tuple[str, ...]]:
    """Return the predecessors of every job, both layouts and every option together."""
    return {row.id: tuple(row.after.split()) for row in ROWS}


@cache
def ancestors() -> Mapping[str, frozenset[str]]:
    """Return for every job all the jobs that come before it, near and far."""
    return _closure(full_after())


@cache
def implied_by() -> Mapping[str, frozenset[str]]:
    """Return for every job the jobs that must be done, or are past doing, once it is done.

    Paper work and gates are never implied: papers can be written at any time, and a gate is
    gone through by a person who looks.
    """
    nearest = {}
    for row in ROWS:
        soft = set(row.later.split())
        hard = [j for j in row.after.split() if j not in soft and not _may_be_done_later(j)]
        nearest[row.id] = (*hard, *row.implies.split())
    return _closure(nearest)


def _may_be_done_later(job: str) -> bool:
    row = rows()[job]
    return row.system == "paperwork" or row.gate is not None


def _closure(after: Mapping[str, tuple[str, ...]]) -> dict[str, frozenset[str]]:
    found: dict[str, frozenset[str]] = {}
    for job in in_order(after):
        near = after[job]
        found[job] = frozenset(near).union(*(found[b] for b in near))
    return found


def starter(
    layout: Layout,
    systems: Collection[str] = OPTIONAL_SYSTEMS,
    options: Collection[str] = (),
) -> Starter:
    """Make the network that a new build begins with.

    Every figure in it is common practice, no source, and there to be edited; the vehicle's own
    manual and local law outrank it.

    Parameters
    ----------
    layout : Layout
        Which wheels are driven.
    systems : collection of str
        Those of ``OPTIONAL_SYSTEMS`` that are part of the work; the rest is left out.
    options : collection of str
        Those of ``OPTIONS`` that the car has.

    Raises
    ------
    ValueError
        When a system or option is not one that the network knows.

    Examples
    --------
    >>> network = starter(Layout.FRONT)
    >>> len(network.jobs), len(network.gates)
    (237, 10)
    >>> any(job.system == "cooling" for job in starter(Layout.REAR, {"brakes"}).jobs)
    False
    """
    for what, given, known in (
        ("system", systems, OPTIONAL_SYSTEMS),
        ("option", options, OPTIONS),
    ):
        odd = sorted(set(given) - set(known))
        if odd:
            raise ValueError(f"{what} {odd[0]!r} is not known; known are: {', '.join(known)}")
    mine = [r for r in ROWS if r.layout in (None, layout) and r.option in ("", *options)]
    kept = {r.id for r in mine if r.system not in OPTIONAL_SYSTEMS or r.system in systems}
    own = {r.id: full_after()[r.id] for r in mine}
    after = _trimmed(joined(own, own.keys() - kept))
    order = in_order(after)
    proofs = tuple(p for j in order for p in _proofs(rows()[j], kept))
    temps = tuple(t for j in order if (t := _temp(rows()[j], kept)) is not None)
    return Starter(
        jobs=tuple(_job(rows()[j], after[j], kept) for j in order),
        proofs=proofs,
        temps=temps,
        gates=_gates(kept, proofs, temps),
        needs=tuple(n for j in order for n in _needs(rows()[j])),
    )


def _trimmed(after: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    """Drop what joining added where another predecessor says the same already."""
    before = _closure(after)
    kept = {}
    for job, near in after.items():
        own = full_after()[job]
        kept[job] = tuple(
            b for b in near if b in own or not any(b in before[other] for other in near)
        )
    return kept


def _job(row: Row, after: tuple[str, ...], kept: Collection[str]) -> Job:
    return Job(
        id=row.id,
        title=row.title,
        system=row.system,
        after=after,
        ways=_ways(row),
        place=row.place,
        zones=row.zones,
        wheels=row.wheels,
        level=row.level,
        off=frozenset(row.off),
        splittable=row.split is not None,
        least_piece_hours=row.split if row.split is not None else row.hours[1],
        wait=row.wait,
        lowest_temperature_c=row.lowest_c,
        weather=row.weather,
        tools=row.tools,
        tightens=row.tightens,
        cautions=row.cautions,
        dirty=row.dirty,
        dangerous_alone=row.dangerous_alone,
        rechecks=row.rechecks,
        gate=row.gate,
        twin=row.twin if row.twin in kept else None,
        mark=COMMON_PRACTICE,
        note=row.note,
    )


def _ways(row: Row) -> tuple[Way, ...]:
    usual = Way(row.people, ThreePoint(*row.hours))
    if not row.alone:
        return (usual,)
    longer = (round(h * ALONE_TAKES, 1) for h in row.hours)
    return (usual, Way(1, ThreePoint(*longer), row.alone))


def _slug(title: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")


def _proofs(row: Row, kept: Collection[str]) -> Iterable[Proof]:
    for owed in row.proofs:
        made_by = tuple(j for j in (owed.made or row.id).split() if j in kept)
        if not made_by:
            continue
        proven_by = row.id if owed.made else owed.by or None
        yield Proof(
            id=f"{row.id}.{owed.key}" if owed.key else row.id,
            title=owed.title,
            kind=owed.kind,
            about_kind=owed.about_kind,
            about=owed.about,
            made_by=made_by,
            proven_by=proven_by if proven_by in kept else None,
            covered_by=tuple(j for j in owed.covers.split() if j in kept),
            gates=_gates_that_ask(row, owed),
            limits=owed.limits,
            hold_hours=owed.hold_hours,
            valid_days=owed.valid_days,
            mark=COMMON_PRACTICE,
            fixings=tuple(n for n in owed.fixings.split() if n.partition(".")[0] in kept),
            nipped_until=owed.nipped_until if owed.nipped_until in kept else None,
        )


TURNS_AT_FIRST_START = frozenset({"engine", "gearbox and clutch"})
FIRST_START_JOB = "first-start"


def _gates_that_ask(row: Row, owed: Owed) -> tuple[str, ...]:
    """Add to the gates a proof names those that every safety proof must have held for."""
    found = dict.fromkeys(owed.gates.split())
    shown_in = owed.by or row.id
    if owed.covers and shown_in in ancestors()[ROAD_JOB]:
        # What is hidden is asked after at the first gate that relies on it, and at the road.
        found["road"] = None
        if row.system in TURNS_AT_FIRST_START and shown_in in ancestors()[FIRST_START_JOB]:
            found["first-start"] = None
    if row.safety:
        if row.system in LIVES_BEFORE_MOVE and shown_in in ancestors()["move-gate"]:
            found["first-move"] = None
        if shown_in in ancestors()[ROAD_JOB]:
            found["road"] = None
    return tuple(gate.id for gate in GATES if gate.id in found)


def _temp(row: Row, kept: Collection[str]) -> Temp | None:
    """Make the temp a row leaves; when the job that clears it is left out, the sweep does."""
    left = row.temp
    if left is None:
        return None
    until: str | None = left.until
    gate = left.gate
    if until not in kept:
        swept = _SWEEP in kept and row.id in ancestors()[_SWEEP]
        until, gate = (_SWEEP, _SWEEP_GATE) if swept else (None, gate)
    return Temp(_slug(left.title), left.title, left.replaced_by, gate, row.id, until)


def _needs(row: Row) -> Iterable[Need]:
    for uses in row.needs:
        key = f"{row.id}.{_slug(uses.title)}"
        yield Need(
            id=key,
            title=uses.title,
            job=row.id,
            quantity=uses.quantity,
            needed_to=uses.needed_to,
            spec=uses.spec,
            fixing=uses.fixing,
            mark=COMMON_PRACTICE,
            note=uses.note,
            duty=duty_of(key),
        )


def _gates(
    kept: Collection[str], proofs: Iterable[Proof], temps: Iterable[Temp]
) -> tuple[Gate, ...]:
    """Keep every gate; one that asks and blocks nothing any more holds up no later gate."""
    own = [
        replace(
            gate,
            needs_jobs=tuple(j for j in gate.needs_jobs if j in kept),
            blocks=tuple(j for j in gate.blocks if j in kept),
        )
        for gate in GATES
    ]
    asked = {g for p in proofs for g in p.gates} | {t.gate for t in temps}
    idle = {g.id for g in own if not g.needs_jobs and not g.blocks and g.id not in asked}
    after = {g.id: g.after for g in own}
    through = joined(after, idle) | {g.id: () for g in own if g.id in idle}
    return tuple(replace(g, after=through[g.id]) for g in own)
