"""Volumes, hoses, pipes and air: what holds for any system."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from bareshell.calc import air, hose, master, volume
from bareshell.errors import BadInput

pressures = st.floats(0.0, 1.5e7)
volumes = st.floats(0.0, 1e-5)
ATMOSPHERE = 101325.0


@given(st.floats(5e-4, 4e-3), st.floats(0.0, 5e-4))
def test_pads_take_the_same_whichever_way_the_caliper_is_built(area: float, gap: float) -> None:
    fixed = 2 * volume.piston_volume(area, gap)
    sliding = volume.piston_volume(area, 2 * gap)
    assert volume.pad_clearance_volume(area, gap) == pytest.approx(fixed)
    assert fixed == pytest.approx(sliding)


@given(pressures, st.floats(5e-4, 4e-3), st.floats(1e7, 1e9))
def test_squash_of_pads_keeps_the_work(pressure: float, area: float, stiffness: float) -> None:
    """Half of pressure times volume is what two springs hold at that clamp."""
    taken = volume.pad_squash_volume(pressure, area, stiffness)
    held = 2 * (pressure * area) ** 2 / (2 * stiffness)
    assert pressure * taken / 2 == pytest.approx(held)


def test_a_shoe_swings_as_a_lever() -> None:
    assert volume.shoe_tip_travel(0.25e-3, 0.20, 0.10) == pytest.approx(0.5e-3)
    travel = volume.shoe_tip_travel(0.25e-3, 0.20, 0.10)
    assert volume.shoe_clearance_volume(2.85e-4, travel) == pytest.approx(2 * 2.85e-4 * 0.5e-3)


@given(pressures, volumes, st.floats(0.5e9, 3e9))
def test_the_definition_of_the_bulk_modulus(
    pressure: float, fluid_volume: float, modulus: float
) -> None:
    taken = volume.fluid_compression_volume(pressure, fluid_volume, modulus)
    assert taken * modulus == pytest.approx(pressure * fluid_volume)
    assert volume.flex_volume(pressure, fluid_volume / modulus) == pytest.approx(taken)


# ------------------------------------------------------------------------ pipes


@given(st.floats(3e-3, 1e-2), st.floats(0.05, 0.4), st.floats(0.0, 0.5), pressures)
def test_a_pipe_s_stretch_against_the_strains_of_a_thick_cylinder(
    outer: float, share: float, poisson: float, pressure: float
) -> None:
    """Lame's stresses with constants solved from the two faces, then Hooke's law."""
    wall = share * outer / 2
    young = 205e9
    ro, ri = outer / 2, outer / 2 - wall
    a, b = np.linalg.solve([[1.0, -1 / ri**2], [1.0, -1 / ro**2]], [-pressure, 0.0])
    radial, hoop = a - b / ri**2, a + b / ri**2
    axial = pressure * ri**2 / (ro**2 - ri**2)
    around = (hoop - poisson * (radial + axial)) / young
    along = (axial - poisson * (radial + hoop)) / young
    bulk = math.pi * ri**2 * 3.0
    taken = volume.pipe_expansion_volume(pressure, outer, wall, 3.0, young, poisson)
    assert taken == pytest.approx(bulk * (2 * around + along), rel=1e-6, abs=1e-20)


def test_a_thin_pipe_stretches_as_a_thin_pipe() -> None:
    """P d (5/4 - nu) / (t E), the usual figure for thin walls with closed ends (from memory)."""
    bore, wall, young, poisson = 0.010, 1e-6, 205e9, 0.3
    taken = volume.pipe_expansion_volume(1e4, bore + 2 * wall, wall, 1.0, young, poisson)
    held = volume.pipe_fill_volume(bore + 2 * wall, wall, 1.0)
    assert taken / held == pytest.approx(1e4 * bore * (1.25 - poisson) / (wall * young), rel=1e-3)


def test_a_pipe_that_is_all_wall_is_refused() -> None:
    for wall in (2.38e-3, 3e-3):
        with pytest.raises(BadInput, match="leaves no bore"):
            volume.pipe_fill_volume(4.76e-3, wall, 1.0)
    with pytest.raises(BadInput, match="wall of the pipe: is nothing"):
        volume.pipe_expansion_volume(1e6, 4.76e-3, 0.0, 1.0, 205e9, 0.3)
    assert volume.pipe_fill_volume(3.2e-3, 0.0, 1.0) > 0.0  # a hose by its bore


# ------------------------------------------------------------------------ hoses


@pytest.mark.parametrize("name", hose.HOSE_CLASSES)
def test_a_hose_swells_more_for_more_and_nothing_for_nothing(name: str) -> None:
    rising = np.linspace(0.0, 3e7, 200)
    taken = hose.hose_expansion_volume(rising, np.full(200, 0.4), name)
    assert taken[0] == 0.0
    assert (np.diff(taken) > 0.0).all()
    halves = 2 * hose.hose_expansion_volume(7e6, 0.2, name)
    assert halves == pytest.approx(hose.hose_expansion_volume(7e6, 0.4, name))


@pytest.mark.parametrize("bore", ["1/8", "3/16", "1/4"])
def test_low_expansion_is_lower_than_regular(bore: str) -> None:
    """Within the table; what is recalled of 1/4 in says nothing beyond 1500 psi."""
    for pressure in (1e6, 5e6, 7e6, 1e7):
        low = hose.hose_expansion_volume(pressure, 1.0, f"{bore} low")
        assert low < hose.hose_expansion_volume(pressure, 1.0, f"{bore} regular")


def test_an_unknown_class_of_hose_is_refused_with_those_that_are_known() -> None:
    with pytest.raises(BadInput, match="1/8 low"):
        hose.hose_expansion_volume(7e6, 0.3, "garden")


# ------------------------------------------------------------------------ air


@given(st.floats(1.0, 1.5e7), st.floats(1e-9, 1e-5))
def test_boyle_keeps_pressure_times_volume(pressure: float, free: float) -> None:
    taken = air.entrained_air_volume(pressure, free, ATMOSPHERE)
    assert (pressure + ATMOSPHERE) * (free - taken) == pytest.approx(ATMOSPHERE * free)
    assert air.trapped_air(taken, pressure, ATMOSPHERE) == pytest.approx(free)


@given(
    st.floats(1e-8, 5e-6),
    st.floats(0.0, 5e-6),
    st.floats(0.0, 5e-13),
    st.floats(1e4, 1e5),
    st.floats(2e6, 1e7),
)
def test_two_pushes_tell_the_air_whatever_the_clearance(
    free: float, clearance: float, compliance: float, light: float, firm: float
) -> None:
    def given_up(pressure: float) -> float:
        squeezed = air.entrained_air_volume(pressure, free, ATMOSPHERE)
        return clearance + compliance * pressure + squeezed

    found = air.air_from_two_pushes(
        given_up(light), given_up(firm), light, firm, compliance, ATMOSPHERE
    )
    assert found == pytest.approx(free, rel=1e-6, abs=1e-12)


def test_pushes_that_tell_nothing_are_refused() -> None:
    with pytest.raises(BadInput, match="firm push"):
        air.air_from_two_pushes(1e-6, 2e-6, 5e6, 5e6, 1e-13, ATMOSPHERE)
    with pytest.raises(BadInput, match="squeezes no air"):
        air.trapped_air(1e-6, 0.0, ATMOSPHERE)


@given(st.floats(0.0, 1.5e7), st.floats(0.5e9, 3e9), st.floats(0.0, 0.05))
def test_a_mixture_s_stiffness_is_the_slope_of_fluid_and_air_together(
    pressure: float, modulus: float, share: float
) -> None:
    """-V dp/dV of one volume of fluid with its air, by central difference."""

    def room(p: float) -> float:
        taken = volume.fluid_compression_volume(p, 1.0, modulus)
        return 1.0 - taken + share - air.entrained_air_volume(p, share, ATMOSPHERE)

    step = 1.0
    slope = (room(pressure + step + 1.0) - room(pressure + 1.0)) / step
    numeric = -room(pressure + 1.0) / slope
    got = air.mixture_bulk_modulus(pressure + 1.5, modulus, share, ATMOSPHERE)
    # The formula takes the fluid's own volume as still one; the difference is p / K.
    assert got == pytest.approx(numeric, rel=2 * (pressure + 1e6) / modulus + 1e-4)


# ------------------------------------------------------------------------ the whole pedal


@given(st.floats(1e5, 1e7), st.floats(0.0, 2e-6), st.floats(1e-14, 3e-13))
def test_pieces_of_the_pedal_add_up_and_can_be_turned_back_into_pressure(
    pressure: float, free: float, compliance: float
) -> None:
    """Fluid given at a pressure; scipy finds that pressure again from the fluid."""

    def given_up(p: float) -> float:
        return (
            volume.pad_clearance_volume(1.8e-3, 1.5e-4)
            + volume.flex_volume(p, compliance)
            + hose.hose_expansion_volume(p, 0.8, "1/8 regular")
            + volume.fluid_compression_volume(p, 2e-4, 1.8e9)
            + air.entrained_air_volume(p, free, ATMOSPHERE)
        )

    stroke = master.stroke_for_volume(given_up(pressure), 0.019)
    found = brentq(lambda p: given_up(p) - master.stroke_volume(stroke, 0.019), 0.0, 2e7, xtol=1e-3)
    assert found == pytest.approx(pressure, rel=1e-6)
    assert volume.stroke_reserve(stroke, 2 * stroke) == pytest.approx(0.5)
    assert volume.stroke_reserve(2 * stroke, stroke) == pytest.approx(-1.0)
