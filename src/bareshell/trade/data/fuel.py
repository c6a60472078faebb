"""Fuel: pipe, tank, pump, hoses, carburettor, throttle."""

from __future__ import annotations

from bareshell.model.job import Caution, Recheck
from bareshell.model.part import NeededTo
from bareshell.model.position import Place
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import (
    CableSpec,
    HoseSpec,
    PipeSpec,
    PlainSpec,
    SealSpec,
)
from bareshell.trade.cautions import (
    EYES_CUTTING,
    FUEL,
    FUMES,
    HEAVY_BENEATH,
    LOW_AIR,
    UNDER_CAR,
)
from bareshell.trade.row import (
    Left,
    Owed,
    Row,
    Uses,
    at_least,
    at_most,
    between,
    cure,
    fixing,
    goods,
    stand,
)
from bareshell.trade.zones import BAY, BOOT, CABIN, REAR, UNDERNEATH

FUELS = "fuel"
JOINT, ASSEMBLY = AboutKind.JOINT, AboutKind.ASSEMBLY
BENCH = Place.BENCH
START = NeededTo.START
CLIP_GAP = at_most("widest clip gap", "mm", 300)

ROWS: tuple[Row, ...] = (
    Row(
        "fuel-line",
        "Run the fuel pipe beneath and clip it",
        FUELS,
        (1.5, 3, 5),
        after="underbody-coat",
        later="underbody-coat",
        zones=UNDERNEATH,
        split=0.5,
        safety=True,
        tools=("bender", "pipe cutter", "pipe caps"),
        cautions=(UNDER_CAR, EYES_CUTTING),
        proofs=(
            Owed(
                "Away from exhaust, propshaft and jacking points; clips at most 300 mm apart",
                ProofKind.MEASURED,
                JOINT,
                "fuel pipe",
                covers="tank-fit",
                gates="under-car",
                limits=(CLIP_GAP,),
            ),
            Owed(
                "Low air held for an hour, every joint soaped: no bubble",
                ProofKind.HELD_PRESSURE,
                JOINT,
                "fuel pipe",
                key="held",
                by="fuel-line-hold",
                covers="tank-fit exh-loose propshaft-rwd",
                gates="under-car",
                limits=(at_least("air pressure", "bar", 0.3),),
                hold_hours=1,
            ),
        ),
        needs=(
            Uses("Fuel pipe", spec=PipeSpec(length_m=4.0)),
            fixing("Clips for the fuel pipe", 14, PlainSpec()),
        ),
    ),
    Row(
        "fuel-line-hold",
        "Hold low air on the fuel pipe before tank, exhaust and shafts hide it",
        FUELS,
        (0.5, 1, 2),
        after="fuel-line",
        zones=UNDERNEATH,
        wait=stand(2, "low-pressure hold"),
        safety=True,
        tools=("hand pump with gauge and relief", "soap", "pipe caps"),
        cautions=(LOW_AIR, UNDER_CAR),
        temp=Left("Caps on the fuel pipe", "fuel-pump", "first-start", "pump and tank hoses"),
    ),
    Row(
        "tank-prep",
        "Clean, look over, line if needed and test the tank off the car",
        FUELS,
        (2, 4, 10),
        after="goods-in",
        place=BENCH,
        split=1,
        wait=cure(72, 15, "liner cures"),
        lowest_c=15,
        weather="dry",
        safety=True,
        dirty=True,
        tools=("lamp for fuel vapour", "low-air kit", "soap"),
        cautions=(
            Caution(
                "Fire",
                "An empty tank is worse than a full one: the vapour explodes. Never near flame, "
                "grinder or welder; wash it out first.",
            ),
            LOW_AIR,
            FUMES,
        ),
        proofs=(
            Owed(
                "Low air held with soap on all seams: no bubble",
                ProofKind.HELD_PRESSURE,
                AboutKind.SEAM,
                "fuel tank",
                covers="tank-fit",
                gates="under-car",
                limits=(between("air pressure", "bar", 0.1, 0.2),),
            ),
        ),
        needs=(
            goods("Tank liner", "1 kit, if it is to be lined", 15, 24),
            Uses("Sender gasket", spec=SealSpec(), needed_to=NeededTo.FINISH),
        ),
    ),
    Row(
        "sender-test",
        "Try the fuel sender with its gauge on the bench",
        FUELS,
        (0.5, 1, 2),
        after="tank-prep loom-survey",
        later="loom-survey",
        place=BENCH,
        tools=("meter", "supply with a small fuse"),
        cautions=(FUEL,),
        proofs=(
            Owed(
                "Empty, half and full read right on the gauge",
                ProofKind.SEEN,
                AboutKind.CIRCUIT,
                "fuel sender",
                covers="tank-fit",
            ),
        ),
    ),
    Row(
        "tank-fit",
        "Fit tank, straps, filler, vent and their seals",
        FUELS,
        (1.5, 3, 6),
        after="tank-prep sender-test under-gate",
        people=2,
        alone="trolley jack and a padded board",
        zones=UNDERNEATH | BOOT | REAR,
        split=1.5,
        safety=True,
        tightens=("Tank straps: the car's own figure; mark",),
        cautions=(HEAVY_BENEATH, FUEL, UNDER_CAR),
        proofs=(
            Owed(
                "Vent open, straps on insulation, filler sealed to the body",
                ProofKind.SEEN,
                JOINT,
                "fuel tank and filler",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Filler and vent hose", 2, HoseSpec(carries="fuel")),
            fixing("Tank strap bolts", 4),
            fixing("Filler clips", 4, PlainSpec()),
            Uses("Filler seal", spec=SealSpec()),
        ),
    ),
    Row(
        "carb-bench",
        "Overhaul carburettor or injection parts",
        FUELS,
        (2, 4, 8),
        after="parts-count",
        place=BENCH,
        split=1,
        safety=True,
        tools=("clean tray", "float gauge", "lens"),
        cautions=(FUEL,),
        proofs=(
            Owed(
                "Float level, valve seal and spindle play measured; seals proof against the fuel",
                ProofKind.MEASURED,
                ASSEMBLY,
                "carburettor or injection",
                gates="first-start",
            ),
        ),
        needs=(Uses("Carburettor or injection kit", 1, SealSpec(), note="fuel-proof seals"),),
    ),
    Row(
        "throttle",
        "Fit throttle, choke and return springs",
        FUELS,
        (0.5, 1.5, 3),
        after="mounts carb-bench pedal-box",
        later="mounts",
        zones=BAY | CABIN,
        safety=True,
        cautions=(
            Caution(
                "Hands and lives",
                "A throttle that sticks open is a runaway: two springs, and tried with the engine "
                "rocked.",
            ),
        ),
        proofs=(
            Owed(
                "Reaches full throttle; snaps shut from any point, the engine rocked",
                ProofKind.SEEN,
                ASSEMBLY,
                "throttle",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Throttle and choke cables", 2, CableSpec()),
            fixing("Return springs and nipples", 4, PlainSpec(), START),
        ),
    ),
    Row(
        "fuel-pump",
        "Fit the fuel pump and filter",
        FUELS,
        (0.5, 1, 2),
        after="tank-fit mounts",
        later="mounts",
        zones=BAY | UNDERNEATH,
        safety=True,
        cautions=(FUEL, UNDER_CAR),
        proofs=(
            Owed(
                "Flows the right way; an electric one is cut off by impact or lost oil pressure",
                ProofKind.SEEN,
                ASSEMBLY,
                "fuel pump",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Fuel filter", 1),
            Uses("Pump gasket", 1, SealSpec()),
            fixing("Fuel clips for the pump", 4, PlainSpec()),
        ),
    ),
    Row(
        "fuel-hoses",
        "Fit the flexible fuel hoses",
        FUELS,
        (0.5, 1, 2),
        after="fuel-pump carb-bench throttle",
        later="throttle",
        zones=BAY | UNDERNEATH | BOOT,
        safety=True,
        cautions=(FUEL, UNDER_CAR),
        rechecks=(Recheck(months=12),),
        proofs=(
            Owed(
                "Hose marked for fuel, date noted; clips with rounded edges",
                ProofKind.SEEN,
                JOINT,
                "flexible fuel hoses",
                gates="first-start",
                valid_days=365,
            ),
            Owed(
                "Dry at every joint two hours after the first fuel",
                ProofKind.SEEN,
                JOINT,
                "fuel joints with fuel in",
                key="wet",
                by="fuel-wet",
                gates="first-start",
                hold_hours=2,
            ),
        ),
        needs=(
            Uses("Fuel hose", 1, HoseSpec(carries="fuel"), note="1 to 2 metres, marked for fuel"),
            fixing("Round-edged fuel clips", 8, PlainSpec()),
        ),
    ),
    Row(
        "fuel-wet",
        "A few litres in the tank; prime; look and smell; leave it and look again",
        FUELS,
        (0.5, 1, 2),
        after="fuel-hoses",
        zones=BAY | UNDERNEATH | BOOT,
        wait=stand(2, "left wet and looked at again"),
        weather="doors open, no flame",
        safety=True,
        dangerous_alone=True,
        tools=("extinguisher", "tissue", "funnel"),
        cautions=(FUEL, UNDER_CAR),
        needs=(goods("Fresh fuel", "5 litres"),),
    ),
)
