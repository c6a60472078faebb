"""One thing changed in a copy of the build: as it is written, in words, and as the facts it means.

The same few lines go into an address, onto the command line and into the journal if it is kept, so
that what was looked at is what is written down.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time, timedelta
from typing import Final

from bareshell.errors import BadInput, NotFound
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.job import JobRecord, Way
from bareshell.model.part import Holding, OrderLine
from bareshell.model.session import HelperWork, SessionException, SessionPattern
from bareshell.model.standing import need_standings
from bareshell.model.trust import ThreePoint
from bareshell.units import parse_hours, read_figure
from bareshell.whole.arrivals import believed_of
from bareshell.whole.garage_time import sessions_between, zone_of
from bareshell.whole.last_days import Sources
from bareshell.whole.rule_words import DAYS, Weekly
from bareshell.whole.words import describe_change

__all__ = ["KINDS", "TrialStep", "changes_of", "parse_step", "words_of"]

KINDS: Final[Mapping[str, str]] = {
    "without": "leave a job out",
    "hours": "other hours for a job",
    "lowest": "another lowest temperature for a job",
    "part": "a part on another day, or here",
    "session": "one session more a week",
    "day": "a day that is not as usual",
    "helper": "the helper on a day, or at every session of a kind",
    "helps": "what a helper does alone",
    "heated": "the garage heated",
    "entry": "what a form or a file would write down",
}
"""What can be changed in a copy."""

NIGHTS: Final = "nights"
HELPS: Final = {"hand": HelperWork.NOTHING, "marked": HelperWork.MARKED, "any": HelperWork.ANY}
WORDS: Final = "tried out on a copy first"
COLDEST_C, WARMEST_C = -30.0, 50.0
LONGEST_MINUTES: Final = 16 * 60


@dataclass(frozen=True, slots=True)
class TrialStep:
    """One change, as it is written.

    Parameters
    ----------
    kind : str
        One of `KINDS`.
    ref : str
        What it is about: a job, a need, a day, a session.
    value : str
        What it would be instead; empty where the kind says it all.
    changes : tuple of Change
        For what a form or a file would write down: the very changes, which its code stands for.

    Examples
    --------
    >>> TrialStep("hours", "exhaust", "4").code
    'hours:exhaust=4'
    """

    kind: str
    ref: str
    value: str = ""
    changes: tuple[c.Change, ...] = field(default=(), compare=False, repr=False)

    @property
    def code(self) -> str:
        """The step in one word, for an address or the command line."""
        return f"{self.kind}:{self.ref}" + (f"={self.value}" if self.value else "")


def parse_step(code: str) -> TrialStep:
    """Read a step from one word.

    Raises
    ------
    BadInput
        When it is none.

    Examples
    --------
    >>> parse_step("part:straps=+7")
    TrialStep(kind='part', ref='straps', value='+7')
    """
    kind, colon, rest = code.strip().partition(":")
    if not colon or kind not in KINDS or not rest:
        known = ", ".join(KINDS)
        raise BadInput("what is tried", f"'{code}' is none", f"begin with one of: {known}")
    ref, equals, value = rest.rpartition("=")
    return TrialStep(kind, ref, value) if equals else TrialStep(kind, rest)


def changes_of(step: TrialStep, build: Build, now: datetime) -> tuple[c.Change, ...]:
    """Turn a step into the facts that it means.

    Parameters
    ----------
    step : TrialStep
        The step.
    build : Build
        As it is, with the steps before this one in it.
    now : datetime
        Aware.

    Raises
    ------
    NotFound
        When it is about something the build does not have.
    BadInput
        When its value cannot be read.
    """
    today = now.astimezone(zone_of(build)).date()
    return tuple(_MAKERS[step.kind](step, build, today, now))


def words_of(step: TrialStep, build: Build) -> str:
    """Say a step in words, to be read after "with".

    Parameters
    ----------
    step : TrialStep
        The step.
    build : Build
        For what things are called.
    """
    return _SAID[step.kind](step, build)


# --- jobs ------------------------------------------------------------------------------------


def _record(build: Build, key: str) -> JobRecord:
    if key not in build.jobs:
        raise NotFound(f"there is no job '{key}'", "choose an open job")
    record = build.jobs[key]
    if not record.state.is_open:
        raise BadInput(
            "job", f"'{record.job.title}' is {record.state.status}", "choose an open one"
        )
    return record


def _without(step: TrialStep, build: Build, _today: date, _now: datetime) -> Sequence[c.Change]:
    _record(build, step.ref)
    return [c.JobLeftOut(step.ref, WORDS)]


def _hours(step: TrialStep, build: Build, _today: date, _now: datetime) -> Sequence[c.Change]:
    record = _record(build, step.ref)
    likely = parse_hours(step.value, f"hours of '{record.job.title}'", bare="h")
    if not 0.05 <= likely <= 1000:
        raise BadInput("hours", f"{likely:g} is not a number of hours", "give 0.1 to 1000")
    if record.state.hours_left is not None:
        return [c.JobWorked(step.ref, None, likely, WORDS)]
    first = min(record.job.ways, key=lambda way: way.hours.likely_hours)
    scale = likely / first.hours.likely_hours
    ways = tuple(_scaled(way, scale) for way in record.job.ways)
    return [c.JobSet(replace(record.job, ways=ways))]


def _scaled(way: Way, scale: float) -> Way:
    hours = way.hours
    three = (hours.optimistic_hours, hours.likely_hours, hours.pessimistic_hours)
    return replace(way, hours=ThreePoint(*(round(one * scale, 3) for one in three)))


def _lowest(step: TrialStep, build: Build, _today: date, _now: datetime) -> Sequence[c.Change]:
    job = _record(build, step.ref).job
    lowest = _degrees(step.value, f"lowest temperature of '{job.title}'")
    wait = job.wait
    if wait is not None and wait.lowest_temperature_c is not None:
        wait = replace(wait, lowest_temperature_c=lowest)
    return [c.JobSet(replace(job, lowest_temperature_c=lowest, wait=wait))]


# --- parts -----------------------------------------------------------------------------------


def _part(step: TrialStep, build: Build, today: date, now: datetime) -> Sequence[c.Change]:
    need = build.needs.get(step.ref)
    if need is None:
        raise NotFound(f"there is no need '{step.ref}'", "choose a part that is waited for")
    standing = need_standings(build)[need.id]
    missing = max(1, need.quantity - standing.here)
    if step.value == "here":
        key = _new_key(f"{need.id}-found", build.holdings)
        return [c.HoldingSet(Holding(key, need.title, missing, need.spec, need.id, note=WORDS))]
    orders = [build.orders[key] for key in standing.orders]
    known = [one.line.expected_on for one in orders if one.line.expected_on is not None]
    usual = max(known, default=None)
    if usual is None:
        where = Sources(build).of(need)
        usual = today + timedelta(days=round(believed_of(build, now)(*where).lead_days))
    day = max(today, _day_from(step.value, usual, f"day of '{need.title}'"))
    if orders:
        return [c.OrderExpected(one.line.id, day, WORDS) for one in orders]
    key = _new_key(f"{need.id}-ordered", build.orders)
    line = OrderLine(
        key, need.title, need.id, missing, ordered_on=today, expected_on=day, spec=need.spec,
        note=WORDS,
    )  # fmt: skip
    return [c.OrderSet(line)]


def _day_from(said: str, usual: date, field: str) -> date:
    """Read a day, or so many days from the usual one."""
    if said[:1] in ("+", "-") and said[1:].isdigit():
        return usual + timedelta(days=int(said))
    return _day(said, field)


def _day(said: str, field: str) -> date:
    try:
        return date.fromisoformat(said)
    except ValueError as error:
        raise BadInput(field, f"'{said}' is no day", "write it as 2031-03-05") from error


# --- garage time -----------------------------------------------------------------------------


def _session(step: TrialStep, build: Build, today: date, _now: datetime) -> Sequence[c.Change]:
    days = tuple(step.ref.upper().split(","))
    starts, minutes, people = (*step.value.split("/"), "", "", "")[:3]
    if any(day not in DAYS for day in days):
        raise BadInput("day of the week", f"'{step.ref}' is none", f"one of: {', '.join(DAYS)}")
    title = f"{' and '.join(DAYS[day] for day in days)}, one more"
    pattern = SessionPattern(
        _new_key("-".join(days).lower() + "-more", build.patterns),
        title,
        Weekly(days).rule,
        _clock(starts),
        _minutes(minutes, least=1),
        _people(people or "1"),
        today,
    )
    return [c.PatternSet(pattern)]


def _one_day(step: TrialStep, build: Build, _today: date, now: datetime) -> Sequence[c.Change]:
    day = _day(step.ref, "day")
    minutes, people = (*step.value.split("/"), "", "")[:2]
    usual = _usual(build, day, now)
    starts = None if usual else time(10)
    long = _minutes(minutes or "0", least=0)
    who = _people(people) if people else None
    return [c.ExceptionSet(SessionException(day, long, who, starts, WORDS))]


def _helper(step: TrialStep, build: Build, _today: date, now: datetime) -> Sequence[c.Change]:
    if step.ref in build.patterns:
        return [c.PatternSet(replace(build.patterns[step.ref], people=2))]
    day = _day(step.ref, "helper")
    usual = _usual(build, day, now)
    if usual is None:
        raise BadInput(
            "helper", f"there is no session on {step.ref}", "choose a day on which there is one"
        )
    return [c.ExceptionSet(SessionException(day, usual, 2, None, WORDS))]


def _usual(build: Build, day: date, now: datetime) -> int | None:
    """Return how long the session of a day is; None when there is none."""
    zone = zone_of(build)
    start = datetime.combine(day, time(), zone)
    for slot in sessions_between(build, max(start, now), start + timedelta(days=1)):
        begins = max(start, now) + timedelta(minutes=slot.start_minute)
        if begins.astimezone(zone).date() == day:
            return slot.minutes
    return None


def _helps(step: TrialStep, build: Build, _today: date, _now: datetime) -> Sequence[c.Change]:
    if step.ref not in HELPS:
        raise BadInput("what a helper does alone", f"'{step.ref}' is none of it", ", ".join(HELPS))
    return [c.GarageDescribed(replace(build.garage, helper=HELPS[step.ref]))]


def _heated(step: TrialStep, build: Build, _today: date, _now: datetime) -> Sequence[c.Change]:
    degrees, slash, when = step.ref.partition("/")
    if slash and when != NIGHTS:
        raise BadInput("heated", f"'{when}' is none", f"write {degrees} or {degrees}/{NIGHTS}")
    warm = None if degrees == "off" else _degrees(degrees, "heated to")
    garage = replace(build.garage, heated_to_c=warm, heated_nights=bool(slash))
    return [c.GarageDescribed(garage)]


def _degrees(said: str, field: str) -> float:
    figure = read_figure(said, field)
    if not COLDEST_C <= figure <= WARMEST_C:
        raise BadInput(field, f"{said} °C cannot be", "give degrees Celsius, such as 15")
    return figure


def _minutes(said: str, *, least: int) -> int:
    if not said.isdigit() or not least <= int(said) <= LONGEST_MINUTES:
        remedy = f"give {least} to {LONGEST_MINUTES}"
        raise BadInput("minutes", f"'{said}' is no length of a session", remedy)
    return int(said)


def _people(said: str) -> int:
    if said not in ("1", "2"):
        raise BadInput("people", f"'{said}'", "say 1, or 2 with a helper")
    return int(said)


def _clock(said: str) -> time:
    try:
        return time.fromisoformat(said)
    except ValueError as error:
        raise BadInput("starts at", f"'{said}' is no time of day", "write 19:00") from error


def _new_key(wish: str, taken: Mapping[str, object]) -> str:
    number = 1
    while (key := wish if number == 1 else f"{wish}-{number}") in taken:
        number += 1
    return key


Maker = Callable[[TrialStep, Build, date, datetime], Sequence[c.Change]]
_MAKERS: Final[Mapping[str, Maker]] = {
    "without": _without,
    "hours": _hours,
    "lowest": _lowest,
    "part": _part,
    "session": _session,
    "day": _one_day,
    "helper": _helper,
    "helps": _helps,
    "heated": _heated,
    "entry": lambda step, _build, _today, _now: step.changes,
}


# --- in words --------------------------------------------------------------------------------


def _job_title(build: Build, key: str) -> str:
    return build.jobs[key].job.title if key in build.jobs else key


def _part_words(step: TrialStep, build: Build) -> str:
    title = build.needs[step.ref].title if step.ref in build.needs else step.ref
    if step.value == "here":
        return f"{title} on the shelf now"
    if step.value[:1] in ("+", "-"):
        days = step.value[1:]
        counted = "a day" if days == "1" else f"{days} days"
        return f"{title} {counted} {'later' if step.value.startswith('+') else 'earlier'}"
    return f"{title} here on {_said(step.value)}"


def _session_words(step: TrialStep, _build: Build) -> str:
    starts, minutes, people = (*step.value.split("/"), "", "", "")[:3]
    days = " and ".join(DAYS.get(day, day) for day in step.ref.upper().split(","))
    two = ", two people" if people == "2" else ""
    return f"a session more each {days} from {starts}, {minutes} min{two}"


def _day_words(step: TrialStep, _build: Build) -> str:
    minutes, people = (*step.value.split("/"), "", "")[:2]
    if minutes in ("", "0"):
        return f"no session on {_said(step.ref)}"
    two = ", two people" if people == "2" else ", alone" if people == "1" else ""
    return f"{minutes} min on {_said(step.ref)}{two}"


def _helper_words(step: TrialStep, build: Build) -> str:
    if step.ref in build.patterns:
        return f"the helper at every session of '{build.patterns[step.ref].title}'"
    return f"the helper on {_said(step.ref)}"


def _heated_words(step: TrialStep) -> str:
    degrees, nights, _ = step.ref.partition("/")
    if degrees == "off":
        return "the garage not heated"
    return f"the garage heated to {degrees} °C" + (" through the nights too" if nights else "")


def _said(day: str) -> str:
    try:
        read = date.fromisoformat(day)
    except ValueError:
        return day
    return f"{read:%A} {read.day} {read:%B %Y}"


_SAID: Final[Mapping[str, Callable[[TrialStep, Build], str]]] = {
    "without": lambda step, build: f"'{_job_title(build, step.ref)}' left out",
    "hours": lambda step, build: f"{step.value} h for '{_job_title(build, step.ref)}'",
    "lowest": lambda step, build: f"'{_job_title(build, step.ref)}' from {step.value} °C on",
    "part": _part_words,
    "session": _session_words,
    "day": _day_words,
    "helper": _helper_words,
    "entry": lambda step, build: "; ".join(
        describe_change(change, build) for change in step.changes
    ),
    "helps": lambda step, _build: f"a helper who does alone: {HELPS.get(step.ref, step.ref)}",
    "heated": lambda step, _build: _heated_words(step),
}
