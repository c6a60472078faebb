"""The garage days of the demo: which evenings and Saturdays there were, told backwards from today.

The pattern is two evenings a week and a Saturday, with a helper every second Saturday; some
weeks, the holiday, Christmas and a few single evenings are lost, as they are in life.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zlib import crc32
from zoneinfo import ZoneInfo

from bareshell.model.session import SessionException, SessionPattern

ZONE = "Europe/London"
EVENING = time(19, 0)
MORNING = time(10, 0)
EVENING_MINUTES = 150
SATURDAY_MINUTES = 300
HELPER_MINUTES = 360
_MONDAY, _WEDNESDAY, _SATURDAY = 0, 2, 5
_LOST_WEEKS_AGO = {6: "down with a cold", 14: "work", 23: "family", 31: "work", 38: "work"}
_NEVER_LOST_DAYS = 10  # the last sessions before today did take place


@dataclass(frozen=True, slots=True)
class GarageDay:
    """A stretch of garage time: the day, the local time of its start, minutes and people."""

    day: date
    starts: time
    minutes: int
    people: int

    @property
    def begins(self) -> datetime:
        """When it begins, in UTC."""
        return at(self.day, self.starts)

    @property
    def work_hours(self) -> float:
        """What is left for work [h] after setting up and clearing up."""
        return self.minutes / 60 - 0.5


def at(day: date, clock: time) -> datetime:
    """Turn a local day and clock time into UTC, summer time taken into account.

    Examples
    --------
    >>> at(date(2031, 7, 2), time(19, 0)).hour, at(date(2031, 12, 3), time(19, 0)).hour
    (18, 19)
    """
    return datetime.combine(day, clock, ZoneInfo(ZONE)).astimezone(UTC)


def spread(key: str) -> float:
    """Return a figure from -1 to 1 that is always the same for the same key.

    Examples
    --------
    >>> spread("anything") == spread("anything")
    True
    """
    return crc32(key.encode()) / 0xFFFFFFFF * 2 - 1


def next_helper_saturday(today: date) -> date:
    """Return the first Saturday after today; the helper comes then and every second one before.

    Examples
    --------
    >>> next_helper_saturday(date(2031, 3, 5)).isoformat()
    '2031-03-08'
    """
    return today + timedelta(days=(_SATURDAY - today.weekday() - 1) % 7 + 1)


def lost_because(day: date, today: date) -> str:
    """Say why a day of the pattern was lost; empty when it took place."""
    if (today - day).days <= _NEVER_LOST_DAYS:
        return ""
    monday = day - timedelta(days=day.weekday())
    week = {monday + timedelta(days=n) for n in range(7)}
    for year in {monday.year, monday.year + 1}:
        if date(year, 12, 25) in week or date(year, 1, 1) in week:
            return "Christmas and New Year"
        if date(year, 8, 5) in week or date(year, 8, 12) in week:
            return "summer holiday"
    weeks_ago = (today - monday).days // 7
    if weeks_ago in _LOST_WEEKS_AGO:
        return _LOST_WEEKS_AGO[weeks_ago]
    # By its distance from today, so that the demo has the same shape whenever it is made.
    return "kept late at work" if spread(f"lost {weeks_ago} {day.weekday()}") > 0.88 else ""


def pattern_day(day: date, today: date) -> GarageDay | None:
    """Return what the pattern has on a day, lost or not; None when it is no garage day."""
    if day.weekday() in (_MONDAY, _WEDNESDAY):
        return GarageDay(day, EVENING, EVENING_MINUTES, 1)
    if day.weekday() == _SATURDAY:
        days = (day - next_helper_saturday(today)).days % 14
        if days == 0:
            return GarageDay(day, MORNING, HELPER_MINUTES, 2)
        return GarageDay(day, MORNING, SATURDAY_MINUTES, 1)
    return None


def held_days(today: date, count: int) -> tuple[GarageDay, ...]:
    """Return the last sessions that took place before today, the oldest first.

    Parameters
    ----------
    today : date
        The day on which the demo is made; never one of them.
    count : int
        How many.

    Examples
    --------
    >>> [str(d.day) for d in held_days(date(2031, 3, 5), 3)]
    ['2031-02-26', '2031-03-01', '2031-03-03']
    """
    found: list[GarageDay] = []
    day = today
    while len(found) < count:
        day -= timedelta(days=1)
        planned = pattern_day(day, today)
        if planned is not None and not lost_because(day, today):
            found.append(planned)
    return tuple(reversed(found))


def lost_days(today: date, first: date) -> tuple[SessionException, ...]:
    """Return the days of the pattern since ``first`` that were lost, each with its reason."""
    found = []
    for n in range((today - first).days):
        day = first + timedelta(days=n)
        why = lost_because(day, today)
        if why and pattern_day(day, today) is not None:
            found.append(SessionException(day, 0, words=why))
    return tuple(found)


def patterns(today: date) -> tuple[SessionPattern, ...]:
    """Return the repeating sessions: two evenings, and a Saturday with and without the helper."""
    helper = next_helper_saturday(today) - timedelta(days=14 * 26)
    alone = helper + timedelta(days=7)
    evening = helper - timedelta(days=helper.weekday())
    saturday = "FREQ=WEEKLY;INTERVAL=2;BYDAY=SA"
    return (
        SessionPattern(
            "evenings",
            "Monday and Wednesday evening",
            "FREQ=WEEKLY;BYDAY=MO,WE",
            EVENING,
            EVENING_MINUTES,
            1,
            evening,
        ),
        SessionPattern(
            "saturday-helper",
            "Saturday with the helper",
            saturday,
            MORNING,
            SATURDAY_MINUTES,
            2,
            helper,
        ),
        SessionPattern(
            "saturday-alone",
            "Saturday alone",
            saturday,
            MORNING,
            SATURDAY_MINUTES,
            1,
            alone,
        ),
    )


def days_to_come(today: date) -> tuple[SessionException, ...]:
    """Return what is known of the weeks ahead: tonight, a weekend away, a long Saturday.

    On a day that the pattern leaves free there is a session all the same, taken over from
    another evening, so that the demo always has a tonight.
    """
    saturday = next_helper_saturday(today)
    found = [
        SessionException(saturday + timedelta(days=7), 0, words="away for the weekend"),
        SessionException(
            saturday + timedelta(days=14), 420, 2, time(9, 0), "the helper has the whole day"
        ),
    ]
    if pattern_day(today, today) is None:
        found.append(
            SessionException(today, EVENING_MINUTES, 1, EVENING, "instead of another evening")
        )
    return tuple(found)
