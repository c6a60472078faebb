"""One figure or choice of the brakes by its path, said or taken away again."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final, TypeVar

from bareshell.app.brakes_found import system_of, thing_of
from bareshell.app.door import Door
from bareshell.app.written import Pen, Written, write_down
from bareshell.brakes.typed import read_stated
from bareshell.errors import BadInput, NotFound
from bareshell.io.brake_file.keys import figure_keys
from bareshell.model import changes as c
from bareshell.model.brake import BrakeSystem, Line, Part, choices_of, fields_of
from bareshell.model.fold.brakes import with_line, with_part

T = TypeVar("T")

UNKNOWN: Final = "unknown"
"""What is typed to take a figure away again."""


def with_figure(system: BrakeSystem, path: str, typed: str) -> BrakeSystem:
    """Return brakes with one figure or choice said, or taken away by ``unknown``.

    Parameters
    ----------
    system : BrakeSystem
        The brakes.
    path : str
        ``part-id.figure_name`` or ``part-id.choice_name``; the unit's letters may be left off.
    typed : str
        As it is typed: ``3/4 in, marked on the part``; ``0.38 (0.34 to 0.42)``; ``DOT 4``.

    Raises
    ------
    NotFound, BadInput
        When there is no such part or figure, or it cannot be read.

    Examples
    --------
    >>> from bareshell.model.brake import PartKind
    >>> fluid = Part("fluid", "fluid", PartKind.FLUID)
    >>> brakes = with_figure(BrakeSystem("x", "x", parts=(fluid,)), "fluid.age", "2 years")
    >>> brakes.part("fluid").figures["age_years"].value
    2.0
    """
    thing_id, _, name = path.partition(".")
    thing = thing_of(system, thing_id)
    found = _named(thing, name)
    figures, chosen = dict(thing.figures), dict(thing.choices)
    typed = typed.strip()
    said = "" if typed.casefold() == UNKNOWN else typed
    if found in fields_of(thing.kind):
        figures.pop(found, None)
        if said:
            figures[found] = read_stated(said, fields_of(thing.kind)[found], thing.title).stated
    else:
        chosen.pop(found, None)
        if said or UNKNOWN in choices_of(thing.kind)[found].options:
            chosen[found] = said or UNKNOWN
    return put(system, made(thing.title, lambda: replace(thing, figures=figures, choices=chosen)))


def _named(thing: Part | Line, name: str) -> str:
    fields, choices = fields_of(thing.kind), choices_of(thing.kind)
    if name in fields or name in choices:
        return name
    keys = figure_keys(thing.kind)
    if name in keys:
        return keys[name].name
    listed = ", ".join((*keys, *choices)) or "none"
    raise NotFound(f"{thing.title} has no figure or choice '{name}'", f"it may have: {listed}")


def set_figure(door: Door, system_id: str, path: str, typed: str, pen: Pen) -> Written:
    """Write one figure or choice of a part or line down.

    Parameters
    ----------
    door : Door
        The build.
    system_id : str
        Which brakes; empty for those on the car.
    path, typed : str
        As `with_figure` takes them.
    pen : Pen
        Who writes.
    """
    system = system_of(door.build(), system_id)
    thing_id, _, name = path.partition(".")
    thing = thing_of(with_figure(system, path, typed), thing_id)
    said = f"{thing.title}, {name.replace('_', ' ')}: {typed.strip() or 'not said'}."
    return write_down(door, change_of(system.id, thing), pen, said)


def put(system: BrakeSystem, thing: Part | Line) -> BrakeSystem:
    """Return brakes with a part or line in its place."""
    return with_part(system, thing) if isinstance(thing, Part) else with_line(system, thing)


def change_of(system_id: str, thing: Part | Line) -> c.BrakePartSet | c.BrakeLineSet:
    """Return the change that writes a part or line down."""
    if isinstance(thing, Part):
        return c.BrakePartSet(system_id, thing)
    return c.BrakeLineSet(system_id, thing)


def made(what: str, make: Callable[[], T]) -> T:
    """Make something that checks itself, and say what it refuses as bad input.

    Raises
    ------
    BadInput
        With what it said.
    """
    try:
        return make()
    except ValueError as error:
        raise BadInput(what, str(error), "correct it and send it again") from error
