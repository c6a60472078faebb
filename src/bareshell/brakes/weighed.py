"""Masses, the share on each axle and the height of the centre of gravity, from weighing the car.

Each axle is weighed with the car level; then the front again with the rear axle raised. The rise
moves little weight, so the scales' own error is carried through: a height comes with its range.
"""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.calc.loads import axle_line_height, cg_height_from_tilt, cg_position
from bareshell.calc.stopping import GRAVITY_M_S2
from bareshell.errors import BadInput
from bareshell.model.brake import Part
from bareshell.model.trust import Stated, Trust

__all__ = ["CAUTIONS", "SCALE_KG", "Weighing", "weighed"]

SCALE_KG = 2.0
"""How far a reading of one axle may be off, the car bounced and rolled free (common practice)."""

RISE_M = 0.005
"""How far the measured rise of an axle may be off (common practice)."""

LEAST_M, MOST_M = 0.1, 1.5
"""A height outside of these is a slip of the scales or of the rise."""

CAUTIONS = (
    "A raised car rolls: chock the wheels that stay down, and be clear of it while it is up.",
    "Raise it on what is made for its weight.",
    "Nobody sits in it while it is up: lay the driver's weight in ballast on the seat.",
    "Block the springs so that they neither settle nor stretch, brakes off, tank full or empty.",
)
"""What weighing a raised car asks for (common practice)."""


@dataclass(frozen=True, slots=True)
class Weighing:
    """What the scales and the tape said.

    Parameters
    ----------
    front_kg, rear_kg : float
        On each axle, the car level. [kg]
    laden : bool
        Whether the car was fully laden; else with the driver's weight only.
    raised_front_kg : float or None
        On the front axle with the rear raised; None when that was not done. [kg]
    rise_m : float or None
        How far the rear wheels' centres were raised. [m]
    """

    front_kg: float
    rear_kg: float
    laden: bool = False
    raised_front_kg: float | None = None
    rise_m: float | None = None


def weighed(car: Part, weighing: Weighing) -> dict[str, Stated]:
    """Return the figures of a car that a weighing gives, each with its range.

    Parameters
    ----------
    car : Part
        With the wheelbase, and for a height the rolling radii: they are taken for the heights of
        the wheels' centres.
    weighing : Weighing
        What was read.

    Raises
    ------
    BadInput
        Naming the figure of the car that it wants first, or the reading that cannot be.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> car = small_car().part("car")
    >>> found = weighed(car, Weighing(505.0, 395.0))
    >>> found["driver_only_mass_kg"].value, round(found["driver_only_front_share"].value, 3)
    (900.0, 0.561)
    """
    front, total = weighing.front_kg, weighing.front_kg + weighing.rear_kg
    if min(front, weighing.rear_kg) <= 2 * SCALE_KG:
        raise BadInput("weight on an axle", "is no weight of a car", "give both axles, as read")
    load = "laden" if weighing.laden else "driver_only"
    share, off = front / total, SCALE_KG / total
    found = {
        f"{load}_mass_kg": _measured(total - 2 * SCALE_KG, total, total + 2 * SCALE_KG),
        f"{load}_front_share": _measured(share - off, share, share + off),
    }
    if weighing.raised_front_kg is not None and weighing.rise_m is not None:
        found["laden_cg_height_m" if weighing.laden else "cg_height_m"] = _height(car, weighing)
    elif (weighing.raised_front_kg is None) != (weighing.rise_m is None):
        raise BadInput(
            "weighing with the rear raised",
            "only one of its two figures is given",
            "give the weight on the front axle then, and how far the rear wheels were raised",
        )
    return found


def _height(car: Part, weighing: Weighing) -> Stated:
    wheelbase = _given(car, "wheelbase_m", "wheelbase", "measure it from hub centre to hub centre")
    roll = "roll the car one turn of the wheel and measure"
    radii = [
        _given(car, f"{axle}_rolling_radius_m", f"rolling radius of the {axle} tyres", roll)
        for axle in ("front", "rear")
    ]
    gained = (weighing.raised_front_kg or 0.0) - weighing.front_kg
    rise = weighing.rise_m or 0.0
    if gained <= 2 * SCALE_KG or rise <= 2 * RISE_M:
        raise BadInput(
            "weighing with the rear raised",
            f"the front is {gained:.3g} kg heavier by it, which scales hardly tell",
            "raise the rear higher, and weigh the front axle then: it becomes the heavier",
        )
    front_n, rear_n = (mass * GRAVITY_M_S2 for mass in (weighing.front_kg, weighing.rear_kg))
    behind = cg_position(front_n, rear_n, wheelbase).behind_front_m
    line = axle_line_height(radii[0], radii[1], behind, wheelbase)
    low, height, high = (
        cg_height_from_tilt(
            front_n + rear_n, wheelbase, (gained + kg) * GRAVITY_M_S2, rise + off, line
        )
        for kg, off in ((-2 * SCALE_KG, RISE_M), (0.0, 0.0), (2 * SCALE_KG, -RISE_M))
    )
    if not LEAST_M <= height <= MOST_M:
        raise BadInput(
            "height of the centre of gravity",
            f"comes to {height:.2f} m, which no car has",
            "look at the rise and at both weights on the front axle again",
        )
    return _measured(low, height, high)


def _given(car: Part, name: str, words: str, how: str) -> float:
    stated = car.figures.get(name)
    if stated is None:
        raise BadInput(words, "is not known, and the height hangs on it", how)
    return stated.value


def _measured(low: float, value: float, high: float) -> Stated:
    return Stated(round(value, 4), Trust.MEASURED, round(low, 4), round(high, 4))
