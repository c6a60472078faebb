"""The answers of the first ten minutes, read from what a form or a command line sends."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import time

from bareshell.errors import BadInput, Problem
from bareshell.model.car import OPTIONAL_SYSTEMS, Layout
from bareshell.model.position import SupportKind
from bareshell.trade.questions import KINDS_BY_ANSWER, NOT_SURE, QUESTIONS, Question
from bareshell.trade.row import FORCED_INDUCTION

LONGEST_MINUTES = 14 * 60
"""A session that would last longer than this is taken for a slip of the pen. [min]"""


@dataclass(frozen=True, slots=True)
class Stretch:
    """When a session begins by the clock on the wall, and how long it lasts."""

    starts: time
    minutes: int


@dataclass(frozen=True, slots=True)
class Answers:
    """What the owner answered; None wherever the answer was "not sure" or nothing.

    Parameters
    ----------
    name, layout
        Always known.
    systems, options : frozenset of str or None
        What is part of the work.
    supports : frozenset of SupportKind or None
        What the garage has.
    standing : SupportKind or None
        How the car stands.
    engine_in, glass_in : bool or None
        What is on the car.
    pedal : str or None
        ``hard``, ``soft`` or ``nothing``.
    helper : str or None
        ``never``, ``every week``, ``every two weeks`` or ``once a month``.
    days : tuple of str or None
        ``monday`` to ``sunday``, in the order of the week.
    weekday, weekend : Stretch or None
        The hours; ``weekend`` only when they are others.
    heated : bool or None
        Whether the bay is heated; with ``heated_to_c`` how far. [degC]
    """

    name: str
    layout: Layout
    systems: frozenset[str] | None = None
    options: frozenset[str] = frozenset()
    supports: frozenset[SupportKind] | None = None
    standing: SupportKind | None = None
    engine_in: bool | None = None
    pedal: str | None = None
    glass_in: bool | None = None
    helper: str | None = None
    days: tuple[str, ...] | None = None
    weekday: Stretch | None = None
    weekend: Stretch | None = None
    heated: bool | None = None
    heated_to_c: float | None = None


def read_answers(given: Mapping[str, str | Iterable[str]]) -> Answers:
    """Read the answers, all of them before anything is said about one.

    Parameters
    ----------
    given : mapping of str to str or strings
        By the question's id. Several choices come as several strings, or as one with commas.
        No answer, and "not sure", are the same.

    Raises
    ------
    BadInput
        With every answer that cannot be read (`BadInput.problems`).

    Examples
    --------
    >>> read_answers({"name": "the old saloon", "layout": "rear", "engine": "not sure"}).engine_in
    >>> read_answers({"name": "the old saloon", "layout": "rwd", "hours": "19:15 to 21:45"}).weekday
    Stretch(starts=datetime.time(19, 15), minutes=150)
    """
    known = [question.id for question in QUESTIONS]
    problems = [
        Problem(odd, "there is no such question", f"answer one of: {', '.join(known)}")
        for odd in sorted(given.keys() - set(known))
    ]
    read = {q.id: _read(q, given.get(q.id, ""), problems) for q in QUESTIONS}
    stretches = _hours(" ".join(read["hours"]), problems)
    heated_to_c = _heated(read["heated"], problems)
    if problems:
        raise BadInput.together(problems)
    systems = frozenset(read["systems"]) & frozenset(OPTIONAL_SYSTEMS)
    standing = KINDS_BY_ANSWER.get(_first(read["standing"]) or "")
    return Answers(
        name=" ".join(read["name"]),
        layout=Layout(read["layout"][0]),
        systems=systems or None,
        options=frozenset(read["systems"]) & {FORCED_INDUCTION},
        supports=frozenset(KINDS_BY_ANSWER[s] for s in read["supports"]) or None,
        standing=standing,
        engine_in=_is_in(read["engine"]),
        pedal=_first(read["pedal"]),
        glass_in=_is_in(read["glass"]),
        helper=_first(read["helper"]),
        days=tuple(read["days"]) or None,
        weekday=stretches[0] if stretches else None,
        weekend=stretches[1] if len(stretches) > 1 else None,
        heated=None if not read["heated"] else read["heated"] != ["no"],
        heated_to_c=heated_to_c,
    )


def _first(words: list[str]) -> str | None:
    return words[0] if words else None


def _is_in(words: list[str]) -> bool | None:
    return None if not words else words[0] == "in"


def _read(question: Question, given: str | Iterable[str], problems: list[Problem]) -> list[str]:
    """Read one answer as the values it means; an empty list is "not sure"."""
    parts = [given] if isinstance(given, str) else list(given)
    if question.kind == "many":
        parts = [piece for part in parts for piece in part.split(",")]
    parts = [" ".join(part.split()) for part in parts]
    said = [part for part in parts if part]
    unsure = not said or any(part.casefold() == NOT_SURE for part in said)
    if unsure:
        if not question.may_be_unsure:
            problems.append(Problem(question.ask, "needs an answer", question.help))
        elif said and len(said) > 1:
            problems.append(
                Problem(question.ask, "says not sure and something too", "choose one or the other")
            )
        return []
    if not question.choices or question.id == "heated":
        return said
    if question.kind == "one" and len(said) > 1:
        problems.append(Problem(question.ask, "has more than one answer", "choose one of them"))
        return said[:1]
    values = [_chosen(question, part, problems) for part in said]
    return [c.value for c in question.choices if c.value in values]


def _chosen(question: Question, said: str, problems: list[Problem]) -> str | None:
    for choice in question.choices:
        if said.casefold() in (choice.value, choice.words.casefold(), *choice.also):
            return choice.value
    choices = ", ".join(choice.value for choice in question.choices)
    unsure = f", or {NOT_SURE}" if question.may_be_unsure else ""
    problems.append(
        Problem(question.ask, f"'{said}' is none of the answers", f"choose {choices}{unsure}")
    )
    return None


def _heated(read: list[str], problems: list[Problem]) -> float | None:
    if not read:
        return None
    said = read[0].casefold().removesuffix("c").strip().removesuffix("degrees").strip()
    if said in ("no", "unheated", "not heated"):
        read[:] = ["no"]
        return None
    try:
        degrees = float(said)
    except ValueError:
        degrees = -1.0
    if 5 <= degrees <= 30:
        return degrees
    problems.append(
        Problem(
            "Is the garage heated?",
            f"'{read[0]}' is no warmth",
            f"write no, the degrees Celsius it reaches (5 to 30), or {NOT_SURE}",
        )
    )
    return None


_CLOCK = r"(\d{1,2})(?:[:.](\d{2}))?\s*(am|pm)?"
_FROM_TO = re.compile(rf"{_CLOCK}\s*(?:-|–|to|until)\s*{_CLOCK}")
_FROM_FOR = re.compile(rf"{_CLOCK}\s+(?:for\s+)?(\d+(?:\.\d+)?)\s*(?:h|hours?)")


def _hours(said: str, problems: list[Problem]) -> list[Stretch]:
    """Read one stretch for every day, or two: weekdays; weekend."""
    if not said:
        return []
    pieces = [piece.strip() for piece in said.casefold().split(";") if piece.strip()]
    remedy = "write 19:15 to 21:45, or 19:15 for 2.5 h; a second one after ; is for the weekend"
    if len(pieces) > 2:
        problems.append(Problem("From when to when?", "has more than two stretches", remedy))
        return []
    found = []
    for piece in pieces:
        stretch = _stretch(piece)
        if stretch is None:
            problems.append(Problem("From when to when?", f"'{piece}' cannot be read", remedy))
        elif not 0 < stretch.minutes <= LONGEST_MINUTES:
            problems.append(
                Problem("From when to when?", f"'{piece}' ends before it starts", remedy)
            )
        else:
            found.append(stretch)
    return found


def _stretch(piece: str) -> Stretch | None:
    if spoken := _FROM_TO.fullmatch(piece):
        end = _clock(spoken[4], spoken[5], spoken[6])
        # "7 to 9:30 pm" begins in the evening, "10 to 3 pm" in the morning: the shorter is meant.
        halves = {spoken[3]} if spoken[3] else {None, spoken[6]}
        starts = [_clock(spoken[1], spoken[2], half) for half in halves]
        spans = [_span(start, end) for start in starts if start is not None and end is not None]
        return min(spans, key=lambda stretch: stretch.minutes, default=None)
    if spoken := _FROM_FOR.fullmatch(piece):
        start = _clock(spoken[1], spoken[2], spoken[3])
        return None if start is None else Stretch(start, round(float(spoken[4]) * 60))
    return None


def _span(start: time, end: time) -> Stretch:
    minutes = (end.hour - start.hour) * 60 + end.minute - start.minute
    # Past midnight is a late evening, not a mistake.
    return Stretch(start, minutes if minutes > 0 else minutes + 24 * 60)


def _clock(hours: str, minutes: str | None, half: str | None) -> time | None:
    hour, minute = int(hours), int(minutes or 0)
    if half and hour > 12:
        return None
    if half == "pm" and hour < 12:
        hour += 12
    if half == "am" and hour == 12:
        hour = 0
    return time(hour, minute) if hour < 24 and minute < 60 else None
