"""The sizes inside a screw thread: flank line, nut's bore, root, and the area that carries a pull.

A designation gives diameter and pitch; the form (the shape of the tooth) gives the rest. Basic
sizes throughout: real threads are cut a little loose, and worn or plated ones are another matter.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, Literal, NamedTuple

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, lowest
from bareshell.errors import BadInput

__all__ = [
    "FORMS",
    "FORM_OF",
    "FormDepths",
    "ThreadForm",
    "depths_of",
    "nut_bore",
    "pitch_diameter",
    "root_diameter",
    "stress_area",
]

ThreadForm = Literal["metric", "unified", "whitworth", "cycle", "BA"]
"""The shape of the tooth, which series share."""

FORM_OF: Final[Mapping[str, ThreadForm]] = MappingProxyType(
    {
        "metric": "metric",
        "UNC": "unified",
        "UNF": "unified",
        "UNEF": "unified",
        "BSW": "whitworth",
        "BSF": "whitworth",
        "BSB": "whitworth",
        "BSP": "whitworth",
        "BSPT": "whitworth",
        "BSC": "cycle",
        "BA": "BA",
        "NPT": "unified",
    }
)
"""The tooth of each series. A tapered one has that of its parallel cousin, nearly enough."""


class FormDepths(NamedTuple):
    """What each diameter of a form lacks of the outside, in pitches, and its flank angle.

    Parameters
    ----------
    flank_line : float
        Pitch (effective) diameter. [-]
    nut_bore : float
        Bore of the nut. [-]
    root : float
        Root of the bolt. [-]
    stress : float
        The diameter whose circle is the stress area. [-]
    flank_angle_rad : float
        Half of the angle between flanks. [rad]
    """

    flank_line: float
    nut_bore: float
    root: float
    stress: float
    flank_angle_rad: float


FORMS: Final = MappingProxyType(
    {
        # H = 0.866025 P; flank line 3/4 H, nut 5/4 H, root 17/12 H [S:iso-68-1]; stress diameter
        # is the mean of flank line and root [S:iso-898-1].
        "metric": FormDepths(0.649519, 1.082532, 1.226869, 0.938194, math.radians(30.0)),
        # Same tooth. The handbooks reckon the root to 3/2 H and the stress diameter with 0.9743
        # [S:machinerys-handbook].
        "unified": FormDepths(0.649519, 1.082532, 1.299038, 0.974279, math.radians(30.0)),
        # Depth 0.640327 P, root and nut alike [S:bs-84]; stress diameter as the mean of flank
        # line and root, as the metric standard has it (common practice, no source).
        "whitworth": FormDepths(0.640327, 1.280654, 1.280654, 0.960491, math.radians(27.5)),
        # Depth 0.5327 P [S:bs-811].
        "cycle": FormDepths(0.5327, 1.0654, 1.0654, 0.79905, math.radians(30.0)),
        # Depth 0.6 P [S:bs-93].
        "BA": FormDepths(0.6, 1.2, 1.2, 0.9, math.radians(23.75)),
    }
)
"""Depths of each form."""


def depths_of(thread_form: str) -> FormDepths:
    """Look up the depths of a form.

    Its table names the standard of each figure. [S:iso-68-1]

    Parameters
    ----------
    thread_form : str
        ``"metric"``, ``"unified"``, ``"whitworth"``, ``"cycle"`` or ``"BA"``. [words]

    Returns
    -------
    depths : FormDepths
        What each diameter lacks of the outside, in pitches. [-]

    Raises
    ------
    BadInput
        When there is no such form.

    Notes
    -----
    Tapered pipe threads are not here: they seal by wedging and carry no counted pull.
    Checked against: H = P cos 30 and its eighths (computed).

    Examples
    --------
    >>> depths_of("metric").nut_bore
    1.082532
    """
    try:
        return FORMS[thread_form]
    except KeyError:
        raise BadInput(
            "form of the thread", f"'{thread_form}' is none", f"give one of: {', '.join(FORMS)}"
        ) from None


def _inside(diameter_m: Number, pitch_m: Number, depth: float) -> Number:
    inside = diameter_m - depth * pitch_m
    if lowest(inside) <= 0.0:
        raise BadInput(
            "pitch of the thread", "is too coarse for its diameter", "measure both again"
        )
    return inside


@formula
def pitch_diameter(diameter_m: Number, pitch_m: Number, thread_form: str) -> Number:
    """Diameter of the flank line, where tooth and gap are equally wide.

    [S:iso-68-1]

    Parameters
    ----------
    diameter_m : float or array
        Outside diameter of the thread. [m]
    pitch_m : float or array
        From one thread to the next. [m]
    thread_form : str
        The shape of the tooth. [words]

    Returns
    -------
    pitch_diameter_m : float or array
        Also called effective diameter. [m]

    Raises
    ------
    BadInput
        When the pitch is too coarse for the diameter, or the form is unknown.

    Notes
    -----
    d2 = d - 0.6495 P (metric and unified), d - 0.6403 P (Whitworth), d - 0.6 P (BA).
    Checked against: 3/16 BSW has 0.1608 in, a handbook's table (read).

    Examples
    --------
    >>> round(pitch_diameter(0.010, 0.0015, "metric") * 1e3, 3)
    9.026
    """
    return _inside(diameter_m, pitch_m, depths_of(thread_form).flank_line)


@formula
def nut_bore(diameter_m: Number, pitch_m: Number, thread_form: str) -> Number:
    """Bore of a nut before its thread is cut, to the basic profile.

    [S:iso-68-1]

    Parameters
    ----------
    diameter_m : float or array
        Outside diameter of the thread. [m]
    pitch_m : float or array
        From one thread to the next. [m]
    thread_form : str
        The shape of the tooth. [words]

    Returns
    -------
    nut_bore_m : float or array
        Minor diameter of the nut. [m]

    Raises
    ------
    BadInput
        When the pitch is too coarse for the diameter, or the form is unknown.

    Notes
    -----
    D1 = d - 1.0825 P (metric and unified). Tapping drills are larger: three quarters of a full
    thread is the usual practice.
    Checked against: M10 x 1.5 has 8.376 mm in the tables of the standard (from memory).

    Examples
    --------
    >>> round(nut_bore(0.010, 0.0015, "metric") * 1e3, 3)
    8.376
    """
    return _inside(diameter_m, pitch_m, depths_of(thread_form).nut_bore)


@formula
def root_diameter(diameter_m: Number, pitch_m: Number, thread_form: str) -> Number:
    """Diameter of a bolt at the bottom of its thread: what is left when threads take the shear.

    [S:iso-68-1]

    Parameters
    ----------
    diameter_m : float or array
        Outside diameter of the thread. [m]
    pitch_m : float or array
        From one thread to the next. [m]
    thread_form : str
        The shape of the tooth. [words]

    Returns
    -------
    root_diameter_m : float or array
        Minor diameter of the bolt. [m]

    Raises
    ------
    BadInput
        When the pitch is too coarse for the diameter, or the form is unknown.

    Notes
    -----
    d3 = d - 1.2269 P (metric), d - 1.2990 P (unified, as the handbooks reckon it).
    Checked against: 3/16 BSW has 0.1341 in, a handbook's table (read); the minor-diameter area of
    3/8-24 is 0.0809 in2 (from memory).

    Examples
    --------
    >>> round(root_diameter(0.010, 0.0015, "metric") * 1e3, 2)
    8.16
    """
    return _inside(diameter_m, pitch_m, depths_of(thread_form).root)


@formula
def stress_area(diameter_m: Number, pitch_m: Number, thread_form: str) -> Number:
    """Area with which a thread carries a pull.

    [S:iso-898-1, 9.1.6] and, for unified threads, [S:machinerys-handbook]

    Parameters
    ----------
    diameter_m : float or array
        Outside diameter of the thread. [m]
    pitch_m : float or array
        From one thread to the next. [m]
    thread_form : str
        The shape of the tooth. [words]

    Returns
    -------
    stress_area_m2 : float or array
        Tensile stress area. [m2]

    Raises
    ------
    BadInput
        When the pitch is too coarse for the diameter, or the form is unknown.

    Notes
    -----
    As = pi/4 (d - 0.9382 P)^2, the circle of the mean of flank line and root; unified threads with
    0.9743. It says what a sound thread carries, not what a worn or corroded one does.
    Checked against: M5 to M24 in a published table of the standard (read); 3/8-24 UNF has
    0.0878 in2 (from memory).

    Examples
    --------
    >>> round(stress_area(0.010, 0.0015, "metric") * 1e6, 1)
    58.0
    """
    carrying = _inside(diameter_m, pitch_m, depths_of(thread_form).stress)
    return math.pi / 4.0 * carrying * carrying
