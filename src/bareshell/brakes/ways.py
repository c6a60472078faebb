"""The ways that fluid can take: from a master cylinder through valves to each bleed screw.

`graph` finds what shares one pressure; here valves and remote servos are passed through as well,
since fluid passes through them when a screw is open. What lies on no way from a cylinder to a
bleed screw cannot be bled: its air stays.
"""

from __future__ import annotations

import heapq
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from bareshell.brakes.graph import Chamber, chamber_at
from bareshell.model.brake import BrakeSystem, PartKind

__all__ = ["BleedPoint", "DeadLeg", "Way", "Ways", "ways_of"]

_START: Chamber = ("", "start")
_SCREWS: Chamber = ("", "screws")


@dataclass(frozen=True, slots=True)
class BleedPoint:
    """A bleed screw: its part, its port, and the chamber that it opens."""

    part: str
    port: str
    chamber: Chamber

    @property
    def id(self) -> str:
        """Part and port in one short name."""
        return f"{self.part}-{self.port.replace(' ', '-')}"


@dataclass(frozen=True, slots=True)
class Way:
    """A way from a master chamber to some other chamber.

    Parameters
    ----------
    source : Chamber
        The master's part and chamber.
    lines : tuple of str
        Its lines, in the order in which fluid runs through them.
    through : tuple of Chamber
        Every chamber on it, the last one included.
    """

    source: Chamber
    lines: tuple[str, ...]
    through: tuple[Chamber, ...]

    @property
    def circuit(self) -> str:
        """The circuit it belongs to."""
        return f"{self.source[0]}-{self.source[1]}"


@dataclass(frozen=True, slots=True)
class DeadLeg:
    """Lines and parts that hang off the ways of the fluid, so that their air stays.

    Parameters
    ----------
    lines, parts : tuple of str
        What it consists of.
    hangs_on : Chamber or None
        Where it leaves the ways; None when no cylinder feeds it.
    ends_in : tuple of str
        The blanks at its far ends, whose slackening would let the air out.
    """

    lines: tuple[str, ...]
    parts: tuple[str, ...]
    hangs_on: Chamber | None
    ends_in: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Ways:
    """All ways of a system.

    Parameters
    ----------
    sources : tuple of Chamber
        The master chambers, in the order of the parts.
    screws : tuple of BleedPoint
        The bleed screws, in the order of the parts.
    dead : tuple of DeadLeg
        What no way to a bleed screw runs through.
    """

    sources: tuple[Chamber, ...]
    screws: tuple[BleedPoint, ...]
    dead: tuple[DeadLeg, ...]
    _beside: Mapping[Chamber, tuple[tuple[Chamber, str], ...]]

    def to(self, chamber: Chamber, length_of: Callable[[str], float]) -> Way | None:
        """Return the shortest way to a chamber; None when no cylinder feeds it.

        Parameters
        ----------
        chamber : Chamber
            Where to.
        length_of : callable
            Gives the length of a line by its id. [m]
        """
        best: dict[Chamber, tuple[float, int]] = {}
        came: dict[Chamber, tuple[Chamber, str] | None] = {}
        waiting: list[tuple[float, int, Chamber, tuple[Chamber, str] | None]] = []
        for number, source in enumerate(self.sources):
            heapq.heappush(waiting, (0.0, number, source, None))
        count = len(waiting)
        while waiting:
            far, number, at, before = heapq.heappop(waiting)
            if at in best:
                continue
            best[at], came[at] = (far, number), before
            for other, line in self._beside.get(at, ()):
                if other not in best and other not in self.sources:
                    count += 1
                    step = length_of(line) if line else 0.0
                    heapq.heappush(waiting, (far + step, count, other, (at, line)))
        return _way(chamber, came)


def _way(end: Chamber, came: Mapping[Chamber, tuple[Chamber, str] | None]) -> Way | None:
    if end not in came:
        return None
    lines: list[str] = []
    through = [end]
    while (before := came[through[-1]]) is not None:
        if before[1]:
            lines.append(before[1])
        through.append(before[0])
    return Way(through[-1], tuple(reversed(lines)), tuple(reversed(through)))


def ways_of(system: BrakeSystem) -> Ways:
    """Find the ways of a system.

    Parameters
    ----------
    system : BrakeSystem
        As entered; it may be half finished.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> found = ways_of(starter("front-rear tandem"))
    >>> found.sources, len(found.screws), found.dead
    ((('master', 'primary'), ('master', 'floating')), 4, ())
    >>> found.to(("cylinder-rear-left", "a"), lambda line: 1.0).lines[-1]
    'pipe-rear-left'
    """
    steps = list(_steps(system))
    beside: dict[Chamber, list[tuple[Chamber, str]]] = defaultdict(list)
    for one, other, name in steps:
        beside[one].append((other, name))
        beside[other].append((one, name))
    sources = tuple(
        (part.id, chamber)
        for part in system.of_kind(PartKind.MASTER)
        for chamber in dict.fromkeys(port.chamber for port in part.ports if not port.bleeds)
    )
    screws = tuple(
        BleedPoint(part.id, port.name, (part.id, port.chamber))
        for part in system.parts
        for port in part.ports
        if port.bleeds
    )
    edges = [(one, other) for one, other, _ in steps]
    edges += [(_START, source) for source in sources]
    edges += [(screw, _SCREWS) for screw in dict.fromkeys(each.chamber for each in screws)]
    alive = _on_a_way(edges)
    kept = {key: tuple(value) for key, value in beside.items()}
    living = {
        chamber for number, edge in enumerate(edges) if number in alive for chamber in edge
    } | set(sources)
    dead_steps = [step for number, step in enumerate(steps) if number not in alive]
    return Ways(sources, screws, tuple(_dead_legs(system, dead_steps, living)), kept)


def _steps(system: BrakeSystem) -> Iterable[tuple[Chamber, Chamber, str]]:
    """Every step that fluid can take: along a line by its name, or through a part without one."""
    for line in system.lines:
        one, other = chamber_at(system, line, 0), chamber_at(system, line, 1)
        if one is not None and other is not None:
            yield one, other, line.id
    for part in system.of_kind(PartKind.VALVE, PartKind.REMOTE_SERVO):
        chambers = {port.chamber for port in part.ports}
        if {"in", "out"} <= chambers:
            yield (part.id, "in"), (part.id, "out"), ""


def _on_a_way(edges: list[tuple[Chamber, Chamber]]) -> set[int]:
    """Return which edges lie on a way from start to screws that passes no place twice.

    They are those that share a ring with one more edge from the screws back to the start: the
    block of the graph that holds that edge. Blocks are found by the depth-first numbering that
    textbooks give.
    """
    closing = len(edges)
    beside: dict[Chamber, list[tuple[Chamber, int]]] = defaultdict(list)
    for number, (one, other) in enumerate([*edges, (_SCREWS, _START)]):
        beside[one].append((other, number))
        beside[other].append((one, number))
    order: dict[Chamber, int] = {_START: 0}
    low: dict[Chamber, int] = {_START: 0}
    taken: list[int] = []
    stack = [(_START, -1, iter(beside[_START]))]
    while stack:
        at, came_by, others = stack[-1]
        for other, number in others:
            if number == came_by:
                continue
            if other not in order:
                order[other] = low[other] = len(order)
                taken.append(number)
                stack.append((other, number, iter(beside[other])))
                break
            if order[other] < order[at]:
                taken.append(number)
                low[at] = min(low[at], order[other])
        else:
            stack.pop()
            if stack:
                parent = stack[-1][0]
                low[parent] = min(low[parent], low[at])
                if low[at] >= order[parent]:
                    block = taken[taken.index(came_by) :]
                    del taken[len(taken) - len(block) :]
                    if closing in block:
                        return set(block) - {closing}
    return set()


def _dead_legs(
    system: BrakeSystem, steps: list[tuple[Chamber, Chamber, str]], living: set[Chamber]
) -> Iterable[DeadLeg]:
    """Gather what is dead into legs: those that hang together away from the ways."""
    beside: dict[Chamber, list[tuple[Chamber, str]]] = defaultdict(list)
    for one, other, name in steps:
        beside[one].append((other, name))
        beside[other].append((one, name))
    order = {line.id: place for place, line in enumerate(system.lines)}
    place = {part.id: place for place, part in enumerate(system.parts)}
    blanks = {part.id for part in system.of_kind(PartKind.STUB)}
    seen: set[Chamber] = set()
    for chamber in dict.fromkeys(at for step in steps for at in step[:2]):
        if chamber in seen or chamber in living:
            continue
        group, lines, hangs = [chamber], set[str](), set[Chamber]()
        seen.add(chamber)
        for at in group:  # grows as it goes
            for other, name in beside[at]:
                lines |= {name} if name else set()
                if other in living:
                    hangs.add(other)
                elif other not in seen:
                    seen.add(other)
                    group.append(other)
        parts = sorted({part for part, _ in group}, key=place.__getitem__)
        yield DeadLeg(
            tuple(sorted(lines, key=order.__getitem__)),
            tuple(parts),
            min(hangs) if hangs else None,
            tuple(part for part in parts if part in blanks),
        )
    for one, other, name in steps:
        # A line between two places on the ways that closes no ring with a screw.
        if name and one in living and other in living:
            yield DeadLeg((name,), (), one)
