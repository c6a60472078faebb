"""What the demo's owner ordered, and what came of it: right, short, wrong, damaged, unlike, late.

Days are counted back from the day on which the demo is made; a negative number lies ahead.
Every supplier is invented.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, time, timedelta
from decimal import Decimal
from typing import Final

from bareshell.demo.days import at
from bareshell.demo.shelf import place
from bareshell.demo.told import Book
from bareshell.model.changes import GoodsChecked, OrderCancelled, OrderExpected, OrderSet
from bareshell.model.job import Job
from bareshell.model.part import Exchange, GoodsIn, Money, Need, OrderLine, SourceClass
from bareshell.model.spec import PlainSpec

FACTORS = "Quarrelmere Motor Factors"
HYDRAULICS = "Fennimoss Hydraulics"
REGISTER = "Ostrabrook Register spares"
PLATERS = "Skelbarrow Platers"
RUBBER = "Tindlewick Rubber"
EXCHANGE = "Hartlewane Exchange Units"
TRIMMERS = "Brindlecoat Trimmers"
FASTENERS = "Pennywhistle Fasteners"

SOURCES: Final = {
    FACTORS: SourceClass.GENERAL,
    HYDRAULICS: SourceClass.SPECIALIST,
    REGISTER: SourceClass.CLUB,
    PLATERS: SourceClass.SERVICE,
    RUBBER: SourceClass.REMADE,
    EXCHANGE: SourceClass.EXCHANGE,
    TRIMMERS: SourceClass.REMADE,
    FASTENERS: SourceClass.GENERAL,
}

CARRIAGE: Final = {FACTORS: "3.50", HYDRAULICS: "6.90", RUBBER: "5.40", FASTENERS: "2.95"}
PREPAID: Final = frozenset({FACTORS, HYDRAULICS, REGISTER, RUBBER, FASTENERS})
"""What a parcel from there costs to send, and who is paid when it is ordered."""

MORNING_POST, EVENING_DESK = time(11, 20), time(20, 15)


@dataclass(frozen=True, slots=True)
class Came:
    """One delivery: so many days ago, with this outcome."""

    days_ago: int
    outcome: GoodsIn
    quantity: int
    words: str = ""
    where: str = ""


@dataclass(frozen=True, slots=True)
class Ordered:
    """One order line. ``due`` and ``moved_to`` are days ago; None: nobody knows."""

    key: str
    title: str
    need: str | None
    quantity: int
    supplier: str
    days_ago: int
    due: int | None
    price: str | None = None
    came: tuple[Came, ...] = ()
    moved: tuple[int, int | None, str] | None = None
    cancelled: int | None = None
    return_in_days: int | None = None
    deposit: str | None = None
    note: str = ""
    lot: str = ""
    sent: str = ""


_RIGHT, _SHORT, _WRONG = GoodsIn.RIGHT, GoodsIn.SHORT, GoodsIn.WRONG
_DAMAGED, _UNLIKE = GoodsIn.DAMAGED, GoodsIn.UNLIKE

ORDERS: Final = (
    # Long ago, and long since on the car.
    Ordered(
        "o-calipers",
        "Front calipers, pair",
        "calipers",
        2,
        HYDRAULICS,
        232,
        204,
        "164.00",
        (Came(199, _RIGHT, 2, "pistons 48.0 mm by calipers, left and right told apart"),),
    ),
    Ordered(
        "o-tandem",
        "Tandem master cylinder",
        "tandem",
        1,
        HYDRAULICS,
        232,
        210,
        "118.50",
        (Came(206, _RIGHT, 1, "19.05 mm cast on the body; four studs"),),
    ),
    Ordered(
        "o-wheel-cylinders",
        "Rear wheel cylinders",
        "wheel-cylinders",
        2,
        FACTORS,
        190,
        186,
        "38.40",
        (
            Came(185, _WRONG, 2, "marked 22 mm, ordered 19.05"),
            Came(171, _RIGHT, 2, "19.05 read on both"),
        ),
    ),
    Ordered(
        "o-pads", "Front pads, set", "pads", 1, FACTORS, 150, 147, "22.10", (Came(147, _RIGHT, 1),)
    ),
    Ordered(
        "o-pad-pins",
        "Pad retaining pins",
        "pad-pins",
        4,
        FASTENERS,
        168,
        161,
        "9.20",
        (
            Came(159, _WRONG, 4, "6.35 mm, will not enter; sent back"),
            Came(148, _RIGHT, 4, "6.00 by micrometer"),
        ),
    ),
    Ordered(
        "o-bay-unions",
        "Male unions 3/8-24 UNF, and two M10",
        "bay-unions",
        8,
        FASTENERS,
        114,
        108,
        "14.60",
        (Came(107, _RIGHT, 8),),
    ),
    Ordered(
        "o-metric-unions",
        "Male unions M10x1.0",
        "bay-unions-metric",
        2,
        FASTENERS,
        114,
        108,
        "3.10",
        (Came(107, _RIGHT, 2),),
    ),
    # Here for the next jobs.
    Ordered(
        "o-wires",
        "Alternator plug and terminals",
        "charge-plug",
        1,
        FACTORS,
        9,
        -2,
        "6.75",
    ),
    Ordered("o-thermostat", "Thermostat, 82 degrees", "thermostat", 1, FACTORS, 9, -6, "11.20"),
    Ordered("o-heater-seal", "Heater to bulkhead seal", "heater-seal", 1, RUBBER, 31, -3, "8.90"),
    Ordered(
        "o-latch-screws", "Lock and striker screws", "latch-screws", 16, FASTENERS, 9, -4, "7.20"
    ),
    Ordered("o-bowls", "Headlamp bowls, pair", "headlamp-bowls", 2, REGISTER, 27, -4, "58.00"),
    Ordered(
        "o-alternator",
        "Alternator, 36 A",
        "alternator",
        1,
        FACTORS,
        96,
        90,
        "72.00",
        (Came(89, _RIGHT, 1, "pulley is 10 mm wide, as the old one", "Engine bench, box 1"),),
    ),
    Ordered(
        "o-starter",
        "Starter motor, exchange",
        "starter",
        1,
        EXCHANGE,
        30,
        23,
        "85.00",
        (
            Came(
                22,
                _UNLIKE,
                1,
                "pre-engaged, the old one was inertia; same ring gear pitch",
                "Engine bench, box 2",
            ),
        ),
        return_in_days=9,
        deposit="30.00",
        note="The old starter must be back by then, proved or not.",
    ),
    Ordered(
        "o-fluid",
        "Brake fluid, one litre, sealed",
        "brake-fluid",
        1,
        FACTORS,
        12,
        10,
        "9.95",
        (Came(9, _RIGHT, 1, "filled four months ago by its stamp", "House cellar, frost free"),),
    ),
    Ordered(
        "o-belt",
        "Fan belt 10 by 900",
        "fan-belt",
        1,
        FACTORS,
        12,
        10,
        "8.40",
        (Came(9, _RIGHT, 1, where="Engine bench, box 5"),),
    ),
    # Short.
    Ordered(
        "o-p-clips",
        "P-clips, rubber lined, 8 mm",
        "p-clips",
        40,
        FASTENERS,
        26,
        20,
        "18.00",
        (Came(19, _SHORT, 24, "16 to follow", "Bench drawer 6"),),
        moved=(18, -5, "the rest next week, they say"),
    ),
    Ordered(
        "o-diff-unions",
        "Male unions for the switch",
        "diff-unions",
        4,
        FASTENERS,
        26,
        20,
        "6.20",
        (Came(19, _SHORT, 2, "two of four", "Brake shelf, bin 3"),),
        moved=(18, -5, "with the clips"),
    ),
    # Wrong and damaged, and nothing better has come yet.
    Ordered(
        "o-hb-clevis",
        "Clevis pins, 7.94 by 22 mm",
        "hb-clevis",
        2,
        FASTENERS,
        21,
        14,
        "4.80",
        (Came(8, _WRONG, 2, "18 mm under the head, not 22: the fork will not take the pin"),),
        moved=(7, -6, "the right ones are on their way"),
    ),
    Ordered(
        "o-lens-left",
        "Rear lamp lens, left",
        "rear-lens-left",
        1,
        REGISTER,
        33,
        20,
        "31.00",
        (Came(11, _DAMAGED, 1, "cracked across the corner; box crushed"),),
        moved=(10, -12, "another is being looked for"),
    ),
    # Due soon, late, and without a date.
    Ordered(
        "o-axle-hose",
        "Hose from body to axle",
        "axle-hose",
        1,
        HYDRAULICS,
        24,
        10,
        "16.75",
        moved=(6, -3, "made, to be posted this week"),
    ),
    Ordered(
        "o-diff-switch",
        "Pressure-difference switch",
        "diff-switch",
        1,
        HYDRAULICS,
        24,
        10,
        "41.00",
        moved=(6, -3, "in the same parcel as the hose"),
    ),
    Ordered(
        "o-screen-rubber",
        "Windscreen rubber",
        "screen-rubber",
        1,
        RUBBER,
        75,
        17,
        "64.00",
        note="Overdue; they do not answer.",
    ),
    Ordered(
        "o-head-cloth",
        "Headlining, sewn to pattern",
        "head-cloth",
        1,
        TRIMMERS,
        52,
        -20,
        "145.00",
        note="Pattern and old cloth went with it.",
    ),
    Ordered(
        "o-seat-cloth",
        "Seat covers, two front",
        "seat-cloth",
        4,
        TRIMMERS,
        52,
        None,
        "310.00",
        note="After the headlining, no date.",
    ),
    Ordered("o-door-rubber", "Door aperture seals", "door-rubber", 8, RUBBER, 40, -9, "56.00"),
    Ordered(
        "o-throttle", "Throttle cable to sample", "throttle-cable", 1, REGISTER, 16, -2, "19.00"
    ),
    Ordered("o-bracket-strap", "Filler neck seal", "filler-seal", 1, RUBBER, 40, -9, "7.50"),
    Ordered(
        "o-top-hose",
        "Radiator top hose",
        "top-hose",
        1,
        FACTORS,
        14,
        11,
        "12.30",
        (Came(11, _UNLIKE, 1, "30 mm longer than the old one; may be cut", "High shelf, tin 9"),),
    ),
    # At the platers.
    Ordered(
        "o-plating-2",
        "Plating, second batch: irons and brackets",
        "bumper-irons",
        4,
        PLATERS,
        18,
        -6,
        "48.00",
        note="zinc plating; with 2 brackets and 14 bolts",
        lot="plating-second-batch",
        sent="irons-away",
    ),
    Ordered(
        "o-plating-clips",
        "Plating, second batch: clips",
        "badge-clips",
        46,
        PLATERS,
        18,
        -6,
        "12.00",
        note="zinc plating; in one net bag",
        lot="plating-second-batch",
        sent="clips-away",
    ),
    # Given up.
    Ordered(
        "o-servo-kit",
        "Seal kit for the remote servo",
        None,
        1,
        REGISTER,
        260,
        240,
        "27.00",
        cancelled=246,
        note="Not wanted once the servo was left off.",
    ),
)


def _on(today: date, days_ago: int) -> date:
    return today - timedelta(days=days_ago)


def line_of(order: Ordered, today: date, needs: Mapping[str, Need]) -> OrderLine:
    """Return an order line with its dates counted from today."""
    exchange = None
    if order.return_in_days is not None:
        exchange = Exchange(_on(today, -order.return_in_days), _pounds(order.deposit))
    spec = needs[order.need].spec if order.need else PlainSpec()
    due = None if order.due is None else _on(today, order.due)
    return OrderLine(
        order.key,
        order.title,
        order.need,
        order.quantity,
        order.supplier,
        SOURCES[order.supplier],
        _on(today, order.days_ago),
        due,
        _pounds(order.price),
        exchange,
        spec,
        order.note,
        order.lot or _parcel(order, today),
        order.sent,
        carriage=_pounds(CARRIAGE.get(order.supplier)) if _is_first_of_parcel(order) else None,
        paid_on=_on(today, order.days_ago) if order.price and order.supplier in PREPAID else None,
    )


def _parcel(order: Ordered, today: date) -> str:
    """Name what came together: ordered from one supplier on one day."""
    return f"{order.supplier.split()[0].lower()}-{_on(today, order.days_ago)}"


def _is_first_of_parcel(order: Ordered) -> bool:
    together = [
        one for one in ORDERS if (one.supplier, one.days_ago) == (order.supplier, order.days_ago)
    ]
    return together[0] is order


def _pounds(amount: str | None) -> Money | None:
    return Money(Decimal(amount), "GBP") if amount else None


def tell_orders(
    book: Book, today: date, needs: Mapping[str, Need], jobs: Mapping[str, Job]
) -> None:
    """Write every order, what was heard of it, and each delivery as it was checked."""
    for order in ORDERS:
        ordered = at(_on(today, order.days_ago), EVENING_DESK)
        book.tell(ordered, OrderSet(line_of(order, today, needs)))
        for came in order.came:
            where = came.where
            if order.need and not where:
                where = place(jobs[needs[order.need].job].system, order.need)
            checked = GoodsChecked(
                order.key, came.outcome, came.quantity, where, came.words, f"{order.key}-in"
            )
            book.tell(at(_on(today, came.days_ago), MORNING_POST), checked)
        if order.moved is not None:
            days_ago, due, words = order.moved
            expected = None if due is None else _on(today, due)
            heard = at(_on(today, days_ago), EVENING_DESK)
            book.tell(heard, OrderExpected(order.key, expected, words))
        if order.cancelled is not None:
            dropped = at(_on(today, order.cancelled), EVENING_DESK)
            book.tell(dropped, OrderCancelled(order.key, "the servo stays off"))
