"""Work that waits for the season, in words."""

from __future__ import annotations

from datetime import date

from bareshell.model import Build
from bareshell.plan.road import Road
from bareshell.plan.seasons import Season, seasons
from bareshell.whole.garage_time import zone_of
from bareshell.whole.road_parts import SeasonLine

__all__ = ["season_lines"]


def season_lines(build: Build, road: Road) -> tuple[SeasonLine, ...]:
    """List the jobs that the cold keeps, until when, and when they are planned.

    Parameters
    ----------
    build : Build
        For the owner's days.
    road : Road
        What the plan answered.
    """
    zone = zone_of(build)

    def day(minute: int | None) -> date | None:
        return None if minute is None else road.problem.when(minute).astimezone(zone).date()

    return tuple(
        SeasonLine(
            one.job_id,
            one.title,
            one.least_c,
            round(one.cure_minutes / 60, 1),
            one.people,
            day(one.opens_minute),
            day(one.closes_minute),
            day(one.planned_minute),
            _words(one, day(one.opens_minute), day(one.closes_minute), day(one.planned_minute)),
        )
        for one in seasons(road.problem, road.schedule)
    )


def _words(one: Season, opens: date | None, closes: date | None, planned: date | None) -> str:
    wants = f"wants {one.least_c:g} °C or more"
    if one.cure_minutes:
        wants += f", and {one.cure_minutes / 60:g} h after it"
    if one.people > 1:
        wants += ", and two people"
    if opens is None:
        return f"{wants}; no session to come is expected to be so warm."
    warm = f"expected to be so warm from {opens.day} {opens:%B}"
    if closes is not None:
        warm += f" until {closes.day} {closes:%B}"
    said = f"; planned for {planned.day} {planned:%B %Y}" if planned else ""
    return f"{wants}; {warm}{said}."
