"""Discs, shoes and drums: what holds for any of them."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import approx_fprime

from bareshell.calc import disc, drum, long_shoe, shoe
from bareshell.calc.master import bore_area
from bareshell.calc.values import Array
from bareshell.errors import BadInput

pressures = st.floats(0.0, 1.5e7)
frictions = st.floats(0.05, 0.6)
arms = st.floats(0.05, 0.25)


# ------------------------------------------------------------------------ discs


@given(st.lists(st.floats(0.02, 0.06), min_size=1, max_size=3))
def test_a_fixed_caliper_clamps_with_one_side(bores: list[float]) -> None:
    both_sides = tuple(bores) + tuple(bores)
    assert disc.fixed_caliper_area(both_sides) == pytest.approx(
        disc.sliding_caliper_area(tuple(bores))
    )
    assert disc.sliding_caliper_area(tuple(bores)) == pytest.approx(sum(map(bore_area, bores)))


@given(pressures, st.floats(5e-4, 4e-3), st.floats(0.0, 3e5), st.floats(0.0, 1e6))
def test_disc_torque_is_affine_above_its_threshold(
    pressure: float, area: float, threshold: float, more: float
) -> None:
    def torque(p: float) -> float:
        return disc.disc_torque(disc.clamp_force(p, area, threshold, 0.97), 0.4, 0.1)

    assert torque(threshold) == 0.0
    slope = 2 * 0.4 * 0.97 * area * 0.1
    above = threshold + pressure
    assert torque(above) == pytest.approx(slope * pressure, abs=1e-9)
    assert torque(above + more) - torque(above) == pytest.approx(slope * more, abs=1e-6)


@given(pressures, st.floats(5e-4, 4e-3), st.floats(5e-4, 4e-3))
def test_circuits_into_one_caliper_add_up(pressure: float, one: float, other: float) -> None:
    apart = disc.clamp_force_of_circuits((pressure, pressure), (one, other), 5e4, 0.97)
    together = disc.clamp_force(pressure, one + other, 5e4, 0.97)
    assert apart == pytest.approx(together)
    blanked = disc.clamp_force_of_circuits((pressure, 0.0), (one, other), 5e4, 0.97)
    assert blanked == pytest.approx(disc.clamp_force(pressure, one, 5e4, 0.97))


def test_a_circuit_without_its_area_is_refused() -> None:
    with pytest.raises(BadInput, match="there are 1 for 2 pressures"):
        disc.clamp_force_of_circuits((5e6, 5e6), (9e-4,), 0.0, 1.0)
    with pytest.raises(BadInput, match="bore of a piston: is missing"):
        disc.fixed_caliper_area(())


@given(st.floats(0.02, 0.2), st.floats(0.001, 0.1))
def test_effective_radii_lie_in_the_ring_and_agree_when_it_is_narrow(
    inner: float, width: float
) -> None:
    outer = inner + width
    worn = disc.effective_radius_uniform_wear(outer, inner)
    new = disc.effective_radius_uniform_pressure(outer, inner)
    assert inner < worn <= new < outer
    assert new - worn <= width**2 / inner


@given(st.floats(0.02, 0.2), st.floats(0.001, 0.1))
def test_effective_radii_are_means_over_the_ring(inner: float, width: float) -> None:
    """Even pressure weighs each ring by its circumference, even wear weighs all alike."""
    outer = inner + width
    force = quad(lambda r: r, inner, outer)[0]
    moment = quad(lambda r: r**2, inner, outer)[0]
    assert disc.effective_radius_uniform_pressure(outer, inner) == pytest.approx(moment / force)
    moment, force = quad(lambda r: r, inner, outer)[0], width
    assert disc.effective_radius_uniform_wear(outer, inner) == pytest.approx(moment / force)


@pytest.mark.parametrize(
    "ring",
    [disc.effective_radius_uniform_pressure, disc.effective_radius_uniform_wear],
)
def test_a_ring_with_no_width_is_refused(ring: Callable[..., Any]) -> None:
    for inner in (0.12, 0.13, np.array([0.08, 0.13])):
        with pytest.raises(BadInput, match="inner radius of the rubbed ring"):
            ring(0.12 + 0.0 * inner, inner)


@given(st.floats(10.0, 3e3), st.floats(0.1, 0.6), st.floats(5e-4, 4e-3))
def test_pressure_for_a_torque_gives_that_torque(
    torque: float, friction: float, area: float
) -> None:
    pressure = disc.pressure_for_disc_torque(torque, friction, 0.1, area, 5e4, 0.97)
    clamp = disc.clamp_force(pressure, area, 5e4, 0.97)
    assert disc.disc_torque(clamp, friction, 0.1) == pytest.approx(torque)


def test_no_friction_gives_no_torque_at_any_pressure() -> None:
    with pytest.raises(BadInput, match="friction"):
        disc.pressure_for_disc_torque(400.0, 0.0, 0.1, 1.8e-3, 0.0, 1.0)
    with pytest.raises(BadInput, match="friction"):
        long_shoe.long_shoe_lining_pressure(400.0, 0.0, 0.04, 0.15, 0.0, 2.0)


# ------------------------------------------------------------------------ short shoes


def short(friction: float, arm: float, pivot: float, reach: float) -> tuple[float, ...]:
    """Friction, lining factor and arms, with friction well below what would lock the shoe."""
    locking = shoe.self_locking_friction(1.15, pivot, reach)
    return min(friction, 0.9 * locking), 1.15, arm, pivot, reach


@given(frictions, arms, arms, arms)
def test_a_shoe_is_in_balance_about_its_pivot(
    friction: float, arm: float, pivot: float, reach: float
) -> None:
    """One newton on the tip: F a = N b -/+ K mu N c, with K mu N the drag at the drum."""
    given_ = short(friction, arm, pivot, reach)
    mu, factor = given_[0], given_[1]
    for turn, drag in (
        (-1.0, shoe.leading_shoe_factor(*given_)),
        (1.0, shoe.trailing_shoe_factor(*given_)),
    ):
        normal = drag / (factor * mu)
        assert 1.0 * arm == pytest.approx(normal * pivot + turn * drag * reach)


@given(frictions, arms, arms, arms)
def test_a_leading_shoe_drags_more_than_a_trailing_one(
    friction: float, arm: float, pivot: float, reach: float
) -> None:
    given_ = short(friction, arm, pivot, reach)
    leading, trailing = shoe.leading_shoe_factor(*given_), shoe.trailing_shoe_factor(*given_)
    assert leading > trailing > 0.0
    # Both are one curve, for friction and for friction turned about.
    locking = shoe.self_locking_friction(1.15, pivot, reach)
    share = given_[0] / locking
    assert leading * (1 - share) == pytest.approx(trailing * (1 + share))


@given(frictions, arms, arms, arms)
def test_sensitivity_is_the_slope_taken_numerically(
    friction: float, arm: float, pivot: float, reach: float
) -> None:
    mu, factor, *_ = short(friction, arm, pivot, reach)
    locking = shoe.self_locking_friction(factor, pivot, reach)

    def relative(of: Callable[..., float]) -> float:
        here = of(mu, factor, arm, pivot, reach)

        def along(x: Array) -> float:
            return of(float(x[0]), factor, arm, pivot, reach)

        slope = approx_fprime(np.array([mu]), along, 1e-8)
        return float(slope[0]) * mu / float(here)

    assert relative(shoe.leading_shoe_factor) == pytest.approx(
        shoe.leading_sensitivity(mu, locking), rel=1e-4
    )
    assert relative(shoe.trailing_shoe_factor) == pytest.approx(
        shoe.trailing_sensitivity(mu, locking), rel=1e-4
    )


def test_friction_that_locks_a_shoe_is_refused_alone_and_among_samples() -> None:
    locking = shoe.self_locking_friction(1.146, 0.10, 0.11)
    with pytest.raises(BadInput, match="locks by itself"):
        shoe.leading_shoe_factor(locking, 1.146, 0.2, 0.10, 0.11)
    many = np.array([0.3, locking * 1.01])
    with pytest.raises(BadInput, match="locks by itself"):
        shoe.leading_shoe_factor(many, *(np.full(2, x) for x in (1.146, 0.2, 0.10, 0.11)))
    with pytest.raises(BadInput, match="locks by itself"):
        shoe.leading_sensitivity(0.8, 0.8)
    near = shoe.leading_shoe_factor(0.9999 * locking, 1.146, 0.2, 0.10, 0.11)
    assert near > 1e3


@given(st.floats(1e-3, math.pi))
def test_lining_factor_grows_from_one_to_a_half_circle_s(arc: float) -> None:
    factor = shoe.lining_factor(arc)
    assert factor + 1e-12 >= 1.0
    assert factor <= 4.0 / math.pi + 1e-12
    # With pressure as a cosine about the middle: torque over radius, against the normal force.
    drag = quad(math.cos, -arc / 2, arc / 2)[0]
    normal = quad(lambda t: math.cos(t) ** 2, -arc / 2, arc / 2)[0]
    assert factor == pytest.approx(drag / normal)


@given(pressures, st.floats(0.012, 0.03), st.floats(0.0, 300.0))
def test_shoe_force_is_affine_above_its_springs(pressure: float, bore: float, pull: float) -> None:
    beats = pull / bore_area(bore)
    assert shoe.shoe_force(beats, bore, pull, 1.0) == pytest.approx(0.0, abs=1e-6)
    got = shoe.shoe_force(beats + pressure, bore, pull, 1.0)
    assert got == pytest.approx(pressure * bore_area(bore), abs=1e-6)
    back = shoe.pressure_for_shoe_force(got, bore, pull, 1.0)
    assert back == pytest.approx(beats + pressure, abs=1e-3)


# ------------------------------------------------------------------------ long shoes and drums

long_drums = st.tuples(
    st.floats(0.08, 0.20),
    st.floats(0.5, 0.95),
    st.floats(0.0, 1.0),
    st.floats(0.5, 2.1),
)


@given(long_drums)
def test_long_shoe_integrals_against_quadrature(drum_shape: tuple[float, ...]) -> None:
    radius, share, toe, span = drum_shape
    pivot, heel = radius * share, toe + span
    assume(heel <= math.pi)
    got = long_shoe.long_shoe_integrals(radius, pivot, toe, heel)
    sine = math.sin
    assert got.normal_m == pytest.approx(quad(lambda t: pivot * sine(t) ** 2, toe, heel)[0])
    assert got.drag_m == pytest.approx(quad(lambda t: radius * sine(t), toe, heel)[0])
    assert got.friction_m == pytest.approx(
        quad(lambda t: sine(t) * (radius - pivot * math.cos(t)), toe, heel)[0]
    )


@given(long_drums, frictions)
def test_a_long_shoe_obeys_the_same_curve_as_a_short_one(
    drum_shape: tuple[float, ...], friction: float
) -> None:
    radius, share, toe, span = drum_shape
    heel = toe + span
    assume(heel <= math.pi)
    shape = (radius, radius * share)
    locking = long_shoe.long_self_locking_friction(*shape, toe, heel)
    mu = min(friction, 0.9 * locking)
    arm = 1.7 * radius * share
    leading = long_shoe.long_leading_factor(mu, *shape, arm, toe, heel)
    trailing = long_shoe.long_trailing_factor(mu, *shape, arm, toe, heel)
    touchy = shoe.leading_sensitivity(mu, locking)
    assert leading / trailing == pytest.approx((1 + mu / locking) / (1 - mu / locking))
    more = long_shoe.long_leading_factor(mu * (1 + 1e-7), *shape, arm, toe, heel)
    assert (more / leading - 1) / 1e-7 == pytest.approx(touchy, rel=1e-3)


@pytest.mark.parametrize(
    ("pivot", "toe", "heel", "field"),
    [
        (0.15, 0.2, 2.0, "radius of the shoe's pivot"),
        (0.12, 1.0, 0.9, "angle where the lining ends"),
        (0.12, 1.0, 1.0, "angle where the lining ends"),
    ],
)
def test_a_shoe_that_cannot_be_is_refused(
    pivot: float, toe: float, heel: float, field: str
) -> None:
    with pytest.raises(BadInput, match=field):
        long_shoe.long_shoe_integrals(0.15, pivot, toe, heel)
    drums, pivots = np.array([0.15, 0.15]), np.array([0.12, pivot])
    with pytest.raises(BadInput, match=field):
        long_shoe.long_shoe_integrals(drums, pivots, np.array([0.2, toe]), np.array([2.0, heel]))


def test_a_lining_may_reach_half_a_turn_from_its_pivot() -> None:
    whole = long_shoe.long_shoe_integrals(0.15, 0.12, 0.0, math.pi)
    assert whole.drag_m == pytest.approx(0.30)
    assert whole.normal_m == pytest.approx(0.12 * math.pi / 2)


def test_lining_pressure_of_a_long_shoe_carries_its_torque() -> None:
    """Torque again from the pressure, by quadrature over the lining."""
    toe, heel, width, radius, mu = 0.3, 2.0, 0.04, 0.15, 0.35
    top = long_shoe.long_shoe_lining_pressure(300.0, mu, width, radius, toe, heel)
    drag = quad(lambda t: mu * top * math.sin(t) * width * radius**2, toe, heel)[0]
    assert drag == pytest.approx(300.0)
    # A lining that ends before a quarter turn is pressed hardest at its end.
    short_top = long_shoe.long_shoe_lining_pressure(300.0, mu, width, radius, 0.3, 1.0)
    drag = quad(
        lambda t: mu * short_top * math.sin(t) / math.sin(1.0) * width * radius**2, 0.3, 1.0
    )[0]
    assert drag == pytest.approx(300.0)


@given(st.floats(0.1, 3.0), st.floats(0.1, 3.0), arms, arms)
def test_a_duo_servo_s_primary_shoe_is_in_balance_about_the_drum_s_centre(
    primary: float, secondary: float, above: float, below: float
) -> None:
    radius = 0.125
    whole = drum.duo_servo_factor(primary, secondary, radius, above, below)
    link = (whole - primary) / secondary
    assert link * below == pytest.approx(1.0 * above + primary * radius)


@given(st.floats(0.2, 3.0), st.floats(0.1, 1.0), st.floats(0.0, 4e3))
def test_drums_compare_as_they_should(leading: float, trailing: float, force: float) -> None:
    assume(leading > trailing)
    simplex = drum.simplex_factor(leading, trailing)
    assert (
        drum.twin_trailing_factor(trailing)
        < simplex
        < drum.twin_leading_factor(leading)
        < drum.duo_servo_factor(leading, leading, 0.114, 0.09, 0.09)
    )
    assert drum.drum_torque(force, simplex, 0.114) == pytest.approx(
        drum.drum_torque(force, leading, 0.114) + drum.drum_torque(force, trailing, 0.114)
    )


@given(frictions, arms, arms, arms)
def test_a_drum_s_sensitivity_is_its_slope_taken_numerically(
    friction: float, arm: float, pivot: float, reach: float
) -> None:
    mu, factor, *_ = short(friction, arm, pivot, reach)
    locking = shoe.self_locking_friction(factor, pivot, reach)
    spread = (0.125, 0.09, 0.10)

    def factors(x: float) -> tuple[float, float]:
        here = (x, factor, arm, pivot, reach)
        return shoe.leading_shoe_factor(*here), shoe.trailing_shoe_factor(*here)

    def relative(whole: Callable[[float, float], float]) -> float:
        step = 1e-7 * mu
        rise = whole(*factors(mu + step)) - whole(*factors(mu - step))
        return rise / (2 * step) * mu / whole(*factors(mu))

    touchy = shoe.leading_sensitivity(mu, locking), shoe.trailing_sensitivity(mu, locking)
    assert drum.simplex_sensitivity(*factors(mu), *touchy) == pytest.approx(
        relative(drum.simplex_factor), rel=1e-5
    )
    leading = factors(mu)[0]
    assert drum.duo_servo_sensitivity(
        leading, leading, touchy[0], touchy[0], *spread
    ) == pytest.approx(relative(lambda a, _b: drum.duo_servo_factor(a, a, *spread)), rel=1e-5)


def test_a_disc_is_less_touchy_than_any_drum_and_a_duo_servo_the_most() -> None:
    leading, trailing = shoe.leading_sensitivity(0.4, 0.9), shoe.trailing_sensitivity(0.4, 0.9)
    simplex = drum.simplex_sensitivity(1.5, 0.57, leading, trailing)
    duo = drum.duo_servo_sensitivity(1.5, 1.5, leading, leading, 0.15, 0.125, 0.125)
    assert 1.0 < simplex < leading < duo
