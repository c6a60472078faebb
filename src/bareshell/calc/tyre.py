"""Tyres: radius from the size on the sidewall, the lever that road force has, and slip.

Three radii are easily confused. *Free* is half the diameter off the car; *loaded* is from the
wheel's centre to the road, the lever of the brake force; *rolling* is what turns into distance, and
lies between. A measured radius is better than any of these.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Final, Literal

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, lowest
from bareshell.errors import BadInput
from bareshell.sources import Mark

__all__ = [
    "LOADED_SHARE",
    "ROLLING_FACTORS",
    "Construction",
    "TyreSize",
    "braking_slip",
    "force_at_road",
    "free_radius",
    "loaded_radius",
    "rolling_radius",
    "torque_at_wheel",
    "tyre_size",
]

Construction = Literal["radial", "cross-ply"]

LOADED_SHARE: Final = 0.96
"""Loaded radius over free radius of a car tyre, a rough figure (read second-hand)."""

ROLLING_FACTORS: Final = {"radial": 3.05, "cross-ply": 2.99}
"""Rolling circumference over free diameter [S:etrto-manual] (from memory)."""

_INCH_M: Final = 0.0254


@dataclass(frozen=True, slots=True)
class TyreSize:
    """What a size marking says, as lengths.

    Parameters
    ----------
    marking : str
        As given.
    section_width_m : float
        Nominal width. [m]
    aspect_low, aspect_high : float
        Section height over width: one figure twice when it is marked, else a span. [-]
    rim_diameter_m : float
        Nominal diameter of the rim. [m]
    construction : {"radial", "cross-ply"}
        As marked.
    mark : str
        How the height is known.
    note : str
        What to beware of.
    """

    marking: str
    section_width_m: float
    aspect_low: float
    aspect_high: float
    rim_diameter_m: float
    construction: Construction
    mark: Mark
    note: str = ""

    @property
    def aspect_ratio(self) -> float:
        """The middle of the span."""
        return (self.aspect_low + self.aspect_high) / 2.0


# The width of an inch size decides its series: x.x0 is the fuller one, x.x5 the lower.
_MARKING: Final = re.compile(
    r"""^P?\s*
    (?:(?P<mm>\d{3})(?:\s*/\s*(?P<aspect>\d{2,3}))?|(?P<inch>\d{1,2}\.\d{2}))
    \s*(?:[-x×]|\s|(?:[SHVZ])?\s*(?P<radial>R)|[SHV]\s*[-x]?)\s*
    (?P<rim>\d{2,3}(?:\.5)?)
    (?:\s+\d{2,3}\s?[A-Z])?$""",
    re.VERBOSE | re.IGNORECASE,
)


def tyre_size(marking: str) -> TyreSize:
    """Read a size from the sidewall: 185/60R14, 155R13, 5.60-13.

    [S:etrto-manual]

    Parameters
    ----------
    marking : str
        As it stands on the tyre; load and speed letters after it are passed over. [words]

    Returns
    -------
    TyreSize
        Its lengths, with a span of height where the marking gives none. [-]

    Raises
    ------
    BadInput
        When it is no size that is known here.

    Notes
    -----
    A metric radial with no series is of the 82 series by old custom and 80 by newer tables: both
    are kept. Inch cross-plies of x.x0 are taken at 0.93 to 0.97 of their width, those of x.x5 at
    0.80 to 0.84, as tables of their time have it.
    Checked against: common diameters of 155R13 (578 mm) and 5.60-13 (about 600 mm) (from memory).

    Examples
    --------
    >>> size = tyre_size("185/60R14")
    >>> size.section_width_m, size.aspect_ratio, round(size.rim_diameter_m, 4)
    (0.185, 0.6, 0.3556)
    >>> tyre_size("155R13").aspect_low, tyre_size("5.60-13").construction
    (0.8, 'cross-ply')
    """
    found = _MARKING.match(" ".join(marking.split()))
    if not found:
        raise BadInput(
            "size of the tyre",
            f"'{marking}' is no size that is known here",
            "write it as on the sidewall: 185/60R14, 155R13 or 5.60-13, or give a measured radius",
        )
    rim = float(found["rim"])
    rim_m = rim / 1000.0 if rim >= 100.0 else rim * _INCH_M
    construction: Construction = "radial" if found["radial"] else "cross-ply"
    if found["aspect"]:
        aspect = float(found["aspect"]) / 100.0
        return TyreSize(
            marking, float(found["mm"]) / 1000.0, aspect, aspect, rim_m, construction, "from memory"
        )
    note = "The height is not in the marking: measure the tyre, or keep the span."
    if found["mm"]:
        width = float(found["mm"]) / 1000.0
        return TyreSize(marking, width, 0.80, 0.82, rim_m, construction, "from memory", note)
    low, high = (0.80, 0.84) if found["inch"].endswith("5") else (0.93, 0.97)
    width = float(found["inch"]) * _INCH_M
    return TyreSize(marking, width, low, high, rim_m, construction, "from memory", note)


@formula
def free_radius(section_width_m: Number, aspect_ratio: Number, rim_diameter_m: Number) -> Number:
    """Radius of an unloaded tyre, from its size.

    [S:etrto-manual]

    Parameters
    ----------
    section_width_m : float or array
        Nominal width. [m]
    aspect_ratio : float or array
        Section height over width. [-]
    rim_diameter_m : float or array
        Nominal diameter of the rim. [m]

    Returns
    -------
    free_radius_m : float or array
        Radius off the car. [m]

    Notes
    -----
    r = rim / 2 + width x aspect. Makes of one size differ by a per cent or so, and tread wears off.
    Checked against: 215/65R15 is 330.25 mm, a published example (read second-hand).

    Examples
    --------
    >>> round(free_radius(0.215, 0.65, 15 * 0.0254) * 1e3, 2)
    330.25
    """
    return rim_diameter_m / 2.0 + section_width_m * aspect_ratio


@formula
def rolling_radius(free_radius_m: Number, construction: str) -> Number:
    """Radius that a rolling tyre turns into distance with.

    [S:etrto-manual]

    Parameters
    ----------
    free_radius_m : float or array
        Radius off the car. [m]
    construction : str
        "radial" or "cross-ply". [words]

    Returns
    -------
    rolling_radius_m : float or array
        Distance of one turn over two pi. [m]

    Raises
    ------
    BadInput
        When the construction is neither.

    Notes
    -----
    r = F D / (2 pi) with F of 3.05 for radials and 2.99 for cross-plies at rated load.
    Checked against: a turn chalked on the floor is the better figure (factors from memory).

    Examples
    --------
    >>> round(rolling_radius(0.300, "radial"), 4)
    0.2913
    """
    if construction not in ROLLING_FACTORS:
        raise BadInput(
            "construction of the tyre", f"'{construction}' is neither", "say radial or cross-ply"
        )
    return free_radius_m * ROLLING_FACTORS[construction] / math.pi


@formula
def loaded_radius(free_radius_m: Number) -> Number:
    """Height of the wheel's centre above the road, roughly. Common practice, no source.

    Parameters
    ----------
    free_radius_m : float or array
        Radius off the car. [m]

    Returns
    -------
    tyre_radius_m : float or array
        Lever of the brake force. [m]

    Notes
    -----
    0.96 of the free radius, for a car tyre at its usual load and pressure. [S:trade-practice]
    Checked against: 0.96 x 330.25 mm, 1991 mm around, a published example (read second-hand).

    Examples
    --------
    >>> round(loaded_radius(0.33025) * 2 * 3.14, 3)
    1.991
    """
    return LOADED_SHARE * free_radius_m


@formula
def force_at_road(torque_nm: Number, tyre_radius_m: Number) -> Number:
    """Brake force at the road for a torque of the brake.

    [S:gillespie, ch. 3]

    Parameters
    ----------
    torque_nm : float or array
        Torque of the wheel's brake. [N.m]
    tyre_radius_m : float or array
        From the wheel's centre to the road. [m]

    Returns
    -------
    force_n : float or array
        Force at the road, if the tyre grips. [N]

    Notes
    -----
    F = T / r. What it takes to slow the wheel's own spin is left out; it is small.
    Checked against: 20 lb in for each psi at 12.11 in on two front wheels is 330.3 lbf at 100 psi
    (inputs from memory, computed).

    Examples
    --------
    >>> round(force_at_road(2 * 20.0 * 100.0, 12.11), 1)
    330.3
    """
    return torque_nm / tyre_radius_m


@formula
def torque_at_wheel(force_n: Number, tyre_radius_m: Number) -> Number:
    """Torque that a brake needs for a force at the road.

    [S:gillespie, ch. 3]

    Parameters
    ----------
    force_n : float or array
        Force at the road. [N]
    tyre_radius_m : float or array
        From the wheel's centre to the road. [m]

    Returns
    -------
    torque_nm : float or array
        Torque of the wheel's brake. [N.m]

    Notes
    -----
    T = F r.
    Checked against: `force_at_road`, there and back (computed).

    Examples
    --------
    >>> torque_at_wheel(2000.0, 0.28)
    560.0
    """
    return force_n * tyre_radius_m


@formula
def braking_slip(speed_m_s: Number, wheel_speed_rad_s: Number, rolling_radius_m: Number) -> Number:
    """Slip of a braked wheel.

    [S:gillespie, ch. 10]

    Parameters
    ----------
    speed_m_s : float or array
        Speed of the car, more than zero. [m/s]
    wheel_speed_rad_s : float or array
        Speed of the wheel. [rad/s]
    rolling_radius_m : float or array
        Rolling radius. [m]

    Returns
    -------
    slip : float or array
        0 rolling, 1 locked. [-]

    Raises
    ------
    BadInput
        When the car stands.

    Notes
    -----
    s = 1 - w r / v. Grip is best near 0.1 to 0.2 on a dry road and less when locked (from memory):
    the adhesion of these formulas is that best one, and a locked wheel has less and steers not.
    Checked against: its ends (computed).

    Examples
    --------
    >>> braking_slip(20.0, 0.0, 0.29), round(braking_slip(20.0, 20.0 / 0.29, 0.29), 9)
    (1.0, 0.0)
    """
    if lowest(speed_m_s) <= 0.0:
        raise BadInput("speed of the car", "0 has no slip", "give a speed above zero")
    return 1.0 - wheel_speed_rad_s * rolling_radius_m / speed_m_s
