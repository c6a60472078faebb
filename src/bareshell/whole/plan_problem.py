"""From the build to what the plan is asked: open jobs, parts to come, proofs, gates, time.

What the plan needs and nobody said is assumed and said: ``PlanQuestion.assumptions``.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta

from bareshell.model import Build
from bareshell.model.job import Job, JobRecord, JobStatus
from bareshell.model.network import predecessors
from bareshell.model.position import Place, Support, SupportKind, Wheels
from bareshell.plan.attendance import attendance
from bareshell.plan.problem import (
    Change,
    Link,
    Luck,
    PlanJob,
    PlanProblem,
    Way,
)
from bareshell.trade.supports import ON_ITS_WHEELS, before_wheels
from bareshell.whole.arrivals import arrivals_of
from bareshell.whole.attended import attended
from bareshell.whole.body_now import body_now, can_be_off, necessary
from bareshell.whole.garage_time import (
    session_source,
    zone_of,
)
from bareshell.whole.gates_ahead import GatesAhead, gates_ahead
from bareshell.whole.helper_to_ask import as_if_helped
from bareshell.whole.pace import pace_belief
from bareshell.whole.proving import owed_proofs
from bareshell.whole.season import season_of
from bareshell.whole.session_ends import session_ends
from bareshell.whole.too_cold import as_if_heated


@dataclass(frozen=True, slots=True)
class PlanQuestion:
    """What the plan is asked, and what had to be assumed to ask it."""

    problem: PlanProblem
    assumptions: tuple[str, ...] = ()


def plan_question(build: Build, now: datetime) -> PlanQuestion:
    """Turn a build as it stands into the problem that the plan solves.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware; minute 0 of the plan.

    Returns
    -------
    PlanQuestion
        The problem, and in plain sentences what was assumed where nobody said.
    """
    now = now.astimezone(UTC)
    assumptions: list[str] = []
    after = predecessors(build)
    owed = owed_proofs(build, now)
    ahead = gates_ahead(build, owed, now)
    open_jobs = {k: r for k, r in build.jobs.items() if r.state.is_open}
    arrivals, to_start, to_finish = arrivals_of(build, now)
    shell_only = before_wheels(build)
    can_be = can_be_off(build)
    jobs = [
        replace(
            _plan_job(build, record, after[key], now),
            body_needs=necessary(record.job, can_be),
            supports=supports_for(build, record.job, on_wheels=key not in shell_only),
            parts_to_start=to_start.get(key, ()),
            parts_to_finish=to_finish.get(key, ()),
            proofs_before=(*owed.beneath.get(key, ()), *ahead.beneath.get(key, ())),
        )
        for key, record in open_jobs.items()
    ]
    extra_jobs = (*owed.extra_jobs, *ahead.extra_jobs)
    jobs += [_extra_job(build, extra.plan_job, extra.like) for extra in extra_jobs]
    pace = pace_belief(build)
    support = build.placement.support if build.placement else ""
    if not support and build.supports:
        support = next(iter(build.supports))
        assumptions.append(
            f"Nobody said how the car stands; taken as {build.supports[support].title}."
        )
    if not build.supports:
        assumptions.append(
            "Nobody said what the car can stand on in this garage; planned as if all of it could "
            "be reached as it stands."
        )
    assumptions += [*_in_the_way(build, can_be), *_hidden(build, ahead)]
    ends = session_ends(build)
    problem = PlanProblem(
        origin=now,
        jobs=tuple(jobs),
        sessions=session_source(build, now),
        arrivals=arrivals,
        proofs=(*owed.proofs, *ahead.proofs),
        gates=ahead.gates,
        changes=tuple(
            Change(m.from_support, m.to_support, m.minutes, m.people, m.off, m.not_off)
            for m in build.moves.values()
        ),
        support=support,
        goal=ahead.goal,
        set_up_minutes=ends.set_up_minutes,
        clear_up_minutes=ends.clear_up_minutes,
        paces=pace.paces,
        luck=pace.laid_over(attendance(attended(build, now)).laid_over(Luck())),
        time_zone=str(zone_of(build)),
        body=body_now(build),
        support_titles=tuple((key, one.title) for key, one in build.supports.items()),
    )
    problem, helped = as_if_helped(problem)
    problem, heated = as_if_heated(problem)
    return PlanQuestion(problem, (*assumptions, *helped, *heated))


def supports_for(build: Build, job: Job, *, on_wheels: bool = True) -> frozenset[str] | None:
    """Return the ids of the supports on which a job can be done; None when it is off the car.

    A wish the garage cannot meet gives way, wheels first, then level; a zone does not: then
    the name of what is missing is returned, so that the plan names it.

    Parameters
    ----------
    build : Build
        The build with its supports.
    job : Job
        The job.
    on_wheels : bool
        Whether the car has wheels to stand on by then; a bare shell has not.
    """
    if job.place in (Place.BENCH, Place.DESK):
        return None
    if not build.supports:
        # Nobody said what there is: then nothing is known to be out of reach.
        return None
    away = {Place.ROAD: SupportKind.ROAD, Place.TEST_STATION: SupportKind.TEST_STATION}
    if job.place in away:
        there = frozenset(s.id for s in build.supports.values() if s.kind is away[job.place])
        return there or frozenset({str(job.place)})
    home = [s for s in build.supports.values() if s.kind not in away.values()]
    if not on_wheels:
        home = [s for s in home if s.kind not in ON_ITS_WHEELS]
    opened = [s for s in home if job.zones <= s.opens]
    for rule in (_suits, _stands_level, _opens):
        fit = frozenset(s.id for s in opened if rule(s, job))
        if fit:
            return fit
    return frozenset({f"a support that opens {', '.join(sorted(job.zones))}"})


def _suits(support: Support, job: Job) -> bool:
    wheels = job.wheels in (Wheels.EITHER, support.wheels)
    return wheels and _stands_level(support, job)


def _stands_level(support: Support, job: Job) -> bool:
    return support.level or not job.level


def _opens(_support: Support, _job: Job) -> bool:
    return True


def _plan_job(
    build: Build,
    record: JobRecord,
    before: tuple[str, ...],
    now: datetime,
) -> PlanJob:
    job, state = record.job, record.state
    links, earliest = _links(build, before, now)
    started = state.status is JobStatus.STARTED
    ways, done = _ways(record)
    cure = job.wait if job.wait and job.wait.lowest_temperature_c is not None else None
    limits = [job.lowest_temperature_c, cure.lowest_temperature_c if cure else None]
    known = [limit for limit in limits if limit is not None]
    return PlanJob(
        id=job.id,
        title=job.title,
        system=job.system,
        ways=ways,
        after=links,
        minutes_done=done,
        started=started,
        splittable=job.splittable,
        least_piece_minutes=max(1, round(job.least_piece_hours * 60)),
        min_temperature_c=max(known) if known else None,
        cure_minutes=round(cure.hours * 60) if cure else 0,
        cure_stretches=bool(cure and cure.stretches_with_cold),
        dirty=job.dirty,
        dangerous_alone=job.dangerous_alone,
        helper_alone=job.helper_alone,
        body_begins=job.takes_off,
        body_ends=job.puts_back,
        earliest_minute=earliest,
    )


def _ways(record: JobRecord) -> tuple[tuple[Way, ...], int]:
    """Turn the ways of a job to minutes; the owner's own word on what is left comes first."""
    left = record.state.hours_left
    ways = []
    for way in record.job.ways:
        three = (
            way.hours.optimistic_hours,
            way.hours.likely_hours,
            way.hours.pessimistic_hours,
        )
        scale = 60.0
        if left and three[1] > 0:
            scale *= left / three[1]
        low, likely, high = (max(1, round(hours * scale)) for hours in three)
        ways.append(Way(way.people, low, likely, high, way.kit))
    done = 0 if left else round(record.state.hours_done * 60)
    return tuple(ways), done


def _links(build: Build, before: tuple[str, ...], now: datetime) -> tuple[tuple[Link, ...], int]:
    links = []
    earliest = 0
    for key in before:
        record = build.jobs[key]
        wait = record.job.wait
        minutes = round(wait.hours * 60) if wait else 0
        stretches = bool(wait and wait.stretches_with_cold)
        if record.state.is_open:
            links.append(Link(key, minutes, stretches))
        elif minutes and record.state.status is JobStatus.DONE and record.state.finished_at:
            if stretches:
                zone = zone_of(build)
                season = season_of(build, zone)
                minutes = season.stretched_minutes(minutes, record.state.finished_at, zone)
            ends = record.state.finished_at + timedelta(minutes=minutes)
            earliest = max(earliest, round((ends - now).total_seconds() / 60))
    return tuple(links), earliest


def _extra_job(build: Build, job: PlanJob, like: str | None) -> PlanJob:
    """Let proving stand where the work itself stood."""
    if like is None or like not in build.jobs:
        return job
    return replace(job, supports=supports_for(build, build.jobs[like].job))


def _in_the_way(build: Build, can_be: frozenset[str]) -> list[str]:
    """Say what is taken to be off in time although no job takes it off."""
    wanted: dict[str, list[str]] = {}
    for record in build.jobs.values():
        if record.state.is_open and record.job.off_is_necessary:
            for state in sorted(record.job.off - can_be):
                wanted.setdefault(state, []).append(record.job.title)
    return [
        f"'{titles[0]}' cannot be done but with {state}, and no job brings that about; planned as "
        "if it is so by then."
        for state, titles in wanted.items()
    ]


def _hidden(build: Build, ahead: GatesAhead) -> list[str]:
    """Say what is planned about things that lie hidden and unproven."""
    titles = [build.proofs[e.proof].proof.title for e in ahead.extra_jobs if e.proof]
    if not titles:
        return []
    shown = " and ".join(f"'{title}'" for title in titles[:2])
    more = f" and {len(titles) - 2} more" if len(titles) > 2 else ""
    one = len(titles) == 1
    said = (
        f"Hidden and unproven: {shown}{more}. {'It is' if one else 'Each is'} planned as work of "
        "its own before the gate that asks for it: uncovered and proved, at best given a named "
        "substitute; how long that takes is a guess."
    )
    return [said]
