"""What differs between two brake systems, departure by departure, and one put in place of another.

A departure is known by the parts and lines of the built system that carry its name. A part that
was taken out carries none: it goes with the departure whose lines now end where its own did.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bareshell.model.brake import BrakeSystem, Line, Part

__all__ = ["Swap", "swapped", "swaps_between"]


@dataclass(frozen=True, slots=True)
class Swap:
    """What one departure changed.

    Parameters
    ----------
    departure : str
        Its name; empty for what differs without one.
    changed : tuple of str
        Ids of parts and lines that the built system has and that are new or different.
    removed : tuple of str
        Ids that only the standard system has.
    words : str
        What it is, to a person.
    """

    departure: str
    changed: tuple[str, ...]
    removed: tuple[str, ...]
    words: str


def swaps_between(built: BrakeSystem, standard: BrakeSystem) -> tuple[Swap, ...]:
    """Find what differs, one entry for each departure and one for what differs without any.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> standard = small_car()
    >>> bigger = replace(standard.part("master"), departure="bigger cylinder", note="no figure")
    >>> built = replace(
    ...     standard, parts=tuple(bigger if p.id == "master" else p for p in standard.parts)
    ... )
    >>> swaps_between(built, standard)[0].changed
    ('master',)
    """
    before = {each.id: each for each in _things(standard)}
    after = {each.id: each for each in _things(built)}
    groups: dict[str, list[str]] = {}
    for name, thing in after.items():
        if thing.departure:
            groups.setdefault(thing.departure, []).append(name)
        elif name not in before or not _alike(thing, before[name]):
            groups.setdefault("", []).append(name)
    gone = [name for name in before if name not in after]
    removed: dict[str, list[str]] = {}
    for name in gone:
        removed.setdefault(_went_with(name, before, after), []).append(name)
    names = dict.fromkeys([*groups, *removed])
    return tuple(
        Swap(
            name,
            tuple(groups.get(name, ())),
            tuple(removed.get(name, ())),
            name or _said(groups.get(name, []), removed.get(name, []), before, after),
        )
        for name in sorted(names, key=lambda each: (not each, each))
    )


def swapped(standard: BrakeSystem, built: BrakeSystem, swap: Swap) -> BrakeSystem:
    """Return the standard system with one departure made to it."""
    after = {each.id: each for each in _things(built)}
    left_out = set(swap.removed)
    new = {name: after[name] for name in swap.changed}
    parts = [
        each if (put := new.get(each.id)) is None or not isinstance(put, Part) else put
        for each in standard.parts
        if each.id not in left_out
    ]
    lines = [
        each if (put := new.get(each.id)) is None or not isinstance(put, Line) else put
        for each in standard.lines
        if each.id not in left_out
    ]
    there = {each.id for each in parts} | {each.id for each in lines}
    for name, thing in new.items():
        if name in there:
            continue
        if isinstance(thing, Part):
            parts.append(thing)
        else:
            lines.append(thing)
    named = f"{standard.id}-with-{swap.departure or 'the-rest'}".replace(".", "-")
    return replace(standard, id=named, parts=tuple(parts), lines=tuple(lines))


def _things(system: BrakeSystem) -> Iterator[Part | Line]:
    yield from system.parts
    yield from system.lines


def _alike(one: Part | Line, other: Part | Line) -> bool:
    """Whether two things do the same: titles, places and trust make no difference."""
    return _gist(one) == _gist(other)


def _gist(thing: Part | Line) -> tuple[object, ...]:
    values = {name: each.value for name, each in thing.figures.items()}
    return thing.kind, values, dict(thing.choices), _joined(thing)


def _joined(thing: Part | Line) -> tuple[object, ...]:
    if isinstance(thing, Part):
        return thing.wheel, tuple((port.name, port.chamber) for port in thing.ports)
    return tuple((end.part, end.port) for end in thing.ends)


def _went_with(name: str, before: dict[str, Part | Line], after: dict[str, Part | Line]) -> str:
    """Find the departure whose lines now end where the thing taken out, or its lines, ended."""
    thing = before[name]
    ends = _ends(thing)
    if isinstance(thing, Part):
        ends = set()
        for other in before.values():
            if any(part == name for part, _ in _ends(other)):
                ends |= _ends(other)
    for other in after.values():
        if other.departure and ends & (_ends(other) | _ports(other)):
            return other.departure
    return ""


def _ends(thing: Part | Line) -> set[tuple[str, str]]:
    return {(end.part, end.port) for end in thing.ends} if isinstance(thing, Line) else set()


def _ports(thing: Part | Line) -> set[tuple[str, str]]:
    return {(thing.id, port.name) for port in thing.ports} if isinstance(thing, Part) else set()


def _said(
    changed: list[str],
    removed: list[str],
    before: dict[str, Part | Line],
    after: dict[str, Part | Line],
) -> str:
    titles = [after[name].title for name in changed]
    titles += [f"no {before[name].title}" for name in removed]
    listed = ", ".join(titles[:4]) + (f" and {len(titles) - 4} more" if len(titles) > 4 else "")
    return f"differs without a departure: {listed}"
