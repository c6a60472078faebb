"""Whole drums: one leading and one trailing shoe, two leading, duo-servo; and their torque.

A drum's torque grows faster than its friction, most of all with two leading shoes or a duo-servo,
so it pulls and fades more than a disc. Single shoes are in `bareshell.calc.shoe` and
`bareshell.calc.long_shoe`.
"""

from __future__ import annotations

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, quotient

__all__ = [
    "drum_torque",
    "duo_servo_factor",
    "duo_servo_sensitivity",
    "simplex_factor",
    "simplex_sensitivity",
    "twin_leading_factor",
    "twin_trailing_factor",
]


@formula
def simplex_factor(leading_factor: Number, trailing_factor: Number) -> Number:
    """Brake factor of a drum with one leading and one trailing shoe.

    [S:limpert, ch. 2]

    Parameters
    ----------
    leading_factor : float or array
        Factor of the leading shoe. [-]
    trailing_factor : float or array
        Factor of the trailing shoe. [-]

    Returns
    -------
    brake_factor : float or array
        Drag of both over the force on one. [-]

    Notes
    -----
    The sum, the cylinder pressing both alike; the same in reverse when the shoes are alike.
    Checked against: 2 to 2.3 at a friction near 0.4, the usual textbook figure (from memory).

    Examples
    --------
    >>> simplex_factor(1.5, 0.5)
    2.0
    """
    return leading_factor + trailing_factor


@formula
def twin_leading_factor(leading_factor: Number) -> Number:
    """Brake factor of a drum with two leading shoes.

    [S:limpert, ch. 2]

    Parameters
    ----------
    leading_factor : float or array
        Factor of one leading shoe. [-]

    Returns
    -------
    brake_factor : float or array
        Drag of both over the force on one. [-]

    Notes
    -----
    Twice the one, forwards. In reverse both trail: see `twin_trailing_factor`.
    Checked against: about 3 at a friction near 0.4, the usual textbook figure (from memory).

    Examples
    --------
    >>> twin_leading_factor(1.5)
    3.0
    """
    return 2.0 * leading_factor


@formula
def twin_trailing_factor(trailing_factor: Number) -> Number:
    """Brake factor of a twin leading drum that turns backwards.

    [S:limpert, ch. 2]

    Parameters
    ----------
    trailing_factor : float or array
        Factor of one shoe when it trails. [-]

    Returns
    -------
    brake_factor : float or array
        Drag of both over the force on one. [-]

    Notes
    -----
    Twice the one. It is why a car with twin leading shoes holds badly on a hill facing up.
    Checked against: `twin_leading_factor` with the shoe turned about (computed).

    Examples
    --------
    >>> twin_trailing_factor(0.5)
    1.0
    """
    return 2.0 * trailing_factor


@formula
def duo_servo_factor(
    primary_factor: Number,
    secondary_factor: Number,
    drum_radius_m: Number,
    input_arm_m: Number,
    link_arm_m: Number,
) -> Number:
    """Brake factor of a duo-servo drum: the first shoe's drag presses the second.

    [S:limpert, ch. 2]

    Parameters
    ----------
    primary_factor : float or array
        Factor of the primary shoe, leading about the link. [-]
    secondary_factor : float or array
        Factor of the secondary shoe for a force at the link, leading about the anchor. [-]
    drum_radius_m : float or array
        Radius of the drum. [m]
    input_arm_m : float or array
        From the drum's centre to the line of the cylinder's force. [m]
    link_arm_m : float or array
        From the drum's centre to the line of the link between the shoes. [m]

    Returns
    -------
    brake_factor : float or array
        Drag of both shoes over the force of the cylinder on one. [-]

    Notes
    -----
    Moments of the primary shoe about the drum's centre give the link S / F = (C1 r + h1) / h2, and
    C = C1 + C2 S / F. The cylinder's own push on the secondary shoe, close to its anchor, is left
    out. Steep in friction: expect it to pull and to fade.
    Checked against: about 5 at a friction near 0.4, the usual textbook figure (from memory), and
    equilibrium of the primary shoe (computed).

    Examples
    --------
    >>> duo_servo_factor(1.2, 1.4, 0.125, 0.10, 0.10)
    4.7
    """
    link = (primary_factor * drum_radius_m + input_arm_m) / link_arm_m
    return primary_factor + secondary_factor * link


@formula
def simplex_sensitivity(
    leading_factor: Number,
    trailing_factor: Number,
    leading_sensitivity: Number,
    trailing_sensitivity: Number,
) -> Number:
    """How touchy a drum with one leading and one trailing shoe is.

    [S:limpert, ch. 2]

    Parameters
    ----------
    leading_factor : float or array
        Factor of the leading shoe. [-]
    trailing_factor : float or array
        Factor of the trailing shoe. [-]
    leading_sensitivity : float or array
        Sensitivity of the leading shoe. [-]
    trailing_sensitivity : float or array
        Sensitivity of the trailing shoe. [-]

    Returns
    -------
    sensitivity : float or array
        Relative change of brake factor over relative change of friction; 1 when both factors
        are zero. [-]

    Notes
    -----
    The shoes' sensitivities weighed by their factors. Two leading shoes are as touchy as one.
    Checked against: the slope of `simplex_factor` taken numerically (computed).

    Examples
    --------
    >>> simplex_sensitivity(1.5, 0.5, 2.0, 0.7)
    1.675
    """
    weighed = leading_factor * leading_sensitivity + trailing_factor * trailing_sensitivity
    return quotient(weighed, leading_factor + trailing_factor, 1.0)


@formula
def duo_servo_sensitivity(
    primary_factor: Number,
    secondary_factor: Number,
    primary_sensitivity: Number,
    secondary_sensitivity: Number,
    drum_radius_m: Number,
    input_arm_m: Number,
    link_arm_m: Number,
) -> Number:
    """How touchy a duo-servo drum is.

    [S:limpert, ch. 2]

    Parameters
    ----------
    primary_factor : float or array
        Factor of the primary shoe. [-]
    secondary_factor : float or array
        Factor of the secondary shoe for a force at the link. [-]
    primary_sensitivity : float or array
        Sensitivity of the primary shoe. [-]
    secondary_sensitivity : float or array
        Sensitivity of the secondary shoe. [-]
    drum_radius_m : float or array
        Radius of the drum. [m]
    input_arm_m : float or array
        From the drum's centre to the line of the cylinder's force. [m]
    link_arm_m : float or array
        From the drum's centre to the line of the link between the shoes. [m]

    Returns
    -------
    sensitivity : float or array
        Relative change of brake factor over relative change of friction; 1 when both factors
        are zero. [-]

    Notes
    -----
    C = C1 + C2 S with the link S of `duo_servo_factor`; so S_C C = C1 S1 + C2 S S2 + C2 C1 S1 r/h2.
    Checked against: the slope of `duo_servo_factor` taken numerically (computed).

    Examples
    --------
    >>> round(duo_servo_sensitivity(1.2, 1.4, 1.6, 1.8, 0.125, 0.10, 0.10), 3)
    2.464
    """
    link = (primary_factor * drum_radius_m + input_arm_m) / link_arm_m
    whole = primary_factor + secondary_factor * link
    grown = primary_factor * primary_sensitivity
    through = secondary_factor * (link * secondary_sensitivity + grown * drum_radius_m / link_arm_m)
    return quotient(grown + through, whole, 1.0)


@formula
def drum_torque(shoe_force_n: Number, brake_factor: Number, drum_radius_m: Number) -> Number:
    """Torque of a drum brake.

    [S:limpert, ch. 2]

    Parameters
    ----------
    shoe_force_n : float or array
        Force on one shoe. [N]
    brake_factor : float or array
        Brake factor of the whole drum, or of the shoe alone. [-]
    drum_radius_m : float or array
        Radius of the drum. [m]

    Returns
    -------
    torque_nm : float or array
        Torque on the wheel. [N.m]

    Notes
    -----
    T = C F r. Leaves out that a hot drum grows away from its shoes.
    Checked against: a textbook drum of 300 mm pressed with 2.2 kN (see
    `bareshell.calc.long_shoe`).

    Examples
    --------
    >>> drum_torque(2000.0, 2.0, 0.114)
    456.0
    """
    return shoe_force_n * brake_factor * drum_radius_m
