"""What a delivery does to the plan, in sentences: what it frees, what goes on waiting, what to do.

The plan itself is made anew from the record whenever it is looked at; these are the sentences that
a person wants at the bench, with the box still in hand.
"""

from __future__ import annotations

from datetime import date, timedelta

from bareshell.model import Build
from bareshell.model.network import predecessors
from bareshell.model.part import GoodsIn, OrderRecord
from bareshell.whole.kits import KitWord, kit_words

__all__ = ["effect_of_goods"]


def effect_of_goods(before: Build, after: Build, order_id: str, today: date) -> tuple[str, ...]:
    """Say what the last delivery on an order changed.

    Parameters
    ----------
    before, after : Build
        The build without and with the delivery.
    order_id : str
        The order line.
    today : date
        The owner's day.
    """
    record = after.orders[order_id]
    outcome = record.deliveries[-1].outcome
    said = [_left(record)]
    if outcome in (GoodsIn.WRONG, GoodsIn.DAMAGED):
        said.append(_send_back(record, today))
    if outcome is GoodsIn.UNLIKE:
        said.append("Write down the departure from standard on the Car page.")
    said += [_job(before, after, record), _exchange(record, today)]
    return tuple(sentence for sentence in said if sentence)


def _left(record: OrderRecord) -> str:
    left = record.outstanding
    more = sum(one.usable for one in record.deliveries) - record.line.quantity
    if more > 0:
        return f"{more} more came than were ordered: keep them as spares, or send them back."
    if not left:
        return "Nothing of it is outstanding."
    due = record.line.expected_on
    if record.gone_wrong or due is None:
        return f"{left} still to come: ask when, and write the day down."
    return f"{left} still to come, expected {due.day} {due:%B}."


def _send_back(record: OrderRecord, today: date) -> str:
    within = record.line.return_within_days
    if within is None:
        return "Ask by when it must go back, and photograph it before it does."
    last = today + timedelta(days=within)
    return f"It must go back by {last.day} {last:%B}: photograph it first."


def _job(before: Build, after: Build, record: OrderRecord) -> str:
    need = after.needs.get(record.line.need or "")
    if need is None or need.job not in after.jobs:
        return ""
    title = after.jobs[need.job].job.title
    was, now = kit_words(before).get(need.job, ""), kit_words(after).get(need.job, "")
    if not now:
        return ""
    held = _holds_up(after, need.job)
    if now == KitWord.TO_START:
        behind = f", and {held} after it" if held else ""
        return f"'{title}' still waits to start{behind}."
    if was == KitWord.TO_START:
        return f"'{title}' can start now, as far as its parts go."
    if now == KitWord.COMPLETE:
        return f"The kit of '{title}' is complete."
    return f"'{title}' can go on; it is short to finish." if now == KitWord.TO_FINISH else ""


def _holds_up(build: Build, job: str) -> int:
    """How many open jobs come after one, however far."""
    after: dict[str, list[str]] = {}
    for key, before in predecessors(build).items():
        for one in before:
            after.setdefault(one, []).append(key)
    seen: set[str] = set()
    stack = [job]
    while stack:
        for key in after.get(stack.pop(), ()):
            if key not in seen and build.jobs[key].state.is_open:
                seen.add(key)
                stack.append(key)
    return len(seen)


def _exchange(record: OrderRecord, today: date) -> str:
    exchange = record.line.exchange
    if exchange is None or exchange.return_by is None or exchange.returned_on is not None:
        return ""
    left = (exchange.return_by - today).days
    return (
        f"The old unit goes back within {max(0, left)} days: prove the new one on the bench, "
        "photograph and measure the old one first."
    )
