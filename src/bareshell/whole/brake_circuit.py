"""The circuit as it was entered: every part and line, what is known of each and what is not."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from bareshell.brakes.figures import Gathered, gather
from bareshell.brakes.needs import needs_of, word_needs_of
from bareshell.model.brake import (
    BrakeSystem,
    Fitting,
    Line,
    Part,
    choices_of,
    fields_of,
)
from bareshell.units.show import Preference
from bareshell.units.show_quantity import show_quantity
from bareshell.whole.brake_check import Head
from bareshell.whole.brake_parts import EntryProblem, SystemName, TrustCount
from bareshell.whole.brake_said import count_trust, odd_entries


@dataclass(frozen=True, slots=True)
class FigureView:
    """One figure that a part or line may have.

    Parameters
    ----------
    value, low, high : float or None
        What was stated, in SI; None when nobody did.
    trust : str
        How it is known; empty when it is not.
    said : str
        The figure in words, its range with it.
    needed : bool
        Whether an answer reads it.
    usual : str
        What it is taken to be while nobody says, with its range and mark; empty for nothing.
    how : str
        How to find it.
    """

    name: str
    words: str
    quantity: str
    value: float | None
    low: float | None
    high: float | None
    trust: str
    said: str
    needed: bool
    usual: str
    how: str


@dataclass(frozen=True, slots=True)
class ChoiceView:
    """One thing about a part or line that is chosen among words, or written freely."""

    name: str
    words: str
    options: tuple[str, ...]
    chosen: str
    needed: bool


@dataclass(frozen=True, slots=True)
class JointSide:
    """One side of a joint as far as it is known."""

    at: str
    thread: str
    sex: str
    seat: str
    flare: str


@dataclass(frozen=True, slots=True)
class ThingName:
    """A part or line in the list of all: what it is, and how much of it is known.

    Parameters
    ----------
    known, open : int
        Figures that were stated, and those that an answer reads and nobody stated.
    missing : int
        Those among the open ones that nothing stands in for.
    """

    id: str
    title: str
    kind: str
    wheel: str
    departure: str
    departure_title: str
    joins: str
    known: int
    open: int
    missing: int


@dataclass(frozen=True, slots=True)
class CircuitView:
    """Brakes as they were entered."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    mark: str
    note: str
    systems: tuple[SystemName, ...]
    parts: tuple[ThingName, ...]
    lines: tuple[ThingName, ...]
    problems: tuple[EntryProblem, ...]
    trust: TrustCount


@dataclass(frozen=True, slots=True)
class ThingView:
    """One part or line with everything that is known of it."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    system_title: str
    role: str
    id: str
    title: str
    kind: str
    is_line: bool
    wheel: str
    departure: str
    note: str
    figures: tuple[FigureView, ...]
    choices: tuple[ChoiceView, ...]
    sides: tuple[JointSide, ...]
    problems: tuple[EntryProblem, ...]


def circuit_view(system: BrakeSystem, head: Head, departures: Mapping[str, str]) -> CircuitView:
    """List every part and line of brakes.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    head : Head
        Whose they are.
    departures : mapping of str to str
        Titles of the departures from standard by their ids.
    """
    gathered = gather(system)
    open_at = Counter(each.path.partition(".")[0] for each in gathered.assumed)
    missing_at = Counter(each.path.partition(".")[0] for each in gathered.missing)
    return CircuitView(
        made_at=head.made_at,
        seq=head.seq,
        car=head.car,
        invented=head.invented,
        system=system.id,
        title=system.title,
        role=system.role.value,
        mark=system.mark,
        note=system.note,
        systems=head.systems,
        parts=tuple(_name(one, system, departures, open_at, missing_at) for one in system.parts),
        lines=tuple(_name(one, system, departures, open_at, missing_at) for one in system.lines),
        problems=odd_entries(system),
        trust=count_trust(system, gathered),
    )


def _name(
    thing: Part | Line,
    system: BrakeSystem,
    departures: Mapping[str, str],
    usual: Mapping[str, int],
    missing: Mapping[str, int],
) -> ThingName:
    return ThingName(
        id=thing.id,
        title=thing.title,
        kind=thing.kind.value,
        wheel=thing.wheel.value if isinstance(thing, Part) and thing.wheel else "",
        departure=thing.departure,
        departure_title=departures.get(thing.departure, thing.departure),
        joins=joins(thing, system) if isinstance(thing, Line) else "",
        known=len(thing.figures),
        open=usual.get(thing.id, 0) + missing.get(thing.id, 0),
        missing=missing.get(thing.id, 0),
    )


def joins(line: Line, system: BrakeSystem) -> str:
    """Say what a line joins; an end that is loose is called so.

    Examples
    --------
    >>> from bareshell.model.brake import LineEnd, LineKind
    >>> loose = Line("p", "pipe", LineKind.PIPE, (LineEnd(), LineEnd()))
    >>> joins(loose, BrakeSystem("x", "x"))
    'a loose end to a loose end'
    """
    titles = {part.id: part.title for part in system.parts}
    return " to ".join(titles.get(end.part, "a loose end") for end in line.ends)


def thing_view(
    thing: Part | Line, system: BrakeSystem, head: Head, gathered: Gathered | None = None
) -> ThingView:
    """Open one part or line up.

    Parameters
    ----------
    thing : Part or Line
        Which.
    system : BrakeSystem
        The brakes it is of.
    head : Head
        Whose they are.
    gathered : Gathered, optional
        What was gathered of the system already.
    """
    return ThingView(
        made_at=head.made_at,
        seq=head.seq,
        car=head.car,
        invented=head.invented,
        system=system.id,
        system_title=system.title,
        role=system.role.value,
        id=thing.id,
        title=thing.title,
        kind=thing.kind.value,
        is_line=isinstance(thing, Line),
        wheel=thing.wheel.value if isinstance(thing, Part) and thing.wheel else "",
        departure=thing.departure,
        note=thing.note,
        figures=_figures(thing, system, gathered or gather(system), head.preference),
        choices=_choices(thing, system),
        sides=_sides(thing, system),
        problems=tuple(one for one in odd_entries(system) if one.about == thing.id),
    )


def _figures(
    thing: Part | Line, system: BrakeSystem, gathered: Gathered, preference: Preference
) -> tuple[FigureView, ...]:
    taken = {each.path: each for each in gathered.assumed}
    needs = {need.path: need.how for need in needs_of(system)}
    found = []
    for name, field in fields_of(thing.kind).items():
        path = f"{thing.id}.{name}"
        stated, usual = thing.figures.get(name), taken.get(path)
        said = taken_as = ""
        if stated is not None:
            figures = (stated.value, stated.low, stated.high)
            said = _ranged(field.quantity, figures, preference)
        if usual is not None:
            figures = (usual.value, usual.low, usual.high)
            taken_as = f"{_ranged(field.quantity, figures, preference)}; {usual.mark}"
        found.append(
            FigureView(
                name=name,
                words=field.words,
                quantity=field.quantity,
                value=None if stated is None else stated.value,
                low=None if stated is None else stated.low,
                high=None if stated is None else stated.high,
                trust="" if stated is None else stated.trust.value,
                said=said,
                needed=path in needs,
                usual=taken_as,
                how=needs.get(path, ""),
            )
        )
    return tuple(found)


def _ranged(
    quantity: str, figures: tuple[float, float | None, float | None], preference: Preference
) -> str:
    value, low, high = figures
    said = show_quantity(quantity, value, preference)
    if low is None and high is None:
        return said
    ends = (value if low is None else low, value if high is None else high)
    return f"{said}, {' to '.join(show_quantity(quantity, end, preference) for end in ends)}"


def _choices(thing: Part | Line, system: BrakeSystem) -> tuple[ChoiceView, ...]:
    needed = {need.path for need in word_needs_of(system)}
    return tuple(
        ChoiceView(
            name,
            choice.words,
            choice.options,
            thing.choices.get(name, ""),
            f"{thing.id}.{name}" in needed,
        )
        for name, choice in choices_of(thing.kind).items()
    )


def _sides(thing: Part | Line, system: BrakeSystem) -> tuple[JointSide, ...]:
    if isinstance(thing, Part):
        return tuple(_side(port.name, port.fitting) for port in thing.ports)
    titles = {part.id: part.title for part in system.parts}
    found = []
    for end in thing.ends:
        at = titles.get(end.part, "a loose end")
        found.append(_side(f"{at}, {end.port}" if end.port else at, end.fitting))
    return tuple(found)


def _side(at: str, fitting: Fitting) -> JointSide:
    return JointSide(at, fitting.thread, fitting.sex, fitting.seat, fitting.flare)
