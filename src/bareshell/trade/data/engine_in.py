"""The day engine and gearbox go in, and what joins them to the wheels."""

from __future__ import annotations

from bareshell.model.car import Layout
from bareshell.model.job import Caution, Recheck
from bareshell.model.part import NeededTo
from bareshell.model.position import Place, Wheels
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import BearingSpec, PlainSpec, RubberSpec, SealSpec, SplitPinSpec
from bareshell.trade.cautions import (
    EYES_BENEATH,
    HEAVY,
    HEAVY_BENEATH,
    ON_HOIST,
    PAINT_EDGES,
    TORQUE_TONIGHT,
    UNDER_CAR,
    WHEELS_OFF,
)
from bareshell.trade.row import Owed, Row, Uses, at_most, fixing, goods, stand
from bareshell.trade.zones import BAY, CABIN, FRONT, FRONT_ENDS, REAR, REAR_ENDS, UNDERNEATH

ENGINE = "engine"
GEARBOX = "gearbox and clutch"
BENCH = Place.BENCH
ASSEMBLY, FIXED, JOINT = AboutKind.ASSEMBLY, AboutKind.FIXING, AboutKind.JOINT
FINISH, START = NeededTo.FINISH, NeededTo.START
OWN_FIGURE = "the car's own figure; log and paint-mark"

ROWS: tuple[Row, ...] = (
    Row(
        "engine-install-fwd",
        "Put the power unit in, from above or from beneath on its frame",
        ENGINE,
        (3, 6, 10),
        after="bay-gate mate box-oil oil-prime front-frame",
        people=2,
        zones=BAY | FRONT | FRONT_ENDS,
        split=2,
        safety=True,
        dangerous_alone=True,
        layout=Layout.FRONT,
        tools=("hoist", "rated sling", "tilting bar", "paint covers"),
        cautions=(ON_HOIST, PAINT_EDGES),
        note="Break off only with the unit down on its mounts, never on the hoist.",
        proofs=(
            Owed(
                "Mounts located; no pipe, hose or wire pinched all round",
                ProofKind.SEEN,
                ASSEMBLY,
                "power unit in place",
                gates="first-start",
            ),
        ),
        needs=(
            fixing("Power unit mount bolts", 6, None, START),
            goods("Padding for the bay", "4 blankets"),
        ),
    ),
    Row(
        "engine-install-rwd",
        "Put engine and gearbox in from above, nose up",
        ENGINE,
        (3, 5, 10),
        after="bay-gate mate box-oil oil-prime front-frame",
        people=2,
        zones=BAY | FRONT,
        split=2,
        safety=True,
        dangerous_alone=True,
        layout=Layout.REAR,
        tools=("hoist", "rated sling", "tilting bar", "trolley jack", "paint covers"),
        cautions=(ON_HOIST, PAINT_EDGES),
        note="The second person steers the tail. Break off only with it down on its mounts.",
        proofs=(
            Owed(
                "Mounts located; no pipe, hose or wire pinched all round",
                ProofKind.SEEN,
                ASSEMBLY,
                "engine in place",
                gates="first-start",
            ),
        ),
        needs=(
            fixing("Engine mount bolts", 4, None, START),
            goods("Padding for the bay", "4 blankets"),
        ),
    ),
    Row(
        "mounts",
        "Torque engine and gearbox mounts; check the room it needs to rock",
        ENGINE,
        (0.5, 1, 2),
        after="engine-install-fwd engine-install-rwd",
        zones=BAY | UNDERNEATH,
        safety=True,
        tightens=(f"Mounts: {OWN_FIGURE}",),
        cautions=(UNDER_CAR, TORQUE_TONIGHT),
        rechecks=(Recheck(miles=500),),
        proofs=(
            Owed(
                "Touches nothing when rocked full; mounts torqued and marked",
                ProofKind.TORQUE,
                FIXED,
                "engine and gearbox mounts",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Engine and gearbox mounts", 4, RubberSpec()),
            fixing("Mount lock nuts", 8),
        ),
    ),
    Row(
        "axle-fit-rwd",
        "Fit the rear axle to its springs or links, pivots only nipped",
        "suspension",
        (2, 4, 8),
        after="axle-bench-rwd bushes underbody-coat",
        later="underbody-coat",
        people=2,
        alone="trolley jack, timber cradle and straps",
        zones=REAR_ENDS | REAR,
        wheels=Wheels.HANGING,
        split=2,
        safety=True,
        layout=Layout.REAR,
        tightens=("U-bolts: in even steps across the four; the car's own figure",),
        cautions=(HEAVY_BENEATH, UNDER_CAR, HEAVY),
        rechecks=(Recheck(miles=50), Recheck(miles=500)),
        proofs=(
            Owed(
                "Spring bolts left for ride height and listed; U-bolts drawn in even steps",
                ProofKind.TORQUE,
                FIXED,
                "rear axle fixings",
                gates="pushed-roll",
            ),
        ),
        needs=(
            fixing("U-bolts and lock nuts", 4, None, START),
            Uses("Spring pads", 4, RubberSpec()),
        ),
    ),
    Row(
        "halfshafts-rwd",
        "Fit half-shafts, bearings and seals",
        GEARBOX,
        (1.5, 3, 6),
        after="axle-fit-rwd",
        zones=REAR_ENDS,
        wheels=Wheels.HANGING,
        split=1,
        safety=True,
        layout=Layout.REAR,
        tools=("dial gauge", "press or drifts"),
        cautions=(WHEELS_OFF, TORQUE_TONIGHT),
        proofs=(
            Owed(
                "End float measured; no oil past the seal after a tilt each way",
                ProofKind.MEASURED,
                ASSEMBLY,
                "half-shafts and their seals",
                covers="rear-brakes",
                gates="pushed-roll",
            ),
        ),
        needs=(
            Uses("Half-shaft seals", 2, SealSpec()),
            Uses("Half-shaft bearings", 2, BearingSpec()),
            fixing("Half-shaft collars", 2, PlainSpec(), START),
        ),
    ),
    Row(
        "axle-oil-rwd",
        "Fill the axle with oil",
        GEARBOX,
        (0.3, 0.5, 1),
        after="halfshafts-rwd",
        zones=REAR_ENDS,
        layout=Layout.REAR,
        wait=stand(12, "overnight stand"),
        cautions=(UNDER_CAR,),
        proofs=(
            Owed(
                "Level at the plug, breather clear, dry next day",
                ProofKind.SEEN,
                JOINT,
                "axle seals",
                gates="first-start",
                hold_hours=12,
            ),
        ),
        needs=(goods("Axle oil", "about 1 litre"),),
    ),
    Row(
        "driveshafts-fwd",
        "Fit driveshafts and boots; take the dummy stubs out",
        GEARBOX,
        (2, 3, 6),
        after="engine-install-fwd uprights hub-dummy-fwd",
        later="hub-dummy-fwd",
        zones=FRONT_ENDS,
        wheels=Wheels.HANGING,
        split=1.5,
        safety=True,
        layout=Layout.FRONT,
        tools=("boot clip pliers", "paint pen"),
        cautions=(WHEELS_OFF, EYES_BENEATH),
        proofs=(
            Owed(
                "Each shaft's clip felt home by a tug; boots whole; dummy stubs off the list",
                ProofKind.SEEN,
                FIXED,
                "driveshafts",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Driveshaft boots", 4, RubberSpec()),
            fixing("Boot clips", 8, PlainSpec()),
            fixing("New hub nuts", 2, None, START),
        ),
    ),
    Row(
        "hubnut-fwd",
        "Torque the hub nuts with the brakes held, then lock them",
        "wheels",
        (0.5, 0.5, 1),
        after="driveshafts-fwd bleed-1 on-wheels",
        later="bleed-1 on-wheels",
        people=2,
        alone="pedal prop and a long bar",
        zones=FRONT_ENDS,
        wheels=Wheels.LOADED,
        safety=True,
        layout=Layout.FRONT,
        tools=("large torque wrench", "long bar", "punch"),
        tightens=("Hub nuts: the car's own figure, new nuts; log, pin or stake",),
        cautions=(
            Caution(
                "Crush",
                "This figure tips a car off stands: on its wheels, chocked, brakes held.",
            ),
            TORQUE_TONIGHT,
        ),
        rechecks=(Recheck(miles=50),),
        proofs=(
            Owed(
                "New nut torqued, written down, pinned or staked",
                ProofKind.TORQUE,
                FIXED,
                "front hub nuts",
                gates="first-move",
            ),
        ),
        needs=(fixing("Hub nut split pins", 2, SplitPinSpec()),),
    ),
    Row(
        "gearbox-mount-rwd",
        "Fit gearbox crossmember and mount",
        GEARBOX,
        (0.5, 1, 2),
        after="engine-install-rwd",
        zones=UNDERNEATH,
        safety=True,
        layout=Layout.REAR,
        tightens=(f"Crossmember and mount: {OWN_FIGURE}",),
        cautions=(UNDER_CAR, HEAVY_BENEATH),
        proofs=(
            Owed(
                "Torqued and marked",
                ProofKind.TORQUE,
                FIXED,
                "gearbox mount",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Gearbox mount", 1, RubberSpec()),
            fixing("Crossmember bolts", 4, None, START),
        ),
    ),
    Row(
        "propshaft-rwd",
        "Fit the propshaft",
        GEARBOX,
        (0.7, 1.5, 3),
        after="gearbox-mount-rwd axle-fit-rwd under-gate",
        zones=UNDERNEATH,
        safety=True,
        layout=Layout.REAR,
        tools=("angle finder", "torque wrench", "paint pen"),
        tightens=(f"Flange bolts: {OWN_FIGURE}",),
        cautions=(UNDER_CAR, TORQUE_TONIGHT),
        rechecks=(Recheck(miles=50),),
        proofs=(
            Owed(
                "Joints on their marks, angles within a degree of each other, bolts torqued",
                ProofKind.MEASURED,
                FIXED,
                "propshaft",
                gates="first-start",
                limits=(at_most("difference of the joint angles", "deg", 1),),
            ),
        ),
        needs=(fixing("Propshaft bolts and lock nuts", 8, None, START),),
    ),
    Row(
        "linkage-fwd",
        "Fit and set the gear linkage",
        GEARBOX,
        (0.5, 1.5, 3),
        after="engine-install-fwd",
        zones=UNDERNEATH | CABIN,
        layout=Layout.FRONT,
        cautions=(UNDER_CAR,),
        proofs=(
            Owed(
                "Every gear found, none jumps out",
                ProofKind.SEEN,
                ASSEMBLY,
                "gear linkage",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Linkage bushes", 4, BearingSpec()),
            fixing("Roll pins", 2, PlainSpec()),
        ),
    ),
    Row(
        "lever-rwd",
        "Fit gear lever, seals and gaiter",
        GEARBOX,
        (0.5, 1, 2),
        after="engine-install-rwd",
        zones=CABIN,
        layout=Layout.REAR,
        proofs=(
            Owed(
                "Every gear found by the lever",
                ProofKind.SEEN,
                ASSEMBLY,
                "gear lever",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Lever bushes", 2, BearingSpec()),
            Uses("Gaiter", 1, RubberSpec()),
        ),
    ),
    Row(
        "slave",
        "Fit the clutch slave, or connect the cable",
        GEARBOX,
        (0.5, 1, 2),
        after="mounts clutch-line",
        later="mounts",
        zones=UNDERNEATH | BAY,
        cautions=(UNDER_CAR,),
        proofs=(
            Owed(
                "Hose untwisted; lever square to the rod at half travel",
                ProofKind.SEEN,
                JOINT,
                "clutch slave or cable",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Clutch hose", 1),
            fixing("Clutch hose washers", 2, PlainSpec(), START),
            fixing("Slave clevis pin", 1, PlainSpec()),
        ),
    ),
)
