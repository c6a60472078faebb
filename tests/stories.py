"""Cars that tests tell stories about. All invented; none of it is the demo's."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta

from bareshell.model import Build, Entry, decide, fold
from bareshell.model import changes as c
from bareshell.model.car import Car
from bareshell.model.job import Job, Wait, Way
from bareshell.model.part import Need, NeededTo, OrderLine
from bareshell.model.position import (
    Place,
    Placement,
    Support,
    SupportKind,
    SupportMove,
    Wheels,
    Zone,
)
from bareshell.model.proof import AboutKind, Limit, Proof, ProofKind
from bareshell.model.session import SessionPattern
from bareshell.model.temp import Gate, Temp
from bareshell.model.trust import ThreePoint

NOW = datetime(2026, 3, 4, 18, 0, tzinfo=UTC)
"""A Wednesday, an hour before the evening's session."""


def entries_of(changes: Iterable[c.Change], start: datetime = NOW) -> tuple[Entry, ...]:
    """Turn changes into entries, a minute apart, ending before ``start``."""
    listed = tuple(changes)
    first = start - timedelta(days=30)
    return tuple(
        Entry(
            i + 1,
            f"e{i + 1}",
            first + timedelta(minutes=i),
            first + timedelta(minutes=i),
            "owner",
            change,
        )
        for i, change in enumerate(listed)
    )


def build_of(changes: Iterable[c.Change]) -> Build:
    """Decide and fold changes one after another, as the door does."""
    build = Build()
    for entry in entries_of(changes):
        decide(build, entry.change)
        build = fold([entry], build)
    return build


def later(build: Build, *changes: c.Change, at: datetime = NOW) -> Build:
    """Decide and fold further changes that happened at a moment."""
    for change in changes:
        decide(build, change)
        seq = build.seq + 1
        build = fold([Entry(seq, f"e{seq}", at, at, "owner", change)], build)
    return build


def job(name: str, *after: str, hours: float = 1.0, people: int = 1, **rest: object) -> Job:
    """Make a brakes job with hours spread as half and double."""
    way = Way(people, ThreePoint(hours / 2, hours, hours * 2))
    fields = {"title": name.replace("-", " ").capitalize(), "system": "brakes", **rest}
    return Job(id=name, after=after, ways=(way,), **fields)  # type: ignore[arg-type]


ALL = frozenset(Zone)

SUPPORTS = (
    Support("stands", "stands", SupportKind.STANDS, ALL, Wheels.HANGING),
    Support(
        "wheels",
        "its wheels",
        SupportKind.WHEELS,
        ALL - {Zone.UNDERNEATH},
        Wheels.LOADED,
        rollable=True,
    ),
    Support("road", "the road", SupportKind.ROAD, frozenset(), Wheels.LOADED),
)


def garage_changes() -> list[c.Change]:
    """The car, how it can stand, and when there is time."""
    return [
        c.CarDescribed(Car("Test mule", invented=True)),
        *(c.SupportSet(support) for support in SUPPORTS),
        c.SupportMoveSet(SupportMove("stands", "wheels", 40)),
        c.SupportMoveSet(SupportMove("wheels", "stands", 45)),
        c.SupportMoveSet(SupportMove("wheels", "road", 5)),
        c.SupportMoveSet(SupportMove("road", "wheels", 5)),
        c.CarPlaced(Placement("stands")),
        c.PatternSet(
            SessionPattern("eve", "Wednesday evening", "FREQ=WEEKLY;BYDAY=WE", time(19), 150)
        ),
        c.PatternSet(
            SessionPattern("sat", "Saturday", "FREQ=WEEKLY;BYDAY=SA", time(10), 300, people=2)
        ),
    ]


def small_car_changes() -> list[c.Change]:
    """One brake circuit from pipe to road: parts, a joint, a hold, a cover, gates, a temp."""
    under = frozenset({Zone.UNDERNEATH})
    jobs = [
        job("rear-pipe", hours=1.5, zones=under, wheels=Wheels.HANGING),
        job("rear-hose", "rear-pipe", hours=0.7, zones=under, wheels=Wheels.HANGING),
        job("hold", "rear-hose", hours=0.5, wait=Wait(12, why="overnight hold")),
        job("tank", "hold", hours=2, people=2, system="fuel", zones=under),
        job("seam", hours=1, system="underbody", zones=under,
            wait=Wait(24, stretches_with_cold=True, lowest_temperature_c=10),
            lowest_temperature_c=10),
        job("door-seal", hours=1, system="body fittings", zones=frozenset({Zone.DOORS})),
        job("carb", hours=2, system="fuel", place=Place.BENCH, splittable=True),
        job("wheels-on", "tank", hours=0.5, system="wheels", zones=under),
        job("drive", "wheels-on", "carb", "door-seal", "seam", hours=1, place=Place.ROAD,
            system="commissioning"),
    ]  # fmt: skip
    return [
        *garage_changes(),
        *(c.JobSet(one) for one in jobs),
        c.GateSet(Gate("under-car", "under-car", needs_jobs=("hold",), blocks=("tank",))),
        c.GateSet(
            Gate("road", "road", ("under-car",), needs_jobs=("wheels-on", "carb"),
                 blocks=("drive",))
        ),
        c.ProofSet(
            Proof(
                "rear-joint", "Rear tee dry under pressure", ProofKind.HELD_PRESSURE,
                AboutKind.JOINT, "rear tee", made_by=("rear-pipe",), proven_by="hold",
                covered_by=("tank",), gates=("under-car",),
                limits=(Limit("pressure", "bar", low=70),), hold_hours=12,
            )
        ),
        c.TempSet(
            Temp("caps", "plastic caps on the pipe ends", "the hoses", "road",
                 raised_by="rear-pipe", cleared_by="rear-hose")
        ),
        c.NeedSet(Need("nuts", "Pipe nuts M10x1", "rear-pipe", 4, NeededTo.FINISH, fixing=True)),
        c.NeedSet(Need("hose", "Rear flexible hose", "rear-hose", 1, NeededTo.START)),
        c.OrderSet(
            OrderLine("o1", "Rear flexible hose", "hose", 1, "invented supplier",
                      ordered_on=date(2026, 2, 20), expected_on=date(2026, 3, 9))
        ),
    ]  # fmt: skip


def small_car() -> Build:
    """The car of ``small_car_changes`` with nothing done yet."""
    return build_of(small_car_changes())
