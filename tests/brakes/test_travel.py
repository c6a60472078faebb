"""The pedal's travel: volumes that balance, pieces that add up, stops and the floor."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.brakes.answer import Answer, TravelBudget
from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import Figures, gather, overridden
from bareshell.brakes.solve import PIECES, solve
from bareshell.brakes.starters import STARTERS
from bareshell.brakes.state import WHOLE, SealGone, ServoDead, State
from bareshell.model.brake import BrakeSystem, PartKind, Wheel
from bareshell.model.trust import Stated

LAYOUTS = tuple(STARTERS)


def known(system: BrakeSystem, **figures: float) -> Figures:
    changes = [(path.replace("__", "."), value) for path, value in figures.items()]
    return overridden(gather(system).figures, changes)


def travelled(answer: Answer) -> TravelBudget:
    assert answer.travel is not None
    return answer.travel


def area(bore: Any) -> Any:
    return math.pi * bore**2 / 4.0


def states(system: BrakeSystem) -> list[State]:
    masters = system.of_kind(PartKind.MASTER)
    gone = [State.of(SealGone(part.id, port.chamber)) for part in masters for port in part.ports]
    return [WHOLE, State.of(ServoDead()), *gone]


@settings(max_examples=60, deadline=None)
@given(
    layout=st.sampled_from(LAYOUTS),
    foot=st.floats(0.0, 1500.0),
    air=st.floats(0.0, 4e-6),
    floor=st.floats(0.05, 0.3),
    which=st.integers(0, 3),
)
def test_the_pieces_add_up_to_the_travel(
    layout: str, foot: float, air: float, floor: float, which: int
) -> None:
    system = small_car(layout)
    figures = known(system, fluid__air_m3=air, pedal__floor_travel_m=floor)
    listed = states(system)
    answer = solve(system, figures, foot, "laden", state=listed[which % len(listed)])
    budget = travelled(answer)
    total = sum(float(piece.length_m) for piece in budget.pieces)
    assert total == pytest.approx(budget.total_m, rel=1e-9, abs=1e-12)
    assert float(budget.total_m) <= floor * (1.0 + 1e-12)
    assert all(float(piece.length_m) >= 0.0 for piece in budget.pieces)
    assert {piece.key for piece in budget.pieces} <= set(PIECES)
    assert budget.reserve == pytest.approx(1.0 - float(budget.total_m) / floor)


@settings(max_examples=60, deadline=None)
@given(
    layout=st.sampled_from(("front-rear tandem", "diagonal tandem", "two lines into one caliper")),
    foot=st.floats(100.0, 1500.0),
    air=st.floats(0.0, 4e-6),
    first=st.floats(0.008, 0.02),
    second=st.floats(0.005, 0.02),
)
def test_what_the_pistons_give_is_what_the_circuits_take(
    layout: str, foot: float, air: float, first: float, second: float
) -> None:
    system = small_car(layout)
    figures = known(
        system,
        fluid__air_m3=air,
        master__primary_stroke_m=first,
        master__floating_stroke_m=second,
        pedal__floor_travel_m=0.39,
    )
    budget = travelled(solve(system, figures, foot, "laden"))
    taken = {"primary": 0.0, "floating": 0.0}
    for piece in budget.pieces:
        if piece.circuit:
            taken[piece.circuit.removeprefix("master-")] += float(piece.volume_m3)
    bore, port = area(figures["master.bore_m"]), figures["master.port_closing_m"]
    ahead = budget.strokes_m["master-floating"] - port
    behind = budget.strokes_m["master-primary"] - port
    assert bore * ahead == pytest.approx(taken["floating"], rel=1e-9, abs=1e-14)
    assert bore * (behind - ahead) == pytest.approx(taken["primary"], rel=1e-9, abs=1e-14)
    # No piston goes beyond its stop.
    assert budget.strokes_m["master-floating"] <= second * (1 + 1e-9)
    assert behind - ahead <= first * (1 + 1e-9)


def test_a_remote_slave_passes_on_what_it_takes() -> None:
    system = small_car("remote servo")
    figures = known(system)
    budget = travelled(solve(system, figures, 300.0, "laden"))
    slave = budget.strokes_m["remote"] * area(figures["remote.slave_bore_m"])
    master = (budget.strokes_m["master-primary"] - figures["master.port_closing_m"]) * area(
        figures["master.bore_m"]
    )
    before = sum(float(piece.volume_m3) for piece in budget.pieces if piece.key == "air")
    # What the slave does not take stays before it: air, and a little in its pipe.
    assert 0.0 < master - slave - before < 0.1 * master


def test_a_slave_at_its_end_raises_the_pressure_behind_it_no_further() -> None:
    system = small_car("remote servo")
    figures = known(system, remote__slave_stroke_m=0.014, pedal__floor_travel_m=0.39)
    forces = np.linspace(50.0, 1200.0, 47)
    answer = solve(system, figures, forces, "laden")
    behind = np.asarray(answer.pressure_pa[Wheel.FRONT_LEFT])
    stroke = np.asarray(travelled(answer).strokes_m["remote"])
    assert stroke[-1] == pytest.approx(0.014, rel=1e-6)
    ended = stroke > 0.014 * (1 - 1e-6)
    assert np.ptp(behind[ended]) < 1.0
    assert np.all(np.asarray(travelled(answer).on_stop)[ended])
    before = np.asarray(answer.circuit_pressure_pa["master-primary"])
    assert np.all(np.diff(before[ended]) > 0.0)


@pytest.mark.parametrize("layout", LAYOUTS)
def test_on_the_floor_a_firmer_push_changes_nothing(layout: str) -> None:
    system = small_car(layout)
    figures = known(system, pedal__floor_travel_m=0.035)
    answer = solve(system, figures, np.array([900.0, 1500.0, 2500.0]), "laden")
    budget = travelled(answer)
    assert np.all(budget.on_floor)
    np.testing.assert_allclose(budget.total_m, 0.035, rtol=1e-9)
    np.testing.assert_allclose(budget.reserve, 0.0, atol=1e-9)
    assert np.ptp(answer.deceleration_g) == pytest.approx(0.0, abs=1e-9)
    effective = np.asarray(answer.effective_force_n)
    assert np.all(effective < 900.0)
    # The force that counts is just the one at which the pedal met the floor.
    met = solve(system, figures, float(effective[0]) * (1.0 - 1e-9), "laden")
    assert travelled(met).total_m == pytest.approx(0.035, rel=1e-6)
    assert not travelled(met).on_floor


def test_a_single_piston_at_the_end_of_its_bore_gives_no_more() -> None:
    system = small_car("single line")
    figures = known(system, master__primary_stroke_m=0.010, pedal__floor_travel_m=0.39)
    answer = solve(system, figures, np.array([500.0, 1000.0, 2000.0]), "laden")
    pressure = np.asarray(answer.circuit_pressure_pa["master-primary"])
    assert np.ptp(pressure) == pytest.approx(0.0, abs=1.0)
    assert np.all(travelled(answer).on_stop)
    np.testing.assert_allclose(travelled(answer).strokes_m["master-primary"], 0.010, rtol=1e-9)
    assert pressure[0] < 4e6


def test_clearance_that_takes_all_the_stroke_leaves_no_pressure() -> None:
    """A drum brake far out of adjustment: the pedal goes down and nothing brakes."""
    system = small_car("single line")
    slack = {f"{part.id}__shoe_clearance_m": 0.004 for part in system.of_kind(PartKind.DRUM)}
    answer = solve(system, known(system, **slack), 600.0, "laden")
    assert travelled(answer).on_floor
    assert answer.deceleration_g == 0.0
    assert answer.circuit_pressure_pa["master-primary"] < 2e5


@settings(max_examples=25, deadline=None)
@given(more=st.floats(1e-7, 5e-6), foot=st.floats(50.0, 400.0))
def test_air_costs_travel_and_nothing_else(more: float, foot: float) -> None:
    system = small_car("single line")
    roomy = {"pedal__floor_travel_m": 0.39, "master__primary_stroke_m": 0.08}
    dry = solve(system, known(system, fluid__air_m3=0.0, **roomy), foot, "laden")
    soft = solve(system, known(system, fluid__air_m3=more, **roomy), foot, "laden")
    assert soft.deceleration_g == pytest.approx(dry.deceleration_g)
    pressure = float(soft.circuit_pressure_pa["master-primary"])
    figures = known(system)
    squeezed = more * pressure / (pressure + 101_325.0)
    costs = squeezed / area(figures["master.bore_m"]) * figures["pedal.ratio"]
    gained = float(travelled(soft).total_m) - float(travelled(dry).total_m)
    assert gained == pytest.approx(costs, rel=1e-6, abs=1e-12)


def test_a_softer_hose_costs_travel_in_proportion() -> None:
    system = small_car()
    hoses = [line.id for line in system.lines if line.kind.value == "hose"]

    def swelling(ratio: float) -> float:
        figures = known(system, **{f"{hose}__swell_ratio": ratio for hose in hoses})
        budget = travelled(solve(system, figures, 250.0, "laden"))
        return sum(float(piece.length_m) for piece in budget.pieces if piece.key == "hoses")

    assert swelling(1.0) == pytest.approx(2.0 * swelling(0.5))
    assert swelling(0.0) == 0.0


def test_residual_pressure_is_fluid_that_was_there_before() -> None:
    """Behind such a valve the pedal pays only for what comes on top."""
    base = small_car()

    def lengths(form: str) -> Any:
        figures = {"residual_pa": Stated(6e4)} if form == "residual" else {}
        valve = replace(base.part("valve-rear"), choices={"form": form}, figures=figures)
        parts = tuple(valve if part.id == "valve-rear" else part for part in base.parts)
        system = replace(base, parts=parts)
        answer = solve(system, known(system), np.array([150.0, 220.0]), "laden")
        return np.asarray(travelled(answer).total_m)

    saved = lengths("shut-off") - lengths("residual")
    assert saved[0] > 1e-4
    assert saved[1] == pytest.approx(saved[0], rel=1e-6)
