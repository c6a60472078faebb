"""Opening one thing up: a proof, a gate, a need, what lies on the shelf, an order, an entry."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from bareshell.app import reading
from bareshell.app.door import Door
from bareshell.app.parts_desk import holding_of, need_of, order_of
from bareshell.app.reading import RecordLine
from bareshell.errors import NotFound
from bareshell.whole.garage_time import zone_of
from bareshell.whole.opened import (
    GatePage,
    OrderPage,
    ProofPage,
    gate_page,
    order_page,
    proof_page,
)
from bareshell.whole.shelf_overview import ComingView, HoldingView, NeedView, ShelfOverview
from bareshell.whole.spec_words import unknown_fields

RECENT = 12
"""How many entries a thing's own page shows of its history."""


@dataclass(frozen=True, slots=True)
class NeedPage:
    """What a job wants, with what lies here for it and what is coming."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    need: NeedView
    unknown: tuple[str, ...]
    holdings: tuple[HoldingView, ...]
    coming: tuple[ComingView, ...]


@dataclass(frozen=True, slots=True)
class HoldingPage:
    """What lies on the shelf."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    holding: HoldingView
    note: str
    unknown: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class EntryPage:
    """One entry of the record, and what it met when it waits to be settled."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    entry: RecordLine
    base_version: int | None
    met: tuple[RecordLine, ...]


def proof(door: Door, proof_id: str) -> ProofPage:
    """Open a proof up.

    Raises
    ------
    NotFound
        When the build has no such proof.
    """
    overview, build = reading.proofs(door), door.build()
    if proof_id not in build.proofs:
        raise NotFound(f"there is no proof '{proof_id}'", "look for it among the proofs")
    return proof_page(build, overview, proof_id)


def gate(door: Door, gate_id: str) -> GatePage:
    """Open a gate up.

    Raises
    ------
    NotFound
        When the build has no such gate.
    """
    overview, build = reading.proofs(door), door.build()
    if gate_id not in build.gates:
        raise NotFound(f"there is no gate '{gate_id}'", "look for it on the ladder of gates")
    return gate_page(build, overview, gate_id)


def need(door: Door, need_id: str) -> NeedPage:
    """Open up what a job wants."""
    wanted, shelf = need_of(door, need_id), reading.shelf(door)
    return NeedPage(
        *_head(shelf),
        need=next(one for one in shelf.needs if one.id == need_id),
        unknown=unknown_fields(wanted.spec),
        holdings=tuple(one for one in shelf.holdings if one.need == need_id),
        coming=tuple(one for one in shelf.coming if one.need == need_id),
    )


def holding(door: Door, holding_id: str) -> HoldingPage:
    """Open up what lies on the shelf."""
    kept, shelf = holding_of(door, holding_id), reading.shelf(door)
    return HoldingPage(
        *_head(shelf),
        holding=next(one for one in shelf.holdings if one.id == holding_id),
        note=kept.note,
        unknown=unknown_fields(kept.spec),
    )


def order(door: Door, order_id: str) -> OrderPage:
    """Open an order line up."""
    record, build, now = order_of(door, order_id), door.build(), door.now()
    due = record.line.expected_on
    today = now.astimezone(zone_of(build)).date()
    late = (today - due).days if due and record.outstanding and due < today else 0
    return order_page(build, now, late, order_id)


def entry(door: Door, number: int) -> EntryPage:
    """Open an entry of the record up.

    Raises
    ------
    NotFound
        When the record has no such number.
    """
    page = reading.record(door, before=number + 1, limit=1)
    if not page.lines or page.lines[0].seq != number:
        raise NotFound(f"there is no entry {number}", "read the numbers on the record")
    line = page.lines[0]
    base = door.entries(after=number - 1, limit=1)[0].base_version
    met: tuple[RecordLine, ...] = ()
    if line.state == "to settle":
        about = reading.record(door, before=number, about=line.subject)
        met = tuple(one for one in about.lines if one.seq > (base or 0))
    return EntryPage(page.made_at, page.seq, page.car, page.invented, line, base, met)


def history(door: Door, subject: str) -> tuple[RecordLine, ...]:
    """Return the newest entries about a thing."""
    return reading.record(door, about=subject, limit=RECENT).lines


def _head(shelf: ShelfOverview) -> tuple[datetime, int, str, bool]:
    return shelf.made_at, shelf.seq, shelf.car, shelf.invented
