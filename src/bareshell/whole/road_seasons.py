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
            wants[0],
            wants[1],
            one.people,
            day(one.opens_minute),
            day(one.closes_minute),
            day(one.planned_minute),
            _words(
                one, wants, day(one.opens_minute), day(one.closes_minute), day(one.planned_minute)
            ),
        )
        for one in seasons(road.problem, road.schedule)
        for wants in (_wants(build, one),)
    )


def _wants(build: Build, one: Season) -> tuple[float, float]:
    """How warm the job itself wants it and for how long after; the plan may be content with less.

    See `bareshell.whole.too_cold`. [degC, h]
    """
    least, cure_hours = one.least_c, one.cure_minutes / 60
    record = build.jobs.get(one.job_id)
    if record is not None:
        wait = record.job.wait
        cure = wait.lowest_temperature_c if wait else None
        least = max(least, record.job.lowest_temperature_c or least, cure or least)
        cure_hours = wait.hours if wait and cure is not None else cure_hours
    return least, round(cure_hours, 1)


def _words(
    one: Season,
    wanted: tuple[float, float],
    opens: date | None,
    closes: date | None,
    planned: date | None,
) -> str:
    least, cure_hours = wanted
    wants = f"wants {least:g} °C or more"
    if cure_hours:
        wants += f", and {cure_hours:g} h after it"
    if one.people > 1:
        wants += ", and two people"
    if (least, cure_hours) != (one.least_c, round(one.cure_minutes / 60, 1)):
        when = f" on {planned.day} {planned:%B %Y}" if planned else ""
        return f"{wants}: warmer than any session; heat the garage for it{when}."
    if opens is None:
        return f"{wants}; no session to come is expected to be so warm."
    warm = f"expected to be so warm from {opens.day} {opens:%B}"
    if closes is not None:
        warm += f" until {closes.day} {closes:%B}"
    said = f"; planned for {planned.day} {planned:%B %Y}" if planned else ""
    if planned and planned < opens:
        # A first piece of it does not have to cure.
        said = f"; begun on {planned.day} {planned:%B %Y}, finished when it is so warm"
    return f"{wants}; {warm}{said}."
