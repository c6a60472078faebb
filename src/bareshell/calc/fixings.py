"""Bolts and pins: pull, torque and clamp, shear, bearing, and bending across a gap.

Sums for a plain joint with a known load. They do not see wear, corrosion, a hammered hole, or the
many small loads that tire a part: a pin that the sum allows may still be the wrong pin.
"""

from __future__ import annotations

import math

from bareshell.calc.formula import formula
from bareshell.calc.values import Number

__all__ = [
    "bar_bending_stress",
    "bearing_stress",
    "clamp_force",
    "fork_pin_moment",
    "overhung_pin_moment",
    "pin_shear_stress",
    "proof_load",
    "slip_force",
    "stripping_force",
    "tightening_torque",
]


@formula
def proof_load(stress_area_m2: Number, proof_stress_pa: Number) -> Number:
    """Pull that a bolt bears with no lasting stretch.

    [S:iso-898-1, tables 5 and 7]

    Parameters
    ----------
    stress_area_m2 : float or array
        Stress area of the thread. [m2]
    proof_stress_pa : float or array
        Proof stress of its grade. [Pa]

    Returns
    -------
    proof_load_n : float or array
        Proof load. [N]

    Notes
    -----
    F = As Sp.
    Checked against: a published table of the standard, M5 to M24 in classes 4.6 to 12.9 (read).

    Examples
    --------
    >>> round(proof_load(58.0e-6, 580e6))
    33640
    """
    return stress_area_m2 * proof_stress_pa


@formula
def tightening_torque(nut_factor: Number, diameter_m: Number, preload_n: Number) -> Number:
    """Torque that a wrench must show for a clamp.

    [S:torque-tkdf]

    Parameters
    ----------
    nut_factor : float or array
        0.20 plain and dry, 0.17 zinc and dry, 0.15 oiled. [-]
    diameter_m : float or array
        Outside diameter of the thread. [m]
    preload_n : float or array
        Pull wanted in the bolt. [N]

    Returns
    -------
    torque_nm : float or array
        Torque at the wrench. [N.m]

    Notes
    -----
    T = K D F. The factor swallows all friction; the clamp behind one torque scatters by a quarter
    to a third either way. The vehicle's own figure always comes first.
    Checked against: makers' tables of grade 5 and 8, to the pound-foot (read); a maker's table of
    grade 2 (read).

    Examples
    --------
    >>> round(tightening_torque(0.20, 0.010, 0.75 * 33700.0), 1)
    50.6
    """
    return nut_factor * diameter_m * preload_n


@formula
def clamp_force(torque_nm: Number, nut_factor: Number, diameter_m: Number) -> Number:
    """Clamp that a torque gives.

    [S:torque-tkdf]

    Parameters
    ----------
    torque_nm : float or array
        Torque at the wrench. [N.m]
    nut_factor : float or array
        0.20 plain and dry, 0.17 zinc and dry, 0.15 oiled. [-]
    diameter_m : float or array
        Outside diameter of the thread. [m]

    Returns
    -------
    preload_n : float or array
        Pull in the bolt. [N]

    Raises
    ------
    BadInput
        When the factor is nothing.

    Notes
    -----
    F = T / (K D). Oil on a thread that was meant dry adds a third to the clamp at one torque.
    Checked against: the inverse of `tightening_torque` (computed).

    Examples
    --------
    >>> round(clamp_force(50.0, 0.20, 0.010)), round(clamp_force(50.0, 0.15, 0.010))
    (25000, 33333)
    """
    return torque_nm / (nut_factor * diameter_m)


@formula
def slip_force(preload_n: Number, joint_friction: Number, rubbing_faces: Number) -> Number:
    """Load across a clamped joint at which it slips and the bolt begins to bear.

    [S:first-principles, friction]

    Parameters
    ----------
    preload_n : float or array
        Pull in the bolt. [N]
    joint_friction : float or array
        Between the faces; 0.15 oily, 0.2 clean and dry. [-]
    rubbing_faces : float or array
        Faces that must slide together. [-]

    Returns
    -------
    slip_n : float or array
        For one bolt. [N]

    Notes
    -----
    F = n mu F. A pin clamps nothing: put a pin where a bolt clamped, and this is lost whole.
    Checked against: friction (computed).

    Examples
    --------
    >>> slip_force(25000.0, 0.2, 1.0)
    5000.0
    """
    return rubbing_faces * joint_friction * preload_n


@formula
def pin_shear_stress(across_n: Number, pin_diameter_m: Number, shear_planes: Number) -> Number:
    """Shear stress in a pin or bolt, taken evenly over its section.

    [S:pin-double-shear]

    Parameters
    ----------
    across_n : float or array
        Load across the fixing. [N]
    pin_diameter_m : float or array
        Where it is cut: the shank, or the root of the thread. [m]
    shear_planes : float or array
        1 for single, 2 for double shear. [-]

    Returns
    -------
    shear_stress_pa : float or array
        Shear stress. [Pa]

    Notes
    -----
    tau = 4 F / (n pi d^2). Where threads lie in the plane the root counts, not the outside.
    Checked against: 10 kN on 18 mm in double shear gives 19.65 MPa, a published worked example
    (read); 6 kN on 8 mm gives 119 and 60 MPa.

    Examples
    --------
    >>> (
    ...     round(pin_shear_stress(6000.0, 0.008, 1.0) / 1e6),
    ...     round(pin_shear_stress(6000.0, 0.008, 2.0) / 1e6),
    ... )
    (119, 60)
    """
    return 4.0 * across_n / (shear_planes * math.pi * pin_diameter_m * pin_diameter_m)


@formula
def bearing_stress(across_n: Number, pin_diameter_m: Number, ply_m: Number) -> Number:
    """Pressure of a pin on the wall of its hole.

    [S:pin-double-shear]

    Parameters
    ----------
    across_n : float or array
        Load that this ply takes. [N]
    pin_diameter_m : float or array
        Diameter of the pin. [m]
    ply_m : float or array
        Thickness of the ply. [m]

    Returns
    -------
    bearing_stress_pa : float or array
        Load over projected area. [Pa]

    Notes
    -----
    p = F / (d t). On the tips of a thread the true area is a fraction of it: they cut the hole.
    Checked against: 10 kN on 18 mm in an eye of 10 mm gives 55.56 MPa, a published worked example
    (read).

    Examples
    --------
    >>> round(bearing_stress(10000.0, 0.018, 0.010) / 1e6, 2)
    55.56
    """
    return across_n / (pin_diameter_m * ply_m)


@formula
def fork_pin_moment(
    across_n: Number, fork_ply_m: Number, eye_ply_m: Number, side_gap_m: Number
) -> Number:
    """Greatest bending moment in a pin through a fork and an eye.

    [S:afml-stress-manual, 9.5]

    Parameters
    ----------
    across_n : float or array
        Load of the eye. [N]
    fork_ply_m : float or array
        Thickness of each side of the fork. [m]
    eye_ply_m : float or array
        Thickness of the eye. [m]
    side_gap_m : float or array
        Gap between eye and fork on each side. [m]

    Returns
    -------
    moment_nm : float or array
        In the middle of the eye. [N.m]

    Notes
    -----
    M = F/2 (t_fork/2 + t_eye/4 + gap), each ply loading the pin evenly. A stiff pin in worn holes
    loads the edges instead, and bends less.
    Checked against: with a thin eye it is the beam under a middle load, F s / 4: 10 kN over 24 mm
    gives 60 N m, a published worked example (read).

    Examples
    --------
    >>> fork_pin_moment(10000.0, 0.024, 0.0, 0.0)
    60.0
    """
    return across_n / 2.0 * (fork_ply_m / 2.0 + eye_ply_m / 4.0 + side_gap_m)


@formula
def overhung_pin_moment(across_n: Number, eye_ply_m: Number, side_gap_m: Number) -> Number:
    """Greatest bending moment in a pin that is held on one side only.

    [S:first-principles, statics]

    Parameters
    ----------
    across_n : float or array
        Load of the eye. [N]
    eye_ply_m : float or array
        Thickness of the ply that pulls. [m]
    side_gap_m : float or array
        Gap between it and the ply that holds. [m]

    Returns
    -------
    moment_nm : float or array
        At the face that holds. [N.m]

    Notes
    -----
    M = F (t/2 + gap): a stub held firmly in one ply, loaded evenly by the other.
    Checked against: a cantilever (computed).

    Examples
    --------
    >>> round(overhung_pin_moment(1000.0, 0.006, 0.001), 3)
    4.0
    """
    return across_n * (eye_ply_m / 2.0 + side_gap_m)


@formula
def bar_bending_stress(moment_nm: Number, pin_diameter_m: Number) -> Number:
    """Bending stress at the skin of a round bar.

    [S:first-principles, statics]

    Parameters
    ----------
    moment_nm : float or array
        Bending moment. [N.m]
    pin_diameter_m : float or array
        Diameter, at the root where there is thread. [m]

    Returns
    -------
    bending_stress_pa : float or array
        Bending stress. [Pa]

    Notes
    -----
    sigma = 32 M / (pi d^3).
    Checked against: 60 N m on 18 mm gives 104.8 MPa, a published worked example (read).

    Examples
    --------
    >>> round(bar_bending_stress(60.0, 0.018) / 1e6, 1)
    104.8
    """
    return 32.0 * moment_nm / (math.pi * pin_diameter_m**3)


@formula
def stripping_force(
    thread_pitch_diameter_m: Number, engagement_m: Number, shear_strength_pa: Number
) -> Number:
    """Pull at which threads tear out of a hole.

    [S:shigley-bolts, ch. 8]

    Parameters
    ----------
    thread_pitch_diameter_m : float or array
        Diameter of the flank line. [m]
    engagement_m : float or array
        Length of full thread that is in the hole. [m]
    shear_strength_pa : float or array
        Of the weaker of the two metals, about 0.6 of its tensile strength. [Pa]

    Returns
    -------
    stripping_n : float or array
        Pull that strips it. [N]

    Notes
    -----
    F = tau (pi d2 L) / 2: half of the cylinder at the flank line is tooth. Real threads share a
    pull unevenly, the first ones most; keep well below it.
    Checked against: an engagement of one diameter in steel of the bolt's own strength outlasts the
    bolt, as practice has it (computed; common practice, no source).

    Examples
    --------
    >>> round(stripping_force(9.026e-3, 0.010, 480e6))
    68054
    """
    return shear_strength_pa * math.pi * thread_pitch_diameter_m * engagement_m / 2.0
