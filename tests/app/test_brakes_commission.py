"""Commissioning through the door: what is done by the record, holds and pedal tests kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest

from bareshell.app import brakes_commission, brakes_proofs
from bareshell.app.door import Door
from bareshell.app.written import Pen
from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import gather
from bareshell.brakes.solve import solve
from bareshell.brakes.starters import starter
from bareshell.brakes.state import ServoDead, State
from bareshell.errors import BadInput, NotFound, Refused
from bareshell.model import changes as c
from bareshell.model.brake import ReadingKind, Role
from bareshell.model.car import Layout
from bareshell.model.proof import ProofState
from bareshell.model.standing import proof_standings
from bareshell.model.trust import Stated, Trust
from bareshell.trade.network import starter as network
from bareshell.whole.brake_proofs import air_proof_id, joint_proof_id, screw_proof_id
from tests.brakes import edits as e

START = datetime(2026, 3, 4, 18, 0, tzinfo=UTC)
PEN = Pen()
BARE = replace(small_car(), id="as-built", role=Role.AS_BUILT)
CAR = e.with_part(BARE, "fluid", choices={"grade": "DOT 4"})
FIRM = 300.0


def said(**fields: str | tuple[str, ...]) -> Mapping[str, tuple[str, ...]]:
    return {name: (value,) if isinstance(value, str) else value for name, value in fields.items()}


class Clock:
    """A clock that a test puts forward."""

    def __init__(self) -> None:
        self.now = START

    def __call__(self) -> datetime:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def door(tmp_path: Path, clock: Clock) -> Iterator[Door]:
    begun = network(Layout.REAR)
    with Door.open(tmp_path / "car", create=True, clock=clock, back_up=False) as opened:
        opened.record(
            [
                *(c.JobSet(each) for each in begun.jobs),
                *(c.GateSet(each) for each in begun.gates),
                *(c.ProofSet(each) for each in begun.proofs),
                c.BrakeSystemSet(CAR),
            ]
        )
        brakes_proofs.owe(opened, PEN)
        yield opened


def state(door: Door, proof: str) -> ProofState:
    return proof_standings(door.build())[proof].state


def steps(door: Door) -> dict[str, str]:
    return {one.id: one.state for one in brakes_commission.commissioning(door).steps}


HOLD = {
    "choice_circuit": "master-floating",
    "choice_joints": "all dry",
    "figure_first_pressure_pa": "10",
    "figure_last_pressure_pa": "9.5",
    "figure_first_temperature_c": "14",
    "figure_last_temperature_c": "13.5",
}


# --- the order -------------------------------------------------------------------------------


def test_what_the_record_says_is_done_is_done_and_the_rest_is_a_question(door: Door) -> None:
    before = brakes_commission.commissioning(door)
    assert steps(door)["choose fluid"] in ("done", "started")
    assert steps(door)["first fill"] == "to do"
    door.record(c.JobFinished("brake-fill", 1.0))
    after = brakes_commission.commissioning(door)
    fill = next(one for one in after.steps if one.id == "first fill")
    assert fill.state == "done"
    assert "04 Mar 2026" in fill.says[0]
    assert [one.id for one in before.steps] == [one.id for one in after.steps]
    assert any(one.cautions for one in after.steps)


def test_a_servo_that_is_not_there_needs_no_emptying(door: Door) -> None:
    assert steps(door)["exhaust servo"] == "not known", "nothing on a record says so"
    plain = replace(starter("single line"), id="as-built", role=Role.AS_BUILT)
    door.record(c.BrakeSystemSet(plain))
    assert steps(door)["exhaust servo"] == "left out"


def test_a_series_that_is_none_is_named_with_those_there_are(door: Door) -> None:
    with pytest.raises(NotFound, match="thirty stops"):
        brakes_commission.commissioning(door, series="a hundred")
    view = brakes_commission.commissioning(door, series="two rounds")
    warmed = [one.id for one in view.bedding if one.warmed]
    assert warmed == ["two rounds"]


def test_what_hangs_on_missing_figures_says_so_and_the_order_still_stands(door: Door) -> None:
    plain = replace(starter("single line"), id="as-built", role=Role.AS_BUILT)
    door.record(c.BrakeSystemSet(plain))
    view = brakes_commission.commissioning(door)
    assert view.pedal.asked is None
    assert "bore" in view.pedal.because
    assert all(one.low_pa_k is None for one in view.holds[0].steps)
    assert not any(one.warmed for one in view.bedding)
    assert len(view.steps) == 19


# --- holds -----------------------------------------------------------------------------------


def test_a_short_hold_is_kept_with_its_gauge_as_context_and_proves_no_joint(door: Door) -> None:
    written = brakes_commission.take_hold(door, said(**HOLD, figure_minutes="5"), PEN)
    assert "Pressure hold" in written.said
    rear = next(
        one for one in brakes_commission.commissioning(door).holds if "floating" in one.circuit
    )
    assert rear.done[0].state == "held"
    assert "explains" in rear.done[0].gauge
    assert state(door, joint_proof_id("pipe-rear-left-1")) is ProofState.OWED
    with pytest.raises(BadInput, match="a night"):
        brakes_commission.take_hold(door, said(**HOLD, figure_minutes="5", prove="yes"), PEN)


def test_a_night_with_every_joint_dry_holds_those_that_are_made(door: Door) -> None:
    key = joint_proof_id("pipe-rear-left-1")
    night = said(**HOLD, figure_minutes="720", prove="yes")
    brakes_commission.take_hold(door, night, PEN)
    assert state(door, key) is ProofState.OWED, "nobody has made it yet"
    makers = door.build().proofs[key].proof.made_by
    door.record([c.JobFinished(job, 1.0) for job in makers])
    written = brakes_commission.take_hold(door, night, Pen(entry_id="h-1"))
    assert "held dry by it" in written.said
    assert state(door, key) is ProofState.HELD
    front = joint_proof_id("hose-front-left-1")
    assert state(door, front) is ProofState.OWED, "another circuit"
    assert brakes_commission.take_hold(door, night, Pen(entry_id="h-1")).repeated


def test_a_wet_joint_fails_by_name_and_cannot_be_dry_as_well(door: Door) -> None:
    wet = "pipe-rear-left-1"
    with pytest.raises(BadInput, match="ticked as wet"):
        brakes_commission.take_hold(door, said(**HOLD, wet=wet), PEN)
    fields = said(**{**HOLD, "choice_joints": ""}, wet=wet)
    written = brakes_commission.take_hold(door, fields, PEN)
    assert "Release the pressure" in written.said
    assert state(door, joint_proof_id(wet)) is ProofState.FAILED
    rear = next(
        one for one in brakes_commission.commissioning(door).holds if "floating" in one.circuit
    )
    assert rear.done[0].state == "failed"
    joint = next(one for one in rear.joints if one.id == wet)
    assert joint.words in rear.done[0].joints


def test_a_hold_of_no_circuit_is_asked_about(door: Door) -> None:
    with pytest.raises(BadInput, match="circuit that was held"):
        brakes_commission.take_hold(door, said(**{**HOLD, "choice_circuit": "third"}), PEN)


# --- the pedal -------------------------------------------------------------------------------


def pushed(air_m3: float, light: float) -> dict[str, str]:
    """What a car with so much air in each circuit would measure; all else is as it was entered."""
    figures = {**gather(CAR).figures, "fluid.air_m3": air_m3}
    dead = State(frozenset({ServoDead()}))  # emptied first, as the order has it
    answer = solve(CAR, figures, np.array([light, FIRM]), "driver only", state=dead)
    assert answer.travel is not None
    one, other = np.asarray(answer.travel.total_m) * 1000
    return {
        "figure_first_force_n": f"{light:.0f}",
        "figure_second_force_n": f"{FIRM:.0f}",
        "figure_first_travel_m": f"{one:.1f}",
        "figure_second_travel_m": f"{other:.1f}",
    }


def measured(door: Door) -> None:
    """Say every figure as measured, so that the test can tell something."""
    figures = gather(CAR)
    parts = tuple(
        replace(
            part,
            figures={
                **part.figures,
                **{
                    path.partition(".")[2]: Stated(value, Trust.MEASURED, value, value)
                    for path, value in figures.figures.items()
                    if path.partition(".")[0] == part.id
                },
            },
        )
        for part in CAR.parts
    )
    lines = tuple(
        replace(
            line,
            figures={
                path.partition(".")[2]: Stated(value, Trust.MEASURED, value, value)
                for path, value in figures.figures.items()
                if path.partition(".")[0] == line.id
            },
        )
        for line in CAR.lines
    )
    door.record(c.BrakeSystemSet(replace(CAR, parts=parts, lines=lines)))


def test_a_pedal_as_expected_holds_the_air_proofs_that_are_ticked(door: Door) -> None:
    measured(door)
    asked = brakes_commission.commissioning(door).pedal.asked
    assert asked is not None
    assert asked.light_m[1] - asked.light_m[0] < 0.002, "everything is measured"
    fields = said(
        **pushed(0.0, asked.light_force_n),
        choice_when="before the road",
        air=("master-primary", "master-floating"),
        screws="yes",
    )
    written = brakes_commission.take_pedal_test(door, fields, PEN)
    assert "as expected" in written.said
    assert state(door, air_proof_id("master-primary")) is ProofState.HELD
    assert state(door, screw_proof_id("caliper-front-left-bleed")) is ProofState.HELD
    assert steps(door)["pedal test"] == "done"


def test_no_circuit_is_written_down_as_free_when_the_pushes_say_there_is_air(door: Door) -> None:
    measured(door)
    asked = brakes_commission.commissioning(door).pedal.asked
    assert asked is not None
    airy = pushed(6e-7, asked.light_force_n)
    with pytest.raises(Refused, match="Trapped air explains") as refused:
        brakes_commission.take_pedal_test(door, said(**airy, air="master-primary"), PEN)
    assert "Bleed again" in refused.value.frees
    assert not door.build().brake_readings
    written = brakes_commission.take_pedal_test(door, said(**airy), PEN)
    assert "Trapped air explains" in written.said
    assert state(door, air_proof_id("master-primary")) is ProofState.OWED


def test_after_50_miles_the_pedal_is_held_beside_the_first(door: Door, clock: Clock) -> None:
    measured(door)
    asked = brakes_commission.commissioning(door).pedal.asked
    assert asked is not None
    first = pushed(0.0, asked.light_force_n)
    brakes_commission.take_pedal_test(door, said(**first, choice_when="before the road"), PEN)
    clock.now += timedelta(days=20)
    longer = {**first}
    for name in ("figure_first_travel_m", "figure_second_travel_m"):
        longer[name] = f"{float(first[name]) + 11:.1f}"
    brakes_commission.take_pedal_test(door, said(**longer, choice_when="after 50 miles"), PEN)
    view = brakes_commission.commissioning(door)
    assert "clearance" in view.pedal.tests[0].since
    light = next(one for one in view.compared if one.id == "pedal light")
    assert [when for when, _ in light.values] == ["before the road", "after 50 miles"]
    assert light.values[1][1] - light.values[0][1] == pytest.approx(0.011)
    assert steps(door)["50 miles"] == "started"


def test_a_test_that_lacks_a_push_is_kept_and_says_what_it_lacks(door: Door) -> None:
    fields = said(figure_first_force_n="50", figure_first_travel_m="40")
    written = brakes_commission.take_pedal_test(door, fields, PEN)
    assert "tells nothing of air" in written.said
    [kept] = door.build().brake_readings.values()
    assert kept.kind is ReadingKind.PEDAL_TEST
