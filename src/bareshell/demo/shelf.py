"""What is on the demo's shelves: in which bin, how well known, and what is away."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from bareshell.demo.days import spread
from bareshell.demo.told import Book, Told
from bareshell.demo.wanted import NEEDS
from bareshell.model import changes as c
from bareshell.model.job import Job
from bareshell.model.part import GoodsIn, Holding, Need
from bareshell.model.spec import BoltSpec, PinSpec, PlainSpec, Spec
from bareshell.model.trust import Trust

PLACES: Final = {
    "brakes": "Brake shelf, bin {}",
    "electrics": "Electrics drawers, drawer {}",
    "suspension": "Rack by the door, tray {}",
    "steering": "Rack by the door, tray {}",
    "wheels": "Rack by the door, tray {}",
    "engine": "Engine bench, box {}",
    "gearbox and clutch": "Engine bench, box {}",
    "fuel": "High shelf, tin {}",
    "cooling": "High shelf, tin {}",
    "exhaust": "Loft, left, hook {}",
    "body fittings": "Trim cupboard, box {}",
    "glass": "Loft, right, slot {}",
    "interior": "Trim cupboard, box {}",
    "underbody": "High shelf, tin {}",
    "commissioning": "Bench drawer {}",
    "paperwork": "Bench drawer {}",
}
"""Where the parts of each system lie; the number is the bin."""

CONDITIONS: Final = ("new", "cleaned, good", "old, usable", "plated", "to be looked at")


def place(system: str, key: str) -> str:
    """Return the named bin in which a thing of a system lies, always the same for the same key."""
    return PLACES[system].format(sum(key.encode()) % 24 + 1)


def holding_for(need: Need, system: str, *, quantity: int | None = None) -> Holding:
    """Return what lies on the shelf for a need, as the boxes were counted."""
    total = sum(need.id.encode())
    measured = need.spec != PlainSpec()
    return Holding(
        id=f"has-{need.id}",
        title=need.title,
        quantity=quantity or need.quantity,
        spec=need.spec,
        need=need.id,
        where=place(system, need.id),
        trust=Trust.MEASURED if measured else (Trust.ASSUMED, Trust.MARKED)[total % 2],
        condition=CONDITIONS[total % len(CONDITIONS)],
    )


HERE: Final = (
    "front-hose-left",
    "front-hose-right",
    "front-hose-clips",
    "front-hose-washers",
    "axle-hose-nut",
    "hb-split",
    "hb-return",
    "bracket-bolts-left",
    "bracket-bolts-right",
    "bracket-right",
    "tandem-nuts",
    "pushrod-clevis",
    "bay-pipe",
    "rear-unions",
    "limit-valve",
    "caliper-bolts",
    "shoes",
    "diff-lamp",
    "screen-glass",
    "screen-cord",
    "head-glue",
    "head-clips",
    "door-glue",
    "rear-lens-right",
    "rear-gaskets",
    "headlamp-gaskets",
    "bumper-bolts",
    "heater-clips",
    "catch-bolts",
    "catch-spring",
    "earth-strap",
    "charge-cable",
    "bracket-angle",
    "manifold-gasket",
    "pump-gasket",
    "clutch-plate",
    "flywheel-bolts",
    "engine-mounts",
    "box-mount",
    "tank-straps",
    "bottom-hose",
)
"""Needs that the owner wrote and for which what is wanted lies on the shelf."""

SOME_HERE: Final = {"headlamp-screws": 4, "rear-lamp-screws": 5, "prop-bolts": 6}
"""Needs for which only some lie there."""

LOOKED_FOR: Final = {
    "check-pins": "not in box 17, nor in the tin of pins",
    "spigot-bush": "the old one came out in two pieces",
    "rear-screen-rubber": "perished, thrown away; none in the boxes",
}
"""Needs for which somebody looked and found nothing."""


@dataclass(frozen=True, slots=True)
class Loose:
    """A thing on the shelf that is not put aside for one need."""

    key: str
    title: str
    quantity: int
    where: str
    condition: str = ""
    away: str = ""
    need: str | None = None
    note: str = ""
    spec: Spec = PlainSpec()
    trust: Trust = Trust.MEASURED

    def holding(self) -> Holding:
        """Return it as a holding."""
        return Holding(
            self.key,
            self.title,
            self.quantity,
            self.spec,
            self.need,
            self.where,
            self.trust,
            self.condition,
            away=self.away,
            note=self.note,
        )


LOOSE: Final = (
    Loose(
        "old-drums-front",
        "Front brake drums, standard",
        2,
        "Loft, left, box D1",
        "original, kept",
        note="Kept for going back to standard.",
    ),
    Loose(
        "old-backplates",
        "Front backplates with both cylinders each",
        2,
        "Loft, left, box D1",
        "original, kept",
    ),
    Loose(
        "old-master",
        "Single master cylinder, standard, 22.2 mm",
        1,
        "Loft, left, box D2",
        "original, seized at mid-stroke",
    ),
    Loose("old-servo", "Remote servo, standard", 1, "Loft, left, box D2", "original, kept dry"),
    Loose(
        "old-dynamo", "Dynamo and control box, standard", 1, "Loft, left, box D3", "original, spins"
    ),
    Loose(
        "roll-offcut",
        "Brake pipe left on the roll",
        1,
        "Brake shelf, bin 2",
        "new",
        note="About 1.1 m; enough for the two pipes at the switch, not for more.",
    ),
    Loose("union-tin", "Male unions, 3/8-24 UNF, mixed lengths", 7, "Brake shelf, bin 3", "new"),
    Loose(
        "pins-short",
        "Clevis pins 7.94 by 18 mm, too short for the drum levers",
        2,
        "Bench drawer 9",
        "new, wrong",
        spec=PinSpec(diameter_m=0.00794, grip_to_hole_m=0.018, head="flat"),
        note="Go back to the supplier or serve the choke lever.",
    ),
    Loose(
        "bolts-half-shank",
        "Bolts 5/16-24 UNF with plain shanks, and self-locking nuts",
        6,
        "Bench drawer 9",
        "new",
        spec=BoltSpec(
            thread="5/16-24 UNF",
            grip_length_m=0.0205,
            length_m=0.038,
            head="hexagon",
            grade="8",
            lock="self-locking nut",
            what="bolt",
        ),
    ),
    Loose(
        "check-pins-spare",
        "Clevis pins 6.35 by 16 mm, from the old choke",
        2,
        "Bench drawer 1",
        "cleaned, good",
        spec=PinSpec(diameter_m=0.00634, grip_to_hole_m=0.0161, head="flat", material="steel"),
    ),
    Loose(
        "irons-away",
        "Bumper irons and over-rider brackets",
        4,
        "",
        "bare",
        need="bumper-irons",
        away="Skelbarrow Platers, second batch",
        note="Counted out: 4 irons, 2 brackets, 14 bolts, photographed on the bench.",
    ),
    Loose(
        "clips-away",
        "Badge and strip clips",
        46,
        "",
        "bare",
        need="badge-clips",
        away="Skelbarrow Platers, second batch",
        note="Counted out: 46 in one net bag.",
    ),
    Loose("tube-sealer", "Seam sealer, opened", 1, "High shelf, tin 4", "opened, use first"),
    Loose("damping-rest", "Damping sheet left over", 3, "Trim cupboard, box 2", "new"),
    Loose("wax-rest", "Cavity wax, half a litre", 1, "High shelf, tin 6", "opened"),
    Loose("fuse-box-old", "Two-way fuse box, standard", 1, "Loft, left, box D3", "original, kept"),
    Loose(
        "paint-tin",
        "Moss green, two-pack, half a litre for stone chips",
        1,
        "House cellar, frost free",
        "new",
        trust=Trust.MARKED,
    ),
    Loose(
        "unknown-spring",
        "Short tension spring, nobody knows from where",
        1,
        "Bench drawer 1",
        "to be looked at",
        trust=Trust.ASSUMED,
    ),
)
"""What is kept for going back, left over, away, or not understood."""


HERE_SHARE: Final = 0.38
NOT_HERE_SHARE: Final = 0.06
"""Of what the starter network wants, how much lies in the boxes and how much was looked for in
vain; of the rest nobody knows yet, which is not the same as missing."""


def tell_counted(
    book: Book, needs: Iterable[Need], jobs: Mapping[str, Job], moment: datetime
) -> None:
    """Write what the boxes held once they were counted, and what the owner wants himself.

    Parameters
    ----------
    book : Book
        Where it is written.
    needs : iterable of Need
        The starter network's needs that are part of the build.
    jobs : mapping
        Every job of the build.
    moment : datetime
        When it was written, in UTC.
    """
    for need in NEEDS:
        book.tell(moment, c.NeedSet(need))
        if need.id in HERE or need.id in SOME_HERE:
            system = jobs[need.job].system
            held = holding_for(need, system, quantity=SOME_HERE.get(need.id))
            book.tell(moment, c.HoldingSet(held))
        if need.id in LOOKED_FOR:
            book.tell(moment, c.NeedNotHere(need.id, LOOKED_FOR[need.id]))
    for loose in LOOSE:
        if not loose.away:
            book.tell(moment, c.HoldingSet(loose.holding()))
    for need in needs:
        share = (spread(need.id) + 1) / 2
        if share < HERE_SHARE:
            book.tell(moment, c.HoldingSet(holding_for(need, jobs[need.job].system)))
        elif share < HERE_SHARE + NOT_HERE_SHARE:
            book.tell(moment, c.NeedNotHere(need.id, "looked through the boxes"))


def tell_fitted(book: Book, needs: Mapping[str, Need]) -> None:
    """Take from the shelf what was put aside for a job when that job was finished."""
    finished: dict[str, Told] = {}
    lying: dict[str, tuple[str, Told]] = {}
    wanted: dict[str, str | None] = {}
    for told in book.entries():
        match told.change:
            case c.JobFinished():
                finished[told.change.job_id] = told
            case c.OrderSet():
                wanted[told.change.line.id] = told.change.line.need
            case c.HoldingSet() if told.change.holding.need:
                lying[told.change.holding.id] = (told.change.holding.need, told)
            case c.GoodsChecked() if told.change.outcome not in (GoodsIn.WRONG, GoodsIn.DAMAGED):
                need = wanted[told.change.order_id]
                if need is not None:
                    lying[told.change.holding] = (need, told)
            case _:
                pass
    for holding, (need, shelved) in lying.items():
        fitted = finished.get(needs[need].job)
        if fitted is not None and fitted.recorded_at > shelved.recorded_at:
            book.tell(
                fitted.happened_at,
                c.HoldingDropped(holding, "fitted"),
                recorded_at=fitted.recorded_at,
            )


def tell_sent_away(book: Book, moment: datetime) -> None:
    """Write what went to the platers, counted out."""
    for loose in LOOSE:
        if loose.away:
            book.tell(moment, c.HoldingSet(loose.holding()))
