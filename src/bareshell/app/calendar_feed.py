"""The calendar of a build: what lies ahead, for any calendar to read."""

from __future__ import annotations

from bareshell.app.door import Door
from bareshell.report.calendar import CalendarHead, calendar_text
from bareshell.whole.days_ahead import DayAhead, days_ahead
from bareshell.whole.road_parts import RoadOverview


def ahead(door: Door, road: RoadOverview | None = None) -> tuple[DayAhead, ...]:
    """List sessions, parts that are due, holds to read and last days to order.

    Parameters
    ----------
    door : Door
        The build.
    road : RoadOverview or None
        The road as it was planned; planned anew where none is given.
    """
    if road is None:
        from bareshell.app.road import road as plan

        road = plan(door)
    return days_ahead(door.build(), road, door.now())


def calendar(door: Door, road: RoadOverview | None = None) -> bytes:
    """Write the calendar; takes as `ahead`.

    The build's first entry tells it from every other build: copies and archives of it keep that,
    so its calendar stays one calendar.
    """
    build = door.build()
    first = door.entries(limit=1)
    name = build.car.name if build.car else "bareshell"
    invented = bool(build.car and build.car.invented and "invented" not in name)
    head = CalendarHead(
        build=first[0].id if first else "",
        title=f"{name} (invented)" if invented else name,
        made_at=door.now(),
        words=(
            "The road ahead: sessions of the next twelve weeks, parts that are due, holds to read, "
            "last days to order. It changes after each entry; planning help only."
        ),
    )
    return calendar_text(head, ahead(door, road))
