"""Opening one thing up: a proof, a gate, a need, what lies on the shelf, an order, an entry."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from bareshell.app import reading
from bareshell.app.door import Door
from bareshell.app.parts_desk import holding_of, need_of, order_of
from bareshell.app.reading import RecordLine
from bareshell.errors import NotFound
from bareshell.model import Build
from bareshell.model.standing import open_temps
from bareshell.parts import Question
from bareshell.whole.fit_answer import WantedBy, wanted_by
from bareshell.whole.garage_time import zone_of
from bareshell.whole.need_words import before_ordering, duty_words, guess_words
from bareshell.whole.opened import (
    GatePage,
    NamedState,
    OrderPage,
    ProofPage,
    gate_page,
    order_page,
    proof_page,
)
from bareshell.whole.proofs_overview import replacing
from bareshell.whole.sheet_parts import Ticket
from bareshell.whole.shelf_overview import ComingView, HoldingView, NeedView, ShelfOverview
from bareshell.whole.spec_words import SpecLine, spec_lines, unknown_fields
from bareshell.whole.tickets import TicketDesk

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
    questions: tuple[Question, ...] = ()
    relied_on: str = ""
    cost: str = ""
    sizes: tuple[SpecLine, ...] = ()


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
    sizes: tuple[SpecLine, ...] = ()
    wanted_by: tuple[WantedBy, ...] = ()


@dataclass(frozen=True, slots=True)
class KnownTemp:
    """A temporary fix, on the car or not."""

    id: str
    title: str
    replaced_by: str
    gate: str
    gate_title: str
    on_car: bool
    raised_by: str
    cleared_by: str
    version: int | None = None
    need: str = ""
    need_title: str = ""
    need_state: str = ""


@dataclass(frozen=True, slots=True)
class TempPage:
    """One temporary fix opened up."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    temp: KnownTemp


@dataclass(frozen=True, slots=True)
class JobSheet:
    """A job as a ticket, and what it hangs on, each by name with how it stands."""

    ticket: Ticket
    holds_up: tuple[NamedState, ...]
    proves: tuple[NamedState, ...]
    hides: tuple[NamedState, ...]


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


def temps(door: Door) -> tuple[KnownTemp, ...]:
    """List every temporary fix that is known, those on the car first."""
    build = door.build()
    here = frozenset(open_temps(build))
    known = (_temp(build, key, on_car=key in here) for key in build.temps)
    return tuple(sorted(known, key=lambda one: not one.on_car))


def temp(door: Door, temp_id: str) -> TempPage:
    """Open a temporary fix up.

    Raises
    ------
    NotFound
        When the build knows none of this id.
    """
    build = door.build()
    if temp_id not in build.temps:
        raise NotFound(f"there is no temp '{temp_id}'", "look for it among the temps")
    on_car = temp_id in open_temps(build)
    car = build.car
    return TempPage(
        door.now(),
        build.seq,
        car.name if car else "",
        bool(car and car.invented),
        _temp(build, temp_id, on_car=on_car),
    )


def _temp(build: Build, key: str, *, on_car: bool) -> KnownTemp:
    one = build.temps[key].temp
    gate = build.gates.get(one.gate)
    need, need_title, need_state = replacing(build, one)

    def job(key: str | None) -> str:
        return build.jobs[key].job.title if key in build.jobs and key else ""

    return KnownTemp(
        id=key,
        title=one.title,
        replaced_by=one.replaced_by,
        gate=one.gate,
        gate_title=gate.gate.title if gate else one.gate,
        on_car=on_car,
        raised_by=job(one.raised_by),
        cleared_by=job(one.cleared_by),
        version=build.versions.get(f"temp:{key}"),
        need=need,
        need_title=need_title,
        need_state=need_state,
    )


def job_sheet(door: Door, job_id: str) -> JobSheet:
    """Lay out a job as a ticket: what to fetch, tighten, mind and prove, and what holds it up."""
    detail, build, now = reading.job(door, job_id), door.build(), door.now()
    desk = TicketDesk(build, now)
    people = build.jobs[job_id].job.ways[0].people
    blocked = (
        NamedState(key, record.gate.title, "not passed")
        for key, record in build.gates.items()
        if job_id in record.gate.blocks and record.passed is None
    )

    def standing(things: tuple[tuple[str, str], ...]) -> tuple[NamedState, ...]:
        return tuple(NamedState(k, title, str(desk.proofs[k].state)) for k, title in things)

    return JobSheet(
        ticket=desk.ticket(job_id, now, now, finishes=True, people=people),
        holds_up=tuple(blocked),
        proves=standing(detail.proves),
        hides=standing(detail.hides),
    )


def need(door: Door, need_id: str) -> NeedPage:
    """Open up what a job wants."""
    wanted, shelf = need_of(door, need_id), reading.shelf(door)
    return NeedPage(
        *_head(shelf),
        need=next(one for one in shelf.needs if one.id == need_id),
        unknown=unknown_fields(wanted.spec),
        holdings=tuple(one for one in shelf.holdings if one.need == need_id),
        coming=tuple(one for one in shelf.coming if one.need == need_id),
        questions=before_ordering(wanted),
        relied_on=duty_words(wanted.duty),
        cost=guess_words(wanted.guess),
        sizes=spec_lines(wanted.spec),
    )


def holding(door: Door, holding_id: str) -> HoldingPage:
    """Open up what lies on the shelf."""
    kept, shelf, build = holding_of(door, holding_id), reading.shelf(door), door.build()
    today = door.now().astimezone(zone_of(build)).date()
    here = kept.quantity and not kept.away
    return HoldingPage(
        *_head(shelf),
        holding=next(one for one in shelf.holdings if one.id == holding_id),
        note=kept.note,
        unknown=unknown_fields(kept.spec),
        sizes=spec_lines(kept.spec),
        wanted_by=wanted_by(build, kept, today) if here else (),
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


def version_of(door: Door, subject: str) -> int:
    """Return the version of a thing, which a form is filled in on; 0 when nobody touched it."""
    return door.build().versions.get(subject, 0)


def history(door: Door, subject: str) -> tuple[RecordLine, ...]:
    """Return the newest entries about a thing."""
    return reading.record(door, about=subject, limit=RECENT).lines


def _head(shelf: ShelfOverview) -> tuple[datetime, int, str, bool]:
    return shelf.made_at, shelf.seq, shelf.car, shelf.invented
