"""The solve against a second one that shares nothing with it but the car."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st

from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import gather
from bareshell.brakes.solve import solve
from bareshell.model.brake import BrakeSystem, Wheel
from bareshell.model.trust import Stated
from tests.brakes.plain_twin import Twin

LINES = (
    ("pipe-front-circuit", "pipe", "first"),
    ("pipe-to-front-tee", "pipe", "first"),
    ("hose-front-left", "hose", "first"),
    ("pipe-front-left", "pipe", "first"),
    ("hose-front-right", "hose", "first"),
    ("pipe-front-right", "pipe", "first"),
    ("pipe-rear-circuit", "pipe", "second"),
    ("pipe-to-rear-valve", "pipe", "second"),
    ("hose-rear", "hose", "behind"),
    ("pipe-rear-left", "pipe", "behind"),
    ("pipe-rear-right", "pipe", "behind"),
    ("pipe-rear", "pipe", "behind"),
)
# The twin is slow and a smaller example says no more than a large one.
NO_SHRINKING = (Phase.explicit, Phase.reuse, Phase.generate)
CAR = small_car()
KNOWN = gather(CAR).figures


def stepped(car: BrakeSystem) -> BrakeSystem:
    master = car.part("master")
    changed = replace(
        master,
        figures={**master.figures, "floating_bore_m": Stated(0.017)},
        choices={**master.choices, "bores": "stepped"},
    )
    parts = tuple(changed if part.id == "master" else part for part in car.parts)
    return replace(car, parts=parts)


STEPPED = stepped(CAR)
WITH_STEP = gather(STEPPED).figures

# What moves the corners: strokes, floor, knee, run-out, air, clearances.
DRAWN = st.fixed_dictionaries(
    {
        "master.primary_stroke_m": st.floats(0.008, 0.025),
        "master.floating_stroke_m": st.floats(0.005, 0.02),
        "master.primary_spring_n": st.floats(20.0, 140.0),
        "master.floating_spring_n": st.floats(20.0, 140.0),
        "master.efficiency": st.floats(0.88, 1.0),
        "pedal.floor_travel_m": st.floats(0.05, 0.2),
        "pedal.ratio": st.floats(3.0, 6.0),
        "servo.vacuum_pa": st.floats(0.0, 8e4),
        "valve-rear.knee_pa": st.floats(5e5, 9e6),
        "fluid.air_m3": st.floats(0.0, 4e-6),
        "caliper-front-left.pad_clearance_m": st.floats(0.0, 6e-4),
        "drum-rear-right.shoe_clearance_m": st.floats(1e-4, 1.2e-3),
        "drum-rear-left.flex_m3_pa": st.floats(1e-14, 3e-13),
    }
)


@settings(max_examples=80, deadline=None, phases=NO_SHRINKING)
@given(drawn=DRAWN, foot=st.floats(120.0, 1200.0), step=st.booleans())
def test_both_find_the_same_pressures_strokes_and_floor(
    drawn: dict[str, float], foot: float, step: bool
) -> None:
    system, known = (STEPPED, WITH_STEP) if step else (CAR, KNOWN)
    figures = {**known, **drawn}
    ours = solve(system, figures, foot, "laden")
    # Until the spring between the pistons yields, the twin says nothing.
    yields = figures["master.primary_spring_n"] / figures["master.efficiency"]
    assume(ours.master_push_n["master"] > yields + figures["master.seal_friction_n"] + 2.0)
    twin = Twin(figures, LINES).pushed(foot)
    assert ours.travel is not None
    pressures = ours.circuit_pressure_pa
    assert pressures["master-primary"] == pytest.approx(twin.first_pa, rel=2e-6, abs=20.0)
    assert pressures["master-floating"] == pytest.approx(twin.second_pa, rel=2e-6, abs=20.0)
    assert ours.travel.total_m == pytest.approx(twin.pad_m, rel=1e-6, abs=1e-7)
    assert ours.travel.on_floor is twin.on_floor
    assert ours.wheel_torque_nm[Wheel.FRONT_LEFT] == pytest.approx(
        twin.torque_front_nm, rel=2e-6, abs=0.05
    )
    assert ours.wheel_torque_nm[Wheel.REAR_LEFT] == pytest.approx(
        twin.torque_rear_nm, rel=2e-6, abs=0.05
    )
