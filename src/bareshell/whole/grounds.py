"""What the forecast rests on: every number opened down to what was measured or assumed."""

from __future__ import annotations

from datetime import datetime

from bareshell.model import Build
from bareshell.plan.attendance import LOST_SESSION, LOST_WEEK, NO_SHOW, Attendance, attendance
from bareshell.plan.forecast import Forecast, Quantile
from bareshell.plan.lateness import Share, SourceBelief
from bareshell.plan.pace_model import Finished, PaceBelief, SystemPace, learn_pace
from bareshell.plan.road import Road
from bareshell.plan.sessions import WEEK_MINUTES
from bareshell.whole.arrivals import LEAD_DAYS_UNORDERED
from bareshell.whole.attended import attended
from bareshell.whole.forecast_parts import (
    ASSUMED,
    MEASURED,
    RECKONED,
    Grounds,
    GroundsOverview,
)
from bareshell.whole.garage_time import monday_of, zone_of
from bareshell.whole.grounds_ahead import (
    bound_grounds,
    hold_grounds,
    order_grounds,
    together_grounds,
    work_grounds,
)
from bareshell.whole.pace import finished_jobs
from bareshell.whole.plan_problem import PlanQuestion

MOST_JOBS = 8
"""So many finished jobs of a system are shown one by one: those that are farthest off."""


def grounds_overview(build: Build, question: PlanQuestion, road: Road) -> GroundsOverview:
    """Open the forecast down to what it rests on.

    Parameters
    ----------
    build : Build
        The build.
    question : PlanQuestion
        What was asked.
    road : Road
        What the plan answered.
    """
    now = road.problem.origin
    spread = road.forecast if road.reaches_road else None
    beneath = (
        work_grounds(build, road),
        pace_grounds(build),
        session_grounds(build, road, now),
        part_grounds(road),
    )
    dates = _dates(build, road, spread, beneath) if spread else ()
    ahead = (
        bound_grounds(build, road),
        hold_grounds(road),
        together_grounds(road),
        order_grounds(build, road),
    )
    return GroundsOverview(
        made_at=now,
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        grounds=(*dates, *beneath, *(one for one in ahead if one is not None)),
        assumptions=question.assumptions,
    )


def _dates(
    build: Build, road: Road, spread: Forecast, beneath: tuple[Grounds, ...]
) -> tuple[Grounds, ...]:
    zone = zone_of(build)
    names = (
        ("p50", "half of futures on the road by the week of", spread.p50),
        ("p80", "eight of ten futures on the road by the week of", spread.p80),
        ("p95", "19 of 20 futures on the road by the week of", spread.p95),
    )
    walk = "compiled walk" if road.engine == "compiled" else "plain walk, without a compiler"

    def one(key: str, name: str, quantile: Quantile) -> Grounds:
        day = monday_of(road.problem.when(quantile.minute).astimezone(zone).date())
        error = round(quantile.standard_error_minutes / 1440, 1)
        drawn = Grounds(
            "futures drawn",
            spread.samples,
            "",
            f"seed {road.seed}, {walk}; the same question gets the same answer",
            RECKONED,
        )
        off = Grounds(
            "standard error for their number",
            error,
            "days",
            "the binomial spread of a quantile of so many futures",
            RECKONED,
        )
        rests = "the futures in order; " + ", ".join(ground.name for ground in beneath)
        return Grounds(name, day, "day", rests, RECKONED, (drawn, off), key)

    return tuple(one(*named) for named in names)


# --- hours -----------------------------------------------------------------------------------


def pace_grounds(build: Build) -> Grounds:
    """Open the pace: the common one, each system, and the finished jobs farthest off."""
    finished = finished_jobs(build)
    belief = learn_pace(finished)
    before = learn_pace(()).common
    prior = Grounds(
        "before any job was finished",
        before.factor,
        "times",
        f"the estimates themselves, {before.low:.1f} to {before.high:.1f} (our own choice)",
        ASSUMED,
    )
    systems = tuple(
        _system_grounds(one, [job for job in finished if job.system == one.system])
        for one in sorted(belief.systems, key=lambda one: (-one.jobs, one.system))
    )
    return Grounds(
        "your pace",
        round(belief.common.factor, 2),
        "times",
        f"{_jobs(belief.jobs)} of hours against estimates, drawn towards 1 the more the fewer "
        "there are (normal and inverse gamma, conjugate)",
        MEASURED if belief.jobs else ASSUMED,
        (prior, *systems, _wider(belief)),
        "pace",
    )


def _system_grounds(one: SystemPace, jobs: list[Finished]) -> Grounds:
    far = sorted(jobs, key=lambda job: -abs(job.ratio))[:MOST_JOBS]
    return Grounds(
        f"pace on {one.system}",
        round(one.factor, 2),
        "times",
        f"{_jobs(one.jobs)}, eight in ten between {one.low:.2f} and {one.high:.2f}; drawn towards "
        f"the common pace by {one.common_share:.0%}",
        MEASURED,
        tuple(
            Grounds(
                job.title,
                round(job.taken_minutes / job.likely_minutes, 2),
                "times",
                f"{job.taken_minutes / 60:.1f} h told, {job.likely_minutes / 60:.1f} h estimated",
                MEASURED,
            )
            for job in far
        ),
        f"pace-{one.system.replace(' ', '-')}",
    )


def _wider(belief: PaceBelief) -> Grounds:
    return Grounds(
        "spread of hours",
        round(belief.wider, 2),
        "times",
        "how much wider hours scatter than the three hours of each estimate say",
        MEASURED if belief.jobs else ASSUMED,
    )


def _jobs(count: int) -> str:
    return "one finished job" if count == 1 else f"{count} finished jobs"


# --- sessions --------------------------------------------------------------------------------


def session_grounds(build: Build, road: Road, now: datetime) -> Grounds:
    """Open the garage time: what is usual, what is lost of it, and whether the helper comes."""
    kept = attendance(attended(build, now))
    problem = road.problem
    source = problem.sessions
    weeks = source.template_minutes / WEEK_MINUTES if source.template else 0.0
    taken = problem.set_up_minutes + problem.clear_up_minutes
    hours = sum(max(0, slot.minutes - taken) for slot in source.template) / 60
    a_week = round(hours / weeks, 1) if weeks else 0.0
    return Grounds(
        "usual garage time",
        a_week,
        "h a week",
        f"your session patterns, less {taken} min a session for setting up and clearing up",
        MEASURED if build.patterns else ASSUMED,
        _attendance(kept),
        "sessions",
    )


def _attendance(kept: Attendance) -> tuple[Grounds, ...]:
    a = kept.attended
    return (
        _lost("weeks lost whole", kept.lost_week, LOST_WEEK, a.weeks_lost, a.weeks),
        _lost("sessions lost", kept.lost_session, LOST_SESSION, a.sessions_lost, a.sessions),
        _lost("helper stayed away", kept.no_show, NO_SHOW, a.no_shows, a.helped),
    )


def _lost(name: str, share: Share, before: Share, lost: int, of: int) -> Grounds:
    weight = before.yes + before.no
    return Grounds(
        name,
        round(100 * share.mean, 1),
        "in 100",
        f"{lost} of {of} in the record, and what was said beforehand as {weight:.0f} more "
        "(beta and binomial)",
        MEASURED if of > weight else ASSUMED,
        (
            Grounds(
                "said beforehand",
                round(100 * before.mean, 1),
                "in 100",
                "common practice, no source",
                ASSUMED,
            ),
        ),
    )


# --- parts -----------------------------------------------------------------------------------


def part_grounds(road: Road) -> Grounds:
    """Open the parts: what is believed of each source, from the orders there were."""
    waiting = [one for one in road.problem.arrivals if one.known]
    beliefs: dict[str, SourceBelief] = {}
    counts: dict[str, int] = {}
    for one in waiting:
        if one.belief is not None:
            beliefs.setdefault(one.belief.name, one.belief)
            counts[one.belief.name] = counts.get(one.belief.name, 0) + 1
    return Grounds(
        "parts waited for",
        len(waiting),
        "",
        "needs of open jobs that are not here, by what is believed of where they come from",
        RECKONED,
        tuple(_source(belief, counts[name]) for name, belief in beliefs.items()),
        "parts",
    )


def _source(belief: SourceBelief, parts: int) -> Grounds:
    name = belief.name or "not ordered yet"
    of = "order" if belief.orders == 1 else "orders"
    late = (
        f"{belief.came_late} of {belief.orders} {of} late; {belief.came_wrong} came wrong; "
        "a supplier with few orders is taken to be like others of its class"
    )
    trust = MEASURED if belief.orders >= 4 else ASSUMED
    return Grounds(
        f"{name}, {parts} {'part' if parts == 1 else 'parts'}",
        round(100 * belief.late.mean, 1),
        "in 100 late",
        late,
        trust,
        (
            Grounds(
                "delay of the late ones",
                round(belief.delay.mean_days, 1),
                "days",
                "mean of those that came and of those still out (gamma and exponential)",
                trust,
            ),
            Grounds(
                "wrong or damaged",
                round(100 * belief.wrong.mean, 1),
                "in 100",
                "deliveries that could not be used (beta and binomial)",
                trust,
            ),
            Grounds(
                "from ordering to the door",
                round(belief.lead_days, 1),
                "days",
                f"mean of your orders, from {LEAD_DAYS_UNORDERED} days or the class's own before "
                "there were any",
                trust,
            ),
        ),
    )
