"""The rubbed face of a slab, against the heat equation and its two limits."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from bareshell.calc import heat, slab
from bareshell.calc.values import Array, Value

CONDUCTIVITY: Value = 50.0
DENSITY, SPECIFIC = 7200.0, 500.0
DIFFUSIVITY: Value = slab.thermal_diffusivity(50.0, DENSITY, SPECIFIC)


def face(time: float | Array, flux: Value, stop: Value, depth: Value) -> Array:
    times: Value = np.asarray(time, dtype=np.float64)
    return np.asarray(slab.slab_face_rise(times, flux, stop, CONDUCTIVITY, DIFFUSIVITY, depth))


@pytest.mark.parametrize("depth", [0.003, 0.005, 0.010])
def test_the_face_against_the_heat_equation_by_lines(depth: float) -> None:
    """Two hundred layers of a slab, flux into the first, integrated by scipy."""
    flux, stop, layers = 2e6, 4.0, 200
    dx = depth / layers

    def rates(t: float, u: Array) -> Array:
        change = np.empty(layers)
        change[1:-1] = u[:-2] - 2 * u[1:-1] + u[2:]
        change[0] = u[1] - u[0] + flux * (1 - t / stop) * dx / CONDUCTIVITY
        change[-1] = u[-2] - u[-1]
        return change * DIFFUSIVITY / dx**2

    times = np.linspace(0.1, stop, 9)
    run = solve_ivp(rates, (0, stop), np.zeros(layers), "BDF", t_eval=times, rtol=1e-8, atol=1e-6)
    at_face = run.y[0] + flux * (1 - times / stop) * dx / 2 / CONDUCTIVITY
    np.testing.assert_allclose(face(times, flux, stop, depth), at_face, rtol=2e-3, atol=0.05)


@given(st.floats(0.5, 6.0), st.floats(1e5, 5e6))
def test_a_deep_slab_is_a_thick_body(stop: float, flux: float) -> None:
    effusivity = heat.thermal_effusivity(50.0, DENSITY, SPECIFIC)
    thick = heat.surface_temperature_rise(flux, stop, effusivity)
    assert face(stop / 2, flux, stop, 0.2) == pytest.approx(thick, rel=1e-9)


@given(st.floats(1e5, 5e6), st.floats(0.002, 0.012))
def test_a_long_stop_ends_at_the_mean_rise_of_all_its_heat(flux: float, depth: float) -> None:
    stop = 200.0 * depth**2 / DIFFUSIVITY
    mean = flux * stop / 2 / (DENSITY * SPECIFIC * depth)
    assert face(stop, flux, stop, depth) == pytest.approx(mean, rel=0.01)
    assert face(2 * stop, flux, stop, depth) == face(stop, flux, stop, depth)


@given(st.floats(0.5, 8.0), st.floats(0.002, 0.05))
def test_the_face_is_smooth_where_one_form_takes_over_from_the_other(
    stop: float, depth: float
) -> None:
    at = 0.05 * depth**2 / DIFFUSIVITY
    below, above = (face(at * scale, 2e6, stop, depth) for scale in (1 - 1e-9, 1 + 1e-9))
    assert below == pytest.approx(above, rel=1e-6)


@given(st.floats(0.5, 8.0), st.floats(0.002, 0.05), st.floats(0.002, 0.05))
def test_a_thinner_body_has_the_hotter_face(stop: float, one: float, other: float) -> None:
    thin, thick = sorted((one, other))
    times = np.linspace(0.0, stop, 40)
    assert np.all(
        np.asarray(face(times, 2e6, stop, thin)) >= np.asarray(face(times, 2e6, stop, thick)) - 1e-6
    )


def test_a_drum_grows_with_its_radius_and_its_warmth() -> None:
    assert slab.drum_growth(0.1, 100.0, 1.1e-5) == pytest.approx(0.11e-3)
    assert slab.drum_growth(0.1, -50.0, 1.1e-5) < 0.0
    assert math.isclose(slab.thermal_diffusivity(50.0, 7200.0, 500.0), 50 / 3.6e6)
