"""What the axles carry: standing, slowing, and how high the centre of gravity is.

Deceleration is a share of g throughout (z), so no value of g enters. Weights and forces are in
newtons, though any one unit for both will do.
"""

from __future__ import annotations

from typing import Generic, NamedTuple

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, lowest, most, shaped
from bareshell.errors import BadInput

__all__ = [
    "AxleLoads",
    "CgPosition",
    "axle_line_height",
    "axle_loads",
    "cg_height_from_tilt",
    "cg_position",
    "ideal_rear_share",
]


class AxleLoads(NamedTuple, Generic[Number]):
    """What the two axles carry, in newtons."""

    front_n: Number
    rear_n: Number


class CgPosition(NamedTuple, Generic[Number]):
    """Where the centre of gravity stands along the wheelbase, in metres."""

    behind_front_m: Number
    ahead_of_rear_m: Number


@formula
def cg_position(
    front_load_n: Number, rear_load_n: Number, wheelbase_m: Number
) -> CgPosition[Number]:
    """Centre of gravity along the wheelbase, from weighing each axle.

    [S:gillespie, ch. 1]

    Parameters
    ----------
    front_load_n : float or array
        Load on the front axle, car level. [N]
    rear_load_n : float or array
        Load on the rear axle, car level. [N]
    wheelbase_m : float or array
        Between the axles. [m]

    Returns
    -------
    behind_front_m : float or array
        From the front axle back to the centre of gravity. [m]
    ahead_of_rear_m : float or array
        From the rear axle forward to it. [m]

    Notes
    -----
    a = L R / (F + R), b = L - a. Weigh with brakes off, wheels free to roll, and the car bounced.
    Checked against: `axle_loads` at rest, there and back (computed).

    Examples
    --------
    >>> cg_position(6000.0, 4000.0, 2.4)
    CgPosition(behind_front_m=0.96, ahead_of_rear_m=1.44)
    """
    total = front_load_n + rear_load_n
    if lowest(total) <= 0.0:
        raise BadInput("loads on the axles", "are both zero", "weigh each axle")
    behind = wheelbase_m * rear_load_n / total
    return CgPosition(behind, wheelbase_m - behind)


@formula
def axle_line_height(
    front_tyre_radius_m: Number,
    rear_tyre_radius_m: Number,
    cg_to_front_m: Number,
    wheelbase_m: Number,
) -> Number:
    """Height of the line between the wheel centres, below the centre of gravity.

    [S:milliken, ch. 18]

    Parameters
    ----------
    front_tyre_radius_m : float or array
        Height of the front wheels' centres. [m]
    rear_tyre_radius_m : float or array
        Height of the rear wheels' centres. [m]
    cg_to_front_m : float or array
        From the front axle back to the centre of gravity. [m]
    wheelbase_m : float or array
        Between the axles. [m]

    Returns
    -------
    axle_line_height_m : float or array
        Height above the ground. [m]

    Notes
    -----
    r = r_f b / L + r_r a / L.
    Checked against: the same term in two published descriptions of the tilt test (read
    second-hand).

    Examples
    --------
    >>> round(axle_line_height(0.28, 0.30, 0.96, 2.4), 3)
    0.288
    """
    share = cg_to_front_m / wheelbase_m
    return front_tyre_radius_m * (1.0 - share) + rear_tyre_radius_m * share


@formula
def cg_height_from_tilt(
    weight_n: Number,
    wheelbase_m: Number,
    load_gained_n: Number,
    rise_m: Number,
    axle_line_height_m: Number,
) -> Number:
    """Height of the centre of gravity, from weighing one axle with the other raised.

    [S:milliken, ch. 18]

    Parameters
    ----------
    weight_n : float or array
        Weight of the whole car. [N]
    wheelbase_m : float or array
        Between the axles. [m]
    load_gained_n : float or array
        How much heavier the axle left on the ground became. [N]
    rise_m : float or array
        How far the other axle's wheel centres were raised. [m]
    axle_line_height_m : float or array
        Height of the line between the wheel centres at the centre of gravity, car level. [m]

    Returns
    -------
    cg_height_m : float or array
        Height above the ground, car level. [m]

    Raises
    ------
    BadInput
        When the rise is not below the wheelbase.

    Notes
    -----
    h = r + dF L / (W tan t), with sin t = rise / L. Springs must be blocked so that they neither
    settle nor stretch, wheels free to roll, tank full or empty. A small rise makes a small
    difference between large weights: its error is the result's.
    Checked against: statics of a tilted frame (computed); the formula itself in two published
    descriptions (read second-hand).

    Examples
    --------
    >>> round(cg_height_from_tilt(10000.0, 2.4, 333.0, 0.60, 0.29), 3)
    0.600
    """
    if lowest(wheelbase_m - rise_m) <= 0.0:
        raise BadInput("rise of the axle", "is not below the wheelbase", "give it as measured")
    run: Number = shaped("sqrt", wheelbase_m**2 - rise_m**2)
    return axle_line_height_m + load_gained_n * wheelbase_m * run / (weight_n * rise_m)


@formula
def axle_loads(
    weight_n: Number,
    wheelbase_m: Number,
    cg_to_front_m: Number,
    cg_height_m: Number,
    deceleration_g: Number,
) -> AxleLoads[Number]:
    """Loads on both axles while slowing.

    [S:un-r13-h, Annex 5]

    Parameters
    ----------
    weight_n : float or array
        Weight of the car. [N]
    wheelbase_m : float or array
        Between the axles. [m]
    cg_to_front_m : float or array
        From the front axle back to the centre of gravity. [m]
    cg_height_m : float or array
        Height of the centre of gravity. [m]
    deceleration_g : float or array
        Deceleration as a share of g; 0 at rest. [-]

    Returns
    -------
    front_n : float or array
        Load on the front axle. [N]
    rear_n : float or array
        Load on the rear axle. [N]

    Notes
    -----
    N_f = W (b + z h) / L, N_r = W (a - z h) / L, the rear never below zero. Steady deceleration on
    a level road; air, slope and pitching are left out.
    Checked against: 11 kN, 4.2 m, 1.8 m, 0.75 m sliding at 0.40: 3.54 kN on each front wheel,
    1.96 on each rear, a physics textbook's problem (problem read, answers computed).

    Examples
    --------
    >>> loads = axle_loads(11e3, 4.2, 1.8, 0.75, 0.40)
    >>> [round(load / 2e3, 2) for load in loads]
    [3.54, 1.96]
    """
    refuse_outside(cg_to_front_m, wheelbase_m)
    rear = weight_n * most(cg_to_front_m - deceleration_g * cg_height_m, 0.0) / wheelbase_m
    return AxleLoads(weight_n - rear, rear)


def refuse_outside(cg_to_front_m: Number, wheelbase_m: Number) -> None:
    """Refuse a centre of gravity that does not lie between the axles.

    Parameters
    ----------
    cg_to_front_m : float or array
        From the front axle back to it.
    wheelbase_m : float or array
        Between the axles.

    Raises
    ------
    BadInput
        When the first is more than the second.
    """
    if lowest(wheelbase_m - cg_to_front_m) < 0.0:
        raise BadInput(
            "distance from front axle to centre of gravity",
            "is more than the wheelbase",
            "the centre of gravity lies between the axles; weigh them again",
        )


@formula
def ideal_rear_share(
    wheelbase_m: Number, cg_to_front_m: Number, cg_height_m: Number, deceleration_g: Number
) -> Number:
    """Rear share of the brake force that uses both axles' tyres alike.

    [S:gillespie, ch. 3]

    Parameters
    ----------
    wheelbase_m : float or array
        Between the axles. [m]
    cg_to_front_m : float or array
        From the front axle back to the centre of gravity. [m]
    cg_height_m : float or array
        Height of the centre of gravity. [m]
    deceleration_g : float or array
        Deceleration as a share of g. [-]

    Returns
    -------
    rear_share : float or array
        Rear brake force over all brake force. [-]

    Notes
    -----
    phi = (a - z h) / L, never below zero: the share of the weight that the rear carries then.
    Checked against: `axle_loads` (computed).

    Examples
    --------
    >>> round(ideal_rear_share(2.4, 1.08, 0.53, 0.8), 3)
    0.273
    """
    refuse_outside(cg_to_front_m, wheelbase_m)
    return most(cg_to_front_m - deceleration_g * cg_height_m, 0.0) / wheelbase_m
