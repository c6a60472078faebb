"""Suspension and hubs."""

from __future__ import annotations

from bareshell.model.car import Layout
from bareshell.model.job import Caution, Recheck
from bareshell.model.part import NeededTo
from bareshell.model.position import Place, Wheels
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import BearingSpec, PlainSpec, RubberSpec, SealSpec, SplitPinSpec
from bareshell.trade.cautions import (
    EYES_BENEATH,
    EYES_CUTTING,
    FUMES,
    HEAVY_BENEATH,
    SPRING,
    STEERING_LIVES,
    TORQUE_TONIGHT,
    UNDER_CAR,
    WHEELS_OFF,
)
from bareshell.trade.row import (
    Left,
    Owed,
    Row,
    Uses,
    at_most,
    between,
    cure,
    fixing,
    goods,
)
from bareshell.trade.zones import BAY, FRONT_ENDS, REAR, REAR_ENDS

SUSPENSION = "suspension"
FIXED = AboutKind.FIXING
BENCH = Place.BENCH
HANGING, LOADED = Wheels.HANGING, Wheels.LOADED
ENGINE_OUT = ("engine out",)
START = NeededTo.START
OWN_FIGURE = "the car's own figure; log and paint-mark"

ROWS: tuple[Row, ...] = (
    Row(
        "susp-clean",
        "Clean, look over and coat arms, frames, springs and brackets",
        SUSPENSION,
        (6, 12, 20),
        after="fast-sort",
        place=BENCH,
        split=1,
        wait=cure(48, 12, "paint cures"),
        lowest_c=12,
        safety=True,
        dirty=True,
        tools=("wire brushes", "crack dye or lens", "masking"),
        cautions=(EYES_CUTTING, FUMES),
        proofs=(
            Owed(
                "Looked over for cracks at welds and eyes; threads and tapers left bare",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "arms, frames and brackets",
                gates="pushed-roll",
            ),
        ),
        needs=(goods("Chassis paint", "1 to 2 litres", 12, 24),),
    ),
    Row(
        "bushes",
        "Press new bushes into arms and frames",
        SUSPENSION,
        (1.5, 3, 6),
        after="susp-clean goods-in",
        place=BENCH,
        split=0.5,
        safety=True,
        tools=("press or long bolt and tubes", "rubber-safe lubricant"),
        cautions=(
            Caution("Crush", "A press or a long bolt lets go sideways: stand to one side of it."),
        ),
        proofs=(
            Owed(
                "Right way round, square and home in the eye",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "suspension bushes",
                gates="pushed-roll",
            ),
        ),
        needs=(Uses("Suspension bushes", 12, BearingSpec()),),
    ),
    Row(
        "front-frame",
        "Fit front subframe or crossmember with its mounts",
        SUSPENSION,
        (1.5, 3, 6),
        after="susp-clean threads-chase underbody-coat fast-plate tool-check",
        later="underbody-coat tool-check threads-chase",
        implies="paint-harden",
        people=2,
        alone="trolley jack and a timber cradle",
        zones=FRONT_ENDS | BAY,
        wheels=HANGING,
        off=ENGINE_OUT,
        split=1.5,
        safety=True,
        dangerous_alone=True,
        tools=("torque wrench", "tape for diagonals", "paint pen"),
        tightens=(f"Frame mounts: {OWN_FIGURE}",),
        cautions=(HEAVY_BENEATH, TORQUE_TONIGHT),
        rechecks=(Recheck(miles=500),),
        twin="rear-beam-fwd",
        proofs=(
            Owed(
                "Square to the body by its diagonals; mounts torqued and paint-marked",
                ProofKind.TORQUE,
                FIXED,
                "front frame mounts",
                gates="engine-bay pushed-roll",
                limits=(at_most("difference of the diagonals", "mm", 3),),
            ),
        ),
        needs=(
            Uses("Front frame mounts", 4, RubberSpec()),
            fixing("Front frame mount bolts", 8, None, START),
        ),
    ),
    Row(
        "front-arms",
        "Fit front arms and tie bars, pivots only nipped",
        SUSPENSION,
        (2, 4, 7),
        after="bushes front-frame",
        zones=FRONT_ENDS,
        wheels=HANGING,
        split=1,
        safety=True,
        cautions=(
            Caution(
                "Hands and lives",
                "A rubber pivot torqued while it hangs is wound up for life. Nip it, tag it, and "
                "torque it at ride height.",
            ),
            WHEELS_OFF,
        ),
        proofs=(
            Owed(
                "Every pivot nipped stands on the list for final torque at ride height",
                ProofKind.SEEN,
                FIXED,
                "front pivots",
                gates="pushed-roll",
                nipped_until="bush-torque",
            ),
        ),
        temp=Left(
            "Front pivots only nipped", "bush-torque", "first-move", "final torque at ride height"
        ),
        needs=(fixing("Front arm bolts and lock nuts", 8, None, START),),
    ),
    Row(
        "front-hubs",
        "Build the front hubs: bearings, seals, studs",
        SUSPENSION,
        (2, 4, 8),
        after="goods-in susp-clean",
        later="susp-clean",
        place=BENCH,
        split=1,
        safety=True,
        tools=("press or drifts", "dial gauge", "grease"),
        cautions=(EYES_CUTTING,),
        twin="rear-hubs-fwd",
        proofs=(
            Owed(
                "Spins quietly; end float or preload measured by the maker's own figure",
                ProofKind.MEASURED,
                AboutKind.ASSEMBLY,
                "front hub bearings",
                covers="disc-fit",
                gates="pushed-roll",
                limits=(between("end float, taper bearings", "mm", 0.03, 0.12),),
            ),
        ),
        needs=(
            Uses("Front wheel bearings", 2, BearingSpec()),
            Uses("Front hub seals", 2, SealSpec()),
            goods("Bearing grease", "1 tin"),
        ),
    ),
    Row(
        "ball-joints",
        "Set and fit ball joints or king pins",
        SUSPENSION,
        (1, 2, 4),
        after="goods-in",
        place=BENCH,
        safety=True,
        tools=("feeler gauges", "shims", "grease gun"),
        cautions=(STEERING_LIVES,),
        proofs=(
            Owed(
                "Preload measured by shim, boots whole, grease in",
                ProofKind.MEASURED,
                AboutKind.ASSEMBLY,
                "ball joints or king pins",
                gates="pushed-roll",
            ),
        ),
        needs=(
            Uses("Ball joint boots", 4, RubberSpec()),
            fixing("Ball joint shims", 8, PlainSpec(), START),
            fixing("Ball joint split pins", 4, SplitPinSpec()),
        ),
    ),
    Row(
        "front-springs",
        "Fit front springs and dampers",
        SUSPENSION,
        (1.5, 3, 6),
        after="front-arms",
        zones=FRONT_ENDS,
        wheels=HANGING,
        split=1.5,
        safety=True,
        dangerous_alone=True,
        tools=("rated spring compressors", "trolley jack"),
        cautions=(SPRING, WHEELS_OFF),
        twin="rear-springs",
        proofs=(
            Owed(
                "Spring ends sit in their seats both sides; no compressor left loaded",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "front springs",
                gates="pushed-roll",
            ),
        ),
        needs=(
            Uses("Front dampers", 2),
            Uses("Front top mounts", 2, RubberSpec()),
            fixing("Front damper lock nuts", 4),
        ),
    ),
    Row(
        "uprights",
        "Fit the uprights to the arms",
        SUSPENSION,
        (1, 2, 4),
        after="front-hubs ball-joints front-arms",
        zones=FRONT_ENDS,
        wheels=HANGING,
        safety=True,
        tightens=(f"Ball joint nuts: {OWN_FIGURE}",),
        cautions=(STEERING_LIVES, WHEELS_OFF),
        proofs=(
            Owed(
                "Tapers clean and dry; nuts pinned or new, torqued and marked",
                ProofKind.TORQUE,
                FIXED,
                "ball joint tapers",
                gates="pushed-roll first-move",
            ),
        ),
        needs=(
            fixing("Ball joint nuts", 4, None, START),
            fixing("Split pins for the uprights", 4, SplitPinSpec()),
        ),
    ),
    Row(
        "anti-roll",
        "Fit the anti-roll bar and its links",
        SUSPENSION,
        (0.5, 1.5, 3),
        after="front-arms",
        zones=FRONT_ENDS,
        wheels=HANGING,
        safety=True,
        tightens=(f"Bar clamps and links: {OWN_FIGURE}",),
        cautions=(WHEELS_OFF, TORQUE_TONIGHT),
        proofs=(
            Owed(
                "Clear of pipes and hoses at full lock; clamps torqued and marked",
                ProofKind.TORQUE,
                FIXED,
                "anti-roll bar",
                gates="road",
            ),
        ),
        needs=(
            Uses("Anti-roll bar bushes", 4, RubberSpec()),
            fixing("Anti-roll bar clamps and bolts", 4),
        ),
    ),
    Row(
        "rear-beam-fwd",
        "Fit rear beam, trailing arms or subframe, pivots only nipped",
        SUSPENSION,
        (2, 4, 8),
        after="bushes underbody-coat fast-plate",
        later="underbody-coat",
        implies="paint-harden",
        people=2,
        alone="trolley jack, timber cradle and straps",
        zones=REAR_ENDS | REAR,
        wheels=HANGING,
        split=2,
        safety=True,
        dangerous_alone=True,
        layout=Layout.FRONT,
        tools=("torque wrench", "tape for diagonals"),
        cautions=(HEAVY_BENEATH, UNDER_CAR),
        twin="front-frame",
        proofs=(
            Owed(
                "Square by its diagonals; pivots nipped and listed for ride height",
                ProofKind.MEASURED,
                FIXED,
                "rear beam",
                gates="pushed-roll",
                nipped_until="bush-torque",
                limits=(at_most("difference of the diagonals", "mm", 3),),
            ),
        ),
        needs=(fixing("Rear beam bolts and lock nuts", 8, None, START),),
    ),
    Row(
        "rear-hubs-fwd",
        "Build and fit rear hubs and stubs",
        SUSPENSION,
        (1, 2, 4),
        after="rear-beam-fwd goods-in",
        zones=REAR_ENDS,
        wheels=HANGING,
        safety=True,
        layout=Layout.FRONT,
        tools=("dial gauge", "drifts", "torque wrench"),
        tightens=("Stub nut: the car's own figure and pinning",),
        cautions=(TORQUE_TONIGHT, WHEELS_OFF),
        twin="front-hubs",
        proofs=(
            Owed(
                "End float set by the maker's figure; split pin or new nut",
                ProofKind.MEASURED,
                AboutKind.ASSEMBLY,
                "rear hub bearings",
                gates="pushed-roll",
                limits=(between("end float, taper bearings", "mm", 0.03, 0.12),),
            ),
        ),
        needs=(
            Uses("Rear wheel bearings", 2, BearingSpec()),
            Uses("Rear hub seals", 2, SealSpec()),
            fixing("Rear stub nuts", 2, None, START),
        ),
    ),
    Row(
        "rear-springs",
        "Fit rear springs and dampers, bushes only nipped",
        SUSPENSION,
        (1, 2, 4),
        after="rear-beam-fwd axle-fit-rwd",
        zones=REAR_ENDS,
        wheels=HANGING,
        safety=True,
        dangerous_alone=True,
        cautions=(SPRING, UNDER_CAR, EYES_BENEATH),
        twin="front-springs",
        proofs=(
            Owed(
                "Bushes nipped and listed; dampers the right way up",
                ProofKind.SEEN,
                FIXED,
                "rear springs and dampers",
                gates="pushed-roll",
                nipped_until="bush-torque",
            ),
        ),
        temp=Left(
            "Rear pivots only nipped", "bush-torque", "first-move", "final torque at ride height"
        ),
        needs=(
            Uses("Rear dampers", 2),
            Uses("Rear spring bushes", 4, BearingSpec()),
            fixing("Rear spring and damper bolts", 6),
        ),
    ),
    Row(
        "hub-dummy-fwd",
        "Clamp the front bearings with dummy stubs, so that it may roll without driveshafts",
        SUSPENSION,
        (0.5, 0.5, 1),
        after="uprights",
        zones=FRONT_ENDS,
        wheels=HANGING,
        safety=True,
        layout=Layout.FRONT,
        cautions=(
            Caution(
                "Hands and lives",
                "The outer joint clamps these bearings. Rolled without it, they come apart.",
            ),
            WHEELS_OFF,
        ),
        proofs=(
            Owed(
                "Both sides clamped, tagged and on the list of temporary fixes",
                ProofKind.SEEN,
                FIXED,
                "dummy stubs",
                gates="pushed-roll",
            ),
        ),
        temp=Left("Dummy stubs in the front hubs", "driveshafts-fwd", "first-start", "driveshafts"),
        needs=(fixing("Long bolts and thick washers", 2, None, START),),
    ),
)
