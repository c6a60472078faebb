"""What braking asks of each axle's tyres, which axle locks first, and which way the car pulls.

Deceleration is a share of g throughout (z). What the axles carry is in `bareshell.calc.loads`.
"""

from __future__ import annotations

from bareshell.calc.formula import formula
from bareshell.calc.loads import refuse_outside
from bareshell.calc.values import Number, choose, most, quotient

__all__ = [
    "adhesion_used",
    "crossing_deceleration",
    "deceleration_from_forces",
    "front_lock_deceleration",
    "prescribed_deceleration_71_320",
    "prescribed_deceleration_r13h",
    "rear_lock_deceleration",
    "rear_share",
    "side_pull_moment",
    "steering_pull_moment",
    "use_of_adhesion",
]


@formula
def rear_share(front_force_n: Number, rear_force_n: Number) -> Number:
    """Rear share of the brake force as installed.

    [S:gillespie, ch. 3]

    Parameters
    ----------
    front_force_n : float or array
        Brake force of the front axle at the road. [N]
    rear_force_n : float or array
        Brake force of the rear axle at the road. [N]

    Returns
    -------
    rear_share : float or array
        Rear over both; 0 while there is no force at all. [-]

    Notes
    -----
    phi = F_r / (F_f + F_r).
    Checked against: its definition (computed).

    Examples
    --------
    >>> rear_share(6000.0, 2000.0)
    0.25
    """
    return quotient(rear_force_n, front_force_n + rear_force_n, 0.0)


@formula
def deceleration_from_forces(
    front_force_n: Number, rear_force_n: Number, weight_n: Number
) -> Number:
    """Deceleration that the two axles' brake forces make.

    [S:un-r13-h, Annex 5]

    Parameters
    ----------
    front_force_n : float or array
        Brake force of the front axle at the road. [N]
    rear_force_n : float or array
        Brake force of the rear axle at the road. [N]
    weight_n : float or array
        Weight of the car. [N]

    Returns
    -------
    deceleration_g : float or array
        Deceleration as a share of g. [-]

    Notes
    -----
    z = (F_f + F_r) / W. Forces are those the tyres can pass on; drag and rolling resistance,
    which help, are left out.
    Checked against: the light truck below, 330.3 and 231.2 lbf on 4074 lb are 0.1378 g (inputs
    from memory, answer computed).

    Examples
    --------
    >>> round(deceleration_from_forces(330.3, 231.2, 4074.0), 4)
    0.1378
    """
    return (front_force_n + rear_force_n) / weight_n


@formula
def adhesion_used(axle_force_n: Number, axle_load_n: Number) -> Number:
    """Adhesion that an axle uses: its brake force over what it carries.

    [S:fr-arrete-1955]

    Parameters
    ----------
    axle_force_n : float or array
        Brake force of the axle at the road. [N]
    axle_load_n : float or array
        Load on the axle at that deceleration. [N]

    Returns
    -------
    adhesion : float or array
        The regulation's f_i; endless when the axle is braked and carries nothing. [-]

    Notes
    -----
    f_i = T_i / N_i. The axle locks where the road offers less.
    Checked against: 330.3 lbf under 2316 lbf is 0.143 (inputs from memory, answer computed).

    Examples
    --------
    >>> round(adhesion_used(330.3, 2316.0), 3)
    0.143
    """
    unloaded: Number = choose(axle_force_n > 0.0, axle_force_n * 0.0 + float("inf"), 0.0)
    used = quotient(axle_force_n, axle_load_n, 0.0)
    return choose(axle_load_n > 0.0, used, unloaded)


@formula
def use_of_adhesion(
    deceleration_g: Number, front_adhesion: Number, rear_adhesion: Number
) -> Number:
    """Efficiency of a distribution: deceleration over the greater adhesion used.

    [S:gillespie, ch. 3]

    Parameters
    ----------
    deceleration_g : float or array
        Deceleration as a share of g. [-]
    front_adhesion : float or array
        Adhesion used by the front axle. [-]
    rear_adhesion : float or array
        Adhesion used by the rear axle. [-]

    Returns
    -------
    use_of_adhesion : float or array
        1 when both axles use the same; 1 as well at rest. [-]

    Notes
    -----
    z / max(f_f, f_r): the share of what a road offers that is used when the first axle locks.
    Checked against: 0.4095 g with 0.392 and 0.437 is 0.936 (inputs from memory, answer computed).

    Examples
    --------
    >>> round(use_of_adhesion(0.4095, 0.392, 0.437), 3)
    0.937
    """
    return quotient(deceleration_g, most(front_adhesion, rear_adhesion), 1.0)


@formula
def front_lock_deceleration(
    friction_of_road: Number,
    rear_share: Number,
    wheelbase_m: Number,
    cg_to_front_m: Number,
    cg_height_m: Number,
) -> Number:
    """Deceleration at which the front axle locks, with a fixed distribution.

    [S:gillespie, ch. 3]

    Parameters
    ----------
    friction_of_road : float or array
        Adhesion that the road offers. [-]
    rear_share : float or array
        Rear brake force over all brake force. [-]
    wheelbase_m : float or array
        Between the axles. [m]
    cg_to_front_m : float or array
        From the front axle back to the centre of gravity. [m]
    cg_height_m : float or array
        Height of the centre of gravity. [m]

    Returns
    -------
    deceleration_g : float or array
        As a share of g; endless when the front never locks first. [-]

    Notes
    -----
    z = mu (b/L) / ((1 - phi) - mu h/L), reached only if it is below that of the rear axle.
    Checked against: `adhesion_used` at that deceleration equals the road's (computed).

    Examples
    --------
    >>> round(front_lock_deceleration(0.8, 0.25, 2.4, 1.08, 0.53), 3)
    0.767
    """
    refuse_outside(cg_to_front_m, wheelbase_m)
    grip = friction_of_road / wheelbase_m
    left = (1.0 - rear_share) - grip * cg_height_m
    return quotient(grip * (wheelbase_m - cg_to_front_m), left, float("inf"))


@formula
def rear_lock_deceleration(
    friction_of_road: Number,
    rear_share: Number,
    wheelbase_m: Number,
    cg_to_front_m: Number,
    cg_height_m: Number,
) -> Number:
    """Deceleration at which the rear axle locks, with a fixed distribution.

    [S:gillespie, ch. 3]

    Parameters
    ----------
    friction_of_road : float or array
        Adhesion that the road offers. [-]
    rear_share : float or array
        Rear brake force over all brake force. [-]
    wheelbase_m : float or array
        Between the axles. [m]
    cg_to_front_m : float or array
        From the front axle back to the centre of gravity. [m]
    cg_height_m : float or array
        Height of the centre of gravity. [m]

    Returns
    -------
    deceleration_g : float or array
        As a share of g. The axle whose figure is the lower locks first. [-]

    Notes
    -----
    z = mu (a/L) / (phi + mu h/L), reached only if it is below that of the front axle. A car whose
    rear locks first turns round.
    Checked against: `adhesion_used` at that deceleration equals the road's (computed).

    Examples
    --------
    >>> round(rear_lock_deceleration(0.8, 0.25, 2.4, 1.08, 0.53), 3)
    0.844
    """
    refuse_outside(cg_to_front_m, wheelbase_m)
    grip = friction_of_road / wheelbase_m
    asked = rear_share + grip * cg_height_m
    return quotient(grip * cg_to_front_m, asked, float("inf"))


@formula
def crossing_deceleration(
    rear_share: Number, wheelbase_m: Number, cg_to_front_m: Number, cg_height_m: Number
) -> Number:
    """Deceleration at which a fixed distribution is ideal: both axles use the same.

    Below it the front would lock first, above it the rear. [S:gillespie, ch. 3]

    Parameters
    ----------
    rear_share : float or array
        Rear brake force over all brake force. [-]
    wheelbase_m : float or array
        Between the axles. [m]
    cg_to_front_m : float or array
        From the front axle back to the centre of gravity. [m]
    cg_height_m : float or array
        Height of the centre of gravity. [m]

    Returns
    -------
    deceleration_g : float or array
        As a share of g; below zero when the rear always locks first. [-]

    Notes
    -----
    z = (a - phi L) / h, where phi is the ideal share.
    Checked against: `ideal_rear_share`, there and back (computed).

    Examples
    --------
    >>> round(crossing_deceleration(0.25, 2.4, 1.08, 0.53), 3)
    0.906
    """
    refuse_outside(cg_to_front_m, wheelbase_m)
    return (cg_to_front_m - rear_share * wheelbase_m) / cg_height_m


@formula
def prescribed_deceleration_r13h(adhesion: Number) -> Number:
    """Deceleration that a car must reach before an axle uses an adhesion, newer rule.

    [S:un-r13-h, Annex 5 3.1 (B)]

    Parameters
    ----------
    adhesion : float or array
        The regulation's k, for which the rule is stated between 0.2 and 0.8. [-]

    Returns
    -------
    deceleration_g : float or array
        Least z. [-]

    Notes
    -----
    z >= 0.1 + 0.7 (k - 0.2), never below zero; outside 0.2 to 0.8 no rule is stated.
    Checked against: 0.10, 0.31 and 0.52 at 0.2, 0.5 and 0.8 (rule from memory, computed).

    Examples
    --------
    >>> [round(prescribed_deceleration_r13h(k), 2) for k in (0.2, 0.5, 0.8)]
    [0.10, 0.31, 0.52]
    """
    return most(0.1 + 0.7 * (adhesion - 0.2), 0.0)


@formula
def prescribed_deceleration_71_320(adhesion: Number) -> Number:
    """Deceleration that a car must reach before an axle uses an adhesion, older rule.

    [S:ec-71-320] and, in the form read, [S:fr-arrete-1955]

    Parameters
    ----------
    adhesion : float or array
        The regulation's k, for which the rule is stated between 0.2 and 0.8. [-]

    Returns
    -------
    deceleration_g : float or array
        Least z. [-]

    Notes
    -----
    z >= 0.1 + 0.85 (k - 0.2), never below zero; outside 0.2 to 0.8 no rule is stated.
    Checked against: 0.10, 0.355 and 0.61 at 0.2, 0.5 and 0.8 (rule read, computed).

    Examples
    --------
    >>> [round(prescribed_deceleration_71_320(k), 3) for k in (0.2, 0.5, 0.8)]
    [0.100, 0.355, 0.610]
    """
    return most(0.1 + 0.85 * (adhesion - 0.2), 0.0)


@formula
def side_pull_moment(left_force_n: Number, right_force_n: Number, track_m: Number) -> Number:
    """Turning moment on the car from one axle's uneven brakes.

    [S:first-principles, statics]

    Parameters
    ----------
    left_force_n : float or array
        Brake force of the left wheel at the road. [N]
    right_force_n : float or array
        Brake force of the right wheel at the road. [N]
    track_m : float or array
        Between the middles of the two tyres. [m]

    Returns
    -------
    moment_nm : float or array
        Above zero it turns the car to the left. [N.m]

    Notes
    -----
    M = (F_left - F_right) track / 2. Add the axles. What the driver feels also depends on
    steering geometry: see `steering_pull_moment`.
    Checked against: a mirrored car mirrors (computed).

    Examples
    --------
    >>> side_pull_moment(2000.0, 1400.0, 1.3)
    390.0
    """
    return (left_force_n - right_force_n) * track_m / 2.0


@formula
def steering_pull_moment(
    left_force_n: Number, right_force_n: Number, scrub_radius_m: Number
) -> Number:
    """Moment about the steering axes from uneven front brakes.

    [S:first-principles, statics]

    Parameters
    ----------
    left_force_n : float or array
        Brake force of the left front wheel at the road. [N]
    right_force_n : float or array
        Brake force of the right front wheel at the road. [N]
    scrub_radius_m : float or array
        From the steering axis, where it meets the road, out to the middle of the tyre; below
        zero when the axis meets the road outside it. [m]

    Returns
    -------
    moment_nm : float or array
        Above zero it steers to the left. [N.m]

    Notes
    -----
    M = (F_left - F_right) x scrub. With scrub below zero it steers against the pull. Wheels of
    another offset change it.
    Checked against: a mirrored car mirrors (computed).

    Examples
    --------
    >>> round(steering_pull_moment(2000.0, 1400.0, 0.04), 6)
    24.0
    """
    return (left_force_n - right_force_n) * scrub_radius_m
