"""``bareshell brakes heat``: how hot brakes and fluid get, and where the fluid boils."""

from __future__ import annotations

from pathlib import Path

import click

from bareshell.cli.brakes_asked import (
    LOADS,
    answered,
    file_argument,
    load_option,
    system_option,
)
from bareshell.cli.common import build_option, json_option, show


@click.command("heat")
@file_argument
@build_option
@system_option
@click.option(
    "--from", "begin", metavar="SPEED", default="100 km/h", show_default=True, help="One stop from."
)
@click.option("--down", metavar="SPEED", default="50 km/h", show_default=True, help="A descent at.")
@click.option("--slope", type=float, default=8.0, show_default=True, help="Its slope, per cent.")
@click.option(
    "--length", type=float, default=6.0, show_default=True, help="Its length, kilometres."
)
@click.option("--stand", type=float, default=30.0, show_default=True, help="After it, minutes.")
@click.option("--air", metavar="TEMPERATURE", default="20 C", show_default=True, help="The air.")
@load_option
@json_option
def heat(
    file: Path | None,
    folder: Path | None,
    system_id: str,
    begin: str,
    down: str,
    slope: float,
    length: float,
    stand: float,
    air: str,
    load: str,
    *,
    as_json: bool,
) -> None:
    """Say how hot brakes and fluid get: a stop, a fade series, a descent, standing after each."""
    from bareshell.app import brakes_heat
    from bareshell.cli.brakes_heat_text import heat_text
    from bareshell.units import parse_speed, parse_temperature_c
    from bareshell.whole.brake_heat import HeatAsked

    asked = HeatAsked(
        speed_m_s=parse_speed(begin, "from"),
        down_speed_m_s=parse_speed(down, "down"),
        slope=slope / 100.0,
        down_length_m=length * 1000.0,
        stands_s=stand * 60.0,
        ambient_c=parse_temperature_c(air, "air"),
        load=LOADS[load],
    )
    found = answered(
        folder,
        file,
        lambda path, now: brakes_heat.heat_of_file(path, now, asked),
        lambda door: brakes_heat.heat(door, system_id, asked),
    )
    show(found, as_json=as_json, text=lambda: heat_text(found))
