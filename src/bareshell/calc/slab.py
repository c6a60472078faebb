"""The rubbed face of a disc or drum in a stop, and how a hot drum grows.

A disc is rubbed on both faces, so each face heats half its thickness; a drum is rubbed inside only
and heats the whole of its rim. Neither is as thick as `bareshell.calc.heat` takes it in a long
stop, and then its face gets hotter than a thick body's would.
"""

from __future__ import annotations

import math
from typing import Final

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, choose, least, shaped

__all__ = ["drum_growth", "slab_face_rise", "thermal_diffusivity"]

_TERMS: Final = (1, 2, 3, 4, 5)
_THICK: Final = 0.05  # below this the far side knows nothing yet, to nine figures


@formula
def thermal_diffusivity(
    conductivity_w_m_k: Number, density_kg_m3: Number, specific_heat_j_kg_k: Number
) -> Number:
    """How fast warmth spreads through a body.

    [S:carslaw-jaeger, ch. 1]

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
    diffusivity_m2_s : float or array
        Diffusivity. [m2/s]

    Notes
    -----
    a = k / (rho c). Cast iron about 1.4e-5 (from memory).
    Checked against: its definition (computed).

    Examples
    --------
    >>> round(thermal_diffusivity(50.0, 7200.0, 500.0) * 1e6, 1)
    13.9
    """
    return conductivity_w_m_k / (density_kg_m3 * specific_heat_j_kg_k)


@formula
def slab_face_rise(
    time_s: Number,
    peak_flux_w_m2: Number,
    stop_time_s: Number,
    conductivity_w_m_k: Number,
    diffusivity_m2_s: Number,
    slab_depth_m: Number,
) -> Number:
    """Rise of the rubbed face at a moment of a steady stop to rest, however thin the body.

    [S:carslaw-jaeger, ch. 2 and 3]

    Parameters
    ----------
    time_s : float or array
        Since the stop began; beyond its end taken as its end. [s]
    peak_flux_w_m2 : float or array
        Heat into a square metre of the face at the start. [W/m2]
    stop_time_s : float or array
        How long the stop lasts. [s]
    conductivity_w_m_k : float or array
        Heat conductivity of the metal. [W/(m.K)]
    diffusivity_m2_s : float or array
        Its diffusivity. [m2/s]
    slab_depth_m : float or array
        Half the thickness of a solid disc, the whole of one cheek of a vented one, the whole of a
        drum's rim. [m]

    Returns
    -------
    rise_k : float or array
        Rise above the temperature before the stop, the mean rise in it. [K]

    Notes
    -----
    Flux falling evenly to nothing on one face of a slab, none through the other: with
    F = a t / L^2, a unit flux gives u = 2 sqrt(F / pi) while F is small and
    u = F + 1/3 - (2 / pi^2) sum e^(-n^2 pi^2 F) / n^2 later; a falling flux is that less u
    summed from the start and divided by the time of the stop, by superposition. No heat is lost
    to the air meanwhile.
    Checked against: `bareshell.calc.heat.surface_temperature_rise` for a thick body, the mean
    rise of all its heat for a thin one, and the heat equation integrated (computed).

    Examples
    --------
    >>> round(slab_face_rise(1.5, 2e6, 3.0, 50.0, 1.39e-5, 0.05))
    137
    >>> round(slab_face_rise(1.5, 2e6, 3.0, 50.0, 1.39e-5, 0.005))
    161
    """
    scale = peak_flux_w_m2 * slab_depth_m / conductivity_w_m_k
    slowness = slab_depth_m * slab_depth_m / diffusivity_m2_s
    now = least(time_s, stop_time_s) / slowness
    return scale * (_step(now) - _step_so_far(now) / (stop_time_s / slowness))


def _step(fourier: Number) -> Number:
    """Rise of the face for a steady unit flux, as the flux reckons it."""
    thick = shaped("sqrt", fourier) * (2.0 / math.sqrt(math.pi))
    thin = fourier + 1.0 / 3.0
    for n in _TERMS:
        thin = thin - shaped("exp", -((n * math.pi) ** 2) * fourier) * (2.0 / (n * math.pi) ** 2)
    return choose(fourier < _THICK, thick, thin)


def _step_so_far(fourier: Number) -> Number:
    """The same summed from the start until now."""
    thick = fourier * shaped("sqrt", fourier) * (4.0 / (3.0 * math.sqrt(math.pi)))
    thin = fourier * fourier / 2.0 + fourier / 3.0 - 1.0 / 45.0
    for n in _TERMS:
        thin = thin + shaped("exp", -((n * math.pi) ** 2) * fourier) * (2.0 / (n * math.pi) ** 4)
    return choose(fourier < _THICK, thick, thin)


@formula
def drum_growth(
    drum_radius_m: Number, temperature_change_k: Number, metal_expansion_per_k: Number
) -> Number:
    """How much a drum's radius grows as it warms: clearance that the shoes must follow.

    [S:first-principles, geometry]

    Parameters
    ----------
    drum_radius_m : float or array
        Radius inside. [m]
    temperature_change_k : float or array
        How much warmer the drum is than its shoes were set at. [K]
    metal_expansion_per_k : float or array
        Growth of the metal's length for each kelvin: 1.1e-5 for cast iron, 2.3e-5 for
        aluminium. [1/K]

    Returns
    -------
    growth_m : float or array
        Growth of the radius. [m]

    Notes
    -----
    r a dT. The open end grows more than the side that is held by its web, so a hot drum is a cone.
    Warm shoes grow too, but less. A long pedal that comes back on cooling is explained by this as
    often as by boiling fluid, and never excuses not looking for that.
    Checked against: geometry (computed); coefficients from memory.

    Examples
    --------
    >>> round(drum_growth(0.114, 200.0, 1.1e-5) * 1e3, 3)
    0.251
    """
    return drum_radius_m * temperature_change_k * metal_expansion_per_k
