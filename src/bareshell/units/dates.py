"""Read days and moments the way they are said: 3 March, last Saturday, yesterday 19:30.

Nothing here looks at a clock: today, or now, is handed in.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo
from typing import Literal

from bareshell.errors import BadInput
from bareshell.units.durations import parse_hours
from bareshell.units.figures import tidy
from bareshell.units.show import MONTHS, WEEKDAYS, show_date

__all__ = ["DateOrder", "Towards", "parse_date", "parse_moment"]

DateOrder = Literal["day first", "month first"]
Towards = Literal["past", "future"]

_EXAMPLE = "write it as 3 March 2026, 2026-03-03, Saturday or yesterday"
_MONTHS = [name.casefold() for name in MONTHS]
_WEEKDAYS = [name.casefold() for name in WEEKDAYS]
_NEAR = {"today": 0, "tonight": 0, "this evening": 0, "tomorrow": 1, "yesterday": -1}
_NEAR |= {"last night": -1, "tomorrow night": 1}

_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_NUMERIC = re.compile(r"(\d{1,2})([./-])(\d{1,2})(?:\2(\d{4}|\d{2}))?\.?")
_DAY_MONTH = re.compile(
    r"(?:(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?,?\s+)?"
    r"(?:the\s+)?(\d{1,2})(?:st|nd|rd|th)?\.?\s*(?:of\s+)?([a-z]{3,9})\.?,?(?:\s*'?(\d{4}|\d{2}))?"
)
_MONTH_DAY = re.compile(r"([a-z]{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?(?:,?\s+(\d{4}))?")
_WEEKDAY = re.compile(r"(?:(last|next|this|on|past|coming)\s+)?([a-z]{3,9})\.?")
_AHEAD = re.compile(r"in\s+(.+)")
_AGO = re.compile(r"(.+)\s+ago")

_TIME = re.compile(
    r"(?:^|[\s,T]|\bat\s+)(?P<hour>\d{1,2})(?:(?P<sep>[:.h])(?P<minute>\d{2}))?"
    r"\s*(?P<half>am|pm|a\.m\.?|p\.m\.?)?(?:\s+(?P<zone>[A-Z]{2,5}))?$"
)
_TWO_DIGIT_YEARS_AHEAD = 20


@dataclass(frozen=True, slots=True)
class _Said:
    """What was said, for which field, when, and which way it looks."""

    typed: str
    field: str
    today: date
    towards: Towards


def parse_date(
    text: str,
    field: str,
    *,
    today: date,
    towards: Towards = "future",
    order: DateOrder | None = None,
) -> date:
    """Read a day.

    Parameters
    ----------
    text : str
        Such as ``"3 March 2026"``, ``"2026-03-03"``, ``"3/3/26"``, ``"Saturday"``,
        ``"last Saturday"``, ``"yesterday"``, ``"in 3 weeks"``, ``"10 days ago"``.
    field : str
        The field's name, for the error.
    today : date
        The day on which it is said, in the garage's own zone.
    towards : {"past", "future"}
        Which way a weekday or a date with no year lies: work done looks back, plans ahead.
    order : {"day first", "month first"}, optional
        How the owner writes a date in figures. Without it 3/4/26 is asked about; points between
        the figures are day first.

    Returns
    -------
    date
        The day.

    Raises
    ------
    BadInput
        When it is no day, or could be two.

    Examples
    --------
    >>> from datetime import date
    >>> tuesday = date(2026, 3, 3)
    >>> parse_date("Saturday", "delivery", today=tuesday)
    datetime.date(2026, 3, 7)
    >>> parse_date("Saturday", "work done", today=tuesday, towards="past")
    datetime.date(2026, 2, 28)
    >>> parse_date("3/4/26", "delivery", today=tuesday)
    Traceback (most recent call last):
    ...
    bareshell.errors.BadInput: delivery: '3/4/26' could be 3 April or 4 March. Write 3 April 2026 \
or 4 March 2026.
    """
    typed = tidy(text, field)
    said = _Said(typed, field, today, towards)
    plain = typed.casefold()
    if plain in _NEAR:
        return today + timedelta(days=_NEAR[plain])
    if iso := _ISO.fullmatch(plain):
        return _day(int(iso[1]), int(iso[2]), int(iso[3]), typed, field)
    if numeric := _NUMERIC.fullmatch(plain):
        return _numeric(numeric, said, order)
    if (named := _DAY_MONTH.fullmatch(plain)) and (month := _month(named[2])):
        return _with_year(named[3], month, int(named[1]), said)
    if (named := _MONTH_DAY.fullmatch(plain)) and (month := _month(named[1])):
        return _with_year(named[3], month, int(named[2]), said)
    if (named := _WEEKDAY.fullmatch(plain)) and (weekday := _weekday(named[2])) is not None:
        return _named_weekday(named[1], weekday, said)
    return _counted(plain, typed, field, today)


def parse_moment(
    text: str,
    field: str,
    *,
    now: datetime,
    zone: tzinfo,
    towards: Towards = "past",
    order: DateOrder | None = None,
) -> datetime:
    """Read a day and time in the garage's zone.

    Parameters
    ----------
    text : str
        Such as ``"now"``, ``"19:30"``, ``"yesterday 7.30 pm"``, ``"3 March at 19:30"``,
        ``"an hour ago"``, ``"2026-03-03T19:30"``.
    field : str
        The field's name, for the error.
    now : datetime
        The moment at which it is said, with its zone.
    zone : tzinfo
        The garage's zone.
    towards, order
        As for `parse_date`.

    Returns
    -------
    datetime
        With the garage's zone.

    Raises
    ------
    BadInput
        When it is no moment, or on the night the clocks change it never was or was twice.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> said = datetime(2026, 3, 3, 21, 0, tzinfo=UTC)
    >>> parse_moment("yesterday 7.30 pm", "held at", now=said, zone=UTC).isoformat()
    '2026-03-02T19:30:00+00:00'
    >>> parse_moment("half an hour ago", "held at", now=said, zone=UTC).isoformat()
    '2026-03-03T20:30:00+00:00'
    """
    typed = tidy(text, field)
    here = now.astimezone(zone)
    plain = typed.casefold()
    if plain == "now":
        return here
    if ago := _AGO.fullmatch(plain):
        hours = parse_hours(ago[1], field, days=True)
        return (now - timedelta(hours=hours)).astimezone(zone)
    if ahead := _AHEAD.fullmatch(plain):
        hours = parse_hours(ahead[1], field, days=True)
        return (now + timedelta(hours=hours)).astimezone(zone)
    clock = _TIME.search(typed if typed[0] not in "Tt" else typed.replace("T", "t", 1))
    if clock is None or not (clock["sep"] or clock["half"]):
        raise BadInput(field, f"'{typed}' has no time of day", "write it as yesterday 19:30")
    hour, minute = _hour_minute(clock, typed, field)
    day_text = re.sub(r"(?:,|\bat)?\s*$", "", typed[: clock.start()])
    day = (
        parse_date(day_text, field, today=here.date(), towards=towards, order=order)
        if day_text
        else here.date()
    )
    wall = datetime(day.year, day.month, day.day, hour, minute, tzinfo=zone)
    return _settled(wall, clock["zone"], typed, field)


def _hour_minute(clock: re.Match[str], typed: str, field: str) -> tuple[int, int]:
    hour, minute = int(clock["hour"]), int(clock["minute"] or 0)
    half = (clock["half"] or "").replace(".", "")
    if (half and not 1 <= hour <= 12) or hour > 23 or minute > 59:
        raise BadInput(field, f"'{typed}' has no such time of day", "write it as 19:30 or 7.30 pm")
    if half:
        hour = hour % 12 + (12 if half == "pm" else 0)
    return hour, minute


def _settled(wall: datetime, zone_name: str | None, typed: str, field: str) -> datetime:
    """Decide the hour that the clocks skip or repeat, or ask."""
    first, second = wall.replace(fold=0), wall.replace(fold=1)
    if zone_name is not None:
        for each in (first, second):
            if each.tzname() == zone_name:
                return each
        names = " or ".join(
            dict.fromkeys(name for name in (first.tzname(), second.tzname()) if name)
        )
        raise BadInput(
            field, f"in '{typed}', {zone_name} is not the garage's time", f"write {names}"
        )
    if first.utcoffset() == second.utcoffset():
        return first
    if first.utcoffset() < second.utcoffset():  # type: ignore[operator]
        raise BadInput(
            field,
            f"'{typed}' never was: the clocks went forward over it",
            "write the time the clock showed",
        )
    clock = f"{wall:%H:%M}"
    raise BadInput(
        field,
        f"'{typed}' was twice: the clocks went back that night",
        f"write {clock} {first.tzname()} for the first or {clock} {second.tzname()} for the second",
    )


def _day(year: int, month: int, day: int, typed: str, field: str) -> date:
    try:
        return date(year, month, day)
    except ValueError:
        raise BadInput(field, f"there is no such day as '{typed}'", _EXAMPLE) from None


def _month(word: str) -> int | None:
    if word == "sept":
        return 9
    return next((at for at, name in enumerate(_MONTHS, 1) if name.startswith(word)), None)


def _weekday(word: str) -> int | None:
    return next((at for at, name in enumerate(_WEEKDAYS) if name.startswith(word)), None)


def _numeric(match: re.Match[str], said: _Said, order: DateOrder | None) -> date:
    first, second = int(match[1]), int(match[3])
    day_first = order == "day first" or match[2] == "."
    if order is None and not day_first and first != second and max(first, second) <= 12:
        one = _with_year(match[4], second, first, said)
        other = _with_year(match[4], first, second, said)
        raise BadInput(
            said.field,
            f"'{said.typed}' could be {_plain(one)} or {_plain(other)}",
            f"write {_plain(one)} {one.year} or {_plain(other)} {other.year}",
        )
    # Without an order, equal figures read the same either way; a thirteenth month is a day.
    month_first = not day_first and first <= 12 and (order is not None or second > 12)
    month, day = (first, second) if month_first else (second, first)
    return _with_year(match[4], month, day, said)


def _plain(day: date) -> str:
    return f"{day.day} {MONTHS[day.month - 1]}"


def _with_year(year: str | None, month: int, day: int, said: _Said) -> date:
    if year is not None:
        return _day(_full_year(int(year), said.today), month, day, said.typed, said.field)
    step = 1 if said.towards == "future" else -1
    for years in range(9):  # 29 February comes round within eight years
        try:
            found = date(said.today.year + step * years, month, day)
        except ValueError:
            continue
        if (found - said.today).days * step >= 0:
            return found
    raise BadInput(said.field, f"there is no such day as '{said.typed}'", _EXAMPLE)


def _full_year(year: int, today: date) -> int:
    """Give two figures their century: the one that lies no more than twenty years ahead."""
    if year >= 100:
        return year
    latest = today.year + _TWO_DIGIT_YEARS_AHEAD
    return latest - (latest - year) % 100


def _named_weekday(word: str | None, weekday: int, said: _Said) -> date:
    today = said.today
    coming = today + timedelta(days=(weekday - today.weekday()) % 7)
    gone = today - timedelta(days=(today.weekday() - weekday) % 7)
    if word in {"last", "past"}:
        return gone if gone < today else gone - timedelta(days=7)
    if word == "next":
        nearest = coming if coming > today else coming + timedelta(days=7)
        after = nearest + timedelta(days=7)
        raise BadInput(
            said.field,
            f"'{said.typed}' could be {show_date(nearest)} or the week after",
            f"write {_plain(nearest)} or {_plain(after)}",
        )
    if word in {"this", "coming"} or said.towards == "future":
        return coming
    return gone


def _counted(plain: str, typed: str, field: str, today: date) -> date:
    ahead, ago = _AHEAD.fullmatch(plain), _AGO.fullmatch(plain)
    words = ahead[1] if ahead else ago[1] if ago else None
    if words is None:
        raise BadInput(field, f"'{typed}' is no day", _EXAMPLE)
    hours = parse_hours(words, field, days=True)
    if hours % 24:
        raise BadInput(field, f"'{typed}' is not a whole number of days", _EXAMPLE)
    return today + timedelta(days=round(hours / 24) * (1 if ahead else -1))
