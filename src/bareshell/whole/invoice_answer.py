"""An invoice held against what is on order and what is wanted, so that nothing lands twice."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Final

from bareshell.model import Build
from bareshell.model.part import NeedState
from bareshell.model.standing import need_standings
from bareshell.parts.invoice_lines import Invoice, InvoiceLine, read_invoice
from bareshell.parts.invoice_shares import Charged, charged
from bareshell.whole.spec_words import spec_words

__all__ = ["Choice", "InvoicePreview", "InvoiceRow", "invoice_preview"]

LIKE: Final = 0.5
"""Share of words in common from which two titles are taken for one thing (our own choice). [-]"""

_DULL: Final = frozenset({"for", "the", "and", "of", "with", "set", "pair", "new", "mm", "in"})


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to take a line: ``skip``, ``new``, ``order:ID`` or ``need:ID``."""

    key: str
    words: str


@dataclass(frozen=True, slots=True)
class InvoiceRow:
    """One line of an invoice, and what it may be.

    Parameters
    ----------
    number : int
        Its place among the lines that are things, from 0.
    line : InvoiceLine
        As it was read.
    choices : tuple of Choice
        What it may be, the likeliest first.
    chosen : str
        The key of the likeliest.
    says : str
        What it is taken for, and why.
    charged : Charged
        What all of it comes to, with its share of the discount and of the tax: so it is kept.
    """

    number: int
    line: InvoiceLine
    choices: tuple[Choice, ...]
    chosen: str
    says: str
    charged: Charged


@dataclass(frozen=True, slots=True)
class InvoicePreview:
    """An invoice as it would land; nothing is kept.

    Parameters
    ----------
    carriage, tax, total, discount, credits : Decimal or None
        As the invoice has them; what is taken off or paid back is above 0.
    tax_on_top : bool or None
        Whether the tax comes on top of the lines; None without tax.
    carriage_charged : Charged
        The carriage as it is kept, with its share of the tax.
    doubt : str
        What does not add up.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    supplier: str
    currency: str
    rows: tuple[InvoiceRow, ...]
    not_understood: tuple[str, ...]
    carriage: Decimal | None
    tax: Decimal | None
    total: Decimal | None
    doubt: str
    discount: Decimal | None
    credits: Decimal | None
    tax_on_top: bool | None
    carriage_charged: Charged


def invoice_preview(build: Build, text: str, supplier: str, now: datetime) -> InvoicePreview:
    """Read an invoice and hold it against the build.

    Parameters
    ----------
    build : Build
        The build.
    text : str
        The invoice, pasted.
    supplier : str
        From whom it is; empty when nobody said: then whoever is named on it is taken, if
        something was ordered there before.
    now : datetime
        Aware.
    """
    invoice = read_invoice(text)
    supplier = supplier or _named_in(build, text)
    car = build.car
    currency = invoice.currency or (car.currency if car else "GBP")
    taken: set[str] = set()
    shares, carriage = charged(invoice)
    rows = tuple(
        _row(build, number, line, supplier, currency, taken, share)
        for number, (line, share) in enumerate(zip(invoice.items, shares, strict=True))
    )
    return InvoicePreview(
        now,
        build.seq,
        car.name if car else "",
        bool(car and car.invented),
        supplier,
        currency,
        rows,
        _odd(invoice),
        invoice.carriage,
        invoice.tax,
        invoice.total,
        invoice.doubt,
        invoice.discount,
        invoice.credits,
        invoice.tax_on_top,
        carriage,
    )


def _named_in(build: Build, text: str) -> str:
    """The one known supplier whose name stands on an invoice; empty for none or several."""
    plain = " ".join(text.casefold().split())
    known = {r.line.supplier.strip() for r in build.orders.values() if r.line.supplier.strip()}
    found = [one for one in known if re.search(rf"\b{re.escape(one.casefold())}\b", plain)]
    return found[0] if len(found) == 1 else ""


def _odd(invoice: Invoice) -> tuple[str, ...]:
    return tuple(line.typed.strip() for line in invoice.lines if line.sort == "not understood")


def _words(text: str) -> frozenset[str]:
    found = re.findall(r"[a-z]+|\d+(?:[./-]\d+)*", text.casefold())
    return frozenset(word.rstrip("s") for word in found if word not in _DULL and len(word) > 1)


def _likeness(mine: frozenset[str], its: frozenset[str]) -> float:
    if not mine or not its:
        return 0.0
    common, least = len(mine & its), min(len(mine), len(its))
    # One word of several is a place on the car, or a sort of thing: headlamp bowls are no screws.
    return 0.0 if common == 1 and least > 1 else common / least


def _row(
    build: Build,
    number: int,
    line: InvoiceLine,
    supplier: str,
    currency: str,
    taken: set[str],
    share: Charged,
) -> InvoiceRow:
    words = _words(f"{line.title} {line.number}")
    orders = _orders(build, words, supplier, taken)
    needs = _needs(build, words, taken)
    choices = [*(Choice(key, said) for _, key, said in (*orders, *needs))]
    choices += [
        Choice("new", "a new order line, for nothing named"),
        Choice("skip", "leave it out"),
    ]
    chosen, says = choices[0].key, "nothing like it is on order or wanted"
    if orders:
        taken.add(chosen)
        says = _known(build, chosen.removeprefix("order:"), line.count, share.price, currency)
        if says.startswith("it is in the record already"):
            choices.insert(0, choices.pop())
            chosen = "skip"
    elif needs:
        taken.add(chosen)
        says = "it is wanted, and no order of it was written down"
    return InvoiceRow(number, line, tuple(choices[:6]), chosen, says, share)


def _orders(
    build: Build, words: frozenset[str], supplier: str, taken: set[str]
) -> list[tuple[float, str, str]]:
    found = []
    for key, record in build.orders.items():
        line = record.line
        likeness = _likeness(words, _words(f"{line.title} {spec_words(line.spec)}"))
        same = not supplier or line.supplier.strip().casefold() == supplier.casefold()
        if likeness >= LIKE and same and not record.cancelled and f"order:{key}" not in taken:
            state = f"{record.outstanding} to come" if record.outstanding else "here"
            said = f"the order '{line.title}' ({state})"
            found.append((likeness + 0.1 * bool(record.outstanding), f"order:{key}", said))
    return sorted(found, reverse=True)[:3]


def _needs(build: Build, words: frozenset[str], taken: set[str]) -> list[tuple[float, str, str]]:
    found = []
    standings = need_standings(build)
    for key, need in build.needs.items():
        likeness = _likeness(words, _words(f"{need.title} {spec_words(need.spec)}"))
        open_ = standings[key].state not in (NeedState.HERE, NeedState.USED, NeedState.COMING)
        if likeness >= LIKE and open_ and f"need:{key}" not in taken:
            job = build.jobs.get(need.job)
            title = job.job.title if job else need.job
            found.append((likeness, f"need:{key}", f"a new order for '{need.title}', {title}"))
    return sorted(found, reverse=True)[:3]


def _known(
    build: Build, order_id: str, count: int, charged_price: Decimal | None, currency: str
) -> str:
    """Say what an order that is there already says of price and count."""
    order = build.orders[order_id].line
    price = order.price
    same = price is not None and (price.amount, price.currency) == (charged_price, currency)
    if same and order.quantity == count:
        return "it is in the record already, at this price"
    said = ["it is on order already"]
    if order.quantity != count:
        said.append(f"{order.quantity} were ordered and {count} are charged")
    if price is not None and charged_price is not None and not same:
        said.append(f"{price.amount:f} {price.currency} was written down")
    return "; ".join(said)
