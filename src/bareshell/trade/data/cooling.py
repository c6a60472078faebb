"""Heater, radiator, hoses and coolant."""

from __future__ import annotations

from bareshell.model.job import Caution, Recheck
from bareshell.model.part import NeededTo
from bareshell.model.position import Place
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import HoseSpec, PlainSpec, RubberSpec, SealSpec
from bareshell.trade.cautions import (
    EXHAUST_GAS,
    LOW_AIR,
    TURNING,
)
from bareshell.trade.row import (
    Owed,
    Row,
    Uses,
    at_least,
    at_most,
    fixing,
    goods,
    stand,
)
from bareshell.trade.zones import BAY, CABIN, FRONT

COOLING = "cooling"
JOINT, ASSEMBLY = AboutKind.JOINT, AboutKind.ASSEMBLY
BENCH = Place.BENCH
FINISH, START = NeededTo.FINISH, NeededTo.START

ROWS: tuple[Row, ...] = (
    Row(
        "heater-bench",
        "Overhaul the heater: matrix, valve, flaps, fan",
        COOLING,
        (2, 4, 8),
        after="goods-in",
        place=BENCH,
        split=1,
        tools=("water bath", "low-air kit", "supply with a small fuse"),
        cautions=(LOW_AIR,),
        proofs=(
            Owed(
                "Matrix holds 1 bar under water; the fan runs at each speed",
                ProofKind.HELD_PRESSURE,
                JOINT,
                "heater matrix",
                covers="heater-fit",
                gates="engine-bay",
                limits=(at_least("air pressure under water", "bar", 1.0),),
            ),
        ),
        needs=(
            goods("Heater foam", "1 sheet"),
            Uses("Heater seals and stubs", 4, SealSpec()),
        ),
    ),
    Row(
        "heater-fit",
        "Fit the heater and its pipes through the bulkhead",
        COOLING,
        (1.5, 3, 6),
        after="heater-bench lines-hold loom-test clutch-line bulkhead-pad",
        later="lines-hold loom-test clutch-line bulkhead-pad",
        zones=CABIN | BAY,
        split=1.5,
        proofs=(
            Owed(
                "Flaps reach both ends; the drain tube is clear",
                ProofKind.SEEN,
                ASSEMBLY,
                "heater",
                covers="dash-fit",
                gates="engine-bay",
            ),
        ),
        needs=(
            Uses("Heater to bulkhead seals", 2, RubberSpec()),
            fixing("Heater clips and screws", 8, PlainSpec()),
        ),
    ),
    Row(
        "rad-bench",
        "Clean the radiator and test it under pressure",
        COOLING,
        (0.5, 1, 2),
        after="goods-in",
        place=BENCH,
        tools=("water bath", "low-air kit"),
        cautions=(LOW_AIR,),
        proofs=(
            Owed(
                "Holds the cap's pressure under water; flows freely",
                ProofKind.HELD_PRESSURE,
                JOINT,
                "radiator",
                covers="rad-fit",
            ),
        ),
    ),
    Row(
        "rad-fit",
        "Fit radiator, cowl, fan and switch",
        COOLING,
        (0.7, 1.5, 3),
        after="rad-bench mounts",
        later="mounts",
        zones=BAY | FRONT,
        split=0.5,
        cautions=(TURNING,),
        proofs=(
            Owed(
                "Fan clears everything when turned by hand, and blows the right way",
                ProofKind.SEEN,
                ASSEMBLY,
                "radiator and fan",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Radiator pads", 4, RubberSpec()),
            fixing("Radiator bolts", 4),
        ),
    ),
    Row(
        "hoses",
        "Fit the coolant hoses",
        COOLING,
        (0.7, 1.5, 3),
        after="rad-fit heater-fit engine-dress",
        later="heater-fit",
        zones=BAY | CABIN,
        split=0.5,
        rechecks=(Recheck(miles=50),),
        proofs=(
            Owed(
                "Each clip behind its bead, and where a screwdriver can reach it",
                ProofKind.SEEN,
                JOINT,
                "coolant hoses",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Coolant hoses", 6, HoseSpec(carries="coolant")),
            fixing("Hose clips", 12, PlainSpec(), START),
        ),
    ),
    Row(
        "coolant-fill",
        "Fill and bleed the coolant",
        COOLING,
        (0.5, 1, 2),
        after="hoses",
        zones=BAY | CABIN,
        cautions=(
            Caution(
                "Hands and lives", "Coolant tastes sweet and poisons: no open tray, no puddle left."
            ),
        ),
        note="Done with the heater taps open and the high points bled.",
        needs=(goods("Coolant, mixed", "5 to 6 litres"),),
    ),
    Row(
        "coolant-hold",
        "Hold pressure on the cold cooling system; leave it overnight",
        COOLING,
        (0.3, 0.5, 1),
        after="coolant-fill",
        zones=BAY | CABIN,
        wait=stand(12, "overnight hold"),
        tools=("cooling pressure pump", "tissue"),
        cautions=(
            Caution("Pressure", "At the cap's own figure, cold, no more: a hose or tank bursts."),
        ),
        proofs=(
            Owed(
                "Falls under 0.14 bar in two minutes at 1 bar, hoses flexed; floor dry next day",
                ProofKind.HELD_PRESSURE,
                JOINT,
                "cold cooling system",
                made="hoses rad-fit heater-fit",
                gates="cabin first-start",
                limits=(at_most("fall in two minutes", "bar", 0.14),),
                hold_hours=12,
            ),
        ),
    ),
    Row(
        "heater-hot",
        "Prove heater, hoses and drain hot before the console closes it in",
        COOLING,
        (0.2, 0.3, 0.6),
        after="hot-check",
        zones=CABIN | BAY,
        cautions=(EXHAUST_GAS,),
        proofs=(
            Owed(
                "Warm air, dry matrix joints, the drain drips outside",
                ProofKind.SEEN,
                JOINT,
                "hot heater",
                covers="trim-last",
            ),
        ),
    ),
)
