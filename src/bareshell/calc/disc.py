"""Disc brakes: clamp, effective radius, torque.

The commonest slip with a disc is to count pistons twice. Clamp is what one pad is pressed with:
the pistons of one side of a fixed caliper, or all the pistons of a sliding one. The two faces of
the disc are counted once more, in the torque.
"""

from __future__ import annotations

from collections.abc import Sequence

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, lowest, most
from bareshell.errors import BadInput

__all__ = [
    "clamp_force",
    "clamp_force_of_circuits",
    "disc_brake_factor",
    "disc_torque",
    "effective_radius_uniform_pressure",
    "effective_radius_uniform_wear",
    "fixed_caliper_area",
    "pad_clamp_uniform_pressure",
    "pad_clamp_uniform_wear",
    "pressure_for_disc_torque",
    "sliding_caliper_area",
]


@formula
def fixed_caliper_area(piston_bores_m: Sequence[Number]) -> Number:
    """Piston area that clamps in a fixed caliper: that of one side.

    [S:limpert, ch. 2]

    Parameters
    ----------
    piston_bores_m : sequence of float or array
        Bores of all the pistons of both sides that the circuit feeds. [m]

    Returns
    -------
    piston_area_m2 : float or array
        Area of one side. [m2]

    Notes
    -----
    Half the sum of pi d^2 / 4, the two sides being alike. The other half only holds against it.
    Checked against: geometry (computed).

    Examples
    --------
    >>> round(fixed_caliper_area((0.048, 0.048)) * 1e4, 3)
    18.096
    """
    return sliding_caliper_area(piston_bores_m) / 2.0


@formula
def sliding_caliper_area(piston_bores_m: Sequence[Number]) -> Number:
    """Piston area that clamps in a sliding caliper: all of its pistons.

    [S:limpert, ch. 2]

    Parameters
    ----------
    piston_bores_m : sequence of float or array
        Bores of the pistons that the circuit feeds. [m]

    Returns
    -------
    piston_area_m2 : float or array
        Area that clamps. [m2]

    Notes
    -----
    Sum of pi d^2 / 4. The body slides and presses the other pad as hard.
    Checked against: geometry (computed).

    Examples
    --------
    >>> round(sliding_caliper_area((0.048,)) * 1e4, 3)
    18.096
    """
    import math

    total: Number = piston_bores_m[0] ** 2
    for bore in piston_bores_m[1:]:
        total = total + bore**2
    return math.pi * total / 4.0


@formula
def clamp_force(
    pressure_pa: Number,
    piston_area_m2: Number,
    push_out_pressure_pa: Number,
    caliper_efficiency: Number,
) -> Number:
    """Force with which each pad is pressed on the disc.

    [S:data-handbook, p. 88]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure at the caliper. [Pa]
    piston_area_m2 : float or array
        Area of one side's pistons, or of all those of a sliding caliper. [m2]
    push_out_pressure_pa : float or array
        Pressure that only rolls the seals and shifts the pads. [Pa]
    caliper_efficiency : float or array
        Share that seals and slides let through. [-]

    Returns
    -------
    clamp_force_n : float or array
        Force on each face of the disc. [N]

    Notes
    -----
    N = efficiency x (p - p_0) x A, never below zero. A seized slide or piston is no small loss:
    model it as an area that is not there.
    Checked against: 3748 lbf on a cylinder of 1.5 in is 2121 psi (from memory, computed).

    Examples
    --------
    >>> round(clamp_force(5e6, 18.096e-4, 5e4, 1.0))
    8958
    """
    return caliper_efficiency * most(pressure_pa - push_out_pressure_pa, 0.0) * piston_area_m2


@formula
def clamp_force_of_circuits(
    pressures_pa: Sequence[Number],
    piston_areas_m2: Sequence[Number],
    push_out_pressure_pa: Number,
    caliper_efficiency: Number,
) -> Number:
    """Clamp of a caliper fed by several circuits, each with pistons of its own.

    [S:first-principles, statics]

    Parameters
    ----------
    pressures_pa : sequence of float or array
        Pressure of each circuit; 0 for one that is blanked or lost. [Pa]
    piston_areas_m2 : sequence of float or array
        One side's piston area on each circuit, in the same order. [m2]
    push_out_pressure_pa : float or array
        Pressure that only rolls the seals. [Pa]
    caliper_efficiency : float or array
        Share that seals and slides let through. [-]

    Returns
    -------
    clamp_force_n : float or array
        Force on each face of the disc. [N]

    Raises
    ------
    BadInput
        When there are not as many areas as pressures.

    Notes
    -----
    Sum of `clamp_force`. With one circuit lost the pad is pressed off its middle and wears askew.
    Checked against: `clamp_force` of the areas together at one pressure (computed).

    Examples
    --------
    >>> round(clamp_force_of_circuits((5e6, 0.0), (9e-4, 9e-4), 0.0, 1.0))
    4500
    """
    if len(pressures_pa) != len(piston_areas_m2):
        raise BadInput(
            "areas of the pistons on each circuit",
            f"there are {len(piston_areas_m2)} for {len(pressures_pa)} pressures",
            "give one area for each circuit, in the same order",
        )
    total: Number = 0.0 * pressures_pa[0]
    for pressure, area in zip(pressures_pa, piston_areas_m2, strict=True):
        total = total + clamp_force(pressure, area, push_out_pressure_pa, caliper_efficiency)
    return total


@formula
def effective_radius_uniform_wear(outer_radius_m: Number, inner_radius_m: Number) -> Number:
    """Effective radius of pads worn in to even wear.

    [S:shigley, ch. 16]

    Parameters
    ----------
    outer_radius_m : float or array
        Outer radius of the rubbed ring. [m]
    inner_radius_m : float or array
        Inner radius of it. [m]

    Returns
    -------
    effective_radius_m : float or array
        Radius at which the friction may be thought to act. [m]

    Raises
    ------
    BadInput
        When the inner radius is not below the outer.

    Notes
    -----
    r_e = (r_o + r_i) / 2. The usual choice for a pad that has bedded in; the pad's own shape and
    bending of the caliper move it a little.
    Checked against: 5.50 and 3.875 in give 4.688 in, a textbook example (from memory, computed).

    Examples
    --------
    >>> round(effective_radius_uniform_wear(5.50, 3.875), 3)
    4.688
    """
    _refuse_no_ring(outer_radius_m - inner_radius_m)
    return (outer_radius_m + inner_radius_m) / 2.0


@formula
def effective_radius_uniform_pressure(outer_radius_m: Number, inner_radius_m: Number) -> Number:
    """Effective radius of new pads that press evenly.

    [S:shigley, ch. 16]

    Parameters
    ----------
    outer_radius_m : float or array
        Outer radius of the rubbed ring. [m]
    inner_radius_m : float or array
        Inner radius of it. [m]

    Returns
    -------
    effective_radius_m : float or array
        Radius at which the friction may be thought to act. [m]

    Raises
    ------
    BadInput
        When the inner radius is not below the outer.

    Notes
    -----
    r_e = (2/3) (r_o^3 - r_i^3) / (r_o^2 - r_i^2), never less than that of even wear.
    Checked against: 5.50 and 3.875 in give 4.734 in, a textbook example (from memory, computed).

    Examples
    --------
    >>> round(effective_radius_uniform_pressure(5.50, 3.875), 3)
    4.734
    """
    _refuse_no_ring(outer_radius_m - inner_radius_m)
    both = outer_radius_m + inner_radius_m
    ring: Number = outer_radius_m**2 + outer_radius_m * inner_radius_m + inner_radius_m**2
    return (2.0 / 3.0) * ring / both


def _refuse_no_ring(width_m: Number) -> None:
    if lowest(width_m) <= 0.0:
        raise BadInput(
            "inner radius of the rubbed ring",
            "is not below the outer radius",
            "measure both on the disc where the pad has rubbed",
        )


@formula
def pad_clamp_uniform_wear(
    pad_pressure_pa: Number, pad_angle_rad: Number, outer_radius_m: Number, inner_radius_m: Number
) -> Number:
    """Clamp that brings a worn-in ring-shaped pad to a greatest pressure.

    [S:shigley, ch. 16]

    Parameters
    ----------
    pad_pressure_pa : float or array
        Greatest pressure on the lining, at its inner edge. [Pa]
    pad_angle_rad : float or array
        Angle that the pad spans about the hub. [rad]
    outer_radius_m : float or array
        Outer radius of the pad. [m]
    inner_radius_m : float or array
        Inner radius of the pad. [m]

    Returns
    -------
    clamp_force_n : float or array
        Force on each face. [N]

    Raises
    ------
    BadInput
        When the inner radius is not below the outer.

    Notes
    -----
    N = angle x p_a x r_i x (r_o - r_i).
    Checked against: 315.8 psi over 108 degrees, 5.50 and 3.875 in, is 3748 lbf, a textbook example
    (from memory, computed).

    Examples
    --------
    >>> import math
    >>> round(pad_clamp_uniform_wear(315.8, math.radians(108), 5.50, 3.875))
    3748
    """
    width = outer_radius_m - inner_radius_m
    _refuse_no_ring(width)
    return pad_angle_rad * pad_pressure_pa * inner_radius_m * width


@formula
def pad_clamp_uniform_pressure(
    pad_pressure_pa: Number, pad_angle_rad: Number, outer_radius_m: Number, inner_radius_m: Number
) -> Number:
    """Clamp that presses a new ring-shaped pad evenly.

    [S:shigley, ch. 16]

    Parameters
    ----------
    pad_pressure_pa : float or array
        Pressure on the lining. [Pa]
    pad_angle_rad : float or array
        Angle that the pad spans about the hub. [rad]
    outer_radius_m : float or array
        Outer radius of the pad. [m]
    inner_radius_m : float or array
        Inner radius of the pad. [m]

    Returns
    -------
    clamp_force_n : float or array
        Force on each face. [N]

    Raises
    ------
    BadInput
        When the inner radius is not below the outer.

    Notes
    -----
    N = angle x p x (r_o^2 - r_i^2) / 2: pressure times the area of the pad.
    Checked against: 258.4 psi over 108 degrees, 5.50 and 3.875 in, is 3711 lbf, a textbook example
    (from memory, computed).

    Examples
    --------
    >>> import math
    >>> round(pad_clamp_uniform_pressure(258.4, math.radians(108), 5.50, 3.875))
    3710
    """
    _refuse_no_ring(outer_radius_m - inner_radius_m)
    span: Number = outer_radius_m**2 - inner_radius_m**2
    return pad_angle_rad * pad_pressure_pa * span / 2.0


@formula
def disc_torque(clamp_force_n: Number, friction: Number, effective_radius_m: Number) -> Number:
    """Torque of a disc brake, both faces.

    [S:data-handbook, p. 88]

    Parameters
    ----------
    clamp_force_n : float or array
        Force on each face. [N]
    friction : float or array
        Friction of pad on disc. [-]
    effective_radius_m : float or array
        Radius at which it acts. [m]

    Returns
    -------
    torque_nm : float or array
        Torque on the wheel. [N.m]

    Notes
    -----
    T = 2 mu N r_e. Holds either way round. Friction falls with heat and speed and is only as good
    as its source; a band is more honest than a figure.
    Checked against: 3748 lbf, 0.37 and 4.688 in give 13,000 lbf in, a textbook example (from
    memory, computed).

    Examples
    --------
    >>> round(disc_torque(3748.0, 0.37, 4.6875), -1)
    13000.0
    """
    return 2.0 * friction * clamp_force_n * effective_radius_m


@formula
def disc_brake_factor(friction: Number) -> Number:
    """Brake factor of a disc: drag at the effective radius over clamp.

    [S:limpert, ch. 2]

    Parameters
    ----------
    friction : float or array
        Friction of pad on disc. [-]

    Returns
    -------
    brake_factor : float or array
        Drag over clamp. [-]

    Notes
    -----
    C* = 2 mu: in proportion to friction, which is why a disc fades gently and pulls little.
    Checked against: 0.8 at a friction of 0.4, the usual textbook figure (from memory).

    Examples
    --------
    >>> disc_brake_factor(0.4)
    0.8
    """
    return 2.0 * friction


@formula
def pressure_for_disc_torque(
    torque_nm: Number,
    friction: Number,
    effective_radius_m: Number,
    piston_area_m2: Number,
    push_out_pressure_pa: Number,
    caliper_efficiency: Number,
) -> Number:
    """Pressure that a disc brake needs for a wanted torque.

    [S:data-handbook, p. 88]

    Parameters
    ----------
    torque_nm : float or array
        Wanted torque. [N.m]
    friction : float or array
        Friction of pad on disc, above zero here. [-]
    effective_radius_m : float or array
        Radius at which it acts. [m]
    piston_area_m2 : float or array
        Area of one side's pistons, or of all those of a sliding caliper. [m2]
    push_out_pressure_pa : float or array
        Pressure that only rolls the seals. [Pa]
    caliper_efficiency : float or array
        Share that seals and slides let through. [-]

    Returns
    -------
    pressure_pa : float or array
        Pressure at the caliper. [Pa]

    Raises
    ------
    BadInput
        When the friction is zero: no pressure would do.

    Notes
    -----
    `disc_torque` and `clamp_force` turned about.
    Checked against: 13,000 lbf in asks 2121 psi of a cylinder of 1.5 in, a textbook example (from
    memory, computed).

    Examples
    --------
    >>> import math
    >>> area = math.pi * 1.5**2 / 4
    >>> round(pressure_for_disc_torque(13000.0, 0.37, 4.6875, area, 0.0, 1.0))
    2121
    """
    if lowest(friction) <= 0.0:
        raise BadInput("friction", "0 gives no torque at any pressure", "give it above zero")
    clamp = torque_nm / (2.0 * friction * effective_radius_m)
    return clamp / (caliper_efficiency * piston_area_m2) + push_out_pressure_pa
