"""Finding brakes, and a part or line of them, by what a person typed."""

from __future__ import annotations

import difflib

from bareshell.errors import NotFound
from bareshell.model import Build
from bareshell.model.brake import BrakeSystem, Line, Part, Role


def system_of(build: Build, system_id: str = "") -> BrakeSystem:
    """Return brakes of a build: those named, else those on the car, else the first there are.

    Raises
    ------
    NotFound
        When there are none.

    Examples
    --------
    >>> system_of(Build())
    Traceback (most recent call last):
    ...
    bareshell.errors.NotFound: this build does not say what brakes the car has. Begin from a \
starter or a brake file: on the page of the brakes, or with 'bareshell brakes begin'.
    """
    if not build.brakes:
        raise NotFound(
            "this build does not say what brakes the car has",
            "begin from a starter or a brake file: on the page of the brakes, or with "
            "'bareshell brakes begin'",
        )
    if system_id:
        if system_id not in build.brakes:
            raise NotFound(
                f"there are no brakes '{system_id}' in this build",
                "it has: " + ", ".join(build.brakes),
            )
        return build.brakes[system_id]
    return with_role(build, Role.AS_BUILT) or next(iter(build.brakes.values()))


def with_role(build: Build, role: Role) -> BrakeSystem | None:
    """Return the first brakes of a build that stand for something; None when none do."""
    return next((one for one in build.brakes.values() if one.role is role), None)


def thing_of(system: BrakeSystem, thing_id: str) -> Part | Line:
    """Return a part or line by its id.

    Raises
    ------
    NotFound
        Naming the nearest, or those there are.
    """
    things: tuple[Part | Line, ...] = (*system.parts, *system.lines)
    for thing in things:
        if thing.id == thing_id:
            return thing
    known = [thing.id for thing in things]
    near = difflib.get_close_matches(thing_id, known, n=2, cutoff=0.5)
    meant = f"was {' or '.join(near)} meant?" if near else "it has: " + ", ".join(known)
    raise NotFound(f"there is no part or line '{thing_id}' in '{system.title}'", meant)
