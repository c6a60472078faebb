"""Inputs for the brake pictures: an invented car, made up to exercise every form."""

from __future__ import annotations

import math
from dataclasses import replace

from bareshell.brakes.starters import starter
from bareshell.draw.brake_balance import AdhesionUsed, Distribution
from bareshell.draw.brake_car import BleedMark, CarPlan, PlanFailure
from bareshell.draw.brake_chart import Curve, Forbidden
from bareshell.draw.brake_pedal import Asked, Level, Panel, PedalCurve
from bareshell.draw.brake_pipes import DrawnBend, DrawnEnd, DrawnPipe
from bareshell.draw.brake_places import plan_of
from bareshell.draw.brake_rungs import FailureLadder, FailureRung
from bareshell.draw.brake_slope import ParkingSlope, SlopeHeld
from bareshell.draw.brake_travel import PedalTravel, TravelPiece, TravelRow
from bareshell.draw.brake_trust import Sensitivity, ShareRow, Unsettled
from bareshell.draw.brake_warmth import Boiling, BoilingCurve, Stage, TemperatureHistory
from bareshell.model.brake import BrakeSystem

REAR_HOSE = PlanFailure(
    "The rear hose burst: front wheels brake, rear wheels do not.",
    {"hose-rear": "burst"},
    (2,),
    {"front left": "grips", "front right": "grips"},
    ("rear left", "rear right"),
)
BLEEDS = (
    BleedMark(1, "cylinder-rear-left", "120 ml"),
    BleedMark(2, "cylinder-rear-right", "80 ml"),
    BleedMark(3, "caliper-front-left", "60 ml"),
    BleedMark(4, "caliper-front-right", "60 ml"),
)


def system(name: str = "front-rear tandem") -> BrakeSystem:
    return starter(name)


def without_places(name: str = "front-rear tandem") -> BrakeSystem:
    whole = starter(name)
    return replace(
        whole,
        parts=tuple(replace(part, at_m=None) for part in whole.parts),
        lines=tuple(replace(line, route_m=()) for line in whole.lines),
    )


def plan(name: str = "front-rear tandem") -> CarPlan:
    return plan_of(starter(name))


_Z = tuple(step / 40 for step in range(41))


def _rear(z: float) -> float:
    return 0.3 * z if z < 0.4 else 0.12 + 0.15 * (z - 0.4)


def adhesion() -> AdhesionUsed:
    return AdhesionUsed(
        tuple((z, (z - _rear(z)) / (0.54 + 0.22 * z)) for z in _Z),
        tuple((z, _rear(z) / (0.46 - 0.22 * z)) for z in _Z),
        (),
        tuple((z, 0.42 * z / (0.46 - 0.22 * z)) for z in _Z),
        (Forbidden("earlier rule", ((0.1, 0.2), (0.61, 0.8))),),
        "The front axle reaches its limit first.",
    )


def distribution() -> Distribution:
    return Distribution(
        tuple((z * (0.54 + 0.22 * z), z * (0.46 - 0.22 * z)) for z in _Z),
        tuple((z - _rear(z), _rear(z)) for z in _Z),
        tuple((0.58 * z, 0.42 * z) for z in _Z),
        result="The front locks first.",
    )


def pedal() -> PedalCurve:
    pushes = tuple(10.0 * step for step in range(61))

    def slowed(push: float) -> float:
        return max(0.0, min(0.028 * (push - 25), 6.2 + 0.011 * (push - 246)))

    return PedalCurve(
        (
            Panel(
                "deceleration, m/s²",
                (
                    Curve("driver only", tuple((n, slowed(n)) for n in pushes), "front"),
                    Curve("laden", tuple((n, 0.76 * slowed(n)) for n in pushes), "rear"),
                    Curve("standard", tuple((n, 1.15 * slowed(n)) for n in pushes), "standard"),
                ),
                (Asked("rule 6.43", 500, 6.43),),
            ),
            Panel(
                "travel, mm",
                (Curve("", tuple((n, 70 * (1 - math.exp(-n / 90))) for n in pushes)),),
                (),
                (Level("floor 138", 138), Level("stroke 150", 150, heavy=False)),
            ),
        ),
        600,
        ((246, "servo gives all it has"),),
        "At 500 N the pedal has 53 mm left.",
    )


def travel() -> PedalTravel:
    whole = (
        TravelPiece("free play", "free play", 8.5),
        TravelPiece("pads", "clearance of the pads", 19.0),
        TravelPiece("caliper", "calipers flexing", 17.5),
        TravelPiece("shoes", "clearance of the shoes", 10.5),
        TravelPiece("hoses", "hoses swelling", 6.3),
        TravelPiece("fluid", "fluid squeezed", 8.8),
        TravelPiece("air", "air squeezed", 1.2),
    )
    run = TravelPiece("run", "a piston runs to its stop", 110.0, lost=True)
    return PedalTravel(
        (
            TravelRow("both circuits", whole, 64, 92),
            TravelRow("circuit 1 lost", (whole[0], run, *whole[4:]), 130, 138, on_floor=True),
        ),
        138,
        150,
    )


def ladder() -> FailureLadder:
    return FailureLadder(
        (
            FailureRung("whole", ("nothing failed",), "all wheels", 7.4, 6.6, 8.1, 6.43, 82),
            FailureRung(
                "hose",
                ("rear hose", "rear pipe"),
                "front wheels brake",
                5.9,
                asked_m_s2=2.9,
                travel_mm=115,
                shown=True,
            ),
            FailureRung("front", ("front hose",), "rear wheels brake", 2.4, 1.9, 2.8, 2.9, 121),
            FailureRung("seal", ("a seal",), "no wheel brakes", 0.0, None, None, 2.9, 138, True),
            FailureRung("odd", ("shuttle to one side",), "all wheels brake", None),
        ),
        500,
        138,
    )


def history() -> TemperatureHistory:
    minutes = tuple(step / 4 for step in range(141))

    def metal(t: float, rise: float) -> float:
        hot = 20 + rise * (1 - math.exp(-min(t, 20) / 9))
        return 20 + (hot - 20) * math.exp(-max(0.0, t - 20) / 18)

    return TemperatureHistory(
        "10 km down, then standing",
        (
            Curve("front disc", tuple((t, metal(t, 330)) for t in minutes), "front"),
            Curve("rear drum", tuple((t, metal(t, 170)) for t in minutes), "rear"),
        ),
        tuple((t, 20 + 90 * (1 - math.exp(-t / 14))) for t in minutes),
        "min",
        Boiling(172, 155, 190, "DOT 4, 3 years"),
        (Stage("descent", 0, 20), Stage("standing", 20, 35)),
    )


def boiling() -> BoilingCurve:
    water = tuple(step / 500 for step in range(41))

    def boils(wet: float) -> float:
        return 140 + 115 * math.exp(-wet / 0.016)

    return BoilingCurve(
        "DOT 4",
        tuple((wet, boils(wet)) for wet in water),
        tuple((wet, boils(wet) - 12) for wet in water),
        tuple((wet, boils(wet) + 12) for wet in water),
        ((0.0, 230, "dry at least 230"), (0.037, 155, "wet at least 155")),
        (0.011, 0.02, 0.034),
        hottest_c=118,
        hottest_words="end of the descent",
    )


def sensitivity() -> Sensitivity:
    return Sensitivity(
        "which axle locks first",
        (
            Unsettled(
                "car.driver_only_front_share",
                "share of the weight on the front axle",
                0.52,
                "assumed, 0.50 to 0.58",
                "Weigh the axles first: it settles the rear-lock question.",
                0.6,
            ),
            Unsettled("car.cg_height_m", "height of the centre of gravity", 0.28),
            Unsettled("valve.knee_pa", "knee of the valve", 0.01, "marked, 27 to 29 bar"),
        ),
    )


def shares() -> tuple[ShareRow, ...]:
    return (
        ShareRow("service", "service brake, 6.43 m/s² at 500 N", 0.9412, "worst 5.9 m/s²"),
        ShareRow("circuit", "one circuit failed, 2.44 m/s²", 1.0),
        ShareRow("order", "rear does not lock first", 0.0412, "worst 0.44 g"),
    )


def slope() -> ParkingSlope:
    return ParkingSlope(
        (
            SlopeHeld(True, 0.24, "the pull", 0.2, 0.29),
            SlopeHeld(False, 0.151, "the tyres", 0.13, 0.17),
        ),
        0.18,
        "a rule",
    )


def pipes() -> tuple[DrawnPipe, ...]:
    male = DrawnEnd("shuttle", "M10x1 male", "convex single")
    return (
        DrawnPipe(
            "long",
            "long pipe to the rear valve",
            3180,
            (male, DrawnEnd("rear limiting valve", "M10x1 male", "convex single")),
            "4.75 mm, copper-nickel",
            (DrawnBend(210, 90), DrawnBend(340, 45), DrawnBend(1400, 30), DrawnBend(2900, 88)),
            2,
        ),
        DrawnPipe("short", "bridge pipe", 210, (male, DrawnEnd("upper cylinder")), "", (), 1),
        DrawnPipe("unknown", "front left pipe", None, (DrawnEnd("front tee"), male)),
    )
