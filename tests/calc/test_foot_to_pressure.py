"""Pedal, servo, master cylinder and valves: what holds for any of them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.calc import master, pedal, servo, tandem, valves
from bareshell.calc.master import bore_area
from bareshell.errors import BadInput

forces = st.floats(0.0, 6e3)
pressures = st.floats(0.0, 1.5e7)
bores = st.floats(0.012, 0.032)
springs = st.floats(0.0, 150.0)
parts = st.floats(0.5, 1.0)
ratios = st.floats(1.0, 8.0)
shares = st.floats(0.0, 1.0)


# ------------------------------------------------------------------------ pedal


@given(forces, ratios, parts, springs)
def test_pedal_force_and_push_rod_force_undo_one_another(
    foot: float, ratio: float, efficiency: float, spring: float
) -> None:
    rod = pedal.push_rod_force(foot + spring, ratio, efficiency, spring)
    back = pedal.pedal_force_for_push_rod(rod, ratio, efficiency, spring)
    assert back == pytest.approx(foot + spring)


@given(forces, ratios, st.floats(0.0, 0.04))
def test_a_lever_makes_no_work(foot: float, ratio: float, stroke: float) -> None:
    rod = pedal.push_rod_force(foot, ratio, 1.0, 0.0)
    assert rod * stroke == pytest.approx(foot * pedal.pedal_travel(stroke, ratio))


def test_a_foot_that_only_holds_the_spring_pushes_nothing() -> None:
    assert pedal.push_rod_force(10.0, 5.0, 0.8, 15.0) == 0.0


def test_a_pedal_that_would_divide_the_foot_s_force_is_refused() -> None:
    with pytest.raises(BadInput, match="arm of the pedal pad"):
        pedal.pedal_ratio(0.05, 0.06)
    with pytest.raises(BadInput, match="arm of the pedal pad"):
        pedal.pedal_ratio(np.array([0.3, 0.05]), np.array([0.06, 0.06]))
    assert pedal.pedal_ratio(0.06, 0.06) == 1.0


@given(forces, shares)
def test_a_balance_bar_shares_and_does_not_multiply(push: float, share: float) -> None:
    both = pedal.balance_bar_forces(push, share)
    assert both.front_n + both.rear_n == pytest.approx(push)
    assert min(both) >= -1e-9


@given(st.floats(0.01, 0.1), st.floats(0.01, 0.1))
def test_a_balance_bar_is_in_balance_about_its_bearing(front: float, rear: float) -> None:
    both = pedal.balance_bar_forces(1000.0, pedal.balance_bar_share(front, rear))
    assert both.front_n * front == pytest.approx(both.rear_n * rear)
    turned = pedal.balance_bar_share(rear, front)
    assert turned == pytest.approx(1.0 - pedal.balance_bar_share(front, rear))


# ------------------------------------------------------------------------ servo


@given(forces, ratios, st.floats(0.0, 4e3), springs)
def test_servo_and_its_inverse_undo_one_another(
    force: float, ratio: float, capacity: float, cut_in: float
) -> None:
    out = servo.vacuum_servo_force(force + cut_in, ratio, capacity, cut_in)
    assert servo.vacuum_servo_input(out, ratio, capacity, cut_in) == pytest.approx(force + cut_in)


@given(forces, ratios, st.floats(0.0, 4e3), springs)
def test_a_servo_never_takes_and_never_gives_more_than_its_capacity(
    force: float, ratio: float, capacity: float, cut_in: float
) -> None:
    out = servo.vacuum_servo_force(force, ratio, capacity, cut_in)
    dead = servo.dead_servo_force(force, cut_in)
    assert dead <= out <= dead + capacity + 1e-9
    assert servo.vacuum_servo_force(force, ratio, 0.0, cut_in) == dead


@given(st.floats(1.5, 8.0), st.floats(100.0, 4e3), springs)
def test_a_servo_s_slope_is_its_ratio_below_the_knee_and_one_above(
    ratio: float, capacity: float, cut_in: float
) -> None:
    knee = servo.vacuum_servo_knee(ratio, capacity, cut_in)
    step = 0.1 * (knee - cut_in)

    def out(force: float) -> float:
        return servo.vacuum_servo_force(force, ratio, capacity, cut_in)

    assert out(cut_in) == 0.0
    assert out(knee) - out(knee - step) == pytest.approx(ratio * step)
    assert out(knee + step) - out(knee) == pytest.approx(step)
    assert out(knee) == pytest.approx((knee - cut_in) + capacity)


def test_a_servo_of_ratio_one_has_no_knee() -> None:
    assert servo.vacuum_servo_knee(1.0, 2000.0, 50.0) == float("inf")
    knees = servo.vacuum_servo_knee(np.array([1.0, 3.0]), np.full(2, 2000.0), np.full(2, 50.0))
    np.testing.assert_allclose(knees, [np.inf, 1050.0])
    assert servo.line_servo_knee(1.0, 1e5, 1e6) == float("inf")


def test_a_vacuum_cannot_exceed_the_atmosphere() -> None:
    with pytest.raises(BadInput, match="between nothing and 1 bar"):
        servo.vacuum_servo_capacity(2e5, 0.03, 0.9, 0.0)
    assert servo.vacuum_servo_capacity(0.0, 0.03, 0.9, 100.0) == 0.0


@given(pressures, ratios, st.floats(0.0, 2e6), st.floats(0.0, 6e6))
def test_a_line_servo_passes_all_through_and_adds_at_most_its_capacity(
    pressure: float, ratio: float, threshold: float, capacity: float
) -> None:
    out = servo.line_servo_pressure(pressure, ratio, threshold, capacity)
    assert pressure <= out <= pressure + capacity + 1e-6
    assert servo.line_servo_pressure(pressure, ratio, threshold, 0.0) == pressure
    if pressure <= threshold:
        assert out == pressure


@given(pressures, ratios, st.floats(0.0, 2e6), st.floats(0.0, 6e6))
def test_a_line_servo_and_its_inverse_undo_one_another(
    pressure: float, ratio: float, threshold: float, capacity: float
) -> None:
    out = servo.line_servo_pressure(pressure, ratio, threshold, capacity)
    back = servo.line_servo_input(out, ratio, threshold, capacity)
    assert back == pytest.approx(pressure, rel=1e-9, abs=1e-3)


@given(st.floats(1.5, 6.0), st.floats(0.0, 2e6), st.floats(1e5, 6e6))
def test_a_line_servo_bends_at_its_threshold_and_its_knee(
    ratio: float, threshold: float, capacity: float
) -> None:
    knee = servo.line_servo_knee(ratio, threshold, capacity)

    def out(pressure: float) -> float:
        return servo.line_servo_pressure(pressure, ratio, threshold, capacity)

    assert out(threshold) == threshold
    middle = (threshold + knee) / 2
    assert out(middle) - threshold == pytest.approx(ratio * (middle - threshold))
    assert out(knee) == pytest.approx(knee + capacity)
    assert out(knee + 1e6) == pytest.approx(knee + 1e6 + capacity)


@given(st.floats(1e4, 9e4), st.floats(1e-3, 1e-2), st.floats(0.0, 5e-3))
def test_vacuum_goes_as_air_is_let_in_press_by_press(
    vacuum: float, store: float, air: float
) -> None:
    """The same by counting the air, in pascals times cubic metres."""
    atmosphere = 101325.0
    pressure = atmosphere - vacuum
    for press in range(4):
        left = servo.vacuum_left(vacuum, store, air, float(press))
        assert left == pytest.approx(atmosphere - pressure)
        pressure = (pressure * store + atmosphere * air) / (store + air)


# ------------------------------------------------------------------------ master cylinders


@given(pressures, bores, springs, springs, parts)
def test_line_pressure_and_its_inverse_undo_one_another(
    pressure: float, bore: float, spring: float, friction: float, efficiency: float
) -> None:
    push = master.push_rod_force_for_pressure(pressure, bore, spring, friction, efficiency)
    back = master.line_pressure(push, bore, spring, friction, efficiency)
    assert back == pytest.approx(pressure, rel=1e-9, abs=1e-3)


@given(forces, bores, bores, springs, springs)
def test_a_smaller_bore_gives_more_pressure_and_asks_more_stroke(
    push: float, one: float, other: float, spring: float, friction: float
) -> None:
    small, large = sorted((one, other))
    high = master.line_pressure(push, small, spring, friction, 1.0)
    low = master.line_pressure(push, large, spring, friction, 1.0)
    assert high >= low
    assert master.stroke_for_volume(5e-6, small) >= master.stroke_for_volume(5e-6, large)


@given(bores)
def test_bore_and_area_undo_one_another(bore: float) -> None:
    assert master.bore_of_area(bore_area(bore)) == pytest.approx(bore)
    assert master.stroke_for_volume(master.stroke_volume(0.02, bore), bore) == pytest.approx(0.02)


@given(forces, bores, bores, shares)
def test_a_mirrored_balance_bar_mirrors_its_pressures(
    push: float, front: float, rear: float, share: float
) -> None:
    one = master.twin_pressures(push, share, front, rear, 20.0, 5.0, 0.98)
    other = master.twin_pressures(push, 1.0 - share, rear, front, 20.0, 5.0, 0.98)
    assert one.front_pa == pytest.approx(other.rear_pa, abs=1.0)
    assert one.rear_pa == pytest.approx(other.front_pa, abs=1.0)


# ------------------------------------------------------------------------ tandem cylinders


@given(forces, bores)
def test_a_tandem_cylinder_with_no_springs_presses_both_circuits_alike(
    push: float, bore: float
) -> None:
    both = tandem.tandem_pressures(push, bore, bore, bore, 0.0, 0.0, 0.0, 1.0)
    alone = master.line_pressure(push, bore, 0.0, 0.0, 1.0)
    assert both.primary_pa == pytest.approx(alone)
    assert both.floating_pa == pytest.approx(alone)


@given(st.floats(400.0, 6e3), bores, bores, bores, springs, springs)
def test_a_tandem_cylinder_s_pistons_are_in_balance(
    push: float, primary: float, rear: float, front: float, between: float, ahead: float
) -> None:
    both = tandem.tandem_pressures(push, primary, rear, front, between, ahead, 0.0, 1.0)
    assert push == pytest.approx(both.primary_pa * bore_area(primary) + between)
    behind = both.primary_pa * bore_area(rear) + between
    held = both.floating_pa * bore_area(front)
    if behind >= ahead:
        assert behind == pytest.approx(held + ahead)
    else:
        assert held == 0.0


@given(st.floats(0.0, 150.0), springs, springs)
def test_a_light_push_goes_through_the_caged_spring(
    push: float, between: float, ahead: float
) -> None:
    both = tandem.tandem_pressures(push, 0.02, 0.02, 0.02, between, ahead, 0.0, 1.0)
    lost = tandem.tandem_primary_circuit_lost(push, 0.02, ahead, 0.0, 1.0)
    if push <= between:
        assert both.primary_pa == 0.0
    # With bores alike the whole push arrives ahead either way.
    assert both.floating_pa == pytest.approx(lost, abs=1e-6)


@given(forces, bores, springs, springs)
def test_one_circuit_lost_leaves_the_other_its_pressure(
    push: float, bore: float, between: float, ahead: float
) -> None:
    both = tandem.tandem_pressures(push, bore, bore, bore, between, ahead, 10.0, 0.97)
    ahead_lost = tandem.tandem_floating_circuit_lost(push, bore, between, 10.0, 0.97)
    behind_lost = tandem.tandem_primary_circuit_lost(push, bore, ahead, 10.0, 0.97)
    assert ahead_lost == pytest.approx(both.primary_pa)
    assert behind_lost == pytest.approx(both.floating_pa, abs=1e-6)


@given(st.floats(0.0, 1e-5), st.floats(0.0, 1e-5), bores, bores, bores)
def test_strokes_and_volumes_of_a_tandem_cylinder_undo_one_another(
    first: float, second: float, primary: float, rear: float, front: float
) -> None:
    strokes = tandem.tandem_strokes(first, second, primary, rear, front)
    back = tandem.tandem_volumes(*strokes, primary, rear, front)
    assert back == pytest.approx((first, second), abs=1e-15)


@given(st.floats(0.0, 0.03), st.floats(0.0, 0.03), bores)
def test_a_tandem_cylinder_with_bores_alike_makes_no_fluid(
    primary: float, floating: float, bore: float
) -> None:
    given_up = tandem.tandem_volumes(primary, floating, bore, bore, bore)
    assert sum(given_up) == pytest.approx(master.stroke_volume(primary, bore), abs=1e-15)


# ------------------------------------------------------------------------ valves


@given(pressures, st.floats(0.0, 1e7), shares)
def test_a_valve_is_right_at_its_knee_and_on_both_sides_of_it(
    pressure: float, knee: float, share: float
) -> None:
    out = valves.proportioning(pressure, knee, share)
    expected = pressure if pressure <= knee else knee + share * (pressure - knee)
    assert out == pytest.approx(expected)
    assert valves.proportioning(knee, knee, share) == knee
    assert valves.proportioning(pressure, float("inf"), share) == pressure
    assert valves.pressure_limiting(pressure, knee) == pytest.approx(
        valves.proportioning(pressure, knee, 0.0)
    )
    assert valves.pressure_limiting(knee, knee) == knee


@given(pressures, pressures, st.floats(0.0, 1e7), shares)
def test_more_pressure_before_a_valve_is_never_less_behind(
    one: float, other: float, knee: float, share: float
) -> None:
    low, high = sorted((one, other))
    assert valves.proportioning(low, knee, share) <= valves.proportioning(high, knee, share) + 1e-6


@given(st.floats(10.0, 400.0), st.floats(1e-5, 5e-5), st.floats(6e-5, 2e-4), pressures)
def test_a_proportioning_valve_s_piston_is_in_balance(
    spring: float, inlet: float, outlet: float, pressure: float
) -> None:
    line = valves.proportioning_from_piston(spring, inlet, outlet)
    out = valves.proportioning(pressure, line.knee_pa, line.valve_slope)
    if pressure >= line.knee_pa:
        assert pressure * inlet + spring == pytest.approx(out * outlet)
    else:
        assert out == pressure


def test_a_valve_s_piston_with_no_step_is_refused() -> None:
    with pytest.raises(BadInput, match="outlet area of the valve's piston"):
        valves.proportioning_from_piston(100.0, 1e-4, 1e-4)


@given(st.floats(0.0, 0.6), st.floats(-0.3, 0.3))
def test_the_ball_leaves_where_apparent_gravity_stands_square_to_its_ramp(
    ramp: float, road: float
) -> None:
    z = valves.ball_closing_deceleration(ramp, road)
    if z > 0.0:
        # Along and square to the road: what the ball feels, forwards and down.
        forwards, down = z - np.sin(road), np.cos(road)
        assert np.arctan2(forwards, down) == pytest.approx(ramp)


def test_the_ball_leaves_sooner_downhill_and_later_uphill() -> None:
    down, level, up = (valves.ball_closing_deceleration(0.35, road) for road in (-0.1, 0.0, 0.1))
    assert down < level < up
    assert valves.ball_closing_deceleration(0.1, -0.3) == 0.0


@given(st.floats(0.05, 1.0), st.floats(0.0, 5e5), st.floats(1e-8, 1e-6))
def test_pressure_at_a_deceleration_lies_on_the_line(z: float, onset: float, gain: float) -> None:
    assert (valves.pressure_at_deceleration(z, onset, gain) - onset) * gain == pytest.approx(z)


@given(pressures, st.floats(1e5, 8e6), st.floats(0.0, 4e6), shares)
def test_a_deceleration_sensing_valve_passes_holds_and_lifts(
    pressure: float, closing: float, more: float, share: float
) -> None:
    lift = closing + more
    out = valves.deceleration_sensing(pressure, closing, lift, share)
    if pressure <= closing:
        assert out == pressure
    elif pressure <= lift:
        assert out == closing
    else:
        assert out == pytest.approx(closing + share * (pressure - lift))
    assert valves.deceleration_sensing(
        pressure, closing, float("inf"), share
    ) == valves.pressure_limiting(pressure, closing)
    assert valves.deceleration_sensing(pressure, closing, closing, share) == pytest.approx(
        valves.proportioning(pressure, closing, share)
    )
    assert valves.deceleration_sensing(pressure, float("inf"), 0.0, share) == pressure


def test_a_residual_valve_at_its_corner() -> None:
    assert [valves.residual_pressure(p, 7e4) for p in (0.0, 7e4, 7.1e4)] == [7e4, 7e4, 7.1e4]


@given(pressures, pressures, st.floats(1e5, 2e6))
def test_a_shuttle_mirrors_when_its_circuits_are_swapped(
    front: float, rear: float, shift: float
) -> None:
    side = valves.shuttle_side(front, rear, shift)
    assert side == -valves.shuttle_side(rear, front, shift)
    assert side in {-1.0, 0.0, 1.0}
    assert (side != 0.0) == (abs(front - rear) >= shift)


def test_a_shuttle_moves_at_exactly_its_difference() -> None:
    assert valves.shuttle_side(1.5e6, 1.0e6, 0.5e6) == 1.0
    sides = valves.shuttle_side(np.array([1.4e6, 1.5e6]), np.full(2, 1e6), np.full(2, 0.5e6))
    np.testing.assert_array_equal(sides, [0.0, 1.0])


@given(pressures, st.floats(0.0, 5e6), shares, pressures, st.floats(1e5, 2e6))
def test_a_lost_circuit_opens_the_by_pass(
    pressure: float, knee: float, share: float, other: float, shift: float
) -> None:
    out = valves.bypassed_proportioning(pressure, knee, share, other, shift)
    lost = pressure - other >= shift
    assert out == (pressure if lost else valves.proportioning(pressure, knee, share))
