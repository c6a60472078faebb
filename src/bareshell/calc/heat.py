"""Heat of stopping: energy, power, and how hot a disc or drum gets at once and stop upon stop.

Each body is taken as one lump at one temperature, save for the rubbed face, whose flash of heat has
a formula of its own. Cooling is in `bareshell.calc.cooling`, the soak after a stop in
`bareshell.calc.soak`.
"""

from __future__ import annotations

import math

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, most, shaped

__all__ = [
    "braking_power",
    "cooling_time_constant",
    "disc_heat_share",
    "mean_power",
    "snub_limit_temperature",
    "snub_temperature",
    "stop_energy",
    "surface_temperature_rise",
    "surface_temperature_rise_rounded",
    "temperature_rise",
    "thermal_effusivity",
]


@formula
def stop_energy(
    mass_kg: Number,
    begin_speed_m_s: Number,
    end_speed_m_s: Number,
    rotating_mass_factor: Number,
    drag_energy_j: Number,
) -> Number:
    """Energy that the brakes take from a car as it slows on the level.

    [S:limpert, ch. 3]

    Parameters
    ----------
    mass_kg : float or array
        Mass of the car and all in it. [kg]
    begin_speed_m_s : float or array
        Speed at the start. [m/s]
    end_speed_m_s : float or array
        Speed at the end; 0 for a stop. [m/s]
    rotating_mass_factor : float or array
        What wheels, and an engine left in gear, add: 1.05 to 1.15 is common, 1 for none. [-]
    drag_energy_j : float or array
        What air, tyres and engine take instead; 0 to leave their help out. [J]

    Returns
    -------
    energy_j : float or array
        Energy that becomes heat in the brakes, never below zero. [J]

    Notes
    -----
    E = k m (v1^2 - v2^2) / 2 - drag.
    Checked against: 290 kg from 90 km/h, 90,770 J published and 90,625 J exactly (read
    second-hand); 3635 lb from 60 mph, 437,000 ft lbf, a textbook example (from memory).

    Examples
    --------
    >>> stop_energy(290.0, 25.0, 0.0, 1.0, 0.0)
    90625.0
    """
    fall: Number = begin_speed_m_s**2 - end_speed_m_s**2
    return most(rotating_mass_factor * mass_kg * fall / 2.0 - drag_energy_j, 0.0)


@formula
def braking_power(mass_kg: Number, speed_m_s: Number, deceleration_m_s2: Number) -> Number:
    """Power that the brakes take at a speed and deceleration.

    [S:gillespie, ch. 3]

    Parameters
    ----------
    mass_kg : float or array
        Mass of the car and all in it. [kg]
    speed_m_s : float or array
        Speed just then. [m/s]
    deceleration_m_s2 : float or array
        Deceleration that the brakes make. [m/s2]

    Returns
    -------
    power_w : float or array
        Power turned into heat. [W]

    Notes
    -----
    P = m d v: at the start of a steady stop it is twice the mean.
    Checked against: 3635 lb at 60 mph and 17.7 ft/s2, 320 hp at the start, a textbook example
    (from memory, computed).

    Examples
    --------
    >>> round(braking_power(3635 * 0.45359237, 26.8224, 5.4) / 745.7)
    320
    """
    return mass_kg * deceleration_m_s2 * speed_m_s


@formula
def mean_power(energy_j: Number, stop_time_s: Number) -> Number:
    """Mean power of a stop.

    [S:gillespie, ch. 3]

    Parameters
    ----------
    energy_j : float or array
        Energy of the stop. [J]
    stop_time_s : float or array
        How long it lasts. [s]

    Returns
    -------
    power_w : float or array
        Mean over the time. [W]

    Notes
    -----
    P = E / t.
    Checked against: 90,625 J in 2.83 s, 32.0 kW; 31 kW published (read second-hand).

    Examples
    --------
    >>> round(mean_power(90625.0, 25 / (0.9 * 9.80665)) / 1e3, 1)
    32.0
    """
    return energy_j / stop_time_s


@formula
def temperature_rise(
    energy_j: Number, heat_share: Number, heated_mass_kg: Number, specific_heat_j_kg_k: Number
) -> Number:
    """Mean rise of a disc or drum from one stop, nothing lost meanwhile.

    [S:limpert, ch. 3]

    Parameters
    ----------
    energy_j : float or array
        Energy that goes to this brake. [J]
    heat_share : float or array
        Share of it that goes into the disc or drum rather than the lining. [-]
    heated_mass_kg : float or array
        Mass of the rubbed part: the disc without its bell, the drum's rim. [kg]
    specific_heat_j_kg_k : float or array
        Of its metal; cast iron 460 to 550. [J/(kg.K)]

    Returns
    -------
    rise_k : float or array
        Mean rise. [K]

    Notes
    -----
    dT = share E / (m c). The rubbed face gets hotter for a moment: `surface_temperature_rise`.
    Checked against: 3000 lb from 60 mph into four discs of 10 lb of 0.130 Btu/(lb F): 90.3 F
    published with a rounded factor (read), 89.2 F exactly.

    Examples
    --------
    >>> energy = stop_energy(3000 * 0.45359237, 26.8224, 0.0, 1.0, 0.0)
    >>> rise = temperature_rise(energy, 1.0, 40 * 0.45359237, 0.130 * 4186.8)
    >>> round(rise * 1.8, 1)
    89.2
    """
    return heat_share * energy_j / (heated_mass_kg * specific_heat_j_kg_k)


@formula
def thermal_effusivity(
    conductivity_w_m_k: Number, density_kg_m3: Number, specific_heat_j_kg_k: Number
) -> Number:
    """How readily a body takes heat at its face.

    [S:carslaw-jaeger, ch. 2]

    Parameters
    ----------
    conductivity_w_m_k : float or array
        Heat conductivity. [W/(m.K)]
    density_kg_m3 : float or array
        Density. [kg/m3]
    specific_heat_j_kg_k : float or array
        Specific heat. [J/(kg.K)]

    Returns
    -------
    effusivity : float or array
        Heat taken by a square metre for a sudden kelvin, times the root of time. [W.s0.5/(m2.K)]

    Notes
    -----
    e = sqrt(k rho c). Cast iron about 13,000 to 14,000, lining about 1,500 to 2,500 (from memory).
    Checked against: its definition (computed).

    Examples
    --------
    >>> round(thermal_effusivity(50.0, 7200.0, 500.0))
    13416
    """
    return shaped("sqrt", conductivity_w_m_k * density_kg_m3 * specific_heat_j_kg_k)


@formula
def disc_heat_share(metal_effusivity: Number, lining_effusivity: Number) -> Number:
    """Share of the heat that goes into the disc or drum rather than the lining.

    [S:limpert, ch. 3]

    Parameters
    ----------
    metal_effusivity : float or array
        Of disc or drum. [W.s0.5/(m2.K)]
    lining_effusivity : float or array
        Of pad or lining. [W.s0.5/(m2.K)]

    Returns
    -------
    heat_share : float or array
        Share into the metal. [-]

    Notes
    -----
    1 / (1 + e_lining / e_metal), both faces taken at one temperature and rubbing all the time. A
    disc meets its pads on a part of its face only, so its share is if anything larger.
    Checked against: 0.5 for two bodies alike (computed).

    Examples
    --------
    >>> round(disc_heat_share(13416.0, 1500.0), 3)
    0.899
    """
    return 1.0 / (1.0 + lining_effusivity / metal_effusivity)


@formula
def surface_temperature_rise(
    peak_flux_w_m2: Number, stop_time_s: Number, metal_effusivity: Number
) -> Number:
    """Greatest rise of the rubbed face in a steady stop to rest.

    [S:carslaw-jaeger, ch. 2]

    Parameters
    ----------
    peak_flux_w_m2 : float or array
        Heat into a square metre of the face at the start. [W/m2]
    stop_time_s : float or array
        How long the stop lasts. [s]
    metal_effusivity : float or array
        Of disc or drum. [W.s0.5/(m2.K)]

    Returns
    -------
    rise_k : float or array
        Rise above the temperature before the stop, reached half-way through. [K]

    Notes
    -----
    Flux falling evenly to nothing on a thick body: (4 / (3 sqrt(2 pi))) q0 sqrt(t) / e, a
    factor of 0.532. Holds while the heat has not crossed half the disc's thickness, for a metal
    disc a few seconds.
    Checked against: the convolution of the flux with a thick body's answer, numerically
    (computed).

    Examples
    --------
    >>> round(surface_temperature_rise(2e6, 3.0, 13416.0))
    137
    """
    peak = 4.0 / (3.0 * math.sqrt(2.0 * math.pi))
    return peak * peak_flux_w_m2 * shaped("sqrt", stop_time_s) / metal_effusivity


@formula
def surface_temperature_rise_rounded(
    peak_flux_w_m2: Number, stop_time_s: Number, metal_effusivity: Number
) -> Number:
    """Greatest rise of the rubbed face, with a textbook's rounded factor.

    [S:limpert, ch. 3]

    Parameters
    ----------
    peak_flux_w_m2 : float or array
        Heat into a square metre of the face at the start. [W/m2]
    stop_time_s : float or array
        How long the stop lasts. [s]
    metal_effusivity : float or array
        Of disc or drum. [W.s0.5/(m2.K)]

    Returns
    -------
    rise_k : float or array
        Rise above the temperature before the stop. [K]

    Notes
    -----
    sqrt(5 / 18) q0 sqrt(t) / e, a factor of 0.527 where the exact one is 0.532: one per cent low.
    Kept so that a published figure can be followed; use `surface_temperature_rise`.
    Checked against: `surface_temperature_rise` (factor from memory, computed).

    Examples
    --------
    >>> round(surface_temperature_rise_rounded(2e6, 3.0, 13416.0))
    136
    """
    factor = math.sqrt(5.0 / 18.0)
    return factor * peak_flux_w_m2 * shaped("sqrt", stop_time_s) / metal_effusivity


@formula
def cooling_time_constant(
    heated_mass_kg: Number,
    specific_heat_j_kg_k: Number,
    cooling_coefficient_w_m2_k: Number,
    cooled_area_m2: Number,
) -> Number:
    """Time in which a brake sheds about two thirds of its excess heat.

    [S:limpert, ch. 3]

    Parameters
    ----------
    heated_mass_kg : float or array
        Mass of disc or drum. [kg]
    specific_heat_j_kg_k : float or array
        Of its metal. [J/(kg.K)]
    cooling_coefficient_w_m2_k : float or array
        Heat given to the air, for each kelvin. [W/(m2.K)]
    cooled_area_m2 : float or array
        Area that the air touches. [m2]

    Returns
    -------
    time_constant_s : float or array
        Excess falls to 37 per cent of itself in this time. [s]

    Notes
    -----
    tau = m c / (h A), for a body at one temperature.
    Checked against: its definition (computed).

    Examples
    --------
    >>> round(cooling_time_constant(5.0, 500.0, 60.0, 0.09))
    463
    """
    return heated_mass_kg * specific_heat_j_kg_k / (cooling_coefficient_w_m2_k * cooled_area_m2)


@formula
def snub_temperature(
    snub_number: Number,
    ambient_c: Number,
    rise_k: Number,
    interval_s: Number,
    time_constant_s: Number,
) -> Number:
    """Temperature of a brake just after one of a row of equal snubs.

    [S:limpert, ch. 3]

    Parameters
    ----------
    snub_number : float or array
        Which one, counted from 1. [-]
    ambient_c : float or array
        Temperature of the air, and of the brake before the first. [degC]
    rise_k : float or array
        Rise of one snub. [K]
    interval_s : float or array
        From one snub to the next. [s]
    time_constant_s : float or array
        Cooling time constant. [s]

    Returns
    -------
    temperature_c : float or array
        Temperature just after that snub. [degC]

    Notes
    -----
    T_n = T_a + dT (1 - e^(-n q)) / (1 - e^(-q)) with q = interval / time constant. Rise and
    cooling stay the same from snub to snub.
    Checked against: snub by snub (computed): 65.0, 100.05, 165.15, 206.74 and 218.65 after 1, 2,
    5, 10 and 15 at 20 C, 45 K and q of 0.25.

    Examples
    --------
    >>> [round(snub_temperature(n, 20.0, 45.0, 45.0, 180.0), 2) for n in (1, 2, 5, 10, 15)]
    [65.00, 100.05, 165.15, 206.74, 218.65]
    """
    ratio = interval_s / time_constant_s
    return ambient_c + rise_k * shaped("expm1", -snub_number * ratio) / shaped("expm1", -ratio)


@formula
def snub_limit_temperature(
    ambient_c: Number, rise_k: Number, interval_s: Number, time_constant_s: Number
) -> Number:
    """Temperature that a brake settles to, just after each of many equal snubs.

    [S:limpert, ch. 3]

    Parameters
    ----------
    ambient_c : float or array
        Temperature of the air. [degC]
    rise_k : float or array
        Rise of one snub. [K]
    interval_s : float or array
        From one snub to the next. [s]
    time_constant_s : float or array
        Cooling time constant. [s]

    Returns
    -------
    temperature_c : float or array
        The limit of `snub_temperature`. [degC]

    Notes
    -----
    T = T_a + dT / (1 - e^(-q)).
    Checked against: `snub_temperature` after very many (computed): 223.44 C.

    Examples
    --------
    >>> round(snub_limit_temperature(20.0, 45.0, 45.0, 180.0), 2)
    223.44
    """
    return ambient_c - rise_k / shaped("expm1", -interval_s / time_constant_s)
