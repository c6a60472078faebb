"""How far the brakes' answers can be trusted: of a build's brakes, or of a brake file alone.

It takes a second or so, so that whoever has a page to show asks for it beside the page.
"""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from bareshell.app.brake_files import open_brake_file
from bareshell.app.brakes_found import system_of
from bareshell.app.brakes_reading import file_head, head_of, kept, picked
from bareshell.app.door import Door
from bareshell.brakes.yardstick import Yardstick
from bareshell.whole.brake_trust import TrustAsked, TrustView, trust_view


def trust(
    door: Door,
    system_id: str = "",
    asked: TrustAsked = TrustAsked(),  # noqa: B008
) -> TrustView:
    """Say in how many combinations each yardstick of a build is met, and what to measure first.

    Raises
    ------
    NotFound
        When the build describes no brakes, or not those named.
    """
    build = door.build()
    system = system_of(build, system_id)
    return kept(
        door,
        ("trust", system.id, asked),
        lambda _: trust_view(system, head_of(build, door.now()), asked, picked(build)),
    )


def trust_of_file(
    path: Path,
    made_at: datetime,
    asked: TrustAsked = TrustAsked(),  # noqa: B008
    yardsticks: tuple[Yardstick, ...] | None = None,
) -> TrustView:
    """Do the same for the brakes of a brake file.

    Raises
    ------
    NotFound, BadInput
        When there is no such file, or it cannot be read.
    """
    system = open_brake_file(path).system
    return trust_view(system, file_head(system, made_at), asked, yardsticks)
