"""``bareshell shelf expect|paid|returned``: what happens to an order besides coming."""

from __future__ import annotations

from pathlib import Path

import click

from bareshell.cli.common import find_build

STEPS = ("proved", "photographed", "measured", "old-unit", "wrong-goods")


@click.command("expect")
@click.argument("order_id")
@click.argument("day", default="")
@click.option("--words", default="", help="What was said.")
@click.option("--cancelled", is_flag=True, help="It is not coming any more.")
@click.pass_obj
def expect_command(
    folder: Path | None, order_id: str, day: str, words: str, *, cancelled: bool
) -> None:
    """Write down another DAY for an order; without one, nobody knows when."""
    from bareshell.app import parts_desk
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    with Door.open(find_build(folder)) as door:
        if cancelled:
            said = parts_desk.cancel_order(door, order_id, {"words": [words]}, Pen())
        else:
            fields = {"expected_on": [day], "words": [words]}
            said = parts_desk.expect_order(door, order_id, fields, Pen())
        click.echo(said.said)


@click.command("paid")
@click.argument("order_id")
@click.option("--price", default="", help="For all of it, such as '12.50' or '12,50 EUR'.")
@click.option("--rate", default="", help="What one of its currency was, such as '0.86 GBP'.")
@click.option("--on", "day", default="", metavar="DAY", help="When, if not today.")
@click.pass_obj
def paid_command(folder: Path | None, order_id: str, price: str, rate: str, day: str) -> None:
    """Write down that an order was paid, with its price where that was not known."""
    from bareshell.app import ordering
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    with Door.open(find_build(folder)) as door:
        fields = {"price": [price], "rate": [rate], "paid_on": [day]}
        click.echo(ordering.paid(door, order_id, fields, Pen()).said)


@click.command("returned")
@click.argument("order_id")
@click.argument("what", type=click.Choice(STEPS))
@click.option("--on", "day", default="", metavar="DAY", help="When, if not today.")
@click.pass_obj
def returned_command(folder: Path | None, order_id: str, what: str, day: str) -> None:
    """Write down a step of sending back: an old unit, or what came wrong.

    Before an old unit goes back the new one is proved on the bench, and the old one photographed
    and measured: proved, photographed, measured, then old-unit. What came wrong: wrong-goods.
    """
    from bareshell.app import ordering, parts_desk
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    with Door.open(find_build(folder)) as door:
        if what == "old-unit":
            fields = {"returned_on": [day]}
            said = parts_desk.return_exchange(door, order_id, fields, Pen())
        elif what == "wrong-goods":
            said = ordering.sent_back(door, order_id, {"sent_back_on": [day]}, Pen())
        else:
            said = ordering.exchange_step(door, order_id, what, {"day": [day]}, Pen())
        click.echo(said.said)
