"""Builds of every shape, made up at random but the same for the same number."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from random import Random

from bareshell.errors import BareshellError
from bareshell.model import Build, Entry, decide, fold
from bareshell.model import changes as c
from bareshell.model.car import OPTIONAL_SYSTEMS, Car, Layout
from bareshell.model.job import SYSTEMS, Caution, Job, Recheck, Wait, Way
from bareshell.model.note import Lesson, Note
from bareshell.model.part import (
    Exchange,
    GoodsIn,
    Holding,
    Money,
    Need,
    NeededTo,
    OrderLine,
    SourceClass,
)
from bareshell.model.position import (
    BODY_STATES,
    Place,
    Placement,
    Support,
    SupportKind,
    SupportMove,
    Wheels,
    Zone,
)
from bareshell.model.proof import AboutKind, Limit, Proof, ProofKind, Reading
from bareshell.model.session import (
    Garage,
    HeldSession,
    SessionException,
    SessionPattern,
)
from bareshell.model.spec import (
    BoltSpec,
    CylinderSpec,
    ElectricalSpec,
    GoodsSpec,
    HoseSpec,
    PinSpec,
    PipeSpec,
    PlainSpec,
    Spec,
)
from bareshell.model.temp import Departure, Gate, Temp
from bareshell.model.trust import ThreePoint, Trust

FIRST = datetime(2025, 9, 1, 19, 30, tzinfo=UTC)
NOW = datetime(2026, 3, 4, 18, 0, tzinfo=UTC)

_WORDS = (
    "rear pipe",
    'the "long" one, 3/8" UNF',
    "gaine de frein, côté gauche",
    "two lines\nof words",
    "  spaces kept  ",
    "# not a comment",
    "back\\slash and 'quotes'",
    '"""three quotes"""',
    "tab\there",
    "[[job]]",
    "=1+1",
)


def land(build: Build, change: c.Change, at: datetime) -> Build:
    """Decide a change and fold it in."""
    decide(build, change)
    return fold([Entry(build.seq + 1, f"e{build.seq + 1}", at, at, "owner", change)], build)


def some_build(number: int) -> Build:
    """Return a made-up build: the same for the same number."""
    return _Maker(Random(number)).make()


class _Maker:
    def __init__(self, chance: Random) -> None:
        self.chance = chance
        self.build = Build()
        self.at = FIRST

    def make(self) -> Build:
        for define in (self._car, self._bay, self._jobs, self._parts, self._proofs, self._words):
            define()
        for _ in range(self.chance.randrange(40)):
            self._something_happens()
        return self.build

    def put(self, change: c.Change) -> None:
        self.at += timedelta(minutes=self.chance.choice((0, 1, 50, 3000)))
        try:
            self.build = land(self.build, change, self.at)
        except BareshellError:
            return

    # --- chance ------------------------------------------------------------------------------

    def yes(self) -> bool:
        return self.chance.random() < 0.4

    def words(self) -> str:
        return self.chance.choice(_WORDS) if self.yes() else ""

    def some(self, of: object, most: int = 3) -> tuple[str, ...]:
        listed = list(of)  # type: ignore[call-overload]
        return tuple(self.chance.sample(listed, min(len(listed), self.chance.randrange(most + 1))))

    def hours(self) -> float:
        return self.chance.choice((0.25, 0.5, 1, 1.5, 2.75, 1 / 3, 8))

    def length(self) -> float | None:
        return self.chance.choice((None, 0.01, 0.01905, 0.0047625, 1.25, 0.000035))

    def day(self) -> date:
        return date(2025, 9, 1) + timedelta(days=self.chance.randrange(200))

    def spec(self) -> Spec:
        makers: tuple[Callable[[], Spec], ...] = (
            lambda: PlainSpec(words=self.words()),
            lambda: BoltSpec(
                thread=self.chance.choice((None, "M10x1", "3/8-24 UNF")),
                length_m=self.length(),
                head=self.words() or None,
            ),
            lambda: PinSpec(diameter_m=self.length(), diameter_tolerance_m=0.00002),
            lambda: PipeSpec(outside_diameter_m=0.0047625, length_m=self.length()),
            lambda: HoseSpec(clocking_deg=self.chance.choice((None, 0.0, 37.5, -90.0))),
            lambda: CylinderSpec(bore_m=self.length(), pistons=self.chance.choice((None, 1, 4))),
            lambda: GoodsSpec(shelf_life_months=12, lowest_temperature_c=-3.5),
            lambda: ElectricalSpec(volts=12.0, amps=self.chance.choice((None, 7.5)), area_mm2=1.5),
        )
        return self.chance.choice(makers)()

    # --- definitions -------------------------------------------------------------------------

    def _car(self) -> None:
        if self.chance.random() < 0.9:
            car = Car(
                "Made-up car",
                self.chance.choice(list(Layout)),
                frozenset(self.some(OPTIONAL_SYSTEMS, 14)),
                frozenset({"forced induction"}) if self.yes() else frozenset(),
                invented=True,
                zone=self.chance.choice(("Europe/London", "Australia/Adelaide", "UTC")),
                currency=self.chance.choice(("GBP", "EUR")),
                units=self.chance.choice(("metric", "imperial")),
                words=self.words(),
            )
            self.put(c.CarDescribed(car))
        if self.yes():
            months = tuple(float(self.chance.randrange(-5, 25)) for _ in range(12))
            self.put(c.GarageDescribed(Garage(12.5 if self.yes() else None, months, 10, 20)))

    def _bay(self) -> None:
        for number in range(self.chance.randrange(1, 4)):
            support = Support(
                f"s{number}",
                self.chance.choice(_WORDS),
                self.chance.choice(list(SupportKind)),
                frozenset(Zone(each) for each in self.some(Zone, 9)),
                self.chance.choice(list(Wheels)),
                self.yes(),
                self.yes(),
            )
            self.put(c.SupportSet(support))
            self.put(c.SupportMoveSet(SupportMove("s0", f"s{number}", 30, 2 if self.yes() else 1)))
        self.put(c.CarPlaced(Placement("s0", frozenset(self.some(BODY_STATES)))))
        for number in range(self.chance.randrange(3)):
            pattern = SessionPattern(
                f"p{number}", "evening", "FREQ=WEEKLY;BYDAY=MO,WE", time(19, 30), 150, 1, self.day()
            )
            self.put(c.PatternSet(pattern))
            exception = SessionException(self.day(), 0, 2 if self.yes() else None, words="away")
            self.put(c.ExceptionSet(exception))

    def _jobs(self) -> None:
        for number in range(self.chance.randrange(1, 9)):
            low = self.hours()
            ways = tuple(
                Way(people, ThreePoint(low, low * 2, low * 3), self.words())
                for people in ((1,), (1, 2), (2,))[self.chance.randrange(3)]
            )
            wait = Wait(12.0, self.yes(), self.chance.choice((None, 10.0)), self.words())
            self.put(
                c.JobSet(
                    Job(
                        f"j{number}",
                        self.chance.choice(_WORDS),
                        self.chance.choice(SYSTEMS),
                        after=self.some(self.build.jobs),
                        ways=ways,
                        place=self.chance.choice(list(Place)),
                        zones=frozenset(Zone(each) for each in self.some(Zone)),
                        wheels=self.chance.choice(list(Wheels)),
                        level=self.yes(),
                        off=frozenset(self.some(BODY_STATES)),
                        splittable=self.yes(),
                        least_piece_hours=self.hours(),
                        wait=wait if self.yes() else None,
                        lowest_temperature_c=self.chance.choice((None, 5.0, -1.5)),
                        weather=self.words(),
                        tools=self.some(_WORDS),
                        tightens=self.some(_WORDS),
                        cautions=(Caution("Eyes", "glasses on"),) if self.yes() else (),
                        dirty=self.yes(),
                        rechecks=(Recheck(500, None), Recheck(None, 6)) if self.yes() else (),
                        twin="j0" if self.yes() else None,
                        mark=self.chance.choice(("yours", "common practice, no source")),
                        note=self.words(),
                    )
                )
            )

    def _parts(self) -> None:
        for number in range(self.chance.randrange(6)):
            need = Need(
                f"n{number}",
                self.chance.choice(_WORDS),
                self.chance.choice(list(self.build.jobs)),
                self.chance.randrange(1, 9),
                self.chance.choice(list(NeededTo)),
                self.spec(),
                self.words(),
                self.yes(),
                "",
                self.words(),
            )
            self.put(c.NeedSet(need))
        needs = [None, *self.build.needs]
        for number in range(self.chance.randrange(5)):
            price = Money(Decimal(self.chance.choice(("12.50", "3", "0.055"))), "GBP")
            line = OrderLine(
                f"o{number}",
                self.chance.choice(_WORDS),
                self.chance.choice(needs),
                self.chance.randrange(1, 5),
                self.words(),
                self.chance.choice(list(SourceClass)),
                date(2025, 8, 1),
                self.day() if self.yes() else None,
                price if self.yes() else None,
                Exchange(self.day(), price, None) if self.yes() else None,
                self.spec(),
                self.words(),
            )
            self.put(c.OrderSet(line))
            self.put(c.HoldingSet(self._holding(f"h{number}")))

    def _holding(self, name: str) -> Holding:
        return Holding(
            name,
            self.chance.choice(_WORDS),
            self.chance.randrange(5),
            self.spec(),
            self.chance.choice([None, *self.build.needs]),
            self.words(),
            self.chance.choice(list(Trust)),
            self.words(),
            self.yes(),
            self.words(),
            self.words(),
        )

    def _proofs(self) -> None:
        for number in range(self.chance.randrange(4)):
            gate = Gate(
                f"g{number}",
                self.chance.choice(_WORDS),
                self.some(self.build.gates),
                self.some(self.build.jobs),
                self.some(self.build.jobs, 1),
                self.words(),
            )
            self.put(c.GateSet(gate))
        for number in range(self.chance.randrange(5)):
            jobs = list(self.build.jobs)
            self.chance.shuffle(jobs)
            limit = Limit("pressure", "bar", 70.0, None, self.words())
            proof = Proof(
                f"q{number}",
                self.chance.choice(_WORDS),
                self.chance.choice(list(ProofKind)),
                self.chance.choice(list(AboutKind)),
                self.words(),
                tuple(jobs[:1]),
                jobs[1] if len(jobs) > 1 and self.yes() else None,
                tuple(jobs[2:4]),
                self.some(self.build.gates),
                (limit,) if self.yes() else (),
                self.chance.choice((None, 12.0)),
                self.chance.choice((None, 365)),
                self.words(),
                tuple(jobs[4:5]),
            )
            self.put(c.ProofSet(proof))
        for number, gate_id in enumerate(self.build.gates):
            jobs = list(self.build.jobs)
            temp = Temp(f"t{number}", "caps", self.words(), gate_id, jobs[0], jobs[-1], None)
            self.put(c.TempSet(temp))
        if self.yes():
            departure = Departure("d0", "servo", "brakes", "none", "line servo", jobs=("j0",))
            self.put(c.DepartureSet(departure))

    def _words(self) -> None:
        if self.yes():
            self.put(c.NoteWritten(Note("note-1", self.at, self.chance.choice(_WORDS), "job:j0")))
            self.put(c.LessonLearned(Lesson("l-1", self.at, "start at the far end", "j0")))
            ended = self.at + timedelta(hours=2)
            self.put(c.SessionHeld(HeldSession("x-1", self.at, ended, 1, 7.5, self.words())))

    # --- what happens ------------------------------------------------------------------------

    def _something_happens(self) -> None:
        job = self.chance.choice(list(self.build.jobs))
        kinds: list[Callable[[], c.Change]] = [
            lambda: c.JobStarted(job),
            lambda: c.JobWorked(job, self.hours(), self.chance.choice((None, 1.0))),
            lambda: c.JobFinished(job, self.chance.choice((None, 2.0))),
            lambda: c.JobFinished(job, self.hours()),
            lambda: c.JobDoneBefore(job),
            lambda: c.JobTakenOff(job),
            lambda: c.JobNotDone(job),
            lambda: c.JobLeftOut(job),
            lambda: c.JobTakenIn(job),
            lambda: c.CarPlaced(Placement(self.chance.choice(list(self.build.supports)))),
        ]
        if self.build.needs:
            need = self.chance.choice(list(self.build.needs))
            kinds += [lambda: c.NeedNotHere(need), lambda: c.NeedDropped(need)]
        if self.build.holdings:
            held = self.chance.choice(list(self.build.holdings))
            again = replace(self._holding(held), quantity=1)
            kinds += [lambda: c.HoldingDropped(held), lambda: c.HoldingSet(again)]
        if self.build.orders:
            order = self.chance.choice(list(self.build.orders))
            outcome = self.chance.choice(list(GoodsIn))
            kinds += [
                lambda: c.GoodsChecked(order, outcome, 1, "box 3", self.words()),
                lambda: c.OrderExpected(order, date(2026, 5, 1)),
                lambda: c.OrderCancelled(order),
                lambda: c.ExchangeReturned(order, date(2026, 1, 5)),
            ]
        if self.build.proofs:
            proof = self.chance.choice(list(self.build.proofs))
            readings = (Reading("pressure", 71.5, "bar", "gauge"),) if self.yes() else ()
            kinds += [
                lambda: c.ProofBegun(proof, readings, self.words()),
                lambda: c.ProofHeld(proof, readings, self.words()),
                lambda: c.ProofHeld(proof, readings, "dry"),
                lambda: c.ProofFailed(proof, (), self.words()),
                lambda: c.ProofSpent(proof, self.words()),
                lambda: c.ProofUncovered(proof),
                lambda: c.ProofSubstituted(proof, "held 70 bar for 12 h", readings),
            ]
        if self.build.gates:
            gate = self.chance.choice(list(self.build.gates))
            kinds.append(lambda: c.GatePassed(gate, "A. Owner", self.words()))
        if self.build.temps:
            temp = self.chance.choice(list(self.build.temps))
            kinds += [lambda: c.TempRaised(temp), lambda: c.TempCleared(temp)]
        self.put(self.chance.choice(kinds)())
