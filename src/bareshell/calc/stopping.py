"""Stopping distance, mean deceleration, and what a roller tester or a decelerometer says.

Standard gravity, 9.80665 m/s2, turns a share of g into a deceleration here; one annex of the
regulations rounds it to 10, which is why no other module uses a value of g at all.
"""

from __future__ import annotations

from typing import Final

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, choose, least, lowest, most, quotient, shaped
from bareshell.errors import BadInput

__all__ = [
    "GRAVITY_M_S2",
    "deceleration_from_share",
    "deceleration_over_distance",
    "mean_fully_developed_deceleration",
    "prescribed_stopping_distance",
    "roller_efficiency",
    "share_of_g",
    "share_of_wheels_locked",
    "stopping_distance",
    "stopping_time",
    "weaker_wheel_ratio",
    "wheel_imbalance",
]

GRAVITY_M_S2: Final = 9.80665
"""Standard gravity [S:bipm-si-9]."""


@formula
def stopping_distance(
    speed_m_s: Number,
    steady_deceleration_m_s2: Number,
    reaction_time_s: Number,
    build_up_time_s: Number,
) -> Number:
    """Distance to a standstill: reaction, build-up, then steady braking.

    [S:limpert, ch. 1]

    Parameters
    ----------
    speed_m_s : float or array
        Speed at the start. [m/s]
    steady_deceleration_m_s2 : float or array
        Steady deceleration once built up. [m/s2]
    reaction_time_s : float or array
        Before anything happens; 0 to count from the first touch. [s]
    build_up_time_s : float or array
        While deceleration grows evenly to its full value; 0 for at once. [s]

    Returns
    -------
    distance_m : float or array
        From the start to rest. [m]

    Notes
    -----
    s = v (t_r + t_b / 2) + v^2 / (2 d) - d t_b^2 / 24; if the car stands before the build-up is
    over, s = v t_r + (2/3) v sqrt(2 v t_b / d). Drag of air and engine, which help, are left out.
    Checked against: 60 mph at 17.7 ft/s2 takes 218 to 219 ft, a textbook example (from memory);
    both pieces against numerical integration (computed).

    Examples
    --------
    >>> round(stopping_distance(88.0, 17.717, 0.0, 0.0), 1)  # in feet
    218.5
    """
    growth: Number = steady_deceleration_m_s2 * build_up_time_s**2 / 24.0
    whole: Number = (
        speed_m_s * build_up_time_s / 2.0 + speed_m_s**2 / (2.0 * steady_deceleration_m_s2) - growth
    )
    stands = shaped("sqrt", 2.0 * speed_m_s * build_up_time_s / steady_deceleration_m_s2)
    early = 2.0 * speed_m_s / steady_deceleration_m_s2 < build_up_time_s
    return speed_m_s * reaction_time_s + choose(early, 2.0 * speed_m_s * stands / 3.0, whole)


@formula
def stopping_time(
    speed_m_s: Number,
    steady_deceleration_m_s2: Number,
    reaction_time_s: Number,
    build_up_time_s: Number,
) -> Number:
    """Time to a standstill: reaction, build-up, then steady braking.

    [S:limpert, ch. 1]

    Parameters
    ----------
    speed_m_s : float or array
        Speed at the start. [m/s]
    steady_deceleration_m_s2 : float or array
        Steady deceleration once built up. [m/s2]
    reaction_time_s : float or array
        Before anything happens. [s]
    build_up_time_s : float or array
        While deceleration grows evenly to its full value. [s]

    Returns
    -------
    time_s : float or array
        From the start to rest. [s]

    Notes
    -----
    t = t_r + v / d + t_b / 2; if the car stands before the build-up is over,
    t = t_r + sqrt(2 v t_b / d).
    Checked against: 60 mph at 17.7 ft/s2 takes 4.97 s, a textbook example (from memory, computed).

    Examples
    --------
    >>> round(stopping_time(88.0, 17.717, 0.0, 0.0), 2)
    4.97
    """
    whole = speed_m_s / steady_deceleration_m_s2 + build_up_time_s / 2.0
    stands = shaped("sqrt", 2.0 * speed_m_s * build_up_time_s / steady_deceleration_m_s2)
    early = 2.0 * speed_m_s / steady_deceleration_m_s2 < build_up_time_s
    return reaction_time_s + choose(early, stands, whole)


@formula
def prescribed_stopping_distance(speed_m_s: Number, steady_deceleration_m_s2: Number) -> Number:
    """Stopping distance that goes with a regulation's mean deceleration.

    [S:un-r13-h, Annex 3]

    Parameters
    ----------
    speed_m_s : float or array
        Speed at the start. [m/s]
    steady_deceleration_m_s2 : float or array
        The regulation's mean fully developed deceleration. [m/s2]

    Returns
    -------
    distance_m : float or array
        From the first movement of the pedal to rest. [m]

    Notes
    -----
    s = 0.1 v + v^2 / (25.92 d) with v in km/h: 0.36 s of delay, then steady braking.
    Checked against: 70 m and 6.43 m/s2 from 100 km/h, and 168 m and 2.44 m/s2 (one deceleration
    and distance read, the rest from memory; the pairs agree by computation).

    Examples
    --------
    >>> round(prescribed_stopping_distance(100 / 3.6, 6.43))
    70
    >>> round(prescribed_stopping_distance(100 / 3.6, 2.44))
    168
    """
    braking: Number = speed_m_s**2 / (2.0 * steady_deceleration_m_s2)
    return 0.36 * speed_m_s + braking


@formula
def mean_fully_developed_deceleration(
    begin_speed_m_s: Number, end_speed_m_s: Number, begin_distance_m: Number, end_distance_m: Number
) -> Number:
    """Mean fully developed deceleration, as the regulations define it.

    [S:un-r13-2004, Annex 4 1.1.2]

    Parameters
    ----------
    begin_speed_m_s : float or array
        0.8 of the speed at the start. [m/s]
    end_speed_m_s : float or array
        0.1 of it. [m/s]
    begin_distance_m : float or array
        Distance run from the start to the first of these. [m]
    end_distance_m : float or array
        Distance run from the start to the second. [m]

    Returns
    -------
    deceleration_m_s2 : float or array
        The regulation's d_m. [m/s2]

    Raises
    ------
    BadInput
        When the second distance is not beyond the first, or the car got faster.

    Notes
    -----
    d_m = (v_b^2 - v_e^2) / (25.92 (s_e - s_b)) with speeds in km/h; 25.92 is 2 x 3.6^2. The start
    should be within 98 % of the prescribed speed.
    Checked against: the definition's constant, and a steady stop, whose deceleration it returns
    (definition read, computed).

    Examples
    --------
    >>> v = 100 / 3.6
    >>> s = lambda share: v**2 * (1 - share**2) / (2 * 6.43)  # run at a steady 6.43 m/s2
    >>> round(mean_fully_developed_deceleration(0.8 * v, 0.1 * v, s(0.8), s(0.1)), 2)
    6.43
    """
    run = end_distance_m - begin_distance_m
    if lowest(run) <= 0.0:
        raise BadInput("distances", "do not grow", "give both as run from the start of the stop")
    if lowest(begin_speed_m_s - end_speed_m_s) < 0.0:
        raise BadInput("speeds", "do not fall", "give the 0.8 speed first, then the 0.1 speed")
    fall: Number = begin_speed_m_s**2 - end_speed_m_s**2
    return fall / (2.0 * run)


@formula
def deceleration_over_distance(speed_m_s: Number, distance_m: Number) -> Number:
    """Mean deceleration of a stop from its speed and distance.

    [S:first-principles, kinematics]

    Parameters
    ----------
    speed_m_s : float or array
        Speed at the start. [m/s]
    distance_m : float or array
        Braking distance to rest, without any delay. [m]

    Returns
    -------
    deceleration_m_s2 : float or array
        Mean over the distance. [m/s2]

    Notes
    -----
    d = v^2 / (2 s).
    Checked against: the braking distances of the Highway Code from 20 to 70 mph, one and the same
    6.56 m/s2 [S:highway-code-stopping] (read second-hand).

    Examples
    --------
    >>> round(deceleration_over_distance(60 * 0.44704, 180 * 0.3048), 2)
    6.56
    """
    mean: Number = speed_m_s**2 / (2.0 * distance_m)
    return mean


@formula
def share_of_g(deceleration_m_s2: Number) -> Number:
    """Reading of a decelerometer: deceleration as a share of standard gravity.

    [S:uk-mot-1, 1.2.2]

    Parameters
    ----------
    deceleration_m_s2 : float or array
        Deceleration. [m/s2]

    Returns
    -------
    deceleration_g : float or array
        Share of g, which the test calls efficiency. [-]

    Notes
    -----
    z = a / g. A decelerometer leans with the car's nose and reads a little high.
    Checked against: 50 per cent is 4.90 m/s2, and 5.0 m/s2 is 51 per cent (computed).

    Examples
    --------
    >>> round(share_of_g(5.0), 2)
    0.51
    """
    return deceleration_m_s2 / GRAVITY_M_S2


@formula
def deceleration_from_share(deceleration_g: Number) -> Number:
    """Deceleration behind a decelerometer's reading.

    [S:uk-mot-1, 1.2.2]

    Parameters
    ----------
    deceleration_g : float or array
        Reading as a share of g. [-]

    Returns
    -------
    deceleration_m_s2 : float or array
        Deceleration. [m/s2]

    Notes
    -----
    a = z g.
    Checked against: 0.50 is 4.90 m/s2 (computed).

    Examples
    --------
    >>> round(deceleration_from_share(0.50), 2)
    4.90
    """
    return deceleration_g * GRAVITY_M_S2


@formula
def roller_efficiency(total_effort_n: Number, weight_n: Number) -> Number:
    """Efficiency of a roller test: all efforts over the car's weight.

    [S:uk-mot-1, 1.2.2]

    Parameters
    ----------
    total_effort_n : float or array
        Sum of the wheels' greatest efforts. [N]
    weight_n : float or array
        Weight of the car as tested, in the same unit. [N]

    Returns
    -------
    efficiency : float or array
        Share of the weight. [-]

    Notes
    -----
    Sum of efforts / weight. Efforts read in kgf go with a weight in kg. A slow roller says nothing
    of fade, nor of which axle locks first on the road.
    Checked against: the manual's definition (read); any one unit for both (computed).

    Examples
    --------
    >>> roller_efficiency(600.0, 1000.0)
    0.6
    """
    return total_effort_n / weight_n


@formula
def wheel_imbalance(left_effort_n: Number, right_effort_n: Number) -> Number:
    """Imbalance across an axle in a roller test.

    [S:uk-mot-1, 1.2.1]

    Parameters
    ----------
    left_effort_n : float or array
        Greatest effort of the left wheel. [N]
    right_effort_n : float or array
        Greatest effort of the right wheel. [N]

    Returns
    -------
    imbalance : float or array
        (higher - lower) / higher; 0 when neither brakes. [-]

    Notes
    -----
    The manual leaves it aside when the lower wheel locked, or the higher reads 40 kgf or less;
    that is for the reader of the sheet, not for this sum.
    Checked against: 200 and 140 kgf are 30 per cent, on the limit (rule read, computed).

    Examples
    --------
    >>> wheel_imbalance(200.0, 140.0)
    0.3
    """
    higher = most(left_effort_n, right_effort_n)
    return quotient(higher - least(left_effort_n, right_effort_n), higher, 0.0)


@formula
def weaker_wheel_ratio(left_effort_n: Number, right_effort_n: Number) -> Number:
    """Weaker wheel of an axle as a share of the stronger, as the test's limits are worded.

    [S:uk-mot-1, 1.2.1 (b)]

    Parameters
    ----------
    left_effort_n : float or array
        Greatest effort of the left wheel. [N]
    right_effort_n : float or array
        Greatest effort of the right wheel. [N]

    Returns
    -------
    ratio : float or array
        Lower over higher; 1 when neither brakes. [-]

    Notes
    -----
    The manual's limits are 0.7, and 0.5 on a steered axle; a reading on the limit is not below it.
    Checked against: 140 of 200 kgf is exactly 0.7, 139 is below, 49 of 100 is below 0.5 (rule
    read, computed).

    Examples
    --------
    >>> weaker_wheel_ratio(200.0, 140.0)
    0.7
    """
    lower = least(left_effort_n, right_effort_n)
    return quotient(lower, most(left_effort_n, right_effort_n), 1.0)


@formula
def share_of_wheels_locked(wheels_locked: Number, wheels_braked: Number) -> Number:
    """Share of a system's wheels that locked on the rollers.

    [S:uk-mot-1, 1.2.1]

    Parameters
    ----------
    wheels_locked : float or array
        Wheels that locked. [-]
    wheels_braked : float or array
        Wheels that the system brakes. [-]

    Returns
    -------
    share : float or array
        Locked over braked. [-]

    Raises
    ------
    BadInput
        When more wheels locked than are braked.

    Notes
    -----
    The manual takes the efficiency as met when more than half lock: three of four or two of two,
    not two of four or one of two.
    Checked against: those four cases (rule read, computed).

    Examples
    --------
    >>> [share_of_wheels_locked(*case) > 0.5 for case in ((3, 4), (2, 4), (2, 2), (1, 2))]
    [True, False, True, False]
    """
    if lowest(wheels_braked - wheels_locked) < 0.0:
        raise BadInput("wheels that locked", "are more than are braked", "count them again")
    return wheels_locked / wheels_braked
