"""The answers about brakes from a brake file alone, without any build."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from bareshell.app.brake_files import open_brake_file
from bareshell.app.brakes_found import thing_of
from bareshell.app.brakes_reading import file_head
from bareshell.brakes.yardstick import Yardstick
from bareshell.whole.brake_circuit import CircuitView, ThingView, circuit_view, thing_view
from bareshell.whole.brake_park import ParkAsked, ParkView, park_view
from bareshell.whole.brake_workshop import BleedView, JointsView, bleed_view, joints_view


def park(
    path: Path,
    made_at: datetime,
    asked: ParkAsked,
    yardsticks: tuple[Yardstick, ...] | None = None,
) -> ParkView:
    """Work out what the parking brake of a brake file holds.

    Raises
    ------
    NotFound, BadInput
        When there is no such file, or it cannot be read.
    """
    system = open_brake_file(path).system
    return park_view(system, file_head(system, made_at), asked, yardsticks, ())


def joints(path: Path, made_at: datetime) -> JointsView:
    """List every joint, pipe and hose of a brake file.

    Raises
    ------
    NotFound, BadInput
        When there is no such file, or it cannot be read.
    """
    system = open_brake_file(path).system
    return joints_view(system, file_head(system, made_at))


def bleed(
    path: Path, made_at: datetime, vented: Sequence[str] = (), order: Sequence[str] = ()
) -> BleedView:
    """Plan the bleeding of a brake file's brakes.

    Raises
    ------
    NotFound, BadInput
        When there is no such file, it cannot be read, or the order names what has no screw.
    """
    system = open_brake_file(path).system
    return bleed_view(system, file_head(system, made_at), (), vented, order)


def circuit(path: Path, made_at: datetime) -> CircuitView:
    """List every part and line of a brake file, and how much of each is known.

    Raises
    ------
    NotFound, BadInput
        When there is no such file, or it cannot be read.
    """
    system = open_brake_file(path).system
    return circuit_view(system, file_head(system, made_at), {})


def thing(path: Path, made_at: datetime, thing_id: str) -> ThingView:
    """Open one part or line of a brake file up.

    Raises
    ------
    NotFound, BadInput
        When there is no such file or part, or it cannot be read.
    """
    system = open_brake_file(path).system
    return thing_view(thing_of(system, thing_id), system, file_head(system, made_at))
