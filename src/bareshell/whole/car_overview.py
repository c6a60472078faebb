"""The car, the garage and the network of jobs as one reading."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from bareshell.model import Build
from bareshell.model.job import SYSTEMS, Caution, JobEvent, JobRecord, Way
from bareshell.model.network import predecessors
from bareshell.model.position import SupportMove
from bareshell.model.temp import Departure
from bareshell.whole.garage_time import sessions_between, zone_of
from bareshell.whole.tickets import lessons_for


@dataclass(frozen=True, slots=True)
class JobView:
    """A job in a list: how it stands and what it waits for."""

    id: str
    title: str
    system: str
    status: str
    hours_likely: float
    hours_done: float
    hours_left: float | None
    people: tuple[int, ...]
    place: str
    zones: tuple[str, ...]
    after: tuple[str, ...]
    waits_for: tuple[str, ...]
    finished_at: datetime | None = None
    taken_off: bool = False
    mark: str = ""
    version: int | None = None


@dataclass(frozen=True, slots=True)
class JobDetail:
    """One job opened up: its definition, its history, what lies beneath and after it."""

    job: JobView
    ways: tuple[Way, ...]
    wheels: str
    level: bool
    off: tuple[str, ...]
    off_is_necessary: bool
    splittable: bool
    least_piece_hours: float
    wait_hours: float
    wait_why: str
    lowest_temperature_c: float | None
    weather: str
    tools: tuple[str, ...]
    tightens: tuple[str, ...]
    cautions: tuple[Caution, ...]
    note: str
    events: tuple[JobEvent, ...]
    leads_to: tuple[tuple[str, str], ...]
    comes_after: tuple[tuple[str, str, str], ...]
    proves: tuple[tuple[str, str], ...]
    hides: tuple[tuple[str, str], ...]
    needs: tuple[tuple[str, str], ...]
    lessons: tuple[str, ...]
    invented: bool = False


@dataclass(frozen=True, slots=True)
class SupportView:
    """A way the car can stand and what it opens."""

    id: str
    title: str
    kind: str
    opens: tuple[str, ...]
    wheels: str
    level: bool
    rollable: bool
    here: bool = False


@dataclass(frozen=True, slots=True)
class PatternView:
    """A repeating stretch of garage time."""

    id: str
    title: str
    rule: str
    starts: str
    minutes: int
    people: int


@dataclass(frozen=True, slots=True)
class ComingSession:
    """A session that will be."""

    starts_at: datetime
    minutes: int
    people: int
    temperature_c: float | None
    title: str


@dataclass(frozen=True, slots=True)
class SystemCount:
    """How far one system is."""

    system: str
    done: int
    total: int
    hours_left: float


@dataclass(frozen=True, slots=True)
class CarOverview:
    """The car's own data, the garage, and the jobs by system."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    layout: str
    systems: tuple[str, ...]
    zone: str
    currency: str
    units: str
    words: str
    stands: str
    stands_title: str
    off: tuple[str, ...]
    heated_to_c: float | None
    heated_nights: bool
    monthly_c: tuple[float, ...]
    set_up_minutes: int
    clear_up_minutes: int
    supports: tuple[SupportView, ...]
    moves: tuple[SupportMove, ...]
    patterns: tuple[PatternView, ...]
    exceptions: tuple[tuple[date, int, int | None, str], ...]
    coming_sessions: tuple[ComingSession, ...]
    departures: tuple[Departure, ...]
    by_system: tuple[SystemCount, ...]
    jobs: tuple[JobView, ...]


def job_views(build: Build) -> tuple[JobView, ...]:
    """Return every job as a list shows it, in the order of the systems."""
    after = predecessors(build)
    views = [_job(build, record, after) for record in build.jobs.values()]
    return tuple(sorted(views, key=lambda view: SYSTEMS.index(view.system)))


def job_detail(build: Build, job_id: str) -> JobDetail:
    """Open one job up.

    Parameters
    ----------
    build : Build
        The build, which has the job.
    job_id : str
        The job.
    """
    record = build.jobs[job_id]
    job = record.job
    after = predecessors(build)
    leads = tuple((k, build.jobs[k].job.title) for k, before in after.items() if job_id in before)
    return JobDetail(
        job=_job(build, record, after),
        ways=job.ways,
        wheels=str(job.wheels),
        level=job.level,
        off=tuple(sorted(job.off)),
        off_is_necessary=job.off_is_necessary,
        splittable=job.splittable,
        least_piece_hours=job.least_piece_hours,
        wait_hours=job.wait.hours if job.wait else 0.0,
        wait_why=job.wait.why if job.wait else "",
        lowest_temperature_c=job.lowest_temperature_c,
        weather=job.weather,
        tools=job.tools,
        tightens=job.tightens,
        cautions=job.cautions,
        note=job.note,
        events=record.events,
        leads_to=leads,
        comes_after=tuple(
            (k, build.jobs[k].job.title, str(build.jobs[k].state.status))
            for k in after.get(job_id, job.after)
            if k in build.jobs
        ),
        proves=tuple(
            (k, r.proof.title)
            for k, r in build.proofs.items()
            if job_id in ((r.proof.proven_by,) if r.proof.proven_by else r.proof.made_by)
        ),
        hides=tuple(
            (k, r.proof.title) for k, r in build.proofs.items() if job_id in r.proof.covered_by
        ),
        needs=tuple((k, n.title) for k, n in build.needs.items() if n.job == job_id),
        lessons=lessons_for(build, job),
        invented=build.invented,
    )


def car_overview(build: Build, now: datetime) -> CarOverview:
    """Read the car, the garage and the jobs of a build.

    Parameters
    ----------
    build : Build
        The build; one with no car yet reads as empty words.
    now : datetime
        Aware; the coming sessions are those of the four weeks after it.
    """
    car, garage = build.car, build.garage
    here = build.placement.support if build.placement else ""
    zone = zone_of(build)
    today = now.astimezone(zone).date()
    views = job_views(build)
    return CarOverview(
        made_at=now,
        seq=build.seq,
        car=car.name if car else "",
        invented=bool(car and car.invented),
        layout=str(car.layout) if car else "",
        systems=tuple(s for s in SYSTEMS if car and s in car.systems),
        zone=str(zone),
        currency=car.currency if car else "",
        units=car.units if car else "metric",
        words=car.words if car else "",
        stands=here,
        stands_title=build.supports[here].title if here in build.supports else "not known",
        off=tuple(sorted(build.placement.off)) if build.placement else (),
        heated_to_c=garage.heated_to_c,
        heated_nights=garage.heated_nights,
        monthly_c=garage.monthly_c,
        set_up_minutes=garage.set_up_minutes,
        clear_up_minutes=garage.clear_up_minutes,
        supports=tuple(
            SupportView(
                s.id,
                s.title,
                str(s.kind),
                tuple(sorted(str(z) for z in s.opens)),
                str(s.wheels),
                s.level,
                s.rollable,
                s.id == here,
            )
            for s in build.supports.values()
        ),
        moves=tuple(build.moves.values()),
        patterns=tuple(
            PatternView(p.id, p.title, p.rule, f"{p.starts:%H:%M}", p.minutes, p.people)
            for p in build.patterns.values()
        ),
        exceptions=tuple(
            (e.day, e.minutes, e.people, e.words)
            for day, e in sorted(build.exceptions.items())
            if day >= today
        ),
        coming_sessions=_coming(build, now),
        departures=tuple(build.departures.values()),
        by_system=_by_system(views),
        jobs=views,
    )


def _coming(build: Build, now: datetime) -> tuple[ComingSession, ...]:
    zone = zone_of(build)
    now = now.replace(second=0, microsecond=0)
    return tuple(
        ComingSession(
            (now + timedelta(minutes=slot.start_minute)).astimezone(zone),
            slot.minutes,
            slot.people,
            slot.temperature_c,
            slot.kind,
        )
        for slot in sessions_between(build, now, now + timedelta(weeks=4))
    )


def _job(build: Build, record: JobRecord, after: dict[str, tuple[str, ...]]) -> JobView:
    job, state = record.job, record.state
    before = after.get(job.id, job.after)
    waits = tuple(
        build.jobs[b].job.title for b in before if b in build.jobs and build.jobs[b].state.is_open
    )
    return JobView(
        id=job.id,
        title=job.title,
        system=job.system,
        status=str(state.status),
        hours_likely=job.ways[0].hours.likely_hours,
        hours_done=round(state.hours_done, 2),
        hours_left=state.hours_left,
        people=tuple(sorted({way.people for way in job.ways})),
        place=str(job.place),
        zones=tuple(sorted(str(zone) for zone in job.zones)),
        after=before,
        waits_for=waits if state.is_open else (),
        finished_at=state.finished_at,
        taken_off=state.taken_off,
        mark=job.mark,
        version=build.versions.get(f"job:{job.id}"),
    )


def _by_system(views: tuple[JobView, ...]) -> tuple[SystemCount, ...]:
    counts = []
    for system in SYSTEMS:
        mine = [v for v in views if v.system == system and v.status != "left out"]
        if not mine:
            continue
        open_jobs = [v for v in mine if v.status in ("to do", "started")]
        hours = sum(
            v.hours_left if v.hours_left is not None else max(0.0, v.hours_likely - v.hours_done)
            for v in open_jobs
        )
        counts.append(SystemCount(system, len(mine) - len(open_jobs), len(mine), round(hours, 1)))
    return tuple(counts)
