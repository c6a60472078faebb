"""Rows of parts: what is wanted, what is on the shelf, what is coming."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from bareshell.io.sheets import figures as f
from bareshell.io.sheets.alike import find_named
from bareshell.io.sheets.desk import (
    Desk,
    day_of,
    did_you_mean,
    given,
    need_of,
    note_of,
    quantity_of,
    read_cell,
    spec_of,
)
from bareshell.io.sheets.meanings import Meaning, SheetKind
from bareshell.io.sheets.rows import Row
from bareshell.model import changes as c
from bareshell.model.build import Build
from bareshell.model.part import Holding, Money, Need, NeededTo, OrderLine
from bareshell.model.spec import Spec
from bareshell.whole.spec_words import spec_words

__all__ = [
    "holding_fields",
    "holding_words",
    "need_changes",
    "need_fields",
    "need_words",
    "order_fields",
    "order_words",
]


def _job_of(row: Row, desk: Desk) -> str | None:
    said = row.text(Meaning.JOB)
    for words in (said, row.heading, desk.for_all(Meaning.JOB)):
        if not words:
            continue
        key, sure = find_named(words, desk.job_titles)
        if key is not None:
            if not sure:
                title = desk.job_titles[key]
                row.say(Meaning.JOB, f"'{words}' is taken for the job '{title}'", "", "doubtful")
            return key
        if words == said:
            remedy = did_you_mean(words, desk.job_titles) or "name a job of this build"
            row.say(Meaning.JOB, f"there is no job '{words}'", remedy)
            return None
    row.say(Meaning.JOB, "it does not say which job wants it", "say one for all such rows")
    return None


def need_fields(row: Row, desk: Desk) -> dict[str, Any]:
    """Return a need's fields as a row gives them."""
    needed = row.text(Meaning.NEEDED_TO).casefold()
    when = NeededTo.START if "start" in needed else NeededTo.FINISH if needed else None
    quantity = quantity_of(row, desk)
    if quantity == 0:
        row.say(Meaning.QUANTITY, "0 are wanted", "leave the row out, or say how many")
        quantity = None
    return given(
        title=row.text(Meaning.TITLE),
        job=_job_of(row, desk),
        quantity=quantity,
        needed_to=when,
        spec=spec_of(row),
        note=note_of(row, SheetKind.NEEDS),
    )


def holding_fields(row: Row, desk: Desk) -> dict[str, Any]:
    """Return a holding's fields as a row gives them."""
    return given(
        title=row.text(Meaning.TITLE),
        quantity=quantity_of(row, desk),
        spec=spec_of(row),
        need=need_of(row, desk),
        where=row.text(Meaning.WHERE) or row.heading,
        condition=row.text(Meaning.CONDITION),
        note=note_of(row, SheetKind.HOLDINGS),
    )


def order_fields(row: Row, desk: Desk) -> dict[str, Any]:
    """Return an order's fields as a row gives them."""
    ordered = day_of(row, Meaning.ORDERED_ON, desk, past=True)
    expected = day_of(row, Meaning.EXPECTED_ON, desk, past=False)
    if f.yes_in(row.cell(Meaning.RECEIVED)):
        row.say(
            Meaning.RECEIVED,
            "it says that this came",
            "check it in on its page, against the old part: only then is it on the shelf",
            "doubtful",
        )
    quantity = quantity_of(row, desk)
    if quantity == 0:
        row.say(Meaning.QUANTITY, "0 are ordered", "leave the row out, or say how many")
        quantity = None
    return given(
        title=row.text(Meaning.TITLE),
        quantity=quantity,
        spec=spec_of(row),
        need=need_of(row, desk),
        supplier=row.text(Meaning.SUPPLIER) or desk.for_all(Meaning.SUPPLIER),
        ordered_on=ordered,
        expected_on=expected,
        price=_price_of(row, desk, quantity or 1),
        note=note_of(row, SheetKind.ORDERS),
    )


def _price_of(row: Row, desk: Desk, quantity: int) -> Money | None:
    """Return the price for all of a row; one for each is taken so many times, which is said."""
    whole: Money | None = read_cell(
        row, Meaning.PRICE, lambda cell: f.money_in(cell, "price", desk.written)
    )
    if whole is not None and not f.for_each(row.text(Meaning.PRICE)):
        return whole
    meaning = Meaning.PRICE if whole is not None else Meaning.PRICE_EACH
    each: Money | None = whole or read_cell(
        row, Meaning.PRICE_EACH, lambda cell: f.money_in(cell, "price each", desk.written)
    )
    if each is None or quantity == 1:
        return each
    found = Money(each.amount * quantity, each.currency)
    says = f"{quantity} x {each.amount} is {found.amount} {found.currency} for all of them"
    row.say(meaning, says, "", "note")
    return found


def need_changes(row: Row, _desk: Desk, need: Need) -> list[tuple[datetime | None, c.Change]]:
    """Return that a part which is wanted is here, where the sheet says so."""
    if not f.yes_in(row.cell(Meaning.RECEIVED)):
        return []
    where = row.text(Meaning.WHERE)
    holding = Holding(
        f"{need.id}.here", need.title, need.quantity, need.spec, need.id, where, note="from a sheet"
    )
    return [(None, c.HoldingSet(holding))]


def _part_words(quantity: int, title: str, spec: Spec) -> str:
    size = spec_words(spec)
    return f"{quantity} x {title}{f', {size}' if size else ''}"


def need_words(need: Need, build: Build) -> str:
    """Say a need as one line."""
    job = build.jobs.get(need.job)
    title = job.job.title if job is not None else need.job
    return f"{_part_words(need.quantity, need.title, need.spec)}, for the job '{title}'"


def holding_words(holding: Holding, build: Build) -> str:
    """Say a holding as one line."""
    where = f", in {holding.where}" if holding.where else ""
    need = build.needs.get(holding.need or "")
    put_aside = f", for the need '{need.title}'" if need is not None else ""
    return _part_words(holding.quantity, holding.title, holding.spec) + where + put_aside


def order_words(line: OrderLine, build: Build) -> str:
    """Say an order as one line."""
    need = build.needs.get(line.need or "")
    parts = [
        _part_words(line.quantity, line.title, line.spec),
        f"from {line.supplier}" if line.supplier else "",
        f"ordered {line.ordered_on}" if line.ordered_on else "",
        f"expected {line.expected_on}" if line.expected_on else "",
        f"{line.price.amount} {line.price.currency}" if line.price else "",
        f"for the need '{need.title}'" if need is not None else "",
    ]
    return ", ".join(part for part in parts if part)
