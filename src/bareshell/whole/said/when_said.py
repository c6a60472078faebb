"""When it was: a line that begins with "friday evening:" is about Friday evening."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo
from typing import Final

from bareshell.errors import BadInput
from bareshell.model import Build
from bareshell.units import parse_date, show_date
from bareshell.whole.garage_time import sessions_between

_PARTS: Final = {
    "morning": (time(6), time(12, 30), time(12)),
    "lunchtime": (time(11), time(14), time(13)),
    "afternoon": (time(12), time(18), time(17)),
    "evening": (time(17), time(23, 59), time(21)),
    "night": (time(17), time(23, 59), time(21)),
    "eve": (time(17), time(23, 59), time(21)),
}
_DAY: Final = (
    r"yesterday|today|last\s+night|(?:(?:on|last)\s+)?"
    r"(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?|"
    r"(?:on\s+)?(?:the\s+)?\d{1,2}(?:st|nd|rd|th)?\s+(?:of\s+)?(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)"
    r"[a-z]*(?:\s+\d{4})?|\d{4}-\d{2}-\d{2}|(?:this|earlier\s+this)(?=\s+(?:morning|afternoon|evening))"
)
_PREFIX = re.compile(
    rf"^\s*(?P<day>{_DAY})(?:'s)?\s*(?P<part>morning|lunchtime|afternoon|evening|night|eve)?(?:'s)?"
    r"(?:\s+session)?\s*(?P<sign>[:,\-–—]|$|\s)\s*",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class When:
    """When a line says it happened, the words that say so, and where the rest begins."""

    at: datetime
    words: str
    rest: int


def when_said(line: str, at: datetime, zone: tzinfo, build: Build) -> When | None:
    """Read the day with which a line begins.

    Parameters
    ----------
    line : str
        The line.
    at : datetime
        When it is typed. Aware.
    zone : tzinfo
        The garage's zone.
    build : Build
        Its pattern gives the hour at which that day's session ended.

    Returns
    -------
    When or None
        None when it begins with no day, or with one that has not come yet.

    Examples
    --------
    >>> from datetime import UTC
    >>> sunday = datetime(2026, 11, 29, 18, 0, tzinfo=UTC)
    >>> when_said("friday evening: heater in", sunday, UTC, Build()).at.isoformat()
    '2026-11-27T21:00:00+00:00'
    >>> when_said("heater in", sunday, UTC, Build()) is None
    True
    """
    found = _PREFIX.match(line)
    if found is None:
        return None
    plain_day = " ".join(found["day"].lower().split())
    part = (found["part"] or "").lower()
    if not part and found["sign"].strip() == "" and plain_day in ("today", "this"):
        return None
    if "night" in plain_day:
        part = "night"
    day = _day(plain_day, at.astimezone(zone).date())
    if day is None:
        return None
    moment = _ended(day, part, at, zone, build)
    return When(moment, f"{show_date(day)}, {moment.astimezone(zone):%H:%M}", found.end())


_INSIDE = re.compile(
    r"\b(?P<day>yesterday|last\s+night|this\s+morning|this\s+afternoon|last\s+"
    r"(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?)\b"
    r"(?:\s+(?P<part>morning|lunchtime|afternoon|evening|night))?",
    re.IGNORECASE,
)


def when_inside(text: str, at: datetime, zone: tzinfo, build: Build) -> datetime | None:
    """Read a day that stands within a clause: heater fitted yesterday.

    Examples
    --------
    >>> from datetime import UTC
    >>> sunday = datetime(2026, 11, 29, 18, 0, tzinfo=UTC)
    >>> when_inside("heater fitted last friday", sunday, UTC, Build()).isoformat()
    '2026-11-27T20:00:00+00:00'
    """
    found = _INSIDE.search(text)
    if found is None:
        return None
    words = " ".join(found["day"].lower().split())
    part = (found["part"] or "").lower()
    if words.startswith("this "):
        words, part = "this", words.removeprefix("this ")
    if words == "last night":
        part = "night"
    day = _day(words, at.astimezone(zone).date())
    if day is None:
        return None
    moment = _ended(day, part, at, zone, build)
    return moment if moment < at else None


def _day(words: str, today: date) -> date | None:
    if words in ("this", "earlier this"):
        return today
    plain = re.sub(r"^(?:on\s+)?(?:the\s+)?", "", words)
    try:
        day = parse_date(plain, "day", today=today, towards="past")
    except BadInput:
        return None
    return day if day <= today else None


def _ended(day: date, part: str, at: datetime, zone: tzinfo, build: Build) -> datetime:
    """Return when that day's session ended: by the pattern, else at a usual hour."""
    first, last, usual = _PARTS.get(part, (time(0), time(23, 59), time(20)))
    begins = datetime.combine(day, first, zone)
    ends = datetime.combine(day, last, zone)
    origin = begins - timedelta(hours=1)
    slots = sessions_between(build, origin, ends)
    moments = [origin + timedelta(minutes=s.start_minute + s.minutes) for s in slots]
    moment = moments[-1] if moments else datetime.combine(day, usual, zone)
    return min(moment, at)
