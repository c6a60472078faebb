"""What the solve must do for any car: corners, mirrors, straight lines, arrays, bad input."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.brakes.answer import Answer
from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import Figures, gather, overridden, ranges
from bareshell.brakes.prepared import prepare
from bareshell.brakes.side_pull import side_pull
from bareshell.brakes.solve import solve
from bareshell.brakes.starters import STARTERS
from bareshell.brakes.state import (
    WHOLE,
    Blanked,
    Leak,
    SealGone,
    ServoDead,
    ShuttleTripped,
    State,
    ValveStuck,
)
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Line, LineEnd, LineKind, Part, PartKind, Port, Wheel
from bareshell.model.trust import Stated
from tests.brakes.bare_cars import car, one_line_car, valve

LAYOUTS = tuple(STARTERS)
FRONTS = (Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT)
REARS = (Wheel.REAR_LEFT, Wheel.REAR_RIGHT)


def row(value: object) -> Any:
    """An array that may be indexed, whatever it was declared as."""
    return np.asarray(value)


def known(system: BrakeSystem, **figures: float) -> Figures:
    changes = [(path.replace("__", "."), value) for path, value in figures.items()]
    return overridden(gather(system).figures, changes)


def with_part(system: BrakeSystem, part_id: str, **changes: Any) -> BrakeSystem:
    changed = replace(system.part(part_id), **changes)
    parts = tuple(changed if part.id == part_id else part for part in system.parts)
    return replace(system, parts=parts)


def with_choice(system: BrakeSystem, part_id: str, **choices: str) -> BrakeSystem:
    before = dict(system.part(part_id).choices)
    return with_part(system, part_id, choices=before | choices)


def numbers(answer: Answer) -> dict[str, Any]:
    found: dict[str, Any] = {
        "deceleration": answer.deceleration_m_s2,
        "front used": answer.front_adhesion_used,
        "rear used": answer.rear_adhesion_used,
    }
    found |= {f"torque {wheel}": each for wheel, each in answer.wheel_torque_nm.items()}
    found |= {f"circuit {name}": each for name, each in answer.circuit_pressure_pa.items()}
    if answer.travel:
        found["travel"] = answer.travel.total_m
        found |= {f"stroke {name}": each for name, each in answer.travel.strokes_m.items()}
    return found


def same(one: Answer, other: Answer) -> None:
    left, right = numbers(one), numbers(other)
    assert left.keys() == right.keys()
    for name, value in left.items():
        np.testing.assert_allclose(value, right[name], rtol=1e-9, atol=1e-12, err_msg=name)


# ------------------------------------------------------------------ any layout


@pytest.mark.parametrize("layout", LAYOUTS)
def test_a_firmer_push_never_does_less(layout: str) -> None:
    system = small_car(layout)
    forces = np.linspace(0.0, 1200.0, 241)
    answer = solve(system, known(system), forces, "laden")
    for name, values in numbers(answer).items():
        assert np.all(np.diff(values) >= -1e-9 * np.max(np.abs(values))), name
    assert row(answer.deceleration_m_s2)[0] == 0.0
    assert answer.travel is not None
    assert row(answer.travel.total_m)[0] == 0.0


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("seed", [1, 2])
def test_the_order_of_entry_says_nothing(layout: str, seed: int) -> None:
    system = small_car(layout)
    shuffled = random.Random(seed)
    parts = shuffled.sample(system.parts, len(system.parts))
    turned = [
        replace(line, ends=line.ends[::-1]) if shuffled.random() < 0.5 else line
        for line in shuffled.sample(system.lines, len(system.lines))
    ]
    other = replace(system, parts=tuple(parts), lines=tuple(turned))
    for state in (WHOLE, State.of(Leak(system.lines[0].id))):
        same(
            solve(system, known(system), 350.0, "laden", state=state),
            solve(other, known(other), 350.0, "laden", state=state),
        )


def mirrored(system: BrakeSystem) -> BrakeSystem:
    """Swap the two sides: each wheel's parts go to the wheel across."""
    across = {
        Wheel.FRONT_LEFT: Wheel.FRONT_RIGHT,
        Wheel.FRONT_RIGHT: Wheel.FRONT_LEFT,
        Wheel.REAR_LEFT: Wheel.REAR_RIGHT,
        Wheel.REAR_RIGHT: Wheel.REAR_LEFT,
    }
    parts = tuple(
        replace(part, wheel=across[part.wheel]) if part.wheel else part for part in system.parts
    )
    return replace(system, parts=parts)


@pytest.mark.parametrize("layout", LAYOUTS)
def test_a_mirrored_car_mirrors(layout: str) -> None:
    base = small_car(layout)
    uneven = next(p for p in base.parts if p.wheel and p.kind in {PartKind.DISC, PartKind.DRUM})
    system = with_part(
        base,
        uneven.id,
        figures=dict(uneven.figures)
        | (
            {"outer_diameter_m": Stated(0.26)}
            if uneven.kind is PartKind.DISC
            else {"diameter_m": Stated(0.22)}
        ),
    )
    other = mirrored(system)
    for state in (WHOLE, State.of(SealGone(system.of_kind(PartKind.MASTER)[0].id, "primary"))):
        here = solve(system, known(system), 300.0, "driver only", state=state)
        there = solve(other, known(other), 300.0, "driver only", state=state)
        for left, right in (FRONTS, REARS):
            assert here.wheel_force_n[left] == pytest.approx(there.wheel_force_n[right])
            assert here.wheel_force_n[right] == pytest.approx(there.wheel_force_n[left])
        assert here.deceleration_g == pytest.approx(there.deceleration_g)
        pulls = [
            side_pull(prepare(each, known(each)), answer.wheel_force_n)
            for each, answer in ((system, here), (other, there))
        ]
        assert pulls[0] is not None
        assert pulls[1] is not None
        assert pulls[0].yaw_moment_nm == pytest.approx(-pulls[1].yaw_moment_nm)
        assert pulls[0].steering_moment_nm == pytest.approx(-row(pulls[1].steering_moment_nm))


@pytest.mark.parametrize("layout", LAYOUTS)
def test_failing_nothing_changes_nothing(layout: str) -> None:
    system = small_car(layout)
    whole = solve(system, known(system), 400.0, "laden")
    nothing = [State(), State.of(ServoDead("no-such-servo")), State.of(Leak("no-such-line"))]
    nothing += [State.of(ShuttleTripped(p.id)) for p in system.of_kind(PartKind.VALVE)]
    for state in nothing:
        same(whole, solve(system, known(system), 400.0, "laden", state=state))


@pytest.mark.parametrize("layout", LAYOUTS)
def test_arrays_of_samples_and_forces_answer_like_single_numbers(layout: str) -> None:
    system = small_car(layout)
    drawn = np.random.default_rng(7)
    figures: dict[str, Any] = dict(known(system))
    for each in ranges(system, gather(system)):
        if each.high > each.low:
            figures[each.path] = drawn.uniform(each.low, each.high, 5)
    forces = np.array([[20.0, 150.0], [400.0, 1500.0]])
    state = State.of(ServoDead())
    both = solve(system, figures, forces, "laden", state=state)
    assert np.shape(both.deceleration_g) == (5, 2, 2)
    for sample in range(5):
        one = {
            path: float(value[sample]) if np.ndim(value) else value
            for path, value in figures.items()
        }
        for at, force in np.ndenumerate(forces):
            alone = solve(system, one, float(force), "laden", state=state)
            assert isinstance(alone.deceleration_g, float)
            for name, value in numbers(alone).items():
                found = numbers(both)[name][(sample, *at)]
                assert found == pytest.approx(value, rel=1e-9, abs=1e-9), name


# ------------------------------------------------------------------ straight lines


@settings(max_examples=30, deadline=None)
@given(
    start=st.floats(200.0, 500.0),
    step=st.floats(20.0, 150.0),
    layout=st.sampled_from(["single line", "twin cylinders"]),
)
def test_without_servo_and_valve_the_torque_is_straight_above_the_thresholds(
    start: float, step: float, layout: str
) -> None:
    system = small_car(layout)
    roomy = known(system, pedal__floor_travel_m=0.39)
    forces = start + step * np.arange(3.0)
    answer = solve(system, roomy, forces, "driver only")
    assert answer.travel is not None
    assert not np.any(answer.travel.on_stop)
    for torque in map(row, answer.wheel_torque_nm.values()):
        assert torque[2] - 2 * torque[1] + torque[0] == pytest.approx(0.0, abs=1e-6)
    travel = row(answer.travel.total_m)
    assert travel[2] - 2 * travel[1] + travel[0] != pytest.approx(0.0, abs=1e-9)


def test_the_servo_bends_at_its_knee_and_is_continuous_there() -> None:
    system = small_car()
    bench = prepare(system, known(system)).bench("laden").hydraulics
    at, figures = bench.ratio, known(system)
    rod = float(np.asarray(bench.servo_knee_n))
    foot = rod / (at * figures["pedal.efficiency"]) + figures["pedal.return_n"]
    forces = foot + np.array([-2.0, -1.0, 0.0, 1.0, 2.0])
    answer = solve(system, figures, forces, "laden")
    push = np.diff(answer.master_push_n["master"])
    lever = float(figures["pedal.ratio"] * figures["pedal.efficiency"])
    boosted = lever * float(figures["servo.boost_ratio"])
    np.testing.assert_allclose(push, [boosted, boosted, lever, lever], rtol=1e-9)
    assert row(answer.servo_run_out).tolist() == [False, False, False, True, True]


def test_a_dead_servo_leaves_the_leg_alone() -> None:
    system = small_car()
    figures = known(system)
    dead = solve(system, figures, 500.0, "laden", state=State.of(ServoDead("servo")))
    rod = dead.push_rod_n
    assert dead.master_push_n["master"] == pytest.approx(rod - figures["servo.dead_drag_n"])
    same(dead, solve(system, figures, 500.0, "laden", state=State.of(ServoDead())))


# ------------------------------------------------------------------ valves


def four_discs(rear_valve: Part | None) -> BrakeSystem:
    front, rear = (0.054, 0.4, 0.10), (0.038, 0.4, 0.10)
    brakes = dict.fromkeys(FRONTS, front) | dict.fromkeys(REARS, rear)
    return one_line_car(
        car(10e3, 2.4, 1.1, 0.5), brakes, master_bore_m=0.019, rear_valve=rear_valve
    )


def rear_and_front(system: BrakeSystem, forces: Any, state: State = WHOLE) -> tuple[Any, Any]:
    answer = solve(system, known(system), forces, "laden", state=state)
    return answer.pressure_pa[Wheel.REAR_LEFT], answer.pressure_pa[Wheel.FRONT_LEFT]


FORCES = np.linspace(0.0, 2500.0, 501)


@pytest.mark.parametrize(
    ("form", "figures", "above"),
    [("limiting", {"knee_pa": 3e6}, 0.0), ("proportioning", {"knee_pa": 3e6, "slope": 0.4}, 0.4)],
)
def test_a_valve_bends_at_its_knee(form: str, figures: dict[str, float], above: float) -> None:
    rear, front = rear_and_front(four_discs(valve(form, **figures)), FORCES)
    expected = np.where(front <= 3e6, front, 3e6 + above * (front - 3e6))
    np.testing.assert_allclose(rear, expected, rtol=1e-12)


def test_a_residual_valve_keeps_its_pressure_with_the_foot_off() -> None:
    rear, front = rear_and_front(four_discs(valve("residual", residual_pa=7e4)), FORCES)
    np.testing.assert_allclose(rear, np.maximum(front, 7e4))


def test_a_ball_shuts_when_the_car_slows_by_just_so_much() -> None:
    """The pressure behind is held from the very push at which the whole car reaches it."""
    system = four_discs(valve("deceleration-sensing", closing_deceleration_g=0.42))
    answer = solve(system, known(system), FORCES, "laden")
    rear, front = (row(answer.pressure_pa[w]) for w in (Wheel.REAR_LEFT, Wheel.FRONT_LEFT))
    slowing = row(answer.deceleration_g)
    np.testing.assert_allclose(rear[slowing < 0.42], front[slowing < 0.42])
    held = rear[slowing > 0.42]
    assert np.ptp(held) == pytest.approx(0.0, abs=1e-3)
    # With both in proportion until it shuts, that pressure is the one at which z is 0.42.
    open_car = four_discs(None)
    at = np.interp(held[0], front, solve(open_car, known(open_car), FORCES, "laden").deceleration_g)
    assert at == pytest.approx(0.42, abs=1e-9)


def test_a_lighter_car_shuts_the_ball_sooner() -> None:
    system = four_discs(valve("deceleration-sensing", closing_deceleration_g=0.42))
    figures = known(system, car__driver_only_mass_kg=700.0)
    held = [
        float(np.max(solve(system, figures, FORCES, load).pressure_pa[Wheel.REAR_LEFT]))
        for load in ("driver only", "laden")
    ]
    assert held[0] / held[1] == pytest.approx(700.0 * 9.80665 / 10e3)


def test_a_ball_that_lifts_again_rises_with_its_slope() -> None:
    lifting = valve("deceleration-sensing", closing_deceleration_g=0.42, slope=0.3)
    rear, front = rear_and_front(four_discs(lifting), FORCES)
    plain = valve("deceleration-sensing", closing_deceleration_g=0.42)
    shut = float(np.max(rear_and_front(four_discs(plain), FORCES)[0]))
    np.testing.assert_allclose(
        rear, np.minimum(front, shut) + 0.3 * np.maximum(front - shut, 0.0), rtol=1e-9
    )


def two_balls(first_g: float, second_g: float) -> tuple[BrakeSystem, Figures]:
    """A diagonal car with a sensing valve for each rear wheel."""
    system = small_car("diagonal tandem")
    for side in ("left", "right"):
        system = with_part(
            system, f"valve-rear-{side}", choices={"form": "deceleration-sensing"}, figures={}
        )
    closing = {"left": first_g, "right": second_g}
    for side, at in closing.items():
        figures = {"closing_deceleration_g": Stated(at)}
        system = with_part(system, f"valve-rear-{side}", figures=figures)
    return system, gather(system).figures


@pytest.mark.parametrize(("left", "right"), [(0.3, 0.5), (0.5, 0.3), (0.4, 0.4)])
def test_what_shuts_later_feels_what_has_shut_before(left: float, right: float) -> None:
    system, figures = two_balls(left, right)
    answer = solve(system, figures, FORCES, "laden")
    for side, wheel in (("left", Wheel.REAR_LEFT), ("right", Wheel.REAR_RIGHT)):
        closing = left if side == "left" else right
        rising = np.diff(answer.pressure_pa[wheel]) > 1.0
        slowing = row(answer.deceleration_g)
        middle = (slowing[1:] + slowing[:-1]) / 2.0
        step = np.max(np.diff(slowing))
        moving = slowing[1:] > slowing[:-1] + 1e-9
        assert np.all(rising[(middle < closing - step) & moving])
        assert not np.any(rising[middle > closing + step])


@pytest.mark.parametrize(
    ("how", "expected"),
    [("open", lambda p: p), ("shut", lambda p: 0.0 * p),
     ("at its knee", lambda p: np.minimum(p, 3e6))],
)  # fmt: skip
def test_a_stuck_valve(how: Any, expected: Any) -> None:
    system = four_discs(valve("proportioning", knee_pa=3e6, slope=0.4))
    rear, front = rear_and_front(system, FORCES, State.of(ValveStuck("valve", how)))
    np.testing.assert_allclose(rear, expected(front))


def test_a_by_pass_opens_when_the_other_circuit_is_lost() -> None:
    base = small_car("diagonal tandem")
    system = with_choice(base, "valve-rear-right", bypass="yes")
    figures = known(system)
    front_left = next(
        name for name, circuit in prepare(system, figures).topology().circuits.items()
        if circuit.gates and circuit.gates[0].part == "valve-rear-right"
    )  # fmt: skip
    other = "primary" if front_left.endswith("floating") else "floating"
    lost = State.of(SealGone("master", other))
    for state, behaves in ((WHOLE, "bent"), (lost, "open")):
        answer = solve(system, figures, 250.0, "laden", state=state)
        before = answer.circuit_pressure_pa[front_left]
        behind = answer.pressure_pa[Wheel.REAR_RIGHT]
        assert before > figures["valve-rear-right.knee_pa"] * 1.2
        assert (behind == pytest.approx(before)) is (behaves == "open")


def test_a_warning_shuttle_goes_to_the_side_that_is_low() -> None:
    system = small_car()
    figures = known(system)
    assert solve(system, figures, 300.0, "laden").shuttles == {"shuttle": 0.0}
    for chamber, side in (("floating", 1.0), ("primary", -1.0)):
        state = State.of(SealGone("master", chamber))
        assert solve(system, figures, 300.0, "laden", state=state).shuttles["shuttle"] == side


# ------------------------------------------------------------------ cylinders and circuits


def test_blanking_a_circuit_costs_its_brakes_and_none_of_its_travel() -> None:
    """The other circuit brakes as it does when this one has burst, without the lost stroke."""
    system = small_car("diagonal tandem")
    figures = known(system, pedal__floor_travel_m=0.39)
    for chamber in ("primary", "floating"):
        lines = [
            line.id for line in system.lines
            if any((end.part, end.port) == ("master", chamber) for end in line.ends)
        ]  # fmt: skip
        every = prepare(system, figures).topology()
        own = [
            name for leg in every.circuits[f"master-{chamber}"].legs
            for name in every.legs.legs[leg].lines
        ]  # fmt: skip
        lost = solve(system, figures, 400.0, "laden", state=State.of(SealGone("master", chamber)))
        whole = solve(system, figures, 400.0, "laden")
        for blanked in (lines, own):
            shut = solve(
                system,
                figures,
                400.0,
                "laden",
                state=State.of(*(Blanked(each) for each in blanked)),
            )
            for wheel in Wheel:
                assert shut.wheel_torque_nm[wheel] == pytest.approx(
                    lost.wheel_torque_nm[wheel], rel=1e-3
                )
            assert shut.travel is not None
            assert lost.travel is not None
            assert whole.travel is not None
            assert shut.travel.total_m < whole.travel.total_m < lost.travel.total_m
            lengths = {p.key for p in shut.travel.pieces if float(p.length_m) > 0.0}
            assert "run to the stop" not in lengths


def test_a_lost_circuit_lets_its_piston_run_to_the_stop() -> None:
    system = small_car()
    figures = known(system, pedal__floor_travel_m=0.39)
    lost = solve(system, figures, 300.0, "laden", state=State.of(SealGone("master", "floating")))
    assert lost.travel is not None
    assert lost.travel.strokes_m["master-floating"] == pytest.approx(
        figures["master.floating_stroke_m"]
    )
    lost = solve(system, figures, 300.0, "laden", state=State.of(SealGone("master", "primary")))
    assert lost.travel is not None
    apart = lost.travel.strokes_m["master-primary"] - lost.travel.strokes_m["master-floating"]
    assert apart == pytest.approx(figures["master.primary_stroke_m"])
    assert np.all(lost.travel.on_stop)


def test_two_circuits_into_one_caliper_add_up_and_one_is_left_when_the_other_goes() -> None:
    system = small_car("two lines into one caliper")
    figures = known(system, pedal__floor_travel_m=0.39)
    whole = solve(system, figures, 200.0, "laden").wheel_torque_nm[Wheel.FRONT_LEFT]
    alone = [
        solve(system, figures, 200.0, "laden", state=State.of(SealGone("master", chamber)))
        for chamber in ("primary", "floating")
    ]
    parts = [each.wheel_torque_nm[Wheel.FRONT_LEFT] for each in alone]
    assert all(part > 0.0 for part in parts)
    assert sum(parts) == pytest.approx(whole, rel=0.02)


def test_a_remote_servo_adds_up_to_what_it_has() -> None:
    system = small_car("remote servo")
    figures = known(system)
    forces = np.linspace(50.0, 400.0, 8)
    working = solve(system, figures, forces, "laden")
    dead = solve(system, figures, forces, "laden", state=State.of(ServoDead("remote")))
    before = working.circuit_pressure_pa["master-primary"]
    behind = row(working.pressure_pa[Wheel.FRONT_LEFT])
    threshold, ratio = figures["remote.threshold_pa"], figures["remote.boost_ratio"]
    adds = (ratio - 1.0) * np.maximum(before - threshold, 0.0)
    assert np.all(behind <= before + adds + 1.0)
    np.testing.assert_allclose(behind[:3], (before + adds)[:3], rtol=1e-9)
    np.testing.assert_allclose(
        dead.pressure_pa[Wheel.FRONT_LEFT], dead.circuit_pressure_pa["master-primary"]
    )


def test_a_balance_bar_shares_and_a_bar_pushed_over_moves_both_ways() -> None:
    system = small_car("twin cylinders")
    for share in (0.4, 0.55, 0.7):
        figures = known(system, bar__front_share=share)
        answer = solve(system, figures, 400.0, "laden")
        front, rear = (answer.master_push_n[f"master-{axle}"] for axle in ("front", "rear"))
        assert front / (front + rear) == pytest.approx(share)
        assert front + rear == pytest.approx(answer.push_rod_n)


# ------------------------------------------------------------------ bad input


def test_a_force_below_nothing_is_refused() -> None:
    system = small_car()
    with pytest.raises(BadInput, match="force of the foot: is below zero"):
        solve(system, known(system), -1.0, "laden")
    with pytest.raises(BadInput, match="force of the foot"):
        solve(system, known(system), float("nan"), "laden")


def test_what_is_missing_is_named_with_how_to_find_it() -> None:
    system = small_car()
    master = replace(system.part("master"), figures={})
    system = with_part(system, "master", figures=master.figures)
    with pytest.raises(BadInput, match=r"bore \(master cylinder\): is not known. Measure the bore"):
        solve(system, gather(system).figures, 300.0, "laden")


def test_without_laden_figures_the_car_with_its_driver_is_still_answered() -> None:
    system = small_car()
    body = system.part("car")
    figures = {name: each for name, each in body.figures.items() if not name.startswith("laden")}
    system = with_part(system, "car", figures=figures)
    found = gather(system)
    assert solve(system, found.figures, 300.0, "driver only").deceleration_g > 0.0
    with pytest.raises(BadInput, match="mass fully laden"):
        solve(system, found.figures, 300.0, "laden")


def test_without_fluid_there_is_no_travel_and_it_says_so() -> None:
    system = small_car()
    system = replace(system, parts=tuple(p for p in system.parts if p.kind is not PartKind.FLUID))
    answer = solve(system, gather(system).figures, 300.0, "laden")
    assert answer.travel is None
    assert [each.path for each in answer.not_worked_out] == ["fluid"]


def test_a_reversed_valve_is_refused() -> None:
    system = four_discs(valve("limiting", knee_pa=3e6))
    turned = replace(system.part("valve"), ports=(Port("in", "out"), Port("out", "in")))
    system = with_part(system, "valve", ports=turned.ports)
    with pytest.raises(BadInput, match="valve: has its outlet towards the cylinder"):
        solve(system, known(system), 300.0, "laden")


def test_two_chambers_on_one_line_are_refused() -> None:
    system = small_car("diagonal tandem")
    ends = (LineEnd("master", "primary"), LineEnd("master", "floating"))
    bridge = Line("bridge", "bridge", LineKind.PIPE, ends)
    system = replace(system, lines=(*system.lines, bridge))
    with pytest.raises(BadInput, match=r"is joined to|are fed already"):
        solve(system, known(system), 300.0, "laden")


def test_a_caliper_needs_its_disc() -> None:
    system = four_discs(None)
    parts = tuple(part for part in system.parts if part.id != "disc-front-left")
    system = replace(system, parts=parts)
    with pytest.raises(BadInput, match="disc of caliper-front-left: is not known"):
        solve(system, known(system), 300.0, "laden")


def test_a_lining_that_would_lock_by_itself_is_named_with_its_drum() -> None:
    system = small_car()
    figures = {
        "diameter_m": Stated(0.203),
        "lining_friction": Stated(0.9),
        "lining_arc_rad": Stated(1.9),
        "actuation_arm_m": Stated(0.17),
        "pivot_arm_m": Stated(0.085),
        "friction_arm_m": Stated(0.10),
    }
    choices = {"form": "leading-trailing", "factor": "from geometry"}
    system = with_part(system, "drum-rear-left", figures=figures, choices=choices)
    with pytest.raises(BadInput, match=r"friction of lining on drum \(rear left drum\)"):
        solve(system, known(system), 300.0, "laden")
