"""Air in the line: what it takes from the pedal, and how to tell how much there is.

Free air is squeezed nearly flat by the first few bar, so it costs travel at the top of the pedal
and hardly any beneath. Dissolved air takes nothing.
"""

from __future__ import annotations

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, lowest
from bareshell.errors import BadInput

__all__ = [
    "air_from_two_pushes",
    "entrained_air_volume",
    "mixture_bulk_modulus",
    "trapped_air",
]


@formula
def entrained_air_volume(
    pressure_pa: Number, air_volume_m3: Number, atmosphere_pa: Number
) -> Number:
    """Fluid taken by the squeezing of trapped air.

    [S:first-principles, Boyle's law]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure above that of the atmosphere. [Pa]
    air_volume_m3 : float or array
        Air in the line, as it stands with the pedal up. [m3]
    atmosphere_pa : float or array
        Pressure of the atmosphere. [Pa]

    Returns
    -------
    volume_m3 : float or array
        Fluid taken. [m3]

    Notes
    -----
    V_0 p / (p + p_a), slow enough to stay at one temperature. Nearly all of it is gone at the
    first few bar: air makes a pedal long and soft at the top, and firm beneath. Air that is
    dissolved takes nothing; some of the free air dissolves under a long push.
    Checked against: p V stays the same (computed).

    Examples
    --------
    >>> round(entrained_air_volume(7e6, 1e-6, 101325.0) * 1e6, 3)
    0.986
    """
    return air_volume_m3 * pressure_pa / (pressure_pa + atmosphere_pa)


@formula
def trapped_air(volume_m3: Number, pressure_pa: Number, atmosphere_pa: Number) -> Number:
    """Air that would explain some missing fluid at a pressure.

    [S:first-principles, Boyle's law]

    Parameters
    ----------
    volume_m3 : float or array
        Fluid that is not accounted for otherwise. [m3]
    pressure_pa : float or array
        Pressure at which it was missed, above that of the atmosphere and above zero. [Pa]
    atmosphere_pa : float or array
        Pressure of the atmosphere. [Pa]

    Returns
    -------
    air_volume_m3 : float or array
        Air as it stands with the pedal up. [m3]

    Raises
    ------
    BadInput
        When the pressure is zero: no air is squeezed then.

    Notes
    -----
    V_0 = V (p + p_a) / p.
    Checked against: `entrained_air_volume`, there and back (computed).

    Examples
    --------
    >>> round(trapped_air(0.986e-6, 7e6, 101325.0) * 1e6, 3)
    1.000
    """
    if lowest(pressure_pa) <= 0.0:
        raise BadInput("pressure", "0 squeezes no air", "measure with the pedal pressed")
    return volume_m3 * (pressure_pa + atmosphere_pa) / pressure_pa


@formula
def air_from_two_pushes(
    light_volume_m3: Number,
    firm_volume_m3: Number,
    light_pressure_pa: Number,
    firm_pressure_pa: Number,
    compliance_m3_pa: Number,
    atmosphere_pa: Number,
) -> Number:
    """Trapped air from how much more fluid a firm push takes than a light one.

    [S:first-principles, Boyle's law]

    Parameters
    ----------
    light_volume_m3 : float or array
        Fluid given at the light push. [m3]
    firm_volume_m3 : float or array
        Fluid given at the firm push. [m3]
    light_pressure_pa : float or array
        Pressure of the light push, above that of the atmosphere. [Pa]
    firm_pressure_pa : float or array
        Pressure of the firm push. [Pa]
    compliance_m3_pa : float or array
        What hoses, calipers, pads and fluid are reckoned to take for each pascal. [m3/Pa]
    atmosphere_pa : float or array
        Pressure of the atmosphere. [Pa]

    Returns
    -------
    air_volume_m3 : float or array
        Air as it stands with the pedal up; below zero when the compliance was reckoned too
        high. [m3]

    Raises
    ------
    BadInput
        When the firm push is not the firmer.

    Notes
    -----
    Clearance is the same at both and drops out: V_0 = (dV - C dp) / (f(p_2) - f(p_1)) with
    f = p / (p + p_a). The light push must be light, else both f are one and nothing can be told.
    Checked against: volumes made up from known air, clearance and compliance (computed).

    Examples
    --------
    >>> air = air_from_two_pushes(1.2e-6, 2.5e-6, 5e4, 5e6, 1.5e-13, 101325.0)
    >>> round(air * 1e6, 3)
    0.858
    """
    firm = firm_pressure_pa / (firm_pressure_pa + atmosphere_pa)
    light = light_pressure_pa / (light_pressure_pa + atmosphere_pa)
    if lowest(firm - light) <= 0.0:
        raise BadInput(
            "pressure of the firm push",
            "is not above that of the light push",
            "press lightly first, then firmly, and read both",
        )
    given = compliance_m3_pa * (firm_pressure_pa - light_pressure_pa)
    return (firm_volume_m3 - light_volume_m3 - given) / (firm - light)


@formula
def mixture_bulk_modulus(
    pressure_pa: Number, bulk_modulus_pa: Number, air_share: Number, atmosphere_pa: Number
) -> Number:
    """Stiffness of brake fluid with free air in it.

    [S:merritt, ch. 2]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure above that of the atmosphere. [Pa]
    bulk_modulus_pa : float or array
        Stiffness of the fluid without air. [Pa]
    air_share : float or array
        Volume of free air over that of the fluid, at no pressure. [-]
    atmosphere_pa : float or array
        Pressure of the atmosphere. [Pa]

    Returns
    -------
    mixture_bulk_modulus_pa : float or array
        Stiffness of the mixture at that pressure. [Pa]

    Notes
    -----
    K = (1 + x p_a / P) / (1 / K_f + x p_a / P^2) with P = p + p_a, air at one temperature: one
    per cent of air at no pressure makes the fluid a hundred times softer, at 70 bar hardly at all.
    Checked against: the slope of fluid and air together taken numerically (computed).

    Examples
    --------
    >>> round(mixture_bulk_modulus(0.0, 1.8e9, 0.01, 101325.0) / 1e6, 1)
    10.2
    """
    absolute = pressure_pa + atmosphere_pa
    air = air_share * atmosphere_pa / absolute
    return (1.0 + air) / (1.0 / bulk_modulus_pa + air / absolute)
