"""Master cylinders of one circuit: pressure for a push, and fluid for a stroke.

Single cylinders, and twins behind a balance bar. Tandem cylinders are in `bareshell.calc.tandem`.
"""

from __future__ import annotations

import math
from typing import Generic, NamedTuple

from bareshell.calc.formula import formula
from bareshell.calc.pedal import balance_bar_forces
from bareshell.calc.values import Number, most, shaped

__all__ = [
    "TwinPressures",
    "bore_area",
    "bore_of_area",
    "line_pressure",
    "push_rod_force_for_pressure",
    "stroke_for_volume",
    "stroke_volume",
    "twin_pressures",
]


class TwinPressures(NamedTuple, Generic[Number]):
    """Pressures of two cylinders behind one balance bar, in pascals."""

    front_pa: Number
    rear_pa: Number


@formula
def bore_area(bore_m: Number) -> Number:
    """Area of a round bore or piston.

    [S:first-principles, geometry]

    Parameters
    ----------
    bore_m : float or array
        Diameter of the bore. [m]

    Returns
    -------
    area_m2 : float or array
        Area. [m2]

    Notes
    -----
    A = pi d^2 / 4. A bore in sixteenths of an inch is easily read wrong by one: 3/4 and 13/16 in
    differ by a sixth in area.
    Checked against: geometry (computed).

    Examples
    --------
    >>> round(bore_area(0.01905) * 1e6, 2)
    285.02
    """
    area: Number = math.pi * bore_m**2 / 4.0
    return area


@formula
def bore_of_area(area_m2: Number) -> Number:
    """Bore of a round piston of known area.

    [S:first-principles, geometry]

    Parameters
    ----------
    area_m2 : float or array
        Area of the piston. [m2]

    Returns
    -------
    bore_m : float or array
        Diameter. [m]

    Notes
    -----
    d = sqrt(4 A / pi).
    Checked against: `bore_area`, there and back (computed).

    Examples
    --------
    >>> round(bore_of_area(285.02e-6) * 1e3, 2)
    19.05
    """
    return shaped("sqrt", 4.0 * area_m2 / math.pi)


@formula
def line_pressure(
    push_rod_force_n: Number,
    bore_m: Number,
    return_spring_n: Number,
    seal_friction_n: Number,
    cylinder_efficiency: Number,
) -> Number:
    """Pressure that a push rod makes in a single cylinder.

    [S:limpert, ch. 5]

    Parameters
    ----------
    push_rod_force_n : float or array
        Force on the piston. [N]
    bore_m : float or array
        Bore of the cylinder. [m]
    return_spring_n : float or array
        Force of the cylinder's return spring. [N]
    seal_friction_n : float or array
        Force that the seals swallow. [N]
    cylinder_efficiency : float or array
        Share of the rest that reaches the fluid. [-]

    Returns
    -------
    pressure_pa : float or array
        Pressure above that of the atmosphere. [Pa]

    Notes
    -----
    p = (efficiency x (F - friction) - spring) / A, never below zero. Holds once the port is closed
    and the slack is taken up.
    Checked against: 75 lbf at 5 to 1 on 5/8 in gives 1221 psi and on 0.70 in 974 psi, a published
    owner's sum (read; exactly 1222.3 and 974.4); 2500 N on 500 mm2 gives 5.0 MPa (inputs read).

    Examples
    --------
    >>> round(line_pressure(75 * 4.4482216 * 5, 0.625 * 0.0254, 0.0, 0.0, 1.0) / 6894.757, 1)
    1222.3
    """
    push = cylinder_efficiency * (push_rod_force_n - seal_friction_n)
    return most(push - return_spring_n, 0.0) / bore_area(bore_m)


@formula
def push_rod_force_for_pressure(
    pressure_pa: Number,
    bore_m: Number,
    return_spring_n: Number,
    seal_friction_n: Number,
    cylinder_efficiency: Number,
) -> Number:
    """Force on a single cylinder's piston for a wanted pressure.

    [S:limpert, ch. 5]

    Parameters
    ----------
    pressure_pa : float or array
        Wanted pressure. [Pa]
    bore_m : float or array
        Bore of the cylinder. [m]
    return_spring_n : float or array
        Force of the cylinder's return spring. [N]
    seal_friction_n : float or array
        Force that the seals swallow. [N]
    cylinder_efficiency : float or array
        Share of the rest that reaches the fluid. [-]

    Returns
    -------
    push_rod_force_n : float or array
        Force on the piston. [N]

    Notes
    -----
    `line_pressure` turned about.
    Checked against: `line_pressure`, there and back (computed).

    Examples
    --------
    >>> round(push_rod_force_for_pressure(5e6, 0.02523, 0.0, 0.0, 1.0), 0)
    2500.0
    """
    pushing = pressure_pa * bore_area(bore_m) + return_spring_n
    return pushing / cylinder_efficiency + seal_friction_n


@formula
def twin_pressures(
    push_rod_force_n: Number,
    bar_front_share: Number,
    front_bore_m: Number,
    rear_bore_m: Number,
    return_spring_n: Number,
    seal_friction_n: Number,
    cylinder_efficiency: Number,
) -> TwinPressures[Number]:
    """Pressures of two cylinders behind one balance bar.

    [S:first-principles, statics]

    Parameters
    ----------
    push_rod_force_n : float or array
        Force of the pedal on the bar. [N]
    bar_front_share : float or array
        Share of it that goes to the front cylinder. [-]
    front_bore_m : float or array
        Bore of the front cylinder. [m]
    rear_bore_m : float or array
        Bore of the rear cylinder. [m]
    return_spring_n : float or array
        Force of the return spring in each. [N]
    seal_friction_n : float or array
        Force that the seals of each swallow. [N]
    cylinder_efficiency : float or array
        Share of the rest that reaches the fluid. [-]

    Returns
    -------
    front_pa : float or array
        Pressure of the front circuit. [Pa]
    rear_pa : float or array
        Pressure of the rear circuit. [Pa]

    Notes
    -----
    The bar's forces, then `line_pressure` for each. When one circuit is lost the bar tilts until
    it touches; until then the other keeps only its share of the push.
    Checked against: 75 lbf at 5 to 1 shared evenly on two 5/8 in bores gives half of 1222 psi in
    each, a correction posted beneath a published sum (read).

    Examples
    --------
    >>> both = twin_pressures(2000.0, 0.6, 0.01905, 0.01778, 0.0, 0.0, 1.0)
    >>> [round(pressure / 1e6, 3) for pressure in both]
    [4.210, 3.222]
    """
    forces = balance_bar_forces(push_rod_force_n, bar_front_share)
    front = line_pressure(
        forces.front_n, front_bore_m, return_spring_n, seal_friction_n, cylinder_efficiency
    )
    rear = line_pressure(
        forces.rear_n, rear_bore_m, return_spring_n, seal_friction_n, cylinder_efficiency
    )
    return TwinPressures(front, rear)


@formula
def stroke_volume(stroke_m: Number, bore_m: Number) -> Number:
    """Fluid that a piston displaces in a stroke.

    [S:first-principles, geometry]

    Parameters
    ----------
    stroke_m : float or array
        How far the piston moves. [m]
    bore_m : float or array
        Its bore. [m]

    Returns
    -------
    volume_m3 : float or array
        Fluid displaced. [m3]

    Notes
    -----
    V = A x. The stroke up to the closing of the port gives no fluid to the wheels.
    Checked against: geometry (computed).

    Examples
    --------
    >>> round(stroke_volume(0.03, 0.01905) * 1e6, 2)
    8.55
    """
    return stroke_m * bore_area(bore_m)


@formula
def stroke_for_volume(volume_m3: Number, bore_m: Number) -> Number:
    """Stroke that a piston needs to displace some fluid.

    [S:first-principles, geometry]

    Parameters
    ----------
    volume_m3 : float or array
        Fluid wanted. [m3]
    bore_m : float or array
        Bore of the piston. [m]

    Returns
    -------
    stroke_m : float or array
        How far it moves. [m]

    Notes
    -----
    x = V / A.
    Checked against: `stroke_volume`, there and back (computed).

    Examples
    --------
    >>> round(stroke_for_volume(8.55e-6, 0.01905) * 1e3, 1)
    30.0
    """
    return volume_m3 / bore_area(bore_m)
