"""Valves in the line to the rear: limiting, proportioning, deceleration-sensing, residual.

Each is right at its corner: at the knee itself both pieces of its line give the same pressure.
The pressures are those of a steady or growing push. On release every one of these valves lags;
that hysteresis is left out.
"""

from __future__ import annotations

from typing import Generic, NamedTuple

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, choose, least, lowest, most, shaped
from bareshell.errors import BadInput

__all__ = [
    "ValveLine",
    "ball_closing_deceleration",
    "bypassed_proportioning",
    "deceleration_sensing",
    "pressure_at_deceleration",
    "pressure_limiting",
    "proportioning",
    "proportioning_from_piston",
    "residual_pressure",
    "shuttle_side",
]


class ValveLine(NamedTuple, Generic[Number]):
    """The line a proportioning valve follows: where it bends, and its slope beyond."""

    knee_pa: Number
    valve_slope: Number


@formula
def pressure_limiting(pressure_pa: Number, limit_pa: Number) -> Number:
    """Pressure behind a pressure-limiting valve.

    [S:limpert, ch. 5]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure before the valve. [Pa]
    limit_pa : float or array
        Pressure at which it shuts; endless for a valve that never does. [Pa]

    Returns
    -------
    pressure_out_pa : float or array
        Pressure behind it. [Pa]

    Notes
    -----
    p_out = min(p, limit): a proportioning valve of slope zero.
    Checked against: `proportioning` with slope zero (computed).

    Examples
    --------
    >>> pressure_limiting(5e6, 3e6), pressure_limiting(2e6, 3e6)
    (3000000.0, 2000000.0)
    """
    return least(pressure_pa, limit_pa)


@formula
def proportioning(pressure_pa: Number, knee_pa: Number, valve_slope: Number) -> Number:
    """Pressure behind a proportioning valve.

    [S:gillespie, ch. 3]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure before the valve. [Pa]
    knee_pa : float or array
        Pressure up to which it lets all through; endless for no valve. [Pa]
    valve_slope : float or array
        Rise behind over rise before, beyond the knee. [-]

    Returns
    -------
    pressure_out_pa : float or array
        Pressure behind it. [Pa]

    Notes
    -----
    p up to the knee, then knee + slope x (p - knee); written here as
    p - (1 - slope) x max(p - knee, 0) so that an endless knee is no special case.
    Checked against: a valve of 290 psi and 0.3 passing 293, 323, 353, 383 and 413 psi at 300 to
    700 psi (inputs from memory, answers computed).

    Examples
    --------
    >>> [round(proportioning(p, 290.0, 0.3)) for p in (200.0, 290.0, 300.0, 700.0)]
    [200, 290, 293, 413]
    """
    return pressure_pa - (1.0 - valve_slope) * most(pressure_pa - knee_pa, 0.0)


@formula
def proportioning_from_piston(
    valve_spring_n: Number, inlet_area_m2: Number, outlet_area_m2: Number
) -> ValveLine[Number]:
    """Knee and slope of a proportioning valve from its spring and stepped piston.

    [S:first-principles, statics]

    Parameters
    ----------
    valve_spring_n : float or array
        Force that holds the valve open; on a load-sensing valve that of its lever at this load. [N]
    inlet_area_m2 : float or array
        Piston area on which the inlet acts, with the spring, to open. [m2]
    outlet_area_m2 : float or array
        Larger piston area on which the outlet acts to shut. [m2]

    Returns
    -------
    knee_pa : float or array
        Pressure at the bend. [Pa]
    valve_slope : float or array
        Slope beyond it. [-]

    Raises
    ------
    BadInput
        When the outlet's area is not the larger: such a valve would never shut.

    Notes
    -----
    In balance: p_in A_in + S = p_out A_out, so slope = A_in / A_out and, with p_in = p_out at the
    bend, knee = S / (A_out - A_in). Leaves out friction of the seals.
    Checked against: `proportioning`, which keeps the piston in balance (computed).

    Examples
    --------
    >>> proportioning_from_piston(100.0, 0.3e-4, 1.0e-4)
    ValveLine(knee_pa=1428571.4, valve_slope=0.3)
    """
    step = outlet_area_m2 - inlet_area_m2
    if lowest(step) <= 0.0:
        raise BadInput(
            "outlet area of the valve's piston",
            "is not larger than the inlet area",
            "measure both; the face towards the wheels is the larger one",
        )
    return ValveLine(valve_spring_n / step, inlet_area_m2 / outlet_area_m2)


@formula
def ball_closing_deceleration(ball_angle_rad: Number, road_angle_rad: Number) -> Number:
    """Deceleration at which the ball of a deceleration-sensing valve rolls up its ramp and shuts.

    [S:first-principles, statics]

    Parameters
    ----------
    ball_angle_rad : float or array
        Rise of the ramp towards the front, measured on the car as it stands level. [rad]
    road_angle_rad : float or array
        Slope of the road: above zero uphill, below zero downhill. [rad]

    Returns
    -------
    closing_deceleration_g : float or array
        Deceleration along the road, as a share of g, never below zero. [-]

    Notes
    -----
    The ball leaves when deceleration beats the ramp: z = cos(road) tan(ramp) + sin(road)
    uphill; downhill it leaves sooner. Nose dive under braking steepens nothing but tilts the ramp
    forward: subtract it from the ramp's angle. Leaves out the ball's inertia and the fluid's drag.
    Checked against: the direction of apparent gravity (computed).

    Examples
    --------
    >>> import math
    >>> round(ball_closing_deceleration(math.radians(20), 0.0), 3)
    0.364
    """
    flat = shaped("cos", road_angle_rad) * shaped("tan", ball_angle_rad)
    return most(flat + shaped("sin", road_angle_rad), 0.0)


@formula
def pressure_at_deceleration(
    deceleration_g: Number, onset_pressure_pa: Number, deceleration_per_pa: Number
) -> Number:
    """Pressure at which a car whose brakes answer in a straight line reaches a deceleration.

    [S:first-principles, statics]

    Parameters
    ----------
    deceleration_g : float or array
        Deceleration as a share of g. [-]
    onset_pressure_pa : float or array
        Pressure that only overcomes the return springs. [Pa]
    deceleration_per_pa : float or array
        Gain of deceleration, as a share of g, for each pascal beyond that. [1/Pa]

    Returns
    -------
    pressure_pa : float or array
        Pressure needed. [Pa]

    Notes
    -----
    p = onset + z / gain. With `deceleration_sensing` it gives the pressure at which the ball shuts,
    since nothing has bent the line before that.
    Checked against: the straight line itself (computed).

    Examples
    --------
    >>> pressure_at_deceleration(0.35, 2e5, 1.25e-7)
    3000000.0
    """
    return onset_pressure_pa + deceleration_g / deceleration_per_pa


@formula
def deceleration_sensing(
    pressure_pa: Number, closing_pressure_pa: Number, lift_pressure_pa: Number, valve_slope: Number
) -> Number:
    """Pressure behind a deceleration-sensing valve.

    [S:first-principles, statics]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure before the valve. [Pa]
    closing_pressure_pa : float or array
        Pressure in the line as the ball shut. [Pa]
    lift_pressure_pa : float or array
        Pressure before the valve at which its stepped piston begins to lift again; the same as
        the closing pressure for a piston with no spring, endless for a plain shut-off. [Pa]
    valve_slope : float or array
        Rise behind over rise before once it lifts. [-]

    Returns
    -------
    pressure_out_pa : float or array
        Pressure towards the rear. [Pa]

    Notes
    -----
    All through until the ball shuts, held while it is shut, and then
    closing + slope x (p - lift). Which deceleration shut the ball is the car's answer, not the
    valve's: see `pressure_at_deceleration`. The ball hangs on until the pressure falls below what
    it trapped.
    Checked against: `pressure_limiting` when it never lifts, `proportioning` when it lifts at
    once (computed).

    Examples
    --------
    >>> [deceleration_sensing(p, 3e6, 4e6, 0.4) for p in (2e6, 3e6, 4e6, 6e6)]
    [2000000.0, 3000000.0, 3000000.0, 3800000.0]
    """
    lifted = valve_slope * most(pressure_pa - most(lift_pressure_pa, closing_pressure_pa), 0.0)
    return least(pressure_pa, closing_pressure_pa) + lifted


@formula
def residual_pressure(pressure_pa: Number, residual_pa: Number) -> Number:
    """Pressure beyond a residual-pressure valve once the brakes have been used.

    [S:limpert, ch. 5]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure from the master cylinder. [Pa]
    residual_pa : float or array
        Pressure that the valve keeps in the line after release. [Pa]

    Returns
    -------
    pressure_out_pa : float or array
        Pressure at the wheel cylinders. [Pa]

    Notes
    -----
    max(p, residual). It keeps the cups of drum cylinders spread; a disc caliper on such a line
    drags. Leaves out the small spring of the outward valve, and the first use after bleeding.
    Checked against: its corner (computed).

    Examples
    --------
    >>> residual_pressure(0.0, 7e4), residual_pressure(2e6, 7e4)
    (70000.0, 2000000.0)
    """
    return most(pressure_pa, residual_pa)


@formula
def shuttle_side(front_pa: Number, rear_pa: Number, shift_difference_pa: Number) -> Number:
    """Where the shuttle of a pressure-difference switch stands.

    [S:limpert, ch. 5]

    Parameters
    ----------
    front_pa : float or array
        Pressure of one circuit. [Pa]
    rear_pa : float or array
        Pressure of the other. [Pa]
    shift_difference_pa : float or array
        Difference that moves it against its springs or friction. [Pa]

    Returns
    -------
    shuttle_side : float or array
        1 when it has moved towards the rear circuit (the rear is low), -1 towards the front, 0 at
        rest in the middle. [-]

    Notes
    -----
    It moves when the difference reaches the shift difference. Many do not come back by themselves:
    the lamp then tells of a loss that has since been put right, or of one made while bleeding.
    Checked against: its corners, and that swapping the circuits mirrors it (computed).

    Examples
    --------
    >>> shuttle_side(5e6, 0.0, 7e5), shuttle_side(5e6, 5e6, 7e5)
    (1.0, 0.0)
    """
    towards_rear = choose(front_pa - rear_pa >= shift_difference_pa, 1.0 + 0.0 * front_pa, 0.0)
    towards_front = choose(rear_pa - front_pa >= shift_difference_pa, 1.0 + 0.0 * rear_pa, 0.0)
    return towards_rear - towards_front


@formula
def bypassed_proportioning(
    pressure_pa: Number,
    knee_pa: Number,
    valve_slope: Number,
    other_pressure_pa: Number,
    shift_difference_pa: Number,
) -> Number:
    """Pressure behind a proportioning valve that opens fully when the other circuit is lost.

    [S:limpert, ch. 5]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure before the valve. [Pa]
    knee_pa : float or array
        Pressure up to which it lets all through. [Pa]
    valve_slope : float or array
        Rise behind over rise before, beyond the knee. [-]
    other_pressure_pa : float or array
        Pressure of the other circuit. [Pa]
    shift_difference_pa : float or array
        Difference at which the shuttle opens the by-pass. [Pa]

    Returns
    -------
    pressure_out_pa : float or array
        Pressure behind it. [Pa]

    Notes
    -----
    All of p when the other circuit is lower by the shift difference or more, else `proportioning`.
    Checked against: both pieces and the corner (computed).

    Examples
    --------
    >>> bypassed_proportioning(5e6, 2e6, 0.3, 5e6, 1e6)
    2900000.0
    >>> bypassed_proportioning(5e6, 2e6, 0.3, 0.0, 1e6)
    5000000.0
    """
    bent = proportioning(pressure_pa, knee_pa, valve_slope)
    return choose(pressure_pa - other_pressure_pa >= shift_difference_pa, pressure_pa, bent)
