"""Tandem master cylinders, with bores alike or stepped.

The floating piston is in balance between its two chambers and their springs, which is why the two
circuits never hold exactly the same pressure, and why one lost circuit costs the pedal a stroke
before the other works.
"""

from __future__ import annotations

from typing import Generic, NamedTuple

from bareshell.calc.formula import formula
from bareshell.calc.master import bore_area
from bareshell.calc.values import Number, least, most

__all__ = [
    "TandemPressures",
    "TandemStrokes",
    "TandemVolumes",
    "tandem_floating_circuit_lost",
    "tandem_pressures",
    "tandem_primary_circuit_lost",
    "tandem_strokes",
    "tandem_volumes",
]


class TandemPressures(NamedTuple, Generic[Number]):
    """Pressures of a tandem cylinder's two circuits, in pascals."""

    primary_pa: Number
    floating_pa: Number


class TandemStrokes(NamedTuple, Generic[Number]):
    """How far the two pistons of a tandem cylinder have moved, in metres."""

    primary_m: Number
    floating_m: Number


class TandemVolumes(NamedTuple, Generic[Number]):
    """Fluid that a tandem cylinder has given each of its circuits, in cubic metres."""

    primary_m3: Number
    floating_m3: Number


@formula
def tandem_pressures(
    push_rod_force_n: Number,
    primary_bore_m: Number,
    floating_rear_bore_m: Number,
    floating_front_bore_m: Number,
    primary_spring_n: Number,
    floating_spring_n: Number,
    seal_friction_n: Number,
    cylinder_efficiency: Number,
) -> TandemPressures[Number]:
    """Pressures of both circuits of a tandem cylinder, by balance of its floating piston.

    Bores alike: give the same three times. A stepped cylinder has a smaller bore ahead, and the
    floating piston's two faces are then usually alike. [S:first-principles, statics]

    Parameters
    ----------
    push_rod_force_n : float or array
        Force on the primary piston. [N]
    primary_bore_m : float or array
        Bore in which the primary piston seals. [m]
    floating_rear_bore_m : float or array
        Bore of the floating piston's face towards the primary chamber. [m]
    floating_front_bore_m : float or array
        Bore of its face towards its own chamber. [m]
    primary_spring_n : float or array
        Force of the caged spring between the two pistons. [N]
    floating_spring_n : float or array
        Force of the spring ahead of the floating piston. [N]
    seal_friction_n : float or array
        Force that each piston's seals swallow. [N]
    cylinder_efficiency : float or array
        Share of the push that reaches the fluid. [-]

    Returns
    -------
    primary_pa : float or array
        Pressure of the circuit next to the push rod. [Pa]
    floating_pa : float or array
        Pressure of the circuit ahead of the floating piston. [Pa]

    Notes
    -----
    With F = efficiency x (push - friction): p1 = (F - S1) / A1 and
    p2 = (p1 A2r + min(F, S1) - S2 - friction) / A2f, neither below zero. While the caged spring has
    not yielded it carries the push itself. Pistons are taken to be between their stops.
    Checked against: equilibrium of each piston; with bores alike and no springs both are
    F / A (computed).

    Examples
    --------
    >>> both = tandem_pressures(2500.0, 0.02, 0.02, 0.02, 60.0, 40.0, 0.0, 1.0)
    >>> [round(pressure / 1e6, 3) for pressure in both]
    [7.767, 7.830]
    """
    push = cylinder_efficiency * most(push_rod_force_n - seal_friction_n, 0.0)
    primary = most(push - primary_spring_n, 0.0) / bore_area(primary_bore_m)
    behind = primary * bore_area(floating_rear_bore_m) + least(push, primary_spring_n)
    ahead = most(behind - floating_spring_n - seal_friction_n, 0.0)
    return TandemPressures(primary, ahead / bore_area(floating_front_bore_m))


@formula
def tandem_primary_circuit_lost(
    push_rod_force_n: Number,
    floating_front_bore_m: Number,
    floating_spring_n: Number,
    seal_friction_n: Number,
    cylinder_efficiency: Number,
) -> Number:
    """Pressure left ahead of the floating piston when the primary circuit is open.

    The primary piston runs through its gap until it pushes the floating piston by touch: that
    stroke is lost to the pedal. [S:first-principles, statics]

    Parameters
    ----------
    push_rod_force_n : float or array
        Force on the primary piston. [N]
    floating_front_bore_m : float or array
        Bore of the floating piston's forward face. [m]
    floating_spring_n : float or array
        Force of the spring ahead of it. [N]
    seal_friction_n : float or array
        Force that each piston's seals swallow. [N]
    cylinder_efficiency : float or array
        Share of the push that reaches the fluid. [-]

    Returns
    -------
    floating_pa : float or array
        Pressure of the circuit that is left. [Pa]

    Notes
    -----
    p2 = (efficiency x (push - friction) - S2 - friction) / A2f, never below zero.
    Checked against: equilibrium of the two pistons as one (computed).

    Examples
    --------
    >>> round(tandem_primary_circuit_lost(2500.0, 0.02, 40.0, 0.0, 1.0) / 1e6, 3)
    7.830
    """
    push = cylinder_efficiency * most(push_rod_force_n - seal_friction_n, 0.0)
    left = most(push - floating_spring_n - seal_friction_n, 0.0)
    return left / bore_area(floating_front_bore_m)


@formula
def tandem_floating_circuit_lost(
    push_rod_force_n: Number,
    primary_bore_m: Number,
    primary_spring_n: Number,
    seal_friction_n: Number,
    cylinder_efficiency: Number,
) -> Number:
    """Pressure left in the primary circuit when the one ahead of the floating piston is open.

    The floating piston runs to the end of its bore first: that stroke is lost to the pedal.
    [S:first-principles, statics]

    Parameters
    ----------
    push_rod_force_n : float or array
        Force on the primary piston. [N]
    primary_bore_m : float or array
        Bore in which the primary piston seals. [m]
    primary_spring_n : float or array
        Force of the spring between the pistons. [N]
    seal_friction_n : float or array
        Force that the primary piston's seals swallow. [N]
    cylinder_efficiency : float or array
        Share of the push that reaches the fluid. [-]

    Returns
    -------
    primary_pa : float or array
        Pressure of the circuit that is left. [Pa]

    Notes
    -----
    p1 = (efficiency x (push - friction) - S1) / A1, never below zero.
    Checked against: `tandem_pressures`, whose primary circuit it equals (computed).

    Examples
    --------
    >>> round(tandem_floating_circuit_lost(2500.0, 0.02, 60.0, 0.0, 1.0) / 1e6, 3)
    7.767
    """
    push = cylinder_efficiency * most(push_rod_force_n - seal_friction_n, 0.0)
    return most(push - primary_spring_n, 0.0) / bore_area(primary_bore_m)


@formula
def tandem_volumes(
    primary_stroke_m: Number,
    floating_stroke_m: Number,
    primary_bore_m: Number,
    floating_rear_bore_m: Number,
    floating_front_bore_m: Number,
) -> TandemVolumes[Number]:
    """Fluid that both circuits of a tandem cylinder get from its strokes.

    [S:first-principles, geometry]

    Parameters
    ----------
    primary_stroke_m : float or array
        How far the primary piston has moved. [m]
    floating_stroke_m : float or array
        How far the floating piston has moved. [m]
    primary_bore_m : float or array
        Bore in which the primary piston seals. [m]
    floating_rear_bore_m : float or array
        Bore of the floating piston's rear face. [m]
    floating_front_bore_m : float or array
        Bore of its forward face. [m]

    Returns
    -------
    primary_m3 : float or array
        Fluid given to the primary circuit. [m3]
    floating_m3 : float or array
        Fluid given to the other. [m3]

    Notes
    -----
    V1 = A1 x1 - A2r x2, since the floating piston makes room as it goes; V2 = A2f x2. With bores
    alike the two add up to A x1. A negative V1 would mean that the pistons have come apart.
    Checked against: geometry (computed).

    Examples
    --------
    >>> both = tandem_volumes(0.02, 0.008, 0.02, 0.02, 0.02)
    >>> [round(volume * 1e6, 3) for volume in both]
    [3.770, 2.513]
    """
    given = bore_area(primary_bore_m) * primary_stroke_m
    taken = bore_area(floating_rear_bore_m) * floating_stroke_m
    return TandemVolumes(given - taken, bore_area(floating_front_bore_m) * floating_stroke_m)


@formula
def tandem_strokes(
    primary_volume_m3: Number,
    floating_volume_m3: Number,
    primary_bore_m: Number,
    floating_rear_bore_m: Number,
    floating_front_bore_m: Number,
) -> TandemStrokes[Number]:
    """Strokes of a tandem cylinder's pistons for the fluid that both circuits take.

    [S:first-principles, geometry]

    Parameters
    ----------
    primary_volume_m3 : float or array
        Fluid that the primary circuit takes. [m3]
    floating_volume_m3 : float or array
        Fluid that the other takes. [m3]
    primary_bore_m : float or array
        Bore in which the primary piston seals. [m]
    floating_rear_bore_m : float or array
        Bore of the floating piston's rear face. [m]
    floating_front_bore_m : float or array
        Bore of its forward face. [m]

    Returns
    -------
    primary_m : float or array
        Stroke of the primary piston, which is that of the push rod. [m]
    floating_m : float or array
        Stroke of the floating piston. [m]

    Notes
    -----
    x2 = V2 / A2f and x1 = (V1 + A2r x2) / A1. Leaves out the strokes that close the ports.
    Checked against: `tandem_volumes`, there and back (computed).

    Examples
    --------
    >>> both = tandem_strokes(3.770e-6, 2.513e-6, 0.02, 0.02, 0.02)
    >>> [round(stroke * 1e3, 2) for stroke in both]
    [20.0, 8.0]
    """
    floating = floating_volume_m3 / bore_area(floating_front_bore_m)
    room = bore_area(floating_rear_bore_m) * floating
    return TandemStrokes((primary_volume_m3 + room) / bore_area(primary_bore_m), floating)
