"""Every single failure, against a general graph library and against what statics leaves."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import networkx as nx
import numpy as np
import pytest

from bareshell.brakes.cases import single_cases
from bareshell.brakes.examples import filled, small_car
from bareshell.brakes.failures import Failure, failed, failures, pair_cases
from bareshell.brakes.figures import Figures, gather, overridden
from bareshell.brakes.prepared import prepare
from bareshell.brakes.solve import solve
from bareshell.brakes.starters import STARTERS
from bareshell.brakes.state import Leak
from bareshell.model.brake import BrakeSystem, Line, LineEnd, LineKind, Part, PartKind, Port, Wheel

LAYOUTS = tuple(STARTERS)
FRONTS = {Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT}
REARS = {Wheel.REAR_LEFT, Wheel.REAR_RIGHT}


def known(system: BrakeSystem, **figures: float) -> Figures:
    changes = [(path.replace("__", "."), value) for path, value in figures.items()]
    return overridden(gather(system).figures, changes)


def all_of(system: BrakeSystem, force: Any = 400.0) -> dict[str, Failure]:
    found = failures(system, known(system), force, "laden")
    return {each.id: each for each in found}


def pipework(system: BrakeSystem) -> nx.Graph[Any]:
    """Every chamber and line as a node; fluid passes a valve and a remote servo at rest."""
    graph: nx.Graph[Any] = nx.Graph()
    chamber = {
        (part.id, port.name): (part.id, port.chamber)
        for part in system.parts
        for port in part.ports
    }
    graph.add_nodes_from(chamber.values())
    for line in system.lines:
        graph.add_node(line.id)
        for end in line.ends:
            graph.add_edge(line.id, chamber[end.part, end.port])
    for part in system.of_kind(PartKind.VALVE, PartKind.REMOTE_SERVO):
        if {"in", "out"} <= {port.chamber for port in part.ports}:
            graph.add_edge((part.id, "in"), (part.id, "out"))
    return graph


def drained_by(system: BrakeSystem, leak: Leak) -> set[tuple[str, str]]:
    """All chambers that run dry, by reachability alone."""
    graph = pipework(system)
    if leak.element in graph:
        starts: set[Any] = {leak.element}
    elif leak.element[:-2] in graph:
        starts = {leak.element[:-2]}
    else:
        starts = {
            node for node in graph
            if isinstance(node, tuple) and node[0] == leak.element
            and leak.chamber in {"", node[1]}
        }  # fmt: skip
    reached: set[Any] = set()
    for start in starts:
        reached |= nx.node_connected_component(graph, start)
    return {node for node in reached if isinstance(node, tuple)}


@pytest.mark.parametrize("layout", LAYOUTS)
def test_a_leak_drains_the_wheels_that_a_graph_library_finds(layout: str) -> None:
    system = small_car(layout)
    actuators = {
        (part.id, port.chamber): part.wheel
        for part in system.of_kind(PartKind.CALIPER, PartKind.WHEEL_CYLINDER)
        for port in part.ports
    }
    reservoirs = {part.id for part in system.of_kind(PartKind.RESERVOIR)}
    checked = 0
    for failure in failures(system, known(system), 400.0, "laden"):
        (edit,) = failure.state.edits if len(failure.state.edits) == 1 else (None,)
        if not isinstance(edit, Leak) or edit.element in reservoirs:
            continue
        dry = drained_by(system, edit)
        lost = {
            wheel for wheel in Wheel
            if {each for each, at in actuators.items() if at is wheel} <= dry
        }  # fmt: skip
        touched = {at for each, at in actuators.items() if each in dry}
        assert set(failure.lost_wheels) == lost, failure.words
        assert set(failure.weakened_wheels) == touched - lost, failure.words
        for wheel in Wheel:
            torque = float(failure.answer.wheel_torque_nm[wheel])
            assert (torque == 0.0) is (wheel in lost) or failure.floor_reached
        checked += 1
    assert checked > 20


@pytest.mark.parametrize("layout", LAYOUTS)
def test_every_element_fails_once(layout: str) -> None:
    system = small_car(layout)
    cases = single_cases(system)
    assert len({case.id for case in cases}) == len(cases)
    failing = {case.element for case in cases}
    for line in system.lines:
        assert f"{line.id}-0" in failing
        assert (line.id in failing) is (line.kind is not LineKind.DIRECT)
    for part in system.parts:
        if part.ports or part.kind in {PartKind.SERVO, PartKind.RESERVOIR, PartKind.PARKING}:
            assert part.id in failing, part.id


@pytest.mark.parametrize("layout", LAYOUTS)
def test_no_failure_brakes_better_than_the_whole_car(layout: str) -> None:
    """A valve that sticks open may; nothing else."""
    system = small_car(layout)
    figures = known(system)
    whole = solve(system, figures, 400.0, "laden")
    for failure in failures(system, figures, 400.0, "laden"):
        if failure.kind == "valve sticks":
            continue
        assert float(failure.answer.deceleration_g) <= float(whole.deceleration_g) * (1 + 1e-9)


@pytest.mark.parametrize("layout", LAYOUTS)
def test_failures_that_leave_the_same_brakes_share_an_answer_that_is_theirs(layout: str) -> None:
    system = small_car(layout)
    figures = known(system)
    found = {each.id: each for each in failures(system, figures, 300.0, "laden")}
    shared = [each for each in found.values() if each.alike != each.id]
    assert len(shared) > 10
    for failure in shared[::7]:
        first = found[failure.alike]
        assert failure.answer is first.answer
        alone = solve(system, figures, 300.0, "laden", state=failure.state)
        assert alone.deceleration_g == pytest.approx(failure.answer.deceleration_g)
        assert alone.travel is not None
        assert failure.answer.travel is not None
        assert alone.travel.total_m == pytest.approx(failure.answer.travel.total_m)


def test_a_split_by_axle_leaves_one_axle() -> None:
    found = all_of(small_car())
    burst = found["leak-pipe-front-left"]
    assert set(burst.lost_wheels) == FRONTS
    assert burst.lost_circuits == ("master-primary",)
    assert burst.loses_fluid
    assert burst.answer.front_force_n == 0.0
    assert burst.side_pull is not None
    assert burst.side_pull.words == "no pull to speak of"


def test_a_diagonal_split_pulls_and_mirrors() -> None:
    found = all_of(small_car("diagonal tandem"))
    left, right = found["seal-master-floating"], found["seal-master-primary"]
    assert left.side_pull is not None
    assert right.side_pull is not None
    assert left.side_pull.yaw_moment_nm == pytest.approx(
        -np.asarray(right.side_pull.yaw_moment_nm), rel=0.1
    )
    assert left.side_pull.words.startswith("the car turns to the left")
    assert left.side_pull.front_left_share == 1.0


def test_negative_scrub_works_against_the_pull() -> None:
    system = small_car("diagonal tandem")
    figures = known(system, car__scrub_radius_m=-0.02)
    found = {each.id: each for each in failures(system, figures, 400.0, "laden")}
    pull = found["seal-master-floating"].side_pull
    assert pull is not None
    assert pull.words == "the car turns to the left, and its steering works against it"


def test_a_single_line_is_lost_whole_and_the_pedal_goes_to_the_floor() -> None:
    burst = all_of(small_car("single line"))["leak-hose-rear"]
    assert set(burst.lost_wheels) == set(Wheel)
    assert burst.answer.deceleration_g == 0.0
    assert burst.floor_reached


def test_the_question_of_the_floor_hangs_on_the_stroke() -> None:
    system = small_car()
    for stroke, reached in ((0.012, False), (0.030, True)):
        figures = known(system, master__primary_stroke_m=stroke)
        found = {each.id: each for each in failures(system, figures, 400.0, "laden")}
        assert found["seal-master-primary"].floor_reached is reached


def test_a_valve_stuck_shut_takes_its_wheels_and_costs_no_stroke() -> None:
    system = small_car()
    found = all_of(system)
    shut = found["valve-rear-shut"]
    whole = solve(system, known(system), 400.0, "laden")
    assert set(shut.lost_wheels) == REARS
    assert not shut.loses_fluid
    assert shut.answer.travel is not None
    assert whole.travel is not None
    assert shut.answer.travel.total_m < whole.travel.total_m
    assert found["valve-rear-open"].answer.rear_force_n > whole.rear_force_n


def test_one_circuit_of_a_caliper_blanked_leaves_the_other() -> None:
    found = all_of(small_car("two lines into one caliper"))
    blanked = found["blanked-caliper-front-left-b"]
    assert blanked.weakened_wheels == (Wheel.FRONT_LEFT,)
    assert blanked.lost_wheels == ()
    assert blanked.side_pull is not None
    assert blanked.side_pull.words.startswith("the car turns to the right")


def test_a_line_that_was_blanked_before_can_burst_without_harm() -> None:
    """As on a car whose second line into a caliper ends in a plug."""
    base = small_car("two lines into one caliper")
    spare = next(
        line for line in base.lines
        if any((end.part, end.port) == ("master", "floating") for end in line.ends)
    )  # fmt: skip
    plug = Part("plug", "plug", PartKind.STUB, ports=(Port("a"),))
    far = next(end for end in spare.ends if end.part != "master")
    closed = replace(spare, ends=(LineEnd("plug", "a"), far))
    lines = tuple(closed if line is spare else line for line in base.lines)
    system = replace(base, parts=(*base.parts, plug), lines=lines)
    found = all_of(system)
    dead = found[f"leak-{spare.id}"]
    assert dead.lost_circuits == ()
    assert dead.lost_wheels == ()
    whole = solve(system, known(system), 400.0, "laden")
    assert dead.answer.deceleration_g == pytest.approx(whole.deceleration_g)


def test_an_undivided_reservoir_empties_both_circuits() -> None:
    base = small_car()
    reservoir = base.part("reservoir")
    assert {f"leak-reservoir-master-{each}" for each in ("primary", "floating")} <= set(
        all_of(base)
    )
    whole = replace(reservoir, choices={**reservoir.choices, "divided": "no"})
    parts = tuple(whole if part.id == "reservoir" else part for part in base.parts)
    emptied = all_of(replace(base, parts=parts))["leak-reservoir"]
    assert set(emptied.lost_wheels) == set(Wheel)


def test_a_direct_joint_leaks_once() -> None:
    base = small_car()
    union = Part("union", "union", PartKind.TEE, ports=(Port("a"), Port("b")))
    tee = base.part("tee-front") if any(p.id == "tee-front" for p in base.parts) else None
    assert tee is not None
    spare = Port("spare", tee.ports[0].chamber)
    wider = replace(tee, ports=(*tee.ports, spare))
    screwed = Line(
        "nipple", "nipple", LineKind.DIRECT, (LineEnd("tee-front", "spare"), LineEnd("union", "a"))
    )
    parts = tuple(wider if part.id == "tee-front" else part for part in base.parts)
    system = filled(replace(base, parts=(*parts, union), lines=(*base.lines, screwed)))
    found = all_of(system)
    assert "leak-nipple" not in found
    assert "leak-nipple-1" not in found
    assert found["leak-nipple-0"].lost_circuits == ("master-primary",)


def test_no_vacuum_is_a_firmer_push_for_the_same() -> None:
    system = small_car()
    found = all_of(system)
    dead, gone = found["dead-servo"], found["no-vacuum"]
    assert gone.alike == dead.id
    assert (
        0.0
        < float(dead.answer.deceleration_g)
        < float(solve(system, known(system), 400.0, "laden").deceleration_g)
    )


def test_a_broken_cable_is_told_with_what_the_lever_still_holds() -> None:
    system = small_car()
    found = all_of(system)
    broken = found["parking-cable-left"]
    assert broken.parking is not None
    assert broken.parking.nose_up.force_n == 0.0  # a free compensator lets go of both
    assert (
        broken.answer.deceleration_g == solve(system, known(system), 400.0, "laden").deceleration_g
    )


def test_air_in_a_circuit_costs_travel_and_perhaps_the_floor() -> None:
    system = small_car()
    found = all_of(system)
    whole = solve(system, known(system), 400.0, "laden")
    soft = found["air-master-primary"]
    assert soft.words == "3 ml of air in the circuit of master cylinder on its primary side"
    assert soft.lost_wheels == ()
    assert not soft.loses_fluid
    assert soft.answer.travel is not None
    assert whole.travel is not None
    assert soft.answer.travel.total_m > whole.travel.total_m
    roomy = known(system, pedal__floor_travel_m=0.39, master__primary_stroke_m=0.06)
    free = {each.id: each for each in failures(system, roomy, 400.0, "laden")}
    bled = solve(system, roomy, 400.0, "laden")
    assert free["air-master-primary"].answer.deceleration_g == pytest.approx(bled.deceleration_g)


def test_pairs_are_at_least_as_bad_as_each_of_the_two() -> None:
    system = small_car("diagonal tandem")
    figures = known(system)
    single = {each.id: each for each in failures(system, figures, 400.0, "laden")}
    ready = prepare(system, figures)
    pairs = failed(ready, pair_cases(ready), 400.0, "laden")
    assert len(pairs) > 20
    for pair in pairs:
        one, other = (single[name] for name in pair.id.split("+"))
        assert set(pair.lost_wheels) >= set(one.lost_wheels) | set(other.lost_wheels)
        # A valve that is shut, or a line that is blanked, keeps its circuit from a leak behind it.
        if "shut" not in pair.id and "blanked" not in pair.id:
            assert set(pair.lost_circuits) >= set(one.lost_circuits) | set(other.lost_circuits)
        assert pair.kind == "two at once"
    both = next(p for p in pairs if set(p.lost_circuits) == {"master-primary", "master-floating"})
    assert both.answer.deceleration_g == 0.0
    assert both.floor_reached


def test_a_whole_curve_is_failed_at_once() -> None:
    system = small_car()
    forces = np.linspace(0.0, 500.0, 50)
    found = failures(system, known(system), forces, "driver only")
    assert all(np.shape(each.answer.deceleration_g) == (50,) for each in found)
    at = all_of(system)
    assert set(at) == {each.id for each in found}


def test_samples_fail_together() -> None:
    system = small_car()
    figures: dict[str, Any] = dict(known(system))
    figures["caliper-front-left.pad_friction"] = np.array([0.3, 0.4, 0.5, 0.45])
    for failure in failures(system, figures, 300.0, "laden"):
        assert np.shape(failure.answer.deceleration_g) == (4,)
        assert np.shape(failure.limited.deceleration_g) == (4,)
        assert failure.side_pull is not None
        assert np.shape(failure.side_pull.yaw_moment_nm) == (4,)
