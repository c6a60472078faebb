"""From a brake system to the plan of its car: places, circuits, flow, and words for the margin."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from bareshell.brakes.graph import Chamber, chamber_at
from bareshell.draw.brake_car import WHEELS, CarPlan, PlanCircuit, PlanLine, PlanPart
from bareshell.draw.brake_habit import habit_places
from bareshell.draw.brake_sheet import Point, listed
from bareshell.model.brake import BrakeSystem, Line, Part, PartKind

_WHEELBASE_M: Final = 2.4
_TRACK_M: Final = 1.28
_ALPHABET: Final = "abcdefghijklmnopqrstuvwxyz"
_NOT_SEEN: Final = (PartKind.CAR, PartKind.FLUID)
_UNNAMED_FORMS: Final = ("hose bracket", "in-line union")


@dataclass(frozen=True, slots=True)
class Circuits:
    """Which circuit reaches what, and how far from its cylinder.

    Parameters
    ----------
    ids : tuple of str
        Cylinder and chamber, as ``master-primary``, in the order of their numbers from 1.
    number : mapping of Chamber to int
        The circuit of each chamber that one reaches.
    steps : mapping of Chamber to int
        How many lines and valves lie between it and the cylinder.
    """

    ids: tuple[str, ...]
    number: Mapping[Chamber, int]
    steps: Mapping[Chamber, int]

    def of_line(self, system: BrakeSystem, line: Line) -> int:
        """The number of a line's circuit; 0 when none reaches it."""
        ends = (chamber_at(system, line, 0), chamber_at(system, line, 1))
        return next((self.number[end] for end in ends if end and end in self.number), 0)

    def flow_of(self, system: BrakeSystem, line: Line) -> int:
        """1 when fluid runs from its first end to its second as the pedal goes down, else -1."""
        ends = (chamber_at(system, line, 0), chamber_at(system, line, 1))
        first, second = (self.steps.get(end) if end else None for end in ends)
        if first is None or second is None:
            return (first is not None) - (second is not None)
        return (second > first) - (second < first)


def circuits_of(system: BrakeSystem) -> Circuits:
    """Follow each circuit from its cylinder through lines, valves and remote servos.

    Parameters
    ----------
    system : BrakeSystem
        As entered; it may be half finished.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> circuits_of(starter("front-rear tandem")).ids
    ('master-primary', 'master-floating')
    """
    number: dict[Chamber, int] = {}
    steps: dict[Chamber, int] = {}
    ids: list[str] = []
    beside = _beside(system)
    for part in _masters(system):
        for chamber in dict.fromkeys(port.chamber for port in part.ports if not port.bleeds):
            start = (part.id, chamber)
            if start in number:
                continue
            ids.append(f"{part.id}-{chamber}")
            _follow(start, len(ids), beside, number, steps)
    return Circuits(tuple(ids), number, steps)


def plan_of(
    system: BrakeSystem,
    *,
    standard: BrakeSystem | None = None,
    gone: Mapping[str, str] | None = None,
    said: Mapping[str, tuple[str, ...]] | None = None,
) -> CarPlan:
    """The plan of a car's brakes, with what was taken off when the standard is given.

    Parameters
    ----------
    system : BrakeSystem
        What is drawn.
    standard : BrakeSystem, optional
        Parts of it that the system does not have are drawn as taken off.
    gone : mapping of str to str, optional
        The departure that took a standard part off, by the part's id.
    said : mapping of str to tuple of str, optional
        Words for the margin by a part's id, in place of those made here.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> plan = plan_of(starter("front-rear tandem"))
    >>> [(circuit.number, circuit.title) for circuit in plan.circuits]
    [(1, 'front'), (2, 'rear')]
    """
    circuits = circuits_of(system)
    base, front, rear, missing = _size(system)
    places, habit = habit_places(system, base, front, rear)
    words = said or {}
    parts = [
        _plan_part(part, places[part.id], habit, words)
        for part in system.parts
        if part.kind not in _NOT_SEEN
    ]
    parts += _taken_off(system, standard, gone or {}, (base, front, rear))
    lines = tuple(_plan_line(system, line, circuits) for line in system.lines)
    notes = (*_notes(system, lines, habit, missing), *_departures(gone or {}, parts))
    return CarPlan(
        base,
        front,
        rear,
        tuple(parts),
        lines,
        _plan_circuits(system, circuits),
        tuple(_pushes(system)),
        notes=notes,
    )


# ---------------------------------------------------------------- circuits


def _masters(system: BrakeSystem) -> list[Part]:
    """The cylinders, that of the front axle first when a balance bar says which that is."""
    first = [bar.choices.get("front") for bar in system.of_kind(PartKind.BALANCE_BAR)]
    return sorted(system.of_kind(PartKind.MASTER), key=lambda part: part.id not in first)


def _beside(system: BrakeSystem) -> dict[Chamber, list[Chamber]]:
    """Chambers next to each other: along lines, and from the inlet to the outlet of a part."""
    found: dict[Chamber, list[Chamber]] = {}

    def join(one: Chamber, two: Chamber) -> None:
        found.setdefault(one, []).append(two)

    for line in system.lines:
        ends = (chamber_at(system, line, 0), chamber_at(system, line, 1))
        if ends[0] is not None and ends[1] is not None:
            join(ends[0], ends[1])
            join(ends[1], ends[0])
    for part in system.of_kind(PartKind.VALVE, PartKind.REMOTE_SERVO):
        join((part.id, "in"), (part.id, "out"))
    return found


def _follow(
    start: Chamber,
    circuit: int,
    beside: Mapping[Chamber, list[Chamber]],
    number: dict[Chamber, int],
    steps: dict[Chamber, int],
) -> None:
    number[start], steps[start] = circuit, 0
    waiting = deque([start])
    while waiting:
        here = waiting.popleft()
        for other in beside.get(here, ()):
            if other not in number:
                number[other], steps[other] = circuit, steps[here] + 1
                waiting.append(other)


def _plan_circuits(system: BrakeSystem, circuits: Circuits) -> tuple[PlanCircuit, ...]:
    reached: dict[int, set[str]] = {}
    for part in system.parts:
        for port in part.ports:
            number = circuits.number.get((part.id, port.chamber))
            if number is not None and part.wheel is not None:
                reached.setdefault(number, set()).add(part.wheel.value)
    found = []
    for number in range(1, len(circuits.ids) + 1):
        wheels = tuple(wheel for wheel in WHEELS if wheel in reached.get(number, ()))
        found.append(PlanCircuit(number, _circuit_title(wheels), wheels))
    return tuple(found)


def _circuit_title(wheels: tuple[str, ...]) -> str:
    """A short name for a circuit by the wheels that it reaches.

    Examples
    --------
    >>> _circuit_title(("front left", "rear right")), _circuit_title(("rear left", "rear right"))
    ('front left and rear right', 'rear')
    """
    if len(wheels) == 4:
        return "all wheels"
    if len(wheels) == 2 and len({wheel.split()[0] for wheel in wheels}) == 1:
        return wheels[0].split()[0]
    if len(wheels) == 3:
        axle = "front" if wheels[1].startswith("front") else "rear"
        other = next(wheel for wheel in wheels if not wheel.startswith(axle))
        return f"{axle} and {other}"
    return listed(wheels) if wheels else ""


# ---------------------------------------------------------------- parts and lines


def _size(system: BrakeSystem) -> tuple[float, float, float, list[str]]:
    """Wheelbase and tracks, and the words of those that nobody entered."""
    cars = system.of_kind(PartKind.CAR)
    figures = cars[0].figures if cars else {}
    found, missing = [], []
    for name, words, usual in (
        ("wheelbase_m", "wheelbase", _WHEELBASE_M),
        ("front_track_m", "front track", _TRACK_M),
        ("rear_track_m", "rear track", _TRACK_M),
    ):
        stated = figures.get(name)
        found.append(stated.value if stated else usual)
        if stated is None:
            missing.append(f"{words} {usual:g} m")
    return found[0], found[1], found[2], missing


def _plan_part(
    part: Part, at_m: Point, habit: frozenset[str], said: Mapping[str, tuple[str, ...]]
) -> PlanPart:
    form = part.choices.get("form", "")
    diameter = part.figures.get("outer_diameter_m") or part.figures.get("diameter_m")
    unnamed = form in _UNNAMED_FORMS
    notes = said[part.id] if part.id in said else _part_words(part)
    return PlanPart(
        part.id,
        part.title,
        part.kind.value,
        at_m,
        form,
        "" if unnamed else _name(part),
        notes,
        part.wheel.value if part.wheel else "",
        diameter.value if diameter else None,
        part.id in habit,
    )


def _name(part: Part) -> str:
    """What the margin calls a part; at a wheel, where its place is plain, by kind and size."""
    if part.wheel is None:
        return part.title
    size = part.figures.get("outer_diameter_m") or part.figures.get("diameter_m")
    word = part.kind.value.replace("wheel cylinder", "cylinder")
    if size is not None:
        return f"{word} {_mm(size.value)}"
    bore = part.figures.get("bore_m") or part.figures.get("a_bore_m")
    return f"{word} {_mm(bore.value)}" if bore is not None else word


def _part_words(part: Part) -> tuple[str, ...]:
    """A line or two about a part: its form and the figure that it is known by."""
    if part.wheel is not None:
        return ()
    form = part.choices.get("form", "")
    told = part.kind is not PartKind.TEE and form and form not in part.title
    words = [form] if told else []
    bore = part.figures.get("bore_m")
    ratio = part.figures.get("ratio") or part.figures.get("boost_ratio")
    knee = part.figures.get("knee_pa")
    if bore is not None:
        words.append(f"bore {_mm(bore.value)}")
    if ratio is not None:
        words.append(f"{ratio.value:.3g} : 1")
    if knee is not None:
        words.append(f"{knee.value / 1e5:.3g} bar")
    return tuple(words)


def _mm(length_m: float) -> str:
    """A length in millimetres, as the trade names a bore.

    Examples
    --------
    >>> _mm(0.01905), _mm(0.228)
    ('19.05', '228')
    """
    return f"{length_m * 1000:.2f}".rstrip("0").rstrip(".")


def _plan_line(system: BrakeSystem, line: Line, circuits: Circuits) -> PlanLine:
    ends = []
    for index in (0, 1):
        chamber = chamber_at(system, line, index)
        ends.append(chamber if chamber is not None else (_known(system, line, index), ""))
    return PlanLine(
        line.id,
        line.title,
        line.kind.value,
        (ends[0], ends[1]),
        tuple((point[0], point[1]) for point in line.route_m),
        circuits.of_line(system, line),
        circuits.flow_of(system, line),
    )


def _known(system: BrakeSystem, line: Line, end: int) -> str:
    """The part that an end names although it has no such port; empty when there is no such part."""
    name = line.ends[end].part
    return name if any(part.id == name for part in system.parts) else ""


def _pushes(system: BrakeSystem) -> Iterable[tuple[str, str]]:
    for part in system.parts:
        for choice in ("pushes", "front", "rear"):
            pushed = part.choices.get(choice)
            if pushed and part.kind in (PartKind.PEDAL, PartKind.SERVO, PartKind.BALANCE_BAR):
                yield part.id, pushed


def _taken_off(
    system: BrakeSystem,
    standard: BrakeSystem | None,
    gone: Mapping[str, str],
    size: tuple[float, float, float],
) -> list[PlanPart]:
    """The standard parts that are gone, unless one of their kind stands at the same wheel."""
    if standard is None:
        return []
    here = {part.id for part in system.parts}
    there = {(part.kind, part.wheel) for part in system.parts if part.wheel}
    places, _ = habit_places(standard, *size)
    found = []
    for part in standard.parts:
        replaced = part.wheel is not None and (part.kind, part.wheel) in there
        if part.id in here or replaced or part.kind in _NOT_SEEN:
            continue
        letter = _letters(gone).get(gone.get(part.id, ""), "")
        found.append(
            PlanPart(
                f"standard-{part.id}",
                part.title,
                part.kind.value,
                places[part.id],
                part.choices.get("form", ""),
                _name(part),
                (f"taken off: {letter}" if letter else "taken off",),
                part.wheel.value if part.wheel else "",
                removed=True,
            )
        )
    return found


def _letters(gone: Mapping[str, str]) -> dict[str, str]:
    """A short name for each departure: itself when it is short, else a letter."""
    named = [each for each in dict.fromkeys(gone.values()) if each]
    return {
        each: each if len(each) <= 3 else _ALPHABET[index % len(_ALPHABET)]
        for index, each in enumerate(named)
    }


def _departures(gone: Mapping[str, str], parts: Iterable[PlanPart]) -> Iterable[str]:
    """What the letters beside parts that were taken off stand for."""
    drawn = {part.id.removeprefix("standard-") for part in parts if part.removed}
    letters = _letters(gone)
    for words in dict.fromkeys(words for name, words in gone.items() if name in drawn):
        if letters.get(words, words) != words:
            yield f"{letters[words]}: {words.rstrip('.')}."


def _notes(
    system: BrakeSystem, lines: tuple[PlanLine, ...], habit: frozenset[str], missing: list[str]
) -> tuple[str, ...]:
    notes = []
    if missing:
        notes.append(f"Not entered, drawn at {listed(missing)}.")
    unplaced = [part.title for part in system.parts if part.id in habit]
    if unplaced:
        shown = unplaced if len(unplaced) < 6 else [*unplaced[:4], f"{len(unplaced) - 4} more"]
        notes.append(f"No place entered, drawn where such parts usually are: {listed(shown)}.")
    routeless = [line for line in lines if line.kind == "pipe" and not line.route_m]
    if routeless:
        pipes = sum(line.kind == "pipe" for line in lines)
        some = f"{len(routeless)} of {pipes} pipes"
        notes.append(f"No route entered for {some}: drawn by habit.")
    unreached = [line.title for line in lines if not line.circuit]
    if unreached:
        notes.append(f"No circuit reaches, drawn dotted: {listed(unreached)}.")
    return tuple(notes)
