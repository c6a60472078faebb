"""Pedals, master cylinder, pipes and cables that go in while the shell is bare."""

from __future__ import annotations

from bareshell.model.job import Caution
from bareshell.model.part import NeededTo
from bareshell.model.position import Place
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import (
    BearingSpec,
    CableSpec,
    CylinderSpec,
    PinSpec,
    PipeSpec,
    PlainSpec,
    SealSpec,
    SplitPinSpec,
    UnionSpec,
)
from bareshell.trade.cautions import (
    BRAKE_FIGURES,
    BRAKE_JOINT,
    BRAKE_PARTS,
    EYES_BENEATH,
    EYES_CUTTING,
    EYES_FLUID,
    FLUID_PAINT,
    HYDRAULIC,
    TORQUE_TONIGHT,
    UNDER_CAR,
)
from bareshell.trade.row import (
    Left,
    Owed,
    Row,
    Uses,
    at_least,
    at_most,
    fixing,
    goods,
    stand,
)
from bareshell.trade.zones import BAY, BOTH_ENDS, CABIN, REAR_ENDS, UNDERNEATH

BRAKES = "brakes"
CLUTCH = "gearbox and clutch"
JOINT = AboutKind.JOINT
ENGINE_IN = "engine-install-fwd engine-install-rwd"
ENGINE_OUT = ("engine out",)
START = NeededTo.START
PIPE_TOOLS = ("flaring tool", "bender", "pipe cutter", "file", "pipe caps")
CLIP_GAP = at_most("widest clip gap", "mm", 300)


def _held(about: str, covers: str, gates: str) -> Owed:
    """Owe the overnight hold of rigid pipes, one proof for each run."""
    return Owed(
        "Every joint dry under tissue after a night under pressure",
        ProofKind.HELD_PRESSURE,
        JOINT,
        about,
        key="held",
        by="lines-hold",
        covers=covers,
        gates=gates,
        hold_hours=12,
    )


ROWS: tuple[Row, ...] = (
    Row(
        "pipe-plan",
        "Draw the pipe plan: each run, its length, both ends, clips, clearances",
        BRAKES,
        (1, 3, 6),
        after="brake-calc hole-audit",
        later="hole-audit brake-calc",
        zones=UNDERNEATH | BAY,
        split=0.5,
        tools=("string or wire pattern", "rule", "flare and thread gauges"),
        safety=True,
        cautions=(BRAKE_FIGURES, UNDER_CAR),
        proofs=(
            Owed(
                "Thread, seat, flare and pipe size agree on both sides of every joint",
                ProofKind.SEEN,
                AboutKind.PAPER,
                "pipe plan",
            ),
        ),
    ),
    Row(
        "flare-trial",
        "Make one flare of each kind on scrap and cut it open",
        BRAKES,
        (0.5, 1, 2),
        after="tool-check pipe-plan",
        place=Place.BENCH,
        tools=("flaring tool", "saw", "lens"),
        safety=True,
        cautions=(EYES_CUTTING, BRAKE_JOINT),
        proofs=(
            Owed(
                "Cut open: concentric, no crack, full seat",
                ProofKind.SEEN,
                JOINT,
                "trial flares",
            ),
        ),
        needs=(
            Uses("Scrap brake pipe", spec=PipeSpec(length_m=0.5)),
            fixing("Trial nuts", 2, UnionSpec(), START),
        ),
    ),
    Row(
        "pedal-box",
        "Overhaul and fit the pedal box: bushes, pins, return springs, stops",
        BRAKES,
        (2, 3, 6),
        after="bulkhead-pad threads-chase fast-sort fast-plate",
        later="threads-chase",
        implies="paint-harden",
        zones=CABIN | BAY,
        off=ENGINE_OUT,
        split=0.5,
        safety=True,
        tightens=("Pedal box to bulkhead: the car's own figure; mark",),
        cautions=(
            Caution(
                "Hands and lives",
                "The pedal hangs on one pin and one split pin: new ones, legs spread, and the "
                "second pair of eyes is you tomorrow.",
            ),
            TORQUE_TONIGHT,
        ),
        proofs=(
            Owed(
                "No side play; pins new with split pins; pedal travels full to its stop",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "pedal box",
                covers="dash-fit",
                gates="engine-bay first-move",
            ),
        ),
        needs=(
            Uses("Pedal bushes", 4, BearingSpec()),
            fixing("Clevis pins for the pedals", 2, PinSpec()),
            fixing("Split pins for the pedals", 2, SplitPinSpec()),
            Uses("Pedal box seal", spec=SealSpec()),
        ),
    ),
    Row(
        "mc-bench",
        "Bench-bleed the brake master cylinder",
        BRAKES,
        (0.3, 0.5, 1),
        after="goods-in brake-calc fluid-choose",
        later="brake-calc fluid-choose",
        place=Place.BENCH,
        tools=("vice with soft jaws", "clear tubes", "tray"),
        safety=True,
        cautions=(EYES_FLUID, FLUID_PAINT, BRAKE_PARTS),
        note="In the week the cylinder is fitted and filled, not months before.",
        proofs=(
            Owed(
                "No bubble in ten slow strokes; seal material agrees with the fluid",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "master cylinder",
                limits=(at_least("slow strokes without a bubble", "", 10),),
            ),
        ),
        needs=(
            Uses("Brake master cylinder", spec=CylinderSpec(what="master cylinder")),
            goods("Brake fluid for the bench", "sealed bottle", shelf_months=12),
        ),
    ),
    Row(
        "mc-fit",
        "Fit the master cylinder, and the servo if any; set the rod's free play",
        BRAKES,
        (1, 2, 4),
        after="pedal-box mc-bench",
        zones=BAY | CABIN,
        off=ENGINE_OUT,
        safety=True,
        tools=("torque wrench", "feeler gauges", "port caps"),
        tightens=("Cylinder flange nuts: the car's own figure; mark",),
        cautions=(
            Caution(
                "Hands and lives",
                "A rod without free play keeps the port shut: pressure builds by itself and the "
                "brakes drag on.",
            ),
            FLUID_PAINT,
        ),
        proofs=(
            Owed(
                "Rod has free play, so the port uncovers; flange torqued and marked",
                ProofKind.TORQUE,
                AboutKind.FIXING,
                "master cylinder",
                covers=ENGINE_IN,
                gates="engine-bay first-move",
                limits=(at_least("free play of the rod", "mm", 0.5),),
            ),
        ),
        needs=(
            Uses("Cylinder gasket", spec=SealSpec()),
            fixing("Cylinder flange nuts", 2),
        ),
    ),
    Row(
        "pipe-bay",
        "Make and fit the brake pipes in the engine bay",
        BRAKES,
        (2, 4, 8),
        after="flare-trial mc-fit bulkhead-pad",
        zones=BAY,
        off=ENGINE_OUT,
        split=0.5,
        safety=True,
        tools=PIPE_TOOLS,
        tightens=("Pipe nuts: the fitting's own figure, threads dry",),
        cautions=(BRAKE_JOINT, EYES_CUTTING),
        twin="pipe-under",
        proofs=(
            Owed(
                "Clips at most 300 mm apart; clear of steering, exhaust and the engine's rocking",
                ProofKind.MEASURED,
                JOINT,
                "engine-bay brake pipes",
                covers=ENGINE_IN,
                gates="engine-bay",
                limits=(CLIP_GAP,),
            ),
            _held("engine-bay brake pipes", ENGINE_IN, "engine-bay"),
        ),
        needs=(
            Uses("Brake pipe for the bay", spec=PipeSpec(length_m=2.0)),
            fixing("Pipe nuts for the bay", 6, UnionSpec(), START),
            fixing("Pipe clips for the bay", 8, PlainSpec()),
        ),
    ),
    Row(
        "pipe-under",
        "Make and fit the long brake pipe to the rear",
        BRAKES,
        (2, 4, 8),
        after="flare-trial underbody-coat",
        later="underbody-coat",
        zones=UNDERNEATH,
        split=0.5,
        safety=True,
        tools=PIPE_TOOLS,
        tightens=("Pipe nuts: the fitting's own figure, threads dry",),
        cautions=(UNDER_CAR, BRAKE_JOINT, EYES_CUTTING),
        twin="pipe-bay",
        proofs=(
            Owed(
                "One piece without a hidden joint; clips at most 300 mm apart",
                ProofKind.MEASURED,
                JOINT,
                "long brake pipe",
                covers="tank-fit propshaft-rwd exh-loose",
                gates="under-car",
                limits=(CLIP_GAP,),
            ),
            _held("long brake pipe", "tank-fit propshaft-rwd exh-loose", "under-car"),
        ),
        needs=(
            Uses("Brake pipe to the rear", spec=PipeSpec(length_m=3.0)),
            fixing("Pipe nuts for the long pipe", 2, UnionSpec(), START),
            fixing("Pipe clips beneath", 10, PlainSpec()),
        ),
    ),
    Row(
        "pipe-rear",
        "Make and fit the rear cross pipes or axle pipes",
        BRAKES,
        (1, 2.5, 5),
        after="pipe-under rear-beam-fwd axle-fit-rwd",
        zones=REAR_ENDS,
        split=0.5,
        safety=True,
        tools=PIPE_TOOLS,
        tightens=("Pipe nuts into tee and hoses: the fitting's own figure, threads dry",),
        cautions=(UNDER_CAR, BRAKE_JOINT, EYES_CUTTING),
        proofs=(
            Owed(
                "Axle clears the pipe at bump and at droop; clips at most 300 mm apart",
                ProofKind.MEASURED,
                JOINT,
                "rear brake pipes",
                gates="under-car",
                limits=(CLIP_GAP,),
            ),
            _held("rear brake pipes", "", "under-car"),
        ),
        needs=(
            Uses("Brake pipe for the rear axle", spec=PipeSpec(length_m=2.0)),
            fixing("Pipe nuts for the rear axle", 4, UnionSpec(), START),
            fixing("Pipe clips for the rear axle", 6, PlainSpec()),
        ),
    ),
    Row(
        "valve-fit",
        "Fit the balance or pressure-limiting valve and the junctions",
        BRAKES,
        (0.5, 1, 3),
        after="pipe-under brake-calc",
        later="brake-calc",
        zones=UNDERNEATH,
        safety=True,
        tools=("lamp", "mirror", "camera", "paint pen"),
        tightens=("Valve bracket and pipe nuts: the car's own figures; mark",),
        cautions=(
            UNDER_CAR,
            Caution(
                "Hands and lives",
                "A valve turned round gives the rear axle full pressure. Find the inlet on the "
                "casting, not by which pipe reaches.",
            ),
        ),
        proofs=(
            Owed(
                "Inlet and outlet the right way round; setting and marks photographed",
                ProofKind.SEEN,
                JOINT,
                "rear brake valve",
                covers="tank-fit",
                gates="under-car",
            ),
            _held("valve and junctions", "tank-fit", "under-car"),
        ),
        needs=(
            Uses("Rear brake valve", note="only if the specification has one"),
            fixing("Bolts of the valve bracket", 2),
        ),
    ),
    Row(
        "lines-hold",
        "Plug the wheel ends and hold pressure on the rigid pipes overnight",
        BRAKES,
        (1, 1.5, 4),
        after="pipe-bay pipe-rear valve-fit",
        zones=BOTH_ENDS | UNDERNEATH | BAY,
        off=ENGINE_OUT,
        wait=stand(12, "overnight hold"),
        weather="steady temperature, or read the gauge at the same one",
        safety=True,
        tools=("six plugs with seats", "gauge or pedal prop", "tissue", "pressure tag"),
        tightens=("Plugs and gauge adaptor: the fitting's own figure",),
        cautions=(HYDRAULIC, FLUID_PAINT, UNDER_CAR),
        note="Dry joints are the proof. The gauge of a closed rigid line moves by several bar for "
        "each degree, so a steady one proves nothing by itself.",
        temp=Left("Wheel-end plugs", "brake-fill", "first-move", "hoses, calipers and cylinders"),
        needs=(
            goods("Brake fluid for the hold", "sealed bottle, half a litre", shelf_months=12),
            fixing("Plugs for the wheel ends", 6, UnionSpec(), START),
        ),
    ),
    Row(
        "clutch-line",
        "Fit the clutch master cylinder and pipe, or route the clutch cable",
        CLUTCH,
        (1, 2, 4),
        after="pedal-box",
        zones=BAY | CABIN,
        off=ENGINE_OUT,
        tools=("flaring tool", "pliers", "port caps"),
        cautions=(FLUID_PAINT,),
        proofs=(
            Owed(
                "Pipe clear of the exhaust, or cable in gentle bends; pin has its split pin",
                ProofKind.SEEN,
                JOINT,
                "clutch line",
                covers=ENGINE_IN,
                gates="engine-bay",
            ),
        ),
        needs=(
            Uses("Clutch pipe or cable", spec=PipeSpec(length_m=1.0)),
            fixing("Clips for the clutch line", 3, PlainSpec()),
            fixing("Clutch clevis pin", 1, PinSpec()),
            fixing("Clutch split pin", 1, SplitPinSpec()),
        ),
    ),
    Row(
        "hb-cables",
        "Fit handbrake lever, cables, guides and balance lever",
        BRAKES,
        (1, 2, 4),
        after="underbody-coat threads-chase",
        later="underbody-coat threads-chase",
        zones=UNDERNEATH | REAR_ENDS | CABIN,
        split=0.5,
        safety=True,
        tools=("grease gun",),
        tightens=("Lever to floor: the car's own figure; mark",),
        cautions=(UNDER_CAR, EYES_BENEATH),
        proofs=(
            Owed(
                "Moves freely by hand, guides greased, nothing rubs at full droop",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "handbrake cables",
                covers="tank-fit propshaft-rwd",
                gates="under-car",
            ),
        ),
        needs=(
            Uses("Handbrake cables", 2, CableSpec()),
            fixing("Clevis pins for the handbrake", 3, PinSpec()),
            fixing("Split pins for the handbrake", 3, SplitPinSpec()),
            goods("Cable grease", "1 cartridge", needed_to=NeededTo.FINISH),
        ),
    ),
)
