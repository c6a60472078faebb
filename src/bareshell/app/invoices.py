"""Taking a supplier's invoice in, pasted as text: shown first, kept when it is right."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.app.money_forms import currency_of, read_rate
from bareshell.app.shelving import sent_before
from bareshell.app.written import Pen, Written, filled, slug, write_down
from bareshell.errors import BadInput
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.part import Money, OrderLine, SourceClass
from bareshell.whole.invoice_answer import InvoicePreview, InvoiceRow, invoice_preview

LONGEST = 20_000
"""Letters that a pasted invoice may have."""


def look(door: Door, fields: Fields) -> InvoicePreview:
    """Read an invoice and show how it would land; nothing is kept.

    Raises
    ------
    BadInput
        When there is no text, or far too much.
    """
    text = "\n".join(fields.get("text", ()))
    if not text.strip():
        raise BadInput("invoice", "it is empty", "paste its lines as text")
    if len(text) > LONGEST:
        raise BadInput(
            "invoice", f"{len(text)} letters are too many", "paste one invoice at a time"
        )
    supplier = (next(iter(fields.get("supplier", ())), "") or "").strip()
    return invoice_preview(door.build(), text, supplier, door.now())


def take_in(door: Door, fields: Fields, pen: Pen) -> Written:
    """Write an invoice down: each line as it was chosen in ``line-0``, ``line-1`` ...

    A line that nobody chose for is taken for what is likeliest.

    Raises
    ------
    BadInput
        When there is nothing to keep, or a choice is none.
    """
    if before := sent_before(door, pen, "parcel:"):
        return before
    form, build, seen = filled(door, fields), door.build(), look(door, fields)
    paid = form.day("paid_on", "paid on", towards="past")
    rate = read_rate(form, build) if seen.currency != currency_of(build) else None
    source = form.choice("source", "kind of supplier", SourceClass, SourceClass.GENERAL)
    batch = _batch(build, f"{seen.supplier or 'invoice'} {form.today}")
    changes: list[c.Change] = []
    for row in seen.rows:
        line = _line(form, build, seen, row, batch, source)
        if line is None:
            continue
        first = not changes
        share, parcel = row.charged, seen.carriage_charged
        tax = share.tax
        if first and tax is not None and parcel.tax is not None:
            tax += parcel.tax
        carriage = _money(parcel.price if first else None, seen.currency)
        line = replace(
            line,
            carriage=carriage or line.carriage,
            tax=_money(tax, seen.currency) or line.tax,
            paid_on=paid or line.paid_on,
            rate=rate or line.rate,
        )
        changes.append(c.OrderSet(line))
    form.check()
    if not changes:
        raise BadInput("invoice", "nothing of it is to be kept", "choose what its lines are")
    lines = "1 line" if len(changes) == 1 else f"{len(changes)} lines"
    whom = f" from {seen.supplier}" if seen.supplier else ""
    written = write_down(door, changes, pen, f"{lines} of the invoice{whom} written down.")
    return Written(written.words, f"parcel:{batch}", written.to_settle, written.repeated)


def _line(
    form: Filled,
    build: Build,
    seen: InvoicePreview,
    row: InvoiceRow,
    batch: str,
    source: SourceClass,
) -> OrderLine | None:
    """Make the order line that a row of the invoice comes to; None where it is left out."""
    chosen = form.text(f"line-{row.number}") or row.chosen
    kind, _, key = chosen.partition(":")
    price = _money(row.charged.price, seen.currency)
    if kind == "skip":
        return None
    if kind == "order" and key in build.orders:
        old = build.orders[key].line
        return replace(old, price=price or old.price, batch=old.batch or batch)
    need = build.needs.get(key) if kind == "need" else None
    if kind not in ("new", "need") or (kind == "need" and need is None):
        form.wrong(row.line.title, f"'{chosen}' is none of its choices", "choose one of the list")
        return None
    number = f"part number {row.line.number}" if row.line.number else ""
    off = f"{row.charged.off} off, of the invoice's discount" if row.charged.off else ""
    return OrderLine(
        f"{batch}.{row.number + 1}",
        need.title if need else row.line.title,
        need.id if need else None,
        row.line.count,
        seen.supplier,
        source,
        form.today,
        price=price,
        spec=need.spec if need else OrderLine("x", "x").spec,
        note="; ".join(part for part in (row.line.title if need else "", number, off) if part),
        batch=batch,
    )


def _money(amount: Decimal | None, currency: str) -> Money | None:
    return Money(amount, currency) if amount is not None else None


def _batch(build: Build, title: str) -> str:
    name, number = slug(title), 1
    taken = {record.line.batch for record in build.orders.values()}
    while (key := name if number == 1 else f"{name}-{number}") in taken:
        number += 1
    return key
