"""The demo's car, its garage, and the ways it can stand there. All of it is invented."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from bareshell.demo.days import ZONE
from bareshell.model.car import Car, Layout
from bareshell.model.part import Money
from bareshell.model.position import Support, SupportKind, SupportMove, Wheels, Zone
from bareshell.model.session import Garage

CAR = Car(
    name="Ostrabrook Dunnock 1300 saloon (invented)",
    layout=Layout.REAR,
    invented=True,
    zone=ZONE,
    currency="GBP",
    units="metric",
    words=(
        "An invented car: no such make or model was ever built, and no figure here is any real "
        "car's data. Four-door saloon, first registered 1972, repainted moss green as a bare "
        "shell. In-line four, 1,298 cc, four-speed gearbox, live rear axle on leaf springs, "
        "struts in front. 862 kg ready for the road, 54 % on the front wheels, wheelbase "
        "2,410 mm, tyres 155 R 13. Left the works with single-line drum brakes all round and a "
        "remote servo; now on a tandem master cylinder with front discs and no servo. Bought "
        "dismantled in forty-one boxes; the engine's bottom end and head were put together by "
        "the previous owner, who left no measurements."
    ),
    budget=Money(Decimal(2200), "GBP"),
)

GARAGE = Garage(
    heated_to_c=None,
    monthly_c=(4.0, 5.0, 8.0, 12.0, 16.0, 19.0, 21.0, 21.0, 18.0, 13.0, 8.0, 5.0),
    set_up_minutes=15,
    clear_up_minutes=15,
)
"""A single brick garage with a tin door: a little colder than most."""

_INSIDE = frozenset({Zone.CABIN, Zone.DOORS, Zone.BOOT, Zone.ROOF, Zone.ENGINE_BAY})
_ENDS = frozenset({Zone.FRONT, Zone.REAR})
_WHEEL_ENDS = frozenset({Zone.WHEEL_ENDS_FRONT, Zone.WHEEL_ENDS_REAR})
_EVERY = frozenset(Zone)

STANDS, LIFT, WHEELS, LEVEL, ROAD, STATION = (
    "stands",
    "lift",
    "wheels",
    "level",
    "road",
    "station",
)

SUPPORTS = (
    Support(
        STANDS,
        "Four tall stands",
        SupportKind.STANDS,
        _EVERY,
        Wheels.HANGING,
    ),
    Support(
        # Its platform and cross-tube lie under the middle of the car, so it does not open
        # the underside; it is the quick way to have the wheel ends at working height.
        LIFT,
        "Scissor lift, mid-rise",
        SupportKind.SCISSOR_LIFT,
        _INSIDE | _ENDS | _WHEEL_ENDS,
        Wheels.HANGING,
    ),
    Support(
        WHEELS,
        "On its wheels",
        SupportKind.WHEELS,
        _INSIDE | _ENDS,
        Wheels.LOADED,
        rollable=True,
    ),
    Support(
        LEVEL,
        "On blocks on the levelled patch",
        SupportKind.LEVEL_FLOOR,
        _EVERY,
        Wheels.LOADED,
        level=True,
    ),
    Support(
        ROAD,
        "Lane behind the garages",
        SupportKind.ROAD,
        _INSIDE | _ENDS,
        Wheels.LOADED,
        rollable=True,
    ),
    Support(
        STATION,
        "Test station",
        SupportKind.TEST_STATION,
        _EVERY,
        Wheels.LOADED,
        level=True,
        rollable=True,
    ),
)

_MINUTES = (
    (STANDS, LIFT, 25, 1),
    (STANDS, WHEELS, 35, 1),
    (LIFT, WHEELS, 10, 1),
    (WHEELS, LEVEL, 30, 2),
    (WHEELS, ROAD, 10, 1),
    (WHEELS, STATION, 40, 1),
    (STANDS, LEVEL, 60, 2),
    (STANDS, ROAD, 45, 1),
    (STANDS, STATION, 75, 1),
    (LIFT, LEVEL, 40, 2),
    (LIFT, ROAD, 20, 1),
    (LIFT, STATION, 50, 1),
    (LEVEL, ROAD, 40, 2),
    (LEVEL, STATION, 70, 2),
    (ROAD, STATION, 30, 1),
)

MOVES = tuple(
    SupportMove(a, b, minutes, people)
    for one, other, minutes, people in _MINUTES
    for a, b in ((one, other), (other, one))
)
"""What it takes to bring the car from one to the other; the same both ways."""


def temperature_c(day: date) -> float:
    """Return about what the unheated garage has on a day [degC], from its monthly figures."""
    return GARAGE.monthly_c[day.month - 1]
