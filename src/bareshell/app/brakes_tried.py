"""What was read off the brakes of a build, worked out."""

from __future__ import annotations

from bareshell.app.brakes_found import system_of
from bareshell.app.brakes_reading import head_of, kept, picked, readings_of
from bareshell.app.door import Door
from bareshell.whole.brake_tried import TriedView, tried_view


def tried(door: Door, system_id: str = "") -> TriedView:
    """Work out every reading of brakes: verdicts, causes, and beside the calculation.

    Raises
    ------
    NotFound
        When the build describes no brakes.
    """
    build = door.build()
    system = system_of(build, system_id)
    return kept(
        door,
        ("tried", system.id),
        lambda _: tried_view(
            system, head_of(build, door.now()), readings_of(build, system), picked(build)
        ),
    )
