"""Steering and wheels, up to the day the shell stands on its wheels."""

from __future__ import annotations

from bareshell.model.job import Caution, Recheck
from bareshell.model.part import NeededTo
from bareshell.model.position import Place, Wheels
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import BearingSpec, PlainSpec, RubberSpec, SplitPinSpec
from bareshell.trade.cautions import (
    ROLLING,
    STEERING_LIVES,
    WHEELS_OFF,
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
)
from bareshell.trade.zones import BAY, CABIN, FRONT_ENDS

STEERING = "steering"
WHEELS = "wheels"
FIXED = AboutKind.FIXING
BENCH = Place.BENCH
HANGING, LOADED = Wheels.HANGING, Wheels.LOADED
ENGINE_OUT = ("engine out",)
START = NeededTo.START
OWN_FIGURE = "the car's own figure; log and paint-mark"

ROWS: tuple[Row, ...] = (
    Row(
        "rack-bench",
        "Look over or rebuild the steering rack or box",
        STEERING,
        (1, 3, 8),
        after="goods-in",
        place=BENCH,
        split=1,
        safety=True,
        cautions=(STEERING_LIVES,),
        proofs=(
            Owed(
                "No tight spot from lock to lock; boots whole, filled as the maker says",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "steering rack or box",
                gates="pushed-roll",
            ),
        ),
        needs=(
            Uses("Steering boots", 2, RubberSpec()),
            fixing("Boot ties", 4, PlainSpec()),
            goods("Rack oil or grease", "0.3 litre"),
        ),
    ),
    Row(
        "rack-fit",
        "Fit rack or box and centre it",
        STEERING,
        (1, 2, 4),
        after="rack-bench front-frame",
        zones=FRONT_ENDS | BAY,
        off=ENGINE_OUT,
        safety=True,
        tightens=(f"Rack clamps: {OWN_FIGURE}",),
        cautions=(STEERING_LIVES, WHEELS_OFF),
        proofs=(
            Owed(
                "Clamps torqued and marked; equal turns each way from the centre",
                ProofKind.TORQUE,
                FIXED,
                "rack or box clamps",
                gates="engine-bay pushed-roll",
            ),
        ),
        needs=(
            Uses("Rack packing", 2, RubberSpec()),
            fixing("Rack clamps and bolts", 2, None, START),
        ),
    ),
    Row(
        "column-fit",
        "Fit column, lock, bushes and joints",
        STEERING,
        (1.5, 3, 5),
        after="rack-fit loom-main",
        later="loom-main",
        zones=CABIN | BAY,
        split=1,
        safety=True,
        tightens=(f"Pinch bolts: {OWN_FIGURE}",),
        cautions=(STEERING_LIVES,),
        proofs=(
            Owed(
                "Each pinch bolt passes its groove; nothing binds through the whole turn",
                ProofKind.TORQUE,
                FIXED,
                "steering column joints",
                covers="dash-fit",
                gates="cabin pushed-roll",
            ),
        ),
        needs=(
            Uses("Column bushes", 2, BearingSpec()),
            fixing("Pinch bolts and lock nuts", 3, None, START),
            fixing("Shear bolts of the steering lock", 2),
        ),
    ),
    Row(
        "track-rods",
        "Fit track-rod ends, equal threads, rough toe",
        STEERING,
        (0.5, 1, 2),
        after="rack-fit uprights",
        zones=FRONT_ENDS,
        wheels=HANGING,
        safety=True,
        tools=("tape or two bars",),
        tightens=(f"Track-rod taper nuts: {OWN_FIGURE}", "Locknuts: nipped only until toe is set"),
        cautions=(STEERING_LIVES, WHEELS_OFF),
        rechecks=(Recheck(miles=50),),
        proofs=(
            Owed(
                "Same thread engaged both sides, tapers dry, locknuts nipped and listed",
                ProofKind.MEASURED,
                FIXED,
                "track rods",
                gates="pushed-roll",
                limits=(at_most("difference in thread engaged", "mm", 3),),
            ),
        ),
        temp=Left("Rough toe, locknuts nipped", "toe", "first-move", "toe set, locknuts torqued"),
        needs=(
            Uses("Track-rod ends", 2),
            fixing("Track-rod nuts", 2),
            fixing("Track-rod split pins", 2, SplitPinSpec()),
        ),
    ),
    Row(
        "tyres-wheels",
        "Prepare wheels; fit and balance tyres of the right size, load rating and age",
        WHEELS,
        (1, 2, 4),
        after="goods-in",
        place=BENCH,
        split=0.5,
        safety=True,
        cautions=(
            Caution(
                "Pressure",
                "A tyre seating on its rim can burst: let a tyre shop do it, or stand clear and "
                "stop at the tyre maker's seating pressure.",
            ),
        ),
        rechecks=(Recheck(months=12),),
        proofs=(
            Owed(
                "Date code under six years at fitting; wheel seats not thick with paint",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "tyres and wheels",
                gates="road",
                limits=(at_most("age of the tyre", "years", 6),),
                valid_days=365,
            ),
        ),
        needs=(
            Uses("Tyres", 5, PlainSpec(words="size, load index and speed letter by the car")),
            Uses("Tyre valves", 5, needed_to=NeededTo.FINISH),
        ),
    ),
    Row(
        "wheel-fixings",
        "Check studs, nuts or bolts: shape of seat, thread depth, length",
        WHEELS,
        (0.5, 0.5, 1),
        after="tyres-wheels front-hubs",
        place=BENCH,
        safety=True,
        tools=("depth gauge", "marking blue"),
        cautions=(
            Caution(
                "Hands and lives",
                "A round seat in a tapered wheel feels tight and works loose: try each with blue.",
            ),
        ),
        proofs=(
            Owed(
                "One diameter of thread engaged at least; seat agrees with the wheel",
                ProofKind.MEASURED,
                FIXED,
                "wheel nuts or bolts",
                gates="pushed-roll",
                limits=(at_least("thread engaged, in diameters", "", 1.0),),
            ),
        ),
        needs=(fixing("Wheel nuts or bolts", 16, None, START),),
    ),
    Row(
        "on-wheels",
        "Lower it onto its wheels and roll it by hand",
        WHEELS,
        (0.5, 1, 2),
        after="uprights front-springs rear-springs wheel-fixings track-rods disc-fit rear-brakes "
        "hub-dummy-fwd",
        later="disc-fit rear-brakes",
        people=2,
        wheels=LOADED,
        safety=True,
        dangerous_alone=True,
        tightens=(f"Wheel nuts: {OWN_FIGURE}",),
        cautions=(
            ROLLING,
            Caution("Hands and lives", "No brakes yet: say so on a board on the windscreen frame."),
        ),
        proofs=(
            Owed(
                "Wheel nuts torqued; a second person at the chocks; the board is on",
                ProofKind.TORQUE,
                FIXED,
                "wheels for rolling",
                fixings="wheel-fixings.wheel-nuts-or-bolts",
            ),
        ),
        temp=Left("No-brakes board", "rehearsal", "road", "brakes proved"),
        tools=("wheel chocks", "rope", "torque wrench"),
    ),
)
