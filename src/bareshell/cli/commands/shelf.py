"""``bareshell shelf``: the parts desk."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.commands.shelf_fit import (
    away_command,
    back_command,
    fit_command,
    kit_command,
    pick_command,
    send_command,
    sizes_command,
    use_command,
)
from bareshell.cli.commands.shelf_order_steps import (
    expect_command,
    paid_command,
    returned_command,
)
from bareshell.cli.commands.shelf_orders import (
    chase_command,
    costs_command,
    invoice_command,
    order_command,
    order_list_command,
    parcels_command,
)
from bareshell.cli.commands.shelf_typed import (
    fields_command,
    holding_command,
    line_command,
    need_command,
)
from bareshell.cli.common import build_option, find_build, heading, json_option, show, table

if TYPE_CHECKING:
    from bareshell.whole.shelf_overview import ComingView, NeedView, ShelfOverview


@click.group("shelf", invoke_without_command=True)
@build_option
@json_option
@click.option("--all", "everything", is_flag=True, help="Also what is here, and all holdings.")
@click.pass_context
def shelf_command(
    ctx: click.Context, folder: Path | None, *, as_json: bool, everything: bool
) -> None:
    """Show what is short, coming and to look for; or write down goods-in and finds."""
    ctx.obj = folder
    if ctx.invoked_subcommand is not None:
        return
    from bareshell.app import reading
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        overview = reading.shelf(door)
    show(overview, as_json=as_json, text=lambda: _text(overview, everything=everything))


@shelf_command.command("goods-in")
@click.argument("order_id")
@click.argument(
    "outcome",
    metavar="OUTCOME",
    type=click.Choice(["right", "wrong", "short", "damaged", "unlike"]),
)
@click.option("--quantity", "-n", type=int, help="How many came; else all outstanding.")
@click.option("--where", default="", help="The shelf or bin it was put in.")
@click.option("--words", default="")
@click.option("--without-plan", is_flag=True, help="Do not reckon what it does to the plan.")
@click.pass_obj
def goods_in(
    folder: Path | None,
    order_id: str,
    outcome: str,
    quantity: int | None,
    where: str,
    words: str,
    *,
    without_plan: bool,
) -> None:
    """Check a delivery in, and say what it does to the plan.

    OUTCOME is one of: right, wrong, short, damaged, unlike (right, but not like the car's own).
    """
    from bareshell.app.door import Door
    from bareshell.app.goods_in import check_in, goods_plan
    from bareshell.model.part import GoodsIn

    kind = GoodsIn.UNLIKE if outcome == "unlike" else GoodsIn(outcome)
    with Door.open(find_build(folder)) as door:
        for sentence in check_in(door, order_id, kind, quantity, where, words).words:
            click.echo(sentence)
        if not without_plan:
            _said(goods_plan(door, order_id).says)


@shelf_command.command("came")
@click.argument("order_id")
@json_option
@click.pass_obj
def came(folder: Path | None, order_id: str, *, as_json: bool) -> None:
    """Say what the last delivery on an order did to the plan."""
    from bareshell.app.door import Door
    from bareshell.app.goods_in import goods_plan

    with Door.open(find_build(folder)) as door:
        found = goods_plan(door, order_id)
    head = heading(found.title, f"{found.quantity} {found.outcome}")
    show(found, as_json=as_json, text=lambda: (head, *found.says))


def _said(sentences: Iterable[str]) -> None:
    for sentence in sentences:
        click.echo(sentence)


@shelf_command.command("here")
@click.argument("need_id")
@click.option("--quantity", "-n", type=int, help="How many; else as many as are wanted.")
@click.option("--where", default="", help="The shelf or bin it lies in.")
@click.pass_obj
def here(folder: Path | None, need_id: str, quantity: int | None, where: str) -> None:
    """Write down that what a job wants was found, and where it lies."""
    from bareshell.app.door import Door
    from bareshell.app.shelving import found

    with Door.open(find_build(folder)) as door:
        click.echo(found(door, need_id, quantity, where).said)


@shelf_command.command("not-here")
@click.argument("need_ids", metavar="NEED_ID...", nargs=-1, required=True)
@click.option("--words", default="")
@click.pass_obj
def not_here(folder: Path | None, need_ids: tuple[str, ...], words: str) -> None:
    """Write down that things were looked for and are not here; the plan answers at once."""
    from bareshell.app.door import Door
    from bareshell.model.changes import NeedNotHere

    with Door.open(find_build(folder)) as door:
        door.record([NeedNotHere(key, words) for key in dict.fromkeys(need_ids)])
        needs = door.build().needs
    for key in dict.fromkeys(need_ids):
        click.echo(f"{needs[key].title} is not here. Order it, or choose another job tonight.")


def _text(overview: ShelfOverview, *, everything: bool) -> Iterable[str]:
    open_needs = [need for need in overview.needs if need.open]
    yield heading("Coming", str(len(overview.coming)))
    yield from table([_coming(view) for view in overview.coming])
    yield ""
    for state in ("came wrong", "not here", "some here", "not known", "here"):
        if state == "here" and not everything:
            continue
        views = [need for need in open_needs if need.state == state]
        if not views:
            continue
        said = "Not known: look for it" if state == "not known" else state.capitalize()
        yield heading(said, str(len(views)))
        shown = views if everything or state != "not known" else views[:15]
        yield from table([_need(view) for view in shown])
        if len(shown) < len(views):
            yield f"  and {len(views) - len(shown)} more; --all shows them"
        yield ""
    if everything:
        yield heading("On the shelf", str(len(overview.holdings)))
        yield from table(
            [
                (f"  {h.id}", f"{h.quantity} x {h.title}", h.size, h.away or h.where)
                for h in overview.holdings
            ]
        )


def _need(view: NeedView) -> tuple[str, ...]:
    return (f"  {view.id}", f"{view.quantity} x {view.title}", view.size, f"for {view.job_title}")


def _coming(view: ComingView) -> tuple[str, ...]:
    due = f"{view.expected_on:%d %b %Y}" if view.expected_on else "nobody knows when"
    if view.overdue_days:
        due += f", {view.overdue_days} days late"
    if view.return_days is not None:
        due += f"; old unit back in {view.return_days} days"
    return (f"  {view.id}", f"{view.outstanding} x {view.title}", view.state, due)


for _command in (
    need_command,
    holding_command,
    line_command,
    fields_command,
    fit_command,
    use_command,
    sizes_command,
    kit_command,
    pick_command,
    away_command,
    send_command,
    back_command,
    order_list_command,
    parcels_command,
    order_command,
    expect_command,
    paid_command,
    returned_command,
    chase_command,
    costs_command,
    invoice_command,
):
    shelf_command.add_command(_command)
