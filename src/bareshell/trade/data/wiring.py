"""Wiring, from the bench to the end-to-end test."""

from __future__ import annotations

from bareshell.model.job import Caution
from bareshell.model.part import NeededTo
from bareshell.model.position import Place
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import ElectricalSpec, PlainSpec
from bareshell.trade.cautions import (
    BATTERY,
    WIRING_FIRE,
)
from bareshell.trade.row import Owed, Row, Uses, at_most, fixing, goods
from bareshell.trade.zones import BAY, BOOT, CABIN, ROOF

ELECTRICS = "electrics"
CIRCUIT, WIRE = AboutKind.CIRCUIT, AboutKind.WIRE
ENGINE_IN = "engine-install-fwd engine-install-rwd"
FINISH = NeededTo.FINISH

ROWS: tuple[Row, ...] = (
    Row(
        "loom-repair",
        "Repair and re-tape the wiring off the car; new ends where they are bad",
        ELECTRICS,
        (4, 8, 16),
        after="loom-survey",
        place=Place.BENCH,
        split=1,
        safety=True,
        tools=("crimp tool", "soldering iron", "meter", "heat gun"),
        cautions=(
            Caution(
                "Fire",
                "A bad crimp is a heater. Strip, crimp, pull, then sleeve; no twisted joint stays "
                "under tape.",
            ),
        ),
        proofs=(
            Owed(
                "Each repaired circuit carries through; each crimp holds a pull",
                ProofKind.SEEN,
                WIRE,
                "repaired wiring",
                covers="loom-main",
                gates="engine-bay",
            ),
        ),
        needs=(
            Uses("Cable by colour and size", spec=ElectricalSpec(what="cable")),
            fixing("Terminals", 60, ElectricalSpec(what="terminal")),
            goods("Harness tape and sleeve", "4 rolls", needed_to=FINISH),
        ),
    ),
    Row(
        "loom-main",
        "Fit the main wiring through bulkhead and engine bay",
        ELECTRICS,
        (3, 5, 10),
        after="loom-repair earth-points bulkhead-pad",
        later="earth-points",
        zones=BAY | CABIN,
        off=("engine out",),
        split=1,
        lowest_c=10,
        weather="wiring kept supple: warm it first",
        safety=True,
        cautions=(
            WIRING_FIRE,
            Caution("Hands and lives", "A grommet in every hole: a bare edge cuts in a year."),
        ),
        proofs=(
            Owed(
                "A grommet in every hole; no strain at the bulkhead",
                ProofKind.SEEN,
                WIRE,
                "main wiring",
                covers="heater-fit",
                gates="engine-bay",
            ),
            Owed(
                "Every branch carries through end to end, none is short to the body",
                ProofKind.MEASURED,
                CIRCUIT,
                "main wiring",
                key="tested",
                by="loom-test",
                covers=f"heater-fit dash-fit {ENGINE_IN}",
                gates="engine-bay",
            ),
        ),
        needs=(
            fixing("Bulkhead grommets", 8, PlainSpec(), NeededTo.START),
            fixing("Wiring clips and ties", 40, PlainSpec()),
        ),
    ),
    Row(
        "loom-rear",
        "Fit the rear wiring along rail, sill or tunnel to boot and tank",
        ELECTRICS,
        (1.5, 3, 6),
        after="loom-repair draw-cords damp-rear",
        later="damp-rear",
        zones=CABIN | BOOT | ROOF,
        split=0.5,
        tools=("draw cord", "fish wire"),
        proofs=(
            Owed(
                "Every branch reaches its lamp with slack",
                ProofKind.SEEN,
                WIRE,
                "rear wiring",
                covers="headlining",
                gates="headlining",
            ),
            Owed(
                "Rear and roof branches carry through end to end, none is short to the body",
                ProofKind.MEASURED,
                CIRCUIT,
                "rear and roof wiring",
                key="tested",
                by="loom-test",
                covers="headlining side-trims",
                gates="headlining",
            ),
        ),
        needs=(
            fixing("Clips for the rear wiring", 20, PlainSpec()),
            fixing("Grommets for the rear wiring", 6, PlainSpec(), NeededTo.START),
        ),
    ),
    Row(
        "fuse-box",
        "Fit fuse box, relays and the feed from the ignition switch",
        ELECTRICS,
        (1, 2, 4),
        after="loom-main",
        zones=CABIN | BAY,
        split=0.5,
        safety=True,
        cautions=(WIRING_FIRE,),
        proofs=(
            Owed(
                "Each fuse no larger than the thinnest cable behind it carries",
                ProofKind.SEEN,
                CIRCUIT,
                "fuses",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Fuses, one of each and spares", 16, ElectricalSpec(what="fuse")),
            Uses("Relays", 3, ElectricalSpec(what="relay", volts=12.0), needed_to=FINISH),
        ),
    ),
    Row(
        "battery-leads",
        "Fit battery tray, main leads, isolator and body earth",
        ELECTRICS,
        (1, 2, 4),
        after="loom-main earth-points",
        zones=BAY | BOOT,
        split=0.5,
        safety=True,
        cautions=(BATTERY, WIRING_FIRE),
        proofs=(
            Owed(
                "Live lead sleeved and clipped all its length; the clamp holds the battery still",
                ProofKind.SEEN,
                WIRE,
                "battery leads",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Battery live lead", spec=ElectricalSpec(what="battery cable")),
            Uses("Isolator", spec=ElectricalSpec(what="isolator")),
            fixing("Terminal boots", 3, PlainSpec()),
            fixing("Battery clamp"),
        ),
    ),
    Row(
        "loom-test",
        "Try every circuit end to end with no battery fitted",
        ELECTRICS,
        (2, 3, 6),
        after="fuse-box loom-rear battery-leads",
        zones=BAY | CABIN | BOOT,
        split=0.5,
        safety=True,
        tools=("meter", "long test lead", "wiring diagram", "pencil"),
        cautions=(BATTERY,),
        note="Tick each branch on the diagram; a branch without a tick was not tried.",
    ),
    Row(
        "ign-bench",
        "Overhaul the distributor or the ignition parts; make the leads",
        ELECTRICS,
        (1, 2, 4),
        after="parts-count",
        place=Place.BENCH,
        split=0.5,
        tools=("feeler gauges", "meter"),
        note="Done when shaft play and advance are free and the firing order is written down.",
        needs=(
            Uses("Points or module, condenser, cap, rotor arm", spec=ElectricalSpec()),
            Uses("Ignition leads", 1, ElectricalSpec(what="ignition lead set"), needed_to=FINISH),
        ),
    ),
    Row(
        "rotating-bench",
        "Try starter and charging unit on the bench",
        ELECTRICS,
        (0.5, 1, 2),
        after="parts-count",
        place=Place.BENCH,
        tools=("battery and jump leads", "vice", "meter"),
        cautions=(
            Caution("Crush", "A starter leaps when it throws: clamp it before the lead goes on."),
            BATTERY,
        ),
        note="Done when it throws, spins and charges.",
    ),
    Row(
        "engine-wires",
        "Connect engine wiring, starter, charging, senders and the engine's earth strap",
        ELECTRICS,
        (1, 2, 4),
        after="mounts rotating-bench ign-bench battery-leads",
        later="mounts",
        zones=BAY,
        split=0.5,
        safety=True,
        cautions=(
            BATTERY,
            Caution(
                "Fire",
                "Without the earth strap the starter's current goes home through the throttle "
                "cable and the brake pipes.",
            ),
        ),
        proofs=(
            Owed(
                "Earth strap fitted and proved before any crank",
                ProofKind.MEASURED,
                WIRE,
                "engine earth strap",
                gates="first-start",
                limits=(at_most("resistance to body", "ohm", 0.1),),
            ),
        ),
        needs=(
            Uses("Engine earth strap", spec=ElectricalSpec(what="earth strap")),
            fixing("Engine terminals and boots", 8, ElectricalSpec(what="terminal")),
            goods("Heat sleeve", "2 metres", needed_to=FINISH),
        ),
    ),
    Row(
        "instr-bench",
        "Try instruments and senders on the bench",
        ELECTRICS,
        (1, 2, 4),
        after="parts-count",
        place=Place.BENCH,
        split=0.5,
        tools=("supply with a small fuse", "resistors or a spare sender"),
        proofs=(
            Owed(
                "Each gauge reads right at two points",
                ProofKind.MEASURED,
                CIRCUIT,
                "instruments",
                covers="dash-fit",
            ),
        ),
    ),
)
