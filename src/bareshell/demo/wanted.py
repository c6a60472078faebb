"""What the demo's jobs want, as measured on this car: the needs that the owner wrote himself.

They stand in place of the starter network's own needs for the jobs that are named here.
Figures are invented, in sizes that such cars do have.
"""

from __future__ import annotations

from typing import Final

from bareshell.model.part import Need, NeededTo
from bareshell.model.spec import (
    BearingSpec,
    BoltSpec,
    CableSpec,
    CylinderSpec,
    ElectricalSpec,
    GlassSpec,
    GoodsSpec,
    HoseSpec,
    PinSpec,
    PipeSpec,
    PlainSpec,
    RubberSpec,
    SealSpec,
    Spec,
    SplitPinSpec,
    UnionSpec,
)
from bareshell.model.trust import YOURS

_PLAIN: Final = PlainSpec()


def _want(
    key: str,
    title: str,
    job: str,
    quantity: int = 1,
    spec: Spec = _PLAIN,
    *,
    start: bool = False,
    fixing: bool = False,
    note: str = "",
) -> Need:
    when = NeededTo.START if start else NeededTo.FINISH
    bag = f"bag {job}" if fixing else ""
    return Need(key, title, job, quantity, when, spec, bag, fixing, YOURS, note)


def _bolt(
    thread: str,
    grip_mm: float | None,
    length_mm: float,
    grade: str = "8.8",
    lock: str | None = None,
) -> BoltSpec:
    grip = None if grip_mm is None else grip_mm / 1000
    return BoltSpec(
        thread=thread,
        grip_length_m=grip,
        length_m=length_mm / 1000,
        head="hexagon",
        grade=grade,
        finish="zinc",
        lock=lock,
    )


def _clevis(diameter_mm: float, grip_mm: float) -> PinSpec:
    return PinSpec(
        diameter_m=diameter_mm / 1000,
        grip_to_hole_m=grip_mm / 1000,
        head="flat",
        material="steel, zinc plated",
    )


def _split(diameter_mm: float, length_mm: float) -> SplitPinSpec:
    return SplitPinSpec(diameter_m=diameter_mm / 1000, length_m=length_mm / 1000, material="steel")


def _hose(end_a: str, end_b: str, free_mm: float, bracket: str | None = None) -> HoseSpec:
    return HoseSpec(
        end_a=end_a,
        end_b=end_b,
        free_length_m=free_mm / 1000,
        bore_m=0.0032,
        bracket=bracket,
        carries="brake fluid, glycol",
    )


def _goods(
    what: str, amount: str, months: int | None = None, low: float | None = None
) -> GoodsSpec:
    return GoodsSpec(what=what, amount=amount, shelf_life_months=months, lowest_temperature_c=low)


def _wire(
    what: str, area: float | None = None, amps: float | None = None, connector: str | None = None
) -> ElectricalSpec:
    return ElectricalSpec(what=what, volts=12.0, amps=amps, area_mm2=area, connector=connector)


_UNION_M10 = UnionSpec(
    thread="M10x1.0",
    sex="male",
    seat="90 degree cone",
    flare="single convex",
    pipe_diameter_m=0.00475,
)
_UNION_UNF = UnionSpec(
    thread="3/8-24 UNF", sex="male", seat="90 degree cone", flare="double", pipe_diameter_m=0.00475
)
_COPPER_NICKEL = PipeSpec(
    outside_diameter_m=0.00475,
    wall_m=0.0009,
    length_m=7.6,
    material="copper-nickel",
    flare="double",
)

BRAKES: Final = (
    _want(
        "front-hose-left",
        "Front brake hose, left",
        "front-hoses",
        1,
        _hose("M10x1.0 male, convex", "3/8-24 UNF female, cone", 330, "12.7 mm hole, clip"),
    ),
    _want(
        "front-hose-right",
        "Front brake hose, right",
        "front-hoses",
        1,
        _hose("M10x1.0 male, convex", "3/8-24 UNF female, cone", 330, "12.7 mm hole, clip"),
    ),
    _want("front-hose-clips", "Spring clips for the front hoses", "front-hoses", 2, fixing=True),
    _want(
        "front-hose-washers",
        "Copper washers for the front hoses, 10 mm",
        "front-hoses",
        4,
        SealSpec(inside_m=0.010, outside_m=0.0145, width_m=0.001, material="copper"),
        fixing=True,
    ),
    _want(
        "axle-hose",
        "Hose from body to axle",
        "rear-hoses",
        1,
        _hose("3/8-24 UNF male, cone", "3/8-24 UNF female, cone", 265, "14 mm hole, nut"),
        start=True,
    ),
    _want(
        "axle-hose-nut",
        "Lock nut and shakeproof washer for the axle hose",
        "rear-hoses",
        1,
        fixing=True,
    ),
    _want(
        "hb-clevis",
        "Clevis pins for the handbrake levers at the drums",
        "hb-connect",
        2,
        _clevis(7.94, 22.0),
        start=True,
        fixing=True,
        note="Two plies and the fork: 22 mm under the head to the hole, measured on the car.",
    ),
    _want("hb-split", "Split pins for them", "hb-connect", 2, _split(2.4, 20), fixing=True),
    _want("hb-return", "Lever return springs", "hb-connect", 2),
    _want(
        "bracket-bolts-left",
        "Bolts for the left hose bracket",
        "hose-bracket-left",
        2,
        _bolt("M8x1.25", None, 20),
        fixing=True,
    ),
    _want(
        "bracket-bolts-right",
        "Bolts for the right hose bracket",
        "hose-bracket-right",
        2,
        _bolt("M8x1.25", None, 20),
        fixing=True,
    ),
    _want("bracket-right", "Hose bracket, right", "hose-bracket-right", 1, start=True),
    _want(
        "tandem",
        "Tandem master cylinder, 19.05 mm",
        "mc-bench",
        1,
        CylinderSpec(
            what="master cylinder, tandem",
            bore_m=0.01905,
            port_thread="3/8-24 UNF",
            fluid_base="glycol",
        ),
        start=True,
    ),
    _want(
        "tandem-nuts",
        "Nyloc nuts for the cylinder's studs, M8",
        "mc-fit",
        4,
        _bolt("M8x1.25", None, 8, "8", "nyloc"),
        fixing=True,
    ),
    _want(
        "pushrod-clevis",
        "Clevis pin, pushrod to pedal",
        "mc-fit",
        1,
        _clevis(9.52, 19.0),
        fixing=True,
    ),
    _want(
        "bay-pipe",
        "Brake pipe for the bay, cut from the roll",
        "pipe-bay",
        1,
        _COPPER_NICKEL,
        start=True,
    ),
    _want("bay-unions", "Male unions, 3/8-24 UNF", "pipe-bay", 8, _UNION_UNF, fixing=True),
    _want(
        "bay-unions-metric",
        "Male unions, M10x1.0, for the hose ends",
        "pipe-bay",
        2,
        _UNION_M10,
        fixing=True,
    ),
    _want(
        "rear-unions",
        "Male unions for the rear pipes, 3/8-24 UNF",
        "pipe-rear",
        5,
        _UNION_UNF,
        fixing=True,
    ),
    _want(
        "limit-valve",
        "Pressure-limiting valve for the rear circuit",
        "valve-fit",
        1,
        PlainSpec(words="closes at 21 bar by its stamp; in and out 3/8-24 UNF"),
        start=True,
    ),
    _want(
        "calipers",
        "Front calipers, two pistons, 48.0 mm",
        "caliper-bench",
        2,
        CylinderSpec(
            what="caliper, fixed",
            bore_m=0.048,
            pistons=2,
            port_thread="M10x1.0",
            hand="a pair",
            fluid_base="glycol",
        ),
        start=True,
    ),
    _want(
        "pad-pins",
        "Pad retaining pins",
        "pin-spec",
        4,
        PinSpec(
            diameter_m=0.006,
            diameter_tolerance_m=0.00005,
            grip_to_hole_m=0.058,
            head="plain",
            material="hardened steel",
        ),
        start=True,
        fixing=True,
    ),
    _want("pads", "Front pads, set", "caliper-fit", 1),
    _want(
        "caliper-bolts",
        "Caliper bolts, shank through the lug",
        "caliper-fit",
        4,
        _bolt("M10x1.25", 21.0, 38, "10.9"),
        fixing=True,
    ),
    _want(
        "wheel-cylinders",
        "Rear wheel cylinders, 19.05 mm",
        "rear-brakes",
        2,
        CylinderSpec(
            what="wheel cylinder",
            bore_m=0.01905,
            port_thread="3/8-24 UNF",
            hand="a pair",
            fluid_base="glycol",
        ),
        start=True,
    ),
    _want("shoes", "Rear shoes, set", "rear-brakes", 1),
    _want(
        "diff-switch",
        "Pressure-difference switch",
        "circuit-lamp",
        1,
        PlainSpec(words="four ports 3/8-24 UNF; the tandem has no switch of its own"),
        start=True,
    ),
    _want("diff-unions", "Male unions for the switch", "circuit-lamp", 4, _UNION_UNF, fixing=True),
    _want(
        "diff-lamp",
        "Warning lamp, red, with test push",
        "circuit-lamp",
        1,
        _wire("lamp and holder", amps=0.2),
    ),
    _want(
        "brake-fluid",
        "Brake fluid, one litre, sealed",
        "brake-fill",
        1,
        _goods("brake fluid, glycol, DOT 4", "1 l", 12),
        start=True,
    ),
    _want("bleed-tube", "Clear tube and bottle with a one-way valve", "bleed-1", 1),
)

BODY: Final = (
    _want("heater-seal", "Heater to bulkhead seal", "heater-fit", 1, RubberSpec(), start=True),
    _want("heater-clips", "Heater clips and screws", "heater-fit", 6, fixing=True),
    _want(
        "screen-rubber",
        "Windscreen rubber",
        "windscreen",
        1,
        RubberSpec(),
        start=True,
        note="Profile drawn at full size; the old one shrank.",
    ),
    _want(
        "screen-glass",
        "Windscreen, laminated",
        "windscreen",
        1,
        GlassSpec(where="windscreen", tint="clear"),
        start=True,
    ),
    _want("screen-cord", "Braided cord, 4 mm", "windscreen", 6, note="Metres."),
    _want("rear-screen-rubber", "Rear screen rubber", "rear-screen", 1, RubberSpec(), start=True),
    _want("head-cloth", "Headlining, sewn", "headlining", 1, start=True),
    _want(
        "head-glue",
        "Contact adhesive for the headlining",
        "headlining",
        2,
        _goods("contact adhesive", "1 l", 12, 15.0),
        start=True,
    ),
    _want("head-clips", "Gripper strips", "headlining", 8, fixing=True),
    _want(
        "door-rubber",
        "Door aperture seals, by the metre",
        "door-seals",
        8,
        RubberSpec(),
        start=True,
    ),
    _want(
        "door-glue",
        "Rubber adhesive",
        "door-seals",
        1,
        _goods("rubber adhesive", "250 ml", 12, 12.0),
    ),
    _want(
        "latch-screws",
        "Countersunk screws for locks and strikers",
        "door-latches",
        16,
        _bolt("M6x1.0", None, 16, "8.8"),
        fixing=True,
    ),
    _want("check-pins", "Check strap pins", "door-latches", 2, _clevis(6.35, 16.0), fixing=True),
    _want("rear-lens-left", "Rear lamp lens, left", "rear-lamps", 1, start=True),
    _want("rear-lens-right", "Rear lamp lens, right", "rear-lamps", 1),
    _want("rear-gaskets", "Rear lamp gaskets", "rear-lamps", 2, RubberSpec(), start=True),
    _want("rear-lamp-screws", "Lens screws", "rear-lamps", 8, fixing=True),
    _want("headlamp-bowls", "Headlamp bowls", "headlamps", 2, start=True),
    _want("headlamp-gaskets", "Bowl gaskets", "headlamps", 2, RubberSpec()),
    _want("headlamp-screws", "Adjusting screws with nylon nuts", "headlamps", 6, fixing=True),
    _want("bumper-irons", "Bumper irons, plated", "bumpers", 4, start=True),
    _want(
        "bumper-bolts",
        "Dome-headed bumper bolts",
        "bumpers",
        6,
        _bolt("7/16-20 UNF", None, 32, "5"),
        fixing=True,
    ),
    _want("badge-clips", "Badge and strip clips", "brightwork", 46, fixing=True),
    _want("catch-spring", "Bonnet catch spring", "bonnet-latch", 1),
    _want(
        "catch-bolts",
        "Bonnet catch bolts",
        "bonnet-latch",
        4,
        _bolt("1/4-28 UNF", None, 19, "5"),
        fixing=True,
    ),
    _want("p-clips", "P-clips, rubber lined, 8 mm", "fuel-hoses", 40, fixing=True),
)

ENGINE: Final = (
    _want("starter", "Starter motor", "engine-wires", 1, start=True),
    _want(
        "earth-strap",
        "Engine earth strap",
        "engine-wires",
        1,
        _wire("braided strap", 25.0),
        start=True,
    ),
    _want(
        "charge-cable",
        "Charging cable, 6 mm2, brown",
        "alternator-wires",
        3,
        _wire("cable", 6.0, 42.0),
        note="Metres.",
    ),
    _want(
        "charge-plug",
        "Alternator plug, three way",
        "alternator-wires",
        1,
        _wire("connector", connector="three-way, 9.5 mm and 6.3 mm blades"),
        start=True,
    ),
    _want(
        "alternator",
        "Alternator, 36 A, regulator inside",
        "alternator-bracket",
        1,
        _wire("alternator", amps=36.0),
        start=True,
    ),
    _want("bracket-angle", "Steel angle, 40 by 40 by 5", "alternator-bracket", 1),
    _want("manifold-gasket", "Manifold gasket", "engine-dress", 1),
    _want("pump-gasket", "Water pump gasket", "engine-dress", 1),
    _want("thermostat", "Thermostat, 82 degrees", "engine-dress", 1, start=True),
    _want(
        "fan-belt",
        "Fan belt, 10 by 900",
        "engine-dress",
        1,
        note="Longer than standard: the alternator sits further out.",
    ),
    _want("clutch-plate", "Clutch driven plate, 184 mm", "clutch-fit", 1, start=True),
    _want(
        "spigot-bush",
        "Spigot bush",
        "clutch-fit",
        1,
        BearingSpec(inside_m=0.015, outside_m=0.020, width_m=0.020),
    ),
    _want(
        "flywheel-bolts",
        "Flywheel bolts",
        "clutch-fit",
        6,
        _bolt("3/8-24 UNF", 8.0, 25, "8"),
        fixing=True,
    ),
    _want("engine-mounts", "Engine mounts", "engine-install-rwd", 2, RubberSpec(), start=True),
    _want(
        "mount-bolts",
        "Engine mount bolts",
        "engine-install-rwd",
        8,
        _bolt("3/8-24 UNF", None, 32, "8"),
        fixing=True,
    ),
    _want("box-mount", "Gearbox mount", "gearbox-mount-rwd", 1, RubberSpec(), start=True),
    _want(
        "prop-bolts",
        "Propshaft bolts with locking nuts",
        "propshaft-rwd",
        8,
        _bolt("5/16-24 UNF", 12.0, 28, "8", "distorted thread"),
        fixing=True,
    ),
    _want(
        "throttle-cable",
        "Throttle cable",
        "throttle",
        1,
        CableSpec(inner_length_m=0.98, outer_length_m=0.74, end_a="ball, 6 mm", end_b="plain"),
        start=True,
    ),
    _want("top-hose", "Radiator top hose", "hoses", 1, start=True),
    _want("bottom-hose", "Radiator bottom hose", "hoses", 1, start=True),
    _want("tank-straps", "Tank strap bolts and insulation", "tank-fit", 2, fixing=True),
    _want("filler-seal", "Filler neck seal", "tank-fit", 1, RubberSpec(), start=True),
    _want("seat-cloth", "Seat covers, sewn", "seats-bench", 4, start=False),
)

NEEDS: Final = (*BRAKES, *BODY, *ENGINE)
"""Every need that the owner wrote."""
