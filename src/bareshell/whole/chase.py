"""Whom to ask about what: late orders, those without a day, wrong goods, old units to go back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Final

from bareshell.model import Build
from bareshell.model.part import GoodsIn, OrderLine, OrderRecord
from bareshell.whole.arrivals import believed_of
from bareshell.whole.wanted_days import WantedDays

__all__ = ["ChaseLine", "ChaseList", "ExchangeView", "chase_list", "exchange_view"]

SOON_DAYS: Final = 14
"""An old unit's day is near when it is nearer than this (our own choice). [days]"""


@dataclass(frozen=True, slots=True)
class ChaseLine:
    """One thing to ask about.

    Parameters
    ----------
    order, title, supplier : str
        What was ordered, and from whom.
    why : str
        ``late``, ``no day given``, ``after it is wanted``, ``came wrong``, ``to go back``.
    says : str
        The sentence.
    days : int
        How late, or how many days are left; larger is more urgent.
    needed_on : date or None
        When the plan wants it.
    job_title : str
        The job that waits.
    """

    order: str
    title: str
    supplier: str
    why: str
    says: str
    days: int
    needed_on: date | None = None
    job_title: str = ""


@dataclass(frozen=True, slots=True)
class ExchangeView:
    """An old unit that has to go back, and whether the new one can be proven before.

    Parameters
    ----------
    return_by, proven_on : date or None
        The last day for the old unit, and the day on which the plan proves the new one on the car.
    days_left : int or None
        Days to the last day.
    clash : bool
        Whether the window closes before the new one can be proven on the car.
    proved, photographed, measured : bool
        Whether the new one was proved on the bench, and the old one photographed and measured.
    deposit : str
        What hangs on it.
    """

    order: str
    title: str
    supplier: str
    return_by: date | None
    proven_on: date | None
    days_left: int | None
    clash: bool
    proved: bool
    photographed: bool
    measured: bool
    deposit: str
    says: str


@dataclass(frozen=True, slots=True)
class ChaseList:
    """Everything to ask about, by supplier, and the old units that are still here."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    planned: bool
    lines: tuple[ChaseLine, ...]
    exchanges: tuple[ExchangeView, ...]


def chase_list(build: Build, now: datetime, today: date, wanted: WantedDays | None) -> ChaseList:
    """Say whom to ask about what.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware.
    today : date
        The owner's day.
    wanted : WantedDays or None
        When the plan wants each need; None while there is no plan.
    """
    believed = believed_of(build, now)
    lines: list[ChaseLine] = []
    for record in build.orders.values():
        if record.cancelled:
            continue
        usual = believed(str(record.line.source), record.line.supplier.strip()).lead_days
        lines += _lines(build, record, today, wanted, usual)
    lines.sort(key=lambda line: (-line.days, line.supplier, line.title))
    exchanges = [
        exchange_view(build, record, today, wanted)
        for record in build.orders.values()
        if record.line.exchange
        and record.line.exchange.returned_on is None
        and not record.cancelled
    ]
    exchanges.sort(key=lambda one: (one.return_by is None, one.return_by or today))
    car = build.car
    return ChaseList(
        now,
        build.seq,
        car.name if car else "",
        bool(car and car.invented),
        wanted is not None,
        tuple(lines),
        tuple(exchanges),
    )


def _lines(
    build: Build, record: OrderRecord, today: date, wanted: WantedDays | None, usual: float
) -> Iterator[ChaseLine]:
    line = record.line
    need = build.needs.get(line.need or "")
    job = build.jobs.get(need.job) if need else None
    needed = wanted.needs.get(need.id) if wanted and need else None
    title = job.job.title if job else ""

    def ask(why: str, says: str, days: int) -> ChaseLine:
        return ChaseLine(line.id, line.title, line.supplier, why, says, days, needed, title)

    if back := _wrong(record, today):
        yield ask("came wrong", *back)
    if not record.outstanding:
        return
    due = line.expected_on
    if record.gone_wrong and not record.is_due:
        yield ask("no day given", "No day for the right one: ask for it.", 0)
    elif due is None:
        since = (today - line.ordered_on).days if line.ordered_on else None
        ago = f"ordered {since} days ago, {usual:.0f} are usual" if since is not None else "no day"
        yield ask("no day given", f"Nobody knows when: {ago}. Ask.", (since or 0) - round(usual))
    elif due < today:
        late = (today - due).days
        yield ask(
            "late",
            f"{late} day{'' if late == 1 else 's'} late: ask, and write the new day down",
            late,
        )
    elif needed is not None and due > needed:
        by = (due - needed).days
        says = f"Due {due.day} {due:%b}, {by} days after '{title}' wants it: ask for it sooner."
        yield ask("after it is wanted", says, -(due - today).days)


def _wrong(record: OrderRecord, today: date) -> tuple[str, int] | None:
    line = record.line
    bad = [d for d in record.deliveries if d.outcome in (GoodsIn.WRONG, GoodsIn.DAMAGED)]
    if not bad or line.sent_back_on is not None:
        return None
    came = bad[-1].at.astimezone(UTC).date()
    if line.return_within_days is None:
        if not record.outstanding:
            return None  # the right one came since, and nobody noted a window
        return "What came wrong is still here: ask by when it must go back.", 0
    last = came + timedelta(days=line.return_within_days)
    left = (last - today).days
    if left < 0:
        return f"What came wrong should have gone back {-left} days ago: ring them.", -left
    return f"What came wrong must go back by {last.day} {last:%b}, {left} days.", SOON_DAYS - left


def exchange_view(
    build: Build, record: OrderRecord, today: date, wanted: WantedDays | None
) -> ExchangeView:
    """Hold the window for an old unit against the day on which the plan proves the new one.

    Parameters
    ----------
    build : Build
        The build.
    record : OrderRecord
        An exchange.
    today : date
        The owner's day.
    wanted : WantedDays or None
        The plan's days; None while there is no plan.
    """
    line, exchange = record.line, record.line.exchange
    back_by = exchange.return_by if exchange else None
    proven = _proven_on(build, line, wanted)
    clash = bool(back_by and (proven is None or proven > back_by))
    steps = (
        ("prove the new one on the bench", bool(exchange and exchange.proved_on)),
        ("photograph the old one", bool(exchange and exchange.photographed_on)),
        ("measure the old one", bool(exchange and exchange.measured_on)),
    )
    left = (back_by - today).days if back_by else None
    deposit = exchange.deposit if exchange else None
    return ExchangeView(
        line.id,
        line.title,
        line.supplier,
        back_by,
        proven,
        left,
        clash,
        steps[0][1],
        steps[1][1],
        steps[2][1],
        f"{deposit.amount:f} {deposit.currency}" if deposit else "",
        _exchange_says(left, proven, back_by, [what for what, done in steps if not done]),
    )


def _proven_on(build: Build, line: OrderLine, wanted: WantedDays | None) -> date | None:
    """The day on which the plan proves the new unit: its job's proofs, or else its job's end."""
    need = build.needs.get(line.need or "")
    if need is None or wanted is None:
        return None
    proving = {
        record.proof.proven_by or need.job
        for record in build.proofs.values()
        if need.job in record.proof.made_by
    }
    days = [wanted.ends[job] for job in proving or {need.job} if job in wanted.ends]
    return max(days) if days else wanted.ends.get(need.job)


def _exchange_says(
    left: int | None, proven: date | None, back: date | None, undone: list[str]
) -> str:
    first = f" First: {', '.join(undone)}." if undone else " All three are done: it may go."
    if left is None or back is None:
        return f"No day is written down for the old unit: ask for it.{first}"
    if left < 0:
        return f"The old unit should have gone back {-left} days ago: ring them.{first}"
    if proven is None:
        return f"{left} days left, and no day in the plan proves the new one.{first}"
    if proven > back:
        over = (proven - back).days
        return (
            f"{left} days left; the plan proves the new one on the car on {proven.day} "
            f"{proven:%b}, {over} days too late.{first}"
        )
    return f"{left} days left; the plan proves the new one on {proven.day} {proven:%b}.{first}"
