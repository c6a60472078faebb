"""What is checked before something said of the brakes enters the journal.

Brakes may be half described: a figure that nobody knows is left out, a line may end loose. What
is refused is what cannot be meant: a line on a port that no part has, a second set of brakes
said to be on the car.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from bareshell.errors import BadInput, NotFound, Refused
from bareshell.model import changes as c
from bareshell.model.brake import BrakeSystem, Line, Part, Role
from bareshell.model.build import Build
from bareshell.model.fold.brakes import with_line, with_part

FARTHEST_M = 20.0
"""Nothing of a car's brakes lies farther from the middle of its front axle than this. [m]"""


def _system_of(build: Build, system_id: str) -> BrakeSystem:
    if system_id not in build.brakes:
        known = ", ".join(build.brakes) or "none yet"
        raise NotFound(f"there are no brakes '{system_id}' in this build", f"those it has: {known}")
    return build.brakes[system_id]


def _system_set(build: Build, change: c.BrakeSystemSet) -> None:
    system = change.system
    for other in build.brakes.values():
        alone = system.role is not Role.IDEA and other.role is system.role
        if alone and other.id != system.id:
            raise Refused(
                "one of each",
                f"'{other.title}' are the brakes {_stands_for(system.role)} already",
                "correct those, or call these an idea",
            )
    for part in system.parts:
        _check_place(part.title, (part.at_m,) if part.at_m else ())
    for line in system.lines:
        _check_line(system, line)


def _stands_for(role: Role) -> str:
    return "on the car" if role is Role.AS_BUILT else "it left the works with"


def _system_dropped(build: Build, change: c.BrakeSystemDropped) -> None:
    _system_of(build, change.system_id)


def _part_set(build: Build, change: c.BrakePartSet) -> None:
    system = _system_of(build, change.system_id)
    part = change.part
    try:
        after = with_part(system, part)
    except ValueError as error:
        raise BadInput("part", str(error), "use letters, figures and hyphens") from error
    _check_place(part.title, (part.at_m,) if part.at_m else ())
    for line in after.lines:
        for end in line.ends:
            if end.part == part.id:
                _check_port(part, end.port, line)


def _part_dropped(build: Build, change: c.BrakePartDropped) -> None:
    system = _system_of(build, change.system_id)
    if all(part.id != change.part_id for part in system.parts):
        raise NotFound(
            f"there is no part '{change.part_id}' in '{system.title}'",
            "name one of them: " + ", ".join(part.id for part in system.parts),
        )


def _line_set(build: Build, change: c.BrakeLineSet) -> None:
    system = _system_of(build, change.system_id)
    try:
        with_line(system, change.line)
    except ValueError as error:
        raise BadInput("line", str(error), "use letters, figures and hyphens") from error
    _check_line(system, change.line)


def _line_dropped(build: Build, change: c.BrakeLineDropped) -> None:
    system = _system_of(build, change.system_id)
    if all(line.id != change.line_id for line in system.lines):
        raise NotFound(
            f"there is no line '{change.line_id}' in '{system.title}'",
            "name one of them: " + ", ".join(line.id for line in system.lines),
        )


def _check_line(system: BrakeSystem, line: Line) -> None:
    _check_place(line.title, line.route_m)
    for end in line.ends:
        if not end.part:
            continue
        try:
            part = system.part(end.part)
        except KeyError:
            raise BadInput(
                f"line '{line.title}'",
                f"it would end at '{end.part}', and there is no such part",
                "name one of them, or leave its end loose: "
                + ", ".join(each.id for each in system.parts),
            ) from None
        _check_port(part, end.port, line)
    first, last = line.ends
    if first.part and (first.part, first.port) == (last.part, last.port):
        raise BadInput(
            f"line '{line.title}'",
            f"both its ends would be in the same hole of '{system.part(first.part).title}'",
            "give one end another port, or leave it loose",
        )


def _check_port(part: Part, port: str, line: Line) -> None:
    if all(each.name != port for each in part.ports):
        listed = ", ".join(each.name for each in part.ports) or "none"
        raise BadInput(
            f"line '{line.title}'",
            f"it is screwed to '{port}' of '{part.title}', and there is no such port",
            f"its ports are: {listed}",
        )


def _check_place(title: str, points: tuple[tuple[float, float], ...]) -> None:
    for point in points:
        if not all(abs(each) <= FARTHEST_M for each in point):
            raise BadInput(
                f"'{title}', place",
                f"{point[0]:g} m, {point[1]:g} m is nowhere on a car",
                "give metres behind the front axle and right of the middle, such as 1.2 and -0.4",
            )


CHECKS: dict[type[c.Change], Callable[[Build, Any], None]] = {
    c.BrakeSystemSet: _system_set,
    c.BrakeSystemDropped: _system_dropped,
    c.BrakePartSet: _part_set,
    c.BrakePartDropped: _part_dropped,
    c.BrakeLineSet: _line_set,
    c.BrakeLineDropped: _line_dropped,
}
