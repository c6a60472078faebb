"""One change of every kind with every field said, in an order in which each is true."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from decimal import Decimal

from bareshell.model import changes as c
from bareshell.model.brake import (
    BrakeReading,
    BrakeSystem,
    Fitting,
    Line,
    LineEnd,
    LineKind,
    Part,
    PartKind,
    Port,
    ReadingKind,
    Role,
    Wheel,
)
from bareshell.model.car import Car, Layout
from bareshell.model.forecast import IssuedForecast, IssuedGate, PlannedWork
from bareshell.model.job import Caution, Job, Recheck, Wait, Way
from bareshell.model.looked import Seen
from bareshell.model.note import Lesson, Note, Photo
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
    HelperWork,
    SessionException,
    SessionPattern,
)
from bareshell.model.spec import GoodsSpec, PinSpec, UnionSpec
from bareshell.model.temp import Departure, Gate, Temp
from bareshell.model.trust import Stated, ThreePoint, Trust

BEGAN = datetime(2026, 3, 4, 18, 0, tzinfo=UTC)

PIPE = Job(
    "rear-pipe",
    "Rear brake pipe, tee to hose",
    "brakes",
    ways=(Way(1, ThreePoint(0.5, 1, 2.5), "pressure kit"), Way(2, ThreePoint(0.5, 0.75, 1.5))),
    place=Place.CAR,
    zones=frozenset({Zone.UNDERNEATH, Zone.WHEEL_ENDS_REAR}),
    wheels=Wheels.HANGING,
    level=True,
    off=frozenset({"seats out", "engine out"}),
    off_is_necessary=True,
    splittable=True,
    least_piece_hours=0.25,
    wait=Wait(12, stretches_with_cold=True, lowest_temperature_c=10, why="overnight hold"),
    lowest_temperature_c=5.0,
    weather="dry, daylight",
    tools=("flare tool", "union spanner"),
    tightens=("union 14 N.m",),
    cautions=(Caution("Skin and paint", "Fluid strips paint: rinse with water at once."),),
    dirty=True,
    dangerous_alone=True,
    helper_alone=True,
    takes_off=frozenset({"seats out"}),
    puts_back=frozenset({"glass out"}),
    rechecks=(Recheck(miles=50), Recheck(months=1)),
    twin="front-pipe",
    mark="common practice, no source",
    note='an \u201codd\u201d note: \u00e9, \u4e2d, \U0001f529, quotes " and \\ and\nnew lines',
)
HOSE = Job("rear-hose", "Rear hose", "brakes", after=("rear-pipe",))
TANK = Job("tank", "Fuel tank in", "fuel", after=("rear-hose",))
CARPET = Job("carpet", "Carpet", "interior")
SPARE = Job("spare", "Spare wheel well", "underbody")

READINGS = (Reading("pressure", 70.0, "bar", "gauge 2"), Reading("temperature", -1.5, "degC"))

MASTER = Part(
    "master",
    "Master cylinder",
    PartKind.MASTER,
    at_m=(0.45, -0.38),
    figures={"bore_m": Stated(0.01905, Trust.MARKED)},
    choices={"form": "single"},
    ports=(Port("out", "primary", fitting=Fitting("M10x1", "female", "45 degree")),),
)
CALIPER = Part(
    "caliper-fl",
    "Front left caliper",
    PartKind.CALIPER,
    Wheel.FRONT_LEFT,
    (0.0, -0.6),
    {"a_bore_m": Stated(0.048, Trust.MEASURED, 0.04795, 0.04805)},
    {"form": "fixed"},
    (Port("in", "a"), Port("bleed", "a", bleeds=True, at_top=True)),
    "servo",
    "new seals",
)
FRONT_PIPE = Line(
    "pipe-fl",
    "Pipe to the front left hose",
    LineKind.PIPE,
    (LineEnd("master", "out", Fitting("M10x1", "male", flare="convex")), LineEnd()),
    {"length_m": Stated(0.9, Trust.ASSUMED, 0.8, 1.1)},
    {"material": "copper-nickel"},
    ((0.3, -0.4), (0.1, -0.5)),
    "servo",
    "clipped every 200 mm",
)

DEFINITIONS: tuple[c.Change, ...] = (
    c.CarDescribed(
        Car(
            "The invented saloon",
            Layout.REAR,
            frozenset({"brakes", "fuel"}),
            frozenset({"forced induction"}),
            invented=True,
            zone="Europe/London",
            currency="EUR",
            units="imperial",
            words="no such car was ever made",
        )
    ),
    c.GarageDescribed(Garage(None, tuple(float(m) for m in range(12)), 10, 20, HelperWork.MARKED)),
    c.SupportSet(
        Support(
            "stands", "Four stands", SupportKind.STANDS, frozenset(Zone), Wheels.HANGING, level=True
        )
    ),
    c.SupportSet(
        Support(
            "wheels", "Its wheels", SupportKind.WHEELS, frozenset(), Wheels.LOADED, rollable=True
        )
    ),
    c.SupportMoveSet(
        SupportMove("stands", "wheels", 45, 2, frozenset({"seats out"}), frozenset({"doors off"}))
    ),
    c.JobSet(PIPE),
    c.JobSet(HOSE),
    c.JobSet(TANK),
    c.JobSet(CARPET),
    c.JobSet(SPARE),
    c.NeedSet(
        Need(
            "tee-union",
            "Union for the tee",
            "rear-pipe",
            2,
            NeededTo.START,
            UnionSpec(thread="M10x1", sex="male", flare="convex", pipe_diameter_m=0.00475),
            "bag 7",
            fixing=True,
            mark="yours",
            note="the old one is rounded",
        )
    ),
    c.NeedSet(Need("hose", "Flexible hose", "rear-hose")),
    c.NeedSet(Need("clip", "Clip", "carpet")),
    c.OrderSet(
        OrderLine(
            "o-hose",
            "Flexible hose",
            "hose",
            3,
            "an invented shop",
            SourceClass.EXCHANGE,
            date(2026, 3, 1),
            date(2026, 3, 20),
            Money(Decimal("12.50"), "EUR"),
            Exchange(date(2026, 4, 1), Money(Decimal("5.00"), "EUR"), None),
            GoodsSpec(what="hose", amount="3", shelf_life_months=60, lowest_temperature_c=-5.0),
            "ring first",
        )
    ),
    c.OrderSet(OrderLine("o-clip", "Clips", "clip")),
    c.GateSet(Gate("under-car", "Under the car", (), ("rear-pipe",), ("tank",), "All dry.")),
    c.GateSet(Gate("road", "The road", ("under-car",))),
    c.ProofSet(
        Proof(
            "tee-dry",
            "Every joint at the tee dry",
            ProofKind.HELD_PRESSURE,
            AboutKind.JOINT,
            "rear tee",
            ("rear-pipe",),
            "rear-hose",
            ("tank",),
            ("under-car",),
            (Limit("pressure", "bar", 70.0, None, "common practice, no source"),),
            12.0,
            365,
            "common practice, no source",
            ("spare",),
        )
    ),
    c.ProofSet(Proof("seam-seen", "Seam seen", made_by=("spare",), covered_by=("carpet",))),
    c.ProofSet(Proof("old-joint", "Joint of a pipe that was")),
    c.TempSet(Temp("rag", "Rag in the port", "a cap", "road", "rear-pipe", "tank", "clip")),
    c.DepartureSet(
        Departure(
            "servo",
            "No servo",
            "brakes",
            "vacuum servo",
            "none",
            "box 3",
            "fit it again",
            ("rear-pipe",),
        )
    ),
    c.PatternSet(
        SessionPattern(
            "wed",
            "Wednesday evening",
            "FREQ=WEEKLY;BYDAY=WE",
            time(19, 30),
            150,
            2,
            date(2026, 1, 7),
        )
    ),
    c.PatternSet(SessionPattern("old", "Sundays", "FREQ=WEEKLY;BYDAY=SU", time(9), 60)),
    c.ExceptionSet(SessionException(date(2026, 3, 11), 0, None, None, "a wedding")),
)

HAPPENINGS: tuple[c.Change, ...] = (
    c.CarPlaced(Placement("stands", frozenset({"glass out"})), "level to 2 mm"),
    c.JobStarted("rear-pipe"),
    c.JobWorked("rear-pipe", 1.25, 0.5, "two flares spoilt"),
    c.JobFinished("rear-pipe", 0.75, "clipped"),
    c.JobDoneBefore("spare"),
    c.JobNotDone("spare", "rust"),
    c.JobLeftOut("spare"),
    c.JobTakenIn("spare"),
    c.NeedNotHere("tee-union", "looked in every box"),
    c.HoldingSet(
        Holding(
            "pins",
            "Clevis pins",
            4,
            PinSpec(diameter_m=0.00635, head="flat"),
            "clip",
            "tin 2",
            Trust.MEASURED,
            "good",
            unlike=True,
            away="at the plater",
            note="from the old linkage",
        )
    ),
    c.HoldingSet(Holding("bolts", "Bolts")),
    c.HoldingDropped("bolts", "lost"),
    c.OrderExpected("o-hose", date(2026, 3, 25), "they rang"),
    c.GoodsChecked("o-hose", GoodsIn.SHORT, 1, "shelf 1", "two to follow"),
    c.ExchangeReturned("o-hose", date(2026, 3, 30)),
    c.OrderCancelled("o-clip", "found some"),
    c.NeedDropped("clip"),
    c.ProofBegun("tee-dry", READINGS, "pumped up"),
    c.ProofFailed("tee-dry", READINGS, "weeps"),
    c.ProofHeld("tee-dry", READINGS, "dry"),
    c.ProofSpent("tee-dry", "union undone"),
    c.ProofDropped("old-joint", "the pipe is gone"),
    c.JobFinished("rear-hose", 1.0),
    c.JobFinished("carpet", 2.0),
    c.ProofSubstituted("seam-seen", "endoscope", READINGS, "through the drain"),
    c.ProofUncovered("seam-seen", "carpet lifted"),
    c.ProofHeld("tee-dry", READINGS),
    c.TempRaised("rag", "for the night"),
    c.TempCleared("rag", "out again"),
    c.GatePassed("under-car", "the owner", "all dry"),
    c.JobFinished("tank", 2.0),
    c.JobTakenOff("tank", "sender leaks"),
    c.DepartureReturned("servo", "fitted again"),
    c.PatternDropped("old"),
    c.SessionHeld(
        HeldSession(
            "s-1",
            datetime(2026, 3, 4, 19, 30, tzinfo=UTC),
            datetime(2026, 3, 4, 22, 0, 0, 125, tzinfo=UTC),
            2,
            8.5,
            "cold",
        )
    ),
    c.NoteWritten(Note("n-1", BEGAN, "the tee is \u00be inch", "job:rear-pipe")),
    c.LessonLearned(Lesson("l-1", BEGAN, "flare both ends first", "rear-pipe")),
    c.PhotoKept(
        Photo("p-1", BEGAN, "2026-03-04-0011223344556677.jpg", "00" * 32, "job:tank", "the tee")
    ),
    c.ForecastIssued(
        IssuedForecast(
            "2026-03-04",
            BEGAN,
            date(2026, 6, 1),
            date(2026, 7, 6),
            date(2026, 8, 31),
            (date(2026, 5, 20), date(2026, 8, 2)),
            2000,
            7,
            41.5,
            (IssuedGate("under-car", date(2026, 4, 1), date(2026, 4, 20), date(2026, 5, 4)),),
            (PlannedWork(date(2026, 3, 11), "tank"),),
        )
    ),
    c.ItemLookedAt("horn", Seen.WRONG, "owner", "rattles at full lock"),
    c.MilesRead(50.5, "home again"),
    c.BrakeSystemSet(BrakeSystem("built", "As built", parts=(MASTER,), mark="yours", note="new")),
    c.BrakeSystemSet(BrakeSystem("works", "As it left the works", Role.STANDARD)),
    c.BrakePartSet("built", CALIPER),
    c.BrakeLineSet("built", FRONT_PIPE),
    c.BrakePartSet("built", Part("spare-tee", "Spare tee", PartKind.TEE, ports=(Port("a"),))),
    c.BrakePartDropped("built", "spare-tee", "not wanted"),
    c.BrakeLineSet("built", Line("odd", "Odd pipe", LineKind.PIPE, (LineEnd(), LineEnd()))),
    c.BrakeLineDropped("built", "odd", "cut up"),
    c.BrakeReadingTaken(
        BrakeReading(
            "first-pedal",
            ReadingKind.PEDAL_TEST,
            BEGAN,
            {"first_force_n": 100.0, "first_travel_m": 0.031},
            {"when": "before the road"},
            "firm",
            "the owner",
            "built",
        )
    ),
    c.YardsticksChosen(("un-13h", "gb-annual")),
    c.BrakeSystemDropped("works", "not known after all"),
    c.SupportDropped("wheels"),
)

EVERY: tuple[c.Change, ...] = (*DEFINITIONS, *HAPPENINGS)
"""All but the two that the door writes itself: ``Withdrawn`` and ``Settled``."""

OF_THE_RECORD: tuple[c.Change, ...] = (
    c.Withdrawn("an-entry", "typed twice"),
    c.Settled("an-entry", keep=True, words="both are true"),
)
