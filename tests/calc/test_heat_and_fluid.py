"""Heat, cooling, soak, fluid and tyres: what holds for any of them."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from bareshell.calc import cooling, fluid, heat, mixing, soak, tyre
from bareshell.calc.values import Array
from bareshell.errors import BadInput
from bareshell.sources import SOURCES

capacities = st.floats(500.0, 6e3)
links = st.floats(0.3, 10.0)


# ------------------------------------------------------------------------ heat


@given(st.floats(300.0, 2500.0), st.floats(5.0, 50.0), st.floats(0.0, 1.0), st.floats(1.0, 11.0))
def test_energy_of_a_stop_is_force_times_distance(
    mass: float, speed: float, left: float, deceleration: float
) -> None:
    energy = heat.stop_energy(mass, speed, left * speed, 1.0, 0.0)
    distance = (speed**2 - (left * speed) ** 2) / (2 * deceleration)
    assert energy == pytest.approx(mass * deceleration * distance)
    stop = heat.stop_energy(mass, speed, 0.0, 1.0, 0.0)
    peak = heat.braking_power(mass, speed, deceleration)
    assert peak == pytest.approx(2 * heat.mean_power(stop, speed / deceleration))


@given(st.floats(300.0, 2500.0), st.floats(5.0, 50.0), st.floats(0.0, 1.0))
def test_two_snubs_take_what_one_stop_takes(mass: float, speed: float, between: float) -> None:
    first = heat.stop_energy(mass, speed, between * speed, 1.05, 0.0)
    second = heat.stop_energy(mass, between * speed, 0.0, 1.05, 0.0)
    assert first + second == pytest.approx(heat.stop_energy(mass, speed, 0.0, 1.05, 0.0))


def test_drag_may_take_all_of_it_and_no_more() -> None:
    assert heat.stop_energy(1000.0, 10.0, 0.0, 1.0, 6e4) == 0.0
    assert heat.stop_energy(1000.0, 10.0, 12.0, 1.0, 0.0) == 0.0


@given(st.floats(1e3, 2e4), st.floats(500.0, 4e3))
def test_shares_of_the_heat_add_up(metal: float, lining: float) -> None:
    into_metal = heat.disc_heat_share(metal, lining)
    assert into_metal + heat.disc_heat_share(lining, metal) == pytest.approx(1.0)
    assert heat.disc_heat_share(metal, metal) == 0.5


def test_a_flash_of_heat_against_the_answer_of_a_thick_body() -> None:
    """Convolution of a falling flux with 1 / (e sqrt(pi t)), by scipy, at its greatest."""
    flux, stop, effusivity = 2e6, 3.0, 13416.0

    def rise(t: float) -> float:
        def part(root: float) -> float:  # tau = t - root^2 takes the singular end away
            return flux * (1 - (t - root**2) / stop) * 2

        return quad(part, 0.0, math.sqrt(t))[0] / (effusivity * math.sqrt(math.pi))

    times = np.linspace(0.05, stop, 2000)
    rises = np.array([rise(t) for t in times[:: len(times) // 200]])
    got = heat.surface_temperature_rise(flux, stop, effusivity)
    assert got == pytest.approx(rises.max(), rel=1e-3)
    assert got == pytest.approx(rise(stop / 2), rel=1e-9)


@given(st.floats(1.0, 40.0), st.floats(5.0, 120.0), st.floats(0.02, 3.0))
def test_snubs_against_snub_by_snub(number: float, rise: float, ratio: float) -> None:
    count = float(round(number))
    temperature = 15.0
    for _ in range(int(count)):
        temperature = 15.0 + (temperature - 15.0) * math.exp(-ratio) + rise
    assert heat.snub_temperature(count, 15.0, rise, ratio, 1.0) == pytest.approx(temperature)
    limit = heat.snub_limit_temperature(15.0, rise, ratio, 1.0)
    assert temperature <= limit + 1e-9
    assert heat.snub_temperature(5e3, 15.0, rise, ratio, 1.0) == pytest.approx(limit)


def test_no_snub_leaves_the_brake_as_warm_as_the_air() -> None:
    assert heat.snub_temperature(0.0, 15.0, 45.0, 45.0, 180.0) == 15.0


# ------------------------------------------------------------------------ cooling


@given(st.floats(50.0, 700.0), st.floats(-20.0, 40.0), st.floats(0.1, 1.0))
def test_radiation_carries_what_the_fourth_powers_say(
    hot: float, cold: float, emissivity: float
) -> None:
    from scipy.constants import Stefan_Boltzmann, zero_Celsius

    flow = cooling.radiation_coefficient(hot, cold, emissivity) * (hot - cold)
    fourth = (hot + zero_Celsius) ** 4 - (cold + zero_Celsius) ** 4
    assert flow == pytest.approx(emissivity * Stefan_Boltzmann * fourth, rel=1e-9)


def test_a_disc_cools_better_the_faster_it_goes_with_a_small_step_between_the_two_rules() -> None:
    speeds = np.linspace(0.0, 50.0, 400)
    one = np.ones(400)
    got = cooling.disc_cooling_coefficient(speeds, 0.26 * one, 0.03 * one, 2e-5 * one)
    assert (np.diff(got) > 0.0).all()
    at = 2.4e5 * 2e-5 / 0.26
    below = cooling.disc_cooling_coefficient(at * 0.9999, 0.26, 0.03, 2e-5)
    above = cooling.disc_cooling_coefficient(at * 1.0001, 0.26, 0.03, 2e-5)
    assert above / below == pytest.approx(1.26, abs=0.02)
    assert got[0] == 0.0  # at a standstill still air is all there is
    assert cooling.STILL_AIR_W_M2_K == (3.0, 5.0)


@given(st.floats(0.0, 5e3), st.floats(-10.0, 40.0), st.floats(5.0, 150.0), st.floats(0.02, 0.3))
def test_a_steady_brake_gives_what_it_takes(
    power: float, ambient: float, coefficient: float, area: float
) -> None:
    steady = cooling.steady_temperature(power, ambient, coefficient, area)
    assert coefficient * area * (steady - ambient) == pytest.approx(power, abs=1e-6)


@given(st.floats(0.0, 3e3), st.floats(0.0, 500.0), st.floats(20.0, 600.0), st.floats(60.0, 900.0))
def test_warming_follows_its_own_law_and_settles(
    time: float, start: float, steady: float, tau: float
) -> None:
    here = cooling.heating_temperature(time, start, steady, tau)
    later = cooling.heating_temperature(time + 1e-3, start, steady, tau)
    assert (later - here) / 1e-3 == pytest.approx((steady - here) / tau, abs=1e-2)
    assert cooling.heating_temperature(0.0, start, steady, tau) == pytest.approx(start)
    assert cooling.heating_temperature(60 * tau, start, steady, tau) == pytest.approx(steady)


@given(st.floats(5e3, 2e4), st.floats(1.0, 30.0), st.floats(0.0, 0.3), st.floats(0.0, 500.0))
def test_a_descent_spends_the_height_it_loses(
    weight: float, speed: float, grade: float, drag: float
) -> None:
    height = speed * math.sin(math.atan(grade))
    power = cooling.descent_power(weight, speed, grade, drag)
    assert power == pytest.approx(max(weight * height - drag * speed, 0.0), abs=1e-6)
    assert cooling.descent_power(weight, speed, -grade, drag) == 0.0  # uphill asks no brakes


# ------------------------------------------------------------------------ soak


@pytest.mark.parametrize(
    "car",
    [
        (400.0, 80.0, 20.0, 2500.0, 2000.0, 2.0, 1.2, 0.8),
        (600.0, 60.0, -5.0, 4000.0, 800.0, 5.0, 0.5, 0.0),
        (80.0, 300.0, 20.0, 2500.0, 2000.0, 2.0, 1.2, 0.8),  # the caliper only cools
    ],
)
def test_the_soak_against_integration(car: tuple[float, ...]) -> None:
    """Scipy integrates the chain's rates; the closed form and its peak are compared with that."""
    disc, caliper, ambient, of_disc, of_caliper, link, loss, small = car

    def rates(_t: float, state: Array) -> tuple[float, ...]:
        return soak.chain_rates(
            (float(state[0]), float(state[1])),
            (of_disc, of_caliper),
            (link,),
            (loss, small),
            ambient,
        )

    times = np.linspace(0.0, 6000.0, 1201)
    run = solve_ivp(rates, (0.0, 6000.0), [disc, caliper], t_eval=times, rtol=1e-9, atol=1e-9)
    one = np.ones_like(times)
    got = soak.two_lump_soak(times, *(value * one for value in car))
    np.testing.assert_allclose(got.disc_c, run.y[0], atol=1e-3)
    np.testing.assert_allclose(got.caliper_c, run.y[1], atol=1e-3)
    peak = soak.two_lump_peak(*car)
    assert peak.caliper_c == pytest.approx(run.y[1].max(), abs=0.01)
    assert peak.time_s == pytest.approx(times[run.y[1].argmax()], abs=5.0)


@given(st.floats(50.0, 700.0), st.floats(20.0, 300.0), capacities, capacities, links, links, links)
def test_the_soak_s_peak_is_the_greatest_there_is(
    disc: float, caliper: float, one: float, other: float, link: float, loss: float, small: float
) -> None:
    car = (disc, caliper, 20.0, one, other, link, loss, small)
    peak = soak.two_lump_peak(*car)
    times = np.linspace(0.0, 20 * (one + other) / min(link, loss, small), 300)
    everywhere = soak.two_lump_soak(times, *(np.full(300, value) for value in car))
    assert peak.caliper_c >= everywhere.caliper_c.max() - 1e-6
    there = soak.two_lump_soak(peak.time_s, *car)
    assert there.caliper_c == pytest.approx(peak.caliper_c)


@given(
    st.lists(st.floats(0.0, 600.0), min_size=2, max_size=5),
    st.lists(st.floats(200.0, 5e3), min_size=5, max_size=5),
    st.lists(st.floats(0.0, 8.0), min_size=5, max_size=5),
)
def test_a_chain_loses_heat_only_to_the_air(
    temperatures: list[float], capacity: list[float], flow: list[float]
) -> None:
    count = len(temperatures)
    inside = soak.chain_rates(
        tuple(temperatures),
        tuple(capacity[:count]),
        tuple(flow[: count - 1]),
        (0.0,) * count,
        20.0,
    )
    assert sum(c * r for c, r in zip(capacity, inside, strict=False)) == pytest.approx(
        0.0, abs=1e-6
    )
    at_rest = soak.chain_rates(
        (20.0,) * count, tuple(capacity[:count]), tuple(flow[1:count]), tuple(flow[:count]), 20.0
    )
    assert at_rest == pytest.approx((0.0,) * count, abs=1e-12)


def test_a_chain_whose_counts_do_not_fit_is_refused() -> None:
    with pytest.raises(BadInput, match="2 temperatures come with 2 capacities, 2 links"):
        soak.chain_rates((400.0, 80.0), (2500.0, 2000.0), (2.0, 1.0), (1.2, 0.8), 20.0)


# ------------------------------------------------------------------------ fluid


@given(st.floats(0.0, 0.12), st.floats(0.0, 0.12), st.sampled_from(list(fluid.FLUID_GRADES)))
def test_more_water_never_boils_later(one: float, other: float, grade: str) -> None:
    less, more = sorted((one, other))
    entry = fluid.FLUID_GRADES[grade]
    for at in ("low_c", "high_c"):
        drier = getattr(fluid.boiling_point_span(less, grade), at)
        assert getattr(fluid.boiling_point_span(more, grade), at) <= drier + 1e-9
    dry = fluid.boiling_point(less, entry.dry_c, entry.wet_c)
    assert 100.0 <= fluid.boiling_point(more, entry.dry_c, entry.wet_c) <= dry + 1e-9


@given(st.floats(0.0, 0.12), st.sampled_from(list(fluid.FLUID_GRADES)))
def test_the_single_figure_of_a_glycol_grade_lies_in_its_span(water: float, grade: str) -> None:
    entry = fluid.FLUID_GRADES[grade]
    span = fluid.boiling_point_span(water, grade)
    assert span.low_c <= span.high_c
    if entry.base == "glycol":
        assert span.low_c <= fluid.boiling_point(water, entry.dry_c, entry.wet_c) <= span.high_c


def test_any_free_water_in_silicone_boils_as_water() -> None:
    dry, damp = (fluid.boiling_point_span(water, "DOT 5") for water in (0.0, 0.001))
    assert dry == (260.0, 260.0)
    assert damp == (100.0, 260.0)


def test_fluid_that_is_not_known_is_refused() -> None:
    with pytest.raises(BadInput, match=r"DOT 5\.1"):
        fluid.boiling_point_span(0.01, "DOT 6")
    with pytest.raises(BadInput, match="wet boiling point"):
        fluid.boiling_point(0.01, 155.0, 155.0)
    with pytest.raises(BadInput, match="glycol, silicone, mineral"):
        fluid.bulk_modulus_span(20.0, "castor")


@pytest.mark.parametrize("grade", fluid.FLUID_GRADES.values(), ids=list(fluid.FLUID_GRADES))
def test_a_grade_names_a_known_source(grade: fluid.FluidGrade) -> None:
    assert grade.source_id in SOURCES
    assert grade.wet_c < grade.dry_c
    if grade.mark == "read second-hand":
        assert SOURCES[grade.source_id].mark in {"read", "read second-hand"}


@given(st.floats(0.0, 30.0), st.floats(0.0, 30.0))
def test_fluid_takes_up_water_as_it_ages(one: float, other: float) -> None:
    younger, older = (fluid.water_share_span(age) for age in sorted((one, other)))
    assert younger.low <= younger.usual <= younger.high <= 0.08
    for before, after in zip(younger, older, strict=True):
        assert before <= after + 1e-12


@given(st.floats(-60.0, 250.0), st.sampled_from(list(fluid.BULK_MODULI)))
def test_hot_fluid_is_softer(celsius: float, base: str) -> None:
    here, hotter = (fluid.bulk_modulus_span(t, base) for t in (celsius, celsius + 10.0))
    assert 0.0 < hotter.low_pa <= here.low_pa
    assert hotter.high_pa <= here.high_pa
    assert here.low_pa < here.high_pa


@given(
    st.floats(-30.0, 60.0), st.floats(1e-6, 1e-3), st.floats(0.5e9, 2.5e9), st.floats(0.0, 1e-12)
)
def test_a_closed_line_balances_its_volumes(
    change: float, shut_in: float, modulus: float, compliance: float
) -> None:
    rise = fluid.closed_line_pressure_change(change, shut_in, 9e-4, 3.6e-5, modulus, compliance)
    grown = shut_in * (9e-4 - 3.6e-5) * change
    given_way = rise * (shut_in / modulus + compliance)
    assert grown == pytest.approx(given_way)
    rigid = fluid.closed_line_pressure_change(change, shut_in, 9e-4, 3.6e-5, modulus, 0.0)
    assert abs(rise) <= abs(rigid) + 1e-9


def test_nothing_shut_in_changes_nothing() -> None:
    assert fluid.closed_line_pressure_change(10.0, 0.0, 9e-4, 3.6e-5, 1.8e9, 0.0) == 0.0


BASES = ("glycol", "silicone", "mineral")
RUBBERS = ("natural", "SBR", "EPDM", "nitrile")


@pytest.mark.parametrize(("one", "other"), list(product(BASES, BASES)))
def test_every_pair_of_bases_has_one_rule_whichever_way_round(one: str, other: str) -> None:
    rule = mixing.mixing_rule(one, other)
    assert rule is mixing.mixing_rule(other, one)
    assert rule.mixes == (one == other)
    assert rule.because
    assert rule.source_id in SOURCES


@pytest.mark.parametrize(("base", "rubber"), list(product(BASES, RUBBERS)))
def test_every_rubber_has_one_rule_for_every_base(base: str, rubber: str) -> None:
    rule = mixing.seal_rule(base, rubber)
    assert (rule.base, rule.rubber) == (base, rubber)
    assert rule.source_id in SOURCES
    if base == "mineral":  # what suits glycol is ruined by mineral oil, and the other way about
        assert (rule.suits == "suits") == (rubber == "nitrile")


def test_a_pair_that_is_not_known_is_refused() -> None:
    with pytest.raises(BadInput, match="Known are glycol, silicone, mineral"):
        mixing.mixing_rule("glycol", "castor")
    with pytest.raises(BadInput, match="natural, SBR, EPDM, nitrile"):
        mixing.seal_rule("glycol", "leather")


# ------------------------------------------------------------------------ tyres


@pytest.mark.parametrize(
    ("marking", "width_mm", "aspects", "rim_in", "construction"),
    [
        ("185/60R14", 185, (0.60, 0.60), 14, "radial"),
        ("185/60 R 14 82H", 185, (0.60, 0.60), 14, "radial"),
        ("P215/65R15", 215, (0.65, 0.65), 15, "radial"),
        ("185/70HR13", 185, (0.70, 0.70), 13, "radial"),
        ("155R13", 155, (0.80, 0.82), 13, "radial"),
        ("165 SR 15", 165, (0.80, 0.82), 15, "radial"),
        ("5.60-13", 142.24, (0.93, 0.97), 13, "cross-ply"),
        ("195/50ZR15", 195, (0.50, 0.50), 15, "radial"),
        ("5.60 × 15", 142.24, (0.93, 0.97), 15, "cross-ply"),
        ("5.60 S 13", 142.24, (0.93, 0.97), 13, "cross-ply"),
        ("6.15-13", 156.21, (0.80, 0.84), 13, "cross-ply"),
        ("190/65R390", 190, (0.65, 0.65), 390 / 25.4, "radial"),
    ],
)
def test_sizes_as_they_stand_on_sidewalls(
    marking: str, width_mm: float, aspects: tuple[float, float], rim_in: float, construction: str
) -> None:
    size = tyre.tyre_size(marking)
    assert size.section_width_m * 1e3 == pytest.approx(width_mm)
    assert (size.aspect_low, size.aspect_high) == pytest.approx(aspects)
    assert size.rim_diameter_m / 0.0254 == pytest.approx(rim_in)
    assert size.construction == construction
    assert bool(size.note) == (size.aspect_low < size.aspect_high)


@pytest.mark.parametrize(
    ("marking", "diameter_mm"),
    [("155R13", 578.0), ("5.60-13", 600.0), ("165R15", 646.0), ("5.20-10", 508.0)],
)
def test_common_diameters_lie_in_the_span_of_their_size(marking: str, diameter_mm: float) -> None:
    """Diameters from memory of makers' tables, to within a makers' spread of one per cent."""
    size = tyre.tyre_size(marking)
    low, high = (
        2e3 * tyre.free_radius(size.section_width_m, aspect, size.rim_diameter_m)
        for aspect in (size.aspect_low, size.aspect_high)
    )
    assert 0.99 * low <= diameter_mm <= 1.01 * high
    assert (
        low
        <= 2e3 * tyre.free_radius(size.section_width_m, size.aspect_ratio, size.rim_diameter_m)
        <= high
    )


@pytest.mark.parametrize("marking", ["", "wide", "185", "185/60", "60R14", "R14", "5.60"])
def test_what_is_no_size_is_refused(marking: str) -> None:
    with pytest.raises(BadInput, match="no size that is known here"):
        tyre.tyre_size(marking)


@given(st.floats(0.2, 0.45))
def test_a_loaded_tyre_stands_lower_than_it_rolls_and_rolls_shorter_than_it_is(
    free: float,
) -> None:
    rolling = tyre.rolling_radius(free, "radial")
    assert tyre.loaded_radius(free) < rolling < free
    assert tyre.rolling_radius(free, "cross-ply") < rolling
    with pytest.raises(BadInput, match="radial or cross-ply"):
        tyre.rolling_radius(free, "solid")


@given(st.floats(0.1, 60.0), st.floats(0.0, 1.0), st.floats(0.2, 0.4))
def test_slip_runs_from_rolling_to_locked(speed: float, turning: float, radius: float) -> None:
    assert tyre.braking_slip(speed, turning * speed / radius, radius) == pytest.approx(
        1 - turning, abs=1e-12
    )
    force = tyre.force_at_road(500.0, radius)
    assert tyre.torque_at_wheel(force, radius) == pytest.approx(500.0)


def test_a_car_that_stands_has_no_slip() -> None:
    with pytest.raises(BadInput, match="speed of the car"):
        tyre.braking_slip(0.0, 10.0, 0.29)
