"""Where the fluid goes as the pedal sinks: clearance, squash, flex, pipe and fluid.

Each piece is one function, so that a long pedal can be taken apart; hoses and trapped air have
modules of their own, `bareshell.calc.hose` and `bareshell.calc.air`. A volume is fluid that the
master cylinder must give; `bareshell.calc.master.stroke_for_volume` turns it into stroke, and the
pedal ratio into travel.
"""

from __future__ import annotations

import math

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, lowest
from bareshell.errors import BadInput

__all__ = [
    "flex_volume",
    "fluid_compression_volume",
    "pad_clearance_volume",
    "pad_squash_volume",
    "pipe_expansion_volume",
    "pipe_fill_volume",
    "piston_volume",
    "shoe_clearance_volume",
    "shoe_tip_travel",
    "stroke_reserve",
]


@formula
def piston_volume(piston_area_m2: Number, piston_travel_m: Number) -> Number:
    """Fluid that a piston takes in as it moves.

    [S:first-principles, geometry]

    Parameters
    ----------
    piston_area_m2 : float or array
        Area of the piston. [m2]
    piston_travel_m : float or array
        How far it moves. [m]

    Returns
    -------
    volume_m3 : float or array
        Fluid taken. [m3]

    Notes
    -----
    V = A x.
    Checked against: geometry (computed).

    Examples
    --------
    >>> round(piston_volume(18.1e-4, 0.3e-3) * 1e6, 3)
    0.543
    """
    return piston_area_m2 * piston_travel_m


@formula
def pad_clearance_volume(piston_area_m2: Number, pad_clearance_m: Number) -> Number:
    """Fluid that brings both pads of a disc brake to touch.

    [S:limpert, ch. 5]

    Parameters
    ----------
    piston_area_m2 : float or array
        Area of one side's pistons, or of all those of a sliding caliper. [m2]
    pad_clearance_m : float or array
        Clearance at each pad, seal roll-back and the disc's run-out in it. [m]

    Returns
    -------
    volume_m3 : float or array
        Fluid taken. [m3]

    Notes
    -----
    V = 2 A c: a fixed caliper's two sides move c each, a sliding one's pistons move 2 c. Loose
    wheel bearings knock pads back and add to it.
    Checked against: both layouts counted piston by piston (computed).

    Examples
    --------
    >>> round(pad_clearance_volume(18.1e-4, 0.15e-3) * 1e6, 3)
    0.543
    """
    return 2.0 * piston_area_m2 * pad_clearance_m


@formula
def pad_squash_volume(
    pressure_pa: Number, piston_area_m2: Number, pad_stiffness_n_m: Number
) -> Number:
    """Fluid that follows the pads of a disc brake as they are squashed.

    [S:limpert, ch. 5]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure at the caliper. [Pa]
    piston_area_m2 : float or array
        Area of one side's pistons, or of all those of a sliding caliper. [m2]
    pad_stiffness_n_m : float or array
        Clamp over squash of one pad with its shim. [N/m]

    Returns
    -------
    volume_m3 : float or array
        Fluid taken. [m3]

    Notes
    -----
    V = 2 A (p A / k). Pads are softer at first touch and when new or tapered; a straight line is
    the mean over a firm push.
    Checked against: work of a spring (computed).

    Examples
    --------
    >>> round(pad_squash_volume(7e6, 18.1e-4, 1.5e8) * 1e6, 3)
    0.306
    """
    squash: Number = pressure_pa * piston_area_m2**2 / pad_stiffness_n_m
    return 2.0 * squash


@formula
def shoe_tip_travel(
    shoe_clearance_m: Number, actuation_arm_m: Number, clearance_arm_m: Number
) -> Number:
    """Travel of a shoe's tip that takes up the clearance at its lining.

    [S:first-principles, levers]

    Parameters
    ----------
    shoe_clearance_m : float or array
        Clearance between lining and drum, where it is measured. [m]
    actuation_arm_m : float or array
        From the shoe's pivot to the line of the cylinder. [m]
    clearance_arm_m : float or array
        From the pivot to the line along which the clearance was measured. [m]

    Returns
    -------
    piston_travel_m : float or array
        Travel of the wheel cylinder's piston. [m]

    Notes
    -----
    x = c a / a_c: the shoe swings as a lever.
    Checked against: geometry (computed).

    Examples
    --------
    >>> shoe_tip_travel(0.25e-3, 0.20, 0.10)
    0.0005
    """
    return shoe_clearance_m * actuation_arm_m / clearance_arm_m


@formula
def shoe_clearance_volume(cylinder_area_m2: Number, piston_travel_m: Number) -> Number:
    """Fluid that brings both shoes of a drum to touch.

    [S:limpert, ch. 5]

    Parameters
    ----------
    cylinder_area_m2 : float or array
        Area of one piston of the wheel cylinder, or of each single-ended cylinder. [m2]
    piston_travel_m : float or array
        Travel of each of the two pistons. [m]

    Returns
    -------
    volume_m3 : float or array
        Fluid taken. [m3]

    Notes
    -----
    V = 2 A x. A drum that is out of adjustment is the commonest cause of a long pedal.
    Checked against: geometry (computed).

    Examples
    --------
    >>> round(shoe_clearance_volume(2.85e-4, 0.8e-3) * 1e6, 3)
    0.456
    """
    return 2.0 * cylinder_area_m2 * piston_travel_m


@formula
def flex_volume(pressure_pa: Number, compliance_m3_pa: Number) -> Number:
    """Fluid taken by parts that give in proportion: calipers, cylinders, seals, drums and shoes.

    [S:limpert, ch. 5]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure in the part. [Pa]
    compliance_m3_pa : float or array
        Fluid taken for each pascal. [m3/Pa]

    Returns
    -------
    volume_m3 : float or array
        Fluid taken. [m3]

    Notes
    -----
    V = C p. No published compliance was read: measure it, or take a range and say so.
    Checked against: its own straight line (computed).

    Examples
    --------
    >>> round(flex_volume(7e6, 3e-14) * 1e6, 3)
    0.210
    """
    return pressure_pa * compliance_m3_pa


@formula
def pipe_fill_volume(pipe_outer_m: Number, pipe_wall_m: Number, pipe_length_m: Number) -> Number:
    """Fluid that stands in a pipe.

    [S:first-principles, geometry]

    Parameters
    ----------
    pipe_outer_m : float or array
        Outer diameter. [m]
    pipe_wall_m : float or array
        Thickness of the wall. [m]
    pipe_length_m : float or array
        Length. [m]

    Returns
    -------
    volume_m3 : float or array
        Fluid inside. [m3]

    Raises
    ------
    BadInput
        When the wall leaves no bore.

    Notes
    -----
    V = pi (D - 2 t)^2 l / 4. A hose is reckoned by its bore: outer = bore, wall = 0.
    Checked against: 3/16 in pipe with a wall of 0.028 in holds 8.8 cc a metre (dimensions from
    memory [S:sae-j527], computed).

    Examples
    --------
    >>> round(pipe_fill_volume(4.76e-3, 0.71e-3, 1.0) * 1e6, 1)
    8.8
    """
    bore = _pipe_bore(pipe_outer_m, pipe_wall_m)
    volume: Number = math.pi * bore**2 * pipe_length_m / 4.0
    return volume


def _pipe_bore(pipe_outer_m: Number, pipe_wall_m: Number) -> Number:
    bore = pipe_outer_m - 2.0 * pipe_wall_m
    if lowest(bore) <= 0.0:
        raise BadInput(
            "wall of the pipe",
            "leaves no bore in a pipe of that diameter",
            "give the outer diameter and the thickness of one wall",
        )
    return bore


@formula
def pipe_expansion_volume(
    pressure_pa: Number,
    pipe_outer_m: Number,
    pipe_wall_m: Number,
    pipe_length_m: Number,
    youngs_modulus_pa: Number,
    poisson_ratio: Number,
) -> Number:
    """Fluid that a pipe takes as its metal stretches.

    [S:roark, thick cylinders]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure in the pipe. [Pa]
    pipe_outer_m : float or array
        Outer diameter. [m]
    pipe_wall_m : float or array
        Thickness of the wall. [m]
    pipe_length_m : float or array
        Length. [m]
    youngs_modulus_pa : float or array
        Of the metal: about 205 GPa for steel, 135 GPa for copper-nickel. [Pa]
    poisson_ratio : float or array
        Of the metal: about 0.3. [-]

    Returns
    -------
    volume_m3 : float or array
        Fluid taken. [m3]

    Raises
    ------
    BadInput
        When the wall leaves no bore, or is nothing.

    Notes
    -----
    Thick cylinder with closed ends. With w = (D / d)^2, q = 1 / (w - 1) and k = (w + 1) q, the
    bore widens by e_r = (p / E) (k + nu - nu q) and the pipe lengthens by
    e_l = (p / E) (q - nu (k - 1)); dV / V = 2 e_r + e_l. It is tiny: a pipe is not where a soft
    pedal comes from.
    Checked against: the thin-walled limit p d (5/4 - nu) / (t E) and the strains of the Lame
    solution (computed).

    Examples
    --------
    >>> taken = pipe_expansion_volume(7e6, 4.76e-3, 0.71e-3, 4.0, 205e9, 0.3)
    >>> round(taken * 1e6, 4)
    0.0075
    """
    if lowest(pipe_wall_m) <= 0.0:
        raise BadInput("wall of the pipe", "is nothing", "give the thickness of one wall")
    bore = _pipe_bore(pipe_outer_m, pipe_wall_m)
    squared: Number = (pipe_outer_m / bore) ** 2
    axial = 1.0 / (squared - 1.0)
    hoop = (squared + 1.0) * axial
    # Lame: hoop k p, radial -p, along p / (w - 1); strain of the bore twice, and of the length.
    around = hoop + poisson_ratio - poisson_ratio * axial
    along = axial - poisson_ratio * (hoop - 1.0)
    strain = pressure_pa / youngs_modulus_pa * (2.0 * around + along)
    volume: Number = math.pi * bore**2 * pipe_length_m / 4.0
    return volume * strain


@formula
def fluid_compression_volume(
    pressure_pa: Number, fluid_volume_m3: Number, bulk_modulus_pa: Number
) -> Number:
    """Fluid taken by the squeezing of the fluid itself.

    [S:merritt, ch. 2]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure. [Pa]
    fluid_volume_m3 : float or array
        Fluid under pressure. [m3]
    bulk_modulus_pa : float or array
        Stiffness of the fluid without air. [Pa]

    Returns
    -------
    volume_m3 : float or array
        Fluid taken. [m3]

    Notes
    -----
    V p / K. Brake pressures are small beside K, so the straight line is enough. Hot fluid, and
    silicone fluid, is softer.
    Checked against: the definition of the bulk modulus (computed).

    Examples
    --------
    >>> round(fluid_compression_volume(7e6, 2e-4, 1.8e9) * 1e6, 3)
    0.778
    """
    return pressure_pa * fluid_volume_m3 / bulk_modulus_pa


@formula
def stroke_reserve(stroke_m: Number, available_stroke_m: Number) -> Number:
    """Share of the stroke that is left.

    [S:first-principles, geometry]

    Parameters
    ----------
    stroke_m : float or array
        Stroke used. [m]
    available_stroke_m : float or array
        Stroke until a piston bottoms or the pedal meets the floor, whichever comes first. [m]

    Returns
    -------
    reserve : float or array
        1 with nothing used, 0 when it is all used, below zero when it does not suffice. [-]

    Notes
    -----
    1 - x / X.
    Checked against: its ends (computed).

    Examples
    --------
    >>> stroke_reserve(0.015, 0.030)
    0.5
    """
    return 1.0 - stroke_m / available_stroke_m
