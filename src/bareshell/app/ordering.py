"""Ordering: what by when from whom, whom to ask, what it costs, and the old units that go back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal, InvalidOperation
from typing import Final

from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.app.money_forms import currency_of, read_money, read_rate
from bareshell.app.parts_desk import order_of
from bareshell.app.shelving import sent_before
from bareshell.app.written import Pen, Written, filled, slug, write_down
from bareshell.errors import BadInput, Refused
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.part import Exchange, GoodsIn, OrderLine, SourceClass
from bareshell.whole.chase import ChaseList, chase_list
from bareshell.whole.costs import Costs
from bareshell.whole.costs import costs as _costs
from bareshell.whole.garage_time import zone_of
from bareshell.whole.last_days import Sources
from bareshell.whole.order_list import CONFIDENCE, OrderList, order_list
from bareshell.whole.parcels import WAITS_DAYS, Parcels, kept_open
from bareshell.whole.parcels import parcels as _parcels
from bareshell.whole.road_parts import RoadOverview
from bareshell.whole.wanted_days import WantedDays, wanted_days

CONFIDENCES: Final = (0.5, 0.8, 0.9, 0.95)
"""What may be chosen: half, eight in ten, nine in ten, nineteen in twenty."""

STEPS: Final = {
    "proved": ("proved_on", "the new one was proved on the bench"),
    "photographed": ("photographed_on", "the old one was photographed"),
    "measured": ("measured_on", "the old one was measured"),
}
"""What is done before an old unit goes back, with the field that keeps its day."""


def wanted_of(door: Door, road: RoadOverview | None = None) -> WantedDays:
    """Read off the plan when each part is wanted; the road is planned where none is given."""
    if road is None:
        from bareshell.app.road import road as plan

        road = plan(door)
    return wanted_days(door.build(), road)


def to_order(door: Door, wanted: WantedDays | None, confidence: float = CONFIDENCE) -> OrderList:
    """List what to order, parcel by parcel.

    Parameters
    ----------
    door : Door
        The build.
    wanted : WantedDays or None
        When the plan wants each part; None while there is no plan.
    confidence : float
        The share of such orders that is to be here in time. [-]

    Raises
    ------
    BadInput
        When the confidence is no share that a plan can be made for.
    """
    if not 0.0 < confidence < 1.0:
        raise BadInput("confidence", f"{confidence:g} is no share", "give 0.9 for nine in ten")
    build, now = door.build(), door.now()
    today = now.astimezone(zone_of(build)).date()
    return order_list(build, now, today, wanted, confidence=confidence)


def parcels(door: Door, wanted: WantedDays | None = None) -> Parcels:
    """Weigh for each supplier whether waiting to share the carriage is worth it.

    Parameters
    ----------
    door : Door
        The build.
    wanted : WantedDays or None
        When the plan wants each part; it is planned where none is given.
    """
    from bareshell.app.following import rule_to_follow
    from bareshell.app.tonight import SEED
    from bareshell.plan.side_by_side import SAMPLES, gains
    from bareshell.whole.plan_problem import plan_question

    build = door.build()
    found = to_order(door, wanted if wanted is not None else wanted_of(door))
    now = door.now().replace(second=0, microsecond=0)
    problem = plan_question(build, now).problem
    named = [group for group in found.groups if group.supplier]
    tried = [kept_open(problem, group, days) for group in named for days in WAITS_DAYS]
    each = gains(problem, tried, seed=SEED, policy=rule_to_follow(build, problem, now, seed=SEED))
    many = len(WAITS_DAYS)
    sources = Sources(build)
    return _parcels(
        build,
        found,
        [sources.of(build.needs[line.need]) for line in found.look_first],
        [each[at * many : (at + 1) * many] for at in range(len(named))],
        SAMPLES,
    )


def chase(door: Door, wanted: WantedDays | None) -> ChaseList:
    """List whom to ask about what, and the old units that have to go back."""
    build, now = door.build(), door.now()
    return chase_list(build, now, now.astimezone(zone_of(build)).date(), wanted)


def costs(door: Door, rates: Mapping[str, str] | None = None) -> Costs:
    """Add up what it costs.

    Parameters
    ----------
    door : Door
        The build.
    rates : mapping of str to str, optional
        By currency, what one of it is in the owner's own, as typed: ``0.86``. It goes before what
        orders say, save for those orders themselves.

    Raises
    ------
    BadInput
        When a rate is none.
    """
    build = door.build()
    return _costs(build, door.now(), _rates(build, rates or {}))


def _rates(build: Build, typed: Mapping[str, str]) -> dict[str, Decimal]:
    """Read rates as they are stated."""
    found = {}
    own = currency_of(build)
    for said, rate in typed.items():
        currency = said.strip().upper()
        if len(currency) != 3 or not (currency.isalpha() and currency.isascii()):
            raise BadInput("currency", f"'{said}' is none", "write it as EUR=0.86")
        try:
            number = Decimal(rate.strip().replace(",", "."))
        except InvalidOperation:
            number = Decimal(0)
        if not number.is_finite() or not Decimal("1e-6") <= number <= Decimal("1e6"):
            remedy = f"write what one {currency} is in {own}, such as 0.86"
            raise BadInput(f"rate of {currency}", f"'{rate}' is none", remedy)
        found[currency] = number
    return found


def set_budget(door: Door, fields: Fields, pen: Pen) -> Written:
    """Write down what it may cost in all; an empty field takes the budget away.

    Raises
    ------
    Refused
        When the car itself was not described yet.
    """
    form, build = filled(door, fields), door.build()
    budget = read_money(form, build, "budget", "budget")
    form.check()
    if build.car is None:
        raise Refused("budget", "the car is not described yet", "describe it on the Car page")
    said = (
        f"The budget is {budget.amount:f} {budget.currency}." if budget else "There is no budget."
    )
    return write_down(door, c.CarDescribed(replace(build.car, budget=budget)), pen, said)


# --- sending orders out ----------------------------------------------------------------------


def place(door: Door, fields: Fields, pen: Pen) -> Written:
    """Write a parcel of the order list down as ordered.

    The quantities are in ``order-`` and the need's id; lines without one are left out.

    Raises
    ------
    BadInput
        When nobody is named, or nothing is ordered.
    """
    if before := sent_before(door, pen, "parcel:"):
        return before
    form, build = filled(door, fields), door.build()
    supplier = form.text("supplier", "supplier")
    source = form.choice("source", "kind of supplier", SourceClass, SourceClass.GENERAL)
    expected = form.day("expected_on", "expected on")
    carriage = read_money(form, build, "carriage", "carriage of the parcel")
    within = form.whole("return_within_days", "taken back within", 0, 1000)
    counts = _counts(form, fields, build)
    if not counts:
        form.wrong("what is ordered", "nothing is chosen", "write how many of each")
    form.check()
    batch = _batch(build, f"{supplier} {form.today}")
    changes = [
        c.OrderSet(
            OrderLine(
                f"{batch}.{number}",
                build.needs[key].title,
                key,
                count,
                supplier,
                source,
                form.today,
                expected,
                spec=build.needs[key].spec,
                batch=batch,
                carriage=carriage if number == 1 else None,
                return_within_days=within,
            )
        )
        for number, (key, count) in enumerate(counts, 1)
    ]
    lines = "1 line" if len(counts) == 1 else f"{len(counts)} lines"
    written = write_down(door, changes, pen, f"{lines} ordered from {supplier} in one parcel.")
    return Written(written.words, f"parcel:{batch}", written.to_settle, written.repeated)


def _counts(form: Filled, fields: Fields, build: Build) -> list[tuple[str, int]]:
    found = []
    for name in fields:
        key = name.removeprefix("order-")
        if name.startswith("order-") and key in build.needs:
            count = form.whole(name, f"how many of {build.needs[key].title}")
            if count:
                found.append((key, count))
    return found


def _batch(build: Build, title: str) -> str:
    name, number = slug(title), 1
    taken = {record.line.batch for record in build.orders.values()}
    while (
        key := name if number == 1 else f"{name}-{number}"
    ) in taken or f"{key}.1" in build.orders:
        number += 1
    return key


# --- what happens to an order besides coming ---------------------------------------------------


def exchange_step(door: Door, order_id: str, step: str, fields: Fields, pen: Pen) -> Written:
    """Write down that one of the things before an old unit goes back was done.

    Parameters
    ----------
    door : Door
        The build.
    order_id : str
        The exchange.
    step : str
        A key of ``STEPS``.
    fields : mapping
        ``day``, when it was not today.
    pen : Pen
        Who writes.

    Raises
    ------
    Refused
        When the order is no exchange, or has no such step.
    """
    line, form = order_of(door, order_id).line, filled(door, fields)
    if line.exchange is None:
        raise Refused("exchange", f"'{line.title}' is no exchange unit", "correct the order first")
    if step not in STEPS:
        raise Refused("exchange", f"'{step}' is no step", f"one of: {', '.join(STEPS)}")
    day = form.day("day", "on", towards="past") or form.today
    form.check()
    field, words = STEPS[step]
    exchange: Exchange = replace(line.exchange, **{field: day})  # type: ignore[arg-type]
    said = f"{words[:1].upper()}{words[1:]}, {day.day} {day:%B}."
    return write_down(door, c.OrderSet(replace(line, exchange=exchange)), pen, said)


def sent_back(door: Door, order_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that what came wrong went back.

    Raises
    ------
    Refused
        When nothing of the order came wrong.
    """
    record, form = order_of(door, order_id), filled(door, fields)
    if not any(d.outcome in (GoodsIn.WRONG, GoodsIn.DAMAGED) for d in record.deliveries):
        raise Refused(
            "sent back",
            f"nothing of '{record.line.title}' came wrong or damaged",
            "check the delivery in first",
        )
    day = form.day("sent_back_on", "went back on", towards="past") or form.today
    form.check()
    said = f"What came wrong of '{record.line.title}' went back on {day.day} {day:%B}."
    return write_down(door, c.OrderSet(replace(record.line, sent_back_on=day)), pen, said)


def paid(door: Door, order_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that an order was paid, with its price where that was not known."""
    line, form, build = order_of(door, order_id).line, filled(door, fields), door.build()
    price, rate = read_money(form, build, "price") or line.price, read_rate(form, build)
    day = form.day("paid_on", "paid on", towards="past") or form.today
    if price is None:
        form.wrong("price", "it is not known", "write what was paid for all of it")
    form.check()
    said = f"'{line.title}' was paid on {day.day} {day:%B}."
    paid_for = replace(line, price=price, paid_on=day, rate=rate or line.rate)
    return write_down(door, c.OrderSet(paid_for), pen, said)
