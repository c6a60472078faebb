"""What any change must keep to: names that fit an address, words that print, figures of a size.

Old journals are folded without asking this; it stands before what is new. The bounds are wider
than any garage needs and narrow enough that a slip of the finger is caught.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from functools import cache

from bareshell.errors import BadInput
from bareshell.model import changes as c
from bareshell.model.job import Job
from bareshell.model.session import HeldSession, SessionException, SessionPattern

LONGEST_WORDS = 10_000
LONGEST_NAME = 300
LARGEST_COUNT = 1_000_000
LONGEST_SESSION_MINUTES = 24 * 60
LONGEST_JOB_HOURS = 1000.0
LONGEST_WAIT_HOURS = 24.0 * 366
LARGEST_AMOUNT = 1_000_000_000
COLDEST_C, HOTTEST_C = -60.0, 150.0

_NAMES = frozenset({"title", "name", "supplier", "by"})
_SHORT_NAME = re.compile(r"(?!\.{1,2}$)[^\s/\\?#%&\"'<>]{1,150}")
_RULE = re.compile(r"(?:RRULE:)?[A-Z]+=[^;=\s]+(?:;[A-Z]+=[^;=\s]+)*", re.IGNORECASE)
_BY_DAYS = frozenset({"DAILY", "WEEKLY", "MONTHLY", "YEARLY"})
_BY_CLOCK = frozenset({"BYHOUR", "BYMINUTE", "BYSECOND"})
_EXAMPLE = "write it as FREQ=WEEKLY;BYDAY=MO,WE"


def check_bounds(change: c.Change) -> None:
    """Check everything that a change says against what can be kept and shown at all.

    Raises
    ------
    BadInput
        Naming the field, what is wrong with it, and what would be right.

    Examples
    --------
    >>> check_bounds(c.NeedNotHere("hose", "looked in every box"))
    >>> check_bounds(c.NeedNotHere("hose", "a" * 20_000))
    Traceback (most recent call last):
    ...
    bareshell.errors.BadInput: words: 20000 letters are too many. Keep it to 10000.
    """
    for name, value in _everything(change, ""):
        if isinstance(value, str):
            _check_words(name, value)
        elif isinstance(value, int | float):
            _check_figure(name, value)
        elif isinstance(value, Decimal):
            _check_amount(value)
        elif isinstance(value, date):
            _check_year(name, value)
        elif isinstance(value, Job):
            _check_job(value)
        elif isinstance(value, SessionPattern):
            _check_minutes(value.minutes)
            _check_rule(value)
        elif isinstance(value, SessionException):
            _check_minutes(value.minutes)
        elif isinstance(value, HeldSession):
            _check_held(value)


def _everything(value: object, name: str) -> Iterator[tuple[str, object]]:
    yield name, value
    if isinstance(value, tuple | list | frozenset):
        for each in value:
            yield from _everything(each, name)
    elif isinstance(value, Mapping):
        for key, each in value.items():
            yield f"{name}, name", key
            yield from _everything(each, name)
    elif is_dataclass(value) and not isinstance(value, type):
        for field in _fields(type(value)):
            yield from _everything(getattr(value, field), field)


@cache
def _fields(cls: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(cls))


def _said(name: str) -> str:
    return "short name" if name == "id" else name.replace("_", " ")


def _check_words(name: str, words: str) -> None:
    for letter in words:
        # Letters of every script, emoji and marks of direction are words; what steers a
        # terminal, and half a surrogate pair, is not.
        if letter not in "\n\r\t" and unicodedata.category(letter) in {"Cc", "Cs"}:
            raise BadInput(
                _said(name),
                f"it holds a character that cannot be shown (U+{ord(letter):04X})",
                "type it again without it",
            )
    if name == "id":
        if not _SHORT_NAME.fullmatch(words):
            shown = words if len(words) <= 60 else f"{words[:57]}..."
            raise BadInput(
                "short name",
                f"'{shown}' cannot be one",
                "use up to 150 letters, figures, points and dashes, such as rear-pipe",
            )
        return
    most = LONGEST_NAME if name in _NAMES else LONGEST_WORDS
    if len(words) > most:
        raise BadInput(_said(name), f"{len(words)} letters are too many", f"keep it to {most}")


def _check_figure(name: str, figure: float) -> None:
    if not math.isfinite(figure):
        raise BadInput(_said(name), f"{figure:g} is no figure", "give a figure, or leave it out")
    if isinstance(figure, int) and abs(figure) > LARGEST_COUNT:
        raise BadInput(
            _said(name), f"{figure:.3g} is beyond counting", f"give at most {LARGEST_COUNT}"
        )
    if name.endswith("_c") and not COLDEST_C <= figure <= HOTTEST_C:
        raise BadInput(
            _said(name).removesuffix(" c"),
            f"{figure:g} °C is no garage's",
            f"give degrees Celsius from {COLDEST_C:g} to {HOTTEST_C:g}",
        )
    if name.endswith("hours") and abs(figure) > LONGEST_WAIT_HOURS:
        raise BadInput(_said(name), f"{figure:g} hours is over a year", "give fewer hours")


def _check_amount(amount: Decimal) -> None:
    if not amount.is_finite() or abs(amount) > LARGEST_AMOUNT:
        raise BadInput("price", f"{amount:.3g} is no price", "write it as 12.50")


def _check_year(name: str, day: date) -> None:
    if not 1900 <= day.year <= 2200:
        raise BadInput(
            _said(name), f"the year {day.year} is far from this garage", "write it as 2026-03-04"
        )


def _check_job(job: Job) -> None:
    for way in job.ways:
        if not way.hours.pessimistic_hours <= LONGEST_JOB_HOURS:
            raise BadInput(
                f"job '{job.title}', hours",
                f"{way.hours.pessimistic_hours:g} hours is longer than any job",
                f"give at most {LONGEST_JOB_HOURS:g}, or make several jobs of it",
            )


def _check_minutes(minutes: int) -> None:
    if minutes > LONGEST_SESSION_MINUTES:
        raise BadInput(
            "minutes",
            f"{minutes} minutes is longer than a day",
            f"give at most {LONGEST_SESSION_MINUTES}, such as 150",
        )


def _check_held(session: HeldSession) -> None:
    hours = (session.ended_at - session.started_at).total_seconds() / 3600
    if hours > LONGEST_SESSION_MINUTES / 60:
        raise BadInput(
            "session",
            f"it would have lasted {hours:.0f} hours",
            "look at the days on which it began and ended",
        )


def _check_rule(pattern: SessionPattern) -> None:
    """Refuse a rule that would never come to an end when it is written out.

    The parts of a rule are those of RFC 5545, section 3.3.10.
    """
    rule = pattern.rule
    field = f"session '{pattern.title}', rule"
    if not _RULE.fullmatch(rule):
        raise BadInput(field, f"'{rule}' cannot be read", _EXAMPLE)
    body = rule.upper().removeprefix("RRULE:")
    parts = dict(part.split("=", 1) for part in body.split(";"))
    if parts.get("FREQ") not in _BY_DAYS or parts.keys() & _BY_CLOCK:
        raise BadInput(field, f"'{rule}' does not repeat by the day", _EXAMPLE)
    every = parts.get("INTERVAL", "1")
    if not every.isascii() or not every.isdigit() or not 1 <= int(every[:6]) <= 1000:
        raise BadInput(field, f"every {every} is no interval", "give 1 or more after INTERVAL=")
