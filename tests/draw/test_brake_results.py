"""From the solve to the pictures: what is drawn is what was worked out."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from bareshell.brakes.examples import small_car
from bareshell.brakes.failures import Failure, failure_pairs, failures
from bareshell.brakes.figures import gather
from bareshell.brakes.fluid_state import fluid_state
from bareshell.brakes.heat import HeatHistory, run
from bareshell.brakes.heat_body import heat_input, shares_of_axles
from bareshell.brakes.heat_course import descent, rest, snubs
from bareshell.brakes.heat_figures import gather_heat
from bareshell.brakes.solve import solve
from bareshell.brakes.starters import STARTERS
from bareshell.brakes.yardsticks import yardstick
from bareshell.draw.brake_balance import adhesion_used, distribution
from bareshell.draw.brake_pedal import pedal_curve
from bareshell.draw.brake_places import circuits_of, plan_of
from bareshell.draw.brake_plan import circuit_plan
from bareshell.draw.brake_results import (
    adhesion_plate,
    asking,
    distribution_plate,
    failure_shown,
    ladder_plate,
    pedal_plate,
    travel_plate,
)
from bareshell.draw.brake_results_heat import boiling_plate, history_plate
from bareshell.draw.brake_rungs import failure_ladder
from bareshell.draw.brake_travel import pedal_travel
from bareshell.draw.brake_warmth import boiling_curve, temperature_history
from bareshell.model.brake import BrakeSystem, Part, PartKind
from bareshell.model.trust import Stated, Trust
from tests.draw.brake_boxes import of_class, outside, overlapping, read, word_boxes

CAR = small_car()
FIGURES = gather(CAR).figures
PUSH = np.linspace(0.0, 600.0, 31)
RULES = tuple(
    yardstick(name)
    for name in ("un-r13h-service", "un-r13h-circuit", "un-r13h-servo", "un-r13-adhesion")
)


@pytest.fixture(scope="module")
def found() -> tuple[Failure, ...]:
    return failures(CAR, FIGURES, 500.0, "laden")


def test_adhesion_is_that_of_the_answer_with_the_yardstick_beside_it() -> None:
    answer = solve(CAR, FIGURES, PUSH, "driver only")
    plate = adhesion_plate(answer, yardsticks=RULES)
    assert plate.front[20] == (answer.deceleration_g[20], answer.front_adhesion_used[20])
    (line,) = plate.forbidden
    (z0, k0), (z1, k1) = line.boundary
    # z >= 0.1 + 0.85 (k - 0.2), the earlier rule's line
    assert (z0, k0) == pytest.approx((0.1, 0.2))
    assert (z1, k1) == pytest.approx((0.1 + 0.85 * 0.6, 0.8))
    drawing = adhesion_used(plate)
    assert overlapping(drawing) == []
    assert outside(drawing) == []


def test_installed_and_ideal_meet_where_both_axles_use_the_same() -> None:
    answer = solve(CAR, FIGURES, PUSH, "driver only")
    plate = distribution_plate(answer, FIGURES)
    front, rear = plate.ideal[20]  # at half of g
    assert front + rear == pytest.approx(0.5)
    weight = FIGURES["car.driver_only_mass_kg"] * 9.80665
    assert plate.installed[10][0] == pytest.approx(float(answer.front_force_n[10]) / weight)
    assert overlapping(distribution(plate)) == []


def test_the_pedal_curve_has_both_loads_the_floor_and_the_servos_knee() -> None:
    answers = [solve(CAR, FIGURES, PUSH, load) for load in ("driver only", "laden")]
    plate = pedal_plate(answers, standard=answers[1], yardsticks=RULES)
    slowing, travel = plate.panels
    assert [curve.words for curve in slowing.curves] == ["driver only", "laden", "standard"]
    assert slowing.asked[0].value == pytest.approx(6.43)
    assert travel.levels[0].value == pytest.approx(135)
    (knee, words) = plate.knees[0]
    assert words == "servo gives all it has"
    assert bool(answers[0].servo_run_out[list(PUSH).index(knee)])
    drawing = pedal_curve(plate)
    assert overlapping(drawing) == []
    assert outside(drawing) == []


def test_the_pieces_of_travel_add_up_to_the_travel(found: tuple[Failure, ...]) -> None:
    whole = solve(CAR, FIGURES, 500.0, "laden")
    burst = next(each for each in found if each.id == "leak-hose-rear")
    plate = travel_plate([("all whole", whole), ("rear circuit lost", burst.answer)])
    for row, answer in zip(plate.rows, (whole, burst.answer), strict=True):
        assert answer.travel is not None
        assert row.total_mm == pytest.approx(1000 * float(answer.travel.total_m), abs=0.5)
    assert any(piece.lost for piece in plate.rows[1].pieces)
    assert plate.rows[1].on_floor == bool(burst.floor_reached)
    assert overlapping(pedal_travel(plate)) == []


@pytest.mark.parametrize("layout", STARTERS)
def test_failures_that_leave_the_same_stand_on_one_rung(layout: str) -> None:
    car = small_car(layout)
    figures = gather(car).figures
    whole = solve(car, figures, 500.0, "laden")
    some = failures(car, figures, 500.0, "laden")
    plate = ladder_plate(car, whole, some, asked=asking(RULES, 500.0, "laden"))
    kinds = {each.alike for each in some if each.kind != "parking cable broken"}
    assert {rung.id for rung in plate.rungs[1:]} == kinds
    left = [rung.deceleration_m_s2 or 0.0 for rung in plate.rungs[1:]]
    assert left == sorted(left, reverse=True)
    drawing = failure_ladder(plate)
    assert overlapping(drawing) == []
    assert outside(drawing) == []


def test_each_failure_is_held_against_its_own_yardstick(found: tuple[Failure, ...]) -> None:
    asked = asking(RULES, 500.0, "laden")
    by_id = {each.id: each for each in found}
    assert asked(None) == pytest.approx(6.43)
    assert asked(by_id["leak-hose-rear"]) == pytest.approx(2.44)
    assert asked(by_id["dead-servo"]) == pytest.approx(2.44)
    assert asked(by_id["valve-rear-shut"]) is None
    # Meant for 500 N of the foot, they are silent about another push.
    assert asking(RULES, 350.0, "laden")(by_id["leak-hose-rear"]) is None


@pytest.mark.parametrize("layout", STARTERS)
def test_the_plan_shows_what_a_failure_takes_and_leaves(layout: str) -> None:
    car = small_car(layout)
    plan = plan_of(car)
    for failure in failures(car, gather(car).figures, 400.0, "laden"):
        shown = failure_shown(car, failure)
        assert set(shown.without_brake) == {wheel.value for wheel in failure.lost_wheels}
        ids = circuits_of(car).ids
        assert {ids[number - 1] for number in shown.lost_circuits} == set(failure.lost_circuits)
        if failure.alike == failure.id or failure.kind == "joint leaks":
            drawing = circuit_plan(plan, failure=shown)
            assert len(of_class(drawing, "bk-failed")) == (1 if failure.element else 0)
            words = [said for said, _ in word_boxes(drawing)]
            assert words.count("no brake") == len(failure.lost_wheels)
            assert overlapping(drawing) == []


def test_two_failures_at_once_are_two_octagons() -> None:
    pair = next(
        each
        for each in failure_pairs(CAR, FIGURES, 400.0, "laden")
        if all(part in {p.id for p in CAR.parts} | {l.id for l in CAR.lines}  # noqa: E741
               for part in each.element.split("+"))
    )  # fmt: skip
    drawing = circuit_plan(plan_of(CAR), failure=failure_shown(CAR, pair))
    assert len(of_class(drawing, "bk-failed")) == len(set(pair.element.split("+")))


# ---------------------------------------------------------------- heat


def history(course: object) -> HeatHistory:
    figures = dict(gather_heat(CAR).figures)
    for part in CAR.parts:
        if part.kind is PartKind.DISC:
            figures |= {f"{part.id}.thickness_m": 0.011}
        if part.kind is PartKind.DRUM:
            figures |= {f"{part.id}.lining_width_m": 0.04, f"{part.id}.rim_thickness_m": 0.009}
    given = heat_input(CAR, figures, shares_of_axles(CAR, 0.75))
    return run(given, course, ambient_c=20.0)  # type: ignore[arg-type]


def fluid() -> Part:
    figures = {"age_years": Stated(3.0, Trust.MEASURED)}
    return Part("fluid", "fluid", PartKind.FLUID, figures=figures, choices={"grade": "DOT 4"})


def test_a_history_keeps_its_peaks_when_it_is_thinned() -> None:
    long = history(snubs(15, 33.0, 16.0, 45.0, 3.0))
    plate = history_plate(long, "15 stops", state=fluid_state(fluid(), date(2026, 11, 25)))
    front = max(float(np.max(w.face_c)) for w in long.wheels if w.body.wheel.is_front)
    hottest = max(c for _, c in plate.curves[0].points)
    assert hottest == pytest.approx(front)
    assert len(plate.curves[0].points) <= 450
    assert plate.peak is not None
    assert plate.peak[1] == pytest.approx(max(float(np.max(w.fluid_c)) for w in long.wheels))
    assert outside(temperature_history(plate)) == []


def test_a_descent_and_the_soak_after_it_are_named_above_the_curves() -> None:
    course = (*descent(0.08, 16.0, 8000.0), *rest(1500.0))
    plate = history_plate(history(course), "a descent, then standing")
    assert plate.unit == "min"
    assert len(plate.stages) == 2
    assert plate.boiling is None
    drawing = temperature_history(plate)
    assert overlapping(drawing) == []
    assert "standing" in [said for said, _ in word_boxes(drawing)]


def test_todays_fluid_has_the_boiling_range_of_its_state() -> None:
    state = fluid_state(fluid(), date(2026, 11, 25))
    assert state.boiling_c is not None
    plate = boiling_plate(state, hottest_c=110.0)
    assert plate.today_c == (state.boiling_c.low, state.boiling_c.usual, state.boiling_c.high)
    drawing = boiling_curve(plate)
    assert overlapping(drawing) == []
    assert f"{float(state.boiling_c.usual):.0f} °C" in read(drawing).get("aria-label", "")


def test_an_unfinished_system_still_has_circuits_and_a_plan() -> None:
    half = BrakeSystem("x", "x", parts=CAR.parts[:6], lines=CAR.lines[:2])
    assert overlapping(circuit_plan(plan_of(half))) == []
