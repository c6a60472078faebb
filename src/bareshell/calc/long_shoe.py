"""The long drum shoe on a fixed pivot: textbook integrals over the lining.

Pressure is taken to follow the sine of the angle from the pivot, as for a rigid shoe that has worn
in. Angles start at the line from the drum's centre to the pivot. Whole drums and their torque are
in `bareshell.calc.drum`.
"""

from __future__ import annotations

import math
from typing import Generic, NamedTuple

from bareshell.calc.formula import formula
from bareshell.calc.shoe import refuse_locking
from bareshell.calc.values import Number, least, lowest, shaped
from bareshell.errors import BadInput

__all__ = [
    "ShoeIntegrals",
    "long_leading_factor",
    "long_self_locking_friction",
    "long_shoe_integrals",
    "long_shoe_lining_pressure",
    "long_trailing_factor",
]


class ShoeIntegrals(NamedTuple, Generic[Number]):
    """Moments about the pivot of a shoe pressed with one pascal at the sine's top, a metre wide.

    Divided by the drum's radius: of the normal force, of the friction (for friction one), and the
    torque on the drum (for friction one). [m]
    """

    normal_m: Number
    friction_m: Number
    drag_m: Number


@formula
def long_shoe_integrals(
    drum_radius_m: Number, pivot_radius_m: Number, toe_angle_rad: Number, heel_angle_rad: Number
) -> ShoeIntegrals[Number]:
    """Moments of a long shoe's lining about its pivot.

    [S:shigley, ch. 16]

    Parameters
    ----------
    drum_radius_m : float or array
        Radius of the drum. [m]
    pivot_radius_m : float or array
        From the drum's centre to the shoe's pivot. [m]
    toe_angle_rad : float or array
        Where the lining begins, counted from the pivot. [rad]
    heel_angle_rad : float or array
        Where it ends, at most half a turn from the pivot. [rad]

    Returns
    -------
    normal_m : float or array
        Moment of the normal force. [m]
    friction_m : float or array
        Moment of the friction, for friction one. [m]
    drag_m : float or array
        Torque on the drum, for friction one. [m]

    Raises
    ------
    BadInput
        When the lining does not end between its beginning and half a turn, or the pivot lies
        outside the drum.

    Notes
    -----
    Over the lining, with p = sin t: normal = A INT sin^2 t dt, friction =
    INT sin t (r - A cos t) dt, drag = r (cos t1 - cos t2).
    Checked against: the same integrals by adaptive quadrature (computed).

    Examples
    --------
    >>> parts = long_shoe_integrals(0.150, 0.125, 0.0, math.radians(120))
    >>> [round(part, 4) for part in parts]
    [0.1580, 0.1781, 0.2250]
    """
    span = heel_angle_rad - toe_angle_rad
    if lowest(drum_radius_m - pivot_radius_m) <= 0.0:
        raise BadInput(
            "radius of the shoe's pivot",
            "is not below the radius of the drum",
            "measure it from the drum's centre; the pivot lies inside the drum",
        )
    if lowest(span) <= 0.0 or lowest(math.pi - heel_angle_rad) < 0.0:
        raise BadInput(
            "angle where the lining ends",
            "is not between its beginning and half a turn from the pivot",
            "count both angles from the pivot, about the drum's centre",
        )
    twice = shaped("sin", 2.0 * heel_angle_rad) - shaped("sin", 2.0 * toe_angle_rad)
    drop = shaped("cos", toe_angle_rad) - shaped("cos", heel_angle_rad)
    squares: Number = shaped("sin", heel_angle_rad) ** 2 - shaped("sin", toe_angle_rad) ** 2
    drag = drum_radius_m * drop
    normal = pivot_radius_m * (span / 2.0 - twice / 4.0)
    return ShoeIntegrals(normal, drag - pivot_radius_m * squares / 2.0, drag)


@formula
def long_self_locking_friction(
    drum_radius_m: Number, pivot_radius_m: Number, toe_angle_rad: Number, heel_angle_rad: Number
) -> Number:
    """Friction at which a long leading shoe would lock by itself.

    [S:shigley, ch. 16]

    Parameters
    ----------
    drum_radius_m : float or array
        Radius of the drum. [m]
    pivot_radius_m : float or array
        From the drum's centre to the shoe's pivot. [m]
    toe_angle_rad : float or array
        Where the lining begins, counted from the pivot. [rad]
    heel_angle_rad : float or array
        Where it ends. [rad]

    Returns
    -------
    locking_friction : float or array
        The friction that must never be reached. [-]

    Notes
    -----
    Normal over friction moment: where M_N = M_f.
    Checked against: `long_leading_factor`, which grows without end towards it (computed).

    Examples
    --------
    >>> round(long_self_locking_friction(0.150, 0.125, 0.0, math.radians(120)), 3)
    0.887
    """
    parts = long_shoe_integrals(drum_radius_m, pivot_radius_m, toe_angle_rad, heel_angle_rad)
    return parts.normal_m / parts.friction_m


@formula
def long_leading_factor(
    friction: Number,
    drum_radius_m: Number,
    pivot_radius_m: Number,
    actuation_arm_m: Number,
    toe_angle_rad: Number,
    heel_angle_rad: Number,
) -> Number:
    """Brake factor of a long leading shoe.

    [S:shigley, ch. 16]

    Parameters
    ----------
    friction : float or array
        Friction of lining on drum. [-]
    drum_radius_m : float or array
        Radius of the drum. [m]
    pivot_radius_m : float or array
        From the drum's centre to the shoe's pivot. [m]
    actuation_arm_m : float or array
        From the pivot to the line of the cylinder's force. [m]
    toe_angle_rad : float or array
        Where the lining begins, counted from the pivot. [rad]
    heel_angle_rad : float or array
        Where it ends. [rad]

    Returns
    -------
    brake_factor : float or array
        Drag at the drum over force on the shoe. [-]

    Raises
    ------
    BadInput
        When the friction reaches the shoe's self-locking limit.

    Notes
    -----
    F c = M_N - M_f, so C = mu c drag / (normal - mu friction).
    Checked against: a drum of 300 mm, 2.2 kN on each shoe, friction 0.28: 277.6 N m on the leading
    shoe (problem read; torque from memory and reproduced).

    Examples
    --------
    >>> arm = 2 * 0.125 * math.cos(math.radians(30))
    >>> factor = long_leading_factor(0.28, 0.150, 0.125, arm, 0.0, math.radians(120))
    >>> round(factor * 2200 * 0.150, 1)
    277.6
    """
    parts = long_shoe_integrals(drum_radius_m, pivot_radius_m, toe_angle_rad, heel_angle_rad)
    refuse_locking(friction, parts.normal_m / parts.friction_m)
    left = parts.normal_m - friction * parts.friction_m
    return friction * actuation_arm_m * parts.drag_m / (left * drum_radius_m)


@formula
def long_trailing_factor(
    friction: Number,
    drum_radius_m: Number,
    pivot_radius_m: Number,
    actuation_arm_m: Number,
    toe_angle_rad: Number,
    heel_angle_rad: Number,
) -> Number:
    """Brake factor of a long trailing shoe.

    [S:shigley, ch. 16]

    Parameters
    ----------
    friction : float or array
        Friction of lining on drum. [-]
    drum_radius_m : float or array
        Radius of the drum. [m]
    pivot_radius_m : float or array
        From the drum's centre to the shoe's pivot. [m]
    actuation_arm_m : float or array
        From the pivot to the line of the cylinder's force. [m]
    toe_angle_rad : float or array
        Where the lining begins, counted from the pivot. [rad]
    heel_angle_rad : float or array
        Where it ends. [rad]

    Returns
    -------
    brake_factor : float or array
        Drag at the drum over force on the shoe. [-]

    Notes
    -----
    F c = M_N + M_f.
    Checked against: the same drum's trailing shoe, 144.4 N m (problem read; torque from memory and
    reproduced).

    Examples
    --------
    >>> arm = 2 * 0.125 * math.cos(math.radians(30))
    >>> factor = long_trailing_factor(0.28, 0.150, 0.125, arm, 0.0, math.radians(120))
    >>> round(factor * 2200 * 0.150, 1)
    144.4
    """
    parts = long_shoe_integrals(drum_radius_m, pivot_radius_m, toe_angle_rad, heel_angle_rad)
    held = parts.normal_m + friction * parts.friction_m
    return friction * actuation_arm_m * parts.drag_m / (held * drum_radius_m)


@formula
def long_shoe_lining_pressure(
    torque_nm: Number,
    friction: Number,
    lining_width_m: Number,
    drum_radius_m: Number,
    toe_angle_rad: Number,
    heel_angle_rad: Number,
) -> Number:
    """Greatest pressure on a long shoe's lining for the torque it gives.

    [S:shigley, ch. 16]

    Parameters
    ----------
    torque_nm : float or array
        Torque of this shoe. [N.m]
    friction : float or array
        Friction of lining on drum, above zero here. [-]
    lining_width_m : float or array
        Width of the lining. [m]
    drum_radius_m : float or array
        Radius of the drum. [m]
    toe_angle_rad : float or array
        Where the lining begins, counted from the pivot. [rad]
    heel_angle_rad : float or array
        Where it ends. [rad]

    Returns
    -------
    lining_pressure_pa : float or array
        Pressure where it is greatest: a quarter turn from the pivot, or at the end nearest to
        that. [Pa]

    Raises
    ------
    BadInput
        When the friction is zero.

    Notes
    -----
    p_a = T sin t_a / (mu b r^2 (cos t1 - cos t2)). Read for linings that reach a quarter turn, or
    end before it.
    Checked against: 734 kPa on the leading shoe of a textbook drum of 300 mm (read).

    Examples
    --------
    >>> heel = math.radians(120)
    >>> round(long_shoe_lining_pressure(277.6, 0.28, 0.040, 0.150, 0.0, heel) / 1e3)
    734
    """
    if lowest(friction) <= 0.0:
        raise BadInput("friction", "0 gives no torque at any pressure", "give it above zero")
    drop = shaped("cos", toe_angle_rad) - shaped("cos", heel_angle_rad)
    top = shaped("sin", least(heel_angle_rad, math.pi / 2.0))
    area: Number = lining_width_m * drum_radius_m**2
    return torque_nm * top / (friction * area * drop)
