"""Brakes at the wheels: calipers, discs, drums, hoses, and the handbrake's last link."""

from __future__ import annotations

from bareshell.model.job import Caution, Recheck
from bareshell.model.part import NeededTo
from bareshell.model.position import Place, Wheels
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import (
    CylinderSpec,
    HoseSpec,
    PinSpec,
    PlainSpec,
    SealSpec,
    SplitPinSpec,
)
from bareshell.trade.cautions import (
    BRAKE_FIGURES,
    BRAKE_JOINT,
    BRAKE_PARTS,
    EYES_FLUID,
    EYES_SPRUNG,
    LINING_DUST,
    TORQUE_TONIGHT,
    WHEELS_OFF,
)
from bareshell.trade.row import Owed, Row, Uses, at_most, fixing, goods
from bareshell.trade.zones import FRONT_ENDS, REAR_ENDS, UNDERNEATH

BRAKES = "brakes"
FIXED, JOINT = AboutKind.FIXING, AboutKind.JOINT
BENCH, HANGING = Place.BENCH, Wheels.HANGING
START = NeededTo.START
OWN_FIGURE = "the car's own figure; log and paint-mark"

ROWS: tuple[Row, ...] = (
    Row(
        "caliper-bench",
        "Rebuild the calipers, or look over the exchanged ones",
        BRAKES,
        (2, 4, 8),
        after="goods-in brake-survey fluid-choose",
        later="brake-survey fluid-choose",
        place=BENCH,
        split=1,
        safety=True,
        tools=("calipers", "clean tray", "low-air gun with a stop block"),
        cautions=(
            BRAKE_PARTS,
            Caution("Pressure", "A piston blown out breaks fingers: a block in front, low air."),
            EYES_FLUID,
        ),
        proofs=(
            Owed(
                "Piston size measured, left told from right, bleed screw at the top as fitted",
                ProofKind.MEASURED,
                AboutKind.ASSEMBLY,
                "front calipers",
                gates="first-move",
            ),
        ),
        needs=(
            Uses("Caliper seals", 1, SealSpec(), note="one set for both sides"),
            Uses("Caliper pistons", 4, CylinderSpec(what="caliper piston")),
            goods("Brake assembly fluid or grease", "1 tube", shelf_months=24),
            fixing("Bleed screws", 2),
        ),
    ),
    Row(
        "pin-spec",
        "Settle caliper and pad pins: diameter, shank, thread, head, locking",
        BRAKES,
        (0.5, 1, 3),
        after="caliper-bench order-brakes",
        place=BENCH,
        safety=True,
        tools=("calipers", "camera"),
        cautions=(
            BRAKE_FIGURES,
            Caution(
                "Hands and lives",
                "Ask first which face takes the drag. A thread across a shear face is half a pin.",
            ),
        ),
        proofs=(
            Owed(
                "Full shank across each shear face; grade marked, or made to a drawing",
                ProofKind.MEASURED,
                FIXED,
                "caliper and pad pins",
                covers="caliper-fit",
                gates="first-move",
            ),
        ),
        needs=(
            fixing("Pad pins", 4, PinSpec(), START),
            fixing("Pad pin clips", 4, PlainSpec()),
            fixing("Pad pin split pins", 4, SplitPinSpec()),
        ),
    ),
    Row(
        "disc-fit",
        "Fit the discs to the hubs and measure their run-out",
        BRAKES,
        (1, 1.5, 3),
        after="front-hubs uprights",
        zones=FRONT_ENDS,
        wheels=HANGING,
        safety=True,
        tools=("dial gauge and stand", "degreaser", "torque wrench"),
        tightens=(f"Disc bolts: {OWN_FIGURE}",),
        cautions=(WHEELS_OFF, TORQUE_TONIGHT),
        proofs=(
            Owed(
                "Run-out at the rim 0.1 mm at most; faces free of grease",
                ProofKind.MEASURED,
                AboutKind.ASSEMBLY,
                "front discs",
                gates="first-move",
                limits=(at_most("run-out at the rim", "mm", 0.1),),
            ),
        ),
        needs=(
            Uses("Front discs", 2),
            fixing("Disc bolts", 8, None, START),
        ),
    ),
    Row(
        "caliper-fit",
        "Fit front calipers, pads, pins and clips",
        BRAKES,
        (1, 2, 5),
        after="caliper-bench disc-fit pin-spec",
        zones=FRONT_ENDS,
        wheels=HANGING,
        safety=True,
        tools=("torque wrench", "paint pen", "camera"),
        tightens=(f"Caliper bolts: {OWN_FIGURE}",),
        cautions=(
            Caution(
                "Hands and lives",
                "Bleed screw at the top or the air stays in: left and right look alike on the "
                "bench.",
            ),
            TORQUE_TONIGHT,
            WHEELS_OFF,
        ),
        rechecks=(Recheck(miles=50),),
        twin="rear-brakes",
        proofs=(
            Owed(
                "Bleed screw uppermost, pads slide, bolts torqued and marked",
                ProofKind.TORQUE,
                FIXED,
                "front calipers on the car",
                gates="first-move",
            ),
        ),
        needs=(
            Uses("Front pads", 4),
            fixing("Caliper bolts", 4, None, START),
            fixing("Pad pins and clips as settled", 4, PinSpec()),
            goods("Rubber-safe brake grease", "1 sachet", needed_to=NeededTo.FINISH),
        ),
    ),
    Row(
        "rear-brakes",
        "Build the rear brakes: cylinders, shoes or pads, adjusters",
        BRAKES,
        (2, 4, 8),
        after="rear-hubs-fwd halfshafts-rwd goods-in brake-calc",
        later="brake-calc",
        zones=REAR_ENDS,
        wheels=HANGING,
        split=1,
        safety=True,
        tools=("spring pliers", "camera", "brake grease"),
        cautions=(EYES_SPRUNG, LINING_DUST, BRAKE_PARTS, WHEELS_OFF),
        rechecks=(Recheck(miles=500),),
        twin="caliper-fit",
        proofs=(
            Owed(
                "Shoes placed as the drawing; bore read off and written down; adjusters free",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "rear brakes",
                gates="first-move",
            ),
        ),
        needs=(
            Uses("Rear wheel cylinders", 2, CylinderSpec(what="wheel cylinder")),
            Uses("Rear shoes or pads", 4),
            fixing("Shoe springs and steadies", 1, PlainSpec(words="one set"), START),
            goods("Dry brake grease", "1 sachet", needed_to=NeededTo.FINISH),
        ),
    ),
    Row(
        "front-hoses",
        "Fit the front flexible hoses",
        BRAKES,
        (0.5, 1, 3),
        after="caliper-fit pipe-bay order-brakes",
        zones=FRONT_ENDS,
        wheels=HANGING,
        safety=True,
        tools=("two spanners", "lamp"),
        tightens=("Hose ends and banjos: the fitting's own figure, new washers both faces",),
        cautions=(
            BRAKE_JOINT,
            Caution(
                "Hands and lives",
                "Turn the nut, never the hose: the print line stays straight from end to end.",
            ),
            WHEELS_OFF,
        ),
        twin="rear-hoses",
        proofs=(
            Owed(
                "No twist by its print line; clear from lock to lock and bump to droop, by hand",
                ProofKind.SEEN,
                JOINT,
                "front hoses",
                gates="first-move",
            ),
            Owed(
                "Swept with the wheels on: the chalk shows no touch, no stretch",
                ProofKind.SEEN,
                JOINT,
                "front hoses, swept",
                key="swept",
                by="hose-sweep",
                covers="arch-liners",
                gates="first-move",
            ),
        ),
        needs=(
            Uses("Front brake hoses", 2, HoseSpec(carries="brake fluid")),
            fixing("Copper washers for the front hoses", 4, PlainSpec(), START),
            fixing("Hose clips at the front brackets", 2, PlainSpec()),
        ),
    ),
    Row(
        "rear-hoses",
        "Fit the rear flexible hoses",
        BRAKES,
        (0.5, 1, 2),
        after="rear-brakes pipe-rear order-brakes",
        zones=REAR_ENDS,
        wheels=HANGING,
        safety=True,
        tools=("two spanners", "lamp"),
        tightens=("Hose ends: the fitting's own figure",),
        cautions=(BRAKE_JOINT, WHEELS_OFF),
        twin="front-hoses",
        proofs=(
            Owed(
                "No twist; slack left at full droop",
                ProofKind.SEEN,
                JOINT,
                "rear hoses",
                gates="first-move",
            ),
            Owed(
                "Swept with the wheels on: the chalk shows no touch, no stretch",
                ProofKind.SEEN,
                JOINT,
                "rear hoses, swept",
                key="swept",
                by="hose-sweep",
                covers="arch-liners",
                gates="first-move",
            ),
        ),
        needs=(
            Uses("Rear brake hoses", 2, HoseSpec(carries="brake fluid")),
            fixing("Copper washers for the rear hoses", 2, PlainSpec(), START),
            fixing("Hose clips at the rear brackets", 2, PlainSpec()),
        ),
    ),
    Row(
        "hb-connect",
        "Connect the handbrake at the wheels",
        BRAKES,
        (0.5, 1, 3),
        after="hb-cables rear-brakes",
        zones=REAR_ENDS | UNDERNEATH,
        wheels=HANGING,
        safety=True,
        cautions=(
            Caution(
                "Hands and lives",
                "Shoes first, cable second: a tight cable hides shoes that do not touch.",
            ),
            WHEELS_OFF,
        ),
        proofs=(
            Owed(
                "Levers go fully back to rest; the shoes were set before the cable",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "handbrake at the wheels",
                gates="first-move",
            ),
        ),
        needs=(
            fixing("Clevis pins at the wheels", 2, PinSpec()),
            fixing("Split pins at the wheels", 2, SplitPinSpec()),
        ),
    ),
)
