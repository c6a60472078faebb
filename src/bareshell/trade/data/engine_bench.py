"""Engine, gearbox and axle on the bench."""

from __future__ import annotations

from bareshell.model.car import Layout
from bareshell.model.job import Caution, Recheck
from bareshell.model.part import NeededTo
from bareshell.model.position import Place
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import BearingSpec, PlainSpec, SealSpec
from bareshell.trade.cautions import (
    HEAVY,
    ON_HOIST,
    SKIN_GOODS,
)
from bareshell.trade.row import FORCED_INDUCTION as FORCED
from bareshell.trade.row import Left, Owed, Row, Uses, cure, fixing, goods, stand

ENGINE = "engine"
GEARBOX = "gearbox and clutch"
BENCH = Place.BENCH
ASSEMBLY, FIXED, JOINT = AboutKind.ASSEMBLY, AboutKind.FIXING, AboutKind.JOINT
ENGINE_IN = "engine-install-fwd engine-install-rwd"
FINISH, START = NeededTo.FINISH, NeededTo.START

ROWS: tuple[Row, ...] = (
    Row(
        "engine-inspect",
        "Strip and look over the engine, or look over the one received; measure the wear",
        ENGINE,
        (2, 4, 8),
        after="parts-count",
        place=BENCH,
        split=1,
        dirty=True,
        tools=("micrometer", "bore gauge", "notebook"),
        cautions=(HEAVY,),
        note="Done when each measurement is written beside its limit.",
    ),
    Row(
        "engine-machine",
        "Machine shop: take it, fetch it, measure again",
        ENGINE,
        (1, 2, 4),
        after="engine-inspect",
        place=BENCH,
        wait=stand(504, "away at the machine shop"),
        cautions=(HEAVY,),
        note="Done when it is measured again on return and every passage is cleaned.",
    ),
    Row(
        "engine-short",
        "Clean and assemble the bottom end",
        ENGINE,
        (8, 14, 24),
        after="engine-machine tool-check",
        later="tool-check",
        place=BENCH,
        split=2,
        tools=("torque wrench", "plastic gauge strip", "covers against dust"),
        tightens=("Main and big-end caps: the maker's own figure, in steps; log",),
        cautions=(HEAVY,),
        proofs=(
            Owed(
                "Each clearance and torque written down; turns by hand after each step",
                ProofKind.MEASURED,
                ASSEMBLY,
                "bottom end",
                covers="engine-seal",
            ),
        ),
        needs=(
            Uses("Main and big-end bearings", 1, BearingSpec(), note="one set"),
            Uses("Piston rings", 1, note="one set"),
            Uses("Crankshaft seals", 2, SealSpec()),
            goods("Assembly lubricant", "1 tube"),
        ),
    ),
    Row(
        "engine-top",
        "Fit head, timing gear and valve gear",
        ENGINE,
        (5, 8, 14),
        after="engine-short",
        place=BENCH,
        split=2,
        tools=("torque wrench", "degree wheel or marks", "feeler gauges"),
        tightens=("Head: the maker's own figure, in its own order; log",),
        cautions=(HEAVY,),
        rechecks=(Recheck(miles=500),),
        proofs=(
            Owed(
                "Valve timing photographed at its marks; clearances set; head torqued in order",
                ProofKind.TORQUE,
                ASSEMBLY,
                "head and valve timing",
                covers="engine-seal",
            ),
        ),
        needs=(
            Uses("Head gasket set", 1, SealSpec()),
            fixing("Head bolts or studs", 10, None, START),
        ),
    ),
    Row(
        "engine-seal",
        "Fit sump, covers and seals",
        ENGINE,
        (1.5, 2.5, 5),
        after="engine-top",
        place=BENCH,
        split=0.5,
        wait=cure(24, 10, "sealant cures"),
        lowest_c=10,
        cautions=(SKIN_GOODS,),
        note="Check pick-up and relief valve before closing; count the tools back out.",
        needs=(
            Uses("Sump and cover gaskets", 1, SealSpec(), note="one set"),
            goods("Engine sealant", "1 tube", 10, 18),
        ),
    ),
    Row(
        "engine-dress",
        "Dress the engine: manifolds, pump, thermostat, charging unit, mounts",
        ENGINE,
        (3, 5, 9),
        after="engine-seal",
        place=BENCH,
        split=1,
        tightens=("What cannot be reached in the car: torque and mark now",),
        cautions=(HEAVY,),
        proofs=(
            Owed(
                "Everything out of reach in the car is torqued and marked now",
                ProofKind.TORQUE,
                FIXED,
                "dressed engine",
                covers=ENGINE_IN,
            ),
        ),
        needs=(
            Uses("Manifold gaskets", 2, SealSpec()),
            fixing("Manifold studs and nuts", 12),
            Uses("Drive belt", 1, needed_to=FINISH),
            Uses("Thermostat", 1),
        ),
    ),
    Row(
        "oil-prime",
        "Prime the oil pump and turn the engine by hand",
        ENGINE,
        (0.5, 1, 2),
        after="engine-seal",
        place=BENCH,
        tools=("primer", "gauge"),
        proofs=(
            Owed(
                "Oil seen at the top end, or pressure on a gauge",
                ProofKind.SEEN,
                ASSEMBLY,
                "primed oil pump",
                covers=ENGINE_IN,
            ),
        ),
        needs=(goods("Oil for priming", "1 litre"),),
    ),
    Row(
        "clutch-fit",
        "Fit flywheel, clutch, spigot and release bearing",
        GEARBOX,
        (1, 2, 4),
        after="engine-seal goods-in",
        place=BENCH,
        tools=("alignment tool", "torque wrench", "degreaser"),
        tightens=("Flywheel bolts: the maker's own figure, locked; log",),
        cautions=(HEAVY,),
        proofs=(
            Owed(
                "Plate the right way round and aligned; flywheel bolts torqued and locked",
                ProofKind.TORQUE,
                FIXED,
                "flywheel and clutch",
                covers="mate",
            ),
        ),
        needs=(
            Uses("Clutch plate, cover and release bearing"),
            fixing("Flywheel bolts and lock", 6, None, START),
        ),
    ),
    Row(
        "gearbox-bench",
        "Look over, rebuild or receive the gearbox",
        GEARBOX,
        (2, 8, 25),
        after="parts-count",
        place=BENCH,
        split=1.5,
        lowest_c=10,
        dirty=True,
        cautions=(HEAVY,),
        proofs=(
            Owed(
                "Every gear goes in by hand; seals new",
                ProofKind.SEEN,
                ASSEMBLY,
                "gearbox",
                covers="mate",
            ),
        ),
        needs=(
            Uses("Gearbox seals and gaskets", 1, SealSpec(), note="one set"),
            goods("Gearbox sealant", "1 tube", 10, 18),
        ),
    ),
    Row(
        "mate",
        "Join engine and gearbox",
        GEARBOX,
        (1, 2, 4),
        after="clutch-fit gearbox-bench engine-dress",
        people=2,
        alone="engine on the hoist, gearbox on a trolley cradle",
        place=BENCH,
        dangerous_alone=True,
        cautions=(ON_HOIST, HEAVY),
        note="The housing closes by hand. Drawn up by its bolts, it breaks the clutch plate.",
        needs=(
            fixing("Dowels", 2, PlainSpec(), START),
            fixing("Housing bolts", 8),
        ),
    ),
    Row(
        "box-oil",
        "Fill the gearbox and leave it to stand",
        GEARBOX,
        (0.3, 0.5, 1),
        after="mate",
        place=BENCH,
        wait=stand(12, "overnight stand"),
        proofs=(
            Owed(
                "Dry at the seals next day; the oil suits yellow metals",
                ProofKind.SEEN,
                JOINT,
                "gearbox seals",
                covers=ENGINE_IN,
                hold_hours=12,
            ),
        ),
        needs=(goods("Gear oil", "1 to 2.5 litres"),),
    ),
    Row(
        "axle-bench-rwd",
        "Look over or rebuild the rear axle: seals, bearings, gear mesh",
        GEARBOX,
        (4, 8, 20),
        after="susp-clean",
        later="susp-clean",
        place=BENCH,
        split=1.5,
        lowest_c=10,
        safety=True,
        dirty=True,
        layout=Layout.REAR,
        tools=("dial gauge", "press", "spring balance"),
        cautions=(HEAVY, Caution("Crush", "A nose that swings takes fingers: chock it.")),
        proofs=(
            Owed(
                "Pinion preload and backlash measured and written down",
                ProofKind.MEASURED,
                ASSEMBLY,
                "rear axle gears",
                covers="axle-fit-rwd",
            ),
        ),
        needs=(
            Uses("Axle seals", 3, SealSpec()),
            Uses("Axle bearings", 4, BearingSpec()),
            Uses("Axle gasket", 1, SealSpec()),
            goods("Axle sealant", "1 tube", 10, 18),
        ),
    ),
    Row(
        "fi-bench",
        "Look over or overhaul turbocharger or blower: float, seals, free spin; blank every port",
        ENGINE,
        (1, 2, 5),
        after="parts-count",
        place=BENCH,
        option=FORCED,
        tools=("dial gauge", "clean blanks"),
        proofs=(
            Owed(
                "Spins free, float within its own data; ports blanked and listed",
                ProofKind.MEASURED,
                ASSEMBLY,
                "turbocharger or blower",
            ),
        ),
        temp=Left("Blanks in turbocharger or blower ports", "fi-intake", "first-start", "pipes"),
        needs=(Uses("Turbocharger or blower seals", 1, SealSpec(), note="one set"),),
    ),
)
