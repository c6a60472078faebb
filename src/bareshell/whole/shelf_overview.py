"""The parts desk as one reading: what jobs want, what is here, what is coming, kit by kit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from bareshell.model import Build
from bareshell.model.job import JobStatus
from bareshell.model.part import Delivery, Money, NeedState
from bareshell.model.standing import NeedStanding, need_standings
from bareshell.whole.kits import kit_words
from bareshell.whole.spec_words import spec_words


@dataclass(frozen=True, slots=True)
class NeedView:
    """What a job wants, and how that stands."""

    id: str
    title: str
    quantity: int
    state: str
    job: str
    job_title: str
    system: str
    needed_to: str
    size: str = ""
    where: str = ""
    here: int = 0
    coming: int = 0
    expected_on: date | None = None
    bag: str = ""
    fixing: bool = False
    open: bool = True
    tonight: bool = False
    note: str = ""
    version: int | None = None


@dataclass(frozen=True, slots=True)
class HoldingView:
    """What is on the shelf."""

    id: str
    title: str
    quantity: int
    where: str
    size: str = ""
    need: str = ""
    need_title: str = ""
    trust: str = ""
    condition: str = ""
    unlike: bool = False
    away: str = ""
    version: int | None = None


@dataclass(frozen=True, slots=True)
class ComingView:
    """An order line that is not complete, or that wants something done."""

    id: str
    title: str
    quantity: int
    outstanding: int
    supplier: str
    source: str
    ordered_on: date | None
    expected_on: date | None
    overdue_days: int = 0
    state: str = "coming"
    need: str = ""
    job_title: str = ""
    price: Money | None = None
    deliveries: tuple[Delivery, ...] = ()
    return_by: date | None = None
    return_days: int | None = None
    note: str = ""
    version: int | None = None


@dataclass(frozen=True, slots=True)
class KitView:
    """All that one job wants, as one bag: complete, or what is short of it."""

    job: str
    job_title: str
    system: str
    here: int
    total: int
    short_to_start: tuple[str, ...] = ()
    short_to_finish: tuple[str, ...] = ()
    look_for: tuple[str, ...] = ()
    bag: str = ""
    word: str = ""


@dataclass(frozen=True, slots=True)
class ShelfOverview:
    """The parts desk."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    needs: tuple[NeedView, ...] = ()
    holdings: tuple[HoldingView, ...] = ()
    coming: tuple[ComingView, ...] = ()
    kits: tuple[KitView, ...] = ()
    counts: tuple[tuple[str, int], ...] = ()
    places: tuple[tuple[str, int], ...] = ()


def shelf_overview(
    build: Build, now: datetime, today: date, tonight: Sequence[str] = ()
) -> ShelfOverview:
    """Read the parts desk of a build.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware.
    today : date
        The owner's day, against which orders are overdue.
    tonight : sequence of str
        The jobs of tonight's list; their needs come first.
    """
    standings = need_standings(build)
    needs = [_need(build, key, standings[key], tonight) for key in build.needs]
    needs.sort(key=lambda need: (not need.tonight, not need.open))
    counts: dict[str, int] = {}
    for need in needs:
        if need.open:
            counts[need.state] = counts.get(need.state, 0) + need.quantity
    places: dict[str, int] = {}
    for holding in build.holdings.values():
        if holding.quantity:
            where = holding.where or "no place noted"
            places[where] = places.get(where, 0) + holding.quantity
    return ShelfOverview(
        made_at=now,
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        needs=tuple(needs),
        holdings=tuple(_holding(build, key) for key in build.holdings),
        coming=_coming(build, today),
        kits=_kits(build, needs, tonight, kit_words(build, standings)),
        counts=tuple(counts.items()),
        places=tuple(sorted(places.items())),
    )


def _need(build: Build, key: str, standing: NeedStanding, tonight: Sequence[str]) -> NeedView:
    need = build.needs[key]
    record = build.jobs.get(need.job)
    dates = [build.orders[o].line.expected_on for o in standing.orders]
    known = [day for day in dates if day is not None]
    places = [build.holdings[h].where for h in standing.holdings]
    return NeedView(
        id=key,
        title=need.title,
        quantity=need.quantity,
        state=str(standing.state),
        job=need.job,
        job_title=record.job.title if record else need.job,
        system=record.job.system if record else "",
        needed_to=str(need.needed_to),
        size=spec_words(need.spec),
        where=", ".join(dict.fromkeys(place for place in places if place)),
        here=standing.here,
        coming=standing.coming,
        expected_on=max(known) if known and len(known) == len(dates) else None,
        bag=need.bag,
        fixing=need.fixing,
        open=bool(record and record.state.is_open),
        tonight=need.job in tonight,
        note=need.note,
        version=build.versions.get(f"need:{key}"),
    )


def _holding(build: Build, key: str) -> HoldingView:
    holding = build.holdings[key]
    need = build.needs.get(holding.need) if holding.need else None
    return HoldingView(
        id=key,
        title=holding.title,
        quantity=holding.quantity,
        where=holding.where,
        size=spec_words(holding.spec),
        need=holding.need or "",
        need_title=need.title if need else "",
        trust=str(holding.trust),
        condition=holding.condition,
        unlike=holding.unlike,
        away=holding.away,
        version=build.versions.get(f"holding:{key}"),
    )


def _coming(build: Build, today: date) -> tuple[ComingView, ...]:
    views = []
    for key, record in build.orders.items():
        line, exchange = record.line, record.line.exchange
        back = exchange.return_by if exchange and exchange.returned_on is None else None
        if not record.outstanding and back is None:
            continue
        due = line.expected_on
        overdue = (today - due).days if due and record.outstanding and due < today else 0
        need = build.needs.get(line.need) if line.need else None
        job = build.jobs.get(need.job) if need else None
        views.append(
            ComingView(
                id=key,
                title=line.title,
                quantity=line.quantity,
                outstanding=record.outstanding,
                supplier=line.supplier,
                source=str(line.source),
                ordered_on=line.ordered_on,
                expected_on=due,
                overdue_days=max(0, overdue),
                state=_order_state(overdue, record.outstanding, gone_wrong=record.gone_wrong),
                need=line.need or "",
                job_title=job.job.title if job else "",
                price=line.price,
                deliveries=record.deliveries,
                return_by=back,
                return_days=(back - today).days if back else None,
                note=line.note,
                version=build.versions.get(f"order:{key}"),
            )
        )
    return tuple(sorted(views, key=lambda v: (v.expected_on is None, v.expected_on or today)))


def _order_state(overdue: int, outstanding: int, *, gone_wrong: bool) -> str:
    if not outstanding:
        return "here, old unit to go back"
    if gone_wrong:
        return "came wrong"
    return "late" if overdue > 0 else "coming"


def _kits(
    build: Build, needs: list[NeedView], tonight: Sequence[str], words: Mapping[str, str]
) -> tuple[KitView, ...]:
    by_job: dict[str, list[NeedView]] = {}
    for need in needs:
        record = build.jobs.get(need.job)
        if record and record.state.status is not JobStatus.LEFT_OUT and need.open:
            by_job.setdefault(need.job, []).append(need)
    kits = []
    for job, wanted in by_job.items():
        short = [
            n
            for n in wanted
            if n.state not in (NeedState.HERE, NeedState.USED, NeedState.NOT_KNOWN)
        ]
        kits.append(
            KitView(
                job=job,
                job_title=wanted[0].job_title,
                system=wanted[0].system,
                here=sum(1 for n in wanted if n.state == NeedState.HERE),
                total=len(wanted),
                short_to_start=tuple(n.title for n in short if n.needed_to == "to start"),
                short_to_finish=tuple(n.title for n in short if n.needed_to != "to start"),
                look_for=tuple(n.title for n in wanted if n.state == NeedState.NOT_KNOWN),
                bag=next((n.bag for n in wanted if n.bag), ""),
                word=words.get(job, ""),
            )
        )
    kits.sort(key=lambda kit: (kit.job not in tonight, -kit.here / max(kit.total, 1)))
    return tuple(kits)
