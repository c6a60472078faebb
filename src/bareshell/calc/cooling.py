"""How brakes shed heat, to moving and still air and by glowing; and what a descent settles to.

Correlations of cooling are rough: a factor of one and a half either way is not unusual, for the
wheel, the dust shield and the bodywork decide how much air arrives.
"""

from __future__ import annotations

from typing import Final

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, choose, most, shaped

__all__ = [
    "AIR_PRANDTL",
    "STILL_AIR_W_M2_K",
    "air_conductivity",
    "air_kinematic_viscosity",
    "descent_power",
    "disc_cooling_coefficient",
    "drum_cooling_coefficient",
    "heating_temperature",
    "radiation_coefficient",
    "steady_temperature",
    "vane_cooling_coefficient",
]

STILL_AIR_W_M2_K: Final = (3.0, 5.0)
"""Cooling of a disc that stands still, least and most measured [S:topouris-2020]: 3 to 5."""

AIR_PRANDTL: Final = 0.70
"""Prandtl number of air between 0 and 400 C, near enough [S:incropera] (from memory)."""

_ZERO_C: Final = 273.15
_STEFAN_BOLTZMANN: Final = 5.670374419e-8
_GAS_CONSTANT_AIR: Final = 287.05
_SUTHERLAND_PA_S: Final = 1.716e-5
_SUTHERLAND_K: Final = 110.4


@formula
def air_kinematic_viscosity(temperature_c: Number, atmosphere_pa: Number) -> Number:
    """Kinematic viscosity of air.

    [S:white, Sutherland's law]

    Parameters
    ----------
    temperature_c : float or array
        Temperature of the air. [degC]
    atmosphere_pa : float or array
        Pressure of the atmosphere. [Pa]

    Returns
    -------
    viscosity_m2_s : float or array
        Kinematic viscosity. [m2/s]

    Notes
    -----
    mu = 1.716e-5 (T / 273.15)^1.5 (273.15 + 110.4) / (T + 110.4), over p / (287.05 T). Within two
    per cent from -50 to 1000 C.
    Checked against: 15.9e-6 m2/s at 300 K, a textbook's table (from memory).

    Examples
    --------
    >>> round(air_kinematic_viscosity(26.85, 101325.0) * 1e6, 1)
    15.7
    """
    kelvin = temperature_c + _ZERO_C
    spread = (_ZERO_C + _SUTHERLAND_K) / (kelvin + _SUTHERLAND_K)
    heat = kelvin / _ZERO_C
    dynamic = _SUTHERLAND_PA_S * heat * shaped("sqrt", heat) * spread
    return dynamic * _GAS_CONSTANT_AIR * kelvin / atmosphere_pa


@formula
def air_conductivity(temperature_c: Number) -> Number:
    """Heat conductivity of air.

    [S:white, Sutherland's law]

    Parameters
    ----------
    temperature_c : float or array
        Temperature of the air. [degC]

    Returns
    -------
    conductivity_w_m_k : float or array
        Conductivity. [W/(m.K)]

    Notes
    -----
    k = 0.0241 (T / 273.15)^1.5 (273.15 + 194) / (T + 194). Within four per cent to 400 C.
    Checked against: 0.0263 at 300 K, 0.0338 at 400 K, a textbook's table (from memory).

    Examples
    --------
    >>> round(air_conductivity(26.85), 4)
    0.0262
    """
    kelvin = temperature_c + _ZERO_C
    heat = kelvin / _ZERO_C
    return 0.0241 * heat * shaped("sqrt", heat) * (_ZERO_C + 194.0) / (kelvin + 194.0)


@formula
def disc_cooling_coefficient(
    speed_m_s: Number,
    disc_diameter_m: Number,
    conductivity_w_m_k: Number,
    viscosity_m2_s: Number,
) -> Number:
    """Cooling of a solid disc's faces by the air of driving.

    [S:limpert, ch. 3]

    Parameters
    ----------
    speed_m_s : float or array
        Speed of the car. [m/s]
    disc_diameter_m : float or array
        Outer diameter. [m]
    conductivity_w_m_k : float or array
        Of the air, at the mean of its and the disc's temperature. [W/(m.K)]
    viscosity_m2_s : float or array
        Kinematic viscosity of the air, likewise. [m2/s]

    Returns
    -------
    cooling_coefficient_w_m2_k : float or array
        Heat given for each square metre and kelvin. [W/(m2.K)]

    Notes
    -----
    h = 0.70 (k / D) Re^0.55 up to Re = 2.4e5, beyond it 0.04 (k / D) Re^0.8, with Re = v D / nu.
    The two do not quite meet: it steps up by a quarter there. At a standstill it gives nothing;
    use `STILL_AIR_W_M2_K`.
    Checked against: the size of the step, which bears the constants out (from memory, computed).

    Examples
    --------
    >>> [round(disc_cooling_coefficient(v, 0.26, 0.030, 20e-6), 1) for v in (10.0, 20.0)]
    [52.5, 99.1]
    """
    reynolds = speed_m_s * disc_diameter_m / viscosity_m2_s
    scale = conductivity_w_m_k / disc_diameter_m
    smooth: Number = 0.70 * scale * reynolds**0.55
    rough: Number = 0.04 * scale * reynolds**0.8
    return choose(reynolds <= 2.4e5, smooth, rough)


@formula
def drum_cooling_coefficient(
    speed_m_s: Number,
    drum_diameter_m: Number,
    conductivity_w_m_k: Number,
    viscosity_m2_s: Number,
) -> Number:
    """Cooling of a drum's outside by the air of driving.

    [S:limpert, ch. 3]

    Parameters
    ----------
    speed_m_s : float or array
        Speed of the car. [m/s]
    drum_diameter_m : float or array
        Outer diameter. [m]
    conductivity_w_m_k : float or array
        Of the air. [W/(m.K)]
    viscosity_m2_s : float or array
        Kinematic viscosity of the air. [m2/s]

    Returns
    -------
    cooling_coefficient_w_m2_k : float or array
        Heat given for each square metre and kelvin. [W/(m2.K)]

    Notes
    -----
    h = 0.1 (k / D) Re^(2/3), with Re = v D / nu. For a drum out in the stream; one deep in its
    wheel gets less.
    Checked against: nothing published was read (from memory).

    Examples
    --------
    >>> round(drum_cooling_coefficient(20.0, 0.26, 0.030, 20e-6), 1)
    47.0
    """
    reynolds = speed_m_s * drum_diameter_m / viscosity_m2_s
    coefficient: Number = 0.1 * (conductivity_w_m_k / drum_diameter_m) * reynolds ** (2.0 / 3.0)
    return coefficient


@formula
def vane_cooling_coefficient(wheel_speed_rad_s: Number) -> Number:
    """Cooling within the vanes of a vented disc, as one disc was measured.

    [S:mcphee-johnson-2008]

    Parameters
    ----------
    wheel_speed_rad_s : float or array
        Speed of rotation. [rad/s]

    Returns
    -------
    cooling_coefficient_w_m2_k : float or array
        For the vanes' own area. [W/(m2.K)]

    Notes
    -----
    Measured 27.0, 52.7 and 78.3 at 342, 684 and 1025 rev/min, in proportion to speed: here the
    line through nothing that fits the three best. One disc on a rig; others differ.
    Checked against: the three published figures, within three per cent (abstract read).

    Examples
    --------
    >>> import math
    >>> [round(vane_cooling_coefficient(n * math.pi / 30)) for n in (342, 684, 1025)]
    [26, 53, 79]
    """
    return 0.733 * wheel_speed_rad_s


@formula
def radiation_coefficient(temperature_c: Number, ambient_c: Number, emissivity: Number) -> Number:
    """Cooling by radiation, as a coefficient to add to that of the air.

    [S:incropera, ch. 1]

    Parameters
    ----------
    temperature_c : float or array
        Of the brake. [degC]
    ambient_c : float or array
        Of what surrounds it. [degC]
    emissivity : float or array
        Of its surface: bright metal about 0.3, rusty iron about 0.8. [-]

    Returns
    -------
    cooling_coefficient_w_m2_k : float or array
        Heat given for each square metre and kelvin. [W/(m2.K)]

    Notes
    -----
    h = e s (T^2 + Ta^2) (T + Ta), temperatures in kelvin. Small below 300 C, and the wheel around
    the brake sends some of it back.
    Checked against: h (T - Ta) is e s (T^4 - Ta^4) (computed).

    Examples
    --------
    >>> round(radiation_coefficient(400.0, 20.0, 0.8), 1)
    23.7
    """
    hot = temperature_c + _ZERO_C
    cold = ambient_c + _ZERO_C
    squares: Number = hot**2 + cold**2
    return emissivity * _STEFAN_BOLTZMANN * squares * (hot + cold)


@formula
def descent_power(
    weight_n: Number, speed_m_s: Number, slope: Number, other_drag_n: Number
) -> Number:
    """Power that the brakes take on a long descent at a steady speed.

    [S:limpert, ch. 3]

    Parameters
    ----------
    weight_n : float or array
        Weight of the car and all in it. [N]
    speed_m_s : float or array
        Steady speed. [m/s]
    slope : float or array
        Fall for each metre along the level: 0.16 for 16 per cent. [-]
    other_drag_n : float or array
        What air, tyres and an engine in a low gear hold back; 0 to leave their help out. [N]

    Returns
    -------
    power_w : float or array
        Power turned into heat, never below zero. [W]

    Notes
    -----
    P = (W sin(atan slope) - drag) v.
    Checked against: 0.1580 W on 16 per cent (computed).

    Examples
    --------
    >>> round(descent_power(12000.0, 13.9, 0.10, 350.0))
    11732
    """
    along: Number = slope / shaped("sqrt", 1.0 + slope**2)
    return most(weight_n * along - other_drag_n, 0.0) * speed_m_s


@formula
def steady_temperature(
    power_w: Number, ambient_c: Number, cooling_coefficient_w_m2_k: Number, cooled_area_m2: Number
) -> Number:
    """Temperature to which a brake settles when it takes a steady power.

    [S:limpert, ch. 3]

    Parameters
    ----------
    power_w : float or array
        Power into this disc or drum. [W]
    ambient_c : float or array
        Temperature of the air. [degC]
    cooling_coefficient_w_m2_k : float or array
        Heat given for each square metre and kelvin. [W/(m2.K)]
    cooled_area_m2 : float or array
        Area that the air touches. [m2]

    Returns
    -------
    temperature_c : float or array
        Where heat given equals heat taken. [degC]

    Notes
    -----
    T = T_a + P / (h A). Far above 500 C the numbers mean only: too hot.
    Checked against: balance of power (computed).

    Examples
    --------
    >>> round(steady_temperature(3000.0, 20.0, 90.0, 0.09))
    390
    """
    return ambient_c + power_w / (cooling_coefficient_w_m2_k * cooled_area_m2)


@formula
def heating_temperature(
    time_s: Number, start_c: Number, steady_c: Number, time_constant_s: Number
) -> Number:
    """Temperature on the way to a steady one, warming or cooling.

    [S:limpert, ch. 3]

    Parameters
    ----------
    time_s : float or array
        Since the start. [s]
    start_c : float or array
        Temperature at the start. [degC]
    steady_c : float or array
        Where it would settle: from `steady_temperature`, or that of the air for cooling. [degC]
    time_constant_s : float or array
        From `bareshell.calc.heat.cooling_time_constant`. [s]

    Returns
    -------
    temperature_c : float or array
        Temperature then. [degC]

    Notes
    -----
    T = T_s + (T_0 - T_s) e^(-t / tau).
    Checked against: numerical integration of dT/dt = (T_s - T) / tau (computed).

    Examples
    --------
    >>> round(heating_temperature(300.0, 20.0, 390.0, 463.0), 1)
    196.4
    """
    return steady_c + (start_c - steady_c) * shaped("exp", -time_s / time_constant_s)
