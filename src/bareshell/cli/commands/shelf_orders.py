"""``bareshell shelf order-list`` and its like: ordering, chasing, costs, invoices."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

import click

from bareshell.cli.common import counted, find_build, heading, json_option, show, table

if TYPE_CHECKING:
    from bareshell.whole.chase import ChaseList
    from bareshell.whole.costs import Costs, CurrencyCosts, Together
    from bareshell.whole.invoice_answer import InvoicePreview
    from bareshell.whole.order_list import OrderGroup, OrderLineWanted, OrderList
    from bareshell.whole.parcels import Parcels


@click.command("order-list")
@click.option("--sure", type=float, default=0.9, help="Share of such orders in time: 0.8, 0.95.")
@click.option("--without-plan", is_flag=True, help="Do not wait for the plan's days.")
@click.option(
    "--save",
    type=click.Path(path_type=Path),
    help="Write one supplier's list to this file; all of them into a folder.",
)
@click.option("--supplier", default="", help="With --save: whose list.")
@json_option
@click.pass_obj
def order_list_command(
    folder: Path | None,
    sure: float,
    save: Path | None,
    supplier: str,
    *,
    without_plan: bool,
    as_json: bool,
) -> None:
    """List what to order, parcel by parcel, each line with its last day."""
    from bareshell.app import ordering
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        wanted = None if without_plan else ordering.wanted_of(door)
        found = ordering.to_order(door, wanted, sure)
    if save is not None:
        from bareshell.app.order_sheets import save_order_sheets

        for written in save_order_sheets(found, supplier, save):
            click.echo(f"Written: {written}")
        return
    show(found, as_json=as_json, text=lambda: _orders(found))


@click.command("parcels")
@json_option
@click.pass_obj
def parcels_command(folder: Path | None, *, as_json: bool) -> None:
    """Weigh whether waiting to share the carriage is worth it, in money and days."""
    from bareshell.app import ordering
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        found = ordering.parcels(door)
    show(found, as_json=as_json, text=lambda: _parcels(found))


@click.command("order")
@click.argument("supplier")
@click.argument("counts", nargs=-1, required=True, metavar="NEED=COUNT...")
@click.option("--expected", default="", metavar="DAY", help="When it is expected.")
@click.option("--carriage", default="", help="Carriage of the parcel.")
@click.option("--source", default="", help="Kind of supplier, such as specialist.")
@click.option("--returns", default="", metavar="DAYS", help="For how long it is taken back.")
@click.pass_obj
def order_command(
    folder: Path | None,
    supplier: str,
    counts: tuple[str, ...],
    expected: str,
    carriage: str,
    source: str,
    returns: str,
) -> None:
    """Write a parcel down as ordered: bareshell shelf order "A shop" clips=7 split=4."""
    from bareshell.app import ordering
    from bareshell.app.door import Door
    from bareshell.app.written import Pen
    from bareshell.cli.commands.shelf_fit import pairs_of

    with Door.open(find_build(folder)) as door:
        fields = {
            "supplier": [supplier],
            "expected_on": [expected],
            "carriage": [carriage],
            "source": [source],
            "return_within_days": [returns],
        }
        needs = door.build().needs
        for key, count in pairs_of(counts):
            if key not in needs:
                from bareshell.errors import NotFound

                raise NotFound(f"there is no need '{key}'", "'bareshell shelf' lists them")
            fields[f"order-{key}"] = [count]
        click.echo(ordering.place(door, fields, Pen()).said)


@click.command("chase")
@click.option("--without-plan", is_flag=True, help="Do not wait for the plan's days.")
@json_option
@click.pass_obj
def chase_command(folder: Path | None, *, without_plan: bool, as_json: bool) -> None:
    """List whom to ask about what, and the old units that have to go back."""
    from bareshell.app import ordering
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        found = ordering.chase(door, None if without_plan else ordering.wanted_of(door))
    show(found, as_json=as_json, text=lambda: _chase(found))


@click.command("costs")
@click.option("--budget", help="Write down what it may cost in all; '' takes it away.")
@click.option("--rate", "rates", multiple=True, metavar="EUR=0.86",
              help="What one of another currency is in your own.")  # fmt: skip
@json_option
@click.pass_obj
def costs_command(
    folder: Path | None, budget: str | None, rates: tuple[str, ...], *, as_json: bool
) -> None:
    """Add up what it costs: spent, committed, to come, against a budget."""
    from bareshell.app import ordering
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    with Door.open(find_build(folder)) as door:
        said = []
        if budget is not None:
            said.append(ordering.set_budget(door, {"budget": [budget]}, Pen()).said)
        stated = (one.partition("=") for one in rates)
        found = ordering.costs(door, {currency: rate for currency, _, rate in stated})
    show(found, as_json=as_json, text=lambda: (*said, *_costs(found)))


@click.command("invoice")
@click.argument("file", type=click.File("r", encoding="utf-8"), default="-")
@click.option("--supplier", default="", help="From whom it is.")
@click.option("--rate", default="", help="What one of its currency was, such as '0.86 GBP'.")
@click.option("--keep", is_flag=True, help="Write it down as it was read.")
@json_option
@click.pass_obj
def invoice_command(
    folder: Path | None, file: TextIO, supplier: str, rate: str, *, keep: bool, as_json: bool
) -> None:
    """Read an invoice from FILE, or typed in; without --keep it is only shown."""
    from bareshell.app import invoices
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    fields = {"text": [file.read()], "supplier": [supplier], "rate": [rate]}
    with Door.open(find_build(folder)) as door:
        if keep:
            click.echo(invoices.take_in(door, fields, Pen()).said)
            return
        seen = invoices.look(door, fields)
    show(seen, as_json=as_json, text=lambda: _invoice(seen))


# --- in words --------------------------------------------------------------------------------


def _orders(found: OrderList) -> Iterable[str]:
    if not found.groups:
        yield "Nothing that was looked for is missing."
    if found.note:
        yield found.note
    for group in found.groups:
        by = f"by {group.send_by:%d %b %Y}" if group.send_by else ""
        yield heading(group.supplier or "No supplier yet", by)
        yield f"  {group.says}"
        yield f"  {_habit(group)}"
        yield from table([_line(line) for line in group.lines])
        yield ""
    if found.look_first:
        yield heading("Look for these before you order", str(len(found.look_first)))
        yield from table([_line(line) for line in found.look_first[:15]])
        if len(found.look_first) > 15:
            yield f"  and {len(found.look_first) - 15} more; --json has them all"


def _parcels(found: Parcels) -> Iterable[str]:
    if not found.parcels:
        yield "Nothing that was looked for is missing from a supplier you have named."
    for one in found.parcels:
        by = f"by {one.send_by:%d %b %Y}" if one.send_by else ""
        yield heading(one.supplier, by)
        yield f"  {one.says}"


def _habit(group: OrderGroup) -> str:
    rests = (
        f"learned from {group.learned_from} of your orders"
        if group.learned_from
        else "common practice, no source"
    )
    late = f"{group.late_share:.0%} late, by {group.late_days:.0f} days"
    return f"{group.lead_days:.0f} days from order to door, {late}; {rests}"


def _line(line: OrderLineWanted) -> tuple[str, ...]:
    by = f"by {line.order_by:%d %b}" if line.order_by else ""
    more = f"{line.spare} more: {line.why_spare}" if line.spare else ""
    asks = counted(line.questions, "question open", "questions open") if line.questions else ""
    said = "; ".join(part for part in (more, asks) if part)
    return (f"  {line.need}", f"{line.quantity} x {line.title}", by, said)


def _chase(found: ChaseList) -> Iterable[str]:
    if not found.lines:
        yield "Nobody has to be asked."
    yield from table(
        [(f"  {one.order}", one.supplier or "?", one.title, one.says) for one in found.lines]
    )
    if found.exchanges:
        yield ""
        yield heading("Old units to go back")
        yield from table([(f"  {one.order}", one.title, one.says) for one in found.exchanges])


def _costs(found: Costs) -> Iterable[str]:
    for one in found.currencies:
        yield heading(one.currency)
        yield from table(_sums(one))
    if found.together is not None:
        yield from _together(found.together)
    if found.unpriced:
        yield f"{found.unpriced} orders have no price written down."
    if found.unguessed:
        yield f"{found.unguessed} needs that are not ordered have no guess."


def _together(found: Together) -> Iterable[str]:
    yield heading(f"All of it in {found.currency}")
    if found.rates:
        yield from table(
            [
                ("  spent", str(found.spent)),
                ("  committed", str(found.committed)),
                ("  to come", _span(found.low, found.high)),
            ]
        )
    if found.rates and found.left_low is not None:
        yield f"  left of the budget  {_span(found.left_low, found.left_high)}"
    for one in found.rates:
        yield f"  at 1 {one.currency} = {one.rate} {found.currency}, stated or last charged"
    for currency in found.without_rate:
        yield f"  without {currency}: state a rate with --rate {currency}=..."


def _sums(one: CurrencyCosts) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = [
        ("  spent", str(one.spent)),
        ("  committed", str(one.committed)),
        ("  to come", _span(str(one.low), str(one.high))),
        ("  of it carriage", str(one.carriage)),
        ("  of it tax", f"{one.tax}, not known of {one.tax_unknown} lines"),
        ("  deposits to come back", str(one.deposits)),
    ]
    if one.budget is not None:
        rows.append((f"  left of {one.budget}", _span(str(one.left_low), str(one.left_high))))
    rows += [
        (
            f"  {s.system}",
            f"{s.spent} spent, {s.committed} committed, {_span(s.low, s.high)} to come",
        )
        for s in one.systems
    ]
    return rows


def _span(low: object, high: object) -> str:
    return str(low) if str(low) == str(high) else f"{low} to {high}"


def _invoice(seen: InvoicePreview) -> Iterable[str]:
    yield heading("As it was read", "nothing is kept; --keep writes it down")
    for row in seen.rows:
        price = f"  {row.line.price} {seen.currency}" if row.line.price is not None else ""
        kept = row.charged.price
        price += f", kept as {kept}" if kept is not None and kept != row.line.price else ""
        yield f"  {row.line.count} x {row.line.title}{price}"
        doubt = f"; {row.line.doubt}" if row.line.doubt else ""
        yield f"      {row.chosen}: {row.says}{doubt}"
    for typed in seen.not_understood:
        yield f"  not understood: {typed}"
    yield from _invoice_sums(seen)
    if seen.doubt:
        yield f"  {seen.doubt}"


def _invoice_sums(seen: InvoicePreview) -> Iterable[str]:
    on_top = "on top, shared over the lines" if seen.tax_on_top else "within the prices"
    for amount, what in (
        (seen.discount, "off, shared over the lines"),
        (seen.credits, "paid back for something else; not kept: write it on its own order"),
        (seen.carriage, "carriage"),
        (seen.tax, f"tax, {on_top}"),
        (seen.total, "in all, as the invoice says"),
    ):
        if amount is not None:
            yield f"  {amount} {seen.currency} {what}"
