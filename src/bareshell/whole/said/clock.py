"""Times of day as they are said: 21:40, half nine, twenty to ten, nine thirty, 7pm."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo
from typing import Final

from bareshell.whole.said.numbers import number_at, texts_at
from bareshell.whole.said.words import Token

_HALVES: Final = frozenset({"am", "pm"})
_BEFORE: Final = frozenset(
    {"at", "from", "till", "til", "until", "since", "to", "by", "stopped", "started", "off"}
)
SINCE: Final = frozenset({"from", "since"})
UNTIL: Final = frozenset({"till", "til", "until"})
_CLOCK = re.compile(r"(\d{1,2})[:.](\d{2})")
_FOUR = re.compile(r"([01]\d|2[0-3])([0-5]\d)")


@dataclass(frozen=True, slots=True)
class Clock:
    """Minutes after midnight as said, which half of the day if that was said, what follows."""

    minutes: int
    half: str
    after: int


def clock_at(tokens: Sequence[Token], at: int) -> Clock | None:
    """Read the time of day that begins at a token.

    Examples
    --------
    >>> from bareshell.whole.said.words import tokens_of
    >>> said = ("half nine", "twenty to ten", "quarter past nine", "21:40", "7pm", "9.30pm")
    >>> [clock_at(tokens_of(s), 0).minutes for s in said]
    [570, 580, 555, 1300, 1140, 1290]
    >>> clock_at(tokens_of("2.5 h"), 0) is None
    True
    """
    return (
        _figures(tokens, at)
        or _in_words(tokens, at)
        or _after_a_word(tokens, at)
        or _opens_a_range(tokens, at)
    )


def _figures(tokens: Sequence[Token], at: int) -> Clock | None:
    text = tokens[at].text
    follows = texts_at(tokens, at, 2)[1:]
    half = follows[0] if follows and follows[0] in _HALVES else ""
    clock = _CLOCK.fullmatch(text)
    if clock and (":" in text or half or _is_asked_for(tokens, at)):
        hour, minute = int(clock[1]), int(clock[2])
        if hour > 23 or minute > 59:
            return None
        return _clock(hour, minute, half, at + 1 + bool(half))
    if half and text.isascii() and text.isdigit() and 1 <= int(text) <= 12:
        return _clock(int(text), 0, half, at + 2)
    four = _FOUR.fullmatch(text)
    if four and _is_asked_for(tokens, at) and tokens[at - 1].text not in ("to", "by", "off"):
        return _clock(int(four[1]), int(four[2]), "24", at + 1)
    return None


def _is_asked_for(tokens: Sequence[Token], at: int) -> bool:
    return at > 0 and tokens[at - 1].text in _BEFORE and not tokens[at].gap


def _in_words(tokens: Sequence[Token], at: int) -> Clock | None:
    """Read half nine, quarter to ten, ten past nine, nine o'clock."""
    if texts_at(tokens, at, 2)[:1] == ("half",):
        start = at + 2 if tokens[at + 1].text == "past" else at + 1
        if texts_at(tokens, at, 3)[1:] == ("a", "dozen"):
            return None
        hour = _hour(tokens, start)
        return None if hour is None else _clock(hour[0], 30, hour[2], hour[1])
    offset = _offset(tokens, at)
    if offset is not None:
        minutes, after = offset
        way = tokens[after].text if after < len(tokens) and not tokens[after].gap else ""
        hour = _hour(tokens, after + 1) if way in ("past", "to") else None
        spoken_range = at > 0 and tokens[at - 1].text == "from"
        if (
            hour is not None
            and (way == "past" or minutes % 5 == 0)
            and not (
                spoken_range and way == "to" and minutes == 10 and not _another_to(tokens, hour[1])
            )
        ):
            signed = minutes if way == "past" else -minutes
            return _clock(hour[0], signed, hour[2], hour[1])
    hour = _hour(tokens, at)
    if hour is not None and texts_at(tokens, at, 2)[1:] in (("oclock",), ("o",)):
        after = at + 2 + (texts_at(tokens, at, 3)[2:] == ("clock",))
        return _clock(hour[0], 0, _half_at(tokens, after), after + bool(_half_at(tokens, after)))
    return None


def _another_to(tokens: Sequence[Token], at: int) -> bool:
    return at < len(tokens) and (tokens[at].text == "to" or tokens[at].text in UNTIL)


def _offset(tokens: Sequence[Token], at: int) -> tuple[int, int] | None:
    words = texts_at(tokens, at, 2)
    if words[:1] == ("quarter",):
        return 15, at + 1
    if words == ("a", "quarter"):
        return 15, at + 2
    number = number_at(tokens, at)
    if number is None or number[0] != int(number[0]) or not 1 <= number[0] <= 29:
        return None
    after = number[1]
    if after < len(tokens) and tokens[after].text in ("min", "mins", "minutes"):
        after += 1
    return int(number[0]), after


def _after_a_word(tokens: Sequence[Token], at: int) -> Clock | None:
    """Read a bare hour, or nine thirty, where the word before asks for a time."""
    if not _is_asked_for(tokens, at):
        return None
    word = tokens[at - 1].text
    if word == "to" and not _range_before(tokens, at - 1):
        return None
    if word == "off" and (at < 2 or tokens[at - 2].text != "knocked"):
        return None
    hour = _hour(tokens, at)
    if hour is None:
        return None
    value, after, half = hour
    if half:
        return _clock(value, 0, half, after)
    minutes = number_at(tokens, after) if after < len(tokens) and not tokens[after].gap else None
    if minutes is not None and minutes[0] in range(10, 60, 5):
        return _clock(value, int(minutes[0]), _half_at(tokens, minutes[1]), minutes[1])
    follows = tokens[after].text if after < len(tokens) and not tokens[after].gap else ""
    ends_a_range = word in UNTIL and at > 1 and _hour(tokens, at - 2, opens=True) is not None
    plain = ends_a_range or follows in (
        "",
        "till",
        "til",
        "until",
        "to",
        "and",
        "tonight",
        "on",
        "just",
        "we",
        "i",
    )
    if not plain or (word in ("at", "to", "by") and not _time_like(tokens, at)):
        return None
    return _clock(value, 0, "", after)


def _opens_a_range(tokens: Sequence[Token], at: int) -> Clock | None:
    """Read the 7 of "7 to 9:30" and of "7-9:30": what it leads to can only be a time."""
    hour = _hour(tokens, at, opens=True) if at == 0 or tokens[at].gap else None
    if hour is None or hour[1] >= len(tokens) or tokens[hour[1]].gap:
        return None
    value, after, half = hour
    if tokens[after].text == "to" or tokens[after].text in UNTIL:
        ends = after + 1
    elif tokens[after].start - tokens[after - 1].end == 1 and not tokens[after].glued:
        ends = after
    else:
        return None
    if ends >= len(tokens) or tokens[ends].gap:
        return None
    if tokens[after].text in UNTIL and _hour(tokens, ends) is not None:
        return _clock(value, 0, half, after)
    second = _figures(tokens, ends) or _in_words(tokens, ends)
    clear = second is not None and (":" in tokens[ends].text or second.after > ends + 1)
    return _clock(value, 0, half, after) if clear else None


def _time_like(tokens: Sequence[Token], at: int) -> bool:
    earlier = {t.text for t in tokens[max(0, at - 5) : at]}
    return bool(
        earlier
        & {"from", "stopped", "started", "finished", "packed", "knocked", "left", "gave", "called"}
    )


def _range_before(tokens: Sequence[Token], at: int) -> bool:
    """Whether "to" stands in "from seven to nine"."""
    return any(t.text == "from" for t in tokens[max(0, at - 5) : at])


def _hour(tokens: Sequence[Token], at: int, *, opens: bool = False) -> tuple[int, int, str] | None:
    if at >= len(tokens) or (at and tokens[at].gap and not opens):
        return None
    number = number_at(tokens, at)
    if number is None or number[0] != int(number[0]) or not 1 <= number[0] <= 23:
        return None
    half = _half_at(tokens, number[1])
    if half and number[0] > 12:
        return None
    return int(number[0]), number[1] + bool(half), half


def _half_at(tokens: Sequence[Token], at: int) -> str:
    if at < len(tokens) and not tokens[at].gap and tokens[at].text in _HALVES:
        return tokens[at].text
    return ""


def _clock(hour: int, minute: int, half: str, after: int) -> Clock:
    if hour > 12 or (hour == 0 and not half):
        half = "24"
    minutes = (hour % 12 if half in _HALVES else hour) * 60 + minute
    if half == "pm":
        minutes += 12 * 60
    return Clock(minutes % (24 * 60), "24" if half in _HALVES else half, after)


def moment_of(minutes: float, half: str, near: datetime, zone: tzinfo) -> datetime:
    """Return the latest moment, not after ``near`` and half an hour, at which the clock said so.

    A clock time with no half of the day is taken as whichever came last: half nine, typed at
    a quarter to ten in the evening, was in the evening.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> said_at = datetime(2026, 11, 25, 21, 45, tzinfo=UTC)
    >>> moment_of(570, "", said_at, UTC).strftime("%d %H:%M")
    '25 21:30'
    """
    here = near.astimezone(zone)
    latest = near + timedelta(minutes=30)
    offers = [minutes] if half == "24" else [minutes, (minutes + 720) % 1440]
    found: list[datetime] = []
    for days in (0, 1):
        day = (here - timedelta(days=days)).date()
        for offer in offers:
            hour, minute = divmod(int(offer), 60)
            moment = datetime(day.year, day.month, day.day, hour, minute, tzinfo=zone)
            if moment <= latest:
                found.append(moment)
    return max(found)
