"""Published worked examples run through the whole solve, each as a brake system of its own.

How far each was read stands beside it; answers worked out here from inputs that were read or
recalled are called computed. Published answers that are wrong are named with the right value.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from bareshell.brakes.figures import gather, overridden
from bareshell.brakes.inverse import limited
from bareshell.brakes.prepared import prepare
from bareshell.brakes.solve import solve
from bareshell.calc.drum import simplex_factor
from bareshell.calc.long_shoe import long_leading_factor, long_trailing_factor
from bareshell.model.brake import BrakeSystem, PartKind, Port, Wheel
from tests.brakes.bare_cars import (
    INCH,
    LBF,
    LOSSLESS_PEDAL,
    PSI,
    G,
    car,
    one_line_car,
    part,
    pipe,
    valve,
)

UNIT_BORE_M = math.sqrt(4.0 / math.pi) * INCH
"""A cylinder of one square inch: pounds on the rod are pounds a square inch in the line."""


def gain(pound_inches_per_psi: float) -> tuple[float, float, float]:
    """A disc brake of some gain: bore, friction, effective radius."""
    friction, radius_in = 0.35, 4.5
    area = pound_inches_per_psi / (2.0 * friction * radius_in)
    return math.sqrt(4.0 * area / math.pi) * INCH, friction, radius_in * INCH


def light_truck() -> BrakeSystem:
    front, rear = gain(20.0), gain(14.0)
    return one_line_car(
        car((2210 + 1864) * LBF, 108.5 * INCH, 108.5 * INCH * 1864 / 4074, 20.5 * INCH,
            12.11 * INCH),
        {
            Wheel.FRONT_LEFT: front,
            Wheel.FRONT_RIGHT: front,
            Wheel.REAR_LEFT: rear,
            Wheel.REAR_RIGHT: rear,
        },
        master_bore_m=UNIT_BORE_M,
        rear_valve=valve("proportioning", knee_pa=290 * PSI, slope=0.3),
    )  # fmt: skip


# Gillespie, Fundamentals of Vehicle Dynamics, example 3.2: inputs from memory, answers computed
# by hand elsewhere. psi; psi behind the valve; lbf front; lbf rear; g; lb front; lb rear; adhesion
# used front and rear; efficiency.
TABLE = """
100 100 330.3 231.2 0.1378 2316 1758 0.143 0.132 0.966
200 200 660.6 462.4 0.2757 2422 1652 0.273 0.280 0.985
300 293 990.9 677.5 0.4095 2525 1549 0.392 0.437 0.936
400 323 1321.2 746.8 0.5076 2601 1473 0.508 0.507 0.999
500 353 1651.5 816.2 0.6057 2676 1398 0.617 0.584 0.982
600 383 1981.8 885.5 0.7038 2752 1322 0.720 0.670 0.977
700 413 2312.1 954.9 0.8019 2827 1247 0.818 0.766 0.981
"""


def test_the_light_truck_with_a_proportioning_valve_row_by_row() -> None:
    rows = np.array([[float(cell) for cell in row.split()] for row in TABLE.strip().splitlines()])
    psi, behind, front, rear, slowing, front_lb, rear_lb, front_used, rear_used, used = rows.T
    truck = light_truck()
    answer = solve(truck, gather(truck).figures, psi * LBF, "laden")
    np.testing.assert_allclose(answer.circuit_pressure_pa["master-primary"] / PSI, psi, rtol=1e-9)
    np.testing.assert_allclose(answer.pressure_pa[Wheel.REAR_LEFT] / PSI, behind, atol=0.51)
    np.testing.assert_allclose(answer.front_force_n / LBF, front, rtol=1e-4)
    np.testing.assert_allclose(answer.rear_force_n / LBF, rear, rtol=1e-4)
    np.testing.assert_allclose(answer.deceleration_g, slowing, atol=6e-5)
    np.testing.assert_allclose(answer.front_force_n / answer.front_adhesion_used / LBF, front_lb,
                               atol=0.6)  # fmt: skip
    np.testing.assert_allclose(answer.rear_force_n / answer.rear_adhesion_used / LBF, rear_lb,
                               atol=0.6)  # fmt: skip
    np.testing.assert_allclose(answer.front_adhesion_used, front_used, atol=6e-4)
    np.testing.assert_allclose(answer.rear_adhesion_used, rear_used, atol=6e-4)
    more = np.maximum(answer.front_adhesion_used, answer.rear_adhesion_used)
    np.testing.assert_allclose(answer.deceleration_g / more, used, atol=6e-4)


def sliding(
    weight_n: float,
    wheelbase: float,
    behind: float,
    height: float,
    friction: float,
    braked: tuple[Wheel, ...],
) -> tuple[float, dict[Wheel, float]]:
    """Slide a car whose brakes are far stronger than its tyres: g, and force of each wheel."""
    strong = (0.1, 0.5, 0.2)
    system = one_line_car(
        car(weight_n, wheelbase, behind, height),
        dict.fromkeys(braked, strong),
        master_bore_m=0.02,
    )
    ready = prepare(system, gather(system).figures)
    found = limited(ready, 2000.0, "laden", friction)
    assert all(found.locked[wheel] for wheel in braked)
    return float(found.deceleration_g), {w: float(f) for w, f in found.wheel_force_n.items()}


def test_a_car_that_slides_on_all_its_wheels() -> None:
    """Halliday, Resnick and Walker, Fundamentals of Physics, 8th edition.

    11 kN, 4.2 m, 1.8 m behind the front axle, 0.75 m high, adhesion 0.40. Problem read; 3.92 m/s2,
    front wheels 1.41 kN and rear wheels 0.786 kN each are computed and agree with the answers as
    recalled.
    """
    slowing, force = sliding(11e3, 4.2, 1.8, 0.75, 0.40, tuple(Wheel))
    assert slowing * G == pytest.approx(3.92, abs=0.005)
    assert force[Wheel.FRONT_LEFT] == pytest.approx(1410.0, abs=10.0)
    assert force[Wheel.REAR_RIGHT] == pytest.approx(786.0, abs=1.0)


def test_a_published_answer_to_another_such_car_is_wrong() -> None:
    """A solutions site (read) prints 3365 N behind and 5935 N in front.

    For 9.9 kN, 4.5 m, 2.3 m, 1.0 m and 0.4 its own equations give 4180 and 5720 N.
    """
    _, force = sliding(9.9e3, 4.5, 2.3, 1.0, 0.4, tuple(Wheel))
    rear, front = (2 * force[w] / 0.4 for w in (Wheel.REAR_LEFT, Wheel.FRONT_LEFT))
    assert (rear, front) == pytest.approx((4180.0, 5720.0), abs=1.0)


def test_front_brakes_alone_carry_the_load_that_moves_forward() -> None:
    """An examination site (read) prints 2.4 m/s2, having left out what moves to the front.

    4 m, 0.8 m high, 1.2 m ahead of the rear axle, adhesion 0.8. Computed: 2.80 m/s2.
    """
    fronts = (Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT)
    slowing, force = sliding(10e3, 4.0, 2.8, 0.8, 0.8, fronts)
    assert slowing * G == pytest.approx(2.80, abs=0.005)
    assert force[Wheel.REAR_LEFT] == 0.0


@pytest.mark.parametrize(("bore_in", "psi"), [(0.625, 1222.3), (0.70, 974.4)])
def test_line_pressure_of_seventy_five_pounds_at_five_to_one(bore_in: float, psi: float) -> None:
    """An owner's sum (read): 1221 psi on 5/8 in and 974 psi on 0.70 in; exactly 1222.3, 974.4."""
    system = one_line_car(
        car(10e3, 2.4, 1.2, 0.5),
        {Wheel.FRONT_LEFT: gain(20.0), Wheel.FRONT_RIGHT: gain(20.0)},
        master_bore_m=bore_in * INCH,
        pedal={"ratio": 5.0},
    )
    answer = solve(system, gather(system).figures, 75 * LBF, "laden")
    assert answer.pressure_pa[Wheel.FRONT_LEFT] / PSI == pytest.approx(psi, abs=0.05)


def twin(share: float, bore_m: float) -> BrakeSystem:
    base = one_line_car(
        car(10e3, 2.4, 1.2, 0.5), {Wheel.FRONT_LEFT: gain(20.0)}, master_bore_m=bore_m
    )
    front = base.part("master")
    rear = part(
        "rear-master",
        PartKind.MASTER,
        {name: stated.value for name, stated in front.figures.items()},
        ports=(Port("out", "primary"),),
        form="single",
    )
    bar = part(
        "bar", PartKind.BALANCE_BAR, {"front_share": share}, front="master", rear="rear-master"
    )
    pedal = part("pedal", PartKind.PEDAL, {**LOSSLESS_PEDAL, "ratio": 5.0}, pushes="bar")
    others = tuple(each for each in base.parts if each.id != "pedal")
    return BrakeSystem("twin", "twin", parts=(pedal, *others, rear, bar), lines=base.lines)


def test_a_balance_bar_halves_it() -> None:
    """A correction posted beneath that sum (read): each of two cylinders sees half the push."""
    system = twin(0.5, 0.625 * INCH)
    answer = solve(system, gather(system).figures, 75 * LBF, "laden")
    for name in ("master-primary", "rear-master-primary"):
        assert answer.circuit_pressure_pa[name] / PSI == pytest.approx(1222.3 / 2, abs=0.05)


def test_a_servo_that_gives_2500_for_1500_newtons() -> None:
    """A training examination (inputs read, answers computed).

    1500 N into the servo, 2500 N out, 500 mm2 of cylinder: 1000 N of help, 1.667 and 5.0 MPa.
    """
    base = one_line_car(
        car(10e3, 2.4, 1.2, 0.5),
        {Wheel.FRONT_LEFT: gain(20.0)},
        master_bore_m=math.sqrt(4 * 500e-6 / math.pi),
    )
    servo = part(
        "servo",
        PartKind.SERVO,
        {
            "boost_ratio": 2500 / 1500,
            "vacuum_pa": 7e4,
            "diaphragm_diameter_m": 0.25,
            "cut_in_n": 0.0,
            "spring_n": 0.0,
            "efficiency": 1.0,
            "dead_drag_n": 0.0,
        },
    )
    system = BrakeSystem("servo", "servo", parts=(*base.parts, servo), lines=base.lines)
    answer = solve(system, gather(system).figures, 1500.0, "laden")
    assert answer.push_rod_n == 1500.0
    assert answer.master_push_n["master"] == pytest.approx(2500.0)
    assert answer.pressure_pa[Wheel.FRONT_LEFT] == pytest.approx(5.0e6, rel=1e-6)
    assert not answer.servo_run_out


@pytest.mark.parametrize(
    ("foot", "pad_in", "rod_in", "rod"), [(50.0, 10.0, 1.25, 400.0), (30.0, 8.0, 0.5, 480.0)]
)
def test_pedals_as_levers(foot: float, pad_in: float, rod_in: float, rod: float) -> None:
    """A training examination (inputs read, answers computed): pounds at the push rod."""
    system = one_line_car(
        car(10e3, 2.4, 1.2, 0.5),
        {Wheel.FRONT_LEFT: gain(20.0)},
        master_bore_m=0.02,
    )
    figures = overridden(gather(system).figures, [("pedal.ratio", pad_in / rod_in)])
    answer = solve(system, figures, foot * LBF, "laden")
    assert answer.push_rod_n / LBF == pytest.approx(rod)


@pytest.mark.parametrize(("radius_in", "psi"), [((5.5 + 3.875) / 2, 2121.0), (4.734, 2100.0)])
def test_a_disc_with_ring_shaped_pads(radius_in: float, psi: float) -> None:
    """Shigley, Mechanical Engineering Design, example 16-3 (from memory).

    1.5 in, friction 0.37, 13,000 lbf in: 3748 lbf and 2121 psi worn in; 3711 lbf, so 2100 psi, new.
    """
    system = one_line_car(
        car(10e3, 2.4, 1.2, 0.5),
        {Wheel.FRONT_LEFT: (1.5 * INCH, 0.37, radius_in * INCH)},
        master_bore_m=UNIT_BORE_M,
    )
    answer = solve(system, gather(system).figures, psi * LBF, "laden")
    torque = answer.wheel_torque_nm[Wheel.FRONT_LEFT] / (LBF * INCH)
    assert torque == pytest.approx(13_000.0, rel=6e-4)


def test_a_drum_with_two_long_shoes() -> None:
    """Shigley, problem 16-1: rim 300 mm, pivots 125 mm out, linings from 0 to 120 degrees.

    Friction 0.28, 2.2 kN on each shoe. Inputs read; 277.6 + 144.4 = 422.0 N.m from memory.
    """
    drum = (0.150, 0.125, 2 * 0.125 * math.cos(math.radians(30.0)), 0.0, math.radians(120.0))
    leading, trailing = long_leading_factor(0.28, *drum), long_trailing_factor(0.28, *drum)
    system = drum_car(simplex_factor(leading, trailing), 0.300)
    answer = solve(system, gather(system).figures, 2200.0, "laden")
    assert answer.wheel_torque_nm[Wheel.REAR_LEFT] == pytest.approx(422.0, abs=0.2)


def drum_car(factor: float, diameter_m: float) -> BrakeSystem:
    """One drum whose cylinder presses each shoe with the force of the foot."""
    base = one_line_car(car(10e3, 2.4, 1.2, 0.5), {}, master_bore_m=0.02)
    cylinder = part(
        "cylinder",
        PartKind.WHEEL_CYLINDER,
        {"bore_m": 0.02, "efficiency": 1.0, "threshold_pa": 0.0},
        ports=(Port("in", "a"),),
        wheel=Wheel.REAR_LEFT,
        form="double-ended",
    )
    drum = part(
        "drum",
        PartKind.DRUM,
        {"diameter_m": diameter_m, "brake_factor": factor},
        wheel=Wheel.REAR_LEFT,
        form="leading-trailing",
        factor="given",
    )
    line = pipe("to-cylinder", ("tee", "w3"), ("cylinder", "in"))
    parts = (*base.parts, cylinder, drum)
    return BrakeSystem("drum", "drum", parts=parts, lines=(*base.lines, line))


def test_a_short_shoe_drum_by_the_handbook() -> None:
    """Mechanical Engineer's Data Handbook, p. 88 (formulas read).

    T = K mu F a r / (b -+ K mu c), worked out here in one line for shoes of 110 degrees.
    """
    half, mu, a, b, c, r, force = math.radians(55.0), 0.35, 0.20, 0.10, 0.11, 0.115, 1500.0
    k = 4 * math.sin(half) / (2 * half + math.sin(2 * half))
    by_hand = k * mu * force * a * r * (1 / (b - k * mu * c) + 1 / (b + k * mu * c))
    base = drum_car(1.0, 2 * r)
    figures = {
        "diameter_m": 2 * r,
        "lining_friction": mu,
        "lining_arc_rad": 2 * half,
        "actuation_arm_m": a,
        "pivot_arm_m": b,
        "friction_arm_m": c,
    }
    shoes = part("drum", PartKind.DRUM, figures, wheel=Wheel.REAR_LEFT, form="leading-trailing",
                 factor="from geometry")  # fmt: skip
    parts = tuple(shoes if each.id == "drum" else each for each in base.parts)
    system = BrakeSystem("drum", "drum", parts=parts, lines=base.lines)
    answer = solve(system, gather(system).figures, force, "laden")
    assert answer.wheel_torque_nm[Wheel.REAR_LEFT] == pytest.approx(by_hand, rel=1e-9)
