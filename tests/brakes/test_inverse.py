"""The solve turned about: force for a deceleration, and which axle locks first."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import Figures, gather, overridden
from bareshell.brakes.inverse import crossing, force_found, limited, locking
from bareshell.brakes.prepared import prepare
from bareshell.brakes.roots import where_reaches
from bareshell.brakes.solve import solve
from bareshell.brakes.starters import STARTERS
from bareshell.brakes.state import SealGone, State
from bareshell.calc import balance
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Wheel
from tests.brakes.bare_cars import car, one_line_car, valve

LAYOUTS = tuple(STARTERS)
FRONTS = (Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT)
REARS = (Wheel.REAR_LEFT, Wheel.REAR_RIGHT)
WEIGHT, WHEELBASE, TO_FRONT, HEIGHT = 10e3, 2.4, 1.1, 0.5


def known(system: BrakeSystem, **figures: float) -> Figures:
    changes = [(path.replace("__", "."), value) for path, value in figures.items()]
    return overridden(gather(system).figures, changes)


def plain_car(front_bore: float, rear_bore: float, rear_valve: Any = None) -> BrakeSystem:
    """Discs alike but for their bores, no losses: the rear share is that of the areas."""
    brakes = dict.fromkeys(FRONTS, (front_bore, 0.4, 0.1)) | dict.fromkeys(
        REARS, (rear_bore, 0.4, 0.1)
    )
    body = car(WEIGHT, WHEELBASE, TO_FRONT, HEIGHT)
    return one_line_car(
        body, brakes, master_bore_m=0.02, pedal={"ratio": 4.0}, rear_valve=rear_valve
    )


# ------------------------------------------------------------------ where a function reaches


@settings(max_examples=200, deadline=None)
@given(
    knots=st.lists(st.tuples(st.floats(0.01, 5.0), st.floats(0.0, 50.0)), min_size=1, max_size=6),
    target=st.floats(0.0, 40.0),
)
def test_a_root_among_straight_pieces_and_steps(
    knots: list[tuple[float, float]], target: float
) -> None:
    across = np.concatenate([[0.0], np.cumsum([step for step, _ in knots])])
    up = np.concatenate([[0.0], np.cumsum([rise for _, rise in knots])])
    found = where_reaches(
        lambda x: np.interp(x, across, up), np.array([target]), 0.0, float(across[-1])
    )
    reached = float(found[0])
    if up[-1] <= target:
        assert reached == math.inf
    else:
        assert np.interp(reached, across, up) <= target + 1e-9 * up[-1]
        beyond = reached + 1e-9 * across[-1]
        assert np.interp(beyond, across, up) >= target - 1e-6 * up[-1]


def test_roots_of_many_at_once_are_those_of_each() -> None:
    """Against a general library's root finder, one by one."""
    drawn = np.random.default_rng(3)
    power, target = drawn.uniform(0.3, 5.0, 200), drawn.uniform(0.01, 30.0, 200)
    together = where_reaches(lambda x: x**power + 0.1 * x, target, np.zeros(200), 200.0)
    for each, wanted, found in zip(power, target, together, strict=True):
        if 200.0**each + 20.0 <= wanted:
            assert found == math.inf
            continue
        alone = brentq(lambda x, p=each, t=wanted: x**p + 0.1 * x - t, 0.0, 200.0, xtol=1e-14)
        assert found == pytest.approx(alone, rel=1e-9)


def test_a_step_is_found_from_below() -> None:
    step: Callable[[Any], Any] = lambda x: np.where(x > 3.0, 10.0, 1.0)  # noqa: E731
    found = where_reaches(step, 5.0, np.zeros(1), np.full(1, 8.0))
    assert found[0] == pytest.approx(3.0, rel=1e-9)


# ------------------------------------------------------------------ force for a deceleration


@settings(max_examples=40, deadline=None)
@given(layout=st.sampled_from(LAYOUTS), foot=st.floats(60.0, 600.0))
def test_there_and_back(layout: str, foot: float) -> None:
    system = small_car(layout)
    figures = known(system, pedal__floor_travel_m=0.39)
    answer = solve(system, figures, foot, "laden")
    assert answer.travel is not None
    wanted = float(answer.deceleration_m_s2)
    if wanted < 0.02 or answer.travel.on_floor:
        return
    found = force_found(prepare(system, figures), wanted, "laden")
    again = solve(system, figures, found.pedal_force_n, "laden")
    assert again.deceleration_m_s2 == pytest.approx(wanted, rel=1e-8)
    assert found.pedal_force_n <= foot * (1 + 1e-8)
    used = max(float(again.front_adhesion_used), float(again.rear_adhesion_used))
    assert found.adhesion_asked == pytest.approx(used)


def test_what_the_floor_keeps_from_being_reached_is_said() -> None:
    system = small_car("single line")
    figures = known(system, pedal__floor_travel_m=0.06)
    found = force_found(prepare(system, figures), np.array([1.0, 9.0]), "laden")
    assert np.asarray(found.reached).tolist() == [True, False]
    assert np.isnan(np.asarray(found.pedal_force_n)[1])
    assert found.because == "the pedal stands on the floor before that"
    most = np.asarray(found.most_m_s2)[0]
    top = solve(system, figures, 3000.0, "laden").deceleration_m_s2
    assert most == pytest.approx(float(top))


def test_what_no_leg_reaches_is_said() -> None:
    system = plain_car(0.02, 0.012)
    found = force_found(prepare(system, known(system)), 30.0, "laden")
    assert not found.reached
    assert found.because == "not even 3000 N of the foot reach it"


def test_each_sample_finds_its_own_force() -> None:
    system = plain_car(0.04, 0.03)
    figures: dict[str, Any] = dict(known(system))
    figures["caliper-front-left.pad_friction"] = np.array([0.3, 0.4, 0.5])
    found = force_found(prepare(system, figures), np.array([2.0, 5.0]), "laden")
    assert np.shape(found.pedal_force_n) == (3, 2)
    forces = np.asarray(found.pedal_force_n)
    assert np.all(np.diff(forces, axis=0) < 0.0)
    np.testing.assert_allclose(forces[:, 1] / forces[:, 0], 2.5)


def test_a_deceleration_below_nothing_is_refused() -> None:
    system = plain_car(0.04, 0.03)
    with pytest.raises(BadInput, match="deceleration: is below zero"):
        force_found(prepare(system, known(system)), -1.0, "laden")


# ------------------------------------------------------------------ which locks first


@settings(max_examples=60, deadline=None)
@given(front=st.floats(0.03, 0.06), rear=st.floats(0.02, 0.06), friction=st.floats(0.1, 1.1))
def test_the_first_to_lock_is_that_of_the_published_formulas(
    front: float, rear: float, friction: float
) -> None:
    """With a fixed distribution the first lock is Gillespie's; the other comes after it."""
    system = plain_car(front, rear)
    share = rear**2 / (front**2 + rear**2)
    at = (friction, share, WHEELBASE, TO_FRONT, HEIGHT)
    first_front = balance.front_lock_deceleration(*at)
    first_rear = balance.rear_lock_deceleration(*at)
    found = locking(prepare(system, known(system)), friction, "laden")
    assert found.before_lock_g == pytest.approx(min(first_front, first_rear), rel=1e-8)
    if abs(first_front - first_rear) > 1e-4:
        assert found.first == ("front" if first_front < first_rear else "rear")
    later = max(float(found.front_g), float(found.rear_g))
    assert later == pytest.approx(friction, rel=1e-8)  # then every wheel slides
    assert found.use_of_adhesion == pytest.approx(float(found.before_lock_g) / friction)


def test_before_the_lock_no_wheel_slides_and_after_it_one_does() -> None:
    for layout in LAYOUTS:
        system = small_car(layout)
        figures = known(system)
        ready = prepare(system, figures)
        for load in ("driver only", "laden"):
            found = locking(prepare(system, figures), 0.5, load)
            if found.first == "neither":
                continue
            at = float(found.before_lock_force_n)
            below = limited(ready, at * (1 - 1e-6), load, 0.5)
            above = limited(ready, at * (1 + 1e-6), load, 0.5)
            assert not any(below.locked.values())
            sliding = {wheel for wheel, locked in above.locked.items() if locked}
            assert sliding
            assert {wheel.is_front for wheel in sliding} == {found.first == "front"}


def test_a_circuit_lost_leaves_two_wheels_that_lock_alone() -> None:
    system = small_car("diagonal tandem")
    figures = known(system, pedal__floor_travel_m=0.39)
    state = State.of(SealGone("master", "floating"))
    found = limited(prepare(system, figures), 1500.0, "laden", 0.6, state=state)
    assert {wheel for wheel, locked in found.locked.items() if locked} >= {Wheel.FRONT_LEFT}
    assert found.wheel_force_n[Wheel.FRONT_RIGHT] == 0.0
    assert found.deceleration_g < 0.6
    order = locking(prepare(system, figures), 0.6, "laden", state=state)
    assert order.front_g == pytest.approx(
        limited(prepare(system, figures), order.front_force_n, "laden", 0.6, state=state)
        .deceleration_g
    )  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(layout=st.sampled_from(LAYOUTS), foot=st.floats(0.0, 1500.0), friction=st.floats(0.05, 1.2))
def test_a_road_passes_on_no_more_than_it_offers(layout: str, foot: float, friction: float) -> None:
    system = small_car(layout)
    figures = known(system)
    found = limited(prepare(system, figures), foot, "laden", friction)
    free = solve(system, figures, foot, "laden")
    assert float(found.deceleration_g) <= min(friction, float(free.deceleration_g)) * (1 + 1e-9)
    weight = float(figures["car.laden_mass_kg"]) * 9.80665
    whole = sum(float(force) for force in found.wheel_force_n.values())
    assert whole / weight == pytest.approx(found.deceleration_g, rel=1e-9, abs=1e-12)
    for wheel, force in found.wheel_force_n.items():
        assert float(force) <= float(free.wheel_force_n[wheel]) * (1 + 1e-12)
        if not found.locked[wheel]:
            assert force == pytest.approx(free.wheel_force_n[wheel])
    if all(found.locked.values()):
        assert found.deceleration_g == pytest.approx(friction, rel=1e-9)


def test_a_ball_on_a_slippery_road_never_feels_enough_to_shut() -> None:
    system = plain_car(0.054, 0.038, valve("deceleration-sensing", closing_deceleration_g=0.42))
    ready = prepare(system, known(system))
    free = solve(system, known(system), 2500.0, "laden")
    on_ice = limited(ready, 2500.0, "laden", 0.3)
    assert free.pressure_pa[Wheel.REAR_LEFT] < free.pressure_pa[Wheel.FRONT_LEFT]
    assert all(on_ice.locked.values())  # the rear too, since its valve stays open
    grippy = limited(ready, 2500.0, "laden", 0.9)
    assert not grippy.locked[Wheel.REAR_LEFT]


# ------------------------------------------------------------------ where the axles cross


@pytest.mark.parametrize(("front", "rear"), [(0.05, 0.028), (0.05, 0.032), (0.05, 0.036)])
def test_a_fixed_distribution_crosses_where_it_is_ideal(front: float, rear: float) -> None:
    system = plain_car(front, rear)
    share = rear**2 / (front**2 + rear**2)
    ideal = balance.crossing_deceleration(share, WHEELBASE, TO_FRONT, HEIGHT)
    found = crossing(prepare(system, known(system)), "laden")
    if ideal > 1.2:
        assert found == math.inf
    else:
        assert found == pytest.approx(max(ideal, 0.0), rel=1e-6)


def test_a_limiting_valve_takes_the_crossing_away() -> None:
    limiting = valve("limiting", knee_pa=2e6)
    free, held = plain_car(0.05, 0.036), plain_car(0.05, 0.036, limiting)
    assert crossing(prepare(free, known(free)), "laden") < 1.0
    assert crossing(prepare(held, known(held)), "laden") == math.inf


def test_a_car_with_rear_brakes_only_crosses_at_once() -> None:
    brakes = dict.fromkeys(REARS, (0.04, 0.4, 0.1))
    system = one_line_car(car(WEIGHT, WHEELBASE, TO_FRONT, HEIGHT), brakes, master_bore_m=0.02)
    assert crossing(prepare(system, known(system)), "laden") == 0.0


def test_a_road_that_is_none_is_refused() -> None:
    system = plain_car(0.05, 0.036)
    with pytest.raises(BadInput, match="adhesion of the road"):
        locking(prepare(system, known(system)), -0.1, "laden")
