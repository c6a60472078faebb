"""Two small invented builds that the lines are said about. No such cars exist.

The first uses the words of the starter network. The second deliberately does not: another
country's words, another kind of car, so that the reader is not tuned to one vocabulary.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from bareshell.model import Build, Entry, fold
from bareshell.model import changes as c
from bareshell.model.car import Car
from bareshell.model.job import Job, Way
from bareshell.model.part import Holding, Need, OrderLine
from bareshell.model.position import Placement, Support, SupportKind, Wheels
from bareshell.model.proof import AboutKind, Limit, Proof, ProofKind, Reading
from bareshell.model.session import SessionPattern
from bareshell.model.temp import Gate, Temp
from bareshell.model.trust import ThreePoint

ZONE = ZoneInfo("Europe/London")
AT = datetime(2026, 11, 25, 21, 45, tzinfo=UTC)
"""A Wednesday, a quarter to ten in the evening; the clocks are on winter time."""

LONG_AGO = datetime(2026, 10, 3, 15, 0, tzinfo=UTC)


def kept(pairs: Iterable[tuple[datetime, c.Change]], start: Build | None = None) -> Build:
    """Fold changes as if a journal had kept them."""
    first = start.seq if start else 0
    entries = [
        Entry(first + n, f"e{first + n}", at, at, "owner", change)
        for n, (at, change) in enumerate(pairs, 1)
    ]
    return fold(entries, start)


def job(
    key: str,
    title: str,
    system: str,
    after: tuple[str, ...] = (),
    *,
    likely: float = 2.0,
    twin: str | None = None,
    people: int = 1,
) -> c.JobSet:
    hours = ThreePoint(likely / 2, likely, likely * 2)
    return c.JobSet(Job(key, title, system, after, (Way(people, hours),), twin=twin))


JOBS = (
    job("loom-main", "Fit the main wiring through the bulkhead and bay", "electrics", likely=5),
    job(
        "fuse-box",
        "Fit fuse box, relays and the link to the ignition switch",
        "electrics",
        ("loom-main",),
    ),
    job(
        "loom-test",
        "Test every circuit end to end with no battery fitted",
        "electrics",
        ("fuse-box",),
        likely=3,
    ),
    job("earth-points", "Bare, fit and protect each earth point", "electrics"),
    job("heater-bench", "Overhaul the heater: matrix, valve, flaps, fan", "cooling", likely=4),
    job(
        "heater-fit",
        "Fit heater unit and its pipes through the bulkhead",
        "cooling",
        ("heater-bench", "loom-main"),
        likely=3,
    ),
    job("radiator", "Fit radiator, fan cowl and top and bottom hoses", "cooling"),
    job("pipe-under", "Make and fit the long pipe to the rear", "brakes", likely=4),
    job("pipe-rear", "Make and fit rear cross pipes or axle pipes", "brakes", ("pipe-under",)),
    job(
        "valve-fit",
        "Fit the balance or pressure-limiting valve and junctions",
        "brakes",
        ("pipe-under",),
        likely=1,
    ),
    job(
        "lines-hold",
        "Plug the wheel ends and hold pressure on the rigid lines overnight",
        "brakes",
        ("pipe-rear", "valve-fit"),
        likely=1.5,
    ),
    job(
        "caliper-l", "Fit front caliper, pads, pins and clips, nearside", "brakes", twin="caliper-r"
    ),
    job(
        "caliper-r", "Fit front caliper, pads, pins and clips, offside", "brakes", twin="caliper-l"
    ),
    job(
        "hose-l",
        "Fit front flexible hose, nearside",
        "brakes",
        ("caliper-l",),
        likely=0.5,
        twin="hose-r",
    ),
    job(
        "hose-r",
        "Fit front flexible hose, offside",
        "brakes",
        ("caliper-r",),
        likely=0.5,
        twin="hose-l",
    ),
    job("shoes-rear", "Fit rear brake shoes, wheel cylinders and adjusters", "brakes"),
    job("handbrake", "Fit handbrake lever, cables and compensator", "brakes"),
    job("bleed", "Bleed the brakes", "brakes", ("lines-hold", "hose-l", "hose-r"), people=2),
    job("fuel-line", "Run the fuel pipe beneath and clip it", "fuel", likely=3),
    job(
        "fuel-hold",
        "Low-pressure hold on the fuel pipe before tank and exhaust hide it",
        "fuel",
        ("fuel-line",),
        likely=1,
    ),
    job(
        "tank-fit",
        "Fit tank, straps, filler, vent and sealing",
        "fuel",
        ("fuel-hold", "lines-hold"),
        likely=3,
    ),
    job("exhaust", "Fit exhaust manifold, down pipe and silencers", "exhaust", likely=3),
    job("doors-hang", "Hang and align doors", "body fittings", likely=4),
    job("door-seals", "Fit door aperture seals", "body fittings", ("doors-hang",)),
    job(
        "door-glass",
        "Fit glass channels, regulator, quarter light and door glass",
        "glass",
        ("doors-hang",),
        likely=6,
    ),
    job("boot-lid", "Hang the boot lid and set its gaps", "body fittings"),
    job("bonnet", "Fit bonnet, hinges, catch and stay", "body fittings"),
    job("wiper", "Fit wiper motor, rack or linkage and wheel boxes", "body fittings"),
    job(
        "dash-fit", "Fit dash panel and instruments", "interior", ("heater-fit", "wiper"), likely=4
    ),
    job("seats", "Bolt in seats and runners", "interior", likely=1),
    job("carpet", "Lay underfelt and carpets", "interior", likely=3),
    job(
        "headlining",
        "Fit headlining, roof lamp wire and roof-rail trim",
        "interior",
        likely=6,
        people=2,
    ),
    job("damper-fl", "Fit front spring and damper, nearside", "suspension", twin="damper-fr"),
    job("damper-fr", "Fit front spring and damper, offside", "suspension", twin="damper-fl"),
    job("hub-rear-r", "Fit rear hub and bearing, offside", "suspension"),
)

GATES = (
    c.GateSet(Gate("under", "Under-car", (), ("lines-hold",), ("tank-fit",))),
    c.GateSet(Gate("first-start", "First start", ("under",), ("radiator",))),
    c.GateSet(Gate("road", "Road", ("first-start",), ("bleed",))),
)

PROOFS = (
    c.ProofSet(
        Proof(
            "matrix",
            "Heater matrix holds 1 bar under water",
            ProofKind.HELD_PRESSURE,
            AboutKind.ASSEMBLY,
            "heater matrix",
            ("heater-bench",),
            None,
            ("heater-fit",),
            ("first-start",),
            (Limit("pressure", "bar", low=1.0),),
            hold_hours=1 / 6,
        )
    ),
    c.ProofSet(
        Proof(
            "heater-joints",
            "Heater pipe joints dry, warm and cold",
            ProofKind.SEEN,
            AboutKind.JOINT,
            "heater pipe joints",
            ("heater-fit",),
            None,
            ("dash-fit",),
            ("first-start", "road"),
        )
    ),
    c.ProofSet(
        Proof(
            "rear-tee",
            "Rear tee and axle unions dry at 70 bar overnight",
            ProofKind.HELD_PRESSURE,
            AboutKind.JOINT,
            "rear tee",
            ("pipe-rear",),
            "lines-hold",
            ("tank-fit",),
            ("under", "road"),
            (Limit("pressure", "bar", low=70.0, high=80.0),),
            hold_hours=12,
        )
    ),
    c.ProofSet(
        Proof(
            "fuel-joints",
            "Fuel pipe joints dry at 0.3 bar for an hour",
            ProofKind.HELD_PRESSURE,
            AboutKind.JOINT,
            "fuel pipe joints",
            ("fuel-line",),
            "fuel-hold",
            ("tank-fit",),
            ("under",),
            (Limit("pressure", "bar", low=0.3, high=0.5),),
            hold_hours=1,
        )
    ),
    c.ProofSet(
        Proof(
            "earth",
            "Each earth point under 0.1 ohm to the battery earth",
            ProofKind.MEASURED,
            AboutKind.CIRCUIT,
            "earth points",
            ("earth-points",),
            None,
            (),
            ("first-start",),
            (Limit("resistance", "ohm", high=0.1),),
        )
    ),
    c.ProofSet(
        Proof(
            "caliper-bolts-r",
            "Caliper bolts torqued and marked, offside",
            ProofKind.TORQUE,
            AboutKind.FIXING,
            "caliper bolts, offside",
            ("caliper-r",),
            None,
            (),
            ("road",),
            (Limit("torque", "N.m", low=75, high=85),),
        )
    ),
    c.ProofSet(
        Proof(
            "hub-nut-r",
            "Rear hub nut torqued, offside",
            ProofKind.TORQUE,
            AboutKind.FIXING,
            "hub nut",
            ("hub-rear-r",),
            None,
            (),
            ("road",),
            (Limit("torque", "N.m", low=250, high=265),),
        )
    ),
    c.ProofSet(
        Proof(
            "door-gap",
            "Door gap even all round",
            ProofKind.MEASURED,
            AboutKind.ASSEMBLY,
            "door gap",
            ("doors-hang",),
            None,
            (),
            (),
            (Limit("gap", "mm", low=4, high=5),),
        )
    ),
    c.ProofSet(
        Proof(
            "charge",
            "Charging voltage at the battery, engine at a fast idle",
            ProofKind.MEASURED,
            AboutKind.CIRCUIT,
            "charging",
            ("loom-test",),
            None,
            (),
            ("road",),
            (Limit("voltage", "V", low=13.5, high=14.6),),
        )
    ),
)

NEEDS = (
    c.NeedSet(Need("heater-clips", "Hose clips", "heater-fit", 4, fixing=True)),
    c.NeedSet(Need("heater-foam", "Foam seal for the heater box", "heater-fit", 1)),
    c.NeedSet(
        Need("copper-washers", "Copper washers for the flexible hoses", "hose-r", 4, fixing=True)
    ),
    c.NeedSet(Need("wheel-cylinders", "Rear wheel cylinders", "shoes-rear", 2)),
    c.NeedSet(Need("door-rubbers", "Door seal rubber", "door-seals", 2)),
    c.NeedSet(Need("relay", "Headlamp relay", "fuse-box", 1)),
    c.NeedSet(Need("split-pins", "Split pins for the hub nuts", "hub-rear-r", 2, fixing=True)),
    c.NeedSet(Need("seat-bolts", "Seat runner bolts", "seats", 8, fixing=True)),
    c.NeedSet(Need("thermostat", "Thermostat and gasket", "radiator", 1)),
)

ORDERS = (
    c.OrderSet(
        OrderLine(
            "o-rubbers",
            "Door seal rubber, pair",
            "door-rubbers",
            2,
            ordered_on=date(2026, 11, 2),
            expected_on=date(2026, 11, 20),
        )
    ),
    c.OrderSet(
        OrderLine(
            "o-cylinders",
            "Rear wheel cylinders",
            "wheel-cylinders",
            2,
            ordered_on=date(2026, 11, 10),
            expected_on=date(2026, 12, 1),
        )
    ),
    c.OrderSet(OrderLine("o-relay", "Headlamp relay", "relay", 1)),
)

TEMPS = (
    c.TempSet(
        Temp(
            "plugs",
            "Wheel-end plugs in the brake pipes",
            "flexible hoses",
            "road",
            raised_by="lines-hold",
            cleared_by="bleed",
        )
    ),
    c.TempSet(
        Temp("damper-bolt", "Temporary bolt in the nearside damper top", "shouldered bolt", "road")
    ),
)

SUPPORTS = tuple(
    c.SupportSet(Support(key, title, kind, frozenset(), wheels))
    for key, title, kind, wheels in (
        ("stands", "Axle stands", SupportKind.STANDS, Wheels.HANGING),
        ("lift", "Scissor lift", SupportKind.SCISSOR_LIFT, Wheels.HANGING),
        ("wheels", "On its wheels", SupportKind.WHEELS, Wheels.LOADED),
    )
)

PATTERNS = (
    c.PatternSet(
        SessionPattern("wed", "Wednesday evening", "FREQ=WEEKLY;BYDAY=WE", time(19, 0), 150)
    ),
    c.PatternSet(
        SessionPattern("fri", "Friday evening", "FREQ=WEEKLY;BYDAY=FR", time(19, 30), 120)
    ),
    c.PatternSet(SessionPattern("sat", "Saturday", "FREQ=WEEKLY;BYDAY=SA", time(10, 0), 300)),
)

DONE = ("loom-main", "heater-bench", "pipe-under", "caliper-l", "doors-hang")

TONIGHT = ("heater-fit", "fuse-box", "pipe-rear", "valve-fit", "caliper-r")
"""What tonight's list offers, best first."""


def small_build() -> Build:
    """A small rear-driven saloon, invented, some weeks into its rebuilding."""
    definitions: list[c.Change] = [
        c.CarDescribed(Car("The invented saloon", invented=True)),
        *SUPPORTS,
        *JOBS,
        *GATES,
        *PROOFS,
        *NEEDS,
        *ORDERS,
        *TEMPS,
        *PATTERNS,
    ]
    done: list[c.Change] = [c.JobFinished(key, 3.0) for key in DONE]
    other: list[c.Change] = [
        c.CarPlaced(Placement("lift", frozenset({"engine out"}))),
        c.TempRaised("damper-bolt", "until the shouldered bolt is here"),
        c.HoldingSet(Holding("h-foam", "Foam seal", 1, need="heater-foam", where="shelf 2")),
    ]
    pairs = [(LONG_AGO - timedelta(days=30), change) for change in definitions]
    pairs += [(LONG_AGO + timedelta(hours=n), change) for n, change in enumerate(done)]
    pairs += [(LONG_AGO + timedelta(days=1), change) for change in other]
    return kept(pairs)


def build_under_pressure() -> Build:
    """The same build with the rear lines done and an overnight hold begun."""
    evening = AT - timedelta(days=1)
    return kept(
        [
            (evening, c.JobFinished("pipe-rear", 2.0)),
            (evening, c.JobFinished("valve-fit", 1.0)),
            (evening, c.JobStarted("lines-hold")),
            (evening, c.ProofBegun("rear-tee", (Reading("pressure", 71.0, "bar"),), "")),
        ],
        small_build(),
    )


# --- the second build ---------------------------------------------------------------------

OTHER_JOBS = (
    job("hd", "Install hood, latch and prop rod", "body fittings"),
    job("tk", "Hang gas tank and hook up filler neck", "fuel"),
    job("fw", "Button up firewall pads", "interior"),
    job("sw", "Assemble sway bar and end links", "suspension"),
    job("shl", "Mount shock absorber, LH rear", "suspension", twin="shr"),
    job("shr", "Mount shock absorber, RH rear", "suspension", twin="shl"),
    job("hn", "Lay in rear body harness", "electrics"),
    job("kp", "Ream king pin bushings and set end float", "steering"),
    job("tw", "Rig tonneau and hood sticks", "interior"),
    job("mg", "Set magneto timing and points gap", "engine"),
    job("ws", "Set windshield frame and glass", "glass"),
    job("pb", "Hook up parking brake cable", "brakes"),
)

OTHER_CHANGES: tuple[c.Change, ...] = (
    c.CarDescribed(Car("The invented roadster", zone="America/Chicago", units="imperial")),
    c.SupportSet(Support("js", "Jack stands", SupportKind.STANDS, frozenset(), Wheels.HANGING)),
    c.SupportSet(Support("gr", "On the ground", SupportKind.WHEELS, frozenset(), Wheels.LOADED)),
    *OTHER_JOBS,
    c.GateSet(Gate("go", "First drive", (), ("pb",))),
    c.ProofSet(
        Proof(
            "float",
            "King pin end float",
            ProofKind.MEASURED,
            AboutKind.ASSEMBLY,
            "king pin",
            ("kp",),
            None,
            (),
            ("go",),
            (Limit("end float", "thou", low=2, high=6),),
        )
    ),
    c.ProofSet(
        Proof(
            "tankair",
            "Tank holds 3 psi for 15 minutes, no bubbles",
            ProofKind.HELD_PRESSURE,
            AboutKind.SEAM,
            "tank seams",
            (),
            None,
            ("tk",),
            ("go",),
            (Limit("pressure", "psi", low=3, high=4),),
            hold_hours=0.25,
        )
    ),
    c.ProofSet(
        Proof(
            "points",
            "Points gap",
            ProofKind.MEASURED,
            AboutKind.ASSEMBLY,
            "points",
            ("mg",),
            None,
            (),
            (),
            (Limit("gap", "in", low=0.011, high=0.013),),
        )
    ),
    c.NeedSet(Need("links", "Sway bar end links", "sw", 2)),
    c.NeedSet(Need("cotter", "Cotter pins", "kp", 6, fixing=True)),
    c.OrderSet(OrderLine("o-links", "End links, pair", "links", 2)),
)


def other_build() -> Build:
    """An invented roadster, described in another country's words."""
    return kept((LONG_AGO, change) for change in OTHER_CHANGES)
