"""Body fittings outside the doors: lids, seals, wipers, bumpers, trims."""

from __future__ import annotations

from bareshell.model.job import Caution
from bareshell.model.part import NeededTo
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import CableSpec, PlainSpec, RubberSpec
from bareshell.trade.cautions import (
    EYES_CUTTING,
    HEAVY,
    PAINT_EDGES,
    SKIN_GOODS,
    SOLVENT,
    TURNING,
)
from bareshell.trade.row import Owed, Row, Uses, cure, fixing, goods
from bareshell.trade.zones import (
    BAY,
    BOOT,
    BOTH_ENDS,
    CABIN,
    DOORS,
    FRONT,
    REAR,
)

FITTINGS = "body fittings"
SEAM, FIXED = AboutKind.SEAM, AboutKind.FIXING
ENGINE_IN = "engine-install-fwd engine-install-rwd"
FINISH = NeededTo.FINISH
OWN_FIGURE = "the car's own figure; mark"

ROWS: tuple[Row, ...] = (
    Row(
        "washer-tubes",
        "Route washer tubes, bottle and jets",
        FITTINGS,
        (0.5, 1, 2),
        after="loom-main",
        later="loom-main",
        zones=BAY | CABIN,
        split=0.5,
        proofs=(
            Owed(
                "Water reaches every jet",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "screen washer",
                covers="dash-fit",
            ),
        ),
        needs=(
            goods("Washer tube", "3 metres"),
            fixing("Washer tees and clips", 4, PlainSpec()),
        ),
    ),
    Row(
        "bonnet-cable",
        "Route the bonnet release and a spare pull",
        FITTINGS,
        (0.5, 1, 2),
        after="bulkhead-pad",
        later="bulkhead-pad",
        zones=BAY | CABIN | FRONT,
        split=0.5,
        safety=True,
        cautions=(
            Caution(
                "Hands and lives",
                "A bonnet that cannot be opened hides a fire; one that opens by itself hides the "
                "road.",
            ),
        ),
        proofs=(
            Owed(
                "Pulls freely; there is a second way to open it",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "bonnet release",
                covers="dash-fit",
            ),
        ),
        needs=(
            Uses("Bonnet release cable", spec=CableSpec()),
            fixing("Cable clamp", 1, PlainSpec()),
        ),
    ),
    Row(
        "wiper-fit",
        "Fit wiper motor, rack or linkage and wheel boxes",
        FITTINGS,
        (1, 2.5, 5),
        after="loom-main threads-chase",
        later="loom-main threads-chase",
        zones=BAY | CABIN,
        split=0.5,
        tools=("supply with a small fuse",),
        cautions=(TURNING,),
        proofs=(
            Owed(
                "Full sweep and park on a fused supply",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "wipers",
                covers="dash-fit",
            ),
        ),
        needs=(
            Uses("Wiper spindle seals", 2, RubberSpec()),
            goods("Wiper grease", "1 sachet", needed_to=FINISH),
        ),
    ),
    Row(
        "bulkhead-seal",
        "Seal every hole that is left in the bulkhead",
        FITTINGS,
        (0.5, 1, 2),
        after="loom-main pedal-box heater-fit",
        later="loom-main pedal-box heater-fit",
        zones=BAY | CABIN,
        off=("engine out",),
        wait=cure(12, 10, "sealer skins"),
        lowest_c=10,
        tools=("lamp",),
        cautions=(SKIN_GOODS,),
        proofs=(
            Owed(
                "Lamp on one side, dark on the other: no light comes through",
                ProofKind.SEEN,
                SEAM,
                "bulkhead",
                covers=ENGINE_IN,
                gates="engine-bay",
            ),
        ),
        needs=(
            fixing("Bulkhead plugs and grommets", 8, PlainSpec()),
            goods("Bulkhead sealer", "1 tube", 10, 12),
        ),
    ),
    Row(
        "bonnet-fit",
        "Fit and align the bonnet",
        FITTINGS,
        (1, 2.5, 5),
        after="paint-harden threads-chase",
        later="threads-chase",
        people=2,
        zones=FRONT | BAY,
        split=1,
        tools=("gap gauge", "covers"),
        cautions=(PAINT_EDGES, HEAVY),
        twin="boot-fit",
        note="Done when it touches nothing at full opening.",
        needs=(
            fixing("Bonnet bolts and shims", 8, None, NeededTo.START),
            Uses("Bonnet buffers", 4, RubberSpec(), needed_to=FINISH),
        ),
    ),
    Row(
        "boot-fit",
        "Fit and align the boot lid or tailgate",
        FITTINGS,
        (1, 2.5, 5),
        after="paint-harden threads-chase",
        later="threads-chase",
        people=2,
        zones=REAR | BOOT,
        split=1,
        tools=("gap gauge", "covers"),
        cautions=(PAINT_EDGES, HEAVY),
        twin="bonnet-fit",
        note="Done when the seal line is even all round.",
        needs=(
            fixing("Boot bolts and shims", 8, None, NeededTo.START),
            Uses("Boot buffers", 4, RubberSpec(), needed_to=FINISH),
        ),
    ),
    Row(
        "bonnet-latch",
        "Fit bonnet catch and second safety catch",
        FITTINGS,
        (0.5, 1, 2),
        after="bonnet-fit bonnet-cable",
        zones=FRONT | BAY,
        safety=True,
        tightens=(f"Catch and striker: {OWN_FIGURE}",),
        cautions=(
            Caution(
                "Hands and lives",
                "Try the cable from the seat before it is shut for the first time.",
            ),
        ),
        proofs=(
            Owed(
                "Shut and pulled hard: both catches hold; the safety catch holds alone",
                ProofKind.SEEN,
                FIXED,
                "bonnet catches",
                gates="first-move road",
            ),
        ),
        needs=(fixing("Catch, striker and bolts", 4),),
    ),
    Row(
        "boot-seal",
        "Fit the boot or tailgate seal",
        FITTINGS,
        (0.5, 1, 2),
        after="boot-fit",
        zones=BOOT | REAR,
        split=0.5,
        wait=cure(24, 12, "adhesive sets"),
        lowest_c=12,
        cautions=(SOLVENT,),
        twin="door-seals",
        proofs=(
            Owed(
                "A strip of paper is gripped all round the boot",
                ProofKind.SEEN,
                SEAM,
                "boot seal",
                gates="cabin",
            ),
        ),
        needs=(
            Uses("Boot seal", 1, RubberSpec()),
            goods("Rubber adhesive for the boot", "1 tube", 12, 12),
        ),
    ),
    Row(
        "bumpers",
        "Fit bumpers and their irons",
        FITTINGS,
        (1, 2, 4),
        after="headlamps rear-lamps",
        later="headlamps rear-lamps",
        people=2,
        alone="padded stands",
        zones=FRONT | REAR,
        safety=True,
        tightens=(f"Bumper irons: {OWN_FIGURE}",),
        cautions=(PAINT_EDGES, HEAVY),
        proofs=(
            Owed(
                "No sharp edge stands out; irons torqued and marked",
                ProofKind.TORQUE,
                FIXED,
                "bumpers",
                gates="road",
            ),
        ),
        needs=(
            fixing("Bumper bolts", 8, None, NeededTo.START),
            fixing("Rubber washers", 8, PlainSpec()),
        ),
    ),
    Row(
        "brightwork",
        "Fit badges, strips, grille and sill trims",
        FITTINGS,
        (1, 3, 6),
        after="doors-hang bonnet-fit boot-fit",
        later="doors-hang bonnet-fit boot-fit",
        zones=FRONT | REAR | DOORS,
        split=0.5,
        lowest_c=12,
        weather="12 C for tape; clips do not mind",
        cautions=(EYES_CUTTING,),
        note="Try each clip on scrap first.",
        needs=(
            fixing("Trim clips", 40, PlainSpec()),
            fixing("Trim studs and nuts", 12),
            goods("Trim tape", "1 roll", 12, needed_to=FINISH),
        ),
    ),
    Row(
        "mirrors-plates",
        "Fit mirrors and number plates",
        FITTINGS,
        (0.5, 1, 2),
        after="doors-hang bumpers",
        later="doors-hang bumpers",
        zones=FRONT | REAR | DOORS,
        split=0.3,
        safety=True,
        cautions=(
            Caution("Hands and lives", "What is not seen in the mirror is met: no blind angle."),
        ),
        proofs=(
            Owed(
                "Firm by hand and legible from behind",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "mirrors and plates",
                gates="road",
            ),
        ),
        needs=(
            Uses("Mirrors", 2),
            Uses("Number plates", 2),
            fixing("Mirror and plate screws", 8),
        ),
    ),
    Row(
        "arch-liners",
        "Fit splash guards, arch liners and mud flaps",
        FITTINGS,
        (1, 1.5, 3),
        after="hose-sweep cavity-wax-1",
        later="hose-sweep",
        zones=BOTH_ENDS,
        split=0.5,
        note="After the hose sweep: they hide the hoses.",
        needs=(fixing("Liner screws and clips", 20, PlainSpec()),),
    ),
)
