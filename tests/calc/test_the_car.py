"""Loads, balance, stopping, pull and slopes: what holds for any car."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from bareshell.calc import balance, disc, loads, master, parking, pedal, slope, stopping, tyre
from bareshell.calc.values import Array
from bareshell.errors import BadInput

weights = st.floats(5e3, 2e4)
wheelbases = st.floats(1.8, 3.2)
places = st.floats(0.3, 0.7)  # of the centre of gravity, as a share of the wheelbase
heights = st.floats(0.35, 0.8)
shares = st.floats(0.05, 0.6)
decelerations = st.floats(0.0, 1.0)


# ------------------------------------------------------------------------ loads


@given(weights, wheelbases, places, heights, st.floats(0.0, 3.0))
def test_axle_loads_add_up_to_the_weight(
    weight: float, wheelbase: float, place: float, height: float, z: float
) -> None:
    axles = loads.axle_loads(weight, wheelbase, place * wheelbase, height, z)
    assert axles.front_n + axles.rear_n == pytest.approx(weight)
    assert axles.rear_n >= 0.0


@given(weights, wheelbases, places, heights)
def test_weighing_gives_back_where_the_centre_of_gravity_stands(
    weight: float, wheelbase: float, place: float, height: float
) -> None:
    axles = loads.axle_loads(weight, wheelbase, place * wheelbase, height, 0.0)
    found = loads.cg_position(axles.front_n, axles.rear_n, wheelbase)
    assert found.behind_front_m == pytest.approx(place * wheelbase)
    assert found.behind_front_m + found.ahead_of_rear_m == pytest.approx(wheelbase)


@given(weights, wheelbases, places, heights, st.floats(0.2, 0.9), st.floats(0.25, 0.34))
def test_tilting_gives_back_the_height(
    weight: float, wheelbase: float, place: float, height: float, rise: float, radius: float
) -> None:
    """Moments of the tilted frame about the lower axle's contact, with the front one left down."""
    assume(height > radius)
    angle = math.asin(rise / wheelbase)
    above = height - radius
    # From the front wheels' centre, along the ground: the centre of gravity, and the rear wheels'.
    along = place * wheelbase * math.cos(angle) - above * math.sin(angle)
    rear = weight * along / (wheelbase * math.cos(angle))
    level = weight * place
    line = loads.axle_line_height(radius, radius, place * wheelbase, wheelbase)
    found = loads.cg_height_from_tilt(weight, wheelbase, level - rear, rise, line)
    assert found == pytest.approx(height)


def test_what_no_car_can_be_is_refused() -> None:
    with pytest.raises(BadInput, match="both zero"):
        loads.cg_position(0.0, 0.0, 2.4)
    with pytest.raises(BadInput, match="below the wheelbase"):
        loads.cg_height_from_tilt(1e4, 2.4, 300.0, 2.4, 0.29)
    with pytest.raises(BadInput, match="between the axles"):
        loads.axle_loads(1e4, 2.4, 2.5, 0.5, 0.3)
    many, one = np.array([1.1, 2.5]), np.ones(2)
    with pytest.raises(BadInput, match="between the axles"):
        loads.axle_loads(1e4 * one, 2.4 * one, many, 0.5 * one, 0.3 * one)


# ------------------------------------------------------------------------ balance


@given(weights, wheelbases, places, heights, st.floats(0.01, 0.9))
def test_the_ideal_share_uses_both_axles_alike(
    weight: float, wheelbase: float, place: float, height: float, z: float
) -> None:
    behind = place * wheelbase
    share = loads.ideal_rear_share(wheelbase, behind, height, z)
    assume(share > 0.0)
    axles = loads.axle_loads(weight, wheelbase, behind, height, z)
    front = balance.adhesion_used((1 - share) * z * weight, axles.front_n)
    rear = balance.adhesion_used(share * z * weight, axles.rear_n)
    assert front == pytest.approx(z)
    assert rear == pytest.approx(z)
    assert balance.use_of_adhesion(z, front, rear) == pytest.approx(1.0)
    assert balance.crossing_deceleration(share, wheelbase, behind, height) == pytest.approx(z)


@given(st.floats(0.1, 1.0), shares, wheelbases, places, heights)
def test_an_axle_locks_where_it_uses_what_the_road_offers(
    road: float, share: float, wheelbase: float, place: float, height: float
) -> None:
    car = (wheelbase, place * wheelbase, height)
    front = balance.front_lock_deceleration(road, share, *car)
    rear = balance.rear_lock_deceleration(road, share, *car)
    for z, portion, which in ((front, 1 - share, 0), (rear, share, 1)):
        axles = loads.axle_loads(1.0, *car, min(z, 9.0))
        if z < 9.0 and axles.rear_n > 1e-9:
            assert balance.adhesion_used(portion * z, axles[which]) == pytest.approx(road)


@given(st.floats(0.1, 1.0), shares, wheelbases, places, heights)
def test_the_axle_that_locks_first_changes_at_the_crossing(
    road: float, share: float, wheelbase: float, place: float, height: float
) -> None:
    car = (wheelbase, place * wheelbase, height)
    crossing = balance.crossing_deceleration(share, *car)
    front = balance.front_lock_deceleration(road, share, *car)
    rear = balance.rear_lock_deceleration(road, share, *car)
    first = min(front, rear)
    assume(abs(first - crossing) > 1e-6)
    assert (front < rear) == (first < crossing)


def test_a_front_axle_that_can_never_lock_first_is_endless() -> None:
    assert balance.front_lock_deceleration(1.0, 0.9, 2.0, 1.0, 0.8) == math.inf
    assert balance.adhesion_used(100.0, 0.0) == math.inf
    assert balance.adhesion_used(0.0, 0.0) == 0.0
    used = balance.adhesion_used(np.array([100.0, 0.0, 50.0]), np.array([0.0, 0.0, 100.0]))
    np.testing.assert_array_equal(used, [math.inf, 0.0, 0.5])
    assert balance.use_of_adhesion(0.5, 0.6, math.inf) == 0.0


@given(st.floats(0.0, 1e4), st.floats(0.0, 1e4))
def test_shares_of_the_brake_force(front: float, rear: float) -> None:
    share = balance.rear_share(front, rear)
    assert 0.0 <= share <= 1.0
    assert share * (front + rear) == pytest.approx(rear)
    assert balance.rear_share(rear, front) == pytest.approx(1 - share) or front == rear == 0.0


@given(st.floats(0.0, 5e3), st.floats(0.0, 5e3), st.floats(1.0, 1.8), st.floats(-0.05, 0.05))
def test_a_mirrored_car_pulls_the_other_way(
    left: float, right: float, track: float, scrub: float
) -> None:
    assert balance.side_pull_moment(left, right, track) == -balance.side_pull_moment(
        right, left, track
    )
    assert balance.steering_pull_moment(left, right, scrub) == -balance.steering_pull_moment(
        right, left, scrub
    )
    assert balance.side_pull_moment(left, left, track) == 0.0


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_the_rules_on_adhesion_ask_more_for_more(one: float, other: float) -> None:
    low, high = sorted((one, other))
    for rule in (balance.prescribed_deceleration_r13h, balance.prescribed_deceleration_71_320):
        assert 0.0 <= rule(low) <= rule(high)
    assert (
        balance.prescribed_deceleration_71_320(high)
        >= balance.prescribed_deceleration_r13h(max(high, 0.2))
        or high < 0.2
    )


@given(st.floats(0.0, 500.0), st.floats(0.0, 300.0))
def test_without_a_servo_s_knee_deceleration_is_affine_in_pedal_force(
    foot: float, more: float
) -> None:
    """From foot to road in one piece: pedal, single cylinder, disc, tyre, car."""

    def slowing(pedal_force: float) -> float:
        rod = pedal.push_rod_force(pedal_force, 5.0, 0.8, 15.0)
        pressure = master.line_pressure(rod, 0.019, 50.0, 20.0, 0.98)
        clamp = disc.clamp_force(pressure, 1.8e-3, 5e4, 0.97)
        force = tyre.force_at_road(disc.disc_torque(clamp, 0.4, 0.1), 0.28)
        return balance.deceleration_from_forces(2 * force, 0.0, 1.1e4)

    beats = master.push_rod_force_for_pressure(5e4, 0.019, 50.0, 20.0, 0.98)
    threshold = pedal.pedal_force_for_push_rod(beats, 5.0, 0.8, 15.0)
    assert slowing(threshold) == pytest.approx(0.0, abs=1e-9)
    slope_of_one = slowing(threshold + 1.0)
    assert slowing(threshold + foot) == pytest.approx(foot * slope_of_one, abs=1e-9)
    assert slowing(threshold + foot + more) - slowing(threshold + foot) == pytest.approx(
        more * slope_of_one, abs=1e-9
    )


# ------------------------------------------------------------------------ stopping


@pytest.mark.parametrize(
    ("speed", "deceleration", "reaction", "build_up"),
    [(27.0, 6.0, 0.7, 0.4), (10.0, 8.0, 0.0, 0.0), (1.0, 6.0, 0.2, 0.6), (3.0, 10.0, 0.0, 0.6)],
)
def test_a_stop_against_integration(
    speed: float, deceleration: float, reaction: float, build_up: float
) -> None:
    """Scipy's integrator drives the same car until it stands."""

    def moving(t: float, state: Array) -> list[float]:
        after = t - reaction
        grown = 1.0 if build_up == 0.0 else min(max(after / build_up, 0.0), 1.0)
        return [float(state[1]), -deceleration * grown * (after >= 0.0)]

    def stands(_t: float, state: Array) -> float:
        return float(state[1])

    stands.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(moving, (0.0, 60.0), [0.0, speed], events=stands, max_step=0.01, rtol=1e-9)
    assert run.y_events is not None
    assert run.t_events is not None
    given_ = (speed, deceleration, reaction, build_up)
    assert stopping.stopping_distance(*given_) == pytest.approx(run.y_events[0][0][0], rel=1e-4)
    assert stopping.stopping_time(*given_) == pytest.approx(run.t_events[0][0], rel=1e-4)


@given(st.floats(0.1, 60.0), st.floats(1.0, 11.0), st.floats(0.0, 2.0), st.floats(0.0, 1.5))
def test_a_stop_grows_with_speed_and_delay_and_shrinks_with_deceleration(
    speed: float, deceleration: float, reaction: float, build_up: float
) -> None:
    here = stopping.stopping_distance(speed, deceleration, reaction, build_up)
    assert stopping.stopping_distance(speed * 1.01, deceleration, reaction, build_up) > here
    assert stopping.stopping_distance(speed, deceleration * 1.01, reaction, build_up) < here
    assert stopping.stopping_distance(speed, deceleration, reaction + 0.1, build_up) > here
    assert stopping.stopping_distance(speed, deceleration, reaction, build_up + 0.01) > here


@given(st.floats(1.0, 11.0), st.floats(0.1, 1.0))
def test_the_two_pieces_of_a_stop_meet(deceleration: float, build_up: float) -> None:
    at = deceleration * build_up / 2  # stands just as the build-up ends
    below = stopping.stopping_distance(at * (1 - 1e-9), deceleration, 0.0, build_up)
    above = stopping.stopping_distance(at * (1 + 1e-9), deceleration, 0.0, build_up)
    assert below == pytest.approx(above, rel=1e-6)


@given(st.floats(5.0, 40.0), st.floats(1.0, 11.0), st.floats(0.0, 30.0))
def test_mean_fully_developed_deceleration_of_a_steady_stop_is_that_deceleration(
    speed: float, deceleration: float, before: float
) -> None:
    def run(share: float) -> float:
        return before + speed**2 * (1 - share**2) / (2 * deceleration)

    got = stopping.mean_fully_developed_deceleration(0.8 * speed, 0.1 * speed, run(0.8), run(0.1))
    assert got == pytest.approx(deceleration)
    gap = stopping.deceleration_over_distance(speed, speed**2 / (2 * deceleration))
    assert gap == pytest.approx(deceleration)


def test_a_stop_that_goes_backwards_is_refused() -> None:
    with pytest.raises(BadInput, match="do not grow"):
        stopping.mean_fully_developed_deceleration(22.0, 3.0, 40.0, 40.0)
    with pytest.raises(BadInput, match="do not fall"):
        stopping.mean_fully_developed_deceleration(3.0, 22.0, 10.0, 40.0)
    with pytest.raises(BadInput, match="more than are braked"):
        stopping.share_of_wheels_locked(5.0, 4.0)


@given(st.floats(0.0, 5e3), st.floats(0.0, 5e3))
def test_imbalance_is_the_same_from_either_side(left: float, right: float) -> None:
    imbalance = stopping.wheel_imbalance(left, right)
    assert imbalance == stopping.wheel_imbalance(right, left)
    assert 0.0 <= imbalance <= 1.0
    assert stopping.weaker_wheel_ratio(left, right) == pytest.approx(1 - imbalance)


@given(st.floats(0.0, 12.0))
def test_a_decelerometer_reads_back(deceleration: float) -> None:
    there = stopping.share_of_g(deceleration)
    assert stopping.deceleration_from_share(there) == pytest.approx(deceleration)


# ------------------------------------------------------------------------ parking


@given(weights, st.floats(-0.6, 0.6))
def test_pull_and_slope_undo_one_another(weight: float, grade: float) -> None:
    pull = slope.slope_pull(weight, grade)
    assert slope.slope_held(pull, weight) == pytest.approx(abs(grade))
    assert pull == pytest.approx(weight * abs(math.sin(math.atan(grade))))


def test_a_force_of_the_whole_weight_holds_any_slope() -> None:
    assert slope.slope_held(1e4, 1e4) == math.inf
    np.testing.assert_array_equal(
        slope.slope_held(np.array([0.0, 2e4]), np.full(2, 1e4)), [0.0, math.inf]
    )


@given(st.floats(0.01, 0.5), wheelbases, places, heights)
def test_a_car_turned_about_swaps_its_axles(
    grade: float, wheelbase: float, place: float, height: float
) -> None:
    behind = place * wheelbase
    for sign in (1.0, -1.0):
        rear = slope.rear_parking_adhesion(sign * grade, wheelbase, behind, height)
        front = slope.front_parking_adhesion(-sign * grade, wheelbase, wheelbase - behind, height)
        assert rear == pytest.approx(front)


@given(st.floats(0.05, 0.5), wheelbases, places, heights)
def test_adhesion_on_a_slope_by_statics(
    grade: float, wheelbase: float, place: float, height: float
) -> None:
    """Moments about the front contact, along and square to the road."""
    behind, angle = place * wheelbase, math.atan(grade)
    carried = (behind * math.cos(angle) + height * math.sin(angle)) / wheelbase
    needed = math.sin(angle) / carried
    assert slope.rear_parking_adhesion(grade, wheelbase, behind, height) == pytest.approx(needed)
    limit = slope.rear_slope_limit(needed, wheelbase, behind, height)
    assert limit == pytest.approx(grade)
    front = slope.front_parking_adhesion(grade, wheelbase, behind, height)
    if front < math.inf:
        held = slope.front_slope_limit(front, wheelbase, behind, height)
        assert held == pytest.approx(grade)


def test_an_axle_that_carries_nothing_cannot_hold() -> None:
    assert slope.rear_parking_adhesion(-0.9, 2.0, 0.3, 0.8) == math.inf
    assert slope.rear_slope_limit(3.0, 2.0, 1.0, 0.8) == math.inf
    assert slope.rear_parking_adhesion(0.0, 2.0, 0.0, 0.8) == 0.0


@given(st.floats(0.0, 3e3), st.floats(1.0, 8.0))
def test_a_drum_s_parking_lever_is_in_balance(cable: float, ratio: float) -> None:
    forces = parking.drum_lever_forces(cable, ratio)
    assert forces.strut_n == pytest.approx(cable * ratio)  # moments about its pivot
    assert forces.strut_n == pytest.approx(cable + forces.pivot_n)  # forces along the strut


def test_the_parking_chain_from_hand_to_slope() -> None:
    """An invented car: each link alone is checked elsewhere, here they are joined."""
    cable = parking.cable_force(300.0, 7.0, 1.0, 0.8, 2.0)
    assert 2 * cable == pytest.approx(300 * 7 * 0.8)
    torque = 1.8 * cable * 4.0 * 0.114
    force = parking.parking_force(torque, 2.0, 0.28)
    assert force == pytest.approx(2 * torque / 0.28)
    held = slope.slope_held(force, 1.1e4)
    assert slope.slope_pull(1.1e4, held) == pytest.approx(force)
    through = parking.transmission_brake_torque(torque / 4.0, 4.0, 1.0)
    assert through == pytest.approx(torque)


@given(st.floats(0.0, 0.05), st.floats(0.04, 0.08), st.floats(0.03, 0.1))
def test_clicks_turn_the_lever_through_its_angle(travel: float, arm: float, pitch: float) -> None:
    clicks = parking.lever_clicks(travel, arm, pitch)
    assert clicks * pitch * arm == pytest.approx(travel)
    stretch = parking.cable_stretch(1000.0, 2.5, 8e5)
    assert 1000.0 * stretch / 2 == pytest.approx(0.5 * (8e5 / 2.5) * stretch**2)  # energy kept


def test_a_travel_beyond_the_lever_is_refused() -> None:
    with pytest.raises(BadInput, match="more than the hand lever can give"):
        parking.lever_clicks(0.10, 0.04, 0.06)
