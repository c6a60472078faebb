"""What a starter promises: a whole layout, nothing that only the car could tell."""

from __future__ import annotations

import networkx as nx
import pytest

from bareshell.brakes.graph import legs_of
from bareshell.brakes.starters import STARTERS, starter
from bareshell.errors import NotFound
from bareshell.model.brake import BrakeSystem, LineKind, PartKind, Wheel

BRAKES = (PartKind.CALIPER, PartKind.WHEEL_CYLINDER)


def chambers_reached(system: BrakeSystem, master: str, chamber: str) -> set[tuple[str, str]]:
    """What a master chamber reaches, found by a general graph library.

    Valves and remote servos are followed from one side to the other; a shuttle is not crossed.
    """
    graph: nx.Graph[tuple[str, str]] = nx.Graph()
    for line in system.lines:
        first, second = (
            (end.part, system.part(end.part).port(end.port).chamber) for end in line.ends
        )
        graph.add_edge(first, second)
    for part in system.of_kind(PartKind.VALVE, PartKind.REMOTE_SERVO):
        if part.choices.get("form") != "warning shuttle":
            graph.add_edge((part.id, "in"), (part.id, "out"))
    return set(nx.node_connected_component(graph, (master, chamber)))


def wheels_of(system: BrakeSystem, master: str, chamber: str) -> set[Wheel]:
    """The wheels that a master chamber brakes."""
    reached = {part for part, _ in chambers_reached(system, master, chamber)}
    return {p.wheel for p in system.of_kind(*BRAKES) if p.id in reached and p.wheel is not None}


FRONT = {Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT}
REAR = {Wheel.REAR_LEFT, Wheel.REAR_RIGHT}


@pytest.mark.parametrize(
    ("name", "circuits"),
    [
        ("single line", {("master", "primary"): FRONT | REAR}),
        ("front-rear tandem", {("master", "primary"): FRONT, ("master", "floating"): REAR}),
        (
            "diagonal tandem",
            {
                ("master", "primary"): {Wheel.FRONT_LEFT, Wheel.REAR_RIGHT},
                ("master", "floating"): {Wheel.FRONT_RIGHT, Wheel.REAR_LEFT},
            },
        ),
        (
            "two lines into one caliper",
            {("master", "primary"): FRONT, ("master", "floating"): FRONT | REAR},
        ),
        ("remote servo", {("master", "primary"): FRONT | REAR}),
        (
            "twin cylinders",
            {("master-front", "primary"): FRONT, ("master-rear", "primary"): REAR},
        ),
    ],
)
def test_each_circuit_brakes_the_wheels_its_name_says(
    name: str, circuits: dict[tuple[str, str], set[Wheel]]
) -> None:
    """The split of a layout is what makes it that layout."""
    system = starter(name)
    for (master, chamber), wheels in circuits.items():
        assert wheels_of(system, master, chamber) == wheels


@pytest.mark.parametrize("name", STARTERS)
class TestEveryStarter:
    """What holds for all of them."""

    def test_every_end_reaches_a_port_and_no_port_takes_two(self, name: str) -> None:
        """A starter has no loose end and no port with two lines on it."""
        system = starter(name)
        assert legs_of(system).floating == ()
        taken = [(end.part, end.port) for line in system.lines for end in line.ends]
        assert len(set(taken)) == len(taken)

    def test_every_port_that_does_not_bleed_is_joined(self, name: str) -> None:
        """Nothing is left open."""
        system = starter(name)
        taken = {(end.part, end.port) for line in system.lines for end in line.ends}
        for part in system.parts:
            for port in part.ports:
                assert port.bleeds != ((part.id, port.name) in taken)

    def test_every_wheel_has_a_brake_that_can_be_bled(self, name: str) -> None:
        """Each wheel's fluid can reach a bleed screw without leaving the wheel."""
        system = starter(name)
        for wheel in Wheel:
            here = [part for part in system.of_kind(*BRAKES) if part.wheel is wheel]
            assert here
            assert any(port.bleeds for part in here for port in part.ports)
            rubbed = system.of_kind(PartKind.DISC, PartKind.DRUM)
            assert any(part.wheel is wheel for part in rubbed)

    def test_it_states_nothing_that_only_the_car_can_tell(self, name: str) -> None:
        """Bores, weights and threads are asked for, never made up."""
        system = starter(name)
        figures = {f for part in system.parts for f in part.figures}
        figures |= {f for line in system.lines for f in line.figures}
        assert figures <= {"length_m", "a_pistons", "b_pistons"}
        assert not any(end.fitting.thread for line in system.lines for end in line.ends)

    def test_driving_from_the_other_side_mirrors_the_bulkhead(self, name: str) -> None:
        """The pedal changes sides; the wheels stay."""
        right, left = (starter(name, driver_on=side) for side in ("right", "left"))
        pedal_right, pedal_left = right.part("pedal").at_m, left.part("pedal").at_m
        assert pedal_right is not None
        assert pedal_left == (pedal_right[0], -pedal_right[1])
        brakes = [[p.at_m for p in s.of_kind(*BRAKES)] for s in (right, left)]
        assert brakes[0] == brakes[1]

    def test_a_longer_car_has_longer_pipes_to_the_rear(self, name: str) -> None:
        """Routes are stretched to the car that is said."""
        short, long = (starter(name, wheelbase_m=m) for m in (2.0, 3.0))
        rear = [s.part("cylinder-rear-left").at_m for s in (short, long)]
        assert [round(at[0], 2) for at in rear if at] == [2.0, 3.0]
        total = [
            sum(x.figures["length_m"].value for x in s.lines if x.kind is LineKind.PIPE)
            for s in (short, long)
        ]
        assert total[1] > total[0] + 0.5

    def test_a_family_of_threads_names_every_joint(self, name: str) -> None:
        """Once the family is known, both sides of every joint are."""
        system = starter(name, threads="metric")
        assert all(end.fitting.thread == "M10x1" for line in system.lines for end in line.ends)


def test_a_name_that_is_nearly_right_is_suggested() -> None:
    """A slip of the keys is answered with the name that was meant."""
    with pytest.raises(NotFound, match="Was 'diagonal tandem' meant"):
        starter("diagonal tandm")
