"""``bareshell brakes park|joints|cut-list|bleed``: what is done with the hands."""

from __future__ import annotations

from pathlib import Path

import click

from bareshell.cli.brakes_asked import (
    LOADS,
    answered,
    file_argument,
    load_option,
    road_option,
    system_option,
)
from bareshell.cli.commands.brakes_build import COMMANDS as _OF_THE_BUILD
from bareshell.cli.commands.brakes_files import COMMANDS as _FILES
from bareshell.cli.commands.brakes_owed import COMMANDS as _OWED
from bareshell.cli.common import build_option, json_option, show


@click.command("park")
@file_argument
@build_option
@system_option
@click.option("--hand", metavar="FORCE", default="400 N", show_default=True, help="Pull.")
@click.option("--slope", type=float, default=16.0, show_default=True, help="Per cent.")
@load_option
@road_option
@json_option
def park(
    file: Path | None,
    folder: Path | None,
    system_id: str,
    hand: str,
    slope: float,
    load: str,
    road: float,
    *,
    as_json: bool,
) -> None:
    """Work out what the parking brake holds, nose up and nose down, with travel and clicks."""
    from bareshell.app import brakes_of_file, brakes_reading
    from bareshell.cli.brakes_text import park_text
    from bareshell.units import parse_force
    from bareshell.whole.brake_park import ParkAsked

    asked = ParkAsked(parse_force(hand, "hand"), slope / 100.0, road, LOADS[load])
    found = answered(
        folder,
        file,
        lambda path, now: brakes_of_file.park(path, now, asked),
        lambda door: brakes_reading.park(door, system_id, asked),
    )
    show(found, as_json=as_json, text=lambda: park_text(found))


@click.command("joints")
@file_argument
@build_option
@system_option
@json_option
def joints(file: Path | None, folder: Path | None, system_id: str, *, as_json: bool) -> None:
    """List every joint: thread, flare or seat, torque, and where both sides do not agree."""
    from bareshell.app import brakes_of_file, brakes_reading
    from bareshell.cli.brakes_text import joints_text

    found = answered(
        folder,
        file,
        brakes_of_file.joints,
        lambda door: brakes_reading.joints(door, system_id),
    )
    show(found, as_json=as_json, text=lambda: joints_text(found))


@click.command("cut-list")
@file_argument
@build_option
@system_option
@json_option
def cut_list(file: Path | None, folder: Path | None, system_id: str, *, as_json: bool) -> None:
    """Say what to cut, flare and buy: pipes with allowances, nuts, clips, hoses."""
    from bareshell.app import brakes_of_file, brakes_reading
    from bareshell.cli.brakes_text import cut_list_text

    found = answered(
        folder,
        file,
        brakes_of_file.joints,
        lambda door: brakes_reading.joints(door, system_id),
    )
    show(found, as_json=as_json, text=lambda: cut_list_text(found))


@click.command("bleed")
@file_argument
@build_option
@system_option
@click.option(
    "--vented", multiple=True, metavar="ID", help="A blank whose far end was vented; repeat it."
)
@json_option
def bleed(
    file: Path | None,
    folder: Path | None,
    system_id: str,
    vented: tuple[str, ...],
    *,
    as_json: bool,
) -> None:
    """Plan the bleeding: order, millilitres, strokes, alone or with a helper, dead legs."""
    from bareshell.app import brakes_of_file, brakes_reading
    from bareshell.cli.brakes_text import bleed_text

    found = answered(
        folder,
        file,
        lambda path, now: brakes_of_file.bleed(path, now, vented),
        lambda door: brakes_reading.bleed(door, system_id, vented),
    )
    show(found, as_json=as_json, text=lambda: bleed_text(found))


COMMANDS = (park, joints, cut_list, bleed, *_OF_THE_BUILD, *_OWED, *_FILES)
"""What `bareshell brakes` can do besides."""
