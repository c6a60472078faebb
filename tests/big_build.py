"""A random build of any size, with its whole history: for benchmarks and for property tests.

Nothing in it is the demo's, and none of it is real: titles are numbered, dates are made up.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta

from bareshell.model import changes as c
from bareshell.model.car import Car
from bareshell.model.job import SYSTEMS, Job, Wait, Way
from bareshell.model.note import Note, Photo
from bareshell.model.part import GoodsIn, Holding, Need, NeededTo, OrderLine, SourceClass
from bareshell.model.position import (
    Place,
    Placement,
    Support,
    SupportKind,
    SupportMove,
    Wheels,
    Zone,
)
from bareshell.model.proof import Proof
from bareshell.model.session import HeldSession, SessionPattern
from bareshell.model.temp import Gate, Temp
from bareshell.model.trust import ThreePoint

BEGAN = datetime(2024, 1, 6, 10, 0, tzinfo=UTC)

Dated = tuple[datetime, c.Change]


class BigBuild:
    """Makes the history of a random build, the same for the same seed."""

    def __init__(
        self,
        seed: int,
        *,
        jobs: int = 400,
        parts: int = 2000,
        changes: int = 20_000,
        photos: int = 3000,
        done_share: float = 0.5,
    ) -> None:
        self.dice = random.Random(seed)
        self.jobs, self.parts, self.changes, self.photos = jobs, parts, changes, photos
        self.done = int(jobs * done_share)
        self.now = BEGAN

    def history(self) -> Iterator[Dated]:
        """Yield every change with the moment at which it happened."""
        count = 0
        for dated in self._everything():
            count += 1
            yield dated
        number = 0
        while count < self.changes:
            number += 1
            count += 1
            words = f"note {number}: measured, looked at, put back"
            yield self._at(c.NoteWritten(Note(f"n{number}", self.now, words, "")))

    def _at(self, change: c.Change) -> Dated:
        self.now += timedelta(minutes=self.dice.randint(1, 40))
        return self.now, change

    def _everything(self) -> Iterator[Dated]:
        for change in (*self._garage(), *self._jobs(), *self._gates(), *self._parts()):
            yield self._at(change)
        for number in range(self.done):
            yield from self._work(number)
        for number in range(self.photos):
            job = self.dice.randrange(self.jobs)
            photo = Photo(f"p{number}", self.now, f"{number}.jpg", "0" * 64, f"job:j{job:03d}")
            yield self._at(c.PhotoKept(photo))

    def _garage(self) -> Iterator[c.Change]:
        yield c.CarDescribed(Car("Random car", invented=True, zone="Europe/London"))
        everything = frozenset(Zone)
        floor = everything - {Zone.UNDERNEATH}
        yield c.SupportSet(Support("stands", "stands", SupportKind.STANDS, everything,
                                   Wheels.HANGING))  # fmt: skip
        yield c.SupportSet(Support("wheels", "wheels", SupportKind.WHEELS, floor, Wheels.LOADED,
                                   level=True, rollable=True))  # fmt: skip
        yield c.SupportSet(Support("road", "road", SupportKind.ROAD, frozenset(), Wheels.LOADED))
        for here, there, minutes in (
            ("stands", "wheels", 40),
            ("wheels", "stands", 45),
            ("wheels", "road", 5),
            ("road", "wheels", 5),
        ):
            yield c.SupportMoveSet(SupportMove(here, there, minutes))
        yield c.CarPlaced(Placement("stands"))
        day = date(2024, 1, 1)
        yield c.PatternSet(
            SessionPattern("eve", "evening", "FREQ=WEEKLY;BYDAY=MO,WE", time(19), 150, 1, day)
        )
        yield c.PatternSet(
            SessionPattern("sat", "Saturday", "FREQ=WEEKLY;BYDAY=SA", time(10), 300, 1, day)
        )
        yield c.PatternSet(
            SessionPattern(
                "help", "helper", "FREQ=WEEKLY;INTERVAL=2;BYDAY=SA", time(10), 300, 2, day
            )
        )

    def _jobs(self) -> Iterator[c.Change]:
        dice = self.dice
        for number in range(self.jobs):
            back = range(max(0, number - 25), number)
            after = dice.sample(back, min(len(back), dice.choice((0, 1, 1, 2))))
            likely = min(8.0, max(0.3, dice.lognormvariate(0.4, 0.7)))
            place = dice.choice((Place.CAR, Place.CAR, Place.CAR, Place.BENCH, Place.DESK))
            zone = dice.choice(tuple(Zone))
            yield c.JobSet(
                Job(
                    f"j{number:03d}",
                    f"Random work number {number}",
                    SYSTEMS[number * 7 % len(SYSTEMS)],
                    tuple(f"j{before:03d}" for before in after),
                    (
                        Way(
                            2 if dice.random() < 0.1 else 1,
                            ThreePoint(likely / 2, likely, likely * 2),
                        ),
                    ),
                    place=place,
                    zones=frozenset({zone}) if place is Place.CAR else frozenset(),
                    splittable=likely > 1.8,
                    wait=Wait(dice.choice((12, 24, 48))) if dice.random() < 0.1 else None,
                    lowest_temperature_c=10.0 if dice.random() < 0.06 else None,
                )
            )

    def _gates(self) -> Iterator[c.Change]:
        last = f"j{self.jobs - 1:03d}"
        early = tuple(f"j{n:03d}" for n in range(0, self.jobs // 2, 9))
        late = tuple(f"j{n:03d}" for n in range(self.jobs // 2 + 5, self.jobs - 30, 11))
        yield c.GateSet(Gate("under-car", "under-car", (), early, late))
        yield c.GateSet(Gate("road", "road", ("under-car",), (last,), ()))
        for number in range(0, self.jobs - 30, 2):
            cover = number + self.dice.randint(5, 25)
            yield c.ProofSet(
                Proof(
                    f"proof{number:03d}",
                    f"Random joint {number} dry",
                    made_by=(f"j{number:03d}",),
                    covered_by=(f"j{cover:03d}",),
                    gates=("under-car",) if number < self.jobs // 2 else ("road",),
                )
            )
        for number in range(0, self.jobs - 40, 40):
            yield c.TempSet(
                Temp(
                    f"temp{number}",
                    f"random strap {number}",
                    raised_by=f"j{number:03d}",
                    cleared_by=f"j{number + 30:03d}",
                )
            )

    def _parts(self) -> Iterator[c.Change]:
        dice = self.dice
        for number in range(self.parts):
            job = number * self.jobs // self.parts
            to = NeededTo.START if dice.random() < 0.4 else NeededTo.FINISH
            yield c.NeedSet(Need(f"need{number}", f"random part {number}", f"j{job:03d}", 1, to))
            roll = dice.random()
            if roll < 0.4:
                yield c.HoldingSet(
                    Holding(f"h{number}", f"random part {number}", 1, need=f"need{number}",
                            where=f"bin {number % 40}")
                )  # fmt: skip
            elif roll < 0.6:
                due = date(2026, 3, 1) + timedelta(days=dice.randint(-20, 120))
                yield c.OrderSet(
                    OrderLine(f"o{number}", f"random part {number}", f"need{number}", 1,
                              "random supplier", SourceClass.GENERAL, date(2025, 11, 1), due)
                )  # fmt: skip
                if dice.random() < 0.3:
                    yield c.GoodsChecked(f"o{number}", GoodsIn.RIGHT, 1, f"bin {number % 40}")

    def _work(self, number: int) -> Iterator[Dated]:
        job = f"j{number:03d}"
        if number % 3 == 0:
            start = self.now + timedelta(minutes=1)
            held = HeldSession(f"s{number}", start, start + timedelta(hours=2))
            yield self._at(c.SessionHeld(held))
        if self.dice.random() < 0.3:
            yield self._at(c.JobWorked(job, 1.0, 1.0))
        if number % 2 == 0 and number < self.jobs - 30:
            yield self._at(c.JobFinished(job, round(self.dice.uniform(0.4, 4), 1)))
            yield self._at(c.ProofHeld(f"proof{number:03d}"))
        else:
            yield self._at(c.JobFinished(job, round(self.dice.uniform(0.4, 4), 1)))
