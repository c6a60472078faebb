"""What pushes what and what feeds what, in a state: the graph edited and read once.

`layout_of` reads a system's shape, which does not depend on its figures, and keeps it; `under`
edits it by a state and finds, for every cylinder's chamber, the legs that it feeds in the order
in which pressure reaches them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from types import MappingProxyType

from bareshell.brakes.graph import Legs, legs_of
from bareshell.brakes.mechanics import Chain, chain_of
from bareshell.brakes.needs import is_tandem
from bareshell.brakes.state import (
    WHOLE,
    AirIn,
    Blanked,
    Leak,
    SealGone,
    ServoDead,
    State,
    ValveStuck,
)
from bareshell.errors import Problem
from bareshell.model.brake import BrakeSystem, Part, PartKind, Wheel

__all__ = ["Actuator", "Circuit", "Gate", "Layout", "Shuttle", "Topology", "fed_from", "layout_of"]

CARRIES_STRAIGHT = "open"


@dataclass(frozen=True, slots=True)
class Gate:
    """Something between two legs that may change the pressure on its way.

    Parameters
    ----------
    part : str
        Id of a valve or remote servo.
    form : str
        A valve's form, ``remote servo``, or ``open`` for what changes nothing.
    leg_in, leg_out : int
        The legs before and behind it.
    bypassed : bool
        Whether it opens fully because no other circuit brakes any wheel.
    """

    part: str
    form: str
    leg_in: int
    leg_out: int
    bypassed: bool = False


@dataclass(frozen=True, slots=True)
class Actuator:
    """A chamber of a caliper, or a wheel cylinder, and the leg that it hangs on."""

    part: str
    chamber: str
    wheel: Wheel | None
    kind: PartKind
    leg: int


@dataclass(frozen=True, slots=True)
class Circuit:
    """A master cylinder's chamber and all that it feeds.

    Parameters
    ----------
    id, words : str
        ``master-primary``, and as a person calls it.
    part, chamber : str
        The chamber.
    leg : int
        The leg at the cylinder.
    legs : tuple of int
        All its legs, the one at the cylinder first.
    gates : tuple of Gate
        In the order in which pressure reaches them.
    lost : bool
        Whether it holds no pressure in this state.
    air_m3 : float
        Air that has come into it in this state. [m3]
    """

    id: str
    words: str
    part: str
    chamber: str
    leg: int
    legs: tuple[int, ...]
    gates: tuple[Gate, ...]
    lost: bool
    air_m3: float = 0.0


@dataclass(frozen=True, slots=True)
class Shuttle:
    """A pressure-difference shuttle and the legs on its two sides; -1 for one that is not fed."""

    part: str
    front_leg: int
    rear_leg: int


@dataclass(frozen=True, slots=True)
class Topology:
    """A system in a state, ready to be reckoned.

    Parameters
    ----------
    state : State
        What has gone wrong.
    chain : Chain
        From the pedal to the master cylinders.
    legs : Legs
        Of the edited graph.
    circuits : mapping of str to Circuit
        By id, in the order of the master cylinders.
    fed_by : mapping of int to str
        Leg to circuit; a leg that nothing feeds is not in it.
    actuators : mapping of Wheel to tuple of Actuator
        What presses at each wheel, fed or not.
    shuttles : tuple of Shuttle
        Warning shuttles.
    dead_servos : frozenset of str
        Servos, remote ones too, that give nothing.
    troubles : tuple of Problem
        Why it cannot be reckoned.
    """

    state: State
    chain: Chain
    legs: Legs
    circuits: Mapping[str, Circuit]
    fed_by: Mapping[int, str]
    actuators: Mapping[Wheel, tuple[Actuator, ...]]
    shuttles: tuple[Shuttle, ...]
    dead_servos: frozenset[str]
    troubles: tuple[Problem, ...]

    def is_live(self, actuator: Actuator) -> bool:
        """Whether any pressure can reach an actuator."""
        circuit = self.fed_by.get(actuator.leg)
        return circuit is not None and not self.circuits[circuit].lost

    @property
    def senses(self) -> bool:
        """Whether some valve shuts by how the car slows, so that pressures depend on the load."""
        return any(
            gate.form == "deceleration-sensing"
            for circuit in self.circuits.values()
            for gate in circuit.gates
        )

    def effect(self) -> tuple[object, ...]:
        """What of the state matters to the solve: states with the same effect answer alike."""
        gates = tuple(
            (gate.part, gate.form, gate.bypassed)
            for circuit in self.circuits.values()
            for gate in circuit.gates
        )
        lost = tuple((circuit.lost, circuit.air_m3) for circuit in self.circuits.values())
        fed = tuple(
            (tuple(sorted(leg.chambers)), leg.lines)
            for leg in self.legs.legs
            if leg.number in self.fed_by and not self.circuits[self.fed_by[leg.number]].lost
        )
        return gates, lost, self.dead_servos, fed


@dataclass(frozen=True, slots=True, eq=False)
class Layout:
    """The shape of a system; two systems that differ only in figures share one."""

    system: BrakeSystem
    _kept: dict[State, Topology] = field(default_factory=dict)

    def under(self, state: State = WHOLE) -> Topology:
        """Edit the graph by a state and read it."""
        found = self._kept.get(state)
        if found is None:
            if len(self._kept) > 2000:
                self._kept.clear()
            found = self._kept[state] = _read(self.system, state)
        return found


def layout_of(system: BrakeSystem) -> Layout:
    """Return the shape of a system, read once for all systems of that shape."""
    return _layout(_Shape(_shape_of(system), system))


class _Shape:
    """A key that compares by shape and carries the system along."""

    __slots__ = ("_hash", "shape", "system")

    def __init__(self, shape: tuple[object, ...], system: BrakeSystem) -> None:
        self.shape = shape
        self.system = system
        self._hash = hash(shape)

    def __hash__(self) -> int:
        return self._hash

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Shape) and self.shape == other.shape


@lru_cache(maxsize=64)
def _layout(shape: _Shape) -> Layout:
    return Layout(shape.system)


def _shape_of(system: BrakeSystem) -> tuple[object, ...]:
    parts = tuple(
        (
            part.id,
            part.title,
            part.kind,
            part.wheel,
            tuple((port.name, port.chamber) for port in part.ports),
            tuple(sorted(part.choices.items())),
        )
        for part in system.parts
    )
    lines = tuple(
        (line.id, line.title, line.kind, *((end.part, end.port) for end in line.ends))
        for line in system.lines
    )
    return parts, lines


def _read(system: BrakeSystem, state: State) -> Topology:
    blanked = {edit.line for edit in state.edits if isinstance(edit, Blanked)}
    legs = legs_of(system, without_lines=blanked)
    gates = tuple(_gates(system, legs, state))
    sources = tuple(_sources(system, legs))
    troubles: list[Problem] = []
    fed_by: dict[int, str] = {}
    reached: dict[str, tuple[tuple[int, ...], tuple[Gate, ...]]] = {}
    for part, chamber, leg in sources:
        name = f"{part.id}-{chamber}"
        reached[name] = _follow(name, leg, gates, fed_by, troubles, system)
    troubles += _backwards(system, gates, fed_by)
    lost = _lost(system, state, legs, fed_by, [f"{part.id}-{each}" for part, each, _ in sources])
    actuators = _actuators(system, legs)
    braking = {
        fed_by[each.leg] for group in actuators.values() for each in group if each.leg in fed_by
    }
    circuits: dict[str, Circuit] = {}
    for part, chamber, leg in sources:
        name = f"{part.id}-{chamber}"
        order, on_way = reached[name]
        others = braking - lost - {name}
        alone = len(sources) > 1 and not others
        on_way = tuple(
            Gate(each.part, each.form, each.leg_in, each.leg_out, alone and _bypasses(system, each))
            for each in on_way
        )
        words = f"{part.title}, {chamber} chamber" if is_tandem(part) else part.title
        circuits[name] = Circuit(
            name, words, part.id, chamber, leg, order, on_way, name in lost, _air(state, name)
        )
    chain, wrong = chain_of(system)
    return Topology(
        state,
        chain,
        legs,
        MappingProxyType(circuits),
        MappingProxyType(fed_by),
        MappingProxyType(actuators),
        tuple(_shuttles(system, legs, fed_by)),
        _dead(system, state),
        (*troubles, *wrong, *_cylinders_wrong(system, chain, circuits, braking)),
    )


def _air(state: State, circuit: str) -> float:
    """Air that has come into a circuit; what is drained holds none."""
    return sum(
        edit.volume_m3
        for edit in state.edits
        if isinstance(edit, AirIn) and f"{edit.part}-{edit.chamber}" == circuit
    )


def _cylinders_wrong(
    system: BrakeSystem, chain: Chain, circuits: Mapping[str, Circuit], braking: set[str]
) -> Iterator[Problem]:
    """Find cylinders that cannot be reckoned: without an outlet, or that nothing pushes."""
    pushed = {each.part for each in chain.masters}
    for part in system.of_kind(PartKind.MASTER):
        own = {each.chamber for each in circuits.values() if each.part == part.id}
        if part.id not in pushed:
            if chain.masters and braking & {f"{part.id}-{each}" for each in own}:
                yield Problem(part.title, "is pushed by nothing", "say what pushes it")
        elif len(own) != (2 if is_tandem(part) else 1):
            yield Problem(
                part.title,
                "does not have one outlet chamber for each of its pistons",
                "a single cylinder has the chamber primary, a tandem one primary and floating",
            )


def _sources(system: BrakeSystem, legs: Legs) -> Iterator[tuple[Part, str, int]]:
    for part in system.of_kind(PartKind.MASTER):
        for chamber in dict.fromkeys(port.chamber for port in part.ports):
            leg = legs.at(part.id, chamber)
            if leg is not None:
                yield part, chamber or "primary", leg.number


def _gates(system: BrakeSystem, legs: Legs, state: State) -> Iterator[Gate]:
    stuck = {edit.valve: edit.how for edit in state.edits if isinstance(edit, ValveStuck)}
    for part in system.of_kind(PartKind.VALVE, PartKind.REMOTE_SERVO):
        before, behind = legs.at(part.id, "in"), legs.at(part.id, "out")
        if before is None or behind is None or before is behind:
            continue
        how = stuck.get(part.id)
        if how == "shut":
            continue
        form = part.choices.get("form", "")
        if part.kind is PartKind.REMOTE_SERVO:
            form = "remote servo"
        elif how == "open" or form in {"shut-off", ""}:
            form = CARRIES_STRAIGHT
        elif how == "at its knee" and form == "proportioning":
            form = "limiting"
        yield Gate(part.id, form, before.number, behind.number)


def _follow(
    name: str,
    start: int,
    gates: tuple[Gate, ...],
    fed_by: dict[int, str],
    troubles: list[Problem],
    system: BrakeSystem,
) -> tuple[tuple[int, ...], tuple[Gate, ...]]:
    """Follow pressure from a cylinder's chamber through everything that it reaches."""
    if start in fed_by:
        troubles.append(
            Problem(name, f"is joined to {fed_by[start]}", "each chamber needs its own lines")
        )
        return (start,), ()
    fed_by[start] = name
    order, on_way = [start], []
    for leg in order:  # grows as it goes
        for gate in gates:
            if gate.leg_in != leg or gate in on_way:
                continue
            if gate.leg_out in fed_by:
                title = system.part(gate.part).title
                troubles.append(
                    Problem(title, "leads into lines that are fed already", "look at its lines")
                )
                continue
            fed_by[gate.leg_out] = name
            order.append(gate.leg_out)
            on_way.append(gate)
    return tuple(order), tuple(on_way)


def _backwards(
    system: BrakeSystem, gates: tuple[Gate, ...], fed_by: Mapping[int, str]
) -> Iterator[Problem]:
    for gate in gates:
        if gate.leg_in not in fed_by and gate.leg_out in fed_by:
            yield Problem(
                system.part(gate.part).title,
                "has its outlet towards the cylinder",
                "turn it about, or change over its two lines",
            )


def _bypasses(system: BrakeSystem, gate: Gate) -> bool:
    return system.part(gate.part).choices.get("bypass") == "yes"


def _lost(
    system: BrakeSystem,
    state: State,
    legs: Legs,
    fed_by: Mapping[int, str],
    circuits: list[str],
) -> frozenset[str]:
    """Name the circuits that hold no pressure: a leak drains all that it is joined to."""
    lost: set[str] = set()
    for edit in state.edits:
        if isinstance(edit, SealGone):
            lost.add(f"{edit.part}-{edit.chamber}")
        elif isinstance(edit, Leak):
            drained = {fed_by[leg] for leg in _legs_at(edit, legs) if leg in fed_by}
            lost |= drained or set(_reservoir(edit, system, circuits))
    return frozenset(lost & set(circuits))


def _legs_at(leak: Leak, legs: Legs) -> set[int]:
    line = legs.by_line.get(leak.element)
    if line is None and leak.element[-2:] in {"-0", "-1"}:
        line = legs.by_line.get(leak.element[:-2])
    if line is not None:
        return {line.number}
    return {
        leg.number
        for (part, chamber), leg in legs.by_chamber.items()
        if part == leak.element and leak.chamber in {"", chamber}
    }


def _reservoir(leak: Leak, system: BrakeSystem, circuits: list[str]) -> list[str]:
    """Name the circuits that an empty reservoir, or one section of it, no longer feeds."""
    for part in system.of_kind(PartKind.RESERVOIR):
        if part.id == leak.element:
            fed = fed_from(part, circuits)
            return [each for each in fed if leak.chamber in {"", each}]
    return []


def fed_from(reservoir: Part, circuits: Iterable[str]) -> tuple[str, ...]:
    """Name the circuits that a reservoir feeds: as it says, or all where it does not."""
    feeds = reservoir.choices.get("feeds", "").replace(" ", "-")
    named = tuple(each for each in circuits if each in feeds)
    return named or tuple(circuits)


def _actuators(system: BrakeSystem, legs: Legs) -> dict[Wheel, tuple[Actuator, ...]]:
    found: dict[Wheel, list[Actuator]] = {wheel: [] for wheel in Wheel}
    for part in system.of_kind(PartKind.CALIPER, PartKind.WHEEL_CYLINDER):
        if part.wheel is None:
            continue
        for chamber in dict.fromkeys(port.chamber for port in part.ports):
            leg = legs.at(part.id, chamber)
            if leg is not None:
                found[part.wheel].append(
                    Actuator(part.id, chamber, part.wheel, part.kind, leg.number)
                )
    return {wheel: tuple(group) for wheel, group in found.items()}


def _shuttles(system: BrakeSystem, legs: Legs, fed_by: Mapping[int, str]) -> Iterator[Shuttle]:
    for part in system.of_kind(PartKind.VALVE):
        if part.choices.get("form") == "warning shuttle":
            sides = [legs.at(part.id, side) for side in ("front", "rear")]
            fed = [leg.number if leg and leg.number in fed_by else -1 for leg in sides]
            yield Shuttle(part.id, fed[0], fed[1])


def _dead(system: BrakeSystem, state: State) -> frozenset[str]:
    named = {edit.part for edit in state.edits if isinstance(edit, ServoDead)}
    servos = system.of_kind(PartKind.SERVO, PartKind.REMOTE_SERVO)
    return frozenset(part.id for part in servos if part.id in named or "" in named)
