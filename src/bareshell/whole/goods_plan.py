"""What a delivery did to the plan, reckoned: tonight's jobs, last days, and the road.

The build as it stood just before the delivery was checked in and just after it are planned by the
one rule that is followed, on the same futures. Nothing of it is a guess at what the plan would say.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from bareshell.model import Build
from bareshell.model.part import GoodsIn, OrderRecord
from bareshell.plan.levers import NO_ODDS_DAYS
from bareshell.plan.side_by_side import OneSide, SideBySide
from bareshell.plan.wording import days as days_said
from bareshell.plan.wording import listed
from bareshell.whole.arrivals import believed_of
from bareshell.whole.chase import exchange_view
from bareshell.whole.garage_time import monday_of, zone_of
from bareshell.whole.last_days import NINE_IN_TEN, last_day
from bareshell.whole.wanted_days import WantedDays, wanted_in

__all__ = ["GoodsPlan", "JobNamed", "goods_plan"]


@dataclass(frozen=True, slots=True)
class JobNamed:
    """A job by its id and title."""

    id: str
    title: str


@dataclass(frozen=True, slots=True)
class GoodsPlan:
    """What one delivery did to the plan.

    Parameters
    ----------
    made_at, seq : datetime, int
        When it was checked in, and the number of that entry.
    order, title, outcome, quantity : str, int
        What came, and what it was.
    session_on : date or None
        The day of the next session then; None when there was none.
    may_begin, lost : tuple of JobNamed
        Jobs that could be taken up in it since the delivery, and that no longer could.
    job : JobNamed or None
        The job that wants it.
    wanted_before, wanted_after : date or None
        The day for which the plan wanted it, and the day for which it does now.
    outstanding : int
        How many are still to come.
    order_by : date or None
        The last day to order what is to come once more, nine in ten in time; None when it is here
        or still coming.
    p50_before, p50_after, p80_before, p80_after : date or None
        The Mondays of the weeks by which half and eight in ten futures are on the road.
    gain_days, standard_error_days : float or None
        How much nearer the road came on average, future by future, and how far that may be off;
        None when it is not reached. [days]
    word : str
        ``nearer``, ``farther``, ``no clear effect`` or ``not reached``.
    says : tuple of str
        All of it in sentences.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    order: str
    title: str
    outcome: str
    quantity: int
    session_on: date | None
    may_begin: tuple[JobNamed, ...]
    lost: tuple[JobNamed, ...]
    job: JobNamed | None
    wanted_before: date | None
    wanted_after: date | None
    outstanding: int
    order_by: date | None
    p50_before: date | None
    p50_after: date | None
    p80_before: date | None
    p80_after: date | None
    gain_days: float | None
    standard_error_days: float | None
    word: str
    says: tuple[str, ...]


def goods_plan(build: Build, order_id: str, now: datetime, both: SideBySide) -> GoodsPlan:
    """Put what a delivery did to the plan into days, jobs and sentences.

    Parameters
    ----------
    build : Build
        As it stood once the delivery was in.
    order_id : str
        The order, whose last delivery it is.
    now : datetime
        When that was; aware.
    both : SideBySide
        The plan without and with it.
    """
    record = build.orders[order_id]
    delivery = record.deliveries[-1]
    zone = zone_of(build)
    problem, slot = both.after.problem, both.session
    session_on = (
        problem.when(max(0, slot.start_minute)).astimezone(zone).date()
        if slot is not None
        else None
    )
    titles = {job.id: job.title for side in (both.before, both.after) for job in side.problem.jobs}
    gained = both.after.may_begin - both.before.may_begin
    lost = both.before.may_begin - both.after.may_begin
    need = build.needs.get(record.line.need or "")
    job = JobNamed(need.job, build.jobs[need.job].job.title) if need else None
    days = [wanted_in(build, side.problem, side.schedule) for side in (both.before, both.after)]
    key = record.line.need or ""
    was, is_now = (one.needs.get(key) for one in days)
    today = now.astimezone(zone).date()
    by = _order_by(build, record, is_now, now)
    weeks = [_weeks(build, side) for side in (both.before, both.after)]
    word, moved = _road(both, weeks)
    may_begin, cannot = _named(gained, titles), _named(lost, titles)
    says = (
        *_session(session_on, may_begin, cannot),
        *_day(job, was, is_now),
        *_again(record, by, is_now, today),
        *_old_unit(build, record, today, days[1]),
        moved,
    )
    return GoodsPlan(
        now,
        delivery.seq,
        build.car_name,
        build.invented,
        order_id,
        record.line.title,
        str(delivery.outcome),
        delivery.quantity,
        session_on,
        may_begin,
        cannot,
        job,
        was,
        is_now,
        record.outstanding,
        by,
        weeks[0][0],
        weeks[1][0],
        weeks[0][1],
        weeks[1][1],
        _rounded(both.gain_days),
        _rounded(both.standard_error_days),
        word,
        says,
    )


def _rounded(days: float | None) -> float | None:
    return None if days is None else round(days, 2)


def _named(ids: frozenset[str], titles: dict[str, str]) -> tuple[JobNamed, ...]:
    return tuple(sorted((JobNamed(key, titles[key]) for key in ids), key=lambda one: one.title))


def _order_by(build: Build, record: OrderRecord, wanted: date | None, now: datetime) -> date | None:
    """The last day to order once more what did not come as it should."""
    if wanted is None or not record.outstanding or not record.gone_wrong or record.is_due:
        return None
    belief = believed_of(build, now)(str(record.line.source), record.line.supplier.strip())
    return last_day(wanted, belief, NINE_IN_TEN)


def _weeks(build: Build, side: OneSide) -> tuple[date | None, date | None]:
    spread = side.forecast
    if spread is None:
        return None, None
    zone = zone_of(build)
    half, most = (
        monday_of(side.problem.when(one.minute).astimezone(zone).date())
        for one in (spread.p50, spread.p80)
    )
    return half, most


# --- in sentences --------------------------------------------------------------------------------


def _on(day: date) -> str:
    return f"{day:%A} {day.day} {day:%B}"


def _session(
    day: date | None, may_begin: tuple[JobNamed, ...], lost: tuple[JobNamed, ...]
) -> tuple[str, ...]:
    if day is None:
        return ("No session is set, so nothing can be begun yet.",)
    said = []
    if may_begin:
        jobs = listed((f"'{one.title}'" for one in may_begin), most=6)
        said.append(
            f"Could be begun in the next session, {_on(day)}, and could not before: {jobs}."
        )
    if lost:
        jobs = listed((f"'{one.title}'" for one in lost), most=6)
        said.append(f"Can no longer be begun in the next session, {_on(day)}: {jobs}.")
    if not said:
        said.append(f"The next session, {_on(day)}, can begin with the same jobs as before.")
    return tuple(said)


def _day(job: JobNamed | None, was: date | None, is_now: date | None) -> tuple[str, ...]:
    if job is None:
        return ("It was ordered for no job of the plan.",)
    if is_now is None:
        return (f"'{job.title}' has no day in the plan.",)
    if was is None or was == is_now:
        return (f"'{job.title}' stays planned for {_on(is_now)} {is_now.year}.",)
    days = (is_now - was).days
    way = "later" if days > 0 else "sooner"
    many = f"{abs(days)} day{'' if abs(days) == 1 else 's'}"
    return (f"'{job.title}' is now planned for {_on(is_now)} {is_now.year}, {many} {way}.",)


def _again(
    record: OrderRecord, by: date | None, wanted: date | None, today: date
) -> tuple[str, ...]:
    left, due = record.outstanding, record.line.expected_on
    if by is not None and by <= today:
        past = "today is" if by == today else f"{_on(by)} {by.year} was"
        return (f"Order it again now: {past} the last day for nine in ten in time.",)
    if by is not None:
        return (f"Last day to order it again, nine in ten in time: {_on(by)} {by.year}.",)
    outcome = record.deliveries[-1].outcome
    if left and outcome is GoodsIn.SHORT and due is not None and wanted is not None:
        slack = (wanted - due).days
        when = f"{slack} days before" if slack >= 0 else f"{-slack} days after"
        return (f"The other {left} are expected {when} the plan wants them.",)
    return ()


def _old_unit(
    build: Build, record: OrderRecord, today: date, wanted: WantedDays
) -> tuple[str, ...]:
    """Warn where the window for the old unit shuts before the plan proves the new one."""
    exchange = record.line.exchange
    if exchange is None or exchange.returned_on is not None:
        return ()
    view = exchange_view(build, record, today, wanted)
    return (f"Old unit: {view.says}",) if view.clash else ()


def _road(both: SideBySide, weeks: list[tuple[date | None, date | None]]) -> tuple[str, str]:
    """Say how the road moved, in a word and a sentence."""
    gain, error = both.gain_days, both.standard_error_days
    if gain is None or error is None:
        return "not reached", "The road is not reached as things are, so no date moved."
    (_, was), (_, is_now) = weeks
    week = ""
    if is_now is not None:
        week = f" Eight in ten futures are on the road by the week of {_on(is_now)} {is_now.year}"
        week += f"; it was {_on(was)} {was.year}." if was and was != is_now else ", as before."
    around = f"{days_said(abs(gain))}, give or take {days_said(2 * error)}"
    if abs(gain) <= max(2 * error, NO_ODDS_DAYS):
        return "no clear effect", f"No clear effect on the day on the road.{week}"
    if gain > 0:
        return "nearer", f"The road came nearer by {around}.{week}"
    return "farther", f"The road moved away by {around}.{week}"
