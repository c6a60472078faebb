"""The parts desk: what jobs want, what lies on the shelf, what is coming, what came."""

from __future__ import annotations

from dataclasses import replace

from bareshell.app.door import Door
from bareshell.app.duty_forms import lay_duty, read_duty
from bareshell.app.filled import Fields, Filled
from bareshell.app.goods_in import check_in
from bareshell.app.money_forms import currency_of, lay_money, read_guess, read_money, read_rate
from bareshell.app.shelving import found
from bareshell.app.spec_forms import lay_spec, read_spec, spec_doubts
from bareshell.app.written import (
    Pen,
    Written,
    filled,
    new_key,
    resolve,
    said_before,
    write_down,
)
from bareshell.errors import NotFound
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.part import (
    Exchange,
    GoodsIn,
    Holding,
    Need,
    NeededTo,
    OrderLine,
    OrderRecord,
    SourceClass,
)
from bareshell.model.standing import need_standings
from bareshell.model.trust import YOURS, Trust
from bareshell.whole.garage_time import zone_of

Laid = dict[str, tuple[str, ...]]


# --- needs -----------------------------------------------------------------------------------


def lay_need(need: Need, build: Build) -> Laid:
    """Lay a need out as the fields of a form."""
    job = build.jobs.get(need.job)
    return {
        "title": (need.title,),
        "job": (job.job.title if job else need.job,),
        "quantity": (str(need.quantity),),
        "needed_to": (str(need.needed_to),),
        "bag": (need.bag,),
        "fixing": ("yes",) if need.fixing else (),
        "note": (need.note,),
        "guess_low": (lay_money(need.guess.low if need.guess else None),),
        "guess_high": (lay_money(need.guess.high if need.guess else None),),
        "currency": (need.guess.low.currency if need.guess else currency_of(build),),
        **lay_spec(need.spec),
        **lay_duty(need.duty),
    }


def set_need(door: Door, need_id: str | None, fields: Fields, pen: Pen) -> Written:
    """Add what a job wants, or correct it."""
    form, build = filled(door, fields), door.build()
    old = need_of(door, need_id) if need_id is not None else None
    title = form.text("title", "what is wanted")
    key = need_id or new_key(door, "need", title, build.needs, pen.entry_id)
    titles = {k: r.job.title for k, r in build.jobs.items()}
    job = resolve(form, form.text("job"), "for the job", titles, "job")
    quantity = form.whole("quantity", "how many", 1)
    spec, duty, guess = read_spec(form), read_duty(form, build), read_guess(form, build)
    need = form.make(
        "need",
        lambda: Need(
            id=key,
            title=title,
            job=job or "",
            quantity=quantity or 1,
            needed_to=form.choice("needed_to", "needed", NeededTo, NeededTo.FINISH),
            spec=spec,
            bag=form.text("bag"),
            fixing=form.tick("fixing"),
            mark=old.mark if old and old.spec == spec else YOURS,
            note=form.text("note"),
            duty=duty,
            guess=guess,
        ),
    )
    form.check()
    said = (f"'{title}' is wanted for '{titles[need.job]}'.", *spec_doubts(spec))
    return write_down(door, c.NeedSet(need), pen, lambda: said)


def drop_need(door: Door, need_id: str, pen: Pen) -> Written:
    """Write down that a job does not want something after all."""
    if before := said_before(door, f"need:{need_id}", pen):
        return before
    title = need_of(door, need_id).title
    return write_down(door, c.NeedDropped(need_id), pen, f"'{title}' is not wanted any more.")


def need_here(door: Door, need_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that what a job wants was found here."""
    need_of(door, need_id)
    form = filled(door, fields)
    quantity = form.whole("quantity", "how many")
    form.check()
    return found(door, need_id, quantity, form.text("where"), pen, field="how many")


def need_not_here(door: Door, need_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that it was looked for and is not here."""
    need, words = need_of(door, need_id), filled(door, fields).text("words")
    said = f"'{need.title}' was looked for and is not here."
    return write_down(door, c.NeedNotHere(need_id, words), pen, said)


def need_of(door: Door, need_id: str) -> Need:
    """Return a need of the build, or say that there is none."""
    needs = door.build().needs
    if need_id not in needs:
        raise NotFound(f"there is no need '{need_id}'", "look for it on the shelf page")
    return needs[need_id]


# --- holdings --------------------------------------------------------------------------------


def lay_holding(holding: Holding, build: Build) -> Laid:
    """Lay what is on the shelf out as the fields of a form."""
    need = build.needs.get(holding.need) if holding.need else None
    return {
        "title": (holding.title,),
        "quantity": (str(holding.quantity),),
        "need": (need_name(build, need.id) if need else "",),
        "where": (holding.where,),
        "trust": (str(holding.trust),),
        "condition": (holding.condition,),
        "unlike": ("yes",) if holding.unlike else (),
        "away": (holding.away,),
        "note": (holding.note,),
        **lay_spec(holding.spec),
    }


def set_holding(door: Door, holding_id: str | None, fields: Fields, pen: Pen) -> Written:
    """Put something on the shelf, or correct what lies there: how many, where, as measured."""
    form, build = filled(door, fields), door.build()
    if holding_id is not None:
        holding_of(door, holding_id)
    title = form.text("title", "what it is")
    key = holding_id or new_key(door, "holding", title, build.holdings, pen.entry_id)
    need = _need(form, build)
    quantity = form.whole("quantity", "how many")
    if quantity is None and not form.has("quantity"):
        form.wrong("how many", "it is empty", "count them; 0 when they are used up")
    spec = read_spec(form)
    holding = form.make(
        "holding",
        lambda: Holding(
            id=key,
            title=title,
            quantity=quantity or 0,
            spec=spec,
            need=need,
            where=form.text("where"),
            trust=form.choice("trust", "how the sizes are known", Trust, Trust.ASSUMED),
            condition=form.text("condition"),
            unlike=form.tick("unlike"),
            away=form.text("away"),
            note=form.text("note"),
        ),
    )
    form.check()
    place = f" in {holding.where}" if holding.where else ""
    said = (f"{holding.quantity} x {title}{place}.", *spec_doubts(spec))
    return write_down(door, c.HoldingSet(holding), pen, lambda: said)


def move_holding(door: Door, holding_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down another place, and how many lie there now."""
    holding, form = holding_of(door, holding_id), filled(door, fields)
    quantity = form.whole("quantity", "how many")
    form.check()
    where = form.text("where")
    moved = replace(
        holding, where=where, quantity=holding.quantity if quantity is None else quantity
    )
    place = f" in {where}" if where else ", no place noted"
    said = f"{moved.quantity} x {holding.title}{place}."
    return write_down(door, c.HoldingSet(moved), pen, said)


def drop_holding(door: Door, holding_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that it is on the shelf no longer."""
    if before := said_before(door, f"holding:{holding_id}", pen):
        return before
    title = holding_of(door, holding_id).title
    words = filled(door, fields).text("words")
    said = f"'{title}' is on the shelf no longer."
    return write_down(door, c.HoldingDropped(holding_id, words), pen, said)


def holding_of(door: Door, holding_id: str) -> Holding:
    """Return a holding of the build, or say that there is none."""
    holdings = door.build().holdings
    if holding_id not in holdings:
        raise NotFound(f"there is no holding '{holding_id}'", "look for it on the shelf page")
    return holdings[holding_id]


# --- orders ----------------------------------------------------------------------------------


def lay_order(line: OrderLine, build: Build) -> Laid:
    """Lay an order line out as the fields of a form."""
    exchange = line.exchange
    deposit = exchange.deposit if exchange else None
    return {
        "title": (line.title,),
        "need": (need_name(build, line.need) if line.need else "",),
        "quantity": (str(line.quantity),),
        "supplier": (line.supplier,),
        "source": (str(line.source),),
        "ordered_on": (line.ordered_on.isoformat() if line.ordered_on else "",),
        "expected_on": (line.expected_on.isoformat() if line.expected_on else "",),
        "price": (lay_money(line.price),),
        "currency": (line.price.currency if line.price else currency_of(build),),
        "tax": (_lay_tax(line),),
        "rate": (f"{lay_money(line.rate)} {line.rate.currency}" if line.rate else "",),
        "carriage": (lay_money(line.carriage),),
        "batch": (line.batch,),
        "paid_on": (line.paid_on.isoformat() if line.paid_on else "",),
        "return_within_days": (
            str(line.return_within_days) if line.return_within_days is not None else "",
        ),
        "return_by": (exchange.return_by.isoformat() if exchange and exchange.return_by else "",),
        "deposit": (lay_money(deposit),),
        "note": (line.note,),
        **lay_spec(line.spec),
    }


def _lay_tax(line: OrderLine) -> str:
    """Lay the tax out; with its currency where that is not the price's."""
    if line.tax and line.price and line.tax.currency != line.price.currency:
        return f"{lay_money(line.tax)} {line.tax.currency}"
    return lay_money(line.tax)


def lay_new_order(door: Door, need_id: str = "") -> Laid:
    """Lay out an order to be written: ordered today and, where a need is named, for that."""
    build = door.build()
    today = door.now().astimezone(zone_of(build)).date()
    if need_id not in build.needs:
        return lay_order(OrderLine("new", "", ordered_on=today), build)
    need, standing = build.needs[need_id], need_standings(build)[need_id]
    missing = max(1, need.quantity - standing.here - standing.coming)
    line = OrderLine(
        "new", need.title, need_id, missing, ordered_on=today, spec=need.spec, note=need.note
    )
    return lay_order(line, build)


def set_order(door: Door, order_id: str | None, fields: Fields, pen: Pen) -> Written:
    """Write an order line down, or correct it."""
    form, build = filled(door, fields), door.build()
    old = order_of(door, order_id).line if order_id is not None else None
    title = form.text("title", "what is ordered")
    key = order_id or new_key(door, "order", title, build.orders, pen.entry_id)
    need = _need(form, build)
    quantity = form.whole("quantity", "how many", 1)
    ordered_on = form.day("ordered_on", "ordered on", towards="past")
    expected_on = form.day("expected_on", "expected on")
    price, spec = read_money(form, build, "price"), read_spec(form)
    carriage = read_money(form, build, "carriage")
    tax = read_money(form, build, "tax", any_currency=True)
    rate = read_rate(form, build)
    paid_on = form.day("paid_on", "paid on", towards="past")
    within = form.whole("return_within_days", "taken back within", 0, 1000)
    exchange = _exchange(form, build, old.exchange if old else None)
    line = form.make(
        "order",
        lambda: OrderLine(
            id=key,
            title=title,
            need=need,
            quantity=quantity or 1,
            supplier=form.text("supplier"),
            source=form.choice("source", "kind of supplier", SourceClass, SourceClass.GENERAL),
            ordered_on=ordered_on,
            expected_on=expected_on,
            price=price,
            exchange=exchange,
            spec=spec,
            note=form.text("note"),
            batch=form.text("batch"),
            sent=old.sent if old else "",
            carriage=carriage,
            tax=tax,
            paid_on=paid_on,
            return_within_days=within,
            sent_back_on=old.sent_back_on if old else None,
            rate=rate,
        ),
    )
    form.check()
    said = (f"The order of '{title}' is written down.", *spec_doubts(spec))
    return write_down(door, c.OrderSet(line), pen, lambda: said)


def check_goods(door: Door, order_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down what a delivery turned out to be: one of the five outcomes.

    Raises
    ------
    BadInput
        When no outcome was chosen, or so many cannot be short.
    """
    order_of(door, order_id)
    form = filled(door, fields)
    if not form.has("outcome"):
        form.wrong("what it is", "nothing is chosen", "put it beside the old part, then choose")
    outcome = form.choice("outcome", "what it is", GoodsIn, GoodsIn.RIGHT)
    quantity = form.whole("quantity", "how many came")
    when = form.moment("when", "when")
    form.check()
    where, words = form.text("where"), form.text("words")
    return check_in(door, order_id, outcome, quantity, where, words, pen=pen, happened_at=when)


def expect_order(door: Door, order_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down a new day on which an order is expected; empty when nobody knows."""
    record, form = order_of(door, order_id), filled(door, fields)
    day = form.day("expected_on", "expected on")
    form.check()
    when = f"on {day.day} {day:%B %Y}" if day else "nobody knows when"
    said = f"'{record.line.title}' is now expected {when}."
    return write_down(door, c.OrderExpected(order_id, day, form.text("words")), pen, said)


def cancel_order(door: Door, order_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that an order was cancelled."""
    title, words = order_of(door, order_id).line.title, filled(door, fields).text("words")
    said = f"The order of '{title}' is cancelled."
    return write_down(door, c.OrderCancelled(order_id, words), pen, said)


def return_exchange(door: Door, order_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that the old unit of an exchange went back."""
    record, form = order_of(door, order_id), filled(door, fields)
    day = form.day("returned_on", "went back on", towards="past") or form.today
    form.check()
    said = f"The old unit for '{record.line.title}' went back on {day.day} {day:%B %Y}."
    return write_down(door, c.ExchangeReturned(order_id, day), pen, said)


def order_of(door: Door, order_id: str) -> OrderRecord:
    """Return an order of the build, or say that there is none."""
    orders = door.build().orders
    if order_id not in orders:
        raise NotFound(f"there is no order '{order_id}'", "look for it on the shelf page")
    return orders[order_id]


# --- pieces ----------------------------------------------------------------------------------


def need_name(build: Build, need_id: str) -> str:
    """Name a need so that it can be told from others of its title."""
    need = build.needs.get(need_id)
    if need is None:
        return need_id
    same = sum(1 for other in build.needs.values() if other.title == need.title)
    return need.title if same == 1 else need_id


def _need(form: Filled, build: Build) -> str | None:
    said = form.text("need")
    if not said:
        return None
    return resolve(form, said, "for what is wanted", _need_titles(build), "need")


def _need_titles(build: Build) -> dict[str, str]:
    return {key: need.title for key, need in build.needs.items()}


def _exchange(form: Filled, build: Build, old: Exchange | None) -> Exchange | None:
    return_by = form.day("return_by", "old unit back by")
    deposit = read_money(form, build, "deposit")
    if return_by is None and deposit is None:
        return None
    return replace(old or Exchange(), return_by=return_by, deposit=deposit)
