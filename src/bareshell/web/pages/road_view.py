"""The road ahead laid out for its picture: weeks of sessions, pins, gates, landings."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from typing import Final
from urllib.parse import quote
from zoneinfo import ZoneInfo

from bareshell.draw.days import full_day, short_day
from bareshell.draw.fan import Fan, FanIssue
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
from bareshell.draw.weeks import week_of
from bareshell.web.forms import Form
from bareshell.web.pages.levers_view import LeversView, levers_view
from bareshell.web.pieces import Figure
from bareshell.web.plan_desk import MovedSince
from bareshell.whole.forecast_parts import HelperAsk, LeversOverview
from bareshell.whole.last_days import NINE_IN_TEN
from bareshell.whole.road_parts import RoadOverview, RoadSession

_WEEKS_MOST: Final = 104
"""Two years: beyond that a plan is no picture."""

_PINS_MOST: Final = 5
"""Pins in one week's margin; the others are counted there and listed below."""

_ISSUES_MOST: Final = 52
"""Posts of the fan; more would run together."""

_FAR_DAYS: Final = 300
"""So far off, a month with its year is figure enough."""

SURE: Final = {
    0.8: "eight in ten are here in time",
    NINE_IN_TEN: "nine in ten are here in time",
    0.95: "19 in 20 are here in time",
}
"""What may be chosen for orders to be in time, as it is said."""

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
    list: tuple[SessionWeek, ...]
    helper: tuple[SessionLine, ...]
    today: date
    weeks: int
    hidden_weeks: int
    fan: Fan | None
    levers: LeversView | None = None
    form: Form = field(default_factory=Form)
    ask: HelperAsk | None = None
    share: float = NINE_IN_TEN
    calendar: str = ""
    moved: MovedSince | None = None
    zone: ZoneInfo = field(default_factory=lambda: ZoneInfo("UTC"))

    def opened(self, key: str) -> str:
        """Where a number of this page is opened down to its inputs."""
        return grounds_at(key)

    @property
    def shares(self) -> tuple[tuple[str, str], ...]:
        """What one can choose to be sure of."""
        return tuple((f"{share:g}", words) for share, words in SURE.items())

    @property
    def sure(self) -> str:
        """The share that is chosen, as it stands in an address."""
        return f"{self.share:g}"

    @property
    def sure_words(self) -> str:
        """The same in words."""
        return SURE[self.share]


def share_of(said: str) -> float:
    """Read which share of orders is to be in time; nine in ten when nobody said.

    Examples
    --------
    >>> share_of("0.95"), share_of(""), share_of("7")
    (0.95, 0.9, 0.9)
    """
    return next((share for share in SURE if f"{share:g}" == said), NINE_IN_TEN)


_DOING: Final = frozenset(
    "fit refit set get take make put do join settle have work read look fill check clean run "
    "bolt hang adjust connect dress mount finish find seal choose order".split()
)
_KINDS: Final = {
    "Prove": "prove",
    "Read": "read",
    "Uncover and prove": "uncover",
    "Take the temp off": "temp off",
    "Gate": "gate",
}
"""Work that the plan itself puts in, and how it is said: what it is about must follow."""

_AIM: Final = re.compile(r"^(look over|read the list before) (the )?", re.IGNORECASE)
_ARTICLES: Final = frozenset("the a an every each up out in on into".split())


def short_name(title: str) -> str:
    """A job's name as it would be said across the garage: the thing, without its order.

    Examples
    --------
    >>> short_name("Fit the right front hose bracket for the disc strut")
    'right front hose bracket'
    >>> short_name("Bleed the brakes"), short_name("Gate: look over the engine bay")
    ('Bleed the brakes', 'gate: engine bay')
    >>> short_name("Find and clear every drain hole and tube; mark them")
    'clear every drain hole'
    >>> short_name("Prove: Moves freely by hand, guides greased, nothing rubs at full droop")
    'prove: moves freely by hand'
    >>> short_name("Uncover and prove: Valve timing photographed at its marks")
    'uncover: valve timing photographed at its marks'
    """
    kind, colon, rest = title.partition(": ")
    if colon and kind in _KINDS:
        thing = short_name(_AIM.sub("", rest))
        return f"{_KINDS[kind]}: {thing[:1].lower()}{thing[1:]}"
    head, *after = re.split(r"[,;:(]| and | for | with | through | that ", title, maxsplit=1)
    words = head.split()
    if len(words) == 1 and words[0].casefold() in _DOING and after and after[0].strip():
        # Two verbs before the thing: the second has it.
        words = short_name(after[0].strip()).split()
    if len(words) > 1 and words[0].casefold() in _DOING:
        words = words[1:]
        while len(words) > 1 and words[0].casefold() in _ARTICLES:
            words = words[1:]
    return " ".join(words) or title


def road_view(
    road: RoadOverview,
    zone: ZoneInfo,
    levers: LeversOverview | None = None,
    form: Form | None = None,
    share: float = NINE_IN_TEN,
    calendar: str = "",
    moved: MovedSince | None = None,
) -> RoadView:
    """Lay the road out.

    Parameters
    ----------
    road : RoadOverview
        What the plan says.
    zone : ZoneInfo
        The owner's, in which a session has its weekday.
    levers : LeversOverview or None
        What would move the date; None while it is still worked out.
    form : Form or None
        That keeps the forecast.
    share : float
        Of orders that are to be in time. [-]
    calendar : str
        Where a calendar finds ours; empty where it is not told.
    moved : MovedSince or None
        What the last entries did to the next two weeks.
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
        list=tuple(
            SessionWeek(monday, tuple(line for at, line in lines if at == monday))
            for monday in dict.fromkeys(at for at, _ in lines)
        ),
        helper=tuple(line for _, line in lines if line.helper and line.needed),
        today=today,
        weeks=len(shown),
        hidden_weeks=len(weeks) - len(shown),
        fan=fan_of(road),
        levers=levers_view(levers) if levers is not None else None,
        form=form or Form(),
        ask=levers.helper if levers is not None else None,
        share=share,
        calendar=calendar,
        moved=moved,
        zone=zone,
    )


def fan_of(road: RoadOverview) -> Fan | None:
    """The forecasts that were kept; the last of a year's worth, so that the posts stay apart."""
    kept = road.issued[-_ISSUES_MOST:]
    if not kept:
        return None
    return Fan(tuple(FanIssue(one.day, one.p50, one.p80, one.p95) for one in kept))


def landings_of(road: RoadOverview) -> tuple[Landing, ...]:
    """The weeks by which a share of the futures is on the road."""
    return landings_of_weeks(road.p50, road.p80, road.p95)


def landings_of_weeks(*mondays: date | None) -> tuple[Landing, ...]:
    """P50, P80 and P95 as landings, as far as they are known."""
    return tuple(
        Landing(word, week_of(monday), meaning)
        for (word, meaning), monday in zip(_LANDINGS, mondays, strict=True)
        if monday is not None
    )


def figures(road: RoadOverview) -> tuple[Figure, ...]:
    """The large answers: three weeks, never one date, and the work left."""
    runs = f"{road.samples:,} futures" if road.samples else "the futures walked through"
    made = road.made_at.date()
    shares = (
        ("P50", road.p50, f"half of {runs}", _give_or_take(road.p50_error_days)),
        ("P80", road.p80, "eight in ten", _give_or_take(road.sampling_error_days)),
        ("P95", road.p95, "nineteen in twenty", _give_or_take(road.p95_error_days)),
    )
    shown = [
        Figure(
            _week_figure(monday, made),
            f"{word}: {_by_week(monday, made)} in {share}{more}",
            opens=grounds_at(word.lower()) if monday else "",
        )
        for word, monday, share, more in shares
        # With nothing left there is no finish to foretell.
        if monday is not None or road.hours_left
    ]
    hours = f"{road.hours_left:,.0f}"
    helper = f"{road.helper_hours_left:,.0f} h of it takes two people"
    proofs = f"{road.proofs_owed} {'proof' if road.proofs_owed == 1 else 'proofs'} owed"
    shown.append(
        Figure(
            hours, f"of work left, as likely as not; {helper}; {proofs}", "h", grounds_at("work")
        )
    )
    return tuple(shown)


def grounds_at(key: str) -> str:
    """Address of a number opened down to what it rests on.

    Examples
    --------
    >>> grounds_at("p80")
    '/road-ahead/grounds?open=p80#p80'
    """
    return f"/road-ahead/grounds?open={quote(key)}#{quote(key)}"


def _week_figure(monday: date | None, made: date) -> str:
    if monday is None:
        return "not known"
    if (monday - made).days > _FAR_DAYS:
        return f"{monday:%b %Y}"
    return short_day(monday)


def _by_week(monday: date | None, made: date) -> str:
    if monday is None:
        return "no session ever reaches it"
    if (monday - made).days > _FAR_DAYS:
        return f"on the road by the week of {full_day(monday)}"
    return "on the road by the end of this week"


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
    # A landing beyond the last session planned is said, not drawn as empty weeks.
    last = max([first, *mondays, *(landing.monday for landing in landings[:1])])
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
        for one in sorted(road.arrivals, key=lambda one: one.due or today)
        if one.due is not None and week_of(one.due) == monday
    )
    gates = tuple(GateMark(one.title, one.day) for one in road.gates if week_of(one.day) == monday)
    return RoadWeek(
        monday,
        boxes,
        pins[:_PINS_MOST],
        gates,
        _notes(road, monday, today, len(pins) - _PINS_MOST),
        "away" if away and not boxes else "",
    )


def _notes(road: RoadOverview, monday: date, today: date, more_due: int) -> tuple[str, ...]:
    """What else a week's margin says."""
    order = [one for one in road.order_by if week_of(max(one.order_by, today)) == monday]
    notes = []
    if more_due > 0:
        notes.append(f"and {more_due} more due, listed below")
    if len(order) == 1:
        notes.append(f"order by {short_day(order[0].order_by)}: {order[0].title}")
    elif order:
        notes.append(f"order {len(order)} parts this week, listed below")
    return tuple(notes)


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
