"""Which yardsticks there are to pick from, and which are picked."""

from __future__ import annotations

from bareshell.app.brakes_found import with_role
from bareshell.app.brakes_reading import head_of
from bareshell.app.door import Door
from bareshell.model.brake import Role
from bareshell.whole.brake_yardsticks import YardsticksView, yardsticks_view


def yardsticks(door: Door, market: str = "") -> YardsticksView:
    """List every yardstick; with a market, say which were meant for a car like this and why.

    Raises
    ------
    BadInput
        When there is no such market.
    """
    build = door.build()
    system = with_role(build, Role.AS_BUILT)
    return yardsticks_view(head_of(build, door.now()), system, build.yardsticks, market)
