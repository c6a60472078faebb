"""Parts and fixings: what is wanted, what is on the shelf, what is coming."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

from bareshell.io.build_file.facts import (
    DeliveryFact,
    HoldingFacts,
    NeedFacts,
    OrderFacts,
    facts_of_holding,
    facts_of_need,
    facts_of_order,
)
from bareshell.io.build_file.figures import amount, day, figure, flag, length, moment, whole
from bareshell.io.build_file.kinds import ident, one_of, ref, text
from bareshell.io.build_file.sections.base import Section
from bareshell.io.build_file.shape import Field, Record, one, several
from bareshell.io.build_file.specs import spec
from bareshell.model import changes as c
from bareshell.model.build import Build
from bareshell.model.duty import Duty, LoadPath, Lubrication, Seat
from bareshell.model.part import (
    Exchange,
    GoodsIn,
    Guess,
    Holding,
    Need,
    NeededTo,
    OrderLine,
    SourceClass,
)
from bareshell.model.trust import Trust

__all__ = ["DELIVERY", "DUTY", "EXCHANGE", "GUESS", "PART_SECTIONS"]

Wanted = TypeVar("Wanted", OrderLine, Holding)


def _need_left_out(build: Build, key: str) -> tuple[str, c.Change]:
    return f"{NEED.title(build.needs[key])} is wanted no more", c.NeedDropped(key)


DUTY = Record(
    Duty,
    (
        Field("load_path", "load_path", one_of(LoadPath), "what gives way when it does"),
        Field("gate", "gate", text(), "the gate before which it must be the right thing"),
        Field("load", "load_n", figure("N"), "the greatest load across it"),
        Field("shear_planes", "shear_planes", whole(least=1), "1 for single shear, 2 in a fork"),
        Field("fork_ply", "fork_ply_m", length(), "what holds it, each side of a fork"),
        Field("eye_ply", "eye_ply_m", length(), "what pulls on it"),
        Field("side_gap", "side_gap_m", length(), "the gap between the two"),
        Field("hole", "hole_m", length(), "the hole it goes in"),
        Field("turns", "turns", flag(), "true when something turns or slides on it"),
        Field("seat", "seat", one_of(Seat), "what it draws together"),
        Field("lubrication", "lubrication", one_of(Lubrication), "what is on its threads"),
    ),
)
GUESS = Record(
    Guess,
    (
        Field("low", "low", amount(), "what it may cost at least, for all of it"),
        Field("high", "high", amount(), "what it may cost at most"),
    ),
)

NEED = Section(
    "need",
    "need",
    "What a job wants: how many of what, and by when in the job.",
    Record(
        Need,
        (
            Field("id", "id", ident(), "its short name"),
            Field("title", "title", text(), "what a person calls it"),
            Field("job", "job", ref("job"), "the job that wants it"),
            Field("quantity", "quantity", whole(least=1), "how many"),
            Field("needed_to", "needed_to", one_of(NeededTo), "to start the job or to finish it"),
            Field("spec", "spec", spec(), "what it must be"),
            Field("bag", "bag", text(), "the kit it is packed in"),
            Field("fixing", "fixing", flag(), "true for a fastener, clip or pin"),
            Field("mark", "mark", text(), "where the specification comes from"),
            Field("note", "note", text(), "free words"),
            Field("duty", "duty", one(DUTY), "what it is relied on for"),
            Field("guess", "guess", one(GUESS), "what it may cost"),
        ),
    ),
    lambda build: build.needs,
    lambda value: str(value.id),
    c.NeedSet,
    facts=Record(
        NeedFacts,
        (Field("not_here", "not_here", moment(), "when it was looked for and not found"),),
    ),
    facts_of=facts_of_need,
    left_out=_need_left_out,
)


def _holding_left_out(build: Build, key: str) -> tuple[str, c.Change]:
    sentence = f"{HOLDING.title(build.holdings[key])} is no longer on the shelf"
    return sentence, c.HoldingDropped(key, "not in the build file")


def _for_a_need(build: Build, thing: Wanted) -> Wanted:
    """Return an order or holding without the need that it was for, when that is gone."""
    return thing if thing.need in build.needs else replace(thing, need=None)


HOLDING = Section(
    "holding",
    "holding",
    "What is on the shelf, as measured.",
    Record(
        Holding,
        (
            Field("id", "id", ident(), "its short name"),
            Field("title", "title", text(), "what a person calls it"),
            Field("quantity", "quantity", whole(), "how many; 0 when used up"),
            Field("spec", "spec", spec(), "what it is"),
            Field("need", "need", ref("need"), "the need it was put aside for"),
            Field("where", "where", text(), "box, bag or shelf"),
            Field("trust", "trust", one_of(Trust), "how far its figures can be trusted"),
            Field("condition", "condition", text(), "in words"),
            Field("unlike", "unlike", flag(), "true when it is unlike what is on the car"),
            Field("away", "away", text(), "where it was sent for work, if it was"),
            Field("note", "note", text(), "free words"),
        ),
    ),
    lambda build: {key: _for_a_need(build, each) for key, each in build.holdings.items()},
    lambda value: str(value.id),
    c.HoldingSet,
    facts=Record(
        HoldingFacts, (Field("seen", "seen", moment(), "when it was last seen and counted"),)
    ),
    facts_of=facts_of_holding,
    left_out=_holding_left_out,
)

EXCHANGE = Record(
    Exchange,
    (
        Field("return_by", "return_by", day(), "when the old one must be back"),
        Field("deposit", "deposit", amount(), "what is lost otherwise"),
        Field("returned_on", "returned_on", day(), "when it went back"),
        Field("proved_on", "proved_on", day(), "when the new one was proved on the bench"),
        Field("photographed_on", "photographed_on", day(), "when the old one was photographed"),
        Field("measured_on", "measured_on", day(), "when the old one was measured"),
    ),
)
DELIVERY = Record(
    DeliveryFact,
    (
        Field("at", "at", moment(), "when it was checked"),
        Field("outcome", "outcome", one_of(GoodsIn), "what the check found"),
        Field("quantity", "quantity", whole(least=1), "how many came"),
        Field("words", "words", text(), "what was seen"),
        Field("holding", "holding", ref("holding", must=False), "the holding that it became"),
        Field("used_up", "used_up", flag(), "true when nothing of it is on the shelf any more"),
    ),
)


def _order_left_out(build: Build, key: str) -> tuple[str, c.Change] | None:
    if build.orders[key].cancelled or not build.orders[key].outstanding:
        return None
    sentence = f"{ORDER.title(build.orders[key].line)} is cancelled"
    return sentence, c.OrderCancelled(key, "not in the build file")


ORDER = Section(
    "order",
    "order",
    "What is coming, and what came of it.",
    Record(
        OrderLine,
        (
            Field("id", "id", ident(), "its short name"),
            Field("title", "title", text(), "what a person calls it"),
            Field("need", "need", ref("need"), "the need it is for"),
            Field("quantity", "quantity", whole(least=1), "how many"),
            Field("supplier", "supplier", text(), "from whom"),
            Field("source", "source", one_of(SourceClass), "what kind of supplier"),
            Field("ordered_on", "ordered_on", day(), "when it was ordered"),
            Field("expected_on", "expected_on", day(), "when it is expected, if anybody knows"),
            Field("price", "price", amount(), "for all of it"),
            Field("exchange", "exchange", one(EXCHANGE), "what must go back"),
            Field("spec", "spec", spec(), "what was ordered"),
            Field("note", "note", text(), "free words"),
            Field("batch", "batch", text(), "what goes together in one parcel or lot"),
            Field("sent", "sent", text(), "the holding sent away for work, coming back"),
            Field("carriage", "carriage", amount(), "carriage of the batch, on one of its lines"),
            Field("tax", "tax", amount(), "the tax within the price"),
            Field("paid_on", "paid_on", day(), "when it was paid"),
            Field(
                "return_within_days",
                "return_within_days",
                whole(unit="days"),
                "for how long a wrong one is taken back",
            ),
            Field("sent_back_on", "sent_back_on", day(), "when what came wrong went back"),
            Field("rate", "rate", amount(), "what one of the price's currency was in another"),
        ),
    ),
    lambda build: {key: _for_a_need(build, each.line) for key, each in build.orders.items()},
    lambda value: str(value.id),
    c.OrderSet,
    facts=Record(
        OrderFacts,
        (
            Field("cancelled", "cancelled", flag(), "true when it was cancelled"),
            Field("deliveries", "deliveries", several(DELIVERY, "delivery"), "what came of it"),
        ),
    ),
    facts_of=facts_of_order,
    left_out=_order_left_out,
)

PART_SECTIONS = (NEED, ORDER, HOLDING)
"""The sections of the parts desk; a holding comes after the delivery that it came with."""
