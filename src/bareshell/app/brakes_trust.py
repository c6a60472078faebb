"""How far the brakes' answers can be trusted: of a build's brakes, or of a brake file alone.

It takes a second or so, so that whoever has a page to show asks for it beside the page.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from bareshell.app.brake_files import open_brake_file
from bareshell.app.brakes_found import system_of
from bareshell.app.brakes_reading import file_head, head_of, kept, picked
from bareshell.app.door import Door
from bareshell.brakes.yardsticks import chosen
from bareshell.whole.brake_trust import TrustAsked, TrustView, trust_view


def trust(
    door: Door,
    system_id: str = "",
    asked: TrustAsked = TrustAsked(),  # noqa: B008
    yardsticks: Sequence[str] = (),
) -> TrustView:
    """Say in how many combinations each yardstick of a build is met, and what to measure first.

    Parameters
    ----------
    door : Door
        The build.
    system_id : str
        Which brakes; empty for those on the car.
    asked : TrustAsked
        How many combinations, the seed, the road.
    yardsticks : sequence of str
        Ids to hold against instead of those that were picked.

    Raises
    ------
    NotFound
        When the build describes no brakes, or not those named; when there is no such yardstick.
    """
    build = door.build()
    system = system_of(build, system_id)
    chosen_now = chosen(yardsticks) if yardsticks else picked(build)
    return kept(
        door,
        ("trust", system.id, asked, tuple(yardsticks)),
        lambda _: trust_view(system, head_of(build, door.now()), asked, chosen_now),
    )


def trust_of_file(
    path: Path,
    made_at: datetime,
    asked: TrustAsked = TrustAsked(),  # noqa: B008
    yardsticks: Sequence[str] = (),
) -> TrustView:
    """Do the same for the brakes of a brake file, which picks no yardsticks by itself.

    Raises
    ------
    NotFound, BadInput
        When there is no such file or yardstick, or it cannot be read.
    """
    chosen_now = chosen(yardsticks) if yardsticks else None
    system = open_brake_file(path).system
    return trust_view(system, file_head(system, made_at), asked, chosen_now)
