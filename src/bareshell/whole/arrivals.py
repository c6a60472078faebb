"""Parts that jobs wait for: what is coming and when, what is not here, what nobody recorded."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

from bareshell.model import Build
from bareshell.model.part import NeededTo, NeedState, SourceClass
from bareshell.model.standing import NeedStanding, need_standings
from bareshell.plan.problem import Arrival

LATE = {
    SourceClass.GENERAL: (0.2, 4.0),
    SourceClass.SPECIALIST: (0.3, 7.0),
    SourceClass.CLUB: (0.4, 14.0),
    SourceClass.REMADE: (0.5, 21.0),
    SourceClass.EXCHANGE: (0.3, 7.0),
    SourceClass.SERVICE: (0.4, 10.0),
    SourceClass.OWN: (0.3, 7.0),
}
"""Share of orders that come late, and how late on average, in days, by where they come from
(common practice, no source; the owner's own record replaces it)."""

LEAD_DAYS_UNORDERED = 14
"""How long something that is not here and not ordered takes from ordering (common practice,
no source)."""


def arrivals_of(
    build: Build, now: datetime
) -> tuple[tuple[Arrival, ...], dict[str, tuple[str, ...]], dict[str, tuple[str, ...]]]:
    """Return what open jobs wait for, and for each job what it wants to start and to finish.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware; minutes are counted from it.

    Returns
    -------
    tuple
        Arrivals; needs to start by job; needs to finish by job. A need that is here or used
        is in none of them; one that nobody recorded is there as not known and blocks nothing.
    """
    arrivals = []
    to_start: dict[str, tuple[str, ...]] = {}
    to_finish: dict[str, tuple[str, ...]] = {}
    for key, standing in need_standings(build).items():
        need = build.needs[key]
        job = build.jobs.get(need.job)
        if job is None or not job.state.is_open:
            continue
        if standing.state in (NeedState.HERE, NeedState.USED):
            continue
        arrivals.append(_arrival(build, key, standing, now))
        table = to_start if need.needed_to is NeededTo.START else to_finish
        table[need.job] = (*table.get(need.job, ()), key)
    return tuple(arrivals), to_start, to_finish


def _arrival(build: Build, key: str, standing: NeedStanding, now: datetime) -> Arrival:
    title = build.needs[key].title
    if standing.state is NeedState.NOT_KNOWN:
        return Arrival(key, title, known=False)
    missing = build.needs[key].quantity - standing.here
    if standing.coming >= missing:
        lines = [build.orders[o].line for o in standing.orders]
        share, days = LATE[max(lines, key=lambda line: LATE[line.source][1]).source]
        dates = [line.expected_on for line in lines]
        known = [day for day in dates if day is not None]
        if len(known) < len(dates) or not all(build.orders[o].is_due for o in standing.orders):
            # Somebody must ask: planned as if a new one were ordered today.
            return Arrival(
                key, title, None, LEAD_DAYS_UNORDERED * 1440, late_share=share, late_mean_days=days
            )
        return Arrival(key, title, _minute(max(known), now), None, share, days)
    return Arrival(key, title, None, LEAD_DAYS_UNORDERED * 1440)


def _minute(day: date, now: datetime) -> int:
    """A parcel that is due on a day can be used from that day's late afternoon on."""
    moment = datetime.combine(day, time(17), UTC)
    return round((moment - now) / timedelta(minutes=1))
