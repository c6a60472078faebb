"""How planning speaks: dates, stretches of time and lists as a restorer reads them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from bareshell.errors import BadInput
from bareshell.plan.problem import PlanProblem

__all__ = ["clock", "date", "days", "listed", "quoted", "stretch", "support", "temperature", "week"]

_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def _local(problem: PlanProblem, minute: int) -> datetime:
    try:
        zone = ZoneInfo(problem.time_zone)
    except (KeyError, ValueError) as unknown:
        raise BadInput(
            "time zone", f"'{problem.time_zone}' is not known", "write one such as Europe/London"
        ) from unknown
    return (problem.origin + timedelta(minutes=minute)).astimezone(zone)


def date(problem: PlanProblem, minute: int) -> str:
    """Read a minute out as a day, with the year when it is not this one.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.plan.sessions import SessionSource
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (), SessionSource())
    >>> date(plan, 0), date(plan, 400 * 24 * 60)
    ('Tue 4 Mar', 'Wed 7 Apr 2032')
    """
    when = _local(problem, minute)
    text = f"{_WEEKDAYS[when.weekday()]} {when.day} {_MONTHS[when.month - 1]}"
    return text if when.year == _local(problem, 0).year else f"{text} {when.year}"


def clock(problem: PlanProblem, minute: int) -> str:
    """Read a minute out as a day and a time.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.plan.sessions import SessionSource
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (), SessionSource())
    >>> clock(plan, 19 * 60 + 5)
    'Tue 4 Mar 19:05'
    """
    when = _local(problem, minute)
    return f"{date(problem, minute)} {when.hour:02d}:{when.minute:02d}"


def week(problem: PlanProblem, minute: int) -> str:
    """Read a minute out as its week, for dates that are no better than that.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.plan.sessions import SessionSource
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (), SessionSource())
    >>> week(plan, 3 * 24 * 60)
    'the week of Mon 3 Mar'
    """
    since_monday = _local(problem, minute).weekday()
    return f"the week of {date(problem, minute - since_monday * 24 * 60)}"


def stretch(minutes: int) -> str:
    """Read a length of time out.

    Examples
    --------
    >>> [stretch(m) for m in (45, 60, 150, 3 * 24 * 60)]
    ['45 min', '1 h', '2 h 30 min', '3 days']
    """
    if minutes < 60:
        return f"{minutes} min"
    if minutes >= 3 * 24 * 60:
        return f"{round(minutes / (24 * 60))} days"
    hours, rest = divmod(minutes, 60)
    return f"{hours} h" if not rest else f"{hours} h {rest} min"


def days(value: float) -> str:
    """Read a number of days out.

    Examples
    --------
    >>> days(0.24), days(1.0), days(12.4)
    ('0.2 days', '1.0 days', '12 days')
    """
    return f"{value:.1f} days" if abs(value) < 10 else f"{value:.0f} days"


def temperature(value: float) -> str:
    """Read a temperature out.

    Examples
    --------
    >>> temperature(5.0), temperature(7.5)
    ('5 °C', '7.5 °C')
    """
    return f"{round(value, 1):g} °C"


def quoted(title: str) -> str:
    """Put a job's title into a sentence."""
    return f"'{title}'"


def listed(words: Iterable[str], most: int = 4) -> str:
    """Read a list out, cutting a long one short by saying how many more there are.

    Examples
    --------
    >>> listed(["wax", "tank", "straps"])
    'wax, tank and straps'
    >>> listed("abcdefg", most=3)
    'a, b, c and 4 more'
    """
    items: Sequence[str] = tuple(words)
    if len(items) > most:
        items = (*items[:most], f"{len(items) - most} more")
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} and {items[-1]}"


def support(problem: PlanProblem, *keys: str) -> str:
    """Read supports out by what the restorer calls them, any of which would do.

    Examples
    --------
    >>> from bareshell.plan.sessions import SessionSource
    >>> from datetime import UTC
    >>> titles = (("lift", "Scissor lift"),)
    >>> none = SessionSource()
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (), none, support_titles=titles)
    >>> support(plan, "pit", "lift")
    "'Scissor lift' or pit"
    """
    titles = dict(problem.support_titles)
    return " or ".join(f"'{titles[key]}'" if key in titles else key for key in sorted(keys))
