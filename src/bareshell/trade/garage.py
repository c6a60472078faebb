"""The garage as the first answers describe it: warmth, supports, and a usual week."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from bareshell.model.position import Placement, Support
from bareshell.model.session import Garage, SessionPattern
from bareshell.trade.answers import Answers, Stretch
from bareshell.trade.supports import default_supports, support_id

WEEK = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_WEEKEND = frozenset(WEEK[5:])
_EVENING_FROM = 17

_HELPER_RULES = {
    "every week": "FREQ=WEEKLY;BYDAY={day}",
    "every two weeks": "FREQ=WEEKLY;INTERVAL=2;BYDAY={day}",
    "once a month": "FREQ=MONTHLY;BYDAY=1{day}",
}


def garage_of(answers: Answers) -> Garage | None:
    """Return the bay, or None when nobody could say how warm it gets."""
    return None if answers.heated is None else Garage(heated_to_c=answers.heated_to_c)


def supports_of(answers: Answers) -> tuple[Support, ...]:
    """Return what the car can stand on, what it stands on now included."""
    named = set(answers.supports or ())
    if answers.standing is not None:
        named.add(answers.standing)
    return default_supports(named)


def placement_of(answers: Answers) -> Placement | None:
    """Return how the car stands and what is off it, or None when nobody could say."""
    if answers.standing is None:
        return None
    off = {
        state
        for state, is_in in (("engine out", answers.engine_in), ("glass out", answers.glass_in))
        if is_in is False
    }
    return Placement(support_id(answers.standing), frozenset(off))


def patterns_of(answers: Answers, at: datetime, zone: str) -> tuple[SessionPattern, ...]:
    """Return the usual week; nothing while days or hours are not known.

    The helper comes on the day with the most time: Saturday, else Sunday, else the last day
    of the week that was named. That day's sessions meet and become one with two people.

    Parameters
    ----------
    answers : Answers
        Days, hours and helper.
    at : datetime
        Now, aware; the week counts from its day.
    zone : str
        The time zone of the owner's clock (IANA name).
    """
    if not answers.days or answers.weekday is None:
        return ()
    today = at.astimezone(ZoneInfo(zone)).date()
    weekend = answers.weekend or answers.weekday
    made = [
        _pattern(
            "weekdays", [d for d in answers.days if d not in _WEEKEND], answers.weekday, today
        ),
        _pattern("weekend", [d for d in answers.days if d in _WEEKEND], weekend, today),
    ]
    rule = _HELPER_RULES.get(answers.helper or "")
    if rule is not None:
        day = next((d for d in WEEK[5:] if d in answers.days), answers.days[-1])
        stretch = weekend if day in _WEEKEND else answers.weekday
        made.append(
            SessionPattern(
                "helper",
                f"{day.capitalize()} with a helper, {answers.helper}",
                rule.format(day=_letters(day)),
                stretch.starts,
                stretch.minutes,
                2,
                _next(day, today),
            )
        )
    return tuple(pattern for pattern in made if pattern is not None)


def _pattern(key: str, days: list[str], stretch: Stretch, today: date) -> SessionPattern | None:
    if not days:
        return None
    names = [day.capitalize() for day in days]
    listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    evening = stretch.starts.hour >= _EVENING_FROM
    return SessionPattern(
        key,
        f"{listed} evening{'s' if len(names) > 1 else ''}" if evening else listed,
        f"FREQ=WEEKLY;BYDAY={','.join(_letters(day) for day in days)}",
        stretch.starts,
        stretch.minutes,
        1,
        _next(days[0], today),
    )


def _letters(day: str) -> str:
    return day[:2].upper()


def _next(day: str, today: date) -> date:
    return today + timedelta(days=(WEEK.index(day) - today.weekday()) % 7)
