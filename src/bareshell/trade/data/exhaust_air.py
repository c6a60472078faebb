"""Exhaust, air filter and forced induction, round the engine once it is in."""

from __future__ import annotations

from bareshell.model.job import Caution, Recheck
from bareshell.model.part import NeededTo
from bareshell.model.position import Place
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import HoseSpec, PlainSpec, RubberSpec, SealSpec
from bareshell.trade.cautions import (
    EYES_BENEATH,
    EYES_CUTTING,
    HEAVY_BENEATH,
    LOW_AIR,
    UNDER_CAR,
)
from bareshell.trade.row import (
    FORCED_INDUCTION as FORCED,
)
from bareshell.trade.row import (
    Left,
    Owed,
    Row,
    Uses,
    at_least,
    fixing,
    goods,
)
from bareshell.trade.zones import BAY, FRONT, UNDERNEATH

EXHAUST, ENGINE = "exhaust", "engine"
JOINT, ASSEMBLY = AboutKind.JOINT, AboutKind.ASSEMBLY
BENCH = Place.BENCH
FINISH, START = NeededTo.FINISH, NeededTo.START

ROWS: tuple[Row, ...] = (
    Row(
        "exh-loose",
        "Hang the exhaust loosely and check what it clears",
        EXHAUST,
        (1, 2, 4),
        after="mounts under-gate tank-fit fi-downpipe",
        later="tank-fit mounts",
        people=2,
        alone="straps and a stand under each end",
        zones=UNDERNEATH | BAY,
        cautions=(UNDER_CAR, EYES_BENEATH, HEAVY_BENEATH),
        proofs=(
            Owed(
                "25 mm at least to pipes, hoses, floor and tank",
                ProofKind.MEASURED,
                ASSEMBLY,
                "exhaust clearance",
                gates="first-start",
                limits=(at_least("least clearance", "mm", 25),),
            ),
        ),
        temp=Left("Loose exhaust clamps", "exh-tight", "first-start", "clamps tightened"),
        needs=(
            fixing("Exhaust hangers", 4, RubberSpec(), START),
            fixing("Exhaust clamps", 4, None, START),
            Uses("Exhaust gaskets", 2, SealSpec()),
        ),
    ),
    Row(
        "exh-tight",
        "Align and tighten the exhaust from the front back",
        EXHAUST,
        (0.5, 1, 3),
        after="exh-loose propshaft-rwd driveshafts-fwd",
        later="propshaft-rwd driveshafts-fwd",
        zones=UNDERNEATH | BAY,
        cautions=(UNDER_CAR, EYES_BENEATH),
        rechecks=(Recheck(miles=50),),
        proofs=(
            Owed(
                "Touches nothing when the engine is rocked; clamps torqued",
                ProofKind.SEEN,
                JOINT,
                "exhaust joints",
                gates="first-start",
            ),
        ),
        needs=(
            goods("Exhaust paste", "1 tube", needed_to=FINISH),
            fixing("Exhaust bolts", 6),
        ),
    ),
    Row(
        "heat-shields",
        "Fit heat shields over tank, tunnel, hoses and cables",
        EXHAUST,
        (0.5, 1, 2),
        after="exh-tight",
        later="exh-tight",
        zones=UNDERNEATH | BAY,
        cautions=(UNDER_CAR, EYES_CUTTING),
        proofs=(
            Owed(
                "No brake or fuel pipe within 50 mm of the exhaust without a shield",
                ProofKind.MEASURED,
                ASSEMBLY,
                "heat shields",
                gates="road",
                limits=(at_least("unshielded distance", "mm", 50),),
            ),
        ),
        needs=(
            goods("Heat shield", "1 square metre"),
            fixing("Shield rivets or bolts", 12, PlainSpec()),
        ),
    ),
    Row(
        "air-filter",
        "Fit air filter, breathers and vacuum pipes",
        ENGINE,
        (0.3, 0.5, 1),
        after="throttle",
        zones=BAY,
        proofs=(
            Owed(
                "Servo pipe has its non-return valve the right way round, if there is a servo",
                ProofKind.SEEN,
                JOINT,
                "breathers and vacuum pipes",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Breather and vacuum hose", 2, HoseSpec(carries="air")),
            fixing("Breather clips", 4, PlainSpec()),
        ),
    ),
    Row(
        "fi-fit",
        "Fit turbocharger or blower with its manifold, oil feed and oil drain",
        ENGINE,
        (2, 4, 8),
        after="fi-bench mounts",
        later="mounts",
        zones=BAY,
        split=2,
        safety=True,
        option=FORCED,
        cautions=(
            Caution(
                "Fire",
                "Oil on a hot housing burns: new washers, feed clear of hot parts, drain falling "
                "all the way.",
            ),
        ),
        proofs=(
            Owed(
                "Drain falls all the way, new washers, feed clear of hot parts",
                ProofKind.SEEN,
                JOINT,
                "oil feed and drain",
                gates="first-start",
            ),
        ),
        needs=(
            Uses("Turbocharger or blower gaskets", 3, SealSpec()),
            fixing("Oil feed washers", 4, PlainSpec(), START),
            fixing("Manifold studs and locking plates", 4, None, START),
        ),
    ),
    Row(
        "fi-downpipe",
        "Fit the downpipe with its own bracket; check what it runs close to",
        EXHAUST,
        (1, 2, 4),
        after="fi-fit under-gate",
        zones=UNDERNEATH | BAY,
        safety=True,
        option=FORCED,
        cautions=(UNDER_CAR, EYES_BENEATH),
        proofs=(
            Owed(
                "The bracket carries the weight; 50 mm or a shield to brake, clutch and fuel pipes",
                ProofKind.MEASURED,
                ASSEMBLY,
                "downpipe",
                gates="first-start",
                limits=(at_least("unshielded distance", "mm", 50),),
            ),
        ),
        needs=(
            Uses("Downpipe gasket", 1, SealSpec()),
            fixing("Downpipe bracket and bolts", 4, None, START),
        ),
    ),
    Row(
        "fi-intake",
        "Plumb the intake: filter, boost pipes, cooler if any, control and breather hoses",
        ENGINE,
        (1.5, 3, 6),
        after="fi-fit throttle rad-fit",
        later="rad-fit",
        zones=BAY | FRONT,
        split=1,
        option=FORCED,
        proofs=(
            Owed(
                "Every clamp behind a bead; nothing loose inside; cold air to the filter",
                ProofKind.SEEN,
                JOINT,
                "boost pipes",
                gates="first-start",
            ),
            Owed(
                "Holds low air while every joint is soaped",
                ProofKind.HELD_PRESSURE,
                JOINT,
                "intake under low air",
                key="held",
                by="fi-hold",
                gates="first-start",
                limits=(at_least("air pressure", "bar", 0.3),),
            ),
        ),
        needs=(
            Uses("Boost hoses", 4, HoseSpec(carries="air")),
            fixing("Boost clamps", 8, PlainSpec(), START),
        ),
    ),
    Row(
        "fi-hold",
        "Hold low air on the intake from the filter's mouth",
        ENGINE,
        (0.3, 0.7, 2),
        after="fi-intake air-filter",
        zones=BAY,
        option=FORCED,
        tools=("blank with regulator and relief", "soap"),
        cautions=(LOW_AIR,),
    ),
)
