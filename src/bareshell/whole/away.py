"""What was counted out for work: plating, blasting, machining; and what came back of it.

A lot is a set of order lines of one batch, each naming the holding that was sent. What went out and
what came back are counted, because the difference is what was lost.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from bareshell.errors import BadInput, NotFound, Refused
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.part import GoodsIn, OrderLine, OrderRecord, SourceClass
from bareshell.model.standing import need_standings
from bareshell.whole.spec_words import spec_words

__all__ = ["AwayLine", "AwayLot", "AwayPage", "Back", "away_page", "count_back", "count_out"]


@dataclass(frozen=True, slots=True)
class AwayLine:
    """One thing that went out."""

    order: str
    holding: str
    title: str
    size: str
    out: int
    back: int
    spoilt: int
    missing: int
    closed: bool
    need: str = ""
    need_title: str = ""


@dataclass(frozen=True, slots=True)
class AwayLot:
    """Everything that went out together."""

    batch: str
    to: str
    work: str
    sent_on: date | None
    expected_on: date | None
    overdue_days: int
    out: int
    back: int
    missing: int
    open: bool
    lines: tuple[AwayLine, ...]


@dataclass(frozen=True, slots=True)
class AwayPage:
    """Every lot that is out, and those that came back."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    lots: tuple[AwayLot, ...]


@dataclass(frozen=True, slots=True)
class Back:
    """What came back of one line: so many right, so many spoilt."""

    order: str
    right: int = 0
    spoilt: int = 0


def away_page(build: Build, now: datetime, today: date) -> AwayPage:
    """Read every lot, those that are out first and the longest due before the others.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware.
    today : date
        The owner's day.
    """
    batches: dict[str, list[OrderRecord]] = {}
    for record in build.orders.values():
        if record.line.sent and record.line.batch:
            batches.setdefault(record.line.batch, []).append(record)
    lots = [_lot(build, batch, records, today) for batch, records in batches.items()]
    lots.sort(key=lambda lot: (not lot.open, -lot.overdue_days, str(lot.sent_on)))
    car = build.car
    return AwayPage(
        now, build.seq, car.name if car else "", bool(car and car.invented), tuple(lots)
    )


def _lot(build: Build, batch: str, records: Sequence[OrderRecord], today: date) -> AwayLot:
    lines = tuple(_line(build, record) for record in records)
    first = records[0].line
    days = [r.line.expected_on for r in records if r.line.expected_on and r.outstanding]
    due = max(days) if days else None
    return AwayLot(
        batch,
        first.supplier,
        first.note,
        first.ordered_on,
        due or first.expected_on,
        max(0, (today - due).days) if due else 0,
        sum(line.out for line in lines),
        sum(line.back for line in lines),
        sum(line.missing for line in lines),
        any(record.outstanding for record in records),
        lines,
    )


def _line(build: Build, record: OrderRecord) -> AwayLine:
    line = record.line
    need = build.needs.get(line.need or "")
    spoilt = sum(d.quantity for d in record.deliveries if d.outcome is GoodsIn.DAMAGED)
    back = sum(d.usable for d in record.deliveries)
    return AwayLine(
        line.id,
        line.sent,
        line.title,
        spec_words(line.spec),
        line.quantity,
        back,
        spoilt,
        line.quantity - back,
        record.cancelled,
        need.id if need else "",
        need.title if need else "",
    )


def count_out(
    build: Build,
    counts: Iterable[tuple[str, int]],
    *,
    batch: str,
    to: str,
    work: str,
    sent_on: date,
    expected_on: date | None,
) -> tuple[c.Change, ...]:
    """Say what is written down when things are counted out for work.

    Parameters
    ----------
    build : Build
        The build.
    counts : iterable of (str, int)
        Holdings and how many of each.
    batch : str
        The name of the lot, not used before.
    to, work : str
        Who does it, and what.
    sent_on, expected_on : date, date or None
        When it went, and when it is expected; None when nobody knows.

    Raises
    ------
    NotFound
        When there is no such holding.
    BadInput
        When more of one are counted out than lie there, or nothing at all.
    """
    changes: list[c.Change] = []
    for number, (holding_id, count) in enumerate(counts, 1):
        if holding_id not in build.holdings:
            raise NotFound(f"there is no holding '{holding_id}'", "look for it on the shelf page")
        holding = build.holdings[holding_id]
        if holding.away:
            raise BadInput(
                f"'{holding.title}'", f"it is away already: {holding.away}", "count it back first"
            )
        if not 1 <= count <= holding.quantity:
            raise BadInput(
                f"'{holding.title}'",
                f"{count} cannot be counted out: {holding.quantity} lie there",
                f"give 1 to {holding.quantity}, or count again",
            )
        where = f"{to}, {work}" if work else to
        if count < holding.quantity:
            changes.append(c.HoldingSet(replace(holding, quantity=holding.quantity - count)))
        sent = f"{holding_id}.{batch}" if count < holding.quantity else holding_id
        changes.append(c.HoldingSet(replace(holding, id=sent, quantity=count, away=where)))
        changes.append(
            c.OrderSet(
                OrderLine(
                    f"{batch}.{number}",
                    holding.title,
                    holding.need,
                    count,
                    to,
                    SourceClass.SERVICE,
                    sent_on,
                    expected_on,
                    spec=holding.spec,
                    note=work,
                    batch=batch,
                    sent=sent,
                )
            )
        )
    if not changes:
        raise BadInput("what goes out", "nothing is counted", "write how many of each")
    return tuple(changes)


def count_back(
    build: Build, batch: str, backs: Iterable[Back], *, where: str, words: str, lost: bool
) -> tuple[c.Change, ...]:
    """Say what is written down when a lot is counted back.

    Parameters
    ----------
    build : Build
        The build.
    batch : str
        The lot.
    backs : iterable of Back
        What came back of each line; lines that are not named did not come.
    where : str
        Where it was put.
    words : str
        What was seen.
    lost : bool
        Whether what did not come is lost: its lines are closed, and what jobs wanted of it stands
        as not here.

    Raises
    ------
    NotFound
        When there is no such lot.
    BadInput
        When more came back than went out.
    Refused
        When nothing is out of it any more.
    """
    records = {k: r for k, r in build.orders.items() if r.line.batch == batch and r.line.sent}
    if not records:
        raise NotFound(f"there is no lot '{batch}'", "look for it among what is away")
    if not any(record.outstanding for record in records.values()):
        raise Refused("counted back", f"nothing of '{batch}' is out any more", "open its lines")
    came = {back.order: back for back in backs}
    changes: list[c.Change] = []
    for key, record in records.items():
        back = came.get(key, Back(key))
        if record.outstanding:
            changes += _one_back(build, record, back, where=where, words=words, lost=lost)
    if not changes:
        raise BadInput("what came back", "nothing is counted", "write how many of each came back")
    return tuple(changes)


def _one_back(
    build: Build, record: OrderRecord, back: Back, *, where: str, words: str, lost: bool
) -> list[c.Change]:
    line, out = record.line, record.outstanding
    if back.right < 0 or back.spoilt < 0 or back.right + back.spoilt > out:
        raise BadInput(
            f"'{line.title}'",
            f"{back.right + back.spoilt} came back and {out} were out",
            "count again; what came besides goes on the shelf by itself",
        )
    changes: list[c.Change] = []
    sent = build.holdings.get(line.sent)
    left = out - back.right
    if back.spoilt:
        changes.append(c.GoodsChecked(line.id, GoodsIn.DAMAGED, back.spoilt, "", words))
    if back.right:
        outcome = GoodsIn.RIGHT if back.right == out else GoodsIn.SHORT
        key = f"{line.sent}.back{len(record.deliveries) + 1}"
        changes.append(c.GoodsChecked(line.id, outcome, back.right, where, words, key))
        if sent is not None:
            condition = line.note or sent.condition
            kept = replace(
                sent, id=key, quantity=back.right, where=where, away="", condition=condition
            )
            changes.append(c.HoldingSet(kept))
    if lost and left:
        said = f"{left} lost or spoilt at {line.supplier}"
        changes.append(c.OrderCancelled(line.id, said))
        if sent is not None:
            changes.append(c.HoldingDropped(line.sent, said))
        if line.need and not back.right and not need_standings(build)[line.need].here:
            changes.append(c.NeedNotHere(line.need, said))
    elif sent is not None and back.right:
        gone = c.HoldingSet(replace(sent, quantity=left)) if left else None
        changes.append(gone or c.HoldingDropped(line.sent, "counted back"))
    return changes
