"""The plan's road in the words and types that pages, JSON and pictures show."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from bareshell.model import Build
from bareshell.model.standing import proof_standings
from bareshell.plan.bound import gap
from bareshell.plan.changed import held_by
from bareshell.plan.forecast import Quantile
from bareshell.plan.lateness import late_by
from bareshell.plan.problem import PlanProblem
from bareshell.plan.road import Road
from bareshell.plan.road import RoadSession as Planned
from bareshell.whole.forecast_answer import paces_of_build, score_lines
from bareshell.whole.garage_time import monday_of, zone_of
from bareshell.whole.gates_ahead import THROUGH, own_jobs
from bareshell.whole.issued import issued_lines
from bareshell.whole.last_days import NINE_IN_TEN, SHARES, last_day
from bareshell.whole.moved import changed_since
from bareshell.whole.plan_problem import PlanQuestion
from bareshell.whole.road_idle import idle_words
from bareshell.whole.road_parts import (
    Bind,
    OrderBy,
    OrderDay,
    RoadArrival,
    RoadGate,
    RoadJob,
    RoadOverview,
    RoadSession,
    RoadStance,
)
from bareshell.whole.road_seasons import season_lines
from bareshell.whole.stranded import stranded_lines
from bareshell.whole.work_left import hours_left

SHARES_SHOWN = 8


def road_overview(build: Build, question: PlanQuestion, road: Road) -> RoadOverview:
    """Put the plan's road into the types of the page.

    Parameters
    ----------
    build : Build
        The build.
    question : PlanQuestion
        What was asked.
    road : Road
        What the plan answered.
    """
    problem, zone = road.problem, zone_of(build)
    asked = road.prepared.asked

    def day(minute: int) -> date:
        return problem.when(minute).astimezone(zone).date()

    def monday(minute: int) -> date:
        return monday_of(day(minute))

    spread = road.forecast if road.reaches_road else None
    rest = None if road.reaches_road else road.forecast
    changed = changed_since(build, problem, road.schedule)
    gap_days, gap = _gap(road)
    sessions = tuple(_session(build, problem, one) for one in road.sessions)
    owed = sum(not s.state.is_good for s in proof_standings(build, problem.origin).values())
    return RoadOverview(
        made_at=problem.origin,
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        p50=monday(spread.p50.minute) if spread else None,
        p80=monday(spread.p80.minute) if spread else None,
        p95=monday(spread.p95.minute) if spread else None,
        sampling_error_days=_error_days(spread.p80 if spread else None),
        futures=tuple(day(minute) for minute in spread.futures) if spread else (),
        # What cannot be planned as it stands is work left all the same.
        hours_left=hours_left(asked),
        helper_hours_left=hours_left(asked, helper=True),
        proofs_owed=owed,
        sessions=sessions,
        arrivals=_arrivals(build, problem),
        order_by=_order_by(build, road),
        gates=_gates(build, sessions),
        binds=tuple(
            Bind(one.kind, round(one.share, 3), one.title) for one in road.binds[:SHARES_SHOWN]
        ),
        away_weeks=_away(build, problem.origin, sessions),
        support_changes=sum(1 for b in road.schedule.blocks if b.kind == "change"),
        promise=_promise(road),
        stranded=stranded_lines(road.snags, {job.id: job.title for job in asked.jobs}),
        assumptions=question.assumptions,
        engine=road.engine,
        samples=road.samples,
        seed=road.seed,
        p50_error_days=_error_days(spread.p50 if spread else None),
        p95_error_days=_error_days(spread.p95 if spread else None),
        paces=paces_of_build(build),
        issued=issued_lines(build, problem.origin),
        scores=score_lines(build, problem.origin),
        gap_days=gap_days,
        gap=gap,
        seasonal=season_lines(build, road),
        changed=changed.what if changed else "",
        because=changed.why if changed else "",
        rest_p50=monday(rest.p50.minute) if rest else None,
        rest_p80=monday(rest.p80.minute) if rest else None,
        idle=idle_words(sessions),
    )


def _promise(road: Road) -> str:
    """The bound in words; of work that cannot be planned it promises nothing."""
    return road.bound.sentence if road.problem.jobs or not road.prepared.asked.jobs else ""


def _error_days(quantile: Quantile | None) -> float:
    return round(quantile.standard_error_minutes / 1440, 1) if quantile else 0.0


def _session(build: Build, problem: PlanProblem, planned: Planned) -> RoadSession:
    zone = zone_of(build)
    titles = {job.id: job for job in problem.jobs}
    jobs = tuple(
        RoadJob(
            block.job_id or "",
            titles[block.job_id or ""].title,
            titles[block.job_id or ""].system,
            problem.when(block.start_minute).astimezone(zone),
            block.minutes,
            block.people,
            block.finishes,
            block.by_helper,
            *(held_by(problem, block) if block.cause else ("", "")),
        )
        for block in planned.blocks
        if block.kind == "work"
    )
    # Of a session that is on, what is past is not ahead.
    start = max(0, planned.slot.start_minute)
    return RoadSession(
        number=planned.index + 1,
        starts_at=problem.when(start).astimezone(zone),
        minutes=planned.slot.end_minute - start,
        people=planned.slot.people,
        temperature_c=planned.slot.temperature_c,
        kind=planned.slot.kind,
        jobs=jobs,
        stances=_stances(build, planned),
        moved=tuple(
            f"move the car to {_support_title(build, block.support_after)}, {block.minutes} min"
            for block in planned.blocks
            if block.kind == "change"
        ),
        helper_minutes=sum(b.minutes for b in planned.blocks if b.people > 1 or b.by_helper),
    )


def _stances(build: Build, planned: Planned) -> tuple[RoadStance, ...]:
    """Tell how the car stands through a session; a move counts for where it leads."""
    now, end = max(0, planned.slot.start_minute), planned.slot.end_minute
    spans: list[tuple[str, int]] = [(planned.support_before, now)]
    spans += [(b.support_after, b.start_minute) for b in planned.blocks if b.kind == "change"]
    ends = [start for _, start in spans[1:]] + [end]
    return tuple(
        RoadStance(
            support,
            _support_title(build, support),
            str(build.supports[support].kind) if support in build.supports else "",
            max(0, until - start),
        )
        for (support, start), until in zip(spans, ends, strict=True)
        if until > start
    )


def _support_title(build: Build, support: str) -> str:
    return build.supports[support].title if support in build.supports else support


def _arrivals(build: Build, problem: PlanProblem) -> tuple[RoadArrival, ...]:
    """List what is due, with the day by which nine in ten such parts are here."""
    zone = zone_of(build)
    found = []
    for arrival in problem.arrivals:
        if not arrival.known or arrival.expected_minute is None:
            continue
        due = problem.when(arrival.expected_minute).astimezone(zone).date()
        slack = late_by(arrival.belief, NINE_IN_TEN) if arrival.belief else 0.0
        need = build.needs.get(arrival.id)
        job = build.jobs.get(need.job) if need else None
        found.append(
            RoadArrival(
                arrival.id,
                arrival.title,
                job.job.title if job else "",
                due,
                due + timedelta(days=round(slack)) if slack else None,
            )
        )
    return tuple(sorted(found, key=lambda one: one.due or date.max))


def _order_by(build: Build, road: Road) -> tuple[OrderBy, ...]:
    """Tell the last days, by the same reckoning as the order list of the parts desk."""
    zone, problem = zone_of(build), road.problem
    beliefs = {arrival.id: arrival.belief for arrival in problem.arrivals}
    found = []
    for one in road.order_by:
        belief = beliefs[one.arrival_id]
        if one.order_by_minute is None or belief is None:
            continue
        needed = problem.when(one.wanted_minute).astimezone(zone).date()
        days = tuple(OrderDay(share, last_day(needed, belief, share)) for share in SHARES)
        usual, now = last_day(needed, belief, NINE_IN_TEN), problem.when(0).astimezone(zone).date()
        order = "now" if usual <= now else f"by {usual.day} {usual:%B}"
        words = f"{one.title}: order it {order}; it is wanted on {needed.day} {needed:%B %Y}."
        found.append(OrderBy(one.arrival_id, one.title, max(now, usual), needed, words, days))
    return tuple(sorted(found, key=lambda one: (one.days[1].day, one.need)))


def _gap(road: Road) -> tuple[int | None, str]:
    """Say how far the plan is from the best order there can be."""
    planned = road.schedule.finish_minute
    found = None
    if planned is not None and road.reaches_road:
        found = gap(road.problem, road.bound, planned)
    return (None, "") if found is None else (max(0, round(found.days)), found.sentence)


def _gates(build: Build, sessions: tuple[RoadSession, ...]) -> tuple[RoadGate, ...]:
    """Say on which day the plan lets the car through each gate."""
    done = {job.id: job.starts_at for s in sessions for job in s.jobs if job.finishes}
    found = []
    for key, record in build.gates.items():
        by_name = f"{THROUGH}{key}"
        through = (by_name,) if by_name in done else own_jobs(build, key)
        if record.passed is None and through and all(job in done for job in through):
            day = max(done[job] for job in through).date()
            found.append(RoadGate(key, record.gate.title, day))
    return tuple(sorted(found, key=lambda one: one.day))


def _away(build: Build, now: datetime, sessions: tuple[RoadSession, ...]) -> tuple[date, ...]:
    """List the Mondays of weeks without any session, until the last one planned."""
    if not sessions:
        return ()
    used = {s.starts_at.date() - timedelta(days=s.starts_at.weekday()) for s in sessions}
    today = now.astimezone(zone_of(build)).date()
    week = today - timedelta(days=today.weekday())
    weeks = []
    while week < max(used):
        if week not in used and week > today:
            weeks.append(week)
        week += timedelta(days=7)
    return tuple(weeks)
