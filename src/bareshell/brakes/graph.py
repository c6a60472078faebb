"""Legs of fluid: what is joined to what, once the parts are seen as chambers and the lines as ways.

A leg is everything that shares one pressure: pipes, hoses, tees and the chambers at their ends.
Valves, cylinders and remote servos stand between legs; what they do to the pressure is not this
module's business.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bareshell.model.brake import BrakeSystem, Line

Chamber = tuple[str, str]
"""A part's id and the name of one of its chambers."""


@dataclass(frozen=True, slots=True)
class Leg:
    """Chambers and lines that share one pressure.

    Parameters
    ----------
    number : int
        Its place in `Legs.legs`.
    chambers : frozenset of Chamber
        The chambers it reaches.
    lines : tuple of str
        The ids of its lines, in the order they were entered.
    """

    number: int
    chambers: frozenset[Chamber]
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Legs:
    """All legs of a system, and the way from a chamber or a line to its leg."""

    legs: tuple[Leg, ...]
    by_chamber: Mapping[Chamber, Leg]
    by_line: Mapping[str, Leg]
    floating: tuple[tuple[str, int], ...]
    """Ends of lines, as line id and 0 or 1, that reach no port there is."""

    def at(self, part_id: str, chamber: str = "") -> Leg | None:
        """Return the leg at a chamber; None when the part has no such chamber."""
        return self.by_chamber.get((part_id, chamber))


def chamber_at(system: BrakeSystem, line: Line, end: int) -> Chamber | None:
    """Return the chamber that one end of a line is screwed to; None when it reaches none."""
    there = line.ends[end]
    for part in system.parts:
        if part.id == there.part:
            for port in part.ports:
                if port.name == there.port:
                    return part.id, port.chamber
    return None


def legs_of(system: BrakeSystem, *, without_lines: Iterable[str] = ()) -> Legs:
    """Find the legs of a system.

    Parameters
    ----------
    system : BrakeSystem
        As entered; it may be half finished.
    without_lines : iterable of str
        Ids of lines to be thought away (for a blanked leg).

    Examples
    --------
    >>> from bareshell.model.brake import BrakeSystem, Line, LineEnd, LineKind, Part, PartKind, Port
    >>> tee = Part("tee", "tee", PartKind.TEE, ports=(Port("a"), Port("b")))
    >>> plug = Part("plug", "plug", PartKind.STUB, ports=(Port("a"),))
    >>> pipe = Line("p", "pipe", LineKind.PIPE, (LineEnd("tee", "a"), LineEnd("plug", "a")))
    >>> found = legs_of(BrakeSystem("x", "x", parts=(tee, plug), lines=(pipe,)))
    >>> len(found.legs), sorted(found.legs[0].chambers)
    (1, [('plug', ''), ('tee', '')])
    """
    left_out = frozenset(without_lines)
    chamber_of = {
        (part.id, port.name): (part.id, port.chamber)
        for part in system.parts
        for port in part.ports
    }
    beside: dict[Chamber, list[Chamber]] = defaultdict(list)
    lines_at: dict[Chamber, list[str]] = defaultdict(list)
    floating: list[tuple[str, int]] = []
    for line in system.lines:
        if line.id in left_out:
            continue
        ends = [chamber_of.get((end.part, end.port)) for end in line.ends]
        floating += [(line.id, which) for which, end in enumerate(ends) if end is None]
        reached = [end for end in ends if end is not None]
        for end in reached:
            lines_at[end].append(line.id)
        if len(reached) == 2:
            beside[reached[0]].append(reached[1])
            beside[reached[1]].append(reached[0])
    order = {line.id: place for place, line in enumerate(system.lines)}
    legs: list[Leg] = []
    by_chamber: dict[Chamber, Leg] = {}
    by_line: dict[str, Leg] = {}
    for start in dict.fromkeys(chamber_of.values()):
        if start in by_chamber:
            continue
        reached_set = _reach(start, beside)
        lines = sorted({name for at in reached_set for name in lines_at[at]}, key=order.__getitem__)
        leg = Leg(len(legs), frozenset(reached_set), tuple(lines))
        legs.append(leg)
        by_chamber.update(dict.fromkeys(reached_set, leg))
        by_line.update(dict.fromkeys(lines, leg))
    return Legs(tuple(legs), by_chamber, by_line, tuple(floating))


def _reach(start: Chamber, beside: Mapping[Chamber, list[Chamber]]) -> set[Chamber]:
    seen, waiting = {start}, [start]
    while waiting:
        for other in beside.get(waiting.pop(), ()):
            if other not in seen:
                seen.add(other)
                waiting.append(other)
    return seen
