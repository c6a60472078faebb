"""Is it worth waiting to share the carriage: in money, and in days on the road."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from bareshell.app import ordering
from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.part import Money, Need, NeededTo, OrderLine
from bareshell.whole.parcels import ParcelView
from bareshell.whole.wanted_days import WantedDays
from tests.stories import NOW, small_car_changes

SHOP = "Fennimoss"
TODAY = NOW.date()


@pytest.fixture
def door(tmp_path: Path) -> Iterator[Door]:
    """Two things missing from one shop: a pipe that all waits for, and something for the carb."""
    with Door.open(tmp_path / "car", create=True, clock=lambda: NOW, back_up=False) as opened:
        opened.record(
            [
                *small_car_changes(),
                c.NeedSet(Need("pipe", "Rear pipe", "rear-pipe", 1, NeededTo.START)),
                c.NeedSet(Need("seal", "Door seal clips", "door-seal", 10)),
                c.NeedNotHere("pipe"),
                c.NeedNotHere("seal"),
            ]
        )
        yield opened


def ordered_before(door: Door, carriage: str | None) -> None:
    """Both came from the shop once, and were wrong."""
    money = Money(Decimal(carriage), "GBP") if carriage else None
    for key in ("pipe", "seal"):
        line = OrderLine(f"old-{key}", key, key, 1, SHOP, carriage=money)
        door.record([c.OrderSet(line), c.OrderCancelled(line.id, "never came")])


def weighed(door: Door, pipe: date, seal: date) -> ParcelView:
    wanted = WantedDays({}, {}, {"pipe": pipe, "seal": seal}, {})
    (parcel,) = ordering.parcels(door, wanted).parcels
    return parcel


def test_together_saves_a_carriage_and_waiting_costs_days(door: Door) -> None:
    ordered_before(door, "4.50")
    parcel = weighed(door, TODAY + timedelta(days=20), TODAY + timedelta(days=80))
    assert (parcel.apart_parcels, parcel.longest_early_days) == (2, 60)
    assert parcel.saved == Money(Decimal("4.50"), "GBP")
    assert parcel.apart == Money(Decimal("9.00"), "GBP")
    assert [one.days for one in parcel.waits] == [7, 14, 28]
    later = [one.later_days for one in parcel.waits]
    assert later == sorted(later)  # type: ignore[type-var]
    assert parcel.waits[-1].word == "later"
    assert parcel.waits[-1].later_days is not None
    assert parcel.waits[-1].later_days > 20, "everything under the car waits for the pipe"
    assert "going together saves 4.50 GBP" in parcel.says
    assert "days later, give or take" in parcel.says


def test_what_nothing_waits_for_can_wait(door: Door) -> None:
    ordered_before(door, "4.50")
    door.record(c.NeedDropped("pipe"))
    wanted = WantedDays({}, {}, {"seal": TODAY + timedelta(days=80)}, {})
    (parcel,) = ordering.parcels(door, wanted).parcels
    assert parcel.apart_parcels == 1
    assert parcel.says.startswith("One parcel, one carriage: 4.50 GBP.")


def test_a_carriage_that_nobody_wrote_down_is_not_known(door: Door) -> None:
    ordered_before(door, None)
    parcel = weighed(door, TODAY + timedelta(days=20), TODAY + timedelta(days=80))
    assert (parcel.carriage, parcel.saved) == (None, None)
    assert "what going together saves is not known" in parcel.says


def test_with_no_supplier_named_there_is_nothing_to_weigh(door: Door) -> None:
    assert ordering.parcels(door, WantedDays({}, {}, {}, {})).parcels == ()
