"""The forecasts that the demo's owner kept: how the date slipped, as dates do.

All of it is made up: the days are counted from the day on which the demo is made (a negative
number lies behind), so that they slip towards what the plan says today.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from bareshell.demo.days import pattern_day
from bareshell.demo.told import Book
from bareshell.demo.walk import Session
from bareshell.model.changes import ForecastIssued
from bareshell.model.forecast import IssuedForecast, IssuedGate, PlannedWork

Days = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Kept:
    """One forecast: so many days ago, the three dates, the hours left, the gates foretold."""

    days_ago: int
    road: Days
    hours_left: float
    gates: tuple[tuple[str, Days], ...] = ()


KEPT: Final = (
    Kept(266, (212, 300, 420), 520, (("headlining", (-150, -118, -80)),
                                     ("pushed-roll", (-95, -66, -30)))),
    Kept(238, (221, 304, 424), 495, (("headlining", (-145, -120, -90)),
                                     ("pushed-roll", (-90, -64, -30)))),
    Kept(210, (244, 322, 440), 468, (("headlining", (-138, -118, -92)),)),
    Kept(182, (240, 314, 432), 441),
    Kept(154, (263, 329, 452), 412),
    Kept(126, (281, 344, 480), 388),
    Kept(98, (298, 352, 512), 359),
    Kept(70, (319, 361, 540), 331),
    Kept(42, (336, 372, 570), 306),
    Kept(8, (347, 386, 596), 284),
)  # fmt: skip

TWO_WEEKS = timedelta(days=14)

WAITED_FOR = "heater-fit"
"""What the last plan had and a part holds up."""

NEXT = ("hose-bracket-right", "front-hoses")
"""What it has for the next garage day."""


def tell_forecasts(book: Book, today: date, sessions: Sequence[Session]) -> None:
    """Write the forecasts, each after a session."""
    for kept in KEPT:
        day = today - timedelta(days=kept.days_ago)
        after = next(session for session in sessions if session.day.day >= day)
        at = after.ends + timedelta(minutes=25)
        said, last = after.day.day, kept is KEPT[-1]
        forecast = IssuedForecast(
            id=said.isoformat(),
            made_at=at,
            p50=_day(today, kept.road[0]),
            p80=_day(today, kept.road[1]),
            p95=_day(today, kept.road[2]),
            samples=2000,
            seed=7,
            hours_left=kept.hours_left,
            gates=tuple(
                IssuedGate(gate, *(_day(today, when) for when in days)) for gate, days in kept.gates
            ),
            planned=(*_planned(sessions, after, last=last), *(_next(today) if last else ())),
        )
        book.tell(at, ForecastIssued(forecast))


def _next(today: date) -> list[PlannedWork]:
    """Plan what comes next for the first garage day from today on."""
    days = (today + timedelta(days=n) for n in range(8))
    day = next(day for day in days if pattern_day(day, today) is not None)
    return [PlannedWork(day, job) for job in NEXT]


def _day(today: date, days: int) -> date:
    return today + timedelta(days=days)


def _planned(sessions: Sequence[Session], after: Session, *, last: bool) -> list[PlannedWork]:
    """Plan what was done in the two weeks that followed, and a little more, as plans do."""
    since = [one for one in sessions if one.day.day > after.day.day]
    soon = [one for one in since if one.day.day - after.day.day <= TWO_WEEKS]
    later = [one for one in since if one.day.day - after.day.day > TWO_WEEKS]
    first: dict[str, date] = {}
    for session in soon:
        for piece in session.pieces:
            first.setdefault(piece.job, session.day.day)
    too_much = [piece.job for session in later[:2] for piece in session.pieces]
    end = after.day.day + TWO_WEEKS - timedelta(days=1)
    if last:
        too_much = [WAITED_FOR]
        end = soon[-1].day.day if soon else end
    planned = [PlannedWork(day, job) for job, day in first.items()]
    return [*planned, *(PlannedWork(end, job) for job in too_much if job not in first)]
