"""A car parked on a slope: its pull, and what the tyres of one braked axle need to hold it.

Slopes are rise over run, above zero with the nose uphill and below zero with it downhill, where
direction matters. The force chain from the hand is in `bareshell.calc.parking`.
"""

from __future__ import annotations

from bareshell.calc.formula import formula
from bareshell.calc.loads import refuse_outside
from bareshell.calc.values import Number, choose, most, quotient, shaped

__all__ = [
    "front_parking_adhesion",
    "front_slope_limit",
    "rear_parking_adhesion",
    "rear_slope_limit",
    "slope_held",
    "slope_pull",
]


@formula
def slope_pull(weight_n: Number, slope: Number) -> Number:
    """Pull down a slope.

    [S:first-principles, statics]

    Parameters
    ----------
    weight_n : float or array
        Weight of the car. [N]
    slope : float or array
        Rise over run; the sign does not matter. [-]

    Returns
    -------
    force_n : float or array
        Pull along the road. [N]

    Notes
    -----
    F = W sin(atan G).
    Checked against: 0.1191, 0.1580, 0.1772, 0.1961 and 0.2873 W on 12, 16, 18, 20 and 30 per cent
    (computed).

    Examples
    --------
    >>> [round(slope_pull(1.0, G), 4) for G in (0.12, 0.16, 0.18, 0.20, 0.30)]
    [0.1191, 0.1580, 0.1772, 0.1961, 0.2873]
    """
    steep: Number = slope**2
    pull: Number = weight_n * shaped("sqrt", steep / (1.0 + steep))
    return pull


@formula
def slope_held(force_n: Number, weight_n: Number) -> Number:
    """Steepest slope that a holding force holds, if the tyres grip.

    [S:first-principles, statics]

    Parameters
    ----------
    force_n : float or array
        Holding force at the road. [N]
    weight_n : float or array
        Weight of the car. [N]

    Returns
    -------
    slope : float or array
        Rise over run; endless when the force is the weight or more. [-]

    Notes
    -----
    G = tan(asin(F / W)). A roller test's 16 per cent is force over weight and holds a slope of 16.2
    per cent: it does not show that 20 per cent is held.
    Checked against: `slope_pull`, there and back (computed).

    Examples
    --------
    >>> round(slope_held(0.16, 1.0), 4)
    0.1621
    """
    share = force_n / weight_n
    left: Number = most(1.0 - share**2, 0.0)
    return quotient(share, shaped("sqrt", left), float("inf"))


@formula
def rear_parking_adhesion(
    slope: Number, wheelbase_m: Number, cg_to_front_m: Number, cg_height_m: Number
) -> Number:
    """Adhesion that rear tyres need when the rear wheels alone hold the car.

    [S:jazar, p. 48]

    Parameters
    ----------
    slope : float or array
        Rise over run: above zero nose up, below zero nose down. [-]
    wheelbase_m : float or array
        Between the axles. [m]
    cg_to_front_m : float or array
        From the front axle back to the centre of gravity. [m]
    cg_height_m : float or array
        Height of the centre of gravity. [m]

    Returns
    -------
    adhesion : float or array
        Least adhesion; endless when the rear carries nothing. [-]

    Notes
    -----
    mu = G / (a/L + G h/L) nose up, G / (a/L - G h/L) nose down.
    Checked against: statics of a car on a slope (computed): with a/L 0.45 and h/L 0.22, 0.330 up
    and 0.386 down on 16 per cent.

    Examples
    --------
    >>> [round(rear_parking_adhesion(G, 1.0, 0.45, 0.22), 3) for G in (0.16, -0.16, 0.20, -0.20)]
    [0.330, 0.386, 0.405, 0.493]
    """
    refuse_outside(cg_to_front_m, wheelbase_m)
    carried = (cg_to_front_m + slope * cg_height_m) / wheelbase_m
    return _needed(slope, carried)


@formula
def front_parking_adhesion(
    slope: Number, wheelbase_m: Number, cg_to_front_m: Number, cg_height_m: Number
) -> Number:
    """Adhesion that front tyres need when the front wheels alone hold the car.

    [S:jazar, p. 48]

    Parameters
    ----------
    slope : float or array
        Rise over run: above zero nose up, below zero nose down. [-]
    wheelbase_m : float or array
        Between the axles. [m]
    cg_to_front_m : float or array
        From the front axle back to the centre of gravity. [m]
    cg_height_m : float or array
        Height of the centre of gravity. [m]

    Returns
    -------
    adhesion : float or array
        Least adhesion; endless when the front carries nothing. [-]

    Notes
    -----
    mu = G / (b/L - G h/L) nose up, G / (b/L + G h/L) nose down.
    Checked against: the rear of the same car turned about (computed).

    Examples
    --------
    >>> [round(front_parking_adhesion(G, 1.0, 0.45, 0.22), 3) for G in (0.16, -0.16)]
    [0.311, 0.273]
    """
    refuse_outside(cg_to_front_m, wheelbase_m)
    carried = (wheelbase_m - cg_to_front_m - slope * cg_height_m) / wheelbase_m
    return _needed(slope, carried)


def _needed(slope: Number, carried: Number) -> Number:
    steepness = choose(slope < 0.0, -slope, slope)
    lifted: Number = choose(steepness > 0.0, 0.0 * steepness + float("inf"), 0.0)
    return choose(carried > 0.0, quotient(steepness, carried, 0.0), lifted)


@formula
def rear_slope_limit(
    friction_of_road: Number, wheelbase_m: Number, cg_to_front_m: Number, cg_height_m: Number
) -> Number:
    """Steepest slope, nose up, on which locked rear wheels alone do not slide.

    [S:jazar, p. 48]

    Parameters
    ----------
    friction_of_road : float or array
        Adhesion that the road offers. [-]
    wheelbase_m : float or array
        Between the axles. [m]
    cg_to_front_m : float or array
        From the front axle back to the centre of gravity. [m]
    cg_height_m : float or array
        Height of the centre of gravity. [m]

    Returns
    -------
    slope : float or array
        Rise over run; endless when the car would sooner tip. [-]

    Notes
    -----
    G = mu a / (L - mu h).
    Checked against: `rear_parking_adhesion` on that slope (computed).

    Examples
    --------
    >>> round(rear_slope_limit(0.330, 1.0, 0.45, 0.22), 3)
    0.160
    """
    refuse_outside(cg_to_front_m, wheelbase_m)
    left = wheelbase_m - friction_of_road * cg_height_m
    return quotient(friction_of_road * cg_to_front_m, left, float("inf"))


@formula
def front_slope_limit(
    friction_of_road: Number, wheelbase_m: Number, cg_to_front_m: Number, cg_height_m: Number
) -> Number:
    """Steepest slope, nose up, on which locked front wheels alone do not slide.

    [S:jazar, eqs 2.63 and 2.66]

    Parameters
    ----------
    friction_of_road : float or array
        Adhesion that the road offers. [-]
    wheelbase_m : float or array
        Between the axles. [m]
    cg_to_front_m : float or array
        From the front axle back to the centre of gravity. [m]
    cg_height_m : float or array
        Height of the centre of gravity. [m]

    Returns
    -------
    slope : float or array
        Rise over run. [-]

    Notes
    -----
    G = mu b / (L + mu h). The book's equation 2.68 as stored has L - mu h, which its own equations
    2.63 and 2.66 contradict: nose up, the front is the lighter.
    Checked against: `front_parking_adhesion` on that slope (computed).

    Examples
    --------
    >>> round(front_slope_limit(0.311, 1.0, 0.45, 0.22), 3)
    0.160
    """
    refuse_outside(cg_to_front_m, wheelbase_m)
    ahead = wheelbase_m - cg_to_front_m
    return friction_of_road * ahead / (wheelbase_m + friction_of_road * cg_height_m)
