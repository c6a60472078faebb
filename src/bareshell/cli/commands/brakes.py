"""``bareshell brakes``: the brakes of a build, or of one brake file, from every side."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.brakes_asked import (
    LOADS,
    answered,
    file_argument,
    force_option,
    load_option,
    road_option,
    system_option,
)
from bareshell.cli.commands.brakes_heat import heat
from bareshell.cli.commands.brakes_trust import trust
from bareshell.cli.commands.brakes_workshop import COMMANDS
from bareshell.cli.common import build_option, json_option, show

if TYPE_CHECKING:
    from bareshell.whole.brake_check import Asked


@click.group("brakes")
def brakes_command() -> None:
    """Ask the brakes: what a push does, what fails, what to cut, how to bleed.

    What answers takes a FILE.toml, a brake file that stands alone, or asks the build. These are
    calculations on what was entered; they find mistakes early and prove nothing of the car.
    """


@brakes_command.command("check")
@file_argument
@build_option
@system_option
@force_option
@load_option
@road_option
@click.option("--failure", default="", help="With one failure: an id from 'brakes failures'.")
@json_option
def check(
    file: Path | None,
    folder: Path | None,
    system_id: str,
    force: str,
    load: str,
    road: float,
    failure: str,
    *,
    as_json: bool,
) -> None:
    """Check the brakes: push, pedal travel, which axle first, the worst failure, yardsticks."""
    from bareshell.app import brakes_reading
    from bareshell.cli.brakes_text import check_text

    asked = _asked(force, load, road, failure)
    found = answered(
        folder,
        file,
        lambda path, now: brakes_reading.check_file(path, now, asked),
        lambda door: brakes_reading.check(door, system_id, asked),
    )
    show(found, as_json=as_json, text=lambda: check_text(found))


@brakes_command.command("failures")
@file_argument
@build_option
@system_option
@force_option
@load_option
@click.option("--two-at-once", is_flag=True, help="Each two things together.")
@json_option
def failures(
    file: Path | None,
    folder: Path | None,
    system_id: str,
    force: str,
    load: str,
    *,
    two_at_once: bool,
    as_json: bool,
) -> None:
    """List every single failure, or every two at once: what is left, the pedal, the pull."""
    from bareshell.app import brakes_reading
    from bareshell.cli.brakes_text import failures_text

    asked = _asked(force, load, 0.8, "", two_at_once=two_at_once)
    found = answered(
        folder,
        file,
        lambda path, now: brakes_reading.check_file(path, now, asked),
        lambda door: brakes_reading.check(door, system_id, asked),
    )
    show(found, as_json=as_json, text=lambda: failures_text(found))


@brakes_command.command("compare")
@click.argument("files", metavar="[FILE.toml OTHER.toml]", nargs=-1, type=Path)
@build_option
@system_option
@click.option("--with", "other_id", default="", metavar="ID", help="Beside which; the standard.")
@json_option
def compare(
    files: tuple[Path, ...], folder: Path | None, system_id: str, other_id: str, *, as_json: bool
) -> None:
    """Put brakes beside others: those as built beside the standard ones, or two files."""
    from bareshell.app import brakes_reading
    from bareshell.cli.brakes_text import compare_text

    if len(files) not in (0, 2):
        raise click.UsageError("Name two brake files to compare, or none to ask the build.")
    found = answered(
        folder,
        files[0] if files else None,
        lambda path, now: brakes_reading.comparison_of_files(path, files[1], now),
        lambda door: brakes_reading.comparison(door, system_id, other_id),
    )
    if found is None:
        click.echo("There are no other brakes to put beside these: describe the standard ones.")
        return
    show(found, as_json=as_json, text=lambda: compare_text(found))


for _command in (*COMMANDS, heat, trust):
    brakes_command.add_command(_command)


def _asked(force: str, load: str, road: float, failure: str, *, two_at_once: bool = False) -> Asked:
    from bareshell.units import parse_force
    from bareshell.whole.brake_check import Asked

    return Asked(parse_force(force, "force"), LOADS[load], road, failure, two_at_once)
