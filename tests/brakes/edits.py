"""Small edits to a brake system, as a person makes them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from bareshell.model.brake import (
    BrakeSystem,
    Fitting,
    Line,
    LineEnd,
    LineKind,
    Part,
    PartKind,
    Port,
)
from bareshell.model.trust import Stated, Trust

Edit = Callable[[BrakeSystem], BrakeSystem]


def with_part(system: BrakeSystem, part_id: str, **changes: Any) -> BrakeSystem:
    """Change what is said of a part; figures and choices are laid over, others replaced."""
    part = system.part(part_id)
    for name in ("figures", "choices"):
        if name in changes:
            changes[name] = {**getattr(part, name), **changes[name]}
    new = replace(part, **changes)
    return replace(system, parts=tuple(new if p is part else p for p in system.parts))


def with_line(system: BrakeSystem, line_id: str, **changes: Any) -> BrakeSystem:
    """Change what is said of a line; see `with_part`."""
    line = system.line(line_id)
    for name in ("figures", "choices"):
        if name in changes:
            changes[name] = {**getattr(line, name), **changes[name]}
    new = replace(line, **changes)
    return replace(system, lines=tuple(new if x is line else x for x in system.lines))


def with_end(system: BrakeSystem, line_id: str, end: int, **changes: Any) -> BrakeSystem:
    """Change one end of a line."""
    ends = list(system.line(line_id).ends)
    ends[end] = replace(ends[end], **changes)
    return with_line(system, line_id, ends=tuple(ends))


def with_port(system: BrakeSystem, part_id: str, port: str, **changes: Any) -> BrakeSystem:
    """Change one port of a part."""
    ports = tuple(
        replace(p, **changes) if p.name == port else p for p in system.part(part_id).ports
    )
    return with_part(system, part_id, ports=ports)


def without(system: BrakeSystem, *ids: str) -> BrakeSystem:
    """Take parts and lines away."""
    return replace(
        system,
        parts=tuple(part for part in system.parts if part.id not in ids),
        lines=tuple(line for line in system.lines if line.id not in ids),
    )


def added(system: BrakeSystem, *pieces: Part | Line) -> BrakeSystem:
    """Add parts and lines."""
    return replace(
        system,
        parts=(*system.parts, *(p for p in pieces if isinstance(p, Part))),
        lines=(*system.lines, *(p for p in pieces if isinstance(p, Line))),
    )


def pipe(line_id: str, start: tuple[str, str], end: tuple[str, str], **figures: float) -> Line:
    """Make a pipe between two ports, its figures measured."""
    stated = {name: Stated(value, Trust.MEASURED) for name, value in figures.items()}
    return Line(line_id, line_id, LineKind.PIPE, (LineEnd(*start), LineEnd(*end)), stated)


def blank(part_id: str) -> Part:
    """Make a blank."""
    return Part(part_id, part_id, PartKind.STUB, ports=(Port("a", "a"),))


def measured(**figures: float) -> dict[str, Stated]:
    """Make figures that were measured."""
    return {name: Stated(value, Trust.MEASURED) for name, value in figures.items()}


def male(thread: str, flare: str = "", seat: str = "") -> Fitting:
    """Make a male fitting."""
    return Fitting(thread, "male", seat, flare)


def with_blanked_branch(system: BrakeSystem) -> BrakeSystem:
    """Take the rear off a front-rear tandem car's valve and blank its long pipe there."""
    return added(
        without(system, "pipe-rear"),
        blank("plug"),
        blank("plug-rear"),
        pipe("stub-pipe", ("valve-rear", "out"), ("plug", "a"), length_m=0.2),
        pipe("loose-pipe", ("plug-rear", "a"), ("bracket-rear", "pipe"), length_m=0.2),
    )
