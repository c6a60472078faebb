"""What the brake commands are asked about: a brake file alone, or the brakes of a build."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, TypeVar

import click

from bareshell.cli.common import find_build

if TYPE_CHECKING:
    from bareshell.app.door import Door
    from bareshell.brakes.answer import Load

F = TypeVar("F", bound=Callable[..., Any])
T = TypeVar("T")

LOADS: Final[Mapping[str, Load]] = {"driver": "driver only", "laden": "laden"}


def file_argument(command: F) -> F:
    """Give a command an optional FILE.toml: then no build is needed."""
    return click.argument("file", metavar="[FILE.toml]", required=False, type=Path)(command)


def system_option(command: F) -> F:
    """Give a command ``--system``: which of the build's brakes."""
    return click.option(
        "--system",
        "system_id",
        default="",
        metavar="ID",
        help="Which of the build's brakes; those on the car when not said.",
    )(command)


def force_option(command: F) -> F:
    """Give a command ``--force``: the push of the foot."""
    return click.option(
        "--force", metavar="FORCE", default="500 N", show_default=True, help="Push of the foot."
    )(command)


def load_option(command: F) -> F:
    """Give a command ``--load``."""
    return click.option(
        "--load",
        type=click.Choice(tuple(LOADS)),
        default="laden",
        show_default=True,
        help="With the driver only, or laden.",
    )(command)


def road_option(command: F) -> F:
    """Give a command ``--road``: the adhesion of the road."""
    return click.option(
        "--road",
        type=float,
        default=0.8,
        show_default=True,
        help="Adhesion of the road: dry 0.8, wet 0.5, ice 0.1.",
    )(command)


def answered(
    folder: Path | None,
    file: Path | None,
    of_file: Callable[[Path, datetime], T],
    of_build: Callable[[Door], T],
) -> T:
    """Ask the brake file when there is one, else the build.

    Parameters
    ----------
    folder : Path or None
        The build's folder, as it was named.
    file : Path or None
        The brake file, as it was named.
    of_file, of_build : callable
        What to ask of the one or the other.
    """
    if file is not None:
        return of_file(file, datetime.now(UTC))
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        return of_build(door)
