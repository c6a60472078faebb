"""The parking brake's force chain: from the hand to the tyre, and how far the lever travels.

What it holds on a slope is in `bareshell.calc.slope`.
"""

from __future__ import annotations

from typing import Generic, NamedTuple

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, lowest
from bareshell.errors import BadInput

__all__ = [
    "DrumLeverForces",
    "cable_force",
    "cable_stretch",
    "drum_lever_forces",
    "lever_clicks",
    "parking_force",
    "transmission_brake_torque",
]


class DrumLeverForces(NamedTuple, Generic[Number]):
    """Forces of a drum's parking lever on the tips of its two shoes, in newtons."""

    strut_n: Number
    pivot_n: Number


@formula
def cable_force(
    hand_force_n: Number,
    lever_ratio: Number,
    linkage_ratio: Number,
    linkage_efficiency: Number,
    cables: Number,
) -> Number:
    """Force in the cable of one wheel for a pull of the hand.

    [S:first-principles, levers]

    Parameters
    ----------
    hand_force_n : float or array
        Pull at the grip. [N]
    lever_ratio : float or array
        Of the hand lever: hand's arm over the cable's. [-]
    linkage_ratio : float or array
        Of relay levers behind it; 1 for none. [-]
    linkage_efficiency : float or array
        Share that pivots and cable sheaths let through; 0.7 to 0.9 is common. [-]
    cables : float or array
        Cables that the compensator shares it between, 1 or 2. [-]

    Returns
    -------
    cable_force_n : float or array
        Force in each cable. [N]

    Notes
    -----
    F = hand x ratios x efficiency / cables. A free compensator shares alike; a seized one gives one
    wheel nothing.
    Checked against: 50 lbf on 10 in / 1.25 in gives 400 lbf, a training examination (inputs read).

    Examples
    --------
    >>> cable_force(400.0, 7.0, 1.0, 0.8, 2.0)
    1120.0
    """
    return hand_force_n * lever_ratio * linkage_ratio * linkage_efficiency / cables


@formula
def drum_lever_forces(cable_force_n: Number, drum_lever_ratio: Number) -> DrumLeverForces[Number]:
    """Forces on a drum's two shoes from its parking lever and strut.

    [S:first-principles, levers]

    Parameters
    ----------
    cable_force_n : float or array
        Force of the cable on the lever's end. [N]
    drum_lever_ratio : float or array
        From the lever's pivot to the cable, over from the pivot to the strut. [-]

    Returns
    -------
    strut_n : float or array
        Through the strut on the shoe across. [N]
    pivot_n : float or array
        Through the pivot on the shoe that carries the lever. [N]

    Notes
    -----
    Strut = ratio x cable; the pivot pushes with the rest, (ratio - 1) x cable, since the cable
    itself pulls its shoe inwards.
    Checked against: equilibrium of the lever (computed).

    Examples
    --------
    >>> drum_lever_forces(1000.0, 4.0)
    DrumLeverForces(strut_n=4000.0, pivot_n=3000.0)
    """
    strut = cable_force_n * drum_lever_ratio
    return DrumLeverForces(strut, strut - cable_force_n)


@formula
def transmission_brake_torque(
    shaft_torque_nm: Number, final_drive_ratio: Number, drive_efficiency: Number
) -> Number:
    """Torque at both driven wheels of a brake on the propeller shaft.

    [S:first-principles, work]

    Parameters
    ----------
    shaft_torque_nm : float or array
        Torque of the brake on the shaft. [N.m]
    final_drive_ratio : float or array
        Turns of the shaft for one of the wheels. [-]
    drive_efficiency : float or array
        1, or more cautiously what the gears let through. [-]

    Returns
    -------
    torque_nm : float or array
        Both wheels together. [N.m]

    Notes
    -----
    T = shaft x ratio x efficiency. With one driven wheel in the air or on ice an open differential
    holds nothing.
    Checked against: work in equals work out (computed).

    Examples
    --------
    >>> round(transmission_brake_torque(400.0, 4.3, 1.0))
    1720
    """
    return shaft_torque_nm * final_drive_ratio * drive_efficiency


@formula
def parking_force(wheel_torque_nm: Number, braked_wheels: Number, tyre_radius_m: Number) -> Number:
    """Holding force of the parked wheels at the road.

    [S:first-principles, levers]

    Parameters
    ----------
    wheel_torque_nm : float or array
        Torque of each braked wheel. [N.m]
    braked_wheels : float or array
        How many. [-]
    tyre_radius_m : float or array
        From the wheel's centre to the road. [m]

    Returns
    -------
    force_n : float or array
        All of them together. [N]

    Notes
    -----
    F = n T / r, as long as the tyres grip: see `bareshell.calc.slope.rear_parking_adhesion`.
    Checked against: equilibrium of a wheel (computed).

    Examples
    --------
    >>> round(parking_force(450.0, 2.0, 0.28))
    3214
    """
    return braked_wheels * wheel_torque_nm / tyre_radius_m


@formula
def cable_stretch(
    cable_force_n: Number, cable_length_m: Number, cable_stiffness_n: Number
) -> Number:
    """Stretch of a cable under its pull.

    [S:first-principles, Hooke's law]

    Parameters
    ----------
    cable_force_n : float or array
        Force in the cable. [N]
    cable_length_m : float or array
        Length under that force. [m]
    cable_stiffness_n : float or array
        Force for a stretch of its own length: modulus times metal area, of the strand as laid. [N]

    Returns
    -------
    stretch_m : float or array
        Stretch. [m]

    Notes
    -----
    x = F l / (E A). A laid strand has about half the modulus of its wire; a new one beds in once.
    Checked against: Hooke's law (computed).

    Examples
    --------
    >>> round(cable_stretch(1000.0, 2.5, 8e5) * 1e3, 3)
    3.125
    """
    return cable_force_n * cable_length_m / cable_stiffness_n


@formula
def lever_clicks(cable_travel_m: Number, cable_arm_m: Number, click_angle_rad: Number) -> Number:
    """Clicks of the hand lever for a travel of its cable.

    [S:first-principles, geometry]

    Parameters
    ----------
    cable_travel_m : float or array
        Travel that slack, shoes and stretch take. [m]
    cable_arm_m : float or array
        From the lever's pivot to the cable's pin. [m]
    click_angle_rad : float or array
        Angle from one tooth of the ratchet to the next. [rad]

    Returns
    -------
    clicks : float or array
        Clicks, not rounded. [-]

    Raises
    ------
    BadInput
        When the travel is more than the arm can give: a lever swings well under a radian.

    Notes
    -----
    angle = travel / arm; clicks = angle / pitch. Adjust the shoes first, the cable last.
    Checked against: geometry (computed).

    Examples
    --------
    >>> import math
    >>> round(lever_clicks(0.012, 0.040, math.radians(3.5)), 1)
    4.9
    """
    angle = cable_travel_m / cable_arm_m
    if lowest(1.6 - angle) < 0.0:
        raise BadInput(
            "travel of the cable",
            "is more than the hand lever can give",
            "a lever swings through less than a quarter turn; measure its arm again",
        )
    return angle / click_angle_rad
