"""Parts that jobs wait for: what is coming and when, what is not here, what nobody recorded."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta
from functools import cache

from bareshell.model import Build
from bareshell.model.part import GoodsIn, NeededTo, NeedState, OrderLine, OrderRecord, SourceClass
from bareshell.model.standing import NeedStanding, need_standings
from bareshell.plan.lateness import (
    OrderOutcome,
    SourceBelief,
    SourcePrior,
    learned,
    prior_of,
)
from bareshell.plan.problem import Arrival
from bareshell.whole.last_days import Sources

PRIORS = {
    SourceClass.GENERAL: SourcePrior(0.2, 4.0, 0.06, 7.0),
    SourceClass.SPECIALIST: SourcePrior(0.3, 7.0, 0.05, 14.0),
    SourceClass.CLUB: SourcePrior(0.4, 14.0, 0.12, 21.0),
    SourceClass.REMADE: SourcePrior(0.5, 21.0, 0.12, 42.0),
    SourceClass.EXCHANGE: SourcePrior(0.3, 7.0, 0.08, 14.0),
    SourceClass.SERVICE: SourcePrior(0.4, 10.0, 0.08, 21.0),
    SourceClass.OWN: SourcePrior(0.3, 7.0, 0.05, 14.0),
}
"""Share of orders that come late, how late, share of deliveries that cannot be used, and how long
an order takes, in days, by where it comes from (common practice, no source; the owner's own
record is added to it and soon outweighs it)."""

LEAD_DAYS_UNORDERED = 14
"""How long something that is not here and not ordered takes from ordering, before the owner's
own orders tell (common practice, no source)."""

Believed = Callable[[str, str], SourceBelief]
"""From a class of sources and a supplier to what is believed of it."""


def outcomes_of(build: Build, now: datetime) -> tuple[OrderOutcome, ...]:
    """Read off every order how it went: in time or late, right or wrong, how long it took.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware; an order that should be here by now and is not is late so far.
    """
    today = now.astimezone(UTC).date()
    return tuple(outcome_of(record, today) for record in build.orders.values())


def believed_of(build: Build, now: datetime) -> Believed:
    """Return what is believed of each source of parts, worked out when first asked for."""
    outcomes = outcomes_of(build, now)
    priors = {str(source): prior for source, prior in PRIORS.items()}
    anywhere = prior_of("", priors)
    priors[""] = SourcePrior(
        anywhere.late_share,
        anywhere.late_mean_days,
        anywhere.wrong_share,
        float(LEAD_DAYS_UNORDERED),
    )

    @cache
    def believed(source: str, supplier: str) -> SourceBelief:
        return learned(outcomes, source, supplier, priors[source])

    return believed


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
    believed, sources = believed_of(build, now), Sources(build)
    to_start: dict[str, tuple[str, ...]] = {}
    to_finish: dict[str, tuple[str, ...]] = {}
    for key, standing in need_standings(build).items():
        need = build.needs[key]
        job = build.jobs.get(need.job)
        if job is None or not job.state.is_open:
            continue
        if standing.state in (NeedState.HERE, NeedState.USED):
            continue
        arrivals.append(_arrival(build, key, standing, now, believed, sources))
        table = to_start if need.needed_to is NeededTo.START else to_finish
        table[need.job] = (*table.get(need.job, ()), key)
    return tuple(arrivals), to_start, to_finish


def outcome_of(record: OrderRecord, today: date) -> OrderOutcome:
    """Read off one order how it went, as far as it has gone by a day."""
    line = record.line
    came = record.deliveries[0].at.astimezone(UTC).date() if record.deliveries else None
    promised = record.promised_on or line.expected_on
    late = overdue = None
    if promised is not None and not record.cancelled:
        if came is not None:
            late = float(max(0, (came - promised).days))
        else:
            overdue = float(max(0, (today - promised).days))
    lead = None
    if came is not None and line.ordered_on is not None:
        lead = float(max(0, (came - line.ordered_on).days))
    return OrderOutcome(
        str(line.source),
        line.supplier.strip(),
        late,
        overdue or 0.0,
        len(record.deliveries),
        sum(d.outcome in (GoodsIn.WRONG, GoodsIn.DAMAGED) for d in record.deliveries),
        lead,
    )


def _arrival(
    build: Build,
    key: str,
    standing: NeedStanding,
    now: datetime,
    believed: Believed,
    sources: Sources,
) -> Arrival:
    title = build.needs[key].title
    if standing.state is NeedState.NOT_KNOWN:
        return Arrival(key, title, known=False)
    missing = build.needs[key].quantity - standing.here
    if standing.coming >= missing:
        lines = [build.orders[o].line for o in standing.orders]
        belief = max((_of(believed, line) for line in lines), key=lambda b: b.delay.mean_days)
        dates = [line.expected_on for line in lines]
        known = [day for day in dates if day is not None]
        if len(known) == len(dates) and all(build.orders[o].is_due for o in standing.orders):
            return _expected(key, title, belief, expected=_minute(max(known), now))
        # Somebody must ask: planned as if a new one were ordered today.
        return _expected(key, title, belief)
    return _expected(key, title, believed(*sources.of(build.needs[key])))


def _of(believed: Believed, line: OrderLine) -> SourceBelief:
    return believed(str(line.source), line.supplier.strip())


def _expected(
    key: str, title: str, belief: SourceBelief, *, expected: int | None = None
) -> Arrival:
    lead = None if expected is not None else round(belief.lead_days * 24 * 60)
    return Arrival(
        key,
        title,
        expected,
        lead,
        round(belief.late.mean, 4),
        round(belief.delay.mean_days, 3),
        belief=belief,
    )


def _minute(day: date, now: datetime) -> int:
    """A parcel that is due on a day can be used from that day's late afternoon on."""
    moment = datetime.combine(day, time(17), UTC)
    return round((moment - now) / timedelta(minutes=1))
