"""Graded pressure holds: the joints are the proof, and the gauge is context with a range."""

from __future__ import annotations

from datetime import UTC, datetime
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import gather, ranges
from bareshell.brakes.holds import (
    CAUTIONS,
    HOLD_STEPS,
    Closed,
    Seen,
    allowed_shift,
    closed_circuit,
    judged,
    judged_reading,
    steps_for,
)
from bareshell.brakes.prepared import prepare
from bareshell.calc import fluid
from bareshell.errors import BadInput, NotFound
from bareshell.model.brake import BrakeReading, ReadingKind

RIGID = Closed("glycol", (1e-4, 1e-4), (0.0, 0.0))
SOFT = Closed("glycol", (6e-5, 6e-5), (3e-13, 3e-13))
DRY: dict[str, Seen] = {"a": "dry", "b": "dry"}


# ------------------------------------------------------------------------ what the gauge may do


def test_a_rigid_line_shifts_by_many_bar_for_a_degree() -> None:
    """V (b - b_c) K dT / V: 0.8 to 1.0e-3 less metal, times 1.7 to 2.0 GPa (from memory)."""
    shift = allowed_shift(RIGID, 1.0, unsure_k=0.0)
    assert shift.low_pa == pytest.approx((0.8e-3 - 7e-5) * 1.7e9)
    assert shift.high_pa == pytest.approx((1.0e-3 - 3e-5) * 2.0e9)
    assert 10e5 < shift.low_pa < shift.high_pa < 20e5


def test_hoses_and_calipers_take_most_of_it_away() -> None:
    soft, rigid = (allowed_shift(closed, 1.0, unsure_k=0.0) for closed in (SOFT, RIGID))
    assert soft.high_pa < 0.2 * rigid.low_pa


@given(
    st.sampled_from(sorted(fluid.FLUID_EXPANSIONS)),
    st.floats(1e-6, 2e-4),
    st.floats(1.0, 2.0),
    st.floats(0.0, 1e-12),
    st.floats(1.0, 5.0),
    st.floats(-20.0, 20.0),
    st.floats(0.0, 3.0),
)
def test_every_combination_lies_within_the_shift(
    base: str, least: float, more: float, gives: float, softer: float, warmer: float, unsure: float
) -> None:
    closed = Closed(base, (least, least * more), (gives, gives * softer))
    shift = allowed_shift(closed, warmer, unsure_k=unsure)
    modulus = fluid.bulk_modulus_span(20.0, base)
    for volume, give, growth, metal, stiff, degrees in product(
        closed.fluid_m3,
        closed.compliance_m3_pa,
        fluid.FLUID_EXPANSIONS[base],
        (3e-5, 7e-5),
        (modulus.low_pa, modulus.high_pa),
        (warmer - unsure, warmer, warmer + unsure),
    ):
        one = fluid.closed_line_pressure_change(degrees, volume, growth, metal, stiff, give)
        slack = 1e-6 * max(abs(shift.low_pa), abs(shift.high_pa)) + 1e-3
        assert shift.low_pa - slack <= one <= shift.high_pa + slack


def test_a_thermometer_that_may_be_off_widens_it() -> None:
    sure, unsure = (allowed_shift(SOFT, 2.0, unsure_k=each) for each in (0.0, 1.0))
    assert unsure.low_pa < sure.low_pa < sure.high_pa < unsure.high_pa
    still = allowed_shift(SOFT, 0.0)
    assert still.low_pa == pytest.approx(-still.high_pa)
    with pytest.raises(BadInput, match="glycol, silicone, mineral"):
        allowed_shift(Closed("unknown", (1e-4, 1e-4), (0.0, 0.0)), 1.0)


def test_a_circuit_s_fluid_and_give_come_from_the_system() -> None:
    car = small_car()
    gathered = gather(car)
    ready = prepare(car, gathered.figures)
    front = closed_circuit(ready, "master-primary", 10e5)
    rear = closed_circuit(ready, "master-floating", 10e5)
    # Front: two calipers of 36 ml by 48 mm pistons with part-worn pads, and 2.2 m of pipe.
    pipes = sum(
        float(gathered.figures[f"{line.id}.length_m"])
        for line in car.lines
        if "front" in line.id and line.kind == "pipe"
    )
    assert front.fluid_m3[0] * 1e6 == pytest.approx(2 * 36.2 + 8.8 * pipes + 2 * 2.6, abs=3.0)
    assert 0.0 < rear.compliance_m3_pa[0] < front.compliance_m3_pa[0]
    assert front.fluid_m3[0] == front.fluid_m3[1]
    with pytest.raises(NotFound, match="master-primary, master-floating"):
        closed_circuit(ready, "master-third", 10e5)


def test_samples_of_the_inputs_widen_a_circuit() -> None:
    car = small_car()
    gathered = gather(car)
    draws = np.random.default_rng(2)
    samples = {each.path: draws.uniform(each.low, each.high, 50) for each in ranges(car, gathered)}
    one = closed_circuit(prepare(car, gathered.figures), "master-primary", 10e5)
    many = closed_circuit(prepare(car, samples), "master-primary", 10e5)
    assert many.fluid_m3[0] < one.fluid_m3[0] < many.fluid_m3[1]
    assert many.compliance_m3_pa[0] < one.compliance_m3_pa[0] < many.compliance_m3_pa[1]
    narrow, wide = (allowed_shift(closed, 3.0) for closed in (one, many))
    assert wide.low_pa < narrow.low_pa < narrow.high_pa < wide.high_pa


def test_a_hose_is_stiffer_the_harder_it_is_held() -> None:
    car = small_car()
    ready = prepare(car, gather(car).figures)
    soft, hard = (
        closed_circuit(ready, "master-primary", pressure).compliance_m3_pa[0]
        for pressure in (2e5, 80e5)
    )
    assert hard < soft


# ------------------------------------------------------------------------ judging


@pytest.mark.parametrize(
    ("joints", "state"),
    [
        (DRY, "held"),
        ({"a": "dry", "b": "wet"}, "failed"),
        ({"a": "dry", "b": "not looked at"}, "not proven"),
        ({"a": "wet", "b": "not looked at"}, "failed"),
        ({}, "not proven"),
    ],
)
@pytest.mark.parametrize("gauge", [None, 20e5, 2e5, 45e5])
def test_the_joints_alone_decide_whatever_the_gauge_did(
    joints: dict[str, Seen], state: str, gauge: float | None
) -> None:
    ended = judged(joints, closed=SOFT, began_pa=20e5, ended_pa=gauge, began_c=18.0, ended_c=18.0)
    assert ended.state == state


@pytest.mark.parametrize(
    ("ended_pa", "said"),
    [(19e5, "explains"), (15e5, "more than cooling explains"), (25e5, "more than warming")],
)
def test_the_gauge_is_context(ended_pa: float, said: str) -> None:
    ended = judged(DRY, closed=SOFT, began_pa=20e5, ended_pa=ended_pa, began_c=18.0, ended_c=18.0)
    assert said in ended.gauge
    assert ended.state == "held"


def test_a_cold_night_may_take_all_of_a_low_pressure() -> None:
    ended = judged(DRY, closed=SOFT, began_pa=3e5, ended_pa=0.0, began_c=18.0, ended_c=8.0)
    assert ended.allowed is not None
    assert ended.allowed.low_pa == -3e5
    assert "explains" in ended.gauge


def test_a_gauge_without_thermometer_or_no_gauge_says_so() -> None:
    assert judged(DRY).gauge == "The gauge was not read."
    assert "without both temperatures" in judged(DRY, began_pa=20e5, ended_pa=18e5).gauge


def test_a_hold_as_it_was_kept() -> None:
    night = datetime(2026, 3, 4, 21, tzinfo=UTC)
    figures = {
        "first_pressure_pa": 20e5,
        "last_pressure_pa": 12e5,
        "first_temperature_c": 18.0,
        "last_temperature_c": 13.0,
        "minutes": 480.0,
    }
    unseen: dict[str, Seen] = dict.fromkeys(("a", "b"), "not looked at")
    dry = BrakeReading("h", ReadingKind.HOLD, night, figures, {"joints": "all dry"})
    assert judged_reading(dry, unseen, SOFT).state == "held"
    assert judged_reading(dry, {"a": "wet", "b": "not looked at"}, SOFT).state == "failed"
    nobody = BrakeReading("h", ReadingKind.HOLD, night, figures, {"joints": "not looked at"})
    assert judged_reading(nobody, unseen, SOFT).state == "not proven"
    with pytest.raises(BadInput, match="not a pressure hold"):
        judged_reading(BrakeReading("p", ReadingKind.PARKING, night, {}), unseen)


# ------------------------------------------------------------------------ the series


def test_the_series_rises_and_is_never_harder_than_a_foot() -> None:
    pressures = [step.pressure_pa for step in HOLD_STEPS[:-1]]
    assert pressures == sorted(pressures)
    assert HOLD_STEPS[0].pressure_pa <= 1e5  # read second-hand: 1 bar at the reservoir at the most
    assert all(step.pressure_pa <= 40e5 for step in steps_for(40e5))
    assert "hard" not in {step.id for step in steps_for(None)}
    assert {step.id for step in steps_for(90e5)} == {step.id for step in HOLD_STEPS}
    assert "goggles" in CAUTIONS[0]
