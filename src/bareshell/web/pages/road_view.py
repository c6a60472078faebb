"""The road ahead laid out for its picture: weeks of sessions, pins, gates, landings."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from bareshell.draw.days import short_day
from bareshell.draw.forecast import ForecastDots
from bareshell.draw.road import (
    GateMark,
    JobSlice,
    Landing,
    Pin,
    RoadAhead,
    RoadWeek,
    SessionBox,
    StanceSlice,
)
from bareshell.draw.spans import Bind
from bareshell.draw.weeks import week_of
from bareshell.web.pieces import Figure
from bareshell.whole.road_parts import RoadOverview, RoadSession

_WEEKS_MOST: Final = 156
"""Three years: beyond that a plan is no picture."""

_LANDINGS: Final = (
    ("P50", "half of futures by here"),
    ("P80", "eight in ten by here"),
    ("P95", "nineteen in twenty by here"),
)


@dataclass(frozen=True, slots=True)
class SessionLine:
    """A session in the long list: everything the picture says of it, in words."""

    day: str
    time: str
    hours: float
    people: int
    temperature: str
    stands: str
    moved: str
    jobs: tuple[str, ...]
    together: tuple[str, ...]
    helper: str
    needed: bool


@dataclass(frozen=True, slots=True)
class SessionWeek:
    """A week of the long list."""

    monday: date
    sessions: tuple[SessionLine, ...]


@dataclass(frozen=True, slots=True)
class RoadView:
    """What the page draws."""

    figures: tuple[Figure, ...]
    picture: RoadAhead | None
    after: str
    forecast: ForecastDots | None
    binds: tuple[Bind, ...]
    list: tuple[SessionWeek, ...]
    helper: tuple[SessionLine, ...]
    today: date
    weeks: int
    hidden_weeks: int


_DOING: Final = frozenset(
    "fit refit set get take make put do join settle have work read look fill check clean run "
    "bolt hang adjust connect mount finish find seal choose order".split()
)
_ARTICLES: Final = frozenset("the a an every each up out in on into".split())


def short_name(title: str) -> str:
    """A job's name as it would be said across the garage: the thing, without its order.

    Examples
    --------
    >>> short_name("Fit the right front hose bracket for the disc strut")
    'right front hose bracket'
    >>> short_name("Bleed the brakes"), short_name("Gate: look over the engine bay")
    ('Bleed the brakes', 'Gate')
    """
    head = re.split(r"[,;:(]| and | for | with | through | that ", title, maxsplit=1)[0].strip()
    words = head.split()
    if len(words) > 1 and words[0].casefold() in _DOING:
        words = words[1:]
        while len(words) > 1 and words[0].casefold() in _ARTICLES:
            words = words[1:]
    return " ".join(words) or title


def road_view(road: RoadOverview, zone: ZoneInfo) -> RoadView:
    """Lay the road out.

    Parameters
    ----------
    road : RoadOverview
        What the plan says.
    zone : ZoneInfo
        The owner's, in which a session has its weekday.
    """
    today = road.made_at.astimezone(zone).date()
    landings = landings_of(road)
    weeks = _weeks(road, landings, zone, today)
    shown = weeks[:_WEEKS_MOST]
    picture = RoadAhead(shown, landings) if shown and road.sessions else None
    lines = [(_monday(one, zone), _line(one, zone)) for one in road.sessions]
    return RoadView(
        figures=figures(road),
        picture=picture,
        after=_after(road, shown[:4]),
        forecast=ForecastDots(road.futures, landings, road.samples) if road.futures else None,
        binds=_binds(road),
        list=tuple(
            SessionWeek(monday, tuple(line for at, line in lines if at == monday))
            for monday in dict.fromkeys(at for at, _ in lines)
        ),
        helper=tuple(line for _, line in lines if line.helper and line.needed),
        today=today,
        weeks=len(shown),
        hidden_weeks=len(weeks) - len(shown),
    )


def landings_of(road: RoadOverview) -> tuple[Landing, ...]:
    """The weeks by which a share of the futures is on the road."""
    mondays = (road.p50, road.p80, road.p95)
    return tuple(
        Landing(word, week_of(monday), meaning)
        for (word, meaning), monday in zip(_LANDINGS, mondays, strict=True)
        if monday is not None
    )


def figures(road: RoadOverview) -> tuple[Figure, ...]:
    """The large answers: three weeks, never one date, and the work left."""
    runs = f"{road.samples:,} futures" if road.samples else "the futures walked through"
    words = (
        f"P50: on the road by the end of this week in half of {runs}",
        f"P80: eight in ten{_give_or_take(road.sampling_error_days)}",
        "P95: nineteen in twenty",
    )
    mondays = (road.p50, road.p80, road.p95)
    shown = [
        Figure(_week_figure(monday, road.made_at.date()), said)
        for monday, said in zip(mondays, words, strict=True)
    ]
    hours = f"{road.hours_left:,.0f}"
    helper = f"{road.helper_hours_left:,.0f} h of it takes two people"
    proofs = f"{road.proofs_owed} {'proof' if road.proofs_owed == 1 else 'proofs'} owed"
    shown.append(Figure(hours, f"of work left, as likely as not; {helper}; {proofs}", "h"))
    return tuple(shown)


def _week_figure(monday: date | None, made: date) -> str:
    if monday is None:
        return "not known"
    # A month alone would be this year's or the next one's.
    far = monday.year != made.year and (monday - made).days > 300
    return f"{short_day(monday)} {monday:%y}" if far else short_day(monday)


def _give_or_take(days: float) -> str:
    if days < 0.05:
        return ""
    return f", give or take {days:.1f} days for the number of futures".replace(".0 days", " days")


def _monday(session: RoadSession, zone: ZoneInfo) -> date:
    return week_of(session.starts_at.astimezone(zone).date())


def _weeks(
    road: RoadOverview, landings: Sequence[Landing], zone: ZoneInfo, today: date
) -> tuple[RoadWeek, ...]:
    """One row a week, without a hole, from this week to the last thing known."""
    first = week_of(today)
    mondays = [_monday(one, zone) for one in road.sessions]
    last = max([first, *mondays, *(landing.monday for landing in landings)])
    away = {week_of(day) for day in road.away_weeks}
    found = []
    monday = first
    while monday <= last:
        found.append(_week(road, monday, zone, today, away=monday in away))
        monday += timedelta(days=7)
    return tuple(found)


def _week(road: RoadOverview, monday: date, zone: ZoneInfo, today: date, *, away: bool) -> RoadWeek:
    sessions = [one for one in road.sessions if _monday(one, zone) == monday]
    boxes = tuple(_box(one, zone, today) for one in sessions if one.minutes > 0)
    pins = tuple(
        Pin(one.title, one.due, one.latest)
        for one in road.arrivals
        if one.due is not None and week_of(one.due) == monday
    )
    gates = tuple(GateMark(one.title, one.day) for one in road.gates if week_of(one.day) == monday)
    order = [one for one in road.order_by if week_of(max(one.order_by, today)) == monday]
    notes = tuple(f"order by {short_day(one.order_by)}: {one.title}" for one in order)
    return RoadWeek(
        monday,
        boxes,
        pins,
        gates,
        notes if len(notes) <= 2 else (*notes[:1], f"and {len(notes) - 1} more to order"),
        "away" if away and not boxes else "",
    )


def _box(session: RoadSession, zone: ZoneInfo, today: date) -> SessionBox:
    starts = session.starts_at.astimezone(zone)
    return SessionBox(
        starts,
        round(session.minutes / 60, 1),
        tuple(
            JobSlice(short_name(job.title), job.system, job.minutes / 60) for job in session.jobs
        ),
        tuple(
            StanceSlice(stance.kind, stance.minutes / 60)
            for stance in session.stances
            if stance.kind
        ),
        people=2 if session.helper_minutes else session.people,
        now=starts.date() == today,
    )


def _line(session: RoadSession, zone: ZoneInfo) -> SessionLine:
    starts: datetime = session.starts_at.astimezone(zone)
    warmth = session.temperature_c
    helper = session.helper_minutes
    return SessionLine(
        day=f"{starts:%a} {starts.day} {starts:%b %Y}",
        time=f"{starts:%H:%M}",
        hours=round(session.minutes / 60, 1),
        people=session.people,
        temperature="" if warmth is None else f"{warmth:.0f} °C",
        stands=" then ".join(dict.fromkeys(stance.title for stance in session.stances)),
        moved="; ".join(session.moved),
        jobs=tuple(
            f"{job.title}, {job.minutes} min{'' if job.finishes else ', a piece of it'}"
            for job in session.jobs
        ),
        together=tuple(job.title for job in session.jobs if job.people > 1),
        helper=f"{helper / 60:.1f} h".replace(".0 h", " h") if helper else "",
        needed=bool(session.jobs),
    )


def _after(road: RoadOverview, near: Sequence[RoadWeek]) -> str:
    """What comes after the weeks a phone shows, in a sentence."""
    if not near:
        return ""
    shown_until = near[-1].monday + timedelta(days=6)
    later = [gate for gate in road.gates if gate.day > shown_until]
    named = ", ".join(f"{gate.title} about {short_day(gate.day)}" for gate in later)
    whole = "The whole road is drawn on a wide screen and on paper, and listed below."
    return f"{named}. {whole}" if named else whole


def _binds(road: RoadOverview) -> tuple[Bind, ...]:
    """What the finish waited for, largest first, as parts of a hundred futures."""
    found = [Bind(bind.kind, round(100 * bind.share)) for bind in road.binds]
    return tuple(sorted((b for b in found if b.of_hundred > 0), key=lambda b: -b.of_hundred))
