"""Vacuum servos, on the push rod or in the line, working, run out and dead.

A servo adds up to what its vacuum and diaphragm can give and no more. Past that knee every further
newton is the driver's own, and with no vacuum all of it is.
"""

from __future__ import annotations

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, least, most, quotient

__all__ = [
    "dead_servo_force",
    "line_servo_capacity",
    "line_servo_input",
    "line_servo_knee",
    "line_servo_pressure",
    "vacuum_left",
    "vacuum_servo_capacity",
    "vacuum_servo_force",
    "vacuum_servo_input",
    "vacuum_servo_knee",
]


@formula
def vacuum_servo_capacity(
    vacuum_pa: Number, diaphragm_area_m2: Number, servo_efficiency: Number, servo_spring_n: Number
) -> Number:
    """Most that a vacuum servo can add to the push rod: where it runs out.

    [S:limpert, ch. 5]

    Parameters
    ----------
    vacuum_pa : float or array
        Pressure below that of the atmosphere in the servo's front chamber. [Pa]
    diaphragm_area_m2 : float or array
        Area of the diaphragm; of both together where there are two. [m2]
    servo_efficiency : float or array
        Share that hysteresis and seals let through. [-]
    servo_spring_n : float or array
        Force of the servo's return spring at working stroke; 0 when not known to matter. [N]

    Returns
    -------
    servo_capacity_n : float or array
        Largest assistance. [N]

    Notes
    -----
    F_max = efficiency x vacuum x area - spring, never below zero. The diaphragm's working area is
    less than that of its shell. Idle vacuum of a worn engine, a hot cam or high ground is lower.
    Checked against: pressure times area (computed).

    Examples
    --------
    >>> round(vacuum_servo_capacity(67e3, 0.0314, 0.95, 100.0), 1)
    1898.6
    """
    return most(servo_efficiency * vacuum_pa * diaphragm_area_m2 - servo_spring_n, 0.0)


@formula
def vacuum_servo_force(
    input_force_n: Number, boost_ratio: Number, servo_capacity_n: Number, cut_in_force_n: Number
) -> Number:
    """Force that a push-rod servo gives the master cylinder.

    [S:limpert, ch. 5]

    Parameters
    ----------
    input_force_n : float or array
        Force of the pedal's push rod on the servo. [N]
    boost_ratio : float or array
        Output over input before run-out. [-]
    servo_capacity_n : float or array
        Largest assistance, from `vacuum_servo_capacity`. [N]
    cut_in_force_n : float or array
        Input that only opens the servo's valve. [N]

    Returns
    -------
    output_force_n : float or array
        Force on the master cylinder's piston. [N]

    Notes
    -----
    With u = input - cut-in, never below zero: output = u + min((ratio - 1) u, capacity). Beyond
    the knee the slope is one. Leaves out the jump at first touch and the lag of a fast stop.
    Checked against: 1500 N in and 2500 N out, a ratio of 1.667, from a training examination
    (inputs read, answer computed).

    Examples
    --------
    >>> round(vacuum_servo_force(1500.0, 2500 / 1500, 2000.0, 0.0), 6)
    2500.0
    >>> vacuum_servo_force(2000.0, 3.0, 2000.0, 0.0)  # run out at 1000 N
    4000.0
    """
    used = most(input_force_n - cut_in_force_n, 0.0)
    return used + least((boost_ratio - 1.0) * used, servo_capacity_n)


@formula
def vacuum_servo_knee(
    boost_ratio: Number, servo_capacity_n: Number, cut_in_force_n: Number
) -> Number:
    """Input force at which a push-rod servo runs out.

    [S:limpert, ch. 5]

    Parameters
    ----------
    boost_ratio : float or array
        Output over input before run-out. [-]
    servo_capacity_n : float or array
        Largest assistance. [N]
    cut_in_force_n : float or array
        Input that only opens the servo's valve. [N]

    Returns
    -------
    knee_force_n : float or array
        Input at the knee; endless when the ratio is one. [N]

    Notes
    -----
    knee = cut-in + capacity / (ratio - 1).
    Checked against: `vacuum_servo_force` on either side of it (computed).

    Examples
    --------
    >>> vacuum_servo_knee(3.0, 2000.0, 50.0)
    1050.0
    """
    return cut_in_force_n + quotient(servo_capacity_n, boost_ratio - 1.0, float("inf"))


@formula
def vacuum_servo_input(
    output_force_n: Number, boost_ratio: Number, servo_capacity_n: Number, cut_in_force_n: Number
) -> Number:
    """Input force that a push-rod servo needs for a wanted output.

    [S:limpert, ch. 5]

    Parameters
    ----------
    output_force_n : float or array
        Wanted force on the master cylinder's piston. [N]
    boost_ratio : float or array
        Output over input before run-out. [-]
    servo_capacity_n : float or array
        Largest assistance. [N]
    cut_in_force_n : float or array
        Input that only opens the servo's valve. [N]

    Returns
    -------
    input_force_n : float or array
        Force of the pedal's push rod. [N]

    Notes
    -----
    input = cut-in + max(output / ratio, output - capacity): whichever side of the knee asks more.
    Checked against: `vacuum_servo_force`, there and back (computed).

    Examples
    --------
    >>> vacuum_servo_input(4000.0, 3.0, 2000.0, 0.0)
    2000.0
    """
    return cut_in_force_n + most(output_force_n / boost_ratio, output_force_n - servo_capacity_n)


@formula
def dead_servo_force(input_force_n: Number, servo_drag_n: Number) -> Number:
    """Force through a push-rod servo that has no vacuum at all.

    [S:limpert, ch. 5]

    Parameters
    ----------
    input_force_n : float or array
        Force of the pedal's push rod on the servo. [N]
    servo_drag_n : float or array
        What the dead servo itself swallows: valve spring, return spring, seals. [N]

    Returns
    -------
    output_force_n : float or array
        Force on the master cylinder's piston. [N]

    Notes
    -----
    output = input - drag, never below zero: the rods touch and the driver pushes through.
    Checked against: `vacuum_servo_force` with no capacity and the same threshold (computed).

    Examples
    --------
    >>> dead_servo_force(1500.0, 120.0)
    1380.0
    """
    return most(input_force_n - servo_drag_n, 0.0)


@formula
def line_servo_capacity(
    vacuum_pa: Number,
    diaphragm_area_m2: Number,
    servo_efficiency: Number,
    servo_spring_n: Number,
    slave_area_m2: Number,
) -> Number:
    """Most pressure that a remote servo can add to its line.

    [S:limpert, ch. 5]

    Parameters
    ----------
    vacuum_pa : float or array
        Pressure below that of the atmosphere. [Pa]
    diaphragm_area_m2 : float or array
        Area of the diaphragm or air piston. [m2]
    servo_efficiency : float or array
        Share that hysteresis and seals let through. [-]
    servo_spring_n : float or array
        Force of the return spring at working stroke. [N]
    slave_area_m2 : float or array
        Area of the servo's own hydraulic piston. [m2]

    Returns
    -------
    line_servo_capacity_pa : float or array
        Largest pressure added. [Pa]

    Notes
    -----
    dp_max = (efficiency x vacuum x diaphragm - spring) / slave area, never below zero.
    Checked against: equilibrium of the servo's piston (computed).

    Examples
    --------
    >>> round(line_servo_capacity(67e3, 0.0177, 0.9, 80.0, 2.85e-4) / 1e6, 3)
    3.464
    """
    thrust = servo_efficiency * vacuum_pa * diaphragm_area_m2 - servo_spring_n
    return most(thrust, 0.0) / slave_area_m2


@formula
def line_servo_pressure(
    pressure_pa: Number,
    boost_ratio: Number,
    reaction_threshold_pa: Number,
    line_servo_capacity_pa: Number,
) -> Number:
    """Pressure behind a remote servo for the pressure before it.

    [S:limpert, ch. 5]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure from the master cylinder. [Pa]
    boost_ratio : float or array
        Rise of pressure behind over rise before, once it works. [-]
    reaction_threshold_pa : float or array
        Pressure that first moves the reaction valve. [Pa]
    line_servo_capacity_pa : float or array
        Largest pressure it can add; 0 for a dead servo. [Pa]

    Returns
    -------
    pressure_out_pa : float or array
        Pressure towards the wheels. [Pa]

    Notes
    -----
    With u = p - threshold, never below zero: p_out = p + min((ratio - 1) u, capacity). Below the
    threshold, and when dead, the pressure passes straight through. Leaves out hysteresis.
    Checked against: its three straight pieces and their corners (computed).

    Examples
    --------
    >>> line_servo_pressure(3e6, 3.0, 0.5e6, 4e6)
    7000000.0
    """
    used = most(pressure_pa - reaction_threshold_pa, 0.0)
    return pressure_pa + least((boost_ratio - 1.0) * used, line_servo_capacity_pa)


@formula
def line_servo_input(
    pressure_pa: Number,
    boost_ratio: Number,
    reaction_threshold_pa: Number,
    line_servo_capacity_pa: Number,
) -> Number:
    """Pressure that a remote servo needs before it for a wanted pressure behind it.

    [S:limpert, ch. 5]

    Parameters
    ----------
    pressure_pa : float or array
        Wanted pressure towards the wheels. [Pa]
    boost_ratio : float or array
        Rise of pressure behind over rise before, once it works. [-]
    reaction_threshold_pa : float or array
        Pressure that first moves the reaction valve. [Pa]
    line_servo_capacity_pa : float or array
        Largest pressure it can add; 0 for a dead servo. [Pa]

    Returns
    -------
    pressure_in_pa : float or array
        Pressure from the master cylinder. [Pa]

    Notes
    -----
    `line_servo_pressure` turned about: p up to the threshold, then threshold + (p - threshold) /
    ratio, or p - capacity where that is more.
    Checked against: `line_servo_pressure`, there and back (computed).

    Examples
    --------
    >>> line_servo_input(7e6, 3.0, 0.5e6, 4e6)
    3000000.0
    """
    passed = least(pressure_pa, reaction_threshold_pa)
    boosted = passed + (pressure_pa - passed) / boost_ratio
    return most(boosted, pressure_pa - line_servo_capacity_pa)


@formula
def line_servo_knee(
    boost_ratio: Number, reaction_threshold_pa: Number, line_servo_capacity_pa: Number
) -> Number:
    """Pressure before a remote servo at which it runs out.

    [S:limpert, ch. 5]

    Parameters
    ----------
    boost_ratio : float or array
        Rise of pressure behind over rise before. [-]
    reaction_threshold_pa : float or array
        Pressure that first moves the reaction valve. [Pa]
    line_servo_capacity_pa : float or array
        Largest pressure it can add. [Pa]

    Returns
    -------
    knee_pressure_pa : float or array
        Pressure from the master cylinder at the knee; endless when the ratio is one. [Pa]

    Notes
    -----
    knee = threshold + capacity / (ratio - 1).
    Checked against: `line_servo_pressure` on either side of it (computed).

    Examples
    --------
    >>> line_servo_knee(3.0, 0.5e6, 4e6)
    2500000.0
    """
    return reaction_threshold_pa + quotient(line_servo_capacity_pa, boost_ratio - 1.0, float("inf"))


@formula
def vacuum_left(
    vacuum_pa: Number, vacuum_store_m3: Number, servo_air_m3: Number, applications: Number
) -> Number:
    """Vacuum left after some applications with the engine stopped.

    [S:first-principles, gas law]

    Parameters
    ----------
    vacuum_pa : float or array
        Pressure below that of the atmosphere at the start. [Pa]
    vacuum_store_m3 : float or array
        Everything behind the check valve that holds vacuum: chamber, pipe, tank. [m3]
    servo_air_m3 : float or array
        Air let into the working chamber at each application, at atmospheric pressure. [m3]
    applications : float or array
        How many full presses and releases. [-]

    Returns
    -------
    vacuum_left_pa : float or array
        Pressure below that of the atmosphere afterwards. [Pa]

    Notes
    -----
    On release the air mixes into the store at one temperature, so each application leaves
    vacuum x V / (V + V_air). Leaves out leaks; slow presses warm and mix better than fast ones.
    Checked against: the amount of air counted press by press (computed).

    Examples
    --------
    >>> round(vacuum_left(70e3, 0.004, 0.002, 3.0))
    20741
    """
    kept: Number = vacuum_store_m3 / (vacuum_store_m3 + servo_air_m3)
    left: Number = vacuum_pa * kept**applications
    return left
