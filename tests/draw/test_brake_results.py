"""From readings of the brakes to the pictures: what is drawn is what was worked out."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from bareshell.brakes.bleed_plan import bleed_plan
from bareshell.brakes.examples import small_car
from bareshell.brakes.failures import Failure, failed, failures, pair_cases
from bareshell.brakes.figures import gather
from bareshell.brakes.fluid_state import fluid_state
from bareshell.brakes.heat import HeatHistory, run
from bareshell.brakes.heat_body import heat_input
from bareshell.brakes.heat_course import descent, rest, snubs
from bareshell.brakes.heat_figures import gather_heat
from bareshell.brakes.parking import parking
from bareshell.brakes.pipe_sheet import pipe_sheet as pipes_of
from bareshell.brakes.prepared import prepare
from bareshell.brakes.starters import STARTERS
from bareshell.brakes.yardsticks import yardstick
from bareshell.draw.brake_balance import distribution
from bareshell.draw.brake_car import PlanFailure
from bareshell.draw.brake_key import circuit_key
from bareshell.draw.brake_pedal import pedal_curve
from bareshell.draw.brake_pipes import pipe_sheet
from bareshell.draw.brake_places import circuits_of, plan_of
from bareshell.draw.brake_plan import circuit_plan
from bareshell.draw.brake_results import (
    bleed_marks,
    distribution_plate,
    pedal_plate,
    pipes_plate,
    settling_plate,
    trusted_rows,
)
from bareshell.draw.brake_results_heat import boiling_plate, history_plate, slope_plate
from bareshell.draw.brake_slope import parking_slope
from bareshell.draw.brake_trust import sensitivity_bars, share_strips
from bareshell.draw.brake_warmth import boiling_curve, temperature_history
from bareshell.model.brake import (
    BrakeSystem,
    Line,
    LineEnd,
    LineKind,
    Part,
    PartKind,
    Port,
)
from bareshell.model.trust import Stated, Trust
from bareshell.whole.brake_parts import Settling
from bareshell.whole.brake_push import push_curve
from bareshell.whole.brake_trust import TrustedAnswer
from tests.brakes.heat_cars import shares_of_axles
from tests.draw.brake_boxes import of_class, outside, overlapping, read, word_boxes

CAR = small_car()
FIGURES = gather(CAR).figures
RULES = (yardstick("un-r13h-service"), yardstick("un-r13h-circuit"))


def test_installed_forces_are_shares_of_the_weight_and_meet_the_ideal_at_its_adhesion() -> None:
    curve = push_curve(prepare(CAR, FIGURES), 600.0, "driver only")
    plate = distribution_plate(curve, FIGURES)
    weight = FIGURES["car.driver_only_mass_kg"] * 9.80665
    assert plate.installed[10][0] == pytest.approx(curve.front_force_n[10] / weight)
    for front, rear in plate.ideal[1:30]:
        # On the ideal line both axles use the same adhesion, which is the deceleration itself.
        z = front + rear
        rise = z * FIGURES["car.cg_height_m"] / FIGURES["car.wheelbase_m"]
        carried = FIGURES["car.driver_only_front_share"] + rise
        assert front / carried == pytest.approx(z)
        assert rear / (1 - carried) == pytest.approx(z)
    assert overlapping(distribution(plate, width=760)) == []


def test_the_pedal_curve_has_both_loads_the_floor_and_the_yardsticks_corner() -> None:
    ready = prepare(CAR, FIGURES)
    driver, laden = (push_curve(ready, 600.0, load) for load in ("driver only", "laden"))
    plate = pedal_plate(
        [driver, laden],
        standard=laden,
        yardsticks=RULES,
        floor_m=0.135,
        stroke_m=0.15,
        servo_gives_all_at_n=300.0,
    )
    slowing, travel = plate.panels
    assert [curve.words for curve in slowing.curves] == ["driver only", "laden", "standard"]
    assert [asked.value for asked in slowing.asked] == pytest.approx([6.43])
    assert [level.words for level in travel.levels] == ["floor 135", "stroke 150"]
    assert travel.curves[0].points[-1][1] == pytest.approx(1000 * driver.travel_m[-1])
    drawing = pedal_curve(plate)
    assert overlapping(drawing) == []
    assert outside(drawing) == []
    with pytest.raises(ValueError, match="one load at least"):
        pedal_plate([])


@pytest.mark.parametrize("layout", STARTERS)
def test_every_pipe_of_the_sheet_is_drawn_with_its_ends_and_bends(layout: str) -> None:
    car = small_car(layout)
    sheet = pipes_of(car)
    circuits = circuits_of(car)
    numbers = {line.id: circuits.of_line(car, line) for line in car.lines}
    pipes = pipes_plate(sheet, numbers)
    assert [pipe.id for pipe in pipes] == [each.pipe.line for each in sheet.pipes]
    for pipe, made in zip(pipes, sheet.pipes, strict=True):
        assert pipe.circuit == numbers[pipe.id] > 0
        assert pipe.cut_mm == pytest.approx(1000 * (made.pipe.cut_m or 0))
        assert all(0 < bend.at_mm < 1000 * (made.plan_m or 0) for bend in pipe.bends)
    drawing = pipe_sheet(pipes)
    assert overlapping(drawing) == []
    assert outside(drawing) == []


def test_what_to_measure_next_and_the_shares_are_drawn_in_their_own_words() -> None:
    first = Settling("car.cg_height_m", "height of the centre of gravity", "Tilt it.", 0.6, "0.1 m")
    plate = settling_plate("which axle locks first", [first])
    assert plate.inputs[0].id == "car.cg_height_m"
    assert "Tilt it." in read(sensitivity_bars(plate)).get("aria-label", "")
    held = TrustedAnswer(
        "one", "yardstick", "service brake", "6.43 m/s2", "open", 0.9996, "", "0.6 m/s2 short",
        -0.6, "m/s2", (), (), "",
    )  # fmt: skip
    untold = replace(held, id="two", state="not worked out", share=None)
    rows = trusted_rows([held, untold])
    assert rows[0].words == "Service brake"
    assert [row.id for row in rows] == ["one"]
    said = "met in 99.9 of 100 combinations; the worst 0.6 m/s2 short"
    assert said in [words for words, _ in word_boxes(share_strips(rows))]


@pytest.mark.parametrize("layout", STARTERS)
def test_the_order_of_bleeding_is_that_of_the_plan(layout: str) -> None:
    car = small_car(layout)
    plan = bleed_plan(car)
    marks = bleed_marks(plan)
    assert [(m.number, m.part) for m in marks if m.number] == [
        (s.number, s.part) for s in plan.steps
    ]
    drawing = circuit_plan(plan_of(car), bleeds=marks)
    assert len(of_class(drawing, "bk-turn")) == len(marks)
    assert overlapping(drawing) == []
    for step in plan.steps:
        assert f"{1e6 * step.draw_m3:.0f} ml" in read(drawing).get("aria-label", "")


def test_a_leg_that_no_screw_empties_is_marked_at_its_far_end() -> None:
    blank = Part("blank", "old servo pipe", PartKind.STUB, at_m=(0.1, -0.3), ports=(Port("a"),))
    tee = replace(CAR.part("tee-front"), ports=(*CAR.part("tee-front").ports, Port("spare")))
    pipe = Line(
        "old", "old pipe", LineKind.PIPE, (LineEnd("tee-front", "spare"), LineEnd("blank", "a"))
    )
    parts = tuple(tee if part.id == "tee-front" else part for part in CAR.parts)
    car = replace(CAR, parts=(*parts, blank), lines=(*CAR.lines, pipe))
    marks = bleed_marks(bleed_plan(car))
    assert [mark.part for mark in marks if not mark.number] == ["blank"]
    plan = plan_of(car)
    drawing = circuit_plan(plan, bleeds=marks)
    words = [said for said, _ in word_boxes(drawing)]
    assert "v" in words
    assert any(said.startswith("vent: ") for said in words)
    assert "vent it there" in read(drawing).get("aria-label", "")
    key = [said for _, said in circuit_key(plan, bleeds=marks)]
    assert key[-2:] == ["turn of a bleed screw", "no screw empties it: vent this end"]


# ---------------------------------------------------------------- failures on the plan


def shown(car: BrakeSystem, failure: Failure) -> PlanFailure:
    numbers = {name: number for number, name in enumerate(circuits_of(car).ids, 1)}
    return PlanFailure(
        failure.words,
        dict.fromkeys(filter(None, failure.element.split("+")), "fails"),
        tuple(numbers[name] for name in failure.lost_circuits),
        without_brake=tuple(wheel.value for wheel in failure.lost_wheels),
    )


@pytest.mark.parametrize("layout", STARTERS)
def test_every_failure_has_its_octagon_its_wheels_and_its_circuits_by_number(layout: str) -> None:
    car = small_car(layout)
    plan = plan_of(car)
    for failure in failures(car, gather(car).figures, 400.0, "laden"):
        if failure.alike != failure.id and failure.kind != "joint leaks":
            continue
        drawing = circuit_plan(plan, failure=shown(car, failure))
        assert len(of_class(drawing, "bk-failed")) == (1 if failure.element else 0)
        words = [said for said, _ in word_boxes(drawing)]
        assert words.count("no brake") == len(failure.lost_wheels)
        assert overlapping(drawing) == []


def test_two_failures_at_once_are_two_octagons() -> None:
    ready = prepare(CAR, FIGURES)
    pair = next(
        each
        for each in failed(ready, pair_cases(ready), 400.0, "laden")
        if len(set(filter(None, each.element.split("+")))) == 2
    )
    drawing = circuit_plan(plan_of(CAR), failure=shown(CAR, pair))
    assert len(of_class(drawing, "bk-failed")) == 2


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


def test_the_slope_is_that_of_the_parking_brake_both_ways() -> None:
    answer = parking(CAR, FIGURES, 400.0)
    plate = slope_plate(answer, yardstick=yardstick("un-r13h-parking"))
    assert plate.asked == pytest.approx(0.2)
    assert [held.slope for held in plate.held] == pytest.approx(
        [float(answer.nose_up.slope), float(answer.nose_down.slope)]
    )
    drawing = parking_slope(plate)
    assert overlapping(drawing) == []
    assert outside(drawing) == []


def test_an_unfinished_system_still_has_circuits_and_a_plan() -> None:
    half = BrakeSystem("x", "x", parts=CAR.parts[:6], lines=CAR.lines[:2])
    assert overlapping(circuit_plan(plan_of(half))) == []
