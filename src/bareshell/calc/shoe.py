"""One drum shoe on a pivot: it helps itself when it leads, hinders itself when it trails.

A leading shoe is drawn into the drum by its own friction, a trailing one is pushed out of it. At
some friction a leading shoe would lock by itself: there the formulas refuse to answer. Three
descriptions are given: here the short form of a handbook, in `bareshell.calc.long_shoe` the
integrals of a textbook, and, true of both, how touchy the shoe is for the friction at which it
would lock. Whole drums are in `bareshell.calc.drum`.
"""

from __future__ import annotations

import math

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, lowest, most, shaped
from bareshell.errors import BadInput

__all__ = [
    "leading_sensitivity",
    "leading_shoe_factor",
    "lining_factor",
    "pressure_for_shoe_force",
    "self_locking_friction",
    "shoe_force",
    "trailing_sensitivity",
    "trailing_shoe_factor",
]


@formula
def lining_factor(lining_arc_rad: Number) -> Number:
    """Lining factor: how a curved lining multiplies the friction of a flat one.

    [S:data-handbook, p. 88]

    Parameters
    ----------
    lining_arc_rad : float or array
        Whole angle that the lining wraps. [rad]

    Returns
    -------
    lining_factor : float or array
        The handbook's K; 1 for a very short lining. [-]

    Notes
    -----
    K = 4 sin(t) / (2 t + sin 2 t) with t half the arc. For pressure that follows a cosine about
    the middle of the lining.
    Checked against: the limit 1 for a short shoe, and 1.27 for a half circle by its own
    formula (read).

    Examples
    --------
    >>> import math
    >>> round(lining_factor(math.radians(110)), 3)
    1.146
    """
    half = lining_arc_rad / 2.0
    return 4.0 * shaped("sin", half) / (2.0 * half + shaped("sin", 2.0 * half))


@formula
def self_locking_friction(
    lining_factor: Number, pivot_arm_m: Number, friction_arm_m: Number
) -> Number:
    """Friction at which a pivoted leading shoe would lock by itself.

    [S:data-handbook, p. 88]

    Parameters
    ----------
    lining_factor : float or array
        From `lining_factor`. [-]
    pivot_arm_m : float or array
        From the pivot to the line of the lining's normal force. [m]
    friction_arm_m : float or array
        From the pivot to the line of the lining's friction force. [m]

    Returns
    -------
    locking_friction : float or array
        The friction that must never be reached. [-]

    Notes
    -----
    mu = b / (K c), where the divisor of `leading_shoe_factor` vanishes. Damp, rust or a glazed
    lining after a winter's rest can raise friction for the first stops.
    Checked against: `leading_shoe_factor`, which grows without end towards it (computed).

    Examples
    --------
    >>> round(self_locking_friction(1.146, 0.10, 0.11), 3)
    0.793
    """
    return pivot_arm_m / (lining_factor * friction_arm_m)


@formula
def leading_shoe_factor(
    friction: Number,
    lining_factor: Number,
    actuation_arm_m: Number,
    pivot_arm_m: Number,
    friction_arm_m: Number,
) -> Number:
    """Brake factor of a pivoted leading shoe: drag at the drum over force on the shoe.

    [S:data-handbook, p. 88]

    Parameters
    ----------
    friction : float or array
        Friction of lining on drum. [-]
    lining_factor : float or array
        From `lining_factor`. [-]
    actuation_arm_m : float or array
        From the pivot to the line of the cylinder's force. [m]
    pivot_arm_m : float or array
        From the pivot to the line of the lining's normal force. [m]
    friction_arm_m : float or array
        From the pivot to the line of the lining's friction force. [m]

    Returns
    -------
    brake_factor : float or array
        Drag over force, for this shoe. [-]

    Raises
    ------
    BadInput
        When the friction reaches the shoe's self-locking limit.

    Notes
    -----
    C = K mu a / (b - K mu c). Which of the handbook's two forms leads was settled by the sense of
    rotation, since the scan does not show it. Valid for a rigid shoe on a fixed pivot that has
    bedded in; a sliding abutment gives somewhat less.
    Checked against: equilibrium of moments about the pivot (computed).

    Examples
    --------
    >>> round(leading_shoe_factor(0.35, 1.146, 0.20, 0.10, 0.11), 3)
    1.436
    """
    grip = lining_factor * friction
    left = pivot_arm_m - grip * friction_arm_m
    refuse_locking(friction, self_locking_friction(lining_factor, pivot_arm_m, friction_arm_m))
    return grip * actuation_arm_m / left


@formula
def trailing_shoe_factor(
    friction: Number,
    lining_factor: Number,
    actuation_arm_m: Number,
    pivot_arm_m: Number,
    friction_arm_m: Number,
) -> Number:
    """Brake factor of a pivoted trailing shoe: drag at the drum over force on the shoe.

    [S:data-handbook, p. 88]

    Parameters
    ----------
    friction : float or array
        Friction of lining on drum. [-]
    lining_factor : float or array
        From `lining_factor`. [-]
    actuation_arm_m : float or array
        From the pivot to the line of the cylinder's force. [m]
    pivot_arm_m : float or array
        From the pivot to the line of the lining's normal force. [m]
    friction_arm_m : float or array
        From the pivot to the line of the lining's friction force. [m]

    Returns
    -------
    brake_factor : float or array
        Drag over force, for this shoe. [-]

    Notes
    -----
    C = K mu a / (b + K mu c).
    Checked against: equilibrium of moments about the pivot (computed).

    Examples
    --------
    >>> round(trailing_shoe_factor(0.35, 1.146, 0.20, 0.10, 0.11), 3)
    0.557
    """
    grip = lining_factor * friction
    return grip * actuation_arm_m / (pivot_arm_m + grip * friction_arm_m)


@formula
def leading_sensitivity(friction: Number, locking_friction: Number) -> Number:
    """How touchy a leading shoe is: per cent of torque for one per cent of friction.

    [S:limpert, ch. 2]

    Parameters
    ----------
    friction : float or array
        Friction of lining on drum. [-]
    locking_friction : float or array
        Friction at which this shoe locks by itself. [-]

    Returns
    -------
    sensitivity : float or array
        Relative change of brake factor over relative change of friction; 1 for a disc. [-]

    Raises
    ------
    BadInput
        When the friction reaches the shoe's self-locking limit.

    Notes
    -----
    S = (dC / dmu) (mu / C) = 1 / (1 - mu / mu_lock), for any pivoted shoe.
    Checked against: the slope of `leading_shoe_factor` taken numerically (computed).

    Examples
    --------
    >>> leading_sensitivity(0.4, 0.8)
    2.0
    """
    refuse_locking(friction, locking_friction)
    return 1.0 / (1.0 - friction / locking_friction)


@formula
def trailing_sensitivity(friction: Number, locking_friction: Number) -> Number:
    """How touchy a trailing shoe is: per cent of torque for one per cent of friction.

    [S:limpert, ch. 2]

    Parameters
    ----------
    friction : float or array
        Friction of lining on drum. [-]
    locking_friction : float or array
        Friction at which the same shoe would lock if it led. [-]

    Returns
    -------
    sensitivity : float or array
        Relative change of brake factor over relative change of friction. [-]

    Notes
    -----
    S = 1 / (1 + mu / mu_lock): always below one.
    Checked against: the slope of `trailing_shoe_factor` taken numerically (computed).

    Examples
    --------
    >>> round(trailing_sensitivity(0.4, 0.8), 4)
    0.6667
    """
    return 1.0 / (1.0 + friction / locking_friction)


def refuse_locking(friction: Number, locking_friction: Number) -> None:
    """Refuse a friction at which a leading shoe would lock by itself.

    Parameters
    ----------
    friction : float or array
        Friction of lining on drum.
    locking_friction : float or array
        Friction at which the shoe locks.

    Raises
    ------
    BadInput
        When any friction reaches the limit.
    """
    room = locking_friction - friction
    if lowest(room) <= 0.0:
        raise BadInput(
            "friction of lining on drum",
            "reaches the point where this leading shoe locks by itself",
            "measure the shoe's arms again; a sound brake stays well below that friction",
        )


@formula
def shoe_force(
    pressure_pa: Number, cylinder_bore_m: Number, shoe_spring_n: Number, cylinder_efficiency: Number
) -> Number:
    """Force of a wheel cylinder on one shoe.

    [S:limpert, ch. 5]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure at the wheel cylinder. [Pa]
    cylinder_bore_m : float or array
        Bore of the half that presses this shoe. [m]
    shoe_spring_n : float or array
        Force at the shoe's tip that only beats the return springs. [N]
    cylinder_efficiency : float or array
        Share that the cups let through. [-]

    Returns
    -------
    shoe_force_n : float or array
        Force on the shoe's tip. [N]

    Notes
    -----
    F = efficiency x p A - spring, never below zero. A stepped cylinder presses its two shoes
    with different areas: call it for each.
    Checked against: pressure times area (computed).

    Examples
    --------
    >>> round(shoe_force(4e6, 0.01905, 100.0, 1.0))
    1040
    """
    area: Number = math.pi * cylinder_bore_m**2 / 4.0
    return most(cylinder_efficiency * pressure_pa * area - shoe_spring_n, 0.0)


@formula
def pressure_for_shoe_force(
    shoe_force_n: Number,
    cylinder_bore_m: Number,
    shoe_spring_n: Number,
    cylinder_efficiency: Number,
) -> Number:
    """Pressure that a wheel cylinder needs for a wanted force on its shoe.

    [S:limpert, ch. 5]

    Parameters
    ----------
    shoe_force_n : float or array
        Wanted force on the shoe's tip. [N]
    cylinder_bore_m : float or array
        Bore of the half that presses this shoe. [m]
    shoe_spring_n : float or array
        Force at the shoe's tip that only beats the return springs. [N]
    cylinder_efficiency : float or array
        Share that the cups let through. [-]

    Returns
    -------
    pressure_pa : float or array
        Pressure at the wheel cylinder. [Pa]

    Notes
    -----
    p = (F + spring) / (efficiency x A): `shoe_force` turned about.
    Checked against: `shoe_force`, there and back (computed).

    Examples
    --------
    >>> round(pressure_for_shoe_force(1040.0, 0.01905, 100.0, 1.0) / 1e6, 2)
    4.00
    """
    area: Number = math.pi * cylinder_bore_m**2 / 4.0
    return (shoe_force_n + shoe_spring_n) / (cylinder_efficiency * area)
