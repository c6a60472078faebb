"""From the foot to the push rod: the lever, and a bar that shares one push between two cylinders.

What a pedal does not show: how stiff its box and bulkhead are. Flex there costs travel, not force.
"""

from __future__ import annotations

from typing import Generic, NamedTuple

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, lowest, most
from bareshell.errors import BadInput

__all__ = [
    "BarForces",
    "balance_bar_forces",
    "balance_bar_share",
    "pedal_force_for_push_rod",
    "pedal_ratio",
    "pedal_travel",
    "push_rod_force",
]


class BarForces(NamedTuple, Generic[Number]):
    """What a balance bar gives to each of its two push rods, in newtons."""

    front_n: Number
    rear_n: Number


@formula
def pedal_ratio(foot_arm_m: Number, push_rod_arm_m: Number) -> Number:
    """Pedal ratio: how many times the lever multiplies the foot.

    [S:limpert, ch. 5]

    Parameters
    ----------
    foot_arm_m : float or array
        From the pedal's pivot to the middle of the pad, square to the foot's push. [m]
    push_rod_arm_m : float or array
        From the same pivot to the push rod's pin, square to the rod. [m]

    Returns
    -------
    pedal_ratio : float or array
        Force at the rod over force at the pad; travel goes the other way. [-]

    Raises
    ------
    BadInput
        When the foot's arm is shorter than the rod's: such a pedal would divide the foot's force.

    Notes
    -----
    ratio = foot arm / rod arm. Leaves out that both arms change a little as the pedal swings.
    Checked against: two lever problems of a training examination, 10 in / 1.25 in and 8 in /
    0.5 in (inputs read, answers computed).

    Examples
    --------
    >>> pedal_ratio(10 * 0.0254, 1.25 * 0.0254)
    8.0
    """
    ratio = foot_arm_m / push_rod_arm_m
    if lowest(ratio) < 1.0:
        raise BadInput(
            "arm of the pedal pad",
            "is shorter than the arm of the push rod",
            "measure both from the pedal's pivot; the pad is the farther one",
        )
    return ratio


@formula
def push_rod_force(
    pedal_force_n: Number, pedal_ratio: Number, pedal_efficiency: Number, pedal_return_n: Number
) -> Number:
    """Force of the push rod for a force of the foot.

    [S:limpert, ch. 5]

    Parameters
    ----------
    pedal_force_n : float or array
        Force of the foot on the pad. [N]
    pedal_ratio : float or array
        Lever ratio of the pedal. [-]
    pedal_efficiency : float or array
        Share of the force that the pedal's bushes and pins let through. [-]
    pedal_return_n : float or array
        Force at the pad that only holds the pedal's own return spring; 0 when there is none. [N]

    Returns
    -------
    push_rod_force_n : float or array
        Force along the push rod. [N]

    Notes
    -----
    F_rod = ratio x efficiency x (F_foot - F_return), never below zero.
    Checked against: 50 lbf at 10 in on 1.25 in gives 400 lbf, 30 lbf at 8 in on 0.5 in gives
    480 lbf, both from a training examination (inputs read, answers computed).

    Examples
    --------
    >>> push_rod_force(500.0, 5.0, 0.8, 0.0)
    2000.0
    """
    return pedal_ratio * pedal_efficiency * most(pedal_force_n - pedal_return_n, 0.0)


@formula
def pedal_force_for_push_rod(
    push_rod_force_n: Number, pedal_ratio: Number, pedal_efficiency: Number, pedal_return_n: Number
) -> Number:
    """Force of the foot that gives a wanted force of the push rod.

    [S:limpert, ch. 5]

    Parameters
    ----------
    push_rod_force_n : float or array
        Wanted force along the push rod. [N]
    pedal_ratio : float or array
        Lever ratio of the pedal. [-]
    pedal_efficiency : float or array
        Share of the force that the pedal's bushes and pins let through. [-]
    pedal_return_n : float or array
        Force at the pad that only holds the pedal's own return spring; 0 when there is none. [N]

    Returns
    -------
    pedal_force_n : float or array
        Force of the foot on the pad. [N]

    Notes
    -----
    F_foot = F_rod / (ratio x efficiency) + F_return: `push_rod_force` turned about.
    Checked against: `push_rod_force`, there and back (computed).

    Examples
    --------
    >>> pedal_force_for_push_rod(2000.0, 5.0, 0.8, 0.0)
    500.0
    """
    return push_rod_force_n / (pedal_ratio * pedal_efficiency) + pedal_return_n


@formula
def pedal_travel(push_rod_stroke_m: Number, pedal_ratio: Number) -> Number:
    """Travel of the pedal pad for a stroke of the push rod.

    [S:limpert, ch. 5]

    Parameters
    ----------
    push_rod_stroke_m : float or array
        How far the push rod moves. [m]
    pedal_ratio : float or array
        Lever ratio of the pedal. [-]

    Returns
    -------
    pedal_travel_m : float or array
        How far the pad moves. [m]

    Notes
    -----
    x_pad = ratio x x_rod. Leaves out flex of pedal, bracket and bulkhead.
    Checked against: work in equals work out with `push_rod_force` at efficiency 1 (computed).

    Examples
    --------
    >>> pedal_travel(0.012, 5.0)
    0.06
    """
    return push_rod_stroke_m * pedal_ratio


@formula
def balance_bar_share(front_rod_arm_m: Number, rear_rod_arm_m: Number) -> Number:
    """Share of the push that a balance bar gives the front cylinder.

    [S:first-principles, levers]

    Parameters
    ----------
    front_rod_arm_m : float or array
        Along the bar, from its spherical bearing to the front cylinder's clevis. [m]
    rear_rod_arm_m : float or array
        Along the bar, from the same bearing to the rear cylinder's clevis. [m]

    Returns
    -------
    bar_front_share : float or array
        Front push over both pushes. [-]

    Notes
    -----
    Moments about the bearing: F_f x a_f = F_r x a_r, so share = a_r / (a_f + a_r): the nearer
    clevis gets more. Holds while the bar is free to tilt; a bar that touches its tube shares by
    where it touches.
    Checked against: equilibrium of moments (computed).

    Examples
    --------
    >>> balance_bar_share(0.03, 0.03)
    0.5
    """
    return rear_rod_arm_m / (front_rod_arm_m + rear_rod_arm_m)


@formula
def balance_bar_forces(push_rod_force_n: Number, bar_front_share: Number) -> BarForces[Number]:
    """Forces of the two push rods behind a balance bar.

    [S:first-principles, levers]

    Parameters
    ----------
    push_rod_force_n : float or array
        Force of the pedal on the bar. [N]
    bar_front_share : float or array
        Share that goes to the front cylinder. [-]

    Returns
    -------
    front_n : float or array
        Force on the front cylinder. [N]
    rear_n : float or array
        Force on the rear cylinder. [N]

    Notes
    -----
    The two add up to what the pedal gives: a bar shares, it does not multiply. Two cylinders
    behind a bar each see about half the force that one alone would.
    Checked against: a correction posted beneath a published line-pressure sum that had given each
    cylinder the whole force (read).

    Examples
    --------
    >>> balance_bar_forces(2000.0, 0.6)
    BarForces(front_n=1200.0, rear_n=800.0)
    """
    front = push_rod_force_n * bar_front_share
    return BarForces(front, push_rod_force_n - front)
