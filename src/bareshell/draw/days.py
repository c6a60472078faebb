"""Days as the pictures write them, the same whatever the machine's own language."""

from __future__ import annotations

from datetime import date
from typing import Final

_MONTHS: Final = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_DAYS: Final = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def short_day(day: date) -> str:
    """A day and the first letters of its month.

    Examples
    --------
    >>> short_day(date(2026, 11, 23))
    '23 Nov'
    """
    return f"{day.day} {_MONTHS[day.month - 1][:3]}"


def full_day(day: date) -> str:
    """A day, its month and its year.

    Examples
    --------
    >>> full_day(date(2026, 11, 23))
    '23 November 2026'
    """
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def weekday(day: date) -> str:
    """The first letters of a weekday.

    Examples
    --------
    >>> weekday(date(2026, 11, 25))
    'Wed'
    """
    return _DAYS[day.weekday()][:3]


def month(day: date) -> str:
    """The first letters of a month."""
    return _MONTHS[day.month - 1][:3]
