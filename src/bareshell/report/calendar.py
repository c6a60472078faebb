"""A calendar of what lies ahead, as iCalendar text that any calendar reads [S:rfc-5545]."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING
from uuid import UUID, uuid5

from bareshell.whole.days_ahead import DayAhead

if TYPE_CHECKING:
    from icalendar import Event

__all__ = ["CalendarHead", "calendar_text"]

_OURS = UUID("5f0e3b8a-8f43-5a0e-9c57-6a4d3e2b1c90")
"""The name space in which things of a build get their lasting names [S:rfc-9562]."""

ASK_AGAIN = timedelta(hours=6)
"""How often a calendar is asked to look again [S:rfc-7986]."""


@dataclass(frozen=True, slots=True)
class CalendarHead:
    """Whose calendar it is.

    Parameters
    ----------
    build : str
        What tells this build from every other, for ever.
    title : str
        What the calendar is called.
    made_at : datetime
        Aware; when it was written.
    words : str
        What it is.
    """

    build: str
    title: str
    made_at: datetime
    words: str = ""


def calendar_text(head: CalendarHead, days: Iterable[DayAhead]) -> bytes:
    r"""Write a calendar.

    Each thing keeps its UID whatever day it moves to, so a calendar that looks again moves it
    rather than showing it twice. Moments are in UTC and need no table of time zones.

    Parameters
    ----------
    head : CalendarHead
        Whose it is.
    days : iterable of DayAhead
        What is in it.

    Examples
    --------
    >>> head = CalendarHead("a build", "A saloon", datetime(2031, 3, 4, tzinfo=UTC))
    >>> text = calendar_text(head, [DayAhead("part/a", "part due", "Due", "", date(2031, 3, 9))])
    >>> [line for line in text.decode().split("\r\n") if line.startswith("DTSTART")]
    ['DTSTART;VALUE=DATE:20310309']
    """
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", "-//bareshell//road ahead//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("name", head.title)
    calendar.add("x-wr-calname", head.title)
    if head.words:
        calendar.add("description", head.words)
    calendar.add("refresh-interval", ASK_AGAIN, parameters={"VALUE": "DURATION"})
    for day in days:
        calendar.add_component(_event(head, day))
    return bytes(calendar.to_ical())


def _event(head: CalendarHead, day: DayAhead) -> Event:
    from icalendar import Event

    event = Event()
    event.add("uid", str(uuid5(_OURS, f"{head.build}/{day.key}")))
    event.add("dtstamp", head.made_at.astimezone(UTC))
    event.add("summary", day.title)
    if day.words:
        event.add("description", day.words)
    event.add("categories", [day.kind])
    if isinstance(day.starts, datetime) and day.ends is not None:
        event.add("dtstart", day.starts.astimezone(UTC))
        event.add("dtend", day.ends.astimezone(UTC))
    else:
        event.add("dtstart", _day(day.starts))
        event.add("dtend", _day(day.starts) + timedelta(days=1))
    event.add("transp", "OPAQUE" if day.kind == "session" else "TRANSPARENT")
    return event


def _day(moment: datetime | date) -> date:
    return moment.date() if isinstance(moment, datetime) else moment
