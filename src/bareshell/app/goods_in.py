"""Checking a delivery in: one way, for the pages and the command line."""

from __future__ import annotations

from datetime import datetime
from typing import Final

from bareshell.app.door import Door
from bareshell.app.written import Pen, Written, write_down
from bareshell.errors import NotFound
from bareshell.model import fold
from bareshell.model.changes import GoodsChecked
from bareshell.model.part import GoodsIn
from bareshell.whole.garage_time import zone_of
from bareshell.whole.goods_effect import effect_of_goods
from bareshell.whole.goods_plan import GoodsPlan

OUTCOMES: Final = {
    GoodsIn.RIGHT: "as ordered, compared with the old part",
    GoodsIn.WRONG: "not what was ordered, or the wrong hand",
    GoodsIn.SHORT: "fewer than ordered",
    GoodsIn.DAMAGED: "keep the packing, photograph it",
    GoodsIn.UNLIKE: "it fits, but the car becomes a departure from standard",
}
"""The five outcomes of checking a delivery, and what each means."""


def check_in(
    door: Door,
    order_id: str,
    outcome: GoodsIn,
    quantity: int | None = None,
    where: str = "",
    words: str = "",
    *,
    pen: Pen | None = None,
    happened_at: datetime | None = None,
) -> Written:
    """Write down what a delivery turned out to be, and say what that does to the plan.

    Parameters
    ----------
    door : Door
        The build.
    order_id : str
        The order line it came on.
    outcome : GoodsIn
        One of the five.
    quantity : int or None
        How many came; None for all that is outstanding.
    where, words : str
        Where it was put, and what was seen.
    pen : Pen or None
        Who writes.
    happened_at : datetime or None
        When, if not now.

    Raises
    ------
    NotFound
        When there is no such order.
    BadInput
        When none came, or so many cannot be short.
    """
    pen, before = pen or Pen(), door.build()
    if order_id not in before.orders:
        raise NotFound(f"there is no order '{order_id}'", "'bareshell shelf' lists them")
    record = before.orders[order_id]
    if quantity is None:
        quantity = _came(door, order_id, pen) or max(1, record.outstanding)
    change = GoodsChecked(order_id, outcome, quantity, where, words)
    today = door.now().astimezone(zone_of(before)).date()

    def said() -> tuple[str, ...]:
        head = f"'{record.line.title}': {quantity} {outcome}."
        return (head, *effect_of_goods(before, door.build(), order_id, today))

    return write_down(door, change, pen, said, happened_at=happened_at)


def _came(door: Door, order_id: str, pen: Pen) -> int | None:
    """How many this very form said before, when it is sent again."""
    for entry in door.entries(subject=f"order:{order_id}"):
        if entry.id == pen.entry_id and isinstance(entry.change, GoodsChecked):
            return entry.change.quantity
    return None


def goods_plan(door: Door, order_id: str) -> GoodsPlan:
    """Reckon what the last delivery on an order did to the plan, on the evening it was checked in.

    Parameters
    ----------
    door : Door
        The build.
    order_id : str
        The order.

    Raises
    ------
    NotFound
        When there is no such order, or nothing of it came.
    Unchecked
        When the checker finds either plan to break a rule; it is not shown.
    """
    from bareshell.app.following import rule_to_follow
    from bareshell.app.tonight import SEED, is_set_up, only_checked
    from bareshell.plan.asitis import AsItIs
    from bareshell.plan.side_by_side import side_by_side
    from bareshell.whole import goods_plan as reckoned
    from bareshell.whole.plan_problem import plan_question

    orders = door.build().orders
    if order_id not in orders:
        raise NotFound(f"there is no order '{order_id}'", "'bareshell shelf' lists them")
    if not orders[order_id].deliveries:
        raise NotFound(f"nothing of '{orders[order_id].line.title}' came yet", "check it in first")
    seq = orders[order_id].deliveries[-1].seq
    entries = door.entries(before=seq + 1)
    before, after = fold(entries[:-1]), fold(entries)
    # As it was on that evening, so that the answer is the same whenever it is asked for.
    now = entries[-1].recorded_at.replace(second=0, microsecond=0)
    without, with_it = (plan_question(build, now).problem for build in (before, after))
    both = side_by_side(
        without,
        with_it,
        AsItIs(already_set_up=is_set_up(before, without, now)),
        seed=SEED,
        policy=rule_to_follow(before, without, now, seed=SEED),
    )
    only_checked((*both.before.violations, *both.after.violations))
    return reckoned.goods_plan(after, order_id, now, both)
