"""How hot brakes and fluid get: asked of a build, or of a brake file alone."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from bareshell.app.brake_files import open_brake_file
from bareshell.app.brakes_found import system_of
from bareshell.app.brakes_reading import file_head, head_of, kept, picked
from bareshell.app.door import Door
from bareshell.brakes.yardstick import Yardstick
from bareshell.whole.brake_heat import HeatAsked, HeatView, heat_view


def heat(
    door: Door,
    system_id: str = "",
    asked: HeatAsked = HeatAsked(),  # noqa: B008
) -> HeatView:
    """Work out how hot the brakes and the fluid of a build get.

    Raises
    ------
    NotFound
        When the build describes no brakes.
    """
    build = door.build()
    system = system_of(build, system_id)
    now = door.now()
    # The fluid is older every day, whether anybody wrote anything or not.
    return kept(
        door,
        ("heat", system.id, now.date(), asked),
        lambda _: heat_view(system, head_of(build, now), asked, picked(build)),
    )


def heat_of_file(
    path: Path,
    made_at: datetime,
    asked: HeatAsked = HeatAsked(),  # noqa: B008
    yardsticks: tuple[Yardstick, ...] | None = None,
) -> HeatView:
    """Work out how hot the brakes of a brake file and their fluid get.

    Raises
    ------
    NotFound, BadInput
        When there is no such file, or it cannot be read.
    """
    system = open_brake_file(path).system
    return heat_view(system, file_head(system, made_at), asked, yardsticks)
