"""Whole brake systems of an invented car to begin from: change what differs on yours.

A starter gives the layout: which parts there are, how they are joined, where they usually stand
and which way the pipes usually run. It leaves out what only the car can tell - bores, threads,
weights - and that is asked for. Everything in one is `common practice, no source`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal

from bareshell.brakes.layouts import (
    balance_bar,
    diagonal,
    front_rear,
    remote_servo,
    single_line,
    two_into_one,
)
from bareshell.brakes.sketch import MARK, TRACK_M, WHEELBASE_M, Sketch, Threads
from bareshell.errors import NotFound
from bareshell.model.brake import BrakeSystem, Role

__all__ = ["STARTERS", "Starter", "starter"]


@dataclass(frozen=True, slots=True)
class Starter:
    """A layout that a description of brakes can begin from.

    Parameters
    ----------
    name : str
        What it is called, everywhere.
    words : str
        What is on such a car, in a sentence.
    draw : callable
        Draws it on a sketch.
    """

    name: str
    words: str
    draw: Callable[[Sketch], None]


_ALL = (
    Starter(
        "single line",
        "One cylinder and one circuit for all four wheels, drums all round, no servo.",
        single_line,
    ),
    Starter(
        "front-rear tandem",
        "A tandem cylinder with a servo: one circuit for the front discs, one for the rear "
        "drums, with a warning shuttle between them and a limiting valve for the rear.",
        front_rear,
    ),
    Starter(
        "diagonal tandem",
        "A tandem cylinder with a servo: each circuit brakes one front wheel and the rear wheel "
        "across from it, with a proportioning valve for each rear wheel.",
        diagonal,
    ),
    Starter(
        "two lines into one caliper",
        "A tandem cylinder with a servo and four-piston front calipers: one circuit works one "
        "pair of pistons in each, the other circuit works the other pair and the rear drums.",
        two_into_one,
    ),
    Starter(
        "remote servo",
        "One cylinder under the pedal and one circuit, with a servo in the line that raises its "
        "pressure; discs in front, drums behind.",
        remote_servo,
    ),
    Starter(
        "twin cylinders",
        "Two single cylinders behind a balance bar: one brakes the front discs, one the rear "
        "drums; no servo.",
        balance_bar,
    ),
)

STARTERS: dict[str, Starter] = {each.name: each for each in _ALL}
"""Every starter by its name, in the order they are offered."""


def starter(
    name: str,
    *,
    system_id: str = "as-built",
    title: str = "As it is on the car",
    role: Role = Role.AS_BUILT,
    driver_on: Literal["right", "left"] = "right",
    wheelbase_m: float = WHEELBASE_M,
    track_m: float = TRACK_M,
    threads: Threads = "",
) -> BrakeSystem:
    """Draw a starter for a car.

    Parameters
    ----------
    name : str
        One of `STARTERS`.
    system_id, title, role : str, str, Role
        What the system is to be called and to stand for.
    driver_on : {"right", "left"}
        The side of the pedals.
    wheelbase_m, track_m : float
        The car that places and routes are stretched to. [m]
    threads : {"", "inch", "metric"}
        The family of every joint, where it is known; else every thread is asked for.

    Returns
    -------
    BrakeSystem
        Whole in its layout; its figures are to be asked for.

    Raises
    ------
    NotFound
        When there is no starter of that name.

    Examples
    --------
    >>> drawn = starter("single line")
    >>> len(drawn.lines), drawn.part("master").choices["form"]
    (12, 'single')
    >>> starter("single lines")
    Traceback (most recent call last):
    ...
    bareshell.errors.NotFound: there is no starter 'single lines'. Was 'single line' meant? ...
    """
    found = STARTERS.get(name)
    if found is None:
        near = get_close_matches(name, STARTERS, n=1)
        meant = f"was '{near[0]}' meant? " if near else ""
        raise NotFound(f"there is no starter '{name}'", f"{meant}There are {', '.join(STARTERS)}")
    sketch = Sketch(wheelbase_m, track_m, driver_on, threads)
    found.draw(sketch)
    return BrakeSystem(
        system_id,
        title,
        role,
        parts=tuple(sketch.parts),
        lines=tuple(sketch.lines),
        mark=MARK,
        note=f"Begun from the starter '{name}'.",
    )
