"""Every way in which one thing of a brake system can fail, as edits to its graph."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from bareshell.brakes.needs import is_tandem
from bareshell.brakes.state import (
    AirIn,
    Blanked,
    CableBroken,
    Leak,
    SealGone,
    ServoDead,
    ShuttleTripped,
    State,
    ValveStuck,
)
from bareshell.brakes.topology import fed_from
from bareshell.model.brake import BrakeSystem, Line, LineKind, Part, PartKind

__all__ = ["Case", "FailureKind", "single_cases"]

FailureKind: TypeAlias = Literal[
    "pipe or hose burst",
    "joint leaks",
    "part leaks",
    "seal fails inside",
    "air in a circuit",
    "servo dead",
    "vacuum lost",
    "valve sticks",
    "shuttle tripped",
    "circuit blanked",
    "parking cable broken",
    "two at once",
]
"""What sort of failure."""


@dataclass(frozen=True, slots=True)
class Case:
    """One way to fail.

    Parameters
    ----------
    id : str
        Short and steady: ``leak-pipe-rear``, ``valve-rear-shut``.
    kind : str
        What sort.
    element : str
        Id of the line, joint or part that fails.
    words : str
        What fails, to a person.
    state : State
        The edits that it stands for.
    loses_fluid : bool
        Whether fluid runs out.
    """

    id: str
    kind: FailureKind
    element: str
    words: str
    state: State
    loses_fluid: bool = False


def single_cases(system: BrakeSystem) -> tuple[Case, ...]:
    """List every element failing, one at a time, in the order they were entered.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> cases = single_cases(small_car("single line"))
    >>> cases[0].words, cases[0].loses_fluid
    ('pipe from the cylinder bursts', True)
    """
    return tuple(
        case
        for group in (_lines, _joints, _parts, _seals, _air, _servos, _valves, _blanked, _cables)
        for case in group(system)
    )


def _leak(kind: FailureKind, element: str, words: str, chamber: str = "") -> Case:
    tail = f"-{chamber}" if chamber else ""
    state = State.of(Leak(element, chamber))
    return Case(f"leak-{element}{tail}", kind, element, words, state, loses_fluid=True)


def _lines(system: BrakeSystem) -> Iterator[Case]:
    for line in system.lines:
        if line.kind is not LineKind.DIRECT:
            yield _leak("pipe or hose burst", line.id, f"{line.title} bursts")


def _joints(system: BrakeSystem) -> Iterator[Case]:
    titles = {part.id: part.title for part in system.parts}
    for line in system.lines:
        # Two parts screwed straight together share one joint.
        for end in (0,) if line.kind is LineKind.DIRECT else (0, 1):
            there = titles.get(line.ends[end].part)
            if there is not None:
                words = f"joint of {line.title} at {there} leaks"
                yield _leak("joint leaks", f"{line.id}-{end}", words)


_BY_CHAMBER = (PartKind.MASTER, PartKind.CALIPER)


def _parts(system: BrakeSystem) -> Iterator[Case]:
    for part in system.parts:
        if part.kind is PartKind.RESERVOIR:
            yield from _empty(part, system)
        chambers = _chambers(part)
        if not chambers:
            continue
        apart = part.kind in _BY_CHAMBER or part.choices.get("form") == "warning shuttle"
        if apart and len(chambers) > 1:
            for chamber in chambers:
                words = f"{part.title} leaks at its {chamber} chamber"
                yield _leak("part leaks", part.id, words, chamber)
        else:
            yield _leak("part leaks", part.id, f"{part.title} leaks")


def _empty(part: Part, system: BrakeSystem) -> Iterator[Case]:
    """Empty a reservoir: section by section, unless it is said not to be divided."""
    circuits = [
        f"{each.id}-{chamber or 'primary'}"
        for each in system.of_kind(PartKind.MASTER)
        for chamber in _chambers(each)
    ]
    fed = fed_from(part, circuits)
    if len(fed) < 2 or part.choices.get("divided") == "no":
        yield _leak("part leaks", part.id, f"{part.title} runs empty")
        return
    for circuit in fed:
        words = f"{part.title} runs empty on the side of {circuit.replace('-', ' ')}"
        yield _leak("part leaks", part.id, words, circuit)


def _chambers(part: Part) -> tuple[str, ...]:
    return tuple(dict.fromkeys(port.chamber for port in part.ports))


def _seals(system: BrakeSystem) -> Iterator[Case]:
    for part in system.of_kind(PartKind.MASTER):
        for chamber in _chambers(part):
            name = chamber or "primary"
            which = f" of its {name} piston" if is_tandem(part) else ""
            yield Case(
                f"seal-{part.id}-{name}",
                "seal fails inside",
                part.id,
                f"seal{which} lets fluid past inside {part.title}",
                State.of(SealGone(part.id, name)),
            )


AIR_M3: Final = 3e-6
"""Air that a careless bleed may leave in a circuit. [m3] Common practice, no source."""


def _air(system: BrakeSystem) -> Iterator[Case]:
    for part in system.of_kind(PartKind.MASTER):
        for chamber in _chambers(part):
            name = chamber or "primary"
            which = f" on its {name} side" if is_tandem(part) else ""
            yield Case(
                f"air-{part.id}-{name}",
                "air in a circuit",
                part.id,
                f"{AIR_M3 * 1e6:g} ml of air in the circuit of {part.title}{which}",
                State.of(AirIn(part.id, name, AIR_M3)),
            )


def _servos(system: BrakeSystem) -> Iterator[Case]:
    servos = system.of_kind(PartKind.SERVO, PartKind.REMOTE_SERVO)
    for part in servos:
        yield Case(
            f"dead-{part.id}",
            "servo dead",
            part.id,
            f"{part.title} gives nothing",
            State.of(ServoDead(part.id)),
        )
    if servos:
        yield Case("no-vacuum", "vacuum lost", "", "vacuum is lost", State.of(ServoDead()))


_WAYS: dict[str, tuple[Literal["open", "shut", "at its knee"], ...]] = {
    "limiting": ("open", "shut"),
    "proportioning": ("open", "shut", "at its knee"),
    "deceleration-sensing": ("open", "shut"),
    "residual": ("open", "shut"),
    "shut-off": ("shut",),
}


def _valves(system: BrakeSystem) -> Iterator[Case]:
    for part in system.of_kind(PartKind.VALVE):
        form = part.choices.get("form", "")
        if form == "warning shuttle":
            yield Case(
                f"{part.id}-tripped",
                "shuttle tripped",
                part.id,
                f"{part.title} stands to one side: its lamp says so, nothing else changes",
                State.of(ShuttleTripped(part.id)),
            )
        for how in _WAYS.get(form, ()):
            yield Case(
                f"{part.id}-{how.replace(' ', '-')}",
                "valve sticks",
                part.id,
                f"{part.title} sticks {how}",
                State.of(ValveStuck(part.id, how)),
            )


def _blanked(system: BrakeSystem) -> Iterator[Case]:
    """Blank each cylinder's chamber, and each chamber of a caliper that two circuits feed."""
    for part in system.of_kind(PartKind.MASTER, PartKind.CALIPER):
        chambers = _chambers(part)
        if part.kind is PartKind.CALIPER and len(chambers) < 2:
            continue
        for chamber in chambers:
            ports = {port.name for port in part.ports if port.chamber == chamber}
            lines = [line.id for line in system.lines if _reaches(line, part.id, ports)]
            if not lines:
                continue
            which = f" at its {chamber} chamber" if len(chambers) > 1 else ""
            yield Case(
                f"blanked-{part.id}-{chamber or 'primary'}",
                "circuit blanked",
                part.id,
                f"lines of {part.title} blanked{which}",
                State.of(*(Blanked(line) for line in lines)),
            )


def _reaches(line: Line, part: str, ports: set[str]) -> bool:
    return any(end.part == part and end.port in ports for end in line.ends)


def _cables(system: BrakeSystem) -> Iterator[Case]:
    for part in system.of_kind(PartKind.PARKING):
        if part.choices.get("hold", "mechanical") != "mechanical":
            continue
        sides: tuple[Literal["left", "right", "both"], ...] = ("left", "right", "both")
        if part.choices.get("acts_on") == "transmission":
            sides = ("both",)
        for side in sides:
            what = "cables are" if side == "both" else f"{side} cable is"
            yield Case(
                f"{part.id}-cable-{side}",
                "parking cable broken",
                part.id,
                f"{part.title}: {what} broken",
                State.of(CableBroken(side)),
            )
